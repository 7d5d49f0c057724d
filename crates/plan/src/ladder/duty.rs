//! What the ball of a stage has to bear: differential, temperature, time in the fluid, and the
//! proppant that went through its seat before.

use physics::Result;
use physics::ball::recession::Arrhenius;
use physics::ball::seat_erosion::Sand;
use physics::hydraulics::port::port_loss;
use quantity::*;
use well::Job;

use super::pumped::{Pumped, heaviest, lightest, pumped, sand_below};
use crate::layout::{Layout, StagePlace};
use crate::path::FlowPath;
use crate::stages::Mixture;

/// What the ball of a stage has to bear.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Duty {
    /// Stage.
    pub stage: usize,
    /// Vertical depth of its sleeve.
    pub tvd: TrueVerticalDepth,
    /// Temperature of the undisturbed rock there.
    pub rock: Temperature,
    /// What is pumped into it.
    pub pumped: Pumped,
    /// Friction near the wellbore at its rate.
    pub near_wellbore: Pressure,
    /// Loss of its ports at its rate with the heaviest slurry.
    pub ports: Pressure,
    /// Treating pressure inside the sleeve.
    pub treating: GaugePressure,
    /// Pressure below the ball.
    pub below: GaugePressure,
    /// Static pressure with the surface at its limit.
    pub worst: GaugePressure,
    /// Proppant of the stages below.
    pub sand: Vec<Sand>,
    /// From launch to landing.
    pub transit: Time,
    /// From landing until the next ball has landed.
    pub stage_time: Time,
    /// Recession of a dissolving ball at the temperature of the rock.
    pub recession: Option<RecessionRate>,
}

impl Duty {
    /// Differential the ball is expected to hold.
    pub fn expected(&self) -> Pressure {
        (self.treating - self.below).max(Pressure::ZERO)
    }

    /// Differential of the worst static case.
    pub fn worst_static(&self) -> Pressure {
        (self.worst - self.below).max(Pressure::ZERO)
    }

    /// All its time in the fluid.
    pub fn time_in_fluid(&self) -> Time {
        self.transit + self.stage_time
    }
}

/// The law of a dissolving ball.
pub(super) fn dissolving(job: &Job) -> Option<Arrhenius> {
    let d = job.file.ball.dissolving.as_ref()?;
    Some(Arrhenius { recession: d.recession, reference: d.temperature, activation: d.activation_energy })
}

/// The job as the balls see it.
pub(super) struct Scene<'a> {
    /// The job.
    pub job: &'a Job,
    /// Duties of all stages, stage 1 first.
    pub duties: Vec<Duty>,
    /// The heaviest slurry.
    pub heaviest: (Mixture<'a>, Density),
}

impl<'a> Scene<'a> {
    /// For a job and its layout; none where the treatment names no fluid.
    pub fn new(job: &'a Job, layout: &Layout) -> Result<Option<Self>> {
        let (Some(heaviest), Some(lightest)) = (heaviest(job)?, lightest(job)) else { return Ok(None) };
        let stages = layout.stages.iter().map(|s| pumped(job, s.stage)).collect::<Result<Vec<_>>>()?;
        let times = Times::new(job, layout, &stages);
        let mut scene = Self { job, duties: Vec::with_capacity(stages.len()), heaviest };
        for (place, pumped) in layout.stages.iter().zip(&stages) {
            let mut duty = scene.duty(layout, place, *pumped, lightest)?;
            duty.sand = sand_below(&stages, place.stage);
            duty.transit = times.transit(place.stage);
            duty.stage_time = times.stage_time(place.stage);
            scene.duties.push(duty);
        }
        Ok(Some(scene))
    }

    /// The duty of a stage.
    pub fn duty_of(&self, stage: usize) -> Option<&Duty> {
        stage.checked_sub(1).and_then(|i| self.duties.get(i))
    }

