//! Pump schedule and totals: what is pumped, stage by stage, and what must stand on location.

use plan::stages::{StagePlan, StagesPlan};
use quantity::*;

use super::Desk;
use super::block::{Cell, Column, Paper, Table, fact};
use super::units::{NONE, Units, runs, span};

/// The pages.
pub(super) fn pages(desk: &Desk<'_>, paper: &mut Paper) {
    let lead = "Steps of a stage in clean volume; the ball for the next stage leaves toward the end of the stage, so \
                the spacers round it follow the last step. Volumes do not change with the rate.";
    paper.section("Pump schedule", lead);
    let Some(plan) = &desk.program.stages else { return paper.absent("Pump schedule") };
    let u = desk.units;
    for group in groups(plan) {
        let Some(first) = group.first() else { continue };
        paper.heading(&format!("Steps of {}", stages(&group.iter().map(|s| s.stage).collect::<Vec<_>>())));
        paper.table(steps(first, u));
    }
    paper.heading("Surface pressure with the column full of the last mixture of each step");
    paper.table(step_pressures(plan, u));
    paper.section("Totals", "");
    paper.table(by_stage(plan, u));
    paper.heading("On location");
    paper.facts(2, location(desk, plan));
    paper.table(materials(plan, u));
}

/// Stages that are pumped alike: the same steps with the same volumes.
fn groups(plan: &StagesPlan) -> Vec<Vec<&StagePlan>> {
    let mut groups: Vec<Vec<&StagePlan>> = Vec::new();
    for stage in &plan.stages {
        let alike = |g: &&mut Vec<&StagePlan>| g.first().is_some_and(|f| pumped_alike(f, stage));
        match groups.iter_mut().find(alike) {
            Some(group) => group.push(stage),
            None => groups.push(vec![stage]),
        }
    }
    groups
}

fn pumped_alike(a: &StagePlan, b: &StagePlan) -> bool {
    let same = |(x, y): (&plan::stages::StepPlan, &plan::stages::StepPlan)| {
        x.name == y.name && x.clean == y.clean && x.mass == y.mass && x.fluid == y.fluid
    };
    a.steps.len() == b.steps.len() && a.steps.iter().zip(&b.steps).all(same)
}

/// Stages by their numbers.
fn stages(numbers: &[usize]) -> String {
    let noun = if numbers.len() == 1 { "stage" } else { "stages" };
    format!("{noun} {}", runs(numbers))
}

fn steps(stage: &StagePlan, u: Units) -> Table {
    let (vol, con) = (u.unit::<Volume>(), u.unit::<Concentration>());
    let mut table = Table::new(vec![
        Column::number("step", ""),
        Column::wide("name", 1.0),
        Column::wide("fluid", 1.0),
        Column::wide("proppant", 1.2),
        Column::number("from", &con),
        Column::number("to", &con),
        Column::number("clean", &vol),
        Column::number("slurry", &vol),
        Column::number("slurry, sum", &vol),
        Column::number("proppant", u.unit::<Mass>()),
    ]);
    for (i, s) in stage.steps.iter().enumerate() {
        table.row(vec![
            (i + 1).to_string().into(),
            s.name.clone().into(),
            s.fluid.clone().into(),
            s.proppant.clone().unwrap_or_else(|| NONE.into()).into(),
            u.number(s.from).into(),
            u.number(s.to).into(),
            u.either(s.clean, 1, 2).into(),
            u.either(s.slurry, 1, 2).into(),
            u.either(s.cumulative, 1, 2).into(),
            u.number(s.mass).into(),
        ]);
    }
    let sum = |text: String| Cell::strong(text);
    table.row(vec![
        "".into(),
        Cell::strong("stage"),
        "".into(),
        "".into(),
        "".into(),
        "".into(),
        sum(u.either(stage.clean, 1, 2)),
        sum(u.either(stage.slurry, 1, 2)),
        "".into(),
        sum(u.number(stage.mass)),
    ]);
    table
}

