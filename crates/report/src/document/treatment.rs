//! Rate ceiling, treating pressure and its parts, stage by stage.

use plan::stages::{BoundBy, StagePlan, StagesPlan};
use quantity::*;

use super::Desk;
use super::block::{Cell, Column, Paper, Table, fact};
use super::units::Units;
use crate::draw::axis::Axis;
use crate::draw::chart::{Chart, Layer, Mark};
use crate::draw::svg::ink;

/// The pages.
pub(super) fn pages(desk: &Desk<'_>, paper: &mut Paper) {
    let lead = "The rate ceiling is the highest rate at which no mixture of the schedule breaks a limit. The program \
                plans the rate wanted, or the ceiling where that is lower.";
    paper.section("Rate ceiling and treating pressure", lead);
    let Some(plan) = &desk.program.stages else { return paper.absent("Stages") };
    let u = desk.units;
    let size = (desk.sheet.width, 0.27 * desk.sheet.height);
    let (above, below) = (ceiling(desk, plan, size), parts(desk, plan, size));
    paper.drawing("ceiling", above, "Rate of every stage: wanted, planned and the ceiling.");
    paper.facts(
        2,
        vec![
            fact("Seats cost the toe at its planned rate", u.text(plan.toe_seat_loss)),
            fact("The toe could take without seats", u.text(plan.toe_rate_without_seats)),
        ],
    );
    paper.drawing(
        "parts",
        below,
        "What the highest treating pressure at the planned rate is made of, stacked in the order of the key.",
    );
    paper.section_of(plan.stages.len(), "Rates and pressures by stage", "");
    paper.table(rates(plan, u));
    let lead = "Every mixture counts, alone and behind another with the front between them at any depth; the highest is shown.";
    paper.section_of(plan.stages.len(), "Parts of the highest treating pressure", lead);
    paper.table(pressures(desk, plan));
}

fn points(plan: &StagesPlan, of: impl Fn(&StagePlan) -> f64) -> Vec<(f64, f64)> {
    plan.stages.iter().map(|s| (s.stage as f64, of(s))).collect()
}

fn stage_axis(plan: &StagesPlan) -> Axis {
    Axis::counted("stage, toe at the left", plan.stages.len())
}

fn ceiling(desk: &Desk<'_>, plan: &StagesPlan, size: (f64, f64)) -> String {
    let system = desk.units.0;
    let of = |get: fn(&StagePlan) -> FlowRate| points(plan, |s| get(s).shown(system));
    let (top, wanted, planned) = (of(|s| s.rate_ceiling), of(|s| s.wanted_rate), of(|s| s.planned_rate));
    let iron = desk.job.file.limits.rate.shown(system);
    let all = top.iter().chain(&wanted).map(|p| p.1).chain([iron]);
    let y = Axis::over(format!("rate, {}", desk.units.unit::<FlowRate>()), all, true);
    let layer = Layer { name: "planned".into(), points: planned, colour: "#9fc6de" };
    let mut chart = Chart::new(size, stage_axis(plan), y)
        .with("wanted", Mark::Dots, ink::BLACK, wanted)
        .with("ceiling", Mark::Levels, ink::VERMILION, top)
        .limit("iron, meters and pumps", iron);
    chart.layers.push(layer);
    chart.draw()
}

/// The parts of a treating pressure in the order they are stacked, with their colours.
const PARTS: &[(&str, &str)] = &[
    ("fracture less column", "#8d99a3"),
    ("pipe", ink::BLUE),
    ("seats", ink::ORANGE),
    ("ports", ink::GREEN),
    ("near the wellbore", ink::PURPLE),
];

fn part(stage: &StagePlan, index: usize) -> Pressure {
    let p = &stage.pressure;
    match index {
        0 => p.fracture - p.hydrostatic,
        1 => p.pipe,
        2 => p.seats,
        3 => p.ports,
        _ => p.near_wellbore,
    }
}

fn parts(desk: &Desk<'_>, plan: &StagesPlan, size: (f64, f64)) -> String {
    let system = desk.units.0;
    let limits = &desk.job.file.limits;
    let (limit, trip) = (limits.treating_pressure.shown(system), limits.trip.shown(system));
    let surface = points(plan, |s| s.pressure.surface.shown(system));
    let all = surface.iter().map(|p| p.1).chain([limit, trip]);
    let y = Axis::over(format!("surface pressure, {}", desk.units.unit::<GaugePressure>()), all, true);
    let mut chart = Chart::new(size, stage_axis(plan), y).limit("treating pressure limit", limit);
    chart.layers = PARTS
        .iter()
        .enumerate()
        .map(|(i, (name, colour))| Layer {
            name: (*name).into(),
            points: points(plan, |s| part(s, i).shown(system)),
            colour,
        })
        .collect();
    chart.limit("pump trip", trip).draw()
}

