//! Setting the packers of the two example jobs, and of jobs made from them.

#![allow(clippy::unwrap_used, clippy::panic)] // helpers of tests

use std::path::Path;
use std::sync::OnceLock;

use plan::Ledger;
use plan::ladder::{LadderPlan, choose_ladder};
use plan::layout::{Layout, lay_out};
use plan::setting::*;
use proptest::prelude::*;
use quantity::*;
use well::job::{AfterSetting, Device, Reference};
use well::{Folder, Job, Severity, read_job};

struct Example {
    job: Job,
    layout: Layout,
    ladder: LadderPlan,
}

fn example(name: &str) -> Example {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs").join(name);
    let read = read_job(&Folder(folder));
    let job = read.value.unwrap_or_else(|| panic!("{name}: {:#?}", read.findings));
    let mut ledger = Ledger::default();
    let layout = lay_out(&job, &mut ledger).unwrap();
    let ladder =
        choose_ladder(&job, &layout, &mut ledger).unwrap_or_else(|| panic!("{:#?}", ledger.findings));
    Example { job, layout, ladder }
}

fn shallow() -> &'static Example {
    static ONCE: OnceLock<Example> = OnceLock::new();
    ONCE.get_or_init(|| example("shallow-oil"))
}

fn long() -> &'static Example {
    static ONCE: OnceLock<Example> = OnceLock::new();
    ONCE.get_or_init(|| example("long-lateral"))
}

impl Example {
    fn with(&self, change: impl FnOnce(&mut Job)) -> (SettingPlan, Ledger) {
        let mut job = self.job.clone();
        change(&mut job);
        let mut ledger = Ledger::default();
        let plan = set_packers(&job, &self.layout, &self.ladder, &mut ledger);
        (plan.unwrap_or_else(|| panic!("{:#?}", ledger.findings)), ledger)
    }
}

fn stops(ledger: &Ledger) -> Vec<&'static str> {
    ledger.findings.iter().filter(|f| f.severity == Severity::Stop).map(|f| f.id).collect()
}

#[test]
fn the_examples_can_be_set() {
    for example in [shallow(), long()] {
        let (plan, ledger) = example.with(|_| {});
        assert!(stops(&ledger).is_empty(), "{:#?}", ledger.findings);
        for row in &plan.sheet {
            let target = row.target.unwrap();
            assert!(row.low <= row.high && target <= row.high, "{row:#?}");
            assert!(target >= row.low || row.low.in_psi() - target.in_psi() < 1e-3, "{row:#?}");
            for name in ["low", "high", "target"] {
                assert!(ledger.workings.contains_key(&format!("setting.step.{}.{name}", row.step)));
            }
            let volume = format!("setting.step.{}.volume_to_pump", row.step);
            assert_eq!(ledger.workings.contains_key(&volume), row.volume_to_pump.is_some());
        }
        assert!(
            plan.circulating_limit
                < plan.devices.iter().map(|d| d.low).fold(GaugePressure::psi(1e9), GaugePressure::min)
        );
        assert!(plan.limits.windows(2).all(|w| matches!(w, [a, b] if a.ceiling <= b.ceiling)));
        assert!(plan.limits.iter().all(|l| l.used.si() < 1.0));
        // water and pipe together take about 3.4e-6 of the volume per psi
        let c = plan.compressibility.in_per_psi();
        assert!((3.1e-6..3.7e-6).contains(&c), "{c}");
        assert!(!serde_json::to_string(&plan).unwrap().contains("null,\"unit\""));
    }
}

#[test]
fn a_hydraulic_job_is_set_in_its_order() {
    use StepAction::*;
    let (plan, ledger) = shallow().with(|_| {});
    let actions: Vec<_> = plan.sheet.iter().map(|s| s.action).collect();
    let order = [
        Circulate,
        LandBall,
        CloseIsolation,
        StartCasingPacker,
        SetCasingPacker,
        StartPackers,
        SetPackers,
        TestString,
        Bleed,
        TestAnnulus,
        RigOff,
        OpenPressureSleeve,
    ];
    assert_eq!(actions, order);
    assert_eq!(plan.devices.len(), 1 + 1 + 15 + 1);
    assert!(plan.activation.is_none() && plan.swell.is_none());
    let seat = plan.setting_seat.as_ref().unwrap();
    assert!(seat.utilisation.si() > 0.1 && seat.utilisation.si() < 1.0);
    for figure in [
        "setting.isolation.low",
        "setting.casing_packer.full_set",
        "setting.packer.1.low",
        "setting.packer.15.high",
        "setting.packer.15.full_set",
        "setting.pressure_sleeve.low",
        "setting.circulating_limit",
        "setting.least_room",
        "setting.seat.rating",
        "setting.end_load",
        "setting.packer.1.piston_force",
        "setting.packer.7.thrust",
        "setting.casing_packer.piston_force",
        "setting.string_volume",
        "setting.landing_rate",
        "setting.limit.1.ceiling",
    ] {
        assert!(ledger.workings.contains_key(figure), "{figure}");
    }
    // pins: lot 4 %, two deviations of 3 % over six pins; 16.5 MPa, and the columns at its depth
    let packer = plan.window(DeviceKind::Packer, Some(15)).unwrap();
    let share = 0.04 + 0.06 / 6f64.sqrt();
    let bias = 40.0 * 9.80665 * packer.tvd.in_m() / 1e6;
    assert!((packer.low.in_mpa() - (16.5 * (1.0 - share) + bias)).abs() < 1e-6);
    assert!((packer.high.in_mpa() - (16.5 * (1.0 + share) + bias)).abs() < 1e-6);
    assert!((packer.full_set_at.unwrap().in_mpa() - (24.0 + bias)).abs() < 1e-6);
}

