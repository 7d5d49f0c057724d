//! The casing packer of the two example jobs: hung load, cases, envelope and findings.

#![allow(clippy::unwrap_used, clippy::panic)] // helpers of tests

use std::path::Path;

use physics::geometry::PathStart;
use plan::Ledger;
use plan::casing_packer::{Bound, CasingPackerPlan, Direction, PackerCase, rate_casing_packer};
use plan::layout::{Layout, lay_out};
use plan::strings::LoadCase;
use quantity::*;
use well::job::StringRole;
use well::trajectory::{Frame, Station, Trajectory};
use well::{Folder, Job, Severity, read_job};

const JOBS: [&str; 2] = ["long-lateral", "shallow-oil"];

fn laid_out(name: &str) -> (Job, Layout) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs").join(name);
    let job = read_job(&Folder(folder)).value.unwrap();
    let layout = lay_out(&job, &mut Ledger::default()).unwrap();
    (job, layout)
}

fn rated(job: &Job, layout: &Layout) -> (CasingPackerPlan, Ledger) {
    let mut ledger = Ledger::default();
    let plan =
        rate_casing_packer(job, layout, &mut ledger).unwrap_or_else(|| panic!("{:#?}", ledger.findings));
    (plan, ledger)
}

fn says(ledger: &Ledger, id: &str, severity: Severity) -> bool {
    ledger.findings.iter().any(|f| f.id == id && f.severity == severity)
}

fn case(plan: &CasingPackerPlan, case: LoadCase, bound: Bound) -> &PackerCase {
    plan.cases.iter().find(|c| c.case == case && c.bound == bound).unwrap()
}

#[test]
fn the_example_jobs_hold() {
    for name in JOBS {
        let (job, layout) = laid_out(name);
        let (plan, ledger) = rated(&job, &layout);
        assert!(ledger.findings.iter().all(|f| f.severity == Severity::Note), "{:#?}", ledger.findings);
        assert_eq!(plan.cases.len(), 11);
        let governing = plan.governing().unwrap();
        for c in &plan.cases {
            assert!((c.parts.total() - c.load).abs() < Force::n(1e-3));
            assert!(((c.below - c.above) - c.differential).abs() < Pressure::pa(1e-3));
            assert_eq!(c.direction == Direction::Up, c.load < Force::ZERO);
            let utilisation = c.utilisation.unwrap();
            assert!(utilisation.si() > 0.0 && utilisation <= governing.utilisation.unwrap());
            assert!(c.load.abs() <= c.load_limit.unwrap());
        }
        assert!(plan.clearance.unwrap() > Diameter::ZERO);
    }
}

#[test]
fn the_weight_is_that_of_the_tally() {
    let (job, layout) = laid_out("long-lateral");
    let (plan, _) = rated(&job, &layout);
    let below = layout.tally.iter().rev().nth(1).unwrap();
    assert!((plan.hung.mass.si() - below.mass.si()).abs() < 1e-6);
    // one fluid inside and outside: mass less what the steel displaces
    let rho = job.file.setting.inside_density;
    let buoyed = (below.mass - rho * below.steel).weight();
    assert!((plan.hung.buoyed - buoyed).abs() < buoyed * 1e-9);
    assert!(plan.hung.along_hole < plan.hung.buoyed);
    assert!(plan.hung.lowered < plan.hung.along_hole && plan.hung.along_hole < plan.hung.picked_up);
}

/// In a vertical well everything below hangs, and there is no friction.
#[test]
fn in_a_vertical_well_all_of_it_hangs() {
    let (mut job, layout) = laid_out("long-lateral");
    let at = |ft: f64| Station::new(MeasuredDepth::ft(ft), Angle::ZERO, Angle::ZERO);
    job.trajectory =
        Trajectory::new(&[at(0.0), at(21_000.0)], PathStart::default(), Frame::default()).unwrap();
    let (plan, _) = rated(&job, &layout);
    assert!((plan.hung.along_hole - plan.hung.buoyed).abs() < plan.hung.buoyed * 1e-9);
    assert!((plan.hung.picked_up - plan.hung.lowered).abs() < plan.hung.buoyed * 1e-6);
}

#[test]
fn the_test_pressure_pulls_over_the_bore() {
    let (job, layout) = laid_out("long-lateral");
    let (plan, _) = rated(&job, &layout);
    let test = case(&plan, LoadCase::Test, Bound::Down);
    // equal densities: the difference at the toe is the pressure at the surface
    let area = std::f64::consts::FRAC_PI_4 * 3.92 * 3.92;
    assert!((test.parts.end_load.in_lbf() - 5_000.0 * area).abs() < 1.0);
    assert_eq!(test.differential, Pressure::ZERO);
}

/// Downward while treating, written out in field units.
#[test]
fn cold_liner_pulls_down() {
    let (job, layout) = laid_out("long-lateral");
    let (plan, _) = rated(&job, &layout);
    let treating = case(&plan, LoadCase::Treating, Bound::Down);
    let top = layout.casing_packer_top.in_ft() + 14.0;
    let bottom = layout.stages.last().unwrap().packer.element_top.in_ft();
    let steps = 1_000;
    let tvd = |i: usize| {
        let md = top + (bottom - top) * i as f64 / f64::from(steps);
        job.trajectory.tvd_at(MeasuredDepth::ft(md)).in_ft()
    };
    let mean = (0..=steps as usize).map(tvd).sum::<f64>() / f64::from(steps + 1);
    let steel = std::f64::consts::FRAC_PI_4 * (4.5 * 4.5 - 3.92 * 3.92);
    let cooling = 45.0 + (239.0 - 45.0) / 10_700.0 * mean - 60.0;
    let thermal = 30e6 * steel * 6.9e-6 * cooling;
    assert!((treating.parts.thermal.in_lbf() - thermal).abs() < 50.0);
    assert_eq!(treating.parts.string_above, Force::ZERO);
    assert_eq!(treating.parts.pressure_area, Force::ZERO, "liner and string are of one size");
}

