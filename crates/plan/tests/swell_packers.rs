//! The swell of the long lateral's packers, and of jobs made from it.

#![allow(clippy::unwrap_used, clippy::panic)] // helpers of tests

use std::path::Path;
use std::sync::OnceLock;

use physics::packer::arrhenius::Clock;
use physics::packer::swell_curve::SwellCurve;
use plan::layout::{HoleSize, Layout, lay_out};
use plan::swell::{Showing, SwellPlan, swell_packers};
use plan::{Band, Ledger};
use quantity::*;
use well::job::SwellRow;
use well::{Folder, Job, Severity, read_job};

struct Example {
    job: Job,
    layout: Layout,
}

fn long() -> &'static Example {
    static ONCE: OnceLock<Example> = OnceLock::new();
    ONCE.get_or_init(|| {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs/long-lateral");
        let job = read_job(&Folder(folder)).value.unwrap();
        let layout = lay_out(&job, &mut Ledger::default()).unwrap();
        Example { job, layout }
    })
}

fn with(change: impl FnOnce(&mut Job, &mut Layout)) -> (SwellPlan, Ledger) {
    let Example { mut job, mut layout } = Example { job: long().job.clone(), layout: long().layout.clone() };
    change(&mut job, &mut layout);
    let mut ledger = Ledger::default();
    let plan = swell_packers(&job, &layout, &mut ledger);
    (plan.unwrap_or_else(|| panic!("{:#?}", ledger.findings)), ledger)
}

fn ids(ledger: &Ledger, severity: Severity) -> Vec<&'static str> {
    ledger.findings.iter().filter(|f| f.severity == severity).map(|f| f.id).collect()
}

/// Every hole of one size, rock of one temperature from the start, nothing uncertain.
fn sharp(job: &mut Job, layout: &mut Layout, hole: Diameter, rock: Temperature) {
    job.file.rock.surface_temperature = rock;
    job.file.rock.bottom_temperature = rock;
    job.file.setting.activation.as_mut().unwrap().warm_up = Time::ZERO;
    job.file.hole.caliper.as_mut().unwrap().sigma = Diameter::ZERO;
    let swell = job.file.packer.swell.as_mut().unwrap();
    swell.swell_sigma = Ratio::ZERO;
    swell.activation_energy_sigma = MolarEnergy::ZERO;
    for stage in &mut layout.stages {
        stage.packer.hole = HoleSize { least: hole, p10: hole, p50: hole, p90: hole, worst: hole };
    }
}

/// The element of a published calibration: 5.750 in, 80 degC, 40 kJ/mol.
fn calibrated(job: &mut Job) {
    let rows = [
        (0.0, 5.75),
        (0.5, 5.9534),
        (1.0, 6.0342),
        (2.0, 6.1451),
        (4.0, 6.2956),
        (7.0, 6.4518),
        (10.0, 6.5643),
        (14.0, 6.6707),
        (21.0, 6.7816),
        (30.0, 6.8491),
    ];
    let swell = job.file.packer.swell.as_mut().unwrap();
    swell.row =
        rows.iter().map(|(d, od)| SwellRow { time: Time::days(*d), od: Diameter::inch(*od) }).collect();
    swell.temperature = Temperature::deg_c(80.0);
    swell.coldest_test = Temperature::deg_c(60.0);
    swell.hottest_test = Temperature::deg_c(100.0);
    swell.activation_energy = MolarEnergy::kj_per_mol(40.0);
    swell.rating_interference = Diameter::ZERO;
}

