//! What is written down while the job runs.

use quantity::*;
use well::Finding;

use crate::column::Amount;
use crate::flight::Flight;
use crate::record::{Event, EventKind, Sample};
use crate::result::{BallTrace, LandingRun, SleeveTrace, StageRun};
use crate::sleeve::{Sleeve, SleeveState};

/// The meters and the diary of a run.
#[derive(Debug, Clone)]
pub(crate) struct Log {
    pub samples: Vec<Sample>,
    pub events: Vec<Event>,
    pub landings: Vec<LandingRun>,
    pub sleeves: Vec<SleeveTrace>,
    pub balls: Vec<BallTrace>,
    /// The path at the toe first, then stage 1.
    pub stages: Vec<StageRun>,
    pub findings: Vec<Finding>,
    /// All that was pumped.
    pub pumped: Amount,
    /// What the relief valve let off.
    pub relieved: Amount,
    /// What was in the string at the start.
    pub at_start: Amount,
    /// Pumped since the last sample.
    pub since: Amount,
    /// Parts of the string below a landed ball.
    pub below_balls: Amount,
    /// Stage on the meter.
    pub meter: usize,
    /// Slurry of the job at the first proppant of each stage.
    first: Vec<Option<Volume>>,
}

impl Log {
    pub fn new(stages: usize, at_start: Amount, sleeves: &[Sleeve]) -> Self {
        let one = |stage| StageRun { stage, ..StageRun::default() };
        Self {
            samples: Vec::new(),
            events: Vec::new(),
            landings: Vec::new(),
            sleeves: sleeves.iter().map(trace).collect(),
            balls: Vec::new(),
            stages: (0..=stages).map(one).collect(),
            findings: Vec::new(),
            pumped: Amount::default(),
            relieved: Amount::default(),
            at_start,
            since: Amount::default(),
            below_balls: Amount::default(),
            meter: 0,
            first: vec![None; stages + 1],
        }
    }

    /// Counts what went past the meter for a stage.
    pub fn pumped(&mut self, stage: usize, amount: Amount) {
        self.meter = stage;
        if amount.mass.si() > 0.0
            && let Some(first) = self.first.get_mut(stage)
        {
            first.get_or_insert(self.pumped.slurry);
        }
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

    /// Slurry of the job when the first proppant of a stage passed the meter.
    pub fn first_proppant(&self, stage: usize) -> Option<Volume> {
        self.first.get(stage).copied().flatten()
    }

    /// Writes down what a sleeve is from now on.
    pub fn sleeve_is(&mut self, stage: usize, state: SleeveState, time: f64) {
        let trace = self.sleeves.iter_mut().find(|s| s.stage == stage);
        if let Some(trace) = trace.filter(|t| t.states.last().is_none_or(|s| s.1 != state)) {
            trace.states.push((Time::seconds(time), state));
        }
    }

    /// Writes down where a ball is from now on.
    pub fn ball_is(&mut self, ball: &Flight, time: f64) {
        let known = self.balls.iter().rposition(|b| b.stage == ball.stage);
        let at = known.unwrap_or(self.balls.len());
        if known.is_none() {
            let (stage, diameter) = (ball.stage, ball.diameter);
            self.balls.push(BallTrace { stage, diameter, places: Vec::new() });
        }
        if let Some(trace) = self.balls.get_mut(at)
            && trace.places.last().is_none_or(|p| p.1 != ball.place)
        {
            trace.places.push((Time::seconds(time), ball.place, ball.depth()));
        }
    }

    /// Writes an event down.
    pub fn event(&mut self, time: f64, kind: EventKind, stage: usize, text: String) {
        self.events.push(Event { time: Time::seconds(time), kind, stage, text });
    }
}

fn trace(sleeve: &Sleeve) -> SleeveTrace {
    SleeveTrace {
        stage: sleeve.stage,
        depth: sleeve.depth,
        shear: sleeve.shear,
        states: vec![(Time::ZERO, sleeve.state)],
    }
}
