//! Balls and seats: the ladder from the toe to the heel.

mod assumptions;
mod bores;
mod checks;
mod choose;
mod count;
mod duty;
mod equal_stress;
mod hold;
mod judge;
mod listed;
mod loss;
mod pumped;
mod result;
mod rung;
pub mod search;
mod setting_rating;
mod workings;

use physics::ball::ladder::Rung;
use quantity::*;
use well::Job;

pub use checks::CHECKS;
pub use result::*;
pub use setting_rating::{SettingBallRating, setting_ball_rating};

use crate::Ledger;
use crate::layout::Layout;
use bores::Bore;
use choose::Chosen;
use duty::Scene;

/// Chooses balls and seats for every stage and works out what they hold, what they let pass and
/// what they cost. None when there are too few sizes for the stages, when a ball may pass its own
/// seat, or when nothing says what a ball holds; a finding says which.
pub fn choose_ladder(job: &Job, layout: &Layout, ledger: &mut Ledger) -> Option<LadderPlan> {
    let scene = ledger.take("what the balls have to bear", Scene::new(job, layout))?;
    let (Some(scene), Some(clean)) = (scene, pumped::main_fluid(job)) else {
        ledger.say(checks::TOO_FEW.found("the treatment names no fluid").field("treatment.step"));
        return None;
    };
    let bores = bores::bores(job, layout);
    let chosen = choose::choose(&scene, &bores);
    if chosen.rungs.len() < scene.frac_balls() {
        ledger.say(judge::too_few(&scene, &chosen));
        return None;
    }
    let rungs = rungs(&scene, &chosen.rungs, clean, ledger)?;
    let plan = assemble(&scene, layout, &bores, (chosen, rungs, clean));
    judge::judge(&scene, &plan, ledger);
    workings::open(&scene, &plan, ledger);
    Some(plan)
}

/// All rungs in full; none when one of them cannot be worked out, after looking at all.
fn rungs(scene: &Scene<'_>, drawn: &[Rung], clean: Density, ledger: &mut Ledger) -> Option<Vec<RungPlan>> {
    let body = scene.job.file.sleeve.id;
    let staged = || drawn.iter().zip(scene.first_stage()..);
    let outside: Vec<_> = staged().filter(|(r, _)| r.seat >= body || r.seat <= Diameter::ZERO).collect();
    if !outside.is_empty() {
        outside.into_iter().for_each(|(rung, stage)| ledger.say(judge::no_such_seat(scene, *rung, stage)));
        return None;
    }
    let mut out = Vec::with_capacity(drawn.len());
    for (i, (rung, stage)) in staged().enumerate() {
        let duty = scene.duty_of(stage)?;
        match rung::rung(scene, *rung, drawn.get(i + 1..).unwrap_or_default(), duty, clean) {
            Ok(full) => out.push(full),
            Err(fault) => ledger.say(judge::fault(scene, duty, *rung, fault)),
        }
    }
    (out.len() == drawn.len()).then_some(out)
}

/// The plan from its parts.
fn assemble(
    scene: &Scene<'_>,
    layout: &Layout,
    bores: &[Bore],
    (chosen, rungs, clean_density): (Chosen, Vec<RungPlan>, Density),
) -> LadderPlan {
    let setting_ball = setting_ball(scene, &rungs);
    LadderPlan {
        method: scene.job.file.ladder.method,
        setting_ball,
        balls: rungs.len() + usize::from(setting_ball.is_some()),
        frac_balls: rungs.len(),
        stages_that_fit: chosen.balls_that_fit + scene.first_stage() - 1,
        bound_by: chosen.bound_by,
        bores: bores::table(scene, layout, bores, &rungs),
        clean_density,
        toe_loss: rungs.iter().filter(|r| r.stage > 1).map(|r| r.seat_loss).sum(),
        left_out: chosen.left_out,
        ledger: count::ledger(scene, &rungs),
        assumptions: assumptions::assumptions(scene.job),
        rungs,
    }
}

fn setting_ball(scene: &Scene<'_>, rungs: &[RungPlan]) -> Option<SettingBall> {
    let (ball, seat) = (scene.setting_ball()?, scene.job.file.toe.setting_seat?);
    let clearances = rungs.iter().map(|r| scene.passage(ball, r.seat).least);
    Some(SettingBall {
        ball,
        seat,
        least_interference: scene.least_interference(Rung { ball, seat }, scene.tolerances()),
        clearance: clearances.min_by(Diameter::total_cmp),
    })
}