/// Days to contact by the diffusion series behind the rows; the cubic between rows is off by 2 % in
/// the first day, where the curve goes with the root of time, and by less later.
#[test]
fn times_of_the_calibrated_element() {
    let cases = [
        (6.0, 60.0, 1.735),
        (6.0, 80.0, 0.766),
        (6.125, 80.0, 1.791),
        (6.25, 60.0, 7.500),
        (6.25, 80.0, 3.310),
        (6.25, 100.0, 1.595),
        (6.5, 80.0, 8.175),
        (6.75, 100.0, 8.907),
    ];
    for (hole, rock, days) in cases {
        let (plan, _) = with(|job, layout| {
            calibrated(job);
            sharp(job, layout, Diameter::inch(hole), Temperature::deg_c(rock));
        });
        let contact = plan.packers[0].contact.unwrap();
        assert_eq!((contact.p10, contact.p50), (contact.p50, contact.p90));
        assert!(
            (contact.p50.in_days() / days - 1.0).abs() < if days < 2.0 { 0.021 } else { 0.005 },
            "{hole} {rock}: {}",
            contact.p50.in_days()
        );
        let (middle, worst) =
            (plan.packers[0].rating_middle.unwrap(), plan.packers[0].rating_in_worst_hole.unwrap());
        assert!((middle / contact.p50 - 1.0).abs() < 1e-9 && (worst / middle - 1.0).abs() < 1e-9);
    }
}

/// With one figure uncertain at a time the band's ends are the times of that figure's quantiles.
#[test]
fn bands_are_those_of_their_quantiles() {
    const Z: f64 = 1.281_551_565_5;
    let (hole, rock) = (Diameter::inch(6.2), Temperature::deg_c(95.0));
    let tested = (Temperature::deg_c(60.0), Temperature::deg_c(100.0));
    let direct = |z: (f64, f64, f64)| {
        let mut job = long().job.clone();
        calibrated(&mut job);
        let swell = job.file.packer.swell.unwrap();
        let clock = Clock::new(MolarEnergy::kj_per_mol(40.0 + 5.0 * z.1), swell.temperature).unwrap();
        let (times, ods): (Vec<_>, Vec<_>) = swell.row.iter().map(|r| (r.time, r.od)).unzip();
        let curve = SwellCurve::new(&times, &ods, clock, tested).unwrap();
        let grown = (hole + Diameter::inch(0.04) * z.2 - Diameter::inch(5.75)) / (1.0 + 0.06 * z.0);
        curve.equivalent_at(Diameter::inch(5.75) + grown).unwrap().in_days() / clock.rate(rock).unwrap()
    };
    let band = |spread: usize| -> Band<Time> {
        let (plan, _) = with(|job, layout| {
            calibrated(job);
            sharp(job, layout, hole, rock);
            let swell = job.file.packer.swell.as_mut().unwrap();
            match spread {
                0 => swell.swell_sigma = Ratio::of(0.06),
                1 => swell.activation_energy_sigma = MolarEnergy::kj_per_mol(5.0),
                _ => job.file.hole.caliper.as_mut().unwrap().sigma = Diameter::inch(0.04),
            }
        });
        plan.packers[3].rating.unwrap()
    };
    let one = |spread: usize, z: f64| {
        let mut list = [0.0; 3];
        list[spread] = z;
        direct((list[0], list[1], list[2]))
    };
    for (spread, slow) in [(0, -1.0), (1, -1.0), (2, 1.0)] {
        let b = band(spread);
        let ends = [(b.p10, -slow * Z), (b.p50, 0.0), (b.p90, slow * Z)];
        for (time, z) in ends {
            let expected = one(spread, z);
            // sampling: 400 draws leave about 5 % of a standard deviation
            let sigma = (one(spread, 1.0) - one(spread, -1.0)).abs() / 2.0;
            assert!(
                (time.in_days() - expected).abs() < 0.2 * sigma,
                "{spread} {z}: {} {expected}",
                time.in_days()
            );
        }
    }
}

