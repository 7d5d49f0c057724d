//! The ladder: balls and seats, what they can take, and every bore a ball must pass.

use plan::ladder::{BoreClearance, LadderPlan, RungPlan};
use quantity::*;

use super::Desk;
use super::block::{Cell, Column, Paper, Table, fact};
use super::units::{NONE, Units, percent};
use crate::draw::seat::{Scale, SeatPicture, seats};

/// The pages.
pub(super) fn pages(desk: &Desk<'_>, paper: &mut Paper) {
    paper.section(
        "Ball and seat ladder",
        "Smallest ball at the toe. A ball passes every seat heel-ward of its own and stops on its own.",
    );
    let Some(ladder) = &desk.program.ladder else { return paper.absent("Ladder") };
    let u = desk.units;
    paper.facts(2, summary(ladder, u));
    paper.table(rungs(ladder, u));
    paper.section_of(ladder.rungs.len(), "Balls on their seats", "");
    let pictures: Vec<_> = ladder.rungs.iter().rev().map(|r| picture(desk, r)).collect();
    let columns = 6;
    let scale = Scale::fitting(&pictures, (desk.sheet.width, desk.sheet.height - 40.0), columns);
    paper.drawing("seats", seats(&pictures, scale, columns, desk.sheet.width, u.0), "");
    paper.section_of(
        ladder.bores.len(),
        "Bores and drifts",
        "Every bore from the launcher down, with the largest ball that must pass it.",
    );
    paper.table(bores(ladder, u));
}

fn summary(ladder: &LadderPlan, u: Units) -> Vec<super::block::Fact> {
    let mut facts = vec![
        fact("Sizes chosen by", ladder.method.word()),
        fact("Balls, of which open stages", format!("{}, {}", ladder.balls, ladder.frac_balls)),
        fact("Stages these sizes and limits allow", ladder.stages_that_fit.to_string()),
        fact("What binds", ladder.bound_by.clone()),
        fact("Loss of all seats above stage 1, clean fluid", u.text(ladder.toe_loss)),
    ];
    if let Some(b) = &ladder.setting_ball {
        facts.push(fact("Setting ball on seat", format!("{} on {}", u.text(b.ball), u.text(b.seat))));
    }
    if !ladder.left_out.is_empty() {
        let sizes: Vec<String> = ladder.left_out.iter().map(|d| u.text(*d)).collect();
        facts.push(fact("On offer, not used", sizes.join(", ")));
    }
    facts
}

fn rungs(ladder: &LadderPlan, u: Units) -> Table {
    let (dia, psi) = (u.unit::<Diameter>(), u.unit::<Pressure>());
    let mut table = Table::new(vec![
        Column::number("stage", ""),
        Column::number("ball", &dia),
        Column::number("seat", &dia),
        Column::number("overlap", &dia),
        Column::number("overlap least", &dia),
        Column::number("clearance least", &dia),
        Column::number("sealing circle", &dia),
        Column::number("at", u.unit::<Temperature>()),
        Column::number("rated", &psi),
        Column::number("expected", &psi),
        Column::number("used", ""),
        Column::number("worst", &psi),
        Column::number("used", ""),
        Column::number("force on seat", u.unit::<Force>()),
    ])
    .sized(7.0)
    .note(
        "Overlap: ball over its own seat on the diameter, as drawn; least: at the worst of tolerances, wear and \
         dissolving until its stage ends. Clearance: through the tightest seat above. Rated: differential it holds, \
         before the safety factor. Expected: treating its stage; worst: surface at its limit over the heaviest slurry, \
         at rest. Used: with the safety factor, over the rating. Framed: more than all of it.",
    );
    ladder.rungs.iter().rev().for_each(|r| table.row(rung_row(r, u)));
    table
}

fn rung_row(r: &RungPlan, u: Units) -> Vec<Cell> {
    let used = |ratio: Ratio| Cell::judged(percent(ratio), ratio.si() > 1.0);
    vec![
        Cell::strong(r.stage.to_string()),
        u.either(r.ball, 3, 2).into(),
        u.either(r.seat, 3, 2).into(),
        u.number(r.interference).into(),
        Cell::judged(u.number(r.least_interference), r.least_interference.si() <= 0.0),
        match r.clearance {
            Some(c) => Cell::judged(u.number(c), c.si() <= 0.0),
            None => NONE.into(),
        },
        u.either(r.contact_circle, 3, 2).into(),
        u.rounded(r.temperature, 0).into(),
        u.either(r.rating, 0, 1).into(),
        u.either(r.expected_differential, 0, 1).into(),
        used(r.utilisation),
        u.either(r.worst_differential, 0, 1).into(),
        used(r.worst_utilisation),
        u.either(r.force_at_expected, 0, 1).into(),
    ]
}

fn picture(desk: &Desk<'_>, rung: &RungPlan) -> SeatPicture {
    let sleeve = &desk.job.file.sleeve;
    SeatPicture {
        name: format!("stage {}", rung.stage),
        bore: sleeve.id,
        seat: rung.seat,
        land: sleeve.seat_length,
        ball: rung.ball,
        angle: sleeve.seat_angle,
    }
}

fn bores(ladder: &LadderPlan, u: Units) -> Table {
    let dia = u.unit::<Diameter>();
    let mut table = Table::new(vec![
        Column::wide("bore", 1.0),
        Column::number("depth", u.unit::<MeasuredDepth>()),
        Column::number("bore or drift", &dia),
        Column::number("largest ball", &dia),
        Column::number("clearance, worst", &dia),
        Column::number("wanted", &dia),
        Column::words("passes"),
        Column::words("gauged, initials"),
    ])
    .note("Wanted: on the diameter, at the worst of the tolerances; of a seat as drawn, with something left at the worst.");
    ladder.bores.iter().for_each(|b| table.row(bore_row(b, u)));
    table
}

fn bore_row(b: &BoreClearance, u: Units) -> Vec<Cell> {
    let passes = match (b.ball, b.passes) {
        (None, _) => Cell::from("no ball"),
        (_, true) => "yes".into(),
        (_, false) => Cell::judged("NO", true),
    };
    vec![
        b.name.clone().into(),
        u.maybe(b.depth).into(),
        u.number(b.bore).into(),
        u.maybe(b.ball).into(),
        u.maybe(b.clearance).into(),
        u.number(b.wanted).into(),
        passes,
        Cell::blank(),
    ]
}
