//! Why a pipe cannot be described or rated.

use super::check;
use crate::finding::{Check, Finding};
use physics::Error;
use quantity::{Diameter, MassPerLength, Value};

/// A pipe cannot be described or rated.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum TubularError {
    /// The catalogue has no such size and weight, and no inner diameter was given.
    #[error("{outer} pipe of {weight} is not in the catalogue; nearest: {nearest}")]
    NoSize {
        /// Outer diameter asked for.
        outer: Diameter,
        /// Weight asked for.
        weight: MassPerLength,
        /// The nearest sizes there are.
        nearest: String,
    },
    /// The catalogue has no such grade, and no yield strength was given.
    #[error("grade `{name}` is not in the catalogue{}; it has {known}", near(.nearest))]
    NoGrade {
        /// Grade asked for.
        name: String,
        /// The nearest grade there is.
        nearest: Option<String>,
        /// All grades.
        known: String,
    },
    /// A measure lies where no pipe has it.
    #[error("{what} is {}; it must be {limit}", .value.exact_text(quantity::System::Field, 6))]
    Measure {
        /// What is measured.
        what: &'static str,
        /// Its value.
        value: Value,
        /// The limit in words.
        limit: &'static str,
    },
    /// The ultimate strength is needed and was not given.
    #[error("the joint strength of {pipe} needs the ultimate strength of grade `{grade}`")]
    NoUltimate {
        /// The pipe.
        pipe: String,
        /// Its grade.
        grade: String,
    },
    /// The size is not made with that thread, or its thread length is not in the catalogue.
    #[error("no thread length of {thread} is known for {pipe}")]
    NoThread {
        /// The pipe.
        pipe: String,
        /// The thread.
        thread: &'static str,
    },
    /// A rated connection without the rating asked for.
    #[error("the connection of {pipe} has no {rating} rating")]
    NoRating {
        /// The pipe.
        pipe: String,
        /// The rating.
        rating: &'static str,
    },
    /// A relation refused.
    #[error(transparent)]
    Relation(#[from] Error),
    /// The catalogue that comes with the program cannot be read: a fault of the program.
    #[error("the catalogue of tubulars cannot be read: {0}")]
    Catalogue(String),
}

fn near(nearest: &Option<String>) -> String {
    nearest.as_ref().map(|n| format!(" (nearest: `{n}`)")).unwrap_or_default()
}

impl TubularError {
    /// The check it stands for.
    pub fn check(&self) -> &'static Check {
        match self {
            Self::NoSize { .. } => &check::SIZE,
            Self::NoGrade { .. } => &check::GRADE,
            Self::NoUltimate { .. } => &check::STRENGTH,
            Self::NoThread { .. } => &check::THREAD,
            Self::NoRating { .. } => &check::CONNECTION,
            Self::Measure { .. } | Self::Relation(_) | Self::Catalogue(_) => &check::MEASURE,
        }
    }

    /// As a finding; the caller adds the place.
    pub fn finding(&self) -> Finding {
        let finding = self.check().found(self.to_string());
        match self {
            Self::Measure { value, .. } => finding.value(*value),
            _ => finding,
        }
    }
}
