//! One row a ball.

use plan::Header;
use plan::balls::BallPlan;
use quantity::{Diameter, FlowRate, GaugePressure, MeasuredDepth, Pressure, System, Time, Volume};

use super::{Head, Sheet, cell, maybe, of, plain};

/// The ball cards, in the order of launching, with empty columns for what is measured, checked
/// and seen.
pub fn ball_card_csv(balls: &BallPlan, header: &Header, trip: GaugePressure, system: System) -> String {
    let s = system;
    let mut sheet = Sheet::new("Ball cards; size gives identity, volume only a window", header, &heads(s));
    for c in &balls.cards {
        let during =
            if c.launched_during == 0 { "before stage 1".into() } else { c.launched_during.to_string() };
        let start = [c.stage.to_string(), during, c.material.clone()];
        let figures = [
            cell(c.ball, s),
            cell(c.ball_tolerance, s),
            cell(c.seat, s),
            cell(c.seat_tolerance, s),
            cell(c.seat_depth, s),
            cell(c.swept, s),
            cell(c.spacer_ahead, s),
            cell(c.launch_at, s),
            cell(c.rate_before, s),
            cell(c.rate_cut_at, s),
            cell(c.landing_rate, s),
            cell(c.window_opens, s),
            cell(c.landing.p10, s),
            cell(c.landing.p50, s),
            cell(c.landing.p90, s),
            cell(c.window_closes, s),
            cell(c.missing_at, s),
            maybe(c.spacing, s),
            cell(c.transit, s),
            cell(c.chosen.before, s),
            cell(c.chosen.signature.rise, s),
            cell(c.chosen.highest, s),
            cell(trip, s),
            cell(c.over_displacement, s),
        ];
        let delay = format!("{:.1}", c.chosen.signature.delay.in_seconds());
        let lasts = format!("{:.1}", c.chosen.signature.lasts.in_seconds());
        let seen = if c.chosen.visible { "yes" } else { "no" }.to_string();
        let blanks = std::iter::repeat_n(String::new(), BLANKS.len());
        sheet.row(start.into_iter().chain(figures).chain([delay, lasts, seen]).chain(blanks));
    }
    sheet.finish()
}

/// Columns that are filled in by hand.
const BLANKS: [&str; 14] = [
    "serial",
    "ball measured, first axis",
    "ball measured, second axis",
    "seat measured",
    "measured by",
    "verified by",
    "loaded by",
    "launched by",
    "launch time",
    "meter at launch",
    "pumped at landing",
    "peak pressure",
    "landed (yes, no, not confirmed)",
    "opened (yes, no, not confirmed)",
];

fn heads(s: System) -> Vec<Head> {
    let mut heads = vec![
        plain("opens stage"),
        plain("launched during stage"),
        plain("material"),
        of::<Diameter>("ball", s),
        of::<Diameter>("ball tolerance", s),
        of::<Diameter>("seat", s),
        of::<Diameter>("seat tolerance", s),
        of::<MeasuredDepth>("seat MD", s),
        of::<Volume>("launcher to seat", s),
        of::<Volume>("clean spacer ahead", s),
        of::<Volume>("launch at stage slurry volume", s),
        of::<FlowRate>("rate before the cut", s),
        of::<Volume>("cut rate at, since launch", s),
        of::<FlowRate>("landing rate", s),
        of::<Volume>("window opens", s),
        of::<Volume>("landing P10", s),
        of::<Volume>("landing P50", s),
        of::<Volume>("landing P90", s),
        of::<Volume>("window closes", s),
        of::<Volume>("missing at", s),
        of::<Volume>("volume to the seat toe-ward", s),
        of::<Time>("launch to landing", s),
        of::<GaugePressure>("pressure before landing", s),
        of::<Pressure>("rise at surface", s),
        of::<GaugePressure>("highest at surface", s),
        of::<GaugePressure>("pump trip", s),
        of::<Volume>("over-displacement", s),
        plain("seen after (s)"),
        plain("lasts (s)"),
        plain("expected to be seen"),
    ];
    heads.extend(BLANKS.map(plain));
    heads
}
