//! Tubulars: ratings, stresses, forces and length changes.

use crate::Relation;

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[];
