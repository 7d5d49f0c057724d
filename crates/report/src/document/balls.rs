//! The ball program on one page, the balls to have on location, and the way to the cards.

use plan::balls::{BallCard, BallPlan};
use plan::ladder::LadderPlan;
use quantity::*;

use super::Desk;
use super::ball_cards;
use super::block::{Cell, Column, Paper, Table, Tone, fact};
use super::units::{NONE, Units, span};

/// The pages.
pub(super) fn pages(desk: &Desk<'_>, paper: &mut Paper) {
    let lead = "Pumps do not stop between stages: the ball for the next stage leaves toward the end of the stage being \
                pumped. Its volume gives a window, its size gives its identity; never claim to know from volume alone \
                which seat a ball is on.";
    paper.section("Ball program", lead);
    let u = desk.units;
    match &desk.program.balls {
        Some(plan) => {
            paper.facts(2, summary(plan, u));
            paper.table(overview(plan, u));
        }
        None => paper.absent("Ball program"),
    }
    standing_rules(paper);
    if let Some(ladder) = &desk.program.ladder {
        paper.section_of(
            ladder.ledger.len(),
            "Balls to have on location",
            "In the order of launching. Spares of every size are for the engineer in charge to decide.",
        );
        paper.table(on_location(ladder, u));
    }
    if let Some(plan) = &desk.program.balls {
        ball_cards::pages(desk, plan, paper);
    }
}

fn summary(plan: &BallPlan, u: Units) -> Vec<super::block::Fact> {
    vec![
        fact("Cards", plan.cards.len().to_string()),
        fact("Time of the whole treatment", span(plan.job_time)),
        fact("Time the slow landings cost", span(plan.slow_time)),
        fact("Clean fluid over-displaced into finished stages", u.text(plan.over_displacement)),
    ]
}

fn overview(plan: &BallPlan, u: Units) -> Table {
    let (vol, rate, psi) = (u.unit::<Volume>(), u.unit::<FlowRate>(), u.unit::<Pressure>());
    let mut table = Table::new(vec![
        Column::number("opens stage", ""),
        Column::number("ball", u.unit::<Diameter>()),
        Column::number("launch, stage meter", &vol).taking(1.3),
        Column::number("cut rate", &vol),
        Column::number("land at", &rate),
        Column::number("window opens", &vol),
        Column::number("P50", &vol),
        Column::number("window closes", &vol),
        Column::number("missing", &vol),
        Column::number("rise", &psi),
        Column::number("after", "s"),
        Column::number("below trip", &psi),
        Column::number("to the next seat", "sigma"),
    ])
    .sized(7.0)
    .even()
    .note(
        "Launch: reading of the meter of the stage being pumped. All other volumes are since launch. Rise: at the surface before the sleeve opens, at its nominal shear. \
         After: from landing until the surface sees it. Below trip: what is left with the sleeve at the top of its \
         range. To the next seat: volume between this seat and the one toe-ward, over the spread of the landing; below 3 \
         volume cannot tell the two apart.",
    );
    plan.cards.iter().for_each(|c| table.row(overview_row(c, u)));
    table
}

fn overview_row(c: &BallCard, u: Units) -> Vec<Cell> {
    let v = |q: Volume| Cell::from(u.either(q, 1, 2));
    let launch = if c.launched_during == 0 { "first".to_string() } else { u.either(c.launch_at, 1, 2) };
    vec![
        Cell::strong(c.stage.to_string()),
        Cell::strong(u.either(c.ball, 3, 2)),
        launch.into(),
        v(c.rate_cut_at),
        Cell::judged(u.number(c.landing_rate), !c.chosen.allowed),
        v(c.window_opens),
        Cell::strong(u.either(c.landing.p50, 1, 2)),
        v(c.window_closes),
        v(c.missing_at),
        Cell::judged(u.either(c.chosen.signature.rise, 0, 2), !c.chosen.visible),
        number(c.chosen.signature.delay.in_seconds(), 1).into(),
        Cell::judged(u.either(c.chosen.below_trip, 0, 2), c.chosen.below_trip.si() < 0.0),
        c.spacing_sigmas.map_or_else(|| NONE.into(), |s| u.rounded(s, 1).into()),
    ]
}

fn on_location(ladder: &LadderPlan, u: Units) -> Table {
    let dia = u.unit::<Diameter>();
    let mut table = Table::new(vec![
        Column::number("order", ""),
        Column::words("opens"),
        Column::number("diameter", &dia),
        Column::number("accept from", &dia),
        Column::number("to", &dia),
        Column::number("mass", u.unit::<Mass>()),
        Column::wide("serial", 1.0),
        Column::wide("spare, serial", 1.0),
        Column::wide("counted, initials", 1.0),
    ])
    .tall();
    for b in &ladder.ledger {
        table.row(vec![
            b.order.to_string().into(),
            b.stage.map_or_else(|| "sets the packers".to_string(), |s| format!("stage {s}")).into(),
            Cell::strong(u.number(b.diameter)),
            u.number(b.smallest).into(),
            u.number(b.largest).into(),
            u.either(b.mass, 2, 2).into(),
            Cell::blank(),
            Cell::blank(),
            Cell::blank(),
        ]);
    }
    table
}

/// Says what holds for every card.
fn standing_rules(paper: &mut Paper) {
    let lines = [
        "Two people measure every ball, each across two diameters, and write what they read before they compare.",
        "The launcher is proved to hold no pressure before it is opened: isolate, bleed off, see the bleed stay dry.",
        "Never raise a trip or a relief setting to make a ball land. Stop, and find out why.",
        "A ball that has not been seen by the volume at which it counts as missing is missing: take it as anywhere in the string until it is found.",
    ];
    paper.notice(Tone::Warn, "For every ball", lines.iter().map(|l| (*l).to_string()).collect());
}
