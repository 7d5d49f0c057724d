//! Balls and seats: contact stress, ladders, transport, dissolution.

use crate::Relation;

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[];
