//! Packers and shear devices: swelling, setting, holding.

use crate::Relation;

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[];
