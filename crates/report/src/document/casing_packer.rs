//! The casing packer: what it must stand, against its rated envelope.

use plan::casing_packer::{Below, Bound, CasingPackerPlan, PackerCase};
use quantity::*;

use super::Desk;
use super::block::{Cell, Column, Fact, Paper, Table, fact};
use super::units::{Units, percent};
use crate::draw::axis::Axis;
use crate::draw::chart::{Chart, Label, Mark};
use crate::draw::svg::ink;

/// The pages.
pub(super) fn pages(desk: &Desk<'_>, paper: &mut Paper) {
    let lead = "It must stand the temperature, the pressure and the weight of the completion hung below it. Loads are \
                positive downwards; every case is taken twice, once with all that pulls down and once with all that \
                pushes up.";
    paper.section("Casing packer", lead);
    let Some(plan) = &desk.program.casing_packer else { return paper.absent("Casing packer") };
    let u = desk.units;
    paper.facts(2, summary(plan, u));
    let size = (desk.sheet.width, 0.34 * desk.sheet.height);
    paper.drawing(
        "envelope",
        envelope(plan, u, size),
        "Rated envelope and the cases, by their number in the table.",
    );
    paper.table(cases(plan, u));
    paper.heading("Parts of the load");
    paper.table(parts(plan, u));
}

fn summary(plan: &CasingPackerPlan, u: Units) -> Vec<Fact> {
    let mut facts = vec![
        fact("Top, TVD", format!("{}, {}", u.text(plan.top), u.text(plan.tvd))),
        fact(
            "Rock there, rated to",
            format!("{}, {}", u.text(plan.temperature), u.text(plan.max_temperature)),
        ),
        fact(
            "OD; least drift of the casing",
            format!("{}; {}", u.text(plan.od), u.maybe_text(plan.casing_drift)),
        ),
        fact("Clearance running in", u.maybe_text(plan.clearance)),
        fact("Mass below it, in air", u.text(plan.hung.mass)),
        fact("Hung along the hole, no friction", u.text(plan.hung.along_hole)),
        fact(
            "After lowering, after picking up",
            format!("{}, {}", u.text(plan.hung.lowered), u.text(plan.hung.picked_up)),
        ),
    ];
    if let Some(case) = plan.governing() {
        let used = case.utilisation.map_or_else(|| "beyond the envelope".to_string(), percent);
        facts.push(fact("Hardest case", format!("{}, {used}", case.case.words())));
    }
    facts
}

/// Loads and differentials are drawn in thousands where the unit is small.
fn thousands(u: Units) -> (f64, String, f64, String) {
    let (force, pressure) = (u.unit::<Force>(), u.unit::<Pressure>());
    match u.0 {
        System::Field => (1e-3, "klbf".into(), 1.0, pressure),
        System::Metric => (1.0, force, 1.0, pressure),
    }
}

fn envelope(plan: &CasingPackerPlan, u: Units, size: (f64, f64)) -> String {
    let (load_scale, load_unit, _, pressure_unit) = thousands(u);
    let point =
        |load: Force, differential: Pressure| (load.shown(u.0) * load_scale, differential.abs().shown(u.0));
    let mut outline: Vec<_> = plan.envelope.iter().map(|c| point(c.load, c.differential)).collect();
    outline.extend(outline.first().copied());
    let cases: Vec<_> = plan.cases.iter().map(|c| point(c.load, c.differential)).collect();
    let all = || outline.iter().chain(&cases);
    let x = Axis::over(format!("load on the packer, down positive, {load_unit}"), all().map(|p| p.0), true);
    let y = Axis::over(format!("differential, either direction, {pressure_unit}"), all().map(|p| p.1), true);
    let labels =
        cases.iter().enumerate().map(|(i, at)| Label { at: *at, text: (i + 1).to_string() }).collect();
    let mut chart = Chart::new(size, x, y).with("rated envelope", Mark::Area, ink::GREEN, outline).with(
        "case",
        Mark::Dots,
        ink::VERMILION,
        cases,
    );
    chart.labels = labels;
    chart.draw()
}

fn name(i: usize, case: &PackerCase) -> String {
    let bound = match case.bound {
        Bound::Down => "pull down",
        Bound::Up => "push up",
    };
    format!("{}. {}, {bound}", i + 1, case.case.words())
}

fn cases(plan: &CasingPackerPlan, u: Units) -> Table {
    let (psi, force) = (u.unit::<Pressure>(), u.unit::<Force>());
    let mut table = Table::new(vec![
        Column::wide("case", 4.2),
        Column::wide("below stands", 1.1),
        Column::number("below", &psi),
        Column::number("above", &psi),
        Column::number("differential", &psi),
        Column::number("load", &force),
        Column::number("allowed", &force),
        Column::number("used", ""),
    ])
    .sized(7.0)
    .even();
    for (i, c) in plan.cases.iter().enumerate() {
        let used = match c.utilisation {
            Some(r) => Cell::judged(percent(r), r.si() > 1.0),
            None => Cell::judged("beyond", true),
        };
        table.row(vec![
            name(i, c).into(),
            below(c.below_is).into(),
            u.either(c.below, 0, 2).into(),
            u.either(c.above, 0, 2).into(),
            u.either(c.differential, 0, 2).into(),
            Cell::strong(u.either(c.load, 0, 1)),
            c.load_limit.map_or_else(|| "none".into(), |l| u.either(l, 0, 1)).into(),
            used,
        ]);
    }
    table
}

fn below(below: Below) -> &'static str {
    match below {
        Below::Annulus => "setting fluid",
        Below::Formation => "formation",
        Below::Bore => "the bore",
    }
}

fn parts(plan: &CasingPackerPlan, u: Units) -> Table {
    let force = u.unit::<Force>();
    let mut table = Table::new(vec![
        Column::wide("case", 4.2),
        Column::number("hung", &force),
        Column::number("end load", &force),
        Column::number("locked in", &force),
        Column::number("ballooning", &force),
        Column::number("thermal", &force),
        Column::number("string above", &force),
        Column::number("pressure on areas", &force),
        Column::number("load", &force),
    ])
    .sized(7.0)
    .even();
    for (i, c) in plan.cases.iter().enumerate() {
        let p = &c.parts;
        let mut row = vec![Cell::from(name(i, c))];
        let all = [p.hung, p.end_load, p.locked_in, p.ballooning, p.thermal, p.string_above, p.pressure_area];
        row.extend(all.map(|f| Cell::from(u.either(f, 0, 1))));
        row.push(Cell::strong(u.either(c.load, 0, 1)));
        table.row(row);
    }
    table
}
