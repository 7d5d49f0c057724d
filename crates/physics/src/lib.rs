//! Published relations of well completion: one phenomenon a file, each with its kernel as a
//! typed function and its entry in the register.
//!
//! This floor knows no job, no file, no clock and no text for a person.

pub mod ball;
pub mod error;
pub mod fluid;
pub mod fracture;
pub mod geometry;
pub mod hammer;
pub mod heat;
pub mod hydraulics;
pub mod packer;
pub mod practice;
pub mod registry;
pub mod solve;
pub mod tubular;

pub use error::{Error, Result};
pub use registry::{Argument, Arguments, Call, Evaluation, Input, InputKind, Output, Outputs, Relation};

/// Every registered relation, family by family.
pub fn relations() -> impl Iterator<Item = &'static Relation> {
    FAMILIES.iter().flat_map(|family| family.iter().copied())
}

/// The families, each listed by its own module.
static FAMILIES: &[&[&Relation]] = &[
    geometry::RELATIONS,
    tubular::RELATIONS,
    fluid::RELATIONS,
    hydraulics::RELATIONS,
    hammer::RELATIONS,
    ball::RELATIONS,
    packer::RELATIONS,
    heat::RELATIONS,
    fracture::RELATIONS,
    practice::RELATIONS,
];
