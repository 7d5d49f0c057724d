//! One row a ball.

use plan::Header;
use plan::balls::BallPlan;
use plan::ladder::SettingBall;
use quantity::{Diameter, FlowRate, GaugePressure, MeasuredDepth, Pressure, System, Time, Volume};

use super::{Head, Sheet, cell, maybe, of, plain};

/// The ball cards, in the order of launching, the setting ball's first where there is one, with empty columns for what is measured, checked
/// and seen.
pub fn ball_card_csv(
    balls: &BallPlan,
    setting: Option<&SettingBall>,
    header: &Header,
    trip: GaugePressure,
    system: System,
) -> String {
    let s = system;
    let heads = heads(s);
    let mut sheet = Sheet::new("Ball cards; size gives identity, volume only a window", header, &heads);
    if let Some(ball) = setting {
        // The setting ball goes first; how it is landed stands on the pressure sheet.
        let start = ["sets the packers".to_string(), "pressure sheet".into(), String::new()];
        let sizes = [cell(ball.ball, s), String::new(), cell(ball.seat, s)];
        let known = start.len() + sizes.len();
        let rest = std::iter::repeat_n(String::new(), heads.len() - known);
        sheet.row(start.into_iter().chain(sizes).chain(rest));
    }
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
        let blanks = std::iter::repeat_n(String::new(), BLANKS);
        sheet.row(start.into_iter().chain(figures).chain([delay, lasts, seen]).chain(blanks));
    }
    sheet.finish()
}

/// How many columns are filled in by hand.
const BLANKS: usize = 14;

/// Columns that are filled in by hand, each with the unit to write in.
fn blanks(s: System) -> [Head<'static>; BLANKS] {
    [
        plain("serial"),
        of::<Diameter>("ball measured, first axis", s),
        of::<Diameter>("ball measured, second axis", s),
        of::<Diameter>("seat measured", s),
        plain("measured by"),
        plain("verified by"),
        plain("loaded by"),
        plain("launched by"),
        plain("launch time"),
        of::<Volume>("meter at launch", s),
        of::<Volume>("pumped at landing", s),
        of::<GaugePressure>("peak pressure", s),
        plain("landed: yes, no, not confirmed"),
        plain("opened: yes, no, not confirmed"),
    ]
}

fn heads(s: System) -> Vec<Head<'static>> {
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
    heads.extend(blanks(s));
    heads
}
