//! Findings on the ladder.

use physics::ball::ladder::Rung;
use quantity::*;
use well::{Finding, Severity};

use crate::words::stages;

use super::bores::{SAME, passes_seat};
use super::checks;
use super::choose::Chosen;
use super::duty::{Duty, Scene};
use super::result::{BorePart, LadderPlan, RungPlan};
use super::rung::Fault;
use crate::Ledger;
use crate::checks::RELATION_REFUSED;

/// There are fewer sizes than stages need.
pub(super) fn too_few(scene: &Scene<'_>, chosen: &Chosen) -> Finding {
    let fit = chosen.balls_that_fit;
    let message = said!(
        "{} stages need {} balls that open stages; {fit} fit, which serves {} stages ({})",
        scene.stages(),
        scene.frac_balls(),
        fit + scene.first_stage() - 1,
        chosen.bound_by
    );
    checks::TOO_FEW.found(message).field("ladder")
}

/// A seat that no sleeve can have.
pub(super) fn no_such_seat(scene: &Scene<'_>, rung: Rung, stage: usize) -> Finding {
    let message =
        said!("the seat of stage {stage}, {}, does not lie inside the bore of its sleeve", rung.seat);
    let finding = checks::SEAT_SIZE.found(message).stage(stage).field("sleeve.largest_seat");
    finding.value(rung.seat).limit(scene.job.file.sleeve.largest_seat)
}

/// A rung that cannot be worked out.
pub(super) fn fault(scene: &Scene<'_>, duty: &Duty, rung: Rung, fault: Fault) -> Finding {
    let stage = duty.stage;
    let (finding, field) = match fault {
        Fault::Refused(e) => (
            RELATION_REFUSED.found(said!("the rung of stage {stage} could not be worked out: {e}")),
            "ladder",
        ),
        Fault::NoRating => {
            let message =
                said!("nothing says what the ball of stage {stage} holds at the temperature of the rock");
            let mut finding = checks::NO_RATING.found(message).value(duty.rock);
            finding.limit = scene.job.file.ball.strength.last().map(|r| Value::of(r.temperature));
            (finding, "ball.strength")
        }
        Fault::NoOverlap(least) => {
            let message = said!("ball {} of stage {stage} may pass its own seat, {}", rung.ball, rung.seat);
            (checks::INTERFERENCE.found(message).value(least).limit(Diameter::ZERO), "ladder")
        }
    };
    finding.stage(stage).field(field)
}

/// All findings on a finished ladder.
pub(super) fn judge(scene: &Scene<'_>, plan: &LadderPlan, ledger: &mut Ledger) {
    left_out(plan, ledger);
    bores(plan, ledger);
    clearances(scene, plan, ledger);
    interferences(scene, plan, ledger);
    seats(scene, plan, ledger);
    ratings(scene, plan, ledger);
    cold(scene, plan, ledger);
    setting_ball(scene, plan, ledger);
    alike(scene, plan, ledger);
    lives(plan, ledger);
}

fn left_out(plan: &LadderPlan, ledger: &mut Ledger) {
    if !plan.left_out.is_empty() {
        let sizes = Text::join(plan.left_out.iter().map(|d| said!("{d}")), ", ");
        let message = said!("balls on offer that are not used: {sizes}; {}", plan.bound_by);
        ledger.say(checks::LEFT_OUT.found(message).field("ladder"));
    }
}

fn bores(plan: &LadderPlan, ledger: &mut Ledger) {
    for row in plan.bores.iter().filter(|b| b.part != BorePart::Seat && !b.passes) {
        let field = match row.part {
            BorePart::Launcher => "launcher.bore",
            BorePart::Treating | BorePart::Liner => "string",
            BorePart::CasingPacker => "casing_packer.id",
            BorePart::Packer => "packer.id",
            BorePart::Sleeve | BorePart::Seat => "sleeve.id",
        };
        let ball = row.ball.map_or(Text::default(), |b| said!("{b}"));
        let message =
            said!("ball {ball} does not pass the {}, {}, with the clearance wanted", row.name, row.bore);
        let mut finding = checks::BORE.found(message).field(field).limit(row.wanted);
        finding.place.depth = row.depth;
        finding.value = row.clearance.map(Value::of);
        ledger.say(finding);
    }
}

