//! One card for every ball: what is known before it leaves, and blanks for what is measured,
//! checked and seen.

use plan::balls::{BallCard, BallPlan};
use plan::ladder::{LedgerBall, SettingBall};
use quantity::*;

use super::Desk;
use super::block::{Block, Card, Fact, Paper, blank, fact};
use super::units::{Units, percent, span};
use crate::draw::volume_line::{VolumeLine, volume_line};

/// The pages.
pub(super) fn pages(desk: &Desk<'_>, plan: &BallPlan, paper: &mut Paper) {
    paper.section("Ball cards", "One card a ball, three on a page, in the order of launching. Cut them apart; each goes with its ball and comes back filled in.");
    let mut cards = Vec::new();
    let ladder = desk.program.ladder.as_ref();
    let setting =
        ladder.and_then(|l| l.setting_ball.as_ref().zip(l.ledger.iter().find(|b| b.stage.is_none())));
    cards.extend(setting.map(|(ball, ledger)| setting_card(ball, ledger, desk.units)));
    for c in &plan.cards {
        let line = volume_line(&scale(c, desk.units), desk.sheet.width - 16.0);
        let file = paper.keep(&format!("ball-{:02}", c.stage), line);
        cards.push(card(c, desk, file));
    }
    paper.blocks.push(Block::Cards { cards });
}

fn scale(c: &BallCard, u: Units) -> VolumeLine {
    let v = |q: Volume| q.shown(u.0);
    VolumeLine {
        label: format!("pumped since launch, {}", u.unit::<Volume>()),
        cut: v(c.rate_cut_at),
        opens: v(c.window_opens),
        band: (v(c.landing.p10), v(c.landing.p50), v(c.landing.p90)),
        closes: v(c.window_closes),
        missing: v(c.missing_at),
        decimals: if u.0 == System::Field { 1 } else { 2 },
    }
}

const MEASURERS: &[&str] = &["first person", "second person"];
const CHECKS: &[&str] = &["serial noted", "loaded", "loading verified", "closed, tested", "launched"];

fn card(c: &BallCard, desk: &Desk<'_>, drawing: String) -> Card {
    let u = desk.units;
    Card {
        title: format!("Stage {}", c.stage),
        ball: u.text(c.ball),
        made_of: c.material.clone(),
        facts: facts(c, desk),
        drawing,
        cautions: cautions(c, u),
        measure: measure(u),
        measurers: MEASURERS.iter().map(|m| (*m).to_string()).collect(),
        checks: CHECKS.iter().map(|m| (*m).to_string()).collect(),
        outcome: outcome(u),
    }
}

fn measure(u: Units) -> Vec<super::block::Blank> {
    let dia = u.unit::<Diameter>();
    vec![blank("diameter 1", &dia), blank("diameter 2, at 90\u{b0}", dia), blank("initials", "")]
}

fn outcome(u: Units) -> Vec<super::block::Blank> {
    let (vol, psi) = (u.unit::<Volume>(), u.unit::<GaugePressure>());
    vec![
        blank("launched at, meter", &vol),
        blank("launched at, time", ""),
        blank("landed after", &vol),
        blank("landed at, time", ""),
        blank("peak pressure", psi),
        blank("opened: yes / no", ""),
    ]
}

fn facts(c: &BallCard, desk: &Desk<'_>) -> Vec<Fact> {
    let u = desk.units;
    let launch = match c.launched_during {
        0 => "before stage 1".to_string(),
        stage => format!("{}, stage {stage}", u.volume(c.launch_at)),
    };
    let s = &c.chosen.signature;
    let decimals = if u.0 == System::Field { 1 } else { 2 };
    let rate = if c.rate_before > c.landing_rate {
        format!("{} to {}", u.number(c.rate_before), u.text(c.landing_rate))
    } else {
        format!("{} all the way", u.text(c.landing_rate))
    };
    vec![
        fact("Ball", format!("{} \u{b1} {}", u.number(c.ball), u.text(c.ball_tolerance))),
        fact("Seat", format!("{} \u{b1} {}", u.number(c.seat), u.text(c.seat_tolerance))),
        fact("Seat at", u.text(c.seat_depth)),
        fact("Launch, by meter", launch),
        fact("Clean fluid ahead", u.volume(c.spacer_ahead)),
        fact("Rate at the cut", rate),
        fact("P10 / P50 / P90", u.band(c.landing, decimals)),
        fact("Launch to landing", span(c.transit)),
        fact("Impact, of rating", percent(c.chosen.impact_share)),
        fact("Sleeve shears at", format!("{} to {}", u.number(c.shear.low), u.text(c.shear.high))),
        fact("Pressure before", u.text(c.chosen.before)),
        fact("Expected rise", format!("{}, after {}", u.text(s.rise), span(s.delay))),
        fact("Highest expected", u.text(c.chosen.highest)),
        fact("Pump trip", u.text(desk.job.file.limits.trip)),
        fact("Room to the trip", u.text(c.chosen.below_trip)),
    ]
}

fn cautions(c: &BallCard, u: Units) -> Vec<String> {
    let mut lines = Vec::new();
    if !c.chosen.allowed {
        lines
            .push("No landing rate keeps trip and impact: do not launch before this is settled.".to_string());
    }
    if !c.chosen.visible {
        lines.push("The recorder may not show this landing: watch the pressure by hand, go by the stage's own response.".into());
    }
    if let Some(s) = c.spacing_sigmas.filter(|s| s.si() < 3.0) {
        let (spacing, sigmas) = (c.spacing.map_or_else(String::new, |v| u.volume(v)), u.rounded(s, 1));
        lines.push(format!(
            "The next seat is {spacing} toe-ward, {sigmas} sigma: volume does not tell which seat it is on."
        ));
    }
    lines
}

fn setting_card(ball: &SettingBall, ledger: &LedgerBall, u: Units) -> Card {
    Card {
        title: "Setting ball".into(),
        ball: u.text(ball.ball),
        made_of: String::new(),
        facts: vec![
            fact(
                "Ball",
                format!(
                    "{}, accept {} to {}",
                    u.text(ball.ball),
                    u.number(ledger.smallest),
                    u.text(ledger.largest)
                ),
            ),
            fact("Isolation tool's seat", u.text(ball.seat)),
            fact("Overlap, least", u.text(ball.least_interference)),
            fact("Clearance, least", u.maybe_text(ball.clearance)),
        ],
        drawing: String::new(),
        cautions: vec!["It sets the packers: follow the pressure sheet.".into()],
        measure: measure(u),
        measurers: MEASURERS.iter().map(|m| (*m).to_string()).collect(),
        checks: CHECKS.iter().map(|m| (*m).to_string()).collect(),
        outcome: outcome(u),
    }
}