#[test]
fn a_fluid_activated_job_waits() {
    use StepAction::*;
    let (plan, ledger) = long().with(|_| {});
    let actions: Vec<_> = plan.sheet.iter().map(|s| s.action).collect();
    let order = [
        Circulate,
        LandPlug,
        StartCasingPacker,
        SetCasingPacker,
        TestString,
        Bleed,
        TestAnnulus,
        RigOff,
        Wait,
    ];
    assert_eq!(actions, order);
    assert!(plan.setting_seat.is_none() && plan.least_room.is_none());
    let a = plan.activation.as_ref().unwrap();
    // the running tally counts the same annulus row by row
    let tally = long().layout.tally.last().unwrap().annulus;
    assert!(((a.open_hole + a.overlap) / tally - 1.0).abs() < 1e-3, "{} against {tally}", a.open_hole);
    assert!((a.volume / a.open_hole - 1.1).abs() < 1e-9);
    assert!((a.pump_time.in_minutes() * 2.0 - a.pumped.in_bbl()).abs() < 1e-6);
    assert!(a.top < MeasuredDepth::ft(11047.0) && a.top > MeasuredDepth::ft(9000.0));
    for figure in ["volume", "open_hole", "displacement", "pump_time"] {
        assert!(ledger.workings.contains_key(&format!("setting.activation.{figure}")));
    }
}

fn differential(psi: f64, share: f64) -> Device {
    Device {
        nominal: Pressure::psi(psi),
        lot_bias: Ratio::of(share),
        pin_scatter: Ratio::ZERO,
        pins: 1,
        reference: Reference::Differential,
        temperature_factor: Ratio::of(1.0),
        source: "test".into(),
    }
}

/// Start 1500 psi within 10 %, full set 3500 psi, toe 5500 psi within 5 %, margin 250 psi, equal
/// fluids: set between 3500 and 4975 psi.
#[test]
fn the_window_of_setting() {
    let (plan, ledger) = shallow().with(|job| {
        let file = &mut job.file;
        file.setting.inside_density = Density::kg_per_m3(1050.0);
        file.setting.outside_density = Density::kg_per_m3(1050.0);
        file.setting.margin = Pressure::psi(250.0);
        file.setting.after_setting = AfterSetting::Trapped;
        file.setting.test_pressure = GaugePressure::psi(4000.0);
        file.toe.isolation = Some(differential(300.0, 0.0));
        file.casing_packer.start = differential(700.0, 0.0);
        file.casing_packer.full_set = Pressure::psi(1000.0);
        file.packer.start = Some(differential(1500.0, 0.10));
        file.packer.full_set = Some(Pressure::psi(3500.0));
        file.toe.pressure_sleeve.as_mut().unwrap().opening = differential(5500.0, 0.05);
        file.setting.surface_rating = Pressure::psi(10_000.0);
        file.limits.treating_pressure = GaugePressure::psi(9000.0);
    });
    let row = plan.row(StepAction::SetPackers).unwrap();
    assert!(
        (row.low.in_psi() - 3500.0).abs() < 1e-6 && (row.high.in_psi() - 4975.0).abs() < 1e-6,
        "{row:#?}"
    );
    assert_eq!(row.bound_by, BoundBy::NextDevice("pressure sleeve".into()));
    let start = plan.row(StepAction::StartPackers).unwrap();
    assert!((start.low.in_psi() - 1650.0).abs() < 1e-6);
    assert!((start.acts_from.unwrap().in_psi() - 1350.0).abs() < 1e-6);
    // the least room is between the isolation tool and the casing packer
    assert!((plan.least_room.unwrap().in_psi() - (1350.0 - 1000.0 - 250.0)).abs() < 1e-6);
    assert!(stops(&ledger).is_empty(), "{:#?}", ledger.findings);
}

