//! What may be asked.

use quantity::System;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use well::form::Edit;
use well::job::Units;

/// Units of an answer; those of the job where none are asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(crate) enum Shown {
    /// Feet, inches, psi, barrels.
    Field,
    /// Metres, millimetres, megapascals, cubic metres.
    Metric,
}

impl Shown {
    /// Units of a system.
    pub fn of(system: System) -> Self {
        if system == System::Metric { Self::Metric } else { Self::Field }
    }

    /// The units asked for, or those of a job.
    pub fn system(asked: Option<Self>, of_job: Option<Units>) -> System {
        match asked {
            Some(Self::Field) => System::Field,
            Some(Self::Metric) => System::Metric,
            None => of_job.map_or(System::Field, Units::system),
        }
    }
}

/// The job file as it is being edited; the one on disk where there is no text.
#[derive(Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct Edited {
    /// Text of the job file.
    pub text: Option<String>,
    /// Units of the answer.
    pub units: Option<Shown>,
}

/// A figure to be opened.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct Figure {
    /// Text of the job file; the one on disk without it.
    pub text: Option<String>,
    /// Name of the figure, such as `stage.3.rate_ceiling`.
    pub figure: String,
    /// Units of the answer.
    pub units: Option<Shown>,
}

/// A job file to be saved.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct Save {
    /// Text of the job file.
    pub text: String,
    /// Hash of the job file it was made from.
    pub base: String,
}

/// Edits of single fields.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct Edits {
    /// Text of the job file; the one on disk without it.
    pub text: Option<String>,
    /// The edits, done in order; all or none.
    pub edits: Vec<Edit>,
}

/// A run of the job.
#[derive(Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct RunOf {
    /// Text of the job file; the one on disk without it.
    pub text: Option<String>,
    /// Faults, each as `name@stage` with options.
    #[serde(default)]
    pub faults: Vec<String>,
    /// Whether gauges and meters have noise.
    #[serde(default)]
    pub noise: bool,
    /// Seed of the noise.
    pub seed: Option<u64>,
    /// Time between samples, s.
    pub sample: Option<f64>,
    /// The same round events, s.
    pub fine: Option<f64>,
}
