//! The swell of the packers against the planned wait.

use plan::Band;
use plan::swell::{Showing, SwellChart, SwellPacker, SwellPlan};
use quantity::*;

use super::Desk;
use super::block::{Cell, Column, Fact, Paper, Table, fact};
use super::units::{Units, percent, span};
use crate::draw::axis::Axis;
use crate::draw::chart::{BandSeries, Chart, Mark};
use crate::draw::svg::ink;

/// The pages; none where no packer swells.
pub(super) fn pages(desk: &Desk<'_>, paper: &mut Paper) {
    let Some(plan) = desk.program.setting.as_ref().and_then(|s| s.swell.as_ref()) else { return };
    let lead = "Time counts from the activation fluid in place. A packer has its rating when it would have swollen, free, \
                past the hole by what the supplier asks.";
    paper.section("Swell of the packers", lead);
    let u = desk.units;
    paper.facts(2, summary(plan, u));
    let size = (desk.sheet.width, 0.3 * desk.sheet.height);
    paper.drawing(
        "swell",
        overview(plan, size),
        "Days until every packer touches the hole, and until it has its rating.",
    );
    let last = plan.charts.iter().find(|c| c.showing == Showing::Worst).or(plan.charts.last());
    if let Some(chart) = last {
        let caption = format!("{}: diameter it would have, free.", showing(chart));
        paper.drawing("swell-last", one(plan, chart, u, size), &caption);
    }
    paper.section_of(plan.packers.len(), "Swell, packer by packer", "");
    paper.table(table(plan, u));
}

fn showing(chart: &SwellChart) -> String {
    let which = match chart.showing {
        Showing::Best => "first",
        Showing::Median => "middle one",
        Showing::Worst => "last",
    };
    format!("The packer of stage {}, the {which} to have its rating", chart.stage)
}

fn summary(plan: &SwellPlan, u: Units) -> Vec<Fact> {
    let packer = |p: Option<usize>| p.map_or_else(String::new, |s| format!(" (packer of stage {s})"));
    let time = |t: Option<Time>| t.map_or_else(|| "not reached".to_string(), span);
    vec![
        fact("Fluid", plan.fluid.clone()),
        fact("Planned wait", span(plan.planned_wait)),
        fact("Earliest first ball: all packers ready, P90", time(plan.earliest_frac)),
        fact("All packers ready, P50 and P10", {
            let p10 = time(plan.ready.map(|b| b.p10));
            format!("{}, {p10}", time(plan.expected_frac))
        }),
        fact(
            "All ready at the planned wait",
            format!("{:.0} % of the samples", plan.ready_at_wait.in_percent()),
        ),
        fact(
            "Most often the last",
            packer(plan.last_packer).trim().to_string()
                + &format!(", in {:.0} % of the samples", plan.last_share.in_percent()),
        ),
        fact("Growth past contact asked", u.text(plan.interference)),
        fact("First touch while running in", time(plan.first_touch) + &packer(plan.first_touch_packer)),
        fact(
            "When the fluid is in place; warm after",
            format!("{}; {}", u.text(plan.start_temperature), span(plan.warm_up)),
        ),
        fact("Samples a packer, seed", format!("{}, {}", plan.samples, plan.seed)),
    ]
}

fn overview(plan: &SwellPlan, size: (f64, f64)) -> String {
    let days = |t: Time| t.in_days();
    let band = |of: fn(&SwellPacker) -> Option<Band<Time>>| -> Vec<(f64, f64, f64, f64)> {
        let one = |p: &SwellPacker| of(p).map(|b| (p.stage as f64, days(b.p10), days(b.p50), days(b.p90)));
        plan.packers.iter().filter_map(one).collect()
    };
    let (contact, rating) = (band(|p| p.contact), band(|p| p.rating));
    let wait = days(plan.planned_wait);
    let all = contact.iter().chain(&rating).map(|b| b.3).chain([wait]);
    let y = Axis::over("days from the fluid in place", all, true);
    let x = Axis::counted("packer of stage, toe at the left", plan.packers.len());
    let mut chart = Chart::new(size, x, y);
    let bands = [("contact", &contact, ink::GREEN, Mark::Dashed), ("rating", &rating, ink::BLUE, Mark::Line)];
    for (name, points, colour, mark) in bands {
        let points = points.clone();
        let edges = points.iter().map(|p| (p.0, p.1, p.3)).collect();
        chart.bands.push(BandSeries { name: format!("{name}, P10 to P90"), points: edges, colour });
        chart =
            chart.with(&format!("{name}, P50"), mark, colour, points.iter().map(|p| (p.0, p.2)).collect());
    }
    chart.limit("planned wait", wait).draw()
}

