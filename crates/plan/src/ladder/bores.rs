//! Every bore a ball passes on its way from the launcher to its seat.

use physics::ball::clearance::Fit;
use quantity::*;
use well::Job;
use well::job::StringRole;

use super::duty::Scene;
use super::result::{BoreClearance, BorePart, RungPlan};
use crate::layout::{ItemKind, Layout};

/// Room for the last digit of a difference of sizes.
pub(super) const SAME: Diameter = Diameter::mm(1e-6);

/// A bore without its ball.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Bore {
    /// What it belongs to.
    pub part: BorePart,
    /// Name.
    pub name: String,
    /// Upper end.
    pub depth: Option<MeasuredDepth>,
    /// Bore or drift.
    pub bore: Diameter,
}

/// The bores from the launcher down to the sleeves, seats not counted.
pub(super) fn bores(job: &Job, layout: &Layout) -> Vec<Bore> {
    let bore = |part, name: &str, depth, bore| Bore { part, name: name.into(), depth, bore };
    let mut out = vec![bore(BorePart::Launcher, "launcher", None, job.file.launcher.bore)];
    let mut treating: Vec<_> = job.strings.iter().filter(|s| s.table.role == StringRole::Treating).collect();
    treating.sort_by(|a, b| a.table.top.total_cmp(&b.table.top));
    for string in treating {
        let name = format!("{}, drift", string.table.name);
        out.push(bore(BorePart::Treating, &name, Some(string.table.top), string.drift()));
    }
    let packer = &job.file.casing_packer;
    out.push(bore(BorePart::CasingPacker, "casing packer", Some(layout.casing_packer_top), packer.id));
    let first = |kind| layout.tally.iter().rev().find(|r| r.kind == kind).map(|r| r.top);
    if let Some(liner) = job.liner() {
        let name = format!("{}, drift", liner.table.name);
        out.push(bore(BorePart::Liner, &name, first(ItemKind::Joint), liner.drift()));
    }
    out.push(bore(BorePart::Packer, "open-hole packers", first(ItemKind::Packer), job.file.packer.id));
    out.push(bore(BorePart::Sleeve, "sleeves beside the seat", first(ItemKind::Sleeve), job.file.sleeve.id));
    out
}

/// The largest ball that passes all bores, and the bore that says so.
pub(super) fn largest_ball<'a>(job: &Job, bores: &'a [Bore]) -> Option<(Diameter, &'a Bore)> {
    let tightest = bores.iter().min_by(|a, b| a.bore.total_cmp(&b.bore))?;
    Some((tightest.bore - job.file.ladder.drift_clearance - job.file.ladder.ball_tolerance, tightest))
}

/// The table of bores with the largest ball that passes each: all balls pass the bores above the
/// seats, each seat is passed by the balls toe-ward of it.
pub(super) fn table(
    scene: &Scene<'_>,
    layout: &Layout,
    bores: &[Bore],
    rungs: &[RungPlan],
) -> Vec<BoreClearance> {
    let ladder = &scene.job.file.ladder;
    let largest = |below: usize| {
        let frac = rungs.iter().filter(|r| r.stage < below).map(|r| r.ball);
        frac.chain(scene.setting_ball()).max_by(Diameter::total_cmp)
    };
    let above = bores.iter().map(|b| {
        let ball = largest(usize::MAX);
        let clearance = ball.map(|ball| b.bore - ball - ladder.ball_tolerance);
        let passes = clearance.is_none_or(|c| c >= ladder.drift_clearance - SAME);
        row(b.clone(), (ball, clearance), ladder.drift_clearance, passes)
    });
    let seats = rungs.iter().rev().map(|r| {
        let ball = largest(r.stage);
        let fit = ball.map(|ball| scene.passage(ball, r.seat));
        let bore = Bore {
            part: BorePart::Seat,
            name: format!("seat of stage {}", r.stage),
            depth: layout.stage(r.stage).map(|s| s.sleeve.ports),
            bore: r.seat,
        };
        let passes = fit.is_none_or(|fit| passes_seat(fit, ladder.clearance));
        row(bore, (ball, fit.map(|f| f.least)), ladder.clearance, passes)
    });
    above.chain(seats).collect()
}

/// Whether a ball may be sent through a seat: the clearance wanted is there as drawn, and
/// something is left at the worst.
pub(super) fn passes_seat(fit: Fit, wanted: Diameter) -> bool {
    fit.least > Diameter::ZERO && fit.nominal >= wanted - SAME
}

fn row(
    bore: Bore,
    fit: (Option<Diameter>, Option<Diameter>),
    wanted: Diameter,
    passes: bool,
) -> BoreClearance {
    let (ball, clearance) = fit;
    BoreClearance {
        part: bore.part,
        name: bore.name,
        depth: bore.depth,
        bore: bore.bore,
        ball,
        clearance,
        wanted,
        passes,
    }
}
