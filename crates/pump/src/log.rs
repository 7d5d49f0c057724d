//! What is written down while the job runs.

use quantity::*;
use well::Finding;

use crate::column::Amount;
use crate::record::{Event, EventKind, Sample};
use crate::result::{LandingRun, StageRun};

/// The meters and the diary of a run.
#[derive(Debug, Clone)]
pub(crate) struct Log {
    pub samples: Vec<Sample>,
    pub events: Vec<Event>,
    pub landings: Vec<LandingRun>,
    /// The path at the toe first, then stage 1.
    pub stages: Vec<StageRun>,
    pub findings: Vec<Finding>,
    /// All that was pumped.
    pub pumped: Amount,
    /// What was in the string at the start.
    pub at_start: Amount,
    /// Pumped since the last sample.
    pub since: Amount,
    /// Parts of the string below a landed ball.
    pub below_balls: Amount,
    /// Stage on the meter.
    pub meter: usize,
}

impl Log {
    pub fn new(stages: usize, at_start: Amount) -> Self {
        let one = |stage| StageRun { stage, ..StageRun::default() };
        Self {
            samples: Vec::new(),
            events: Vec::new(),
            landings: Vec::new(),
            stages: (0..=stages).map(one).collect(),
            findings: Vec::new(),
            pumped: Amount::default(),
            at_start,
            since: Amount::default(),
            below_balls: Amount::default(),
            meter: 0,
        }
    }

    /// Counts what went past the meter for a stage.
    pub fn pumped(&mut self, stage: usize, amount: Amount) {
        self.meter = stage;
        self.pumped += amount;
        self.since += amount;
        if let Some(s) = self.stages.get_mut(stage) {
            s.pumped += amount;
        }
    }

    /// Counts what went out through the sleeve of a stage; true where that is its first proppant.
    pub fn placed(&mut self, stage: usize, amount: Amount) -> bool {
        let Some(s) = self.stages.get_mut(stage) else { return false };
        let first = s.placed.mass.si() <= 0.0 && amount.mass.si() > 0.0;
        s.placed += amount;
        if amount.mass.si() > 0.0 {
            s.behind = Volume::ZERO;
        } else if s.placed.mass.si() > 0.0 {
            s.behind += amount.clean;
        }
        first
    }

    /// Writes an event down.
    pub fn event(&mut self, time: f64, kind: EventKind, stage: usize, text: String) {
        self.events.push(Event { time: Time::seconds(time), kind, stage, text });
    }
}
