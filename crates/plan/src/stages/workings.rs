//! Workings of a stage's headline figures.

use physics::Evaluation;
use physics::fluid::slurry::SLURRY_DENSITY;
use physics::hydraulics::column::HYDROSTATIC_COLUMN;
use physics::hydraulics::pipe_friction::{PIPE_FRICTION, PipeFluid};
use physics::hydraulics::port::PORT_LOSS;
use physics::hydraulics::power::HYDRAULIC_POWER;
use physics::hydraulics::seat::SeatModel;
use physics::hydraulics::seat_series::SEAT_SERIES;
use physics::hydraulics::step_down::NEAR_WELLBORE_LOSS;
use quantity::*;

use super::mixture::Mixture;
use super::pressure::{BoreLength, StageLine, Worst};
use super::result::StagePlan;
use crate::Ledger;

/// Records what the pressure, the ceiling and the power of a stage open to.
pub(super) fn open_stage(
    line: &StageLine,
    plan: &StagePlan,
    mixtures: &[Mixture<'_>],
    worst: &Worst,
    ledger: &mut Ledger,
) {
    let Some(lower) = mixtures.get(worst.lower) else { return };
    let clean = mixtures.first().map_or(*lower, |m| Mixture::clean(m.fluid));
    let upper = mixtures.get(worst.lower + 1).unwrap_or(&clean);
    let pair = (upper, lower);
    let steps = ledger.take("the workings of a stage", pressure_steps(line, plan.planned_rate, pair));
    let at_ceiling = ledger.take("the workings of a stage", pressure_steps(line, plan.rate_ceiling, pair));
    let stage = plan.stage;
    if let Some(steps) = steps {
        let steps: Vec<&Evaluation> = steps.iter().collect();
        let note = "Surface pressure = fracture gradient x vertical depth - column + pipe friction (each bore: \
                    gradient x its length) + seats + ports + near-wellbore. The front between two mixtures that \
                    follow each other is looked at all along the line, and the highest pressure is taken; below the \
                    front stands the mixture of the first steps, above it that of the last ones.";
        ledger.open(
            format!("stage.{stage}.treating_pressure"),
            &format!("Treating pressure of stage {stage}"),
            plan.pressure.surface,
            &steps,
            note,
        );
        ledger.open(
            format!("stage.{stage}.seat_loss"),
            &format!("Loss in the seats still to be passed by stage {stage}"),
            plan.pressure.seats,
            &steps,
            "The seats of the stages heel-ward, summed; the stage's own seat is below its ports.",
        );
    }
    if let Some(steps) = at_ceiling {
        let steps: Vec<&Evaluation> = steps.iter().collect();
        let note = "The rate at which the treating pressure of the least favourable mixture, or the hydraulic \
                    power, reaches its limit; found by bracketing. The steps show the pressure at that rate.";
        ledger.open(
            format!("stage.{stage}.rate_ceiling"),
            &format!("Rate ceiling of stage {stage}"),
            plan.rate_ceiling,
            &steps,
            note,
        );
    }
    let power =
        HYDRAULIC_POWER.call().with("pressure", plan.pressure.surface).with("rate", plan.planned_rate).run();
    if let Ok(power) = power {
        let title = format!("Hydraulic power of stage {stage}");
        ledger.open(format!("stage.{stage}.power"), &title, plan.power, &[&power], "At the planned rate.");
    }
}

fn pressure_steps(
    line: &StageLine,
    rate: FlowRate,
    (upper, mixture): (&Mixture<'_>, &Mixture<'_>),
) -> physics::Result<Vec<Evaluation>> {
    let density = mixture.slurry()?.density;
    let mut out = column(line, mixture)?;
    for bore in &line.bores {
        out.push(friction(bore, rate, mixture)?);
    }
    if !line.seats.is_empty() {
        out.push(seats(line, rate, density)?);
    }
    out.push(
        PORT_LOSS
            .call()
            .with("rate", rate)
            .with("density", density)
            .number("count", line.ports as f64)
            .with("diameter", line.port_diameter)
            .number("cd", line.port_coefficient)
            .run()?,
    );
    out.push(NEAR_WELLBORE_LOSS.call().with("rate", rate).with("near_wellbore", line.near_wellbore).run()?);
    out.extend(column(line, upper)?);
    for bore in &line.bores {
        out.push(friction(bore, rate, upper)?);
    }
    Ok(out)
}

/// Density of a mixture, and the weight of a whole column of it.
fn column(line: &StageLine, mixture: &Mixture<'_>) -> physics::Result<Vec<Evaluation>> {
    let density = SLURRY_DENSITY
        .call()
        .with("clean_density", mixture.fluid.density)
        .with("proppant_density", mixture.grain_density())
        .with("concentration", mixture.concentration)
        .run()?;
    let weight = HYDROSTATIC_COLUMN
        .call()
        .list("tvd", &[TrueVerticalDepth::ZERO, line.tvd])
        .list("temperature", &[Temperature::deg_c(20.0), Temperature::deg_c(20.0)])
        .word("fluid", "fixed")
        .with("density", mixture.fluid.density)
        .with("concentration", mixture.concentration)
        .with("proppant_density", mixture.grain_density())
        .run()?;
    Ok(vec![density, weight])
}

fn friction(bore: &BoreLength, rate: FlowRate, mixture: &Mixture<'_>) -> physics::Result<Evaluation> {
    let call = PIPE_FRICTION
        .call()
        .with("rate", rate)
        .with("bore", bore.bore)
        .with("roughness", bore.roughness)
        .with("density", mixture.fluid.density)
        .with("concentration", mixture.concentration)
        .with("proppant_density", mixture.grain_density());
    match mixture.rheology() {
        PipeFluid::Newtonian { viscosity } => call.word("fluid", "newtonian").with("viscosity", viscosity),
        PipeFluid::PowerLaw(p) => call.word("fluid", "power_law").number("n", p.n).with("k", p.k),
        PipeFluid::WithFrictionReducer { viscosity, drag_reduction, .. } => call
            .word("fluid", "friction_reducer")
            .with("viscosity", viscosity)
            .number("drag_reduction", drag_reduction),
    }
    .run()
}

fn seats(line: &StageLine, rate: FlowRate, density: Density) -> physics::Result<Evaluation> {
    let bores: Vec<Diameter> = line.seats.iter().map(|(_, d)| *d).collect();
    let first = line.seats.first().map_or(0, |(stage, _)| *stage);
    let call = SEAT_SERIES
        .call()
        .list("seats", &bores)
        .number("first_stage", first as f64)
        .number("stage", line.stage as f64)
        .with("bore", line.seat_bore)
        .with("rate", rate)
        .with("density", density);
    match line.model {
        SeatModel::ThinOrifice => call.word("model", "thin_orifice"),
        SeatModel::ThickOrifice { land, wall_friction } => call
            .word("model", "thick_orifice")
            .with("land_length", land)
            .number("wall_friction", wall_friction),
        SeatModel::ContractionExpansion => call.word("model", "contraction_expansion"),
        SeatModel::TaperedInlet { inlet } => call.word("model", "tapered_inlet").number("inlet", inlet),
    }
    .run()
}
