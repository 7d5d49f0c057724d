//! Hole geometry: the survey, bores and annuli, stiff bodies in bends.

use crate::Relation;

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[];
