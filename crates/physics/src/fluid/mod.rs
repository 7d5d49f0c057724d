//! Fluids: water, brine, slurry, rheology.

use crate::Relation;

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[];
