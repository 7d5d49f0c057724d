//! Why a relation has no answer: value, unit, limit, place and next action.

use quantity::{System, UnitError, Value};

/// A relation could not be evaluated.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Error {
    /// There is no relation of that name.
    #[error("no relation is called `{name}`{}; `calc --list` names them all", near(.nearest))]
    UnknownRelation {
        /// The name as given.
        name: String,
        /// The closest name there is.
        nearest: Option<&'static str>,
    },
    /// The relation has no such input.
    #[error("{relation} has no input `{input}`{}; its inputs are: {inputs}", near(.nearest))]
    UnknownInput {
        /// The relation.
        relation: &'static str,
        /// The name as given.
        input: String,
        /// The closest name there is.
        nearest: Option<&'static str>,
        /// All input names.
        inputs: String,
    },
    /// An input without a default was not given.
    #[error("{relation} needs `{input}` ({doc}); give it as {example}")]
    Missing {
        /// The relation.
        relation: &'static str,
        /// The input.
        input: &'static str,
        /// What it is.
        doc: &'static str,
        /// How to write it.
        example: String,
    },
    /// An input's text is not of its kind.
    #[error("{relation}, input `{input}`: {source}")]
    Text {
        /// The relation.
        relation: &'static str,
        /// The input.
        input: &'static str,
        /// What is wrong with the text.
        source: UnitError,
    },
    /// An input's text is not one of the choices.
    #[error("{relation}, input `{input}`: `{found}` is none of {choices}")]
    Choice {
        /// The relation.
        relation: &'static str,
        /// The input.
        input: &'static str,
        /// The text as given.
        found: String,
        /// What may be given.
        choices: String,
    },
    /// A value lies where the relation has no meaning.
    #[error("{relation}: {name} is {}; it must be {limit}. {hint}", .value.exact_text(System::Field, 6))]
    Domain {
        /// The relation or kernel.
        relation: &'static str,
        /// The quantity.
        name: &'static str,
        /// Its value.
        value: Value,
        /// The limit in words.
        limit: String,
        /// The next action.
        hint: &'static str,
    },
    /// The inputs are each possible, but together have no solution.
    #[error("{relation}: {what}. {hint}")]
    NoSolution {
        /// The relation or kernel.
        relation: &'static str,
        /// What has no solution.
        what: String,
        /// The next action.
        hint: &'static str,
    },
    /// The arithmetic left the finite numbers.
    #[error(
        "{relation}: the result `{output}` is not a finite number; check the inputs against the stated range"
    )]
    NotFinite {
        /// The relation.
        relation: &'static str,
        /// The output.
        output: &'static str,
    },
}

fn near(nearest: &Option<&'static str>) -> String {
    nearest.map(|n| format!(" (nearest: `{n}`)")).unwrap_or_default()
}

/// The result of a relation.
pub type Result<T> = std::result::Result<T, Error>;

/// Refuses a value that breaks `ok`.
pub fn require(
    ok: bool,
    relation: &'static str,
    name: &'static str,
    value: impl Into<Value>,
    limit: impl Into<String>,
    hint: &'static str,
) -> Result<()> {
    if ok {
        Ok(())
    } else {
        Err(Error::Domain { relation, name, value: value.into(), limit: limit.into(), hint })
    }
}

/// Refuses a value that is not above zero.
pub fn require_positive(relation: &'static str, name: &'static str, value: impl Into<Value>) -> Result<()> {
    let value = value.into();
    require(value.si() > 0.0, relation, name, value, "above zero", "Check the input and its unit.")
}

/// Refuses a value below zero.
pub fn require_not_negative(
    relation: &'static str,
    name: &'static str,
    value: impl Into<Value>,
) -> Result<()> {
    let value = value.into();
    require(value.si() >= 0.0, relation, name, value, "zero or more", "Check the input and its unit.")
}
