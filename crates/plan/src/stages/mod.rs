//! Stage hydraulics: treating pressure, rate ceiling, schedule and totals.

mod ceiling;
mod checks;
pub mod mixture;
pub mod pressure;
mod result;
mod schedule;
mod workings;

use quantity::*;
use well::Job;
use well::job::Units;

pub use ceiling::{BoundBy, power_on_location, rate_ceiling};
pub use checks::CHECKS;
pub use mixture::Mixture;
pub use pressure::{PressureParts, StageLine, Worst};
pub use result::*;
pub(crate) use schedule::{judge_supply, tanks};

use crate::Ledger;
use crate::ladder::LadderPlan;
use crate::layout::{Layout, StagePlace};
use crate::path::FlowPath;
use crate::rock::wanted_rate;

/// Rates are planned in whole multiples of this, round in the units of the job.
const fn rate_step(units: Units) -> FlowRate {
    match units {
        Units::Field => FlowRate::bbl_per_min(0.5),
        Units::Metric => FlowRate::m3_per_min(0.1),
    }
}

/// Pressure, rate ceiling, schedule and totals of every stage.
pub fn treat_stages(
    job: &Job,
    layout: &Layout,
    ladder: &LadderPlan,
    ledger: &mut Ledger,
) -> Option<StagesPlan> {
    schedule::judge_changes(job, layout.stages.len(), ledger);
    let path = FlowPath::of(job, layout);
    let mixtures: Vec<Mixture<'_>> =
        job.file.treatment.step.iter().filter_map(|s| Mixture::of_step(&job.file, s)).flatten().collect();
    let mut stages = Vec::with_capacity(layout.stages.len());
    for place in &layout.stages {
        let what = format!("the pressure of stage {}", place.stage);
        let line = ledger.take(&what, StageLine::of(job, &path, layout, place, ladder))?;
        let volume = path.volume_to(place.sleeve.ports);
        let (plan, worst) = one_stage(job, place, &line, &mixtures, volume, ledger)?;
        workings::open_stage(&line, &plan, &mixtures, &worst, ledger);
        stages.push(plan);
    }
    schedule::judge_ceilings(&stages, ledger);
    let totals = schedule::totals(job, &stages);
    schedule::judge_totals(&totals, job, ledger);
    let toe = stages.first()?;
    let toe_seat_loss = toe.pressure.seats;
    let toe_rate_without_seats = without_seats(job, layout, ladder, &path, &mixtures, ledger)?;
    ledger.say(checks::DENSITY.found("the column's density is taken as it is at the surface"));
    Some(StagesPlan { toe_seat_loss, toe_rate_without_seats, totals, stages })
}

fn without_seats(
    job: &Job,
    layout: &Layout,
    ladder: &LadderPlan,
    path: &FlowPath,
    mixtures: &[Mixture<'_>],
    ledger: &mut Ledger,
) -> Option<FlowRate> {
    let bare = LadderPlan { rungs: Vec::new(), ..ladder.clone() };
    let place = layout.stages.first()?;
    let line = ledger.take("the toe without seats", StageLine::of(job, path, layout, place, &bare))?;
    let ceiling = ledger.take("the toe without seats", rate_ceiling(job, &line, mixtures))?;
    Some(ceiling.map_or(FlowRate::ZERO, |(q, _)| q))
}

fn one_stage(
    job: &Job,
    place: &StagePlace,
    line: &StageLine,
    mixtures: &[Mixture<'_>],
    volume_to_ports: Volume,
    ledger: &mut Ledger,
) -> Option<(StagePlan, Worst)> {
    let stage = place.stage;
    let wanted_rate = wanted_rate(job, stage);
    let ceiling = ledger.take("a rate ceiling", rate_ceiling(job, line, mixtures))?;
    let Some((rate_ceiling, bound_by)) = ceiling else {
        let worst = ledger.take("a pressure", line.worst(ceiling::SLOWEST, mixtures))?;
        schedule::judge_no_ceiling(job, stage, worst.as_ref(), ledger);
        return None;
    };
    let planned_rate = planned(wanted_rate, rate_ceiling, rate_step(job.file.job.units));
    let worst = ledger.take("a pressure", line.worst(planned_rate, mixtures))??;
    let pressure = worst.parts;
    let first = mixtures.first()?;
    let clean = Mixture::clean(first.fluid);
    let clean_pressure = ledger.take("a pressure", line.parts(planned_rate, &clean))?.surface;
    let still = ledger.take("a pressure", line.parts(FlowRate::ZERO, &clean))?;
    let power = ledger.take(
        "hydraulic power",
        physics::hydraulics::power::hydraulic_power(pressure.surface.max(GaugePressure::ZERO), planned_rate),
    )?;
    let steps = ledger.take("the schedule", schedule::steps(job, line, planned_rate))?;
    let clean_density = first.fluid.density;
    let (worst_mixture, worst_front) = schedule::worst_words(mixtures, &worst, line)?;
    let plan = StagePlan {
        stage,
        ports: place.sleeve.ports,
        tvd: place.sleeve.tvd,
        volume_to_ports,
        wanted_rate,
        rate_ceiling,
        bound_by: if rate_ceiling > wanted_rate { BoundBy::Wanted } else { bound_by },
        planned_rate,
        pressure,
        worst_mixture,
        worst_front,
        clean_pressure,
        bottomhole: (pressure.fracture + pressure.near_wellbore + pressure.ports).gauge(),
        shut_in: still.surface,
        power,
        seats_passed: line.seats.len(),
        seat_coefficient: line.seat_coefficient(clean_density),
        clean: steps.iter().map(|s| s.clean).sum(),
        slurry: steps.iter().map(|s| s.slurry).sum(),
        mass: steps.iter().map(|s| s.mass).sum(),
        time: steps.iter().map(|s| s.time).sum::<Time>() + job.file.treatment.breakdown_time,
        steps,
    };
    schedule::judge_stage(job, line, &plan, ledger);
    Some((plan, worst))
}

/// The wanted rate, or the highest whole step below the ceiling.
fn planned(wanted: FlowRate, ceiling: FlowRate, step: FlowRate) -> FlowRate {
    if wanted <= ceiling {
        return wanted;
    }
    let steps = (ceiling / step + 1e-9).floor();
    if steps >= 1.0 { step * steps } else { ceiling }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn planned_rates_are_round_in_the_units_of_the_job() {
        let wanted = FlowRate::bbl_per_min(40.0);
        let ceiling = FlowRate::bbl_per_min(21.34);
        let field = planned(wanted, ceiling, rate_step(Units::Field));
        assert!((field.in_bbl_per_min() - 21.0).abs() < 1e-9);
        let metric = planned(wanted, ceiling, rate_step(Units::Metric));
        assert!((metric.in_m3_per_min() - 3.3).abs() < 1e-9, "21.34 bbl/min are 3.393 m3/min");
        assert_eq!(planned(wanted, FlowRate::bbl_per_min(41.0), rate_step(Units::Metric)), wanted);
        let slow = FlowRate::m3_per_min(0.05);
        assert_eq!(planned(wanted, slow, rate_step(Units::Metric)), slow);
    }
}