#[test]
fn what_acts_too_early_is_named() {
    let (_, ledger) = shallow().with(|job| job.file.casing_packer.full_set = Pressure::mpa(15.0));
    assert_eq!(stops(&ledger), ["setting-order"]);
    let finding = ledger.findings.iter().find(|f| f.id == "setting-order").unwrap();
    assert!(
        finding.message.contains("packer 15") && finding.message.contains("casing packer"),
        "{}",
        finding.message
    );
    let (value, limit) = (finding.value.unwrap().si(), finding.limit.unwrap().si());
    assert!(value < limit && limit - value < 1e6);
    let (plan, ledger) = shallow().with(|job| {
        job.file.setting.inside_density = Density::kg_per_m3(1900.0);
    });
    assert!(stops(&ledger).contains(&"setting-acts-by-itself"));
    assert_eq!(plan.circulating_limit, GaugePressure::ZERO);
}

#[test]
fn limits_stop_the_setting() {
    let (_, ledger) = shallow().with(|job| job.file.setting.test_pressure = GaugePressure::mpa(29.5));
    assert_eq!(stops(&ledger), ["setting-test-opening"]);
    let (plan, ledger) = shallow().with(|job| job.file.setting.surface_rating = Pressure::psi(3000.0));
    assert_eq!(stops(&ledger), ["setting-limit"]);
    assert!(plan.row(StepAction::SetPackers).unwrap().target.is_none());
    let (_, ledger) = shallow().with(|job| job.file.limits.treating_pressure = GaugePressure::mpa(33.0));
    assert_eq!(stops(&ledger), ["setting-opening-limit"]);
    let (plan, ledger) = shallow().with(|job| job.file.ball.safety_factor = Ratio::of(3.0));
    assert!(stops(&ledger).contains(&"setting-ball-rating"));
    assert!(plan.setting_seat.unwrap().utilisation.si() > 1.0);
    let (_, ledger) = shallow().with(|job| job.file.limits.burst_factor = Ratio::of(2.5));
    assert_eq!(stops(&ledger), ["setting-limit", "setting-limit", "setting-opening-limit"]);
    let (_, ledger) = long().with(|job| {
        job.file.limits.annulus_limit = GaugePressure::psi(20_000.0);
        job.file.limits.annulus_pressure = GaugePressure::psi(9000.0);
    });
    assert_eq!(stops(&ledger), ["setting-annulus-limit", "setting-casing-packer-differential"]);
}

#[test]
fn what_is_missing_is_said() {
    let example = shallow();
    let mut job = example.job.clone();
    job.file.packer.start = None;
    job.file.toe.setting_seat = None;
    let mut ledger = Ledger::default();
    assert!(set_packers(&job, &example.layout, &example.ladder, &mut ledger).is_none());
    assert_eq!(stops(&ledger), ["setting-figure-missing"; 2]);
}

#[test]
fn too_little_activation_fluid_is_said() {
    let (_, ledger) = long().with(|job| {
        job.file.setting.activation.as_mut().unwrap().excess = Ratio::of(0.01);
    });
    assert!(ledger.findings.iter().any(|f| f.id == "setting-activation-volume"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// At the target of a full set every packer, at its own depth, has at least its differential
    /// for it, and the sleeve is at least the margin from opening.
    #[test]
    fn the_target_sets_every_packer(inside in 980f64..1250.0, outside in 980f64..1250.0, held in 0f64..2.0) {
        let (plan, _) = shallow().with(|job| {
            job.file.setting.inside_density = Density::kg_per_m3(inside);
            job.file.setting.outside_density = Density::kg_per_m3(outside);
            job.file.setting.annulus_pressure = GaugePressure::mpa(held);
        });
        let Some(target) = plan.row(StepAction::SetPackers).unwrap().target else { return Ok(()) };
        for device in plan.devices.iter().filter(|d| d.device == DeviceKind::Packer) {
            prop_assert!(device.differential(target).in_psi() >= device.full_set.unwrap().in_psi() - 1e-3);
        }
        let sleeve = plan.window(DeviceKind::PressureSleeve, None).unwrap();
        prop_assert!((sleeve.range.low - sleeve.differential(target)).in_mpa() >= 1.0 - 1e-6);
        let circulating = plan.circulating_limit;
        for device in plan.devices.iter().filter(|d| d.outside == Outside::Annulus) {
            let share = device.differential(circulating) / device.range.low;
            prop_assert!(share <= 0.6 + 1e-9 || circulating == GaugePressure::ZERO);
        }
    }
}
