//! The stage map and the running tally.

use plan::layout::{Layout, StagePlace, TallyRow};
use quantity::*;

use super::Desk;
use super::block::{Cell, Column, Paper, Table, fact};
use super::units::Units;

/// The pages.
pub(super) fn pages(desk: &Desk<'_>, paper: &mut Paper) {
    let lead = "Stage 1 is at the toe. Depths are measured depths; \u{b1} is one standard deviation of the depth on \
                location.";
    let rows = desk.program.layout.as_ref().map_or(0, |l| l.stages.len());
    paper.section_of(rows, "Stage map", lead);
    let Some(layout) = &desk.program.layout else { return paper.absent("Layout") };
    paper.table(stage_map(layout, desk.units));
    let lead = "Toe to heel, as it is run. From shoe, mass and volumes are up to and with the row. Strike out a \
                row that is changed on location, write the new one beside it, and plan again.";
    paper.section("Running tally", lead);
    reconciliation(layout, desk.units, paper);
    paper.table(tally(layout, desk.units));
}

fn stage_map(layout: &Layout, u: Units) -> Table {
    let (md, dia, psi) = (u.unit::<MeasuredDepth>(), u.unit::<Diameter>(), u.unit::<Pressure>());
    let mut table = Table::new(vec![
        Column::number("stage", ""),
        Column::number("toe end", &md),
        Column::number("heel end", &md),
        Column::number("length", u.unit::<Length>()),
        Column::number("sleeve ports", &md),
        Column::number("\u{b1}", u.unit::<Length>()),
        Column::number("bend", u.unit::<Curvature>()),
        Column::number("packer element", format!("top, {md}")),
        Column::number("\u{b1}", u.unit::<Length>()),
        Column::number("bend", u.unit::<Curvature>()),
        Column::number("hole P50", &dia),
        Column::number("hole worst", &dia),
        Column::number("rock", u.unit::<Temperature>()),
        Column::number("must hold", &psi),
        Column::number("rated", &psi),
    ])
    .sized(7.0)
    .note(
        "Hole worst: largest reading over the element widened by the depth uncertainty. Must hold: with the factor of \
         the job file. Rated: by the supplier's figures in the worst hole at the rock's temperature. Framed: a limit is \
         broken, or the supplier gives no figure.",
    );
    layout.stages.iter().rev().for_each(|s| table.row(stage_row(s, u)));
    table
}

fn stage_row(s: &StagePlace, u: Units) -> Vec<Cell> {
    let (p, v) = (&s.packer, &s.sleeve);
    let short = p.rating.is_none_or(|r| r < p.needed);
    let rated = p.rating.map_or_else(|| "no figure".to_string(), |r| u.either(r, 0, 1));
    vec![
        Cell::strong(s.stage.to_string()),
        u.either(s.toe_end, 1, 1).into(),
        u.either(s.heel_end, 1, 1).into(),
        u.either(s.length, 1, 1).into(),
        u.either(v.ports, 1, 1).into(),
        u.rounded(v.sigma, 1).into(),
        u.rounded(v.dogleg, 1).into(),
        u.either(p.element_top, 1, 1).into(),
        u.rounded(p.sigma, 1).into(),
        u.rounded(p.dogleg, 1).into(),
        u.either(p.hole.p50, 3, 1).into(),
        u.either(p.hole.worst, 3, 1).into(),
        u.rounded(p.temperature, 0).into(),
        u.either(p.needed, 0, 1).into(),
        Cell::judged(rated, short),
    ]
}

fn reconciliation(layout: &Layout, u: Units, paper: &mut Paper) {
    let r = &layout.reconciliation;
    paper.facts(
        2,
        vec![
            fact("Joints on the rack", format!("{}, {}", r.on_rack, u.text(r.length_on_rack))),
            fact("Joints in the hole", format!("{}, {}", r.in_hole, u.text(r.length_in_hole))),
            fact("Joints left", format!("{}, {}", r.left, u.text(r.length_left))),
            fact("Pups on location, in the hole", format!("{}, {}", r.pups, r.pups_in_hole)),
            fact("Length of tools in the hole", u.text(r.length_of_tools)),
            fact(
                "Top of the casing packer, planned and as it lands",
                format!("{}, {}", u.text(layout.casing_packer_planned), u.text(layout.casing_packer_top)),
            ),
            fact("Closure: what does not add up", u.text(r.closure)),
        ],
    );
}

fn tally(layout: &Layout, u: Units) -> Table {
    let (md, len, vol) = (u.unit::<MeasuredDepth>(), u.unit::<Length>(), u.unit::<Volume>());
    let mut table = Table::new(vec![
        Column::number("row", "").taking(0.7),
        Column::wide("item", 1.7),
        Column::wide("serial", 1.7),
        Column::number("length", &len),
        Column::number("from shoe", &len),
        Column::number("top", &md),
        Column::number("bottom", &md),
        Column::number("\u{b1}", &len).taking(0.7),
        Column::number("mass in air", u.unit::<Mass>()),
        Column::number("inside", &vol),
        Column::number("steel", &vol),
        Column::number("outside", &vol),
        Column::wide("run", 0.8),
    ])
    .sized(7.0)
    .even();
    layout.tally.iter().for_each(|row| table.row(tally_row(row, u)));
    table
}

fn tally_row(row: &TallyRow, u: Units) -> Vec<Cell> {
    let name = if row.stage.is_some() { Cell::strong(row.name.clone()) } else { row.name.clone().into() };
    vec![
        row.row.to_string().into(),
        name,
        row.serial.clone().into(),
        u.number(row.length).into(),
        u.number(row.cumulative).into(),
        u.number(row.top).into(),
        u.number(row.bottom).into(),
        u.rounded(row.sigma, 1).into(),
        u.number(row.mass).into(),
        u.either(row.inside, 2, 3).into(),
        u.either(row.steel, 2, 3).into(),
        u.either(row.annulus, 2, 3).into(),
        Cell::blank(),
    ]
}