#[test]
fn the_example_is_ready_in_its_wait() {
    let (plan, ledger) = with(|_, _| {});
    assert!(ids(&ledger, Severity::Stop).is_empty() && ids(&ledger, Severity::Warn).is_empty());
    let (earliest, expected) = (plan.earliest_frac.unwrap(), plan.expected_frac.unwrap());
    assert!(expected < earliest && earliest < plan.planned_wait);
    let ready = plan.ready.unwrap();
    assert_eq!((ready.p50, ready.p90), (expected, earliest));
    assert!(ready.p10 < ready.p50 && plan.ready_at_wait.si() > 0.9 && plan.all_reach >= plan.ready_at_wait);
    for p in &plan.packers {
        let own = p.rating.unwrap();
        assert!(
            ready.p10 > own.p10 && ready.p50 > own.p50 && earliest > own.p90,
            "the last is later than one"
        );
    }
    for p in &plan.packers {
        let (contact, rating) = (p.contact.unwrap(), p.rating.unwrap());
        assert!(contact.p10 <= contact.p50 && contact.p50 <= contact.p90);
        assert!(contact.p50 < rating.p50 && contact.p10 > plan.first_touch.unwrap());
        assert!(p.reaches.si() >= p.ready.si() && p.ready.si() > 0.9);
        for figure in ["contact", "rating"] {
            assert!(ledger.workings.contains_key(&format!("swell.packer.{}.{figure}", p.stage)));
        }
    }
    assert!(ledger.workings.contains_key("swell.earliest_frac"));
    let showing: Vec<_> = plan.charts.iter().map(|c| c.showing).collect();
    assert_eq!(showing, [Showing::Best, Showing::Median, Showing::Worst]);
    for chart in &plan.charts {
        assert!(chart.points.first().is_some_and(|p| p.time == Time::ZERO));
        assert!(chart.points.last().is_some_and(|p| p.time > plan.planned_wait));
        for pair in chart.points.windows(2) {
            assert!(
                pair[1].diameter.p50 >= pair[0].diameter.p50 && pair[1].temperature >= pair[0].temperature
            );
        }
    }
    assert_eq!(with(|_, _| {}).0, plan);
}

#[test]
fn larger_colder_and_less_certain_take_longer() {
    let (plain, _) = with(|_, _| {});
    let p90 = |plan: &SwellPlan| plan.packers[10].rating.unwrap().p90;
    let p50 = |plan: &SwellPlan| plan.packers[10].rating.unwrap().p50;
    let (larger, _) = with(|_, layout| {
        let hole = &mut layout.stages[10].packer.hole;
        hole.p50 += Diameter::inch(0.1);
        hole.p90 += Diameter::inch(0.1);
    });
    assert!(p50(&larger) > p50(&plain) * 1.2);
    let (colder, _) = with(|job, _| job.file.rock.bottom_temperature = Temperature::deg_f(200.0));
    assert!(p50(&colder) > p50(&plain) * 1.3);
    let (unsure, _) = with(|job, _| job.file.packer.swell.as_mut().unwrap().swell_sigma = Ratio::of(0.15));
    assert!(p90(&unsure) > p90(&plain) * 1.1);
    let (slow, _) = with(|job, _| job.file.setting.activation.as_mut().unwrap().warm_up = Time::days(4.0));
    assert!(p50(&slow) > p50(&plain) + Time::days(1.0));
}

#[test]
fn too_short_a_wait_is_stopped_and_a_doubtful_one_warned_of() {
    let wait = |days: f64| {
        with(|job, _| job.file.setting.activation.as_mut().unwrap().planned_wait = Time::days(days)).1
    };
    assert!(ids(&wait(5.0), Severity::Stop).contains(&"swell-wait"));
    let plan = with(|_, _| {}).0;
    let own = plan.packers.iter().map(|p| p.rating.unwrap().p90.in_days()).fold(0.0, f64::max);
    let (half, most) = (plan.expected_frac.unwrap().in_days(), plan.earliest_frac.unwrap().in_days());
    assert!(own < most, "all together are later than the slowest alone");
    for days in [half * 1.01, most * 0.99] {
        let doubtful = wait(days);
        assert!(ids(&doubtful, Severity::Stop).is_empty(), "{days}");
        let finding = doubtful.findings.iter().find(|f| f.id == "swell-wait-spread").unwrap();
        assert_eq!(finding.severity, Severity::Warn);
    }
    assert!(ids(&wait(half * 0.99), Severity::Stop).contains(&"swell-wait"));
    assert!(!ids(&wait(most * 1.01), Severity::Warn).contains(&"swell-wait-spread"));
}

