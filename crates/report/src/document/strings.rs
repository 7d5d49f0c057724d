//! Strings of pipe: sizes, ratings, and the safety factors of every case of load.

use plan::strings::{Criterion, LoadRow, StringPlan, StringsPlan};
use quantity::*;

use super::Desk;
use super::block::{Cell, Column, Fact, Paper, Table, fact};
use super::units::{NONE, Units};

/// The pages.
pub(super) fn pages(desk: &Desk<'_>, paper: &mut Paper) {
    let lead = "Safety factors of every case of load, at the places where they are least. Framed: below the factor the \
                job file asks for.";
    paper.section("Strings", lead);
    let Some(plan) = &desk.program.strings else { return paper.absent("Strings") };
    let u = desk.units;
    paper.facts(2, summary(plan, u));
    paper.heading("Ratings");
    paper.table(ratings(plan, u));
    paper.heading("Least safety factors");
    paper.table(governing(plan, u));
    for string in plan.strings.iter().filter(|s| !s.loads.is_empty()) {
        paper.heading(&format!("Cases of load: {}, {}", string.name, string.pipe));
        paper.table(loads(desk, string));
    }
}

fn summary(plan: &StringsPlan, u: Units) -> Vec<Fact> {
    let of = format!("{} ({})", u.text(plan.lowest_internal_yield), plan.lowest_internal_yield_of);
    vec![
        fact("Lowest internal yield pumped through", of),
        fact("Treating pressure that keeps the factor on it", u.text(plan.highest_treating_pressure)),
        fact("Relief setting over it", super::units::percent(plan.relief_share)),
    ]
}

fn ratings(plan: &StringsPlan, u: Units) -> Table {
    let (psi, force) = (u.unit::<Pressure>(), u.unit::<Force>());
    let mut table = Table::new(vec![
        Column::wide("string", 1.4),
        Column::number("yield, hot", &psi),
        Column::number("collapse", &psi),
        Column::number("internal yield", &psi),
        Column::number("connection, internal", &psi),
        Column::number("body yield", &force),
        Column::number("connection, tension", &force),
        Column::number("compression", &force),
        Column::number("hung when run", &force),
        Column::number("sharpest bend", u.unit::<Curvature>()),
    ])
    .sized(7.0)
    .even()
    .note("A dash: the supplier has not stated it and no relation computes it.");
    for s in &plan.strings {
        let r = &s.ratings;
        table.row(vec![
            s.name.clone().into(),
            u.number(r.yield_strength).into(),
            u.number(r.collapse.value).into(),
            u.number(r.internal_yield.value).into(),
            u.maybe(r.connection_internal.as_ref().map(|c| c.value)).into(),
            u.number(r.body_yield.value).into(),
            u.maybe(r.joint_strength.as_ref().map(|c| c.value)).into(),
            u.maybe(r.joint_compression.as_ref().map(|c| c.value)).into(),
            u.number(s.hung).into(),
            u.number(s.sharpest_bend).into(),
        ]);
    }
    table
}

fn governing(plan: &StringsPlan, u: Units) -> Table {
    let mut table = Table::new(vec![
        Column::wide("string", 1.4),
        Column::wide("criterion", 1.0),
        Column::number("factor", ""),
        Column::number("asked", ""),
        Column::wide("case", 1.8),
        Column::wide("place", 0.9),
        Column::number("depth", u.unit::<MeasuredDepth>()),
    ])
    .sized(7.0);
    for s in &plan.strings {
        for (i, g) in s.governing.iter().enumerate() {
            let name = if i == 0 { s.name.clone() } else { String::new() };
            table.row(vec![
                name.into(),
                g.criterion.words().into(),
                Cell::judged(u.rounded(g.factor, 2), g.factor < g.required),
                u.rounded(g.required, 2).into(),
                g.case.words().into(),
                g.point.words().into(),
                u.number(g.depth).into(),
            ]);
        }
    }
    table
}

fn loads(desk: &Desk<'_>, string: &StringPlan) -> Table {
    let u = desk.units;
    let (psi, force) = (u.unit::<Pressure>(), u.unit::<Force>());
    let mut table = Table::new(vec![
        Column::wide("case", 3.3),
        Column::wide("place", 2.4),
        Column::number("depth", u.unit::<MeasuredDepth>()),
        Column::number("inside", &psi),
        Column::number("outside", &psi),
        Column::number("axial", &force),
        Column::number("combined", &psi),
        Column::number("internal", ""),
        Column::number("collapse", ""),
        Column::number("tension", ""),
        Column::number("combined", ""),
    ])
    .sized(7.0)
    .even();
    let mut last = None;
    for row in &string.loads {
        let case = if last == Some(row.case) { "" } else { row.case.words() };
        last = Some(row.case);
        table.row(load_row(desk, row, case));
    }
    table
}

fn load_row(desk: &Desk<'_>, row: &LoadRow, case: &str) -> Vec<Cell> {
    let u = desk.units;
    let mut cells = vec![
        Cell::from(case),
        row.point.words().into(),
        u.number(row.depth).into(),
        u.either(row.inside, 0, 2).into(),
        u.either(row.outside, 0, 2).into(),
        u.either(row.axial, 0, 1).into(),
        u.either(row.von_mises, 0, 1).into(),
    ];
    let limits = &desk.job.file.limits;
    for criterion in Criterion::ALL {
        let asked = match criterion {
            Criterion::Burst => limits.burst_factor,
            Criterion::Collapse => limits.collapse_factor,
            Criterion::Tension => limits.tension_factor,
            Criterion::Triaxial => limits.triaxial_factor,
        };
        cells.push(match criterion.of(row) {
            Some(f) if f.si() > 99.0 => "> 99".into(),
            Some(f) => Cell::judged(u.rounded(f, 2), f < asked),
            None => NONE.into(),
        });
    }
    cells
}
