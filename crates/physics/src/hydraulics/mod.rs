//! Flow: pipe friction, seats, ports, columns, pressure waves, compression.

use crate::Relation;

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[];