/// `count` packers in one hole, one spread at a time: the lot's spread leaves the last packer where
/// any one is; a spread of each packer's own makes the last one later, as the largest of `count`
/// normal numbers is.
#[test]
fn the_lot_is_common_and_the_hole_each_packers_own() {
    const Z90: f64 = 1.281_551_565_5;
    /// Normal number below which the largest of 30 stays in nine of ten: Φ⁻¹(0.9^(1/30)).
    const LAST_OF_30: f64 = 2.695_5;
    let band = |spread: usize| -> (Band<Time>, Band<Time>, usize) {
        let (plan, _) = with(|job, layout| {
            calibrated(job);
            sharp(job, layout, Diameter::inch(6.2), Temperature::deg_c(95.0));
            match spread {
                0 => {
                    job.file.packer.swell.as_mut().unwrap().activation_energy_sigma =
                        MolarEnergy::kj_per_mol(5.0)
                }
                _ => job.file.hole.caliper.as_mut().unwrap().sigma = Diameter::inch(0.02),
            }
        });
        (plan.ready.unwrap(), plan.packers[0].rating.unwrap(), plan.packers.len())
    };
    let (all, one, _) = band(0);
    for (a, b) in [(all.p10, one.p10), (all.p50, one.p50), (all.p90, one.p90)] {
        assert!((a / b - 1.0).abs() < 1e-9, "{a} {b}");
    }
    let (all, one, count) = band(1);
    assert_eq!(count, 30);
    // The time rises with the hole nearly as an exponential; its logarithm is read off one packer.
    let sigma = (one.p90 / one.p50).ln() / Z90;
    let last = (all.p90 / one.p50).ln() / sigma;
    assert!((last - LAST_OF_30).abs() < 0.15, "{last}");
}

/// Where each packer alone has its rating in nine of ten samples, but all together have not, there is
/// no earliest time, and the job stops.
#[test]
fn packers_that_never_seal_all_together_stop_the_job() {
    let (plan, ledger) = with(|job, layout| {
        calibrated(job);
        sharp(job, layout, Diameter::inch(6.75), Temperature::deg_c(95.0));
        job.file.hole.caliper.as_mut().unwrap().sigma = Diameter::inch(0.06);
    });
    assert!(plan.packers.iter().all(|p| p.rating.is_some()));
    assert!(plan.ready.is_none() && plan.earliest_frac.is_none() && plan.all_reach.si() < 0.9);
    assert!(ids(&ledger, Severity::Stop).contains(&"swell-never-seals"));
}

#[test]
fn a_packer_that_never_seals_stops_the_job() {
    let (plan, ledger) = with(|_, layout| {
        let d = Diameter::inch(6.78);
        layout.stages[4].packer.hole = HoleSize { least: d, p10: d, p50: d, p90: d, worst: d };
    });
    assert_eq!(ids(&ledger, Severity::Stop), ["swell-never-seals"]);
    let finding = ledger.findings.iter().find(|f| f.id == "swell-never-seals").unwrap();
    assert_eq!(finding.place.stage, Some(5));
    assert!(plan.earliest_frac.is_none() && plan.packers[4].rating.is_none());
    assert!(plan.packers[4].reaches.si() < 0.9);
    assert!(!serde_json::to_string(&plan).unwrap().contains("null,\"unit\""));
}

#[test]
fn rock_beyond_the_tests_is_told() {
    let (plan, ledger) = with(|job, _| {
        let swell = job.file.packer.swell.as_mut().unwrap();
        swell.hottest_test = Temperature::deg_f(215.0);
        swell.temperature = Temperature::deg_f(190.0);
    });
    assert_eq!(ids(&ledger, Severity::Warn).len(), 0, "within the margin of 15 degC");
    assert!(plan.packers.iter().all(|p| p.beyond_tests.si() < 0.05));
    let (plan, ledger) = with(|job, _| {
        let swell = job.file.packer.swell.as_mut().unwrap();
        (swell.hottest_test, swell.temperature) = (Temperature::deg_f(200.0), Temperature::deg_f(180.0));
    });
    assert!(ids(&ledger, Severity::Warn).contains(&"swell-beyond-tests"));
    assert!(plan.packers.iter().all(|p| p.beyond_tests.si() > 0.5));
}
