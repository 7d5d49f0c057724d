//! The ball program: when each ball leaves, when it lands, and what the surface will see.

mod card;
mod checks;
mod landing;
mod result;
pub mod way;
mod workings;

use quantity::*;
use well::Job;

pub use checks::CHECKS;
pub use result::*;

use crate::Ledger;
use crate::ladder::LadderPlan;
use crate::layout::Layout;
use crate::path::FlowPath;
use crate::stages::{StageLine, StagesPlan};

/// One card for every ball that opens a stage.
pub fn program_balls(
    job: &Job,
    layout: &Layout,
    ladder: &LadderPlan,
    stages: &StagesPlan,
    ledger: &mut Ledger,
) -> Option<BallPlan> {
    let path = FlowPath::of(job, layout);
    let lines = ledger.take("the pressure of a stage", StageLine::all(job, layout, ladder))?;
    let step = job.file.treatment.step.first()?;
    let fluid = job.file.fluid.iter().find(|f| f.name == step.fluid)?;
    let desk = card::Desk { job, layout, stages, path: &path, lines: &lines, fluid };
    let mut cards = Vec::with_capacity(ladder.rungs.len());
    for rung in &ladder.rungs {
        let what = format!("the ball of stage {}", rung.stage);
        let (card, made) = ledger.take(&what, desk.card(rung))??;
        checks::judge(job, &card, ledger);
        workings::open_card(job, &card, &made, ledger);
        cards.push(card);
    }
    checks::judge_together(job, &cards, ledger);
    let slow_time: Time = cards.iter().map(|c| c.slow_time).sum();
    let last_rate = stages.stages.last().map_or(FlowRate::ZERO, |s| s.planned_rate);
    let flush =
        stages.stages.last().map_or(Volume::ZERO, |s| s.volume_to_ports) + job.file.launcher.line_volume;
    let flush_time = if last_rate.si() > 0.0 { flush / last_rate } else { Time::ZERO };
    // Between stages: the ball before the first stage has no spacers.
    let program = &job.file.ball_program;
    let between = || cards.iter().filter(|c| c.launched_during > 0);
    let pumped = between().filter(|c| c.rate_before.si() > 0.0);
    let spacers: Time = pumped.map(|c| (c.spacer_ahead + program.spacer_behind) / c.rate_before).sum();
    Some(BallPlan {
        slow_time,
        job_time: stages.totals.pump_time + slow_time + spacers + flush_time,
        spacers_lengthened: between().map(|c| c.spacer_ahead - program.spacer_ahead).sum(),
        over_displacement: cards.iter().map(|c| c.over_displacement).sum(),
        cards,
    })
}
