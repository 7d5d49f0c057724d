//! Findings on the strings.

use quantity::*;
use well::job::{Limits, StringRole};
use well::{Check, Finding, Job, Severity};

use super::checks;
use super::result::{Criterion, Governing, StringPlan, StringsPlan};
use crate::Ledger;

/// Factors closer to the one asked for than this are a warning.
const NEAR: f64 = 1.05;
/// Share of the lowest internal yield that relief and trips are held to.
const RELIEF_SHARE: f64 = 0.85;

/// Everything there is to say of one string.
pub(super) fn string(plan: &StringPlan, field: &str, ledger: &mut Ledger) {
    for governing in &plan.governing {
        if let Some(finding) = factor(plan, governing) {
            ledger.say(finding.field(field));
        }
    }
    connection(plan, field, ledger);
}

fn check(criterion: Criterion) -> &'static Check {
    match criterion {
        Criterion::Burst => &checks::BURST,
        Criterion::Collapse => &checks::COLLAPSE,
        Criterion::Tension => &checks::TENSION,
        Criterion::Triaxial => &checks::TRIAXIAL,
    }
}

fn factor(plan: &StringPlan, g: &Governing) -> Option<Finding> {
    let (severity, words) = if g.factor < g.required {
        (Severity::Stop, "below")
    } else if g.factor < g.required * NEAR {
        (Severity::Warn, "just above")
    } else {
        return None;
    };
    let at = format!("{}, {}", g.point.words(), g.case.words());
    let message =
        said!("{}: the factor on {} is {words} the one asked for ({at})", plan.name, g.criterion.words());
    let finding = check(g.criterion).found(message).severity(severity);
    Some(finding.depth(g.depth).value(g.factor).limit(g.required))
}

fn connection(plan: &StringPlan, field: &str, ledger: &mut Ledger) {
    let ratings = &plan.ratings;
    if let Some(joint) = ratings.joint_strength.as_ref().filter(|_| plan.connection_governs) {
        let message = said!("{}: the {} sets the rating", plan.name, plan.connection);
        let finding = checks::GOVERNS.found(message).field(field);
        ledger.say(finding.value(joint.value).limit(ratings.body_yield.value));
    }
    if plan.role == StringRole::Casing {
        return;
    }
    if ratings.connection_internal.is_none() {
        let message =
            said!("{}: no internal pressure rating of the {} is stated", plan.name, plan.connection);
        ledger.say(checks::INTERNAL.found(message).field(format!("{field}.connection_internal")));
    }
    let pushed = plan.loads.iter().map(|l| l.axial).fold(Force::ZERO, Force::min);
    if ratings.joint_compression.is_none() && pushed < -Force::klbf(1.0) {
        let message = said!(
            "{}: no compression rating of the {} is stated, and a load case pushes on it",
            plan.name,
            plan.connection
        );
        let finding = checks::COMPRESSION.found(message).field(format!("{field}.connection_compression"));
        ledger.say(finding.value(pushed.abs()));
    }
}

/// The job's limits against the weakest of what is pumped through, and the assumptions.
pub(super) fn limits(job: &Job, plan: &StringsPlan, ledger: &mut Ledger) {
    let Limits { treating_pressure, trip, relief, .. } = job.file.limits;
    for (field, limit) in [("limits.treating_pressure", treating_pressure), ("limits.trip", trip)] {
        if limit > plan.highest_treating_pressure {
            let message = said!("`{field}` is above what {} allows", plan.lowest_internal_yield_of);
            let finding = checks::LIMIT.found(message).field(field);
            ledger.say(finding.value(limit).limit(plan.highest_treating_pressure));
        }
    }
    if plan.relief_share.si() > RELIEF_SHARE {
        let share = 100.0 * plan.relief_share.si();
        let weakest = &plan.lowest_internal_yield_of;
        let message = said!("the relief setting is {share:.0} % of the internal yield of {weakest}");
        let finding = checks::RELIEF.found(message).field("limits.relief").value(relief);
        ledger.say(finding.limit((plan.lowest_internal_yield * RELIEF_SHARE).gauge()));
    }
    let count = job.strings.iter().filter(|s| s.table.role == StringRole::Treating).count();
    if count > 1 {
        ledger.say(checks::TAPERED.found(said!("{count} strings make the treating string")).field("string"));
    }
    let message = said!(
        "the treating string is taken as latched at the casing packer; {} assumptions stand with the strings",
        plan.assumptions.len()
    );
    ledger.say(checks::ASSUMED.found(message).field("string"));
}
