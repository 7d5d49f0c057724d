//! Why a job cannot be simulated.

use quantity::Value;

/// Why a job cannot be simulated.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PumpError {
    /// The plan lacks a part that the simulator stands on.
    #[error(
        "the plan has no {part}, so there is nothing to pump; run `heelward plan` and mend its stops first"
    )]
    NoPlan {
        /// What is missing.
        part: &'static str,
    },
    /// A setting is out of its range.
    #[error("{name} is {}, outside {limit}; {hint}", .value.text(quantity::System::Field))]
    Setting {
        /// Which setting.
        name: &'static str,
        /// What it is.
        value: Value,
        /// What it may be.
        limit: &'static str,
        /// What to do.
        hint: &'static str,
    },
    /// A fault or a scenario that is none.
    #[error("{value}: {reason}; {hint}")]
    Fault {
        /// What was given.
        value: String,
        /// What is wrong with it.
        reason: String,
        /// What to do.
        hint: String,
    },
    /// A relation refused its inputs.
    #[error(transparent)]
    Relation(#[from] physics::Error),
}
