//! What a run leaves.

use plan::Header;
use quantity::*;
use well::Finding;
use well::record::Assumption;

use crate::column::Amount;
use crate::record::{Event, Sample};

/// One landing beside what the ball program expected of it.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct LandingRun {
    /// Stage of the seat.
    pub stage: usize,
    /// Time of the launch.
    pub launched: Time,
    /// Time of the landing.
    pub landed: Time,
    /// Time at which the sleeve opened.
    pub opened: Option<Time>,
    /// Slurry pumped from launch to landing.
    pub pumped: Volume,
    /// Slurry over the volume swept from launcher to seat.
    pub ratio: Ratio,
    /// Rate at the landing.
    pub rate: FlowRate,
    /// Highest surface pressure from the landing until the rings had died.
    pub highest: GaugePressure,
}

/// One stage as it was pumped.
#[derive(Debug, Clone, Copy, PartialEq, Default, serde::Serialize, schemars::JsonSchema)]
pub struct StageRun {
    /// Number, 1 at the toe.
    pub stage: usize,
    /// What went in at the surface on its meter.
    pub pumped: Amount,
    /// What went out through its sleeve.
    pub placed: Amount,
    /// Clean fluid through its sleeve behind its last proppant.
    pub behind: Volume,
    /// Highest treating pressure while its sleeve took fluid.
    pub highest: GaugePressure,
    /// Highest slurry rate while its sleeve took fluid.
    pub fastest: FlowRate,
}

/// A run of the whole job.
#[derive(Debug, Clone, serde::Serialize, schemars::JsonSchema)]
pub struct Run {
    /// What the documents say of themselves.
    pub header: Header,
    /// Time between samples.
    pub sample: Time,
    /// Samples; they are written as channels.
    #[serde(skip)]
    pub samples: Vec<Sample>,
    /// Events in their order.
    pub events: Vec<Event>,
    /// Landings in their order.
    pub landings: Vec<LandingRun>,
    /// Stages, stage 1 first; what went to the path at the toe is at place 0.
    pub stages: Vec<StageRun>,
    /// All that was pumped.
    pub pumped: Amount,
    /// What is left in the string.
    pub in_string: Amount,
    /// What was in the string at the start.
    pub at_start: Amount,
    /// How the job ended.
    pub finished: bool,
    /// Findings.
    pub findings: Vec<Finding>,
    /// Assumptions of the simulation, beyond those of the plan.
    pub assumptions: Vec<Assumption>,
}

impl Run {
    /// What was in the string and was pumped, less what was placed and is left: zero but for
    /// rounding.
    pub fn lost(&self) -> Amount {
        let placed = self.stages.iter().fold(Amount::default(), |sum, s| sum + s.placed);
        let less = |a: Amount| a.share(-1.0);
        self.at_start + self.pumped + less(placed) + less(self.in_string)
    }
}
