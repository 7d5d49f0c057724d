//! What there is to say of setting the packers.

use physics::packer::actuation_chain::Chain;
use quantity::*;
use well::job::SystemKind;
use well::{Finding, Job};

use super::chain::Group;
use super::checks::*;
use super::devices::toe_spot;
use super::result::*;
use super::step::*;
use crate::Ledger;
use crate::layout::Layout;

/// Densities further apart than this share are told.
const UNLIKE: f64 = 1e-3;

/// Every figure of the job file that the kind of system needs and that is not there.
pub(super) fn missing(job: &Job) -> Vec<Finding> {
    let (packer, toe) = (&job.file.packer, &job.file.toe);
    let needed: &[(&str, bool)] = &match job.file.system.kind {
        SystemKind::FluidActivated => vec![
            ("packer.swell", packer.swell.is_some()),
            ("setting.activation", job.file.setting.activation.is_some()),
        ],
        SystemKind::HydraulicSet => vec![
            ("packer.start", packer.start.is_some()),
            ("packer.full_set", packer.full_set.is_some()),
            ("toe.isolation", toe.isolation.is_some()),
            ("toe.setting_ball", toe.setting_ball.is_some()),
            ("toe.setting_seat", toe.setting_seat.is_some()),
            ("toe.pressure_sleeve", toe.pressure_sleeve.is_some()),
        ],
    };
    let absent = needed.iter().filter(|(_, there)| !there);
    let say = |(name, _): &(&str, bool)| {
        let message = said!("`{name}` is not in the job file; the packers cannot be planned without it");
        MISSING.found(message).field(*name)
    };
    absent.map(say).collect()
}

/// A device's pressure in the job file.
fn field(kind: DeviceKind) -> &'static str {
    match kind {
        DeviceKind::Isolation => "toe.isolation.nominal",
        DeviceKind::CasingPacker => "casing_packer.start.nominal",
        DeviceKind::Packer => "packer.start.nominal",
        DeviceKind::PressureSleeve => "toe.pressure_sleeve.opening.nominal",
    }
}

/// A finding at a device.
fn at(finding: Finding, device: &DeviceWindow) -> Finding {
    let finding = finding.depth(device.depth).field(field(device.device));
    match device.stage {
        Some(stage) => finding.stage(stage),
        None => finding,
    }
}