    /// Pressures and temperature at a stage.
    fn duty(&self, layout: &Layout, place: &StagePlace, pumped: Pumped, lightest: Density) -> Result<Duty> {
        let (file, tvd) = (&self.job.file, place.sleeve.tvd);
        let depth = Length::m(tvd.si());
        let nominal = file.treatment.rate.si().max(f64::MIN_POSITIVE);
        let near_wellbore = file.treatment.near_wellbore * (pumped.rate.si().max(0.0) / nominal).sqrt();
        let area = file.sleeve.port_diameter.circle() * file.sleeve.ports as f64;
        let ports = port_loss(area, file.sleeve.port_coefficient.si(), self.heaviest.1)?.at(pumped.rate);
        let treating = pumped.fracture_gradient * depth + near_wellbore + ports;
        let pore = |place: &StagePlace| file.rock.pore_gradient * Length::m(place.sleeve.tvd.si());
        let below = match place.stage.checked_sub(1).and_then(|s| layout.stage(s)) {
            Some(below) => pore(below),
            None => pore(place).min(lightest.gradient() * depth),
        };
        let recession = match dissolving(self.job) {
            Some(law) => Some(law.at(place.sleeve.temperature)?),
            None => None,
        };
        Ok(Duty {
            stage: place.stage,
            tvd,
            rock: place.sleeve.temperature,
            pumped,
            near_wellbore,
            ports,
            treating: treating.gauge(),
            below: below.gauge(),
            worst: file.limits.treating_pressure + self.heaviest.1.gradient() * depth,
            sand: Vec::new(),
            transit: Time::ZERO,
            stage_time: Time::ZERO,
            recession,
        })
    }
}

/// Times of balls and stages, from volumes and rates wanted.
struct Times<'a> {
    job: &'a Job,
    stages: &'a [Pumped],
    to_seat: Vec<Volume>,
}

impl<'a> Times<'a> {
    fn new(job: &'a Job, layout: &Layout, stages: &'a [Pumped]) -> Self {
        let path = FlowPath::of(job, layout);
        let surface = job.file.launcher.tree_volume;
        let to_seat = layout.stages.iter().map(|s| surface + path.volume_to(s.sleeve.ports)).collect();
        Self { job, stages, to_seat }
    }

    fn rate(&self, stage: usize) -> FlowRate {
        let at = self.stages.get(stage.saturating_sub(1)).or(self.stages.last());
        at.map_or(self.job.file.treatment.rate, |p| p.rate)
    }

    /// Launch to landing: at the rate of the stage before, the last volume at the slowest rate of
    /// landing.
    fn transit(&self, stage: usize) -> Time {
        let Some(volume) = stage.checked_sub(1).and_then(|i| self.to_seat.get(i)).copied() else {
            return Time::ZERO;
        };
        let program = &self.job.file.ball_program;
        let fast = self.rate(stage.saturating_sub(1).max(1));
        let slow = program.landing_rate.iter().copied().min_by(FlowRate::total_cmp).unwrap_or(fast);
        let cut = program.cut_before.max(Volume::ZERO).min(volume);
        lasting(volume - cut, fast) + lasting(cut, slow.min(fast))
    }

    /// Landing until the next ball has landed; for the last stage, until its flush is in place.
    fn stage_time(&self, stage: usize) -> Time {
        let slurry = stage.checked_sub(1).and_then(|i| self.stages.get(i)).map_or(Volume::ZERO, |p| p.slurry);
        let treatment = &self.job.file.treatment;
        let next = if stage < self.stages.len() { stage + 1 } else { stage };
        let pumping = lasting(slurry + self.job.file.ball_program.spacer_ahead, self.rate(stage));
        treatment.breakdown_time + pumping + self.transit(next)
    }
}

/// Time to pump a volume; zero where there is no rate.
fn lasting(volume: Volume, rate: FlowRate) -> Time {
    if rate > FlowRate::ZERO { volume / rate } else { Time::ZERO }
}