fn rates(plan: &StagesPlan, u: Units) -> Table {
    let (rate, psi) = (u.unit::<FlowRate>(), u.unit::<GaugePressure>());
    let mut table = Table::new(vec![
        Column::number("stage", ""),
        Column::number("ports", u.unit::<MeasuredDepth>()),
        Column::number("TVD", u.unit::<TrueVerticalDepth>()),
        Column::number("to ports", u.unit::<Volume>()),
        Column::number("seats passed", ""),
        Column::number("wanted", &rate),
        Column::number("ceiling", &rate),
        Column::words("held by").taking(1.2),
        Column::number("planned", &rate),
        Column::number("clean", &psi),
        Column::number("highest", &psi),
        Column::number("at ports", &psi),
        Column::number("shut-in", &psi),
        Column::number("power", u.unit::<Power>()),
    ])
    .sized(7.0)
    .even()
    .note(
        "Clean and highest: surface pressure at the planned rate with the first fluid, and with the mixture that gives \
         the most. Shut-in: instantaneous, at the surface, clean fluid. Held by: \
         the limit that sets the ceiling; not held where the rate wanted meets none. Framed: below the rate wanted.",
    );
    for s in plan.stages.iter().rev() {
        let lowered = s.planned_rate < s.wanted_rate;
        table.row(vec![
            Cell::strong(s.stage.to_string()),
            u.number(s.ports).into(),
            u.number(s.tvd).into(),
            u.either(s.volume_to_ports, 1, 2).into(),
            s.seats_passed.to_string().into(),
            u.number(s.wanted_rate).into(),
            u.number(s.rate_ceiling).into(),
            held_by(s.bound_by).into(),
            Cell::judged(u.number(s.planned_rate), lowered),
            u.either(s.clean_pressure, 0, 2).into(),
            Cell::strong(u.either(s.pressure.surface, 0, 2)),
            u.either(s.bottomhole, 0, 2).into(),
            u.either(s.shut_in, 0, 2).into(),
            u.number(s.power).into(),
        ]);
    }
    table
}

/// What holds the ceiling, in a word.
fn held_by(bound: BoundBy) -> &'static str {
    match bound {
        BoundBy::Pressure => "pressure",
        BoundBy::Power => "power",
        BoundBy::Iron => "iron",
        BoundBy::Wanted => "not held",
    }
}

fn pressures(desk: &Desk<'_>, plan: &StagesPlan) -> Table {
    let u = desk.units;
    let psi = u.unit::<Pressure>();
    let mut table = Table::new(vec![
        Column::number("stage", "").taking(0.7),
        Column::number("fracture", &psi),
        Column::number("column", &psi),
        Column::number("pipe", &psi),
        Column::number("seats", &psi),
        Column::number("ports", &psi),
        Column::number("near well", &psi),
        Column::number("surface", &psi),
        Column::number("below limit", &psi),
        Column::number("front at TVD", u.unit::<TrueVerticalDepth>()),
        Column::number("with", ""),
    ])
    .sized(7.0)
    .even();
    let (letters, note) = mixtures(plan, u);
    table.note = note;
    let limit = desk.job.file.limits.treating_pressure;
    for (s, letter) in plan.stages.iter().zip(letters).rev() {
        let p = &s.pressure;
        let n = |q: Pressure| Cell::from(u.either(q, 0, 2));
        let left = Pressure::pa(limit.si() - p.surface.si());
        table.row(vec![
            Cell::strong(s.stage.to_string()),
            n(p.fracture),
            format!("-{}", u.either(p.hydrostatic, 0, 2)).into(),
            n(p.pipe),
            n(p.seats),
            n(p.ports),
            n(p.near_wellbore),
            Cell::strong(u.either(p.surface, 0, 2)),
            Cell::judged(u.either(left, 0, 2), left.si() < 0.0),
            u.maybe(s.worst_front).into(),
            letter.into(),
        ]);
    }
    table
}

/// A letter for what stands in the string at every stage, and what the letters stand for.
fn mixtures(plan: &StagesPlan, u: Units) -> (Vec<String>, String) {
    let mut kinds: Vec<String> = Vec::new();
    let mut letters = Vec::new();
    for s in &plan.stages {
        let mixture = s.worst_mixture.text(u.0);
        let at = kinds.iter().position(|k| *k == mixture).unwrap_or(kinds.len());
        if at == kinds.len() {
            kinds.push(mixture);
        }
        letters.push(spelled(at));
    }
    let kinds: Vec<String> = kinds.iter().enumerate().map(|(i, k)| format!("{}: {k}.", spelled(i))).collect();
    (letters, format!("With: what stands in the string. {}", kinds.join(" ")))
}

/// A, B to Z, and on with AA.
fn spelled(index: usize) -> String {
    let letter = char::from(b'A' + (index % 26) as u8).to_string();
    if index < 26 { letter } else { spelled(index / 26 - 1) + &letter }
}