#[test]
fn upward_the_string_pulls_and_the_liner_does_not_help() {
    for name in JOBS {
        let (job, layout) = laid_out(name);
        let (plan, _) = rated(&job, &layout);
        for pumped in [LoadCase::Treating, LoadCase::Screenout, LoadCase::Trip] {
            let up = case(&plan, pumped, Bound::Up);
            assert!(up.parts.string_above < Force::ZERO && up.parts.thermal <= Force::ZERO);
            assert!(up.load < case(&plan, pumped, Bound::Down).load);
        }
    }
}

#[test]
fn outside_the_envelope_stops_and_near_its_edge_warns() {
    let (mut job, layout) = laid_out("shallow-oil");
    let (plan, _) = rated(&job, &layout);
    let most = plan.governing().unwrap().utilisation.unwrap().si();
    let scaled = |job: &mut Job, k: f64| {
        for row in &mut job.file.casing_packer.envelope {
            row.differential = row.differential * k;
            row.tension = row.tension * k;
            row.compression = row.compression * k;
        }
    };
    scaled(&mut job, most / 0.95);
    let (near, ledger) = rated(&job, &layout);
    assert!((near.governing().unwrap().utilisation.unwrap().si() - 0.95).abs() < 1e-9);
    assert!(says(&ledger, "casing-packer-envelope", Severity::Warn));
    assert!(!says(&ledger, "casing-packer-envelope", Severity::Stop));
    scaled(&mut job, 0.9);
    assert!(says(&rated(&job, &layout).1, "casing-packer-envelope", Severity::Stop));
}

#[test]
fn what_the_supplier_has_not_rated_is_a_finding() {
    let (mut job, layout) = laid_out("shallow-oil");
    job.file.casing_packer.envelope.retain(|r| r.differential > Pressure::ZERO);
    let (plan, ledger) = rated(&job, &layout);
    assert!(says(&ledger, "casing-packer-rating-missing", Severity::Stop));
    assert!(plan.cases[0].utilisation.is_none());
    job.file.casing_packer.envelope.clear();
    let (plan, ledger) = rated(&job, &layout);
    assert!(says(&ledger, "casing-packer-rating-missing", Severity::Stop));
    assert!(plan.governing.is_none() && plan.envelope.is_empty());
}

#[test]
fn temperature_drift_and_differential_are_checked() {
    let (mut job, layout) = laid_out("long-lateral");
    let (plan, _) = rated(&job, &layout);
    let table = &mut job.file.casing_packer;
    table.max_temperature = plan.temperature + TemperatureDifference::kelvin(2.0);
    table.od = plan.casing_drift.unwrap();
    job.file.limits.packer_factor = Ratio::of(1.5);
    let (_, ledger) = rated(&job, &layout);
    assert!(says(&ledger, "casing-packer-temperature", Severity::Warn));
    assert!(says(&ledger, "casing-packer-drift", Severity::Stop));
    assert!(says(&ledger, "casing-packer-differential", Severity::Stop));
    job.file.casing_packer.max_temperature = plan.temperature - TemperatureDifference::kelvin(1.0);
    job.strings.retain(|s| s.table.role != StringRole::Casing);
    let (plan, ledger) = rated(&job, &layout);
    assert!(says(&ledger, "casing-packer-temperature", Severity::Stop));
    assert!(says(&ledger, "casing-packer-no-casing", Severity::Warn) && plan.casing_drift.is_none());
}

#[test]
fn every_case_opens() {
    for name in JOBS {
        let (job, layout) = laid_out(name);
        let (plan, ledger) = rated(&job, &layout);
        for (i, c) in plan.cases.iter().enumerate() {
            let working = &ledger.workings[&format!("casing_packer.{}.utilisation", i + 1)];
            assert_eq!(working.value, c.utilisation.unwrap().into());
            let step = working.steps.iter().find(|s| s.relation == "load_envelope").unwrap();
            let shown = step.outputs.iter().find(|o| o.name == "utilisation").unwrap().values[0];
            assert!((shown.si() - c.utilisation.unwrap().si()).abs() < 1e-12);
        }
        let hung = &ledger.workings["casing_packer.hung"];
        let shown = hung.steps.last().unwrap().outputs[0].values[0];
        assert!((shown.si() - plan.hung.along_hole.si()).abs() < 1e-6 * plan.hung.along_hole.si());
        assert!(ledger.workings.contains_key("casing_packer.utilisation"));
        assert!(ledger.workings.contains_key("casing_packer.temperature"));
    }
}

#[test]
fn the_outline_is_closed_round_no_load() {
    let (job, layout) = laid_out("long-lateral");
    let (plan, _) = rated(&job, &layout);
    assert_eq!(plan.envelope.len(), 8);
    let (first, last) = (plan.envelope[0], plan.envelope[7]);
    assert_eq!((first.differential, last.differential), (Pressure::ZERO, Pressure::ZERO));
    assert!(first.load < Force::ZERO && last.load > Force::ZERO);
    assert!(serde_json::to_string(&plan).unwrap().contains("\"bound\":\"down\""));
    assert!(schemars::schema_for!(CasingPackerPlan).to_value().is_object());
}
