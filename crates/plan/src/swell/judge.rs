//! What there is to say of the swell.

use physics::packer::swell_curve::TEMPERATURE_MARGIN;
use quantity::*;
use well::Job;

use super::checks::*;
use super::element::tested;
use super::result::{SwellPacker, SwellPlan};
use crate::Ledger;
use crate::words::stages;

/// Findings of the whole swell.
pub(super) fn judge(job: &Job, plan: &SwellPlan, ledger: &mut Ledger) {
    for packer in plan.packers.iter().filter(|p| p.rating.is_none()) {
        never(job, packer, ledger);
    }
    never_together(plan, ledger);
    waits(plan, ledger);
    worst_holes(plan, ledger);
    temperatures(job, plan, ledger);
    if let (Some(time), Some(stage)) = (plan.first_touch, plan.first_touch_packer) {
        let message =
            said!("packer {stage} may touch the hole {} after it enters a fluid that swells it", days(time));
        ledger.say(RUN_IN.found(message).stage(stage).field("setting.activation.fluid"));
    }
    let pumped = job.file.rock.pumped_temperature;
    if let Some(p) = plan.packers.iter().find(|p| p.temperature > pumped) {
        let message =
            "fluid is pumped colder than the packers: it stops their clock and shrinks them a little";
        ledger
            .say(COOLING.found(message).field("rock.pumped_temperature").value(pumped).limit(p.temperature));
    }
    if job.file.hole.caliper.is_none() {
        let message = "no caliper: the times of the swell have no spread of the hole in them";
        ledger.say(NO_CALIPER_SPREAD.found(message).field("hole.caliper"));
    }
}

fn never(job: &Job, packer: &SwellPacker, ledger: &mut Ledger) {
    let stage = packer.stage;
    let percent = 100.0 * packer.reaches.si();
    let message = said!(
        "packer {stage}: {percent:.0} of 100 samples reach the rating within the supplier's readings; 90 are asked"
    );
    let last = job.file.packer.swell.as_ref().and_then(|s| s.row.last()).map_or(Diameter::ZERO, |r| r.od);
    let finding = NEVER.found(message).stage(stage).depth(packer.depth).field("packer.swell.row");
    ledger.say(finding.value(packer.wanted).limit(last));
}

/// One finding for all packers whose time passes the planned wait, naming the last.
fn late<'a>(
    packers: impl Iterator<Item = &'a SwellPacker>,
    time: impl Fn(&SwellPacker) -> Option<Time>,
) -> Option<(String, &'a SwellPacker, Time)> {
    let mut list: Vec<(&SwellPacker, Time)> = packers.filter_map(|p| Some((p, time(p)?))).collect();
    list.sort_by(|a, b| b.1.total_cmp(&a.1));
    let (last, at) = list.first().copied()?;
    let mut numbers: Vec<usize> = list.iter().map(|(p, _)| p.stage).collect();
    numbers.sort_unstable();
    Some((stages(numbers.into_iter()), last, at))
}

/// The planned wait against all packers together: the stop where in half of the samples one is not
/// ready, the warning where that is so in more than one of ten.
fn waits(plan: &SwellPlan, ledger: &mut Ledger) {
    let wait = plan.planned_wait;
    let p90 = |p: &SwellPacker| p.rating.map(|b| b.p90).filter(|t| *t > wait);
    let look = late(plan.packers.iter(), p90);
    let look =
        look.map_or(String::new(), |(named, ..)| format!("; on their own at P90 packers {named} are late"));
    let percent = 100.0 * plan.ready_at_wait.si();
    let stop = plan.expected_frac.filter(|t| *t > wait);
    let doubt = plan.earliest_frac.filter(|t| stop.is_none() && *t > wait);
    for (check, time, share) in [(&WAIT, stop, "in half of them"), (&WAIT_SPREAD, doubt, "in nine of ten")] {
        let Some(time) = time else { continue };
        let message = said!(
            "in {percent:.0} of 100 samples all packers have their rating after the wait; {share} they have it after \
             {}{look}",
            days(time)
        );
        let mut finding = check.found(message);
        if let Some(last) = plan.last_packer.and_then(|n| plan.packer(n)) {
            finding = finding.stage(last.stage).depth(last.depth);
        }
        ledger.say(finding.field("setting.activation.planned_wait").value(time).limit(wait));
    }
}