fn clearances(scene: &Scene<'_>, plan: &LadderPlan, ledger: &mut Ledger) {
    let wanted = scene.job.file.ladder.clearance;
    let mut short: Vec<(&RungPlan, Diameter)> = Vec::new();
    for rung in &plan.rungs {
        let Some(tightest) = rung.passages.iter().min_by(|a, b| a.least.total_cmp(&b.least)) else {
            continue;
        };
        let (ball, seat) = (rung.ball, tightest.seat);
        if !passes_seat(scene.passage(ball, seat), wanted) {
            let (from, to) = (rung.stage, tightest.stage);
            let message = said!("ball {ball} of stage {from} may not pass the seat of stage {to}, {seat}");
            let finding = checks::CLEARANCE.found(message).stage(from).field("ladder.clearance");
            ledger.say(finding.value(tightest.least).limit(wanted));
        } else if tightest.least < wanted - SAME {
            short.push((rung, tightest.least));
        }
    }
    let (bad, fair): (Vec<_>, Vec<_>) = short.into_iter().partition(|(_, least)| *least < wanted * 0.5);
    for (severity, list) in [(Severity::Warn, bad), (Severity::Note, fair)] {
        let Some((worst, least)) = list.iter().min_by(|a, b| a.1.total_cmp(&b.1)) else { continue };
        let message = said!(
            "the clearance wanted is there as drawn but not at the worst of the tolerances: stages {}, least at \
             stage {}",
            stages(list.iter().map(|s| s.0.stage)),
            worst.stage
        );
        let finding = checks::CLEARANCE.found(message).severity(severity).stage(worst.stage);
        ledger.say(finding.field("ladder.clearance").value(*least).limit(wanted));
    }
}

fn interferences(scene: &Scene<'_>, plan: &LadderPlan, ledger: &mut Ledger) {
    let wanted = scene.job.file.ladder.least_interference;
    let thin: Vec<_> = plan.rungs.iter().filter(|r| r.least_interference < wanted - SAME).collect();
    let Some(worst) = thin.iter().min_by(|a, b| a.least_interference.total_cmp(&b.least_interference)) else {
        return;
    };
    let message = said!(
        "the overlap in service is below the least of the job file: stages {}, least at stage {}",
        stages(thin.iter().map(|r| r.stage)),
        worst.stage
    );
    let finding = checks::INTERFERENCE.found(message).severity(Severity::Warn).stage(worst.stage);
    ledger.say(finding.field("ladder.least_interference").value(worst.least_interference).limit(wanted));
}

fn seats(scene: &Scene<'_>, plan: &LadderPlan, ledger: &mut Ledger) {
    let sleeve = &scene.job.file.sleeve;
    for rung in &plan.rungs {
        let (word, field, limit) = if rung.seat > sleeve.largest_seat + SAME {
            ("larger", "sleeve.largest_seat", sleeve.largest_seat)
        } else if rung.seat < sleeve.smallest_seat - SAME {
            ("smaller", "sleeve.smallest_seat", sleeve.smallest_seat)
        } else {
            continue;
        };
        let message = said!("the seat of stage {} is {word} than is made", rung.stage);
        let finding = checks::SEAT_SIZE.found(message).stage(rung.stage).field(field);
        ledger.say(finding.value(rung.seat).limit(limit));
    }
}