fn step_pressures(plan: &StagesPlan, u: Units) -> Table {
    let names = plan.stages.first().map(|s| s.steps.iter().map(|t| t.name.clone()).collect::<Vec<_>>());
    let psi = u.unit::<GaugePressure>();
    let mut columns = vec![Column::number("stage", ""), Column::number("rate", u.unit::<FlowRate>())];
    columns.extend(names.unwrap_or_default().into_iter().map(|n| Column::number(n, &psi)));
    let mut table = Table::new(columns).sized(7.0);
    for s in plan.stages.iter().rev() {
        let mut row = vec![Cell::strong(s.stage.to_string()), u.number(s.planned_rate).into()];
        row.extend(s.steps.iter().map(|t| Cell::from(u.either(t.pressure, 0, 2))));
        table.row(row);
    }
    table
}

fn by_stage(plan: &StagesPlan, u: Units) -> Table {
    let vol = u.unit::<Volume>();
    let mut table = Table::new(vec![
        Column::number("stage", ""),
        Column::number("planned rate", u.unit::<FlowRate>()),
        Column::number("clean", &vol),
        Column::number("slurry", &vol),
        Column::number("proppant", u.unit::<Mass>()),
        Column::number("pumping time", "min"),
        Column::number("highest pressure", u.unit::<GaugePressure>()),
        Column::number("power", u.unit::<Power>()),
    ])
    .sized(7.0);
    for s in plan.stages.iter().rev() {
        table.row(vec![
            Cell::strong(s.stage.to_string()),
            u.number(s.planned_rate).into(),
            u.either(s.clean, 1, 2).into(),
            u.either(s.slurry, 1, 2).into(),
            u.number(s.mass).into(),
            number(s.time.in_minutes(), 1).into(),
            u.either(s.pressure.surface, 0, 2).into(),
            u.number(s.power).into(),
        ]);
    }
    let t = &plan.totals;
    table.row(vec![
        Cell::strong("all"),
        "".into(),
        Cell::strong(u.either(t.clean, 1, 2)),
        Cell::strong(u.either(t.slurry, 1, 2)),
        Cell::strong(u.number(t.mass)),
        Cell::strong(number(t.pump_time.in_minutes(), 1)),
        "".into(),
        "".into(),
    ]);
    table.note("All: spacers round the balls and the last flush included in the volumes; landings are not in the time.")
}

fn location(desk: &Desk<'_>, plan: &StagesPlan) -> Vec<super::block::Fact> {
    let (u, t, e) = (desk.units, &plan.totals, &desk.job.file.equipment);
    let reserve = super::units::percent(e.fluid_reserve);
    vec![
        fact("Spacers and last flush", u.large(t.spacers_and_flush)),
        fact("Tanks", format!("{} of {}, {reserve} kept beyond the need", t.tanks, u.large(e.tank_volume))),
        fact("Highest hydraulic power", format!("{} (stage {})", u.text(t.power), t.power_stage)),
        fact("Power on location, spares kept", u.text(t.power_on_location)),
        fact("Pumps needed, spares included", format!("{} of {}", t.pumps_needed, u.text(e.pump_power))),
        fact("Pumps on location", e.pumps.to_string()),
        fact("Pumping time of the stages", span(t.pump_time)),
    ]
}

fn materials(plan: &StagesPlan, u: Units) -> Table {
    let mut table = Table::new(vec![
        Column::wide("fluid or proppant", 1.0),
        Column::number("clean volume", u.unit::<Volume>()),
        Column::number("mass", u.unit::<Mass>()),
        Column::number("bulk volume", u.unit::<Volume>()),
        Column::number("truck loads", ""),
    ]);
    for f in &plan.totals.fluids {
        table.row(vec![
            f.name.clone().into(),
            u.either(f.volume, 1, 2).into(),
            NONE.into(),
            NONE.into(),
            NONE.into(),
        ]);
    }
    for p in &plan.totals.proppants {
        table.row(vec![
            p.name.clone().into(),
            NONE.into(),
            u.number(p.mass).into(),
            u.either(p.bulk, 1, 2).into(),
            p.trucks.to_string().into(),
        ]);
    }
    table
}