fn one(plan: &SwellPlan, swell: &SwellChart, u: Units, size: (f64, f64)) -> String {
    let dia = |d: Diameter| d.shown(u.0);
    let points: Vec<_> = swell.points.iter().map(|p| (p.time.in_days(), p.diameter)).collect();
    let wait = plan.planned_wait.in_days();
    let x = Axis::over("days from the fluid in place", points.iter().map(|p| p.0).chain([wait]), true);
    let marks = [swell.hole.p10, swell.hole.p90, swell.wanted].map(dia);
    let ends = points.iter().flat_map(|p| [dia(p.1.p10), dia(p.1.p90)]).chain(marks);
    let y = Axis::over(format!("diameter, {}", u.unit::<Diameter>()), ends, false);
    let edges = (x.ends.0, x.ends.1);
    let mut chart = Chart::new(size, x, y);
    let hole = [edges.0, edges.1].map(|x| (x, dia(swell.hole.p10), dia(swell.hole.p90)));
    chart.bands.push(BandSeries {
        name: "hole, P10 to P90".into(),
        points: hole.to_vec(),
        colour: ink::GREY,
    });
    let spread = points.iter().map(|(t, d)| (*t, dia(d.p10), dia(d.p90))).collect();
    chart.bands.push(BandSeries { name: "element, P10 to P90".into(), points: spread, colour: ink::BLUE });
    let middle = points.iter().map(|(t, d)| (*t, dia(d.p50))).collect();
    let wanted = [edges.0, edges.1].map(|x| (x, dia(swell.wanted))).to_vec();
    chart
        .with("element, P50", Mark::Line, ink::BLUE, middle)
        .with("wanted for the rating", Mark::Dashed, ink::BLACK, wanted)
        .upright("planned wait", wait)
        .draw()
}

fn table(plan: &SwellPlan, u: Units) -> Table {
    let dia = u.unit::<Diameter>();
    let mut table = Table::new(vec![
        Column::number("stage", ""),
        Column::number("depth", u.unit::<MeasuredDepth>()),
        Column::number("rock", u.unit::<Temperature>()),
        Column::number("hole P50", &dia),
        Column::number("hole worst", &dia),
        Column::number("contact P10", "d"),
        Column::number("P50", "d"),
        Column::number("P90", "d"),
        Column::number("rating P10", "d"),
        Column::number("P50", "d"),
        Column::number("P90", "d"),
        Column::number("in the worst hole", "d"),
        Column::number("at the wait, P50", &dia),
        Column::number("ready at the wait", ""),
        Column::number("beyond tests", ""),
    ])
    .sized(7.0)
    .note(
        "Ready at the wait: share of the samples that have the rating then; framed below nine in ten. In the worst hole: \
         every figure at its middle, the largest hole over the element. Beyond tests: share of the swelling at \
         temperatures further from the supplier's tests than is taken for granted.",
    );
    plan.packers.iter().rev().for_each(|p| table.row(row(p, u)));
    table
}

fn row(p: &SwellPacker, u: Units) -> Vec<Cell> {
    let day = |t: Time| number(t.in_days(), 1);
    let three = |band: Option<Band<Time>>| -> Vec<Cell> {
        match band {
            Some(b) => [b.p10, b.p50, b.p90].map(|t| Cell::from(day(t))).to_vec(),
            None => vec![Cell::judged("never", true), "".into(), "".into()],
        }
    };
    let mut cells = vec![
        Cell::strong(p.stage.to_string()),
        u.number(p.depth).into(),
        u.rounded(p.temperature, 0).into(),
        u.either(p.hole.p50, 3, 1).into(),
        u.either(p.worst_hole, 3, 1).into(),
    ];
    cells.extend(three(p.contact));
    cells.extend(three(p.rating));
    cells.push(p.rating_in_worst_hole.map_or_else(|| Cell::judged("never", true), |t| day(t).into()));
    cells.push(u.either(p.diameter_at_wait.p50, 3, 1).into());
    cells.push(Cell::judged(percent(p.ready), p.ready.si() < 0.9));
    cells.push(percent(p.beyond_tests).into());
    cells
}
