//! Heat: conduction round the hole and temperature of the pumped fluid.

use crate::Relation;

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[];
