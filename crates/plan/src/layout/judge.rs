//! Findings on the problem before the search and on the layout after it.

use quantity::*;
use well::{Job, Severity};

use super::build::{shoe, stages};
use super::checks;
use super::problem::Problem;
use super::result::{ItemKind, Layout, StagePlace};
use crate::Ledger;

/// Faults that no search can mend; none when there is one.
pub(super) fn before(job: &Job, problem: &Problem, ledger: &mut Ledger) -> Option<()> {
    let mut good = true;
    if let Some(short) = job.trajectory.short_of(shoe(job)) {
        let message = "the survey ends above the shoe; depths below are a straight line";
        let mut finding =
            checks::SURVEY_SHORT.found(message).field("survey.file").depth(shoe(job)).value(short);
        if short < Length::ft(150.0) {
            finding = finding.severity(Severity::Warn);
        } else {
            good = false;
        }
        ledger.say(finding);
    }
    let tools = Length::m(problem.packer.length + problem.sleeve.length);
    let longest = Length::m(problem.longest);
    if tools > longest {
        let message =
            said!("packer and sleeve together are longer than the longest stage of {}", stages(job).0);
        ledger.say(checks::GAP.found(message).field("packer.length").value(tools).limit(longest));
        good = false;
    }
    let have: Length = job.running_joints().map(|j| j.length).sum();
    let tools = Length::m(problem.tools_below_packer(problem.stages) + problem.packer.length);
    let need = shoe(job) - job.file.casing_packer.depth - tools;
    if have + Length::ft(20.0) < need {
        let message = "the joints on the rack do not reach from the shoe to the casing packer";
        ledger.say(checks::JOINTS_SHORT.found(message).field("tally").value(have).limit(need));
        good = false;
    }
    good.then_some(())
}

/// Findings on a finished layout.
pub(super) fn after(job: &Job, problem: &Problem, layout: &Layout, off: Length, ledger: &mut Ledger) {
    casing_packer(job, layout, off, ledger);
    for stage in &layout.stages {
        stage_length(stage, layout.target, ledger);
        packer(job, problem, stage, ledger);
    }
    for row in layout.tally.iter().filter(|r| r.kind == ItemKind::Pup) {
        let message = said!("{} goes in at row {} of the tally", row.name, row.row);
        ledger.say(checks::PUP_USED.found(message).depth(row.bottom));
    }
}

fn casing_packer(job: &Job, layout: &Layout, off: Length, ledger: &mut Ledger) {
    if off.abs() > Length::ft(3.0) {
        let side = if off > Length::ZERO { "below" } else { "above" };
        let message = said!("the casing packer lands {} {side} its planned depth", off.abs());
        let finding =
            checks::SPACE_OUT.found(message).field("casing_packer.depth").depth(layout.casing_packer_top);
        ledger.say(finding.value(layout.casing_packer_top).limit(layout.casing_packer_planned));
    }
    let bottom = layout.casing_packer_top + job.file.casing_packer.length;
    let cased = job.hole.section_at(bottom).is_some_and(|s| !s.kind.is_open());
    if !cased {
        let message = "the casing packer does not stand inside the casing";
        ledger.say(checks::OUTSIDE_CASING.found(message).field("casing_packer.depth").depth(bottom));
    }
}

fn stage_length(stage: &StagePlace, target: Length, ledger: &mut Ledger) {
    let share = stage.length / target;
    if (share - 1.0).abs() > 0.25 {
        let message = said!("stage {} is {:.0} % of the target length", stage.stage, 100.0 * share);
        let mut finding = checks::STAGE_LENGTH.found(message).stage(stage.stage).depth(stage.heel_end);
        if (share - 1.0).abs() > 0.5 {
            finding = finding.severity(Severity::Warn);
        }
        ledger.say(finding.value(stage.length).limit(target));
    }
}

fn packer(job: &Job, problem: &Problem, stage: &StagePlace, ledger: &mut Ledger) {
    let p = &stage.packer;
    let near_limit = problem.limits.nominal + 0.9 * (problem.limits.largest - problem.limits.nominal);
    if p.hole.worst.si() > near_limit {
        let message = said!("packer {} stands in hole near the largest it is rated for", stage.stage);
        let finding = checks::LARGE_HOLE.found(message).stage(stage.stage).depth(p.element_top);
        ledger.say(finding.value(p.hole.worst).limit(job.file.packer.largest_hole));
    }
    if let Some(rating) = p.rating.filter(|r| *r < p.needed) {
        let message = said!("packer {} is rated below what it must hold", stage.stage);
        let finding = checks::RATING_MARGIN.found(message).stage(stage.stage).depth(p.element_top);
        ledger.say(finding.value(rating).limit(p.needed));
    }
    let length = p.element_bottom - p.element_top;
    let measured = job.hole.measured(p.element_top, p.element_bottom).unwrap_or(Length::ZERO);
    if measured < length * 0.9 {
        let message = said!("packer {} has caliper readings over {} only", stage.stage, measured);
        let finding = checks::NO_CALIPER.found(message).stage(stage.stage).depth(p.element_top);
        ledger.say(finding.value(measured).limit(length));
    }
}