/// Order of the devices, and each on its own.
pub(super) fn devices(job: &Job, groups: &[Group<'_>], chain: Option<&Chain>, ledger: &mut Ledger) {
    for short in chain.iter().flat_map(|c| &c.shortfalls) {
        let pair = short.device.checked_sub(1).and_then(|i| groups.get(i)).zip(groups.get(short.device));
        let Some((before, after)) = pair.and_then(|(b, a)| b.last().zip(a.first())) else { continue };
        let message = said!(
            "{} may act before {} has done all it is to do (the limit is what that may need, with the margin)",
            after.name(),
            before.name(),
        );
        let limit = before.done() + job.file.setting.margin;
        ledger.say(at(ORDER.found(message).value(after.low).limit(limit), after));
    }
    for first in groups.iter().filter_map(Group::first).filter(|d| d.low <= GaugePressure::ZERO) {
        let message = said!("{} may act with no pressure at the surface", first.name());
        ledger.say(at(NO_PRESSURE.found(message).value(first.low).limit(GaugePressure::ZERO), first));
    }
    for device in groups.iter().filter_map(Group::first) {
        let Some(full) = device.full_set.filter(|f| *f < device.range.high) else { continue };
        let message = said!("{} would be set fully below the highest at which it may start", device.name());
        ledger.say(at(START.found(message).value(full).limit(device.range.high), device));
    }
}

/// The sheet against limits, test, ball and annulus.
pub(super) fn judge(job: &Job, layout: &Layout, plan: &SettingPlan, ledger: &mut Ledger) {
    limits(plan, ledger);
    tests(job, plan, ledger);
    if let Some(row) = plan.row(StepAction::OpenPressureSleeve).filter(|r| r.low > r.high) {
        let message = said!("opening the first stage may need more than the {} allows", row.bound_by.words());
        let finding = OPENING.found(message).stage(1).field(field(DeviceKind::PressureSleeve));
        ledger.say(finding.value(row.low).limit(row.high));
    }
    ball(job, plan, ledger);
    annulus(job, plan, ledger);
    densities(job, layout, ledger);
}

fn limits(plan: &SettingPlan, ledger: &mut Ledger) {
    let setting = |s: &&PressureStep| s.side == Side::String && s.action != StepAction::OpenPressureSleeve;
    for limit in plan.limits.iter().filter(|l| l.kind != LimitKind::SettingBall) {
        let over = plan.sheet.iter().filter(setting).filter(|s| s.low > limit.ceiling);
        let Some(row) = over.max_by(|a, b| a.low.total_cmp(&b.low)) else { continue };
        let message = said!("step {} ({}) needs more than the {} allows", row.step, row.text, limit.name);
        let mut finding = LIMIT.found(message).field("setting").value(row.low).limit(limit.ceiling);
        if let Some(depth) = limit.depth {
            finding = finding.depth(depth);
        }
        ledger.say(finding);
    }
}

fn tests(job: &Job, plan: &SettingPlan, ledger: &mut Ledger) {
    let test = job.file.setting.test_pressure;
    if let Some(sleeve) = plan.window(DeviceKind::PressureSleeve, None) {
        let highest = sleeve.low - job.file.setting.margin;
        if test > highest {
            let message =
                "the test may open the first stage (the limit is the lowest opening, less the margin)";
            ledger
                .say(TEST.found(message).stage(1).field("setting.test_pressure").value(test).limit(highest));
        }
    }
    let set =
        [StepAction::SetPackers, StepAction::SetCasingPacker].into_iter().find_map(|a| plan.row(a)?.target);
    if let Some(set) = set.filter(|set| test < *set) {
        let message = "the test asks less of the string than setting the packers";
        ledger.say(TEST_LOW.found(message).field("setting.test_pressure").value(test).limit(set));
    }
}

fn ball(job: &Job, plan: &SettingPlan, ledger: &mut Ledger) {
    if job.file.system.kind != SystemKind::HydraulicSet {
        return;
    }
    let Some(seat) = &plan.setting_seat else {
        let message = "neither a test nor the strengths of the balls cover the setting ball";
        ledger.say(BALL_UNRATED.found(message).field("toe.setting_ball"));
        return;
    };
    if seat.utilisation.si() > 1.0 {
        let message =
            "the setting ball may not hold the highest differential of setting and test with its factor";
        let needed = seat.differential * job.file.ball.safety_factor.si();
        ledger.say(BALL.found(message).field("toe.setting_ball").value(needed).limit(seat.rating));
    }
    if job.file.ball.dissolving.is_some() {
        let message = "the setting ball dissolves; only the isolation tool keeps the toe closed after it";
        ledger.say(BALL_DISSOLVES.found(message).field("ball.dissolving"));
    }
}

fn annulus(job: &Job, plan: &SettingPlan, ledger: &mut Ledger) {
    let limits = &job.file.limits;
    let test = limits.annulus_pressure;
    let message = if test > GaugePressure::ZERO {
        "the job file names no test of the annulus; it is planned at what is to be held there while treating"
    } else {
        "nothing is to be held on the annulus while treating, and the job file names no test of it: the sheet has none"
    };
    ledger.say(ANNULUS_TEST.found(message).field("limits.annulus_pressure").value(test));
    if let Some(casing) = plan.casing_ceiling.as_ref().filter(|c| test > c.ceiling) {
        let message = said!("the annulus test passes the {}", casing.name);
        ledger.say(
            ANNULUS_LIMIT.found(message).field("limits.annulus_pressure").value(test).limit(casing.ceiling),
        );
    }
    if test > limits.annulus_limit {
        let message = "the annulus test passes the limit of the annulus";
        let finding = ANNULUS_LIMIT.found(message).field("limits.annulus_pressure");
        ledger.say(finding.value(test).limit(limits.annulus_limit));
    }
    let rated = job.file.casing_packer.envelope.iter().map(|e| e.differential).max_by(Pressure::total_cmp);
    let needed = plan.casing_packer_differential.abs() * limits.packer_factor.si();
    if let Some(rated) = rated.filter(|r| needed > *r) {
        let message =
            "the annulus test asks more of the casing packer than its envelope, with the packers' factor";
        let finding = CASING_PACKER.found(message).field("casing_packer.envelope");
        ledger.say(finding.value(needed).limit(rated));
    }
}

fn densities(job: &Job, layout: &Layout, ledger: &mut Ledger) {
    let (inside, outside) = (job.file.setting.inside_density, job.file.setting.outside_density);
    if (inside - outside).abs().si() <= UNLIKE * outside.si().abs() {
        return;
    }
    let tvd = Length::m(toe_spot(job, layout).tvd.si());
    let bias = (inside.gradient() - outside.gradient()) * tvd;
    let way = if bias > Pressure::ZERO { "more" } else { "less" };
    let message = said!("with these columns a device at the toe sees {way} than the gauge shows");
    ledger.say(DENSITY.found(message).field("setting.inside_density").value(bias.abs()));
}