fn ratings(scene: &Scene<'_>, plan: &LadderPlan, ledger: &mut Ledger) {
    let over = |share: Ratio| share.si() > 1.0 + 1e-9;
    for rung in plan.rungs.iter().filter(|r| over(r.utilisation)) {
        let message =
            said!("ball {} of stage {} is rated below what it is expected to hold", rung.ball, rung.stage);
        let finding = checks::RATING.found(message).stage(rung.stage).field("ball.strength");
        ledger.say(finding.value(rung.rating).limit(scene.with_factor(rung.expected_differential)));
    }
    let worst: Vec<_> =
        plan.rungs.iter().filter(|r| over(r.worst_utilisation) && !over(r.utilisation)).collect();
    let most = worst.iter().max_by(|a, b| a.worst_utilisation.total_cmp(&b.worst_utilisation));
    if let Some(most) = most {
        let message = said!(
            "the worst static case with its safety factor is above the rating of the balls of stages {}, most at stage {}",
            stages(worst.iter().map(|r| r.stage)),
            most.stage
        );
        let finding = checks::WORST_STATIC.found(message).stage(most.stage).field("limits.treating_pressure");
        ledger.say(finding.value(scene.with_factor(most.worst_differential)).limit(most.rating));
    }
}

fn cold(scene: &Scene<'_>, plan: &LadderPlan, ledger: &mut Ledger) {
    let rock = |r: &RungPlan| scene.duty_of(r.stage).map_or(r.temperature, |d| d.rock);
    let colder: Vec<_> = plan.rungs.iter().filter(|r| rock(r) < r.temperature).collect();
    let Some(coldest) = colder.iter().min_by(|a, b| rock(a).total_cmp(&rock(b))) else { return };
    let list = stages(colder.iter().map(|r| r.stage));
    let message = said!("the rock at stages {list} is colder than the coldest row of the strength table");
    let finding = checks::COLD.found(message).stage(coldest.stage).field("ball.strength");
    ledger.say(finding.value(rock(coldest)).limit(coldest.temperature));
}

fn setting_ball(scene: &Scene<'_>, plan: &LadderPlan, ledger: &mut Ledger) {
    let Some(setting) = plan.setting_ball else { return };
    let finding = |message: Text| checks::SETTING_BALL.found(message).field("toe.setting_ball");
    if setting.least_interference <= Diameter::ZERO {
        let message = "the setting ball may pass the seat of the isolation tool";
        ledger.say(finding(message.into()).value(setting.least_interference).limit(Diameter::ZERO));
    }
    let wanted = scene.job.file.ladder.clearance;
    let tightest = plan.rungs.iter().min_by(|a, b| a.seat.total_cmp(&b.seat));
    if let Some(rung) = tightest.filter(|r| !passes_seat(scene.passage(setting.ball, r.seat), wanted)) {
        let message = said!("the setting ball may not pass the seat of stage {}, {}", rung.stage, rung.seat);
        let least = scene.passage(setting.ball, rung.seat).least;
        ledger.say(finding(message).stage(rung.stage).value(least).limit(wanted));
    }
}

fn alike(scene: &Scene<'_>, plan: &LadderPlan, ledger: &mut Ledger) {
    let told = scene.job.file.ladder.ball_tolerance * 2.0;
    let mut balls = plan.ledger.clone();
    balls.sort_by(|a, b| a.diameter.total_cmp(&b.diameter));
    for pair in balls.windows(2) {
        let [small, large] = pair else { continue };
        let apart = large.diameter - small.diameter;
        if apart < told {
            let message =
                said!("balls {} and {} are too close to tell apart", small.diameter, large.diameter);
            let mut finding =
                checks::ALIKE.found(message).field("ladder.ball_tolerance").value(apart).limit(told);
            finding.place.stage = large.stage;
            ledger.say(finding);
        }
    }
}

fn lives(plan: &LadderPlan, ledger: &mut Ledger) {
    let hours = |time: Time| format!("{:.1} h", time.in_hours());
    for rung in &plan.rungs {
        let Some(life) = &rung.life else { continue };
        let needed = life.transit + life.stage_time;
        if life.passes_after >= needed * 2.0 {
            continue;
        }
        let (passes, needs) = (hours(life.passes_after), hours(needed));
        let (ball, stage) = (rung.ball, rung.stage);
        let message =
            said!("ball {ball} of stage {stage} may pass its seat {passes} after launch; it needs {needs}");
        let mut finding = checks::DISSOLVES.found(message).stage(stage).field("ball.dissolving");
        if life.passes_after < needed {
            finding = finding.severity(Severity::Stop);
        }
        ledger.say(finding.value(life.passes_after).limit(needed * 2.0));
    }
}
