//! Facts of the trade that order the job: which ball, which seat, in which path.

use crate::Relation;

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[];
