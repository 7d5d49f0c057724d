//! The schedule of a stage, totals of the job, and what there is to say of both.

use physics::fluid::slurry::proppant_mass;
use physics::hydraulics::drag_reduction::DragLimit;
use physics::hydraulics::pipe_friction::{PipeFlow, pipe_friction};
use quantity::*;
use well::{Job, Severity};

use super::ceiling::{BoundBy, power_on_location};
use super::checks;
use super::mixture::Mixture;
use super::pressure::{StageLine, Worst};
use super::result::*;
use crate::rock::changes;
use crate::{Ledger, words};

fn scale(job: &Job, stage: usize) -> f64 {
    changes(job, stage).map(|c| c.scale.si()).product()
}

/// A mixture in words.
pub(super) fn mixture_words(mixture: &Mixture<'_>) -> Text {
    match mixture.proppant {
        Some(p) if mixture.concentration.si() > 0.0 => {
            let c = mixture.concentration;
            said!("{} with {c} of {}", mixture.fluid.name, p.name)
        }
        _ => (&mixture.fluid.name).into(),
    }
}

/// The mixtures of the highest pressure: which follows which in words, and where the front between
/// them stands; no front where the string holds one mixture.
pub(super) fn worst_words(
    mixtures: &[Mixture<'_>],
    worst: &Worst,
    line: &StageLine,
) -> Option<(Text, Option<TrueVerticalDepth>)> {
    let lower = mixtures.get(worst.lower)?;
    let clean = Mixture::clean(mixtures.first()?.fluid);
    let upper = mixtures.get(worst.lower + 1).unwrap_or(&clean);
    let (below, above) = (mixture_words(lower), mixture_words(upper));
    let depth = line.front_depth(worst);
    if below == above || depth.si() <= 0.0 {
        return Some((below, None));
    }
    Some((said!("{above} behind {below}"), Some(depth)))
}

/// The steps of a stage at its planned rate. A ramp is linear in clean volume, so its mass is the
/// mean concentration times the clean volume, exactly.
pub(super) fn steps(job: &Job, line: &StageLine, rate: FlowRate) -> physics::Result<Vec<StepPlan>> {
    let factor = scale(job, line.stage);
    let mut cumulative = Volume::ZERO;
    let mut out = Vec::with_capacity(job.file.treatment.step.len());
    for step in &job.file.treatment.step {
        let Some([_, end]) = Mixture::of_step(&job.file, step) else { continue };
        let clean = step.clean_volume * factor;
        let mean = (step.from + step.to) * 0.5;
        let (mass, slurry) = proppant_mass(clean, mean, end.grain_density())?;
        cumulative += slurry;
        let time = if rate.si() > 0.0 { slurry / rate } else { Time::ZERO };
        out.push(StepPlan {
            name: step.name.clone(),
            fluid: step.fluid.clone(),
            proppant: step.proppant.clone(),
            clean,
            slurry,
            from: step.from,
            to: step.to,
            mass,
            time,
            cumulative,
            pressure: line.parts(rate, &end)?.surface,
        });
    }
    Ok(out)
}

/// Totals of all stages, with the spacers of the job file round every ball and the flush of the last
/// stage. The ball program adds what its cards need beyond ([`JobTotals::lengthen_spacers`]).
pub(super) fn totals(job: &Job, stages: &[StagePlan]) -> JobTotals {
    let steps = || stages.iter().flat_map(|s| &s.steps);
    let fluids = job.file.fluid.iter().map(|f| FluidTotal {
        name: f.name.clone(),
        volume: steps().filter(|s| s.fluid == f.name).map(|s| s.clean).sum(),
    });
    let fluids: Vec<_> = fluids.filter(|t: &FluidTotal| t.volume.si() > 0.0).collect();
    let proppants = job.file.proppant.iter().map(|p| {
        let mass: Mass = steps().filter(|s| s.proppant.as_ref() == Some(&p.name)).map(|s| s.mass).sum();
        ProppantTotal {
            name: p.name.clone(),
            mass,
            bulk: Volume::m3(mass.si() / p.bulk_density.si().max(1.0)),
            trucks: loads(mass / job.file.equipment.truck_load),
        }
    });
    let between = stages.len().saturating_sub(1) as f64;
    let spacers = (job.file.ball_program.spacer_ahead + job.file.ball_program.spacer_behind) * between;
    let flush = stages.last().map_or(Volume::ZERO, |s| s.volume_to_ports) + job.file.launcher.line_volume;
    let clean: Volume = stages.iter().map(|s| s.clean).sum::<Volume>() + spacers + flush;
    let most = stages.iter().max_by(|a, b| a.power.total_cmp(&b.power));
    let power = most.map_or(Power::ZERO, |s| s.power);
    let e = &job.file.equipment;
    JobTotals {
        fluids,
        spacers_and_flush: spacers + flush,
        clean,
        slurry: stages.iter().map(|s| s.slurry).sum::<Volume>() + spacers + flush,
        proppants: proppants.filter(|t| t.mass.si() > 0.0).collect(),
        mass: stages.iter().map(|s| s.mass).sum(),
        pump_time: stages.iter().map(|s| s.time).sum(),
        tanks: tanks(job, clean),
        power,
        power_stage: most.map_or(0, |s| s.stage),
        power_on_location: power_on_location(job),
        pumps_needed: loads(power / e.pump_power) + e.spare_pumps,
    }
}

impl JobTotals {
    /// Counts clean fluid that the ball program needs beyond the spacers of the job file.
    pub(crate) fn lengthen_spacers(&mut self, job: &Job, by: Volume) {
        self.spacers_and_flush += by;
        self.clean += by;
        self.slurry += by;
        self.tanks = tanks(job, self.clean);
    }
}

/// Tanks for a clean volume with the reserve.
pub(crate) fn tanks(job: &Job, clean: Volume) -> usize {
    let e = &job.file.equipment;
    loads(clean * (1.0 + e.fluid_reserve.si()) / e.tank_volume)
}

/// How many loads carry a share, none for nothing.
fn loads(share: f64) -> usize {
    if share.is_finite() && share > 0.0 { (share - 1e-9).ceil().clamp(0.0, 1e7) as usize } else { 0 }
}

/// Changes that name stages that do not exist.
pub(super) fn judge_changes(job: &Job, stages: usize, ledger: &mut Ledger) {
    for (i, c) in job.file.treatment.change.iter().enumerate() {
        if c.from_stage == 0 || c.from_stage > c.to_stage || c.to_stage > stages {
            let message = said!("a change names stages {} to {} of {stages}", c.from_stage, c.to_stage);
            ledger.say(checks::CHANGE.found(message).field(format!("treatment.change[{}]", i + 1)));
        }
    }
}

/// What there is to say of a stage.
pub(super) fn judge_stage(job: &Job, line: &StageLine, plan: &StagePlan, ledger: &mut Ledger) {
    let stage = plan.stage;
    let trip = job.file.limits.trip;
    if plan.pressure.surface.si() > 0.97 * trip.si() {
        let message = said!("stage {stage} is planned close to the pump trip");
        ledger.say(checks::HEADROOM.found(message).stage(stage).value(plan.pressure.surface).limit(trip));
    }
    if plan.pressure.surface.si() < 0.0 || plan.shut_in.si() < 0.0 {
        let message = said!("the column alone opens the fracture of stage {stage}");
        ledger.say(checks::NEGATIVE.found(message).stage(stage).value(plan.shut_in));
    }
    if let Some(possible) = drag_limit(job, line, plan.planned_rate) {
        let message = said!("the friction reducer is held at the asymptote in stage {stage}");
        let stated = job.file.fluid.iter().map(|f| f.drag_reduction).fold(Ratio::ZERO, Ratio::max);
        ledger.say(
            checks::DRAG.found(message).stage(stage).field("fluid").value(stated).limit(Ratio::of(possible)),
        );
    }
}

/// The drag reduction that is possible, where the stated one is more.
fn drag_limit(job: &Job, line: &StageLine, rate: FlowRate) -> Option<f64> {
    let step = job.file.treatment.step.first()?;
    let [mixture, _] = Mixture::of_step(&job.file, step)?;
    let bore = line.bores.first()?;
    let flow = PipeFlow {
        rate,
        bore: bore.bore,
        roughness: bore.roughness,
        density: mixture.fluid.density,
        fluid: mixture.rheology(),
        proppant: None,
    };
    let friction = pipe_friction(&flow).ok()?;
    (friction.limit == DragLimit::Asymptote).then_some(friction.drag_reduction)
}

/// A stage that not even the slowest rate suits: for its pressure, or for want of power.
pub(super) fn judge_no_ceiling(job: &Job, stage: usize, worst: Option<&Worst>, ledger: &mut Ledger) {
    let limit = job.file.limits.treating_pressure;
    let surface = worst.map(|w| w.parts.surface);
    if surface.is_none_or(|p| p > limit) {
        let message = said!("stage {stage} breaks the pressure limit at the slowest rate");
        let finding = checks::PRESSURE.found(message).stage(stage).field("limits.treating_pressure");
        ledger.say(surface.into_iter().fold(finding, |f, p| f.value(p)).limit(limit));
        return;
    }
    let e = &job.file.equipment;
    let message = said!(
        "stage {stage} cannot be pumped: {} pumps with {} kept as spares have no power for the slowest rate",
        e.pumps,
        e.spare_pumps
    );
    let finding = checks::POWER.found(message).stage(stage).field("equipment.pumps");
    ledger.say(finding.value(power_on_location(job)));
}

/// The stages that cannot take the rate wanted: said once for each limit that holds them, at the
/// stage that loses most.
pub(super) fn judge_ceilings(stages: &[StagePlan], ledger: &mut Ledger) {
    for bound in [BoundBy::Pressure, BoundBy::Power, BoundBy::Iron] {
        let held = || stages.iter().filter(|s| s.bound_by == bound && s.planned_rate < s.wanted_rate);
        let lost = |s: &StagePlan| s.rate_ceiling / s.wanted_rate;
        let Some(most) = held().min_by(|a, b| lost(a).total_cmp(&lost(b))) else { continue };
        let list = words::stages(held().map(|s| s.stage));
        let message = said!(
            "stages {list} are held below the rate wanted by {}, most stage {}",
            bound.words(),
            most.stage
        );
        let finding =
            checks::CEILING.found(message).stage(most.stage).depth(most.ports).field("treatment.rate");
        ledger.say(finding.value(most.rate_ceiling).limit(most.wanted_rate));
    }
}

/// What there is to say of tanks and trucks, where the job file says how many there are. Said when
/// the ball program has counted its spacers.
pub(crate) fn judge_supply(totals: &JobTotals, job: &Job, ledger: &mut Ledger) {
    let e = &job.file.equipment;
    if let Some(have) = e.tanks.filter(|have| totals.tanks > *have) {
        let (need, holds) = (totals.clean * (1.0 + e.fluid_reserve.si()), e.tank_volume * have as f64);
        let message = said!(
            "{} tanks are needed for the clean fluid with its reserve, {have} are on location: the rest must come \
             while pumping",
            totals.tanks
        );
        ledger.say(checks::TANKS.found(message).field("equipment.tanks").value(need).limit(holds));
    }
    let loads: usize = totals.proppants.iter().map(|p| p.trucks).sum();
    if let Some(have) = e.truck_loads.filter(|have| loads > *have) {
        let message = said!("{loads} truck loads of proppant are needed, {have} are ordered");
        let finding = checks::TRUCKS.found(message).field("equipment.truck_loads").value(totals.mass);
        ledger.say(finding.limit(e.truck_load * have as f64));
    }
}

/// What there is to say of the totals.
pub(super) fn judge_totals(totals: &JobTotals, job: &Job, ledger: &mut Ledger) {
    let have = job.file.equipment.pumps;
    if totals.pumps_needed > have {
        let message =
            said!("{} pumps are needed with the spare, {have} are on location", totals.pumps_needed);
        let finding = checks::PUMPS.found(message).field("equipment.pumps").stage(totals.power_stage);
        ledger.say(finding.value(totals.power).limit(totals.power_on_location).severity(Severity::Warn));
    }
}