/// All packers together never have their rating, though each on its own has.
fn never_together(plan: &SwellPlan, ledger: &mut Ledger) {
    let alone = plan.packers.iter().all(|p| p.rating.is_some());
    if plan.ready.is_some() || !alone || plan.packers.is_empty() {
        return;
    }
    let percent = 100.0 * plan.all_reach.si();
    let message = said!(
        "in {percent:.0} of 100 samples all packers reach the rating within the supplier's readings; 90 are asked"
    );
    let mut finding = NEVER.found(message).field("packer.swell.row");
    if let Some(last) = plan.last_packer.and_then(|n| plan.packer(n)) {
        finding = finding.stage(last.stage).depth(last.depth);
    }
    ledger.say(finding.value(plan.all_reach).limit(Ratio::of(0.9)));
}

fn worst_holes(plan: &SwellPlan, ledger: &mut Ledger) {
    let sound = || plan.packers.iter().filter(|p| p.rating.is_some_and(|b| b.p90 <= plan.planned_wait));
    let worst = |p: &SwellPacker| p.rating_in_worst_hole.filter(|t| *t > plan.planned_wait);
    if let Some((named, last, time)) = late(sound(), worst) {
        let message = said!(
            "packers {named} are ready in their middle hole but not where it is largest; the last is packer {}, \
             after {}",
            last.stage,
            days(time)
        );
        let finding = WORST_HOLE.found(message).stage(last.stage).depth(last.depth);
        ledger.say(finding.value(time).limit(plan.planned_wait));
    }
    for packer in sound().filter(|p| p.rating_in_worst_hole.is_none()) {
        let message = said!(
            "packer {}: no reading of the supplier reaches the rating where its hole is largest",
            packer.stage
        );
        let finding = WORST_HOLE.found(message).stage(packer.stage).depth(packer.depth);
        ledger.say(finding.value(packer.worst_hole + plan.interference));
    }
}

fn temperatures(job: &Job, plan: &SwellPlan, ledger: &mut Ledger) {
    let Some(table) = &job.file.packer.swell else { return };
    let (coldest, hottest) = tested(table);
    let (low, high) = (coldest - TEMPERATURE_MARGIN, hottest + TEMPERATURE_MARGIN);
    let beyond = |p: &&SwellPacker| p.temperature < low || p.temperature > high;
    let list: Vec<&SwellPacker> = plan.packers.iter().filter(beyond).collect();
    let distance = |p: &SwellPacker| (low - p.temperature).max(p.temperature - high);
    if let Some(worst) = list.iter().copied().max_by(|a, b| distance(a).total_cmp(&distance(b))) {
        let (field, limit) =
            if worst.temperature < low { ("coldest_test", coldest) } else { ("hottest_test", hottest) };
        let named = stages(list.iter().map(|p| p.stage));
        let message = said!("packers {named} stand in rock beyond the supplier's tests");
        let finding = EXTRAPOLATED.found(message).stage(worst.stage).depth(worst.depth);
        ledger.say(finding.field(format!("packer.swell.{field}")).value(worst.temperature).limit(limit));
    }
    let inside = plan.packers.iter().filter(|p| !beyond(p) && p.beyond_tests.si() > 0.0);
    if let Some(p) = inside.max_by(|a, b| a.beyond_tests.total_cmp(&b.beyond_tests)) {
        let share = 100.0 * p.beyond_tests.si();
        let message = said!(
            "while they warm up the packers are colder than the supplier's tests; that makes up to {share:.1} % of \
             the swelling until the rating"
        );
        let finding = WARM_UP.found(message).stage(p.stage).field("packer.swell.coldest_test");
        ledger.say(finding.value(plan.start_temperature).limit(coldest));
    }
}

/// A time in days with one decimal.
fn days(time: Time) -> String {
    format!("{:.1} d", time.in_days())
}
