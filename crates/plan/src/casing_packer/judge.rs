//! Findings on the casing packer.

use quantity::*;
use well::{Job, Severity};

use super::checks;
use super::result::*;
use crate::Ledger;

/// Utilisation above which a case is a warning.
const NEAR: f64 = 0.9;
/// Temperatures nearer to the rating than this are a warning.
const NEAR_TEMPERATURE: TemperatureDifference = TemperatureDifference::kelvin(5.0);

/// Everything there is to say of it.
pub(super) fn judge(job: &Job, plan: &CasingPackerPlan, ledger: &mut Ledger) {
    place(plan, ledger);
    envelope(plan, ledger);
    differential(job, plan, ledger);
    let up = plan.cases.iter().filter(|c| c.load < -Force::klbf(1.0));
    if let Some(case) = up.min_by(|a, b| a.load.total_cmp(&b.load)) {
        let message = said!("the casing packer is pushed up in a case: {}", case.case.words());
        ledger.say(checks::PUSHED.found(message).field("casing_packer.envelope").value(case.load.abs()));
    }
    let message = said!(
        "its load takes the hung weight without friction and bounds each case both ways; {} assumptions stand \
         with the casing packer",
        plan.assumptions.len()
    );
    ledger.say(checks::ASSUMED.found(message).field("casing_packer"));
}

fn place(plan: &CasingPackerPlan, ledger: &mut Ledger) {
    let left = plan.max_temperature - plan.temperature;
    if left < NEAR_TEMPERATURE {
        let hot = left < TemperatureDifference::ZERO;
        let (severity, words) = if hot { (Severity::Stop, "above") } else { (Severity::Warn, "close to") };
        let message = said!("the rock at the casing packer is {words} what it is rated for");
        let finding =
            checks::TEMPERATURE.found(message).severity(severity).field("casing_packer.max_temperature");
        ledger.say(finding.depth(plan.top).value(plan.temperature).limit(plan.max_temperature));
    }
    match plan.casing_drift {
        Some(drift) if plan.od >= drift => {
            let message = "the casing packer is not smaller than the drift of the casing";
            let finding = checks::DRIFT.found(message).field("casing_packer.od");
            ledger.say(finding.value(plan.od).limit(drift));
        }
        Some(_) => {}
        None => {
            let message = "no casing string of the job reaches the casing packer";
            ledger.say(checks::NO_CASING.found(message).field("string").depth(plan.top));
        }
    }
}

fn envelope(plan: &CasingPackerPlan, ledger: &mut Ledger) {
    let field = "casing_packer.envelope";
    if let Some(case) = plan.cases.iter().find(|c| c.utilisation.is_none()) {
        let words = case.case.words();
        let message = said!("the envelope of the casing packer has no answer for a case: {words}");
        ledger.say(checks::RATING.found(message).field(field).value(case.differential.abs()));
    }
    for case in &plan.cases {
        let Some(utilisation) = case.utilisation else { continue };
        let (severity, words) = if utilisation.si() > 1.0 {
            (Severity::Stop, "outside")
        } else if utilisation.si() > NEAR {
            (Severity::Warn, "close to the edge of")
        } else {
            continue;
        };
        let load = case.load.abs();
        let at = case.differential.abs();
        let way = case.direction.words();
        let what = case.case.words();
        let message = said!("{what}: the casing packer is {words} its envelope with {load} {way} at {at}");
        let finding = checks::ENVELOPE.found(message).severity(severity).field(field);
        ledger.say(finding.depth(plan.top).value(utilisation).limit(Ratio::of(1.0)));
    }
}

fn differential(job: &Job, plan: &CasingPackerPlan, ledger: &mut Ledger) {
    let greatest = plan.cases.iter().map(|c| c.differential.abs()).fold(Pressure::ZERO, Pressure::max);
    let needed = greatest * job.file.limits.packer_factor.si();
    let highest = plan.envelope.iter().map(|c| c.differential).fold(Pressure::ZERO, Pressure::max);
    if !plan.envelope.is_empty() && needed > highest {
        let message =
            "the greatest differential across the casing packer, with its factor, is above its highest";
        let finding = checks::DIFFERENTIAL.found(message).field("casing_packer.envelope");
        ledger.say(finding.depth(plan.top).value(needed).limit(highest));
    }
}
