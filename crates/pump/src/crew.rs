//! What the crew does: the rate it goes for, how fast it changes it, and when it believes that a
//! ball has landed.

use plan::Program;
use plan::balls::BallCard;
use quantity::*;

use crate::flight::Flight;

/// The crew's rules.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Rules {
    /// Time from a standstill to the highest rate of the job.
    pub ramp: Time,
    /// From the moment the surface sees a landing until the crew acts on it.
    pub reaction: Time,
    /// How long the recorder runs on after the pumps have stopped.
    pub shut_in: Time,
    /// Rate at which a closed string is pressed to open its first sleeve.
    pub pressing: FlowRate,
    /// Time in which a trip brings the pumps to a standstill.
    pub trip_time: Time,
    /// Wait after a trip before the job goes on, where it may.
    pub restart: Time,
}

impl Rules {
    /// Those of the job file; what is taken where it has none.
    pub fn of(job: &well::Job) -> Self {
        let Some(c) = &job.file.crew else { return Self::default() };
        Self {
            ramp: c.ramp,
            reaction: c.reaction,
            shut_in: c.shut_in,
            pressing: c.pressing,
            trip_time: c.trip_time,
            restart: c.restart,
        }
    }
}

impl Default for Rules {
    /// What is taken where the job file gives nothing; each is listed as an assumption of a run.
    fn default() -> Self {
        Self {
            ramp: Time::seconds(60.0),
            reaction: Time::seconds(15.0),
            shut_in: Time::minutes(10.0),
            pressing: FlowRate::bbl_per_min(1.0),
            trip_time: Time::seconds(3.0),
            restart: Time::minutes(5.0),
        }
    }
}

/// What the crew is at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Mode {
    /// Bringing the first ball down, or opening the first sleeve by pressure.
    Opening,
    /// Pumping the schedule.
    Pumping,
    /// A ball has landed; the crew has not acted on it yet.
    Landed {
        /// Stage it opened.
        stage: usize,
        /// When the crew acts.
        acts: Time,
    },
    /// All is pumped; the recorder runs on.
    ShutIn {
        /// Since when.
        since: Time,
    },
    /// The pumps tripped, or the crew stopped the job.
    Stopped {
        /// Since when.
        since: Time,
        /// When they are started again, if they are.
        resumes: Option<Time>,
    },
}

/// The crew at work.
#[derive(Debug, Clone)]
pub struct Crew<'a> {
    cards: &'a [BallCard],
    /// Planned rate of every stage.
    planned: Vec<FlowRate>,
    rules: Rules,
    /// What it is at.
    pub mode: Mode,
    /// Rate now.
    pub rate: FlowRate,
    /// Rate the crew has come down to because of pressure; none while it has not.
    pub held: Option<FlowRate>,
    fastest: FlowRate,
    opening: FlowRate,
}

impl<'a> Crew<'a> {
    /// A crew with a program, at a standstill.
    pub fn new(program: &'a Program, rules: Rules) -> Self {
        let cards = program.balls.as_ref().map_or(&[][..], |b| &b.cards);
        let planned: Vec<FlowRate> = program
            .stages
            .as_ref()
            .map_or_else(Vec::new, |s| s.stages.iter().map(|s| s.planned_rate).collect());
        let fastest = planned.iter().copied().fold(FlowRate::ZERO, FlowRate::max);
        let opening = cards.iter().find(|c| c.stage == 1).map_or(rules.pressing, |c| c.rate_before);
        Self {
            cards,
            planned,
            rules,
            mode: Mode::Opening,
            rate: FlowRate::ZERO,
            held: None,
            fastest,
            opening,
        }
    }

    /// The card of a ball.
    pub fn card(&self, stage: usize) -> Option<&'a BallCard> {
        self.cards.iter().find(|c| c.stage == stage)
    }

    /// Planned rate of a stage.
    pub fn planned(&self, stage: usize) -> FlowRate {
        stage.checked_sub(1).and_then(|i| self.planned.get(i)).copied().unwrap_or(self.opening)
    }

    /// The rate it goes for, with the stage that takes fluid and the ball on its way.
    pub fn goal(&self, open: usize, ball: Option<&Flight>) -> FlowRate {
        let wanted = match self.mode {
            Mode::ShutIn { .. } | Mode::Stopped { .. } => return FlowRate::ZERO,
            Mode::Landed { stage, .. } => self.card(stage).map_or(self.opening, |c| c.landing_rate),
            Mode::Opening if ball.is_none() => self.opening,
            Mode::Opening | Mode::Pumping => match ball.and_then(|b| Some((b, self.card(b.stage)?))) {
                Some((b, card)) if b.pumped >= card.rate_cut_at => card.landing_rate,
                _ => self.planned(open),
            },
        };
        self.held.map_or(wanted, |h| wanted.min(h))
    }

    /// Changes the rate toward the goal for a stretch of time and returns the mean rate over it. A
    /// trip stops the pumps faster than a ramp.
    pub fn ramp(&mut self, goal: FlowRate, dt: Time) -> FlowRate {
        let steepest = self.steepest();
        let (from, gap) = (self.rate.si(), goal.si() - self.rate.si());
        let takes = gap.abs() / steepest;
        if takes <= dt.si() {
            self.rate = goal;
            return FlowRate::from_si(goal.si() - gap * takes / (2.0 * dt.si()));
        }
        self.rate = FlowRate::from_si(from + steepest.copysign(gap) * dt.si());
        FlowRate::from_si(0.5 * (from + self.rate.si()))
    }

    /// How fast the rate changes, m³/s a second: in a stop the pumps run down faster than they ramp.
    fn steepest(&self) -> f64 {
        let stopped = matches!(self.mode, Mode::Stopped { .. } | Mode::ShutIn { .. });
        let over = if stopped { self.rules.trip_time } else { self.rules.ramp };
        self.fastest.max(self.opening).si() / over.si().max(1e-3)
    }

    /// Volume that still goes in once the pumps are told to stop.
    pub fn run_down(&self) -> Volume {
        let steepest = self.fastest.max(self.opening).si() / self.rules.trip_time.si().max(1e-3);
        Volume::m3(self.rate.si().powi(2) / (2.0 * steepest))
    }

    /// The rules.
    pub fn rules(&self) -> &Rules {
        &self.rules
    }
}
