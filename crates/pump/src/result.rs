//! What a run leaves.

use plan::Header;
use quantity::*;
use well::Finding;
use well::record::Assumption;

use crate::column::Amount;
use crate::fault::Label;
use crate::flight::Whereabouts;
use crate::record::{Event, Sample};
use crate::sleeve::SleeveState;

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
    /// Pressure at the surface just after the pumps stopped, the waves taken off, where they did.
    pub shut_in: Option<GaugePressure>,
    /// Its fracture when it took fluid last; none where the job file has no `[rock.fracture]`.
    pub rock: Option<RockRun>,
}

/// A sleeve over the job.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct SleeveTrace {
    /// Stage; 0 is the path at the toe.
    pub stage: usize,
    /// Measured depth of its ports.
    pub depth: MeasuredDepth,
    /// Differential at which it was drawn to open.
    pub shear: Pressure,
    /// States with the time from which each holds.
    pub states: Vec<(Time, SleeveState)>,
}

/// A ball over the job.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct BallTrace {
    /// Stage it is for.
    pub stage: usize,
    /// Diameter as it was launched.
    pub diameter: Diameter,
    /// Where it was from which time on, with its depth then.
    pub places: Vec<(Time, Whereabouts, MeasuredDepth)>,
}

/// The fracture of a stage at the end of its time, as the model has it.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct RockRun {
    /// Pressure at the well above closure.
    pub net_pressure: Pressure,
    /// Length of a wing, or the radius.
    pub length: Length,
    /// Greatest width.
    pub width: Diameter,
    /// Width averaged over the face.
    pub mean_width: Diameter,
    /// Volume open over volume taken in.
    pub efficiency: Ratio,
    /// Share of the volume that went in ahead of the first proppant.
    pub pad: Ratio,
    /// Share that a pad needs at that efficiency, so that proppant reaches the tip when the stage ends.
    pub pad_needed: Ratio,
    /// Share of the face that slurry has reached.
    pub front: Ratio,
    /// Whether it screened out.
    pub screened_out: bool,
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
    /// What the faults of the run really did, in the order they began.
    pub labels: Vec<Label>,
    /// What became of every sleeve, stage 1 first; the path at the toe before it.
    pub sleeves: Vec<SleeveTrace>,
    /// What became of every ball, in the order of their launches.
    pub balls: Vec<BallTrace>,
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
    /// What the relief valve let off.
    pub relieved: Amount,
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
    /// The run with its words in a system of units, as it is handed to a reader of figures in SI.
    pub fn settled(mut self, system: System) -> Self {
        self.findings.iter_mut().for_each(|f| f.settle(system));
        self.assumptions.iter_mut().for_each(|a| a.settle(system));
        self
    }

    /// What was in the string and was pumped, less what was placed, let off and is left: zero but for
    /// rounding.
    pub fn lost(&self) -> Amount {
        let placed = self.stages.iter().fold(Amount::default(), |sum, s| sum + s.placed);
        let less = |a: Amount| a.share(-1.0);
        self.at_start + self.pumped + less(placed) + less(self.in_string) + less(self.relieved)
    }
}
