//! Strings of the two example jobs: ratings, load cases, factors and findings.

#![allow(clippy::unwrap_used, clippy::panic)] // helpers of tests

use std::path::Path;
use std::sync::LazyLock;

use plan::Ledger;
use plan::layout::{Layout, lay_out};
use plan::strings::{Criterion, Governing, LoadCase, LoadPoint, StringPlan, StringsPlan, rate_strings};
use proptest::prelude::*;
use quantity::*;
use well::job::StringRole;
use well::{Folder, Job, Severity, read_job};

const JOBS: [&str; 2] = ["long-lateral", "shallow-oil"];

fn job(name: &str) -> Job {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs").join(name);
    let read = read_job(&Folder(folder));
    read.value.unwrap_or_else(|| panic!("{name}: {:#?}", read.findings))
}

fn laid_out(name: &str) -> (Job, Layout) {
    let job = job(name);
    let layout = lay_out(&job, &mut Ledger::default()).unwrap();
    (job, layout)
}

fn rated(job: &Job, layout: &Layout) -> (StringsPlan, Ledger) {
    let mut ledger = Ledger::default();
    let plan = rate_strings(job, layout, &mut ledger).unwrap_or_else(|| panic!("{:#?}", ledger.findings));
    (plan, ledger)
}

fn of(plan: &StringsPlan, role: StringRole) -> &StringPlan {
    plan.strings.iter().find(|s| s.role == role).unwrap()
}

fn ids(ledger: &Ledger, severity: Severity) -> Vec<&'static str> {
    ledger.findings.iter().filter(|f| f.severity == severity).map(|f| f.id).collect()
}

#[test]
fn the_example_jobs_hold() {
    for name in JOBS {
        let (job, layout) = laid_out(name);
        let (plan, ledger) = rated(&job, &layout);
        assert_eq!(plan.strings.len(), 3);
        for string in &plan.strings {
            assert_eq!(string.governing.len(), 4, "{name}: {}", string.name);
            // below the widest seat the thin liner of the shallow well is near its collapse
            let near = |g: &Governing| {
                g.criterion == Criterion::Collapse && g.point == LoadPoint::BelowSeat && g.factor.si() > 1.05
            };
            assert!(string.governing.iter().all(|g| g.factor >= g.required || near(g)), "{ledger:#?}");
        }
    }
}

#[test]
fn every_row_is_made_of_its_parts() {
    for name in JOBS {
        let (job, layout) = laid_out(name);
        let (plan, _) = rated(&job, &layout);
        for string in &plan.strings {
            for row in &string.loads {
                let sum = row.hanging + row.ballooning + row.thermal + row.seat;
                assert!((sum - row.axial).abs() < Force::n(1e-3));
                if let Some(burst) = row.burst {
                    let connection = string.ratings.connection_internal.as_ref().map(|c| c.value);
                    let body = string.ratings.internal_yield.value;
                    let limit = connection.map_or(body, |c| c.min(body));
                    assert!((burst.si() - limit / (row.inside - row.outside)).abs() < 1e-9);
                    assert!(row.collapse.is_none());
                }
                let factors = Criterion::ALL.iter().filter_map(|c| c.of(row));
                assert!(factors.into_iter().all(|f| f.si() > 0.0 && f.is_finite()));
            }
        }
    }
}

/// The treating string of the long lateral against the formulas written out in field units.
#[test]
fn the_treating_string_follows_the_held_length_formulas() {
    let (job, layout) = laid_out("long-lateral");
    let (plan, _) = rated(&job, &layout);
    let string = of(&plan, StringRole::Treating);
    let row = string.load(LoadCase::Screenout, LoadPoint::Top).unwrap();
    // mean vertical depth by the survey, foot by foot
    let feet = layout.casing_packer_top.in_ft() as usize;
    let tvd = |i: usize| job.trajectory.tvd_at(MeasuredDepth::ft(i as f64)).in_ft();
    let mean = (0..=feet).map(tvd).sum::<f64>() / (feet + 1) as f64;
    let (ai, ao) = (std::f64::consts::FRAC_PI_4 * 3.92 * 3.92, std::f64::consts::FRAC_PI_4 * 4.5 * 4.5);
    // the heaviest mixture: 2.5 ppa of grains of 2.58 in 8.40 lb/gal
    let grain = Density::g_per_cm3(2.58).in_lb_per_gal();
    let heavy = (8.40 + 2.5) / (1.0 + 2.5 / grain);
    let sand = Density::g_per_cm3(2.65).in_lb_per_gal();
    let heavy = heavy.max((8.40 + 2.0) / (1.0 + 2.0 / sand));
    let psi_per_ft = Density::lb_per_gal(1.0).gradient().in_psi_per_ft();
    let inside = 8_500.0 + (heavy - 10.8) * psi_per_ft * mean;
    let ballooning = 2.0 * 0.3 * (inside * ai - 1_000.0 * ao);
    assert!((row.ballooning.in_lbf() - ballooning).abs() < 20.0, "{} {ballooning}", row.ballooning);
    let rock = 45.0 + (239.0 - 45.0) / 10_700.0 * mean;
    let thermal = 30e6 * (ao - ai) * 6.9e-6 * (rock - 60.0);
    assert!((row.thermal.in_lbf() - thermal).abs() < 20.0, "{} {thermal}", row.thermal);
    // at the surface it hangs with the liner, no pressure on its end
    assert!((row.hanging - string.hung).abs() < Force::n(1e-3));
}

/// Same fluid inside and outside: the buoyed weight is the mass less the steel's displacement.
#[test]
fn the_hung_weight_is_that_of_the_columns() {
    let (job, layout) = laid_out("long-lateral");
    assert_eq!(job.file.setting.inside_density, job.file.setting.outside_density);
    let (plan, _) = rated(&job, &layout);
    let string = of(&plan, StringRole::Treating);
    let height = Length::m(job.trajectory.tvd_at(layout.casing_packer_top).si());
    let own = Force::n(string.buoyed_weight.si() * height.si());
    let liner = of(&plan, StringRole::Liner).hung;
    assert!((string.hung - own - liner).abs() < own * 1e-3);
}

#[test]
fn a_closed_free_pipe_carries_the_pressure_on_its_end() {
    let (job, layout) = laid_out("shallow-oil");
    let (plan, _) = rated(&job, &layout);
    let liner = of(&plan, StringRole::Liner);
    let force = |case| liner.load(case, LoadPoint::CasingPacker).unwrap().axial;
    let pressure = |case| liner.load(case, LoadPoint::CasingPacker).unwrap().inside;
    let more = pressure(LoadCase::Test) - pressure(LoadCase::RunIn);
    let pull = force(LoadCase::Test) - force(LoadCase::RunIn);
    assert!((pull - more * liner.id.circle()).abs() < Force::n(1.0));
}

#[test]
fn every_headline_figure_opens() {
    for name in JOBS {
        let (job, layout) = laid_out(name);
        let (plan, ledger) = rated(&job, &layout);
        for (i, string) in plan.strings.iter().enumerate() {
            for g in &string.governing {
                let id = match g.criterion {
                    Criterion::Burst => "burst",
                    Criterion::Collapse => "collapse",
                    Criterion::Tension => "tension",
                    Criterion::Triaxial => "triaxial",
                };
                let working = &ledger.workings[&format!("string.{}.{id}_factor", i + 1)];
                assert_eq!(working.value, g.factor.into());
                assert!(!working.steps.is_empty() || string.name.contains("stated"), "{}", working.title);
            }
            for id in
                ["capacity", "buoyed_weight", "internal_yield", "collapse", "body_yield", "joint_strength"]
            {
                assert!(ledger.workings.contains_key(&format!("string.{}.{id}", i + 1)), "{id}");
            }
        }
        assert!(ledger.workings.contains_key("strings.highest_treating_pressure"));
    }
}

#[test]
fn the_stress_of_a_factor_is_the_stress_of_its_workings() {
    let (job, layout) = laid_out("long-lateral");
    let (plan, ledger) = rated(&job, &layout);
    for (i, string) in plan.strings.iter().enumerate() {
        let g = string.governing(Criterion::Triaxial).unwrap();
        let working = &ledger.workings[&format!("string.{}.triaxial_factor", i + 1)];
        let step = working.steps.iter().find(|s| s.relation == "triaxial").unwrap();
        let shown = step.outputs.iter().find(|o| o.name == "safety_factor").unwrap().values[0];
        assert!((shown.si() - g.factor.si()).abs() < 1e-9);
    }
}

#[test]
fn a_factor_below_the_one_asked_for_stops_and_one_just_above_warns() {
    let (mut job, layout) = laid_out("shallow-oil");
    let (plan, _) = rated(&job, &layout);
    let burst = of(&plan, StringRole::Treating).governing(Criterion::Burst).unwrap().factor;
    job.file.limits.burst_factor = burst * 1.01;
    assert!(ids(&rated(&job, &layout).1, Severity::Stop).contains(&"string-burst"));
    job.file.limits.burst_factor = burst * 0.98;
    let (_, ledger) = rated(&job, &layout);
    let about = |severity| {
        ledger
            .findings
            .iter()
            .any(|f| f.id == "string-burst" && f.severity == severity && f.message.contains("treating"))
    };
    assert!(about(Severity::Warn) && !about(Severity::Stop));
}

#[test]
fn limits_are_held_against_the_weakest_string() {
    let (mut job, layout) = laid_out("shallow-oil");
    let (plan, ledger) = rated(&job, &layout);
    assert!(!ids(&ledger, Severity::Stop).contains(&"string-pressure-limit"));
    job.file.limits.trip = plan.highest_treating_pressure + Pressure::psi(1.0);
    let (_, ledger) = rated(&job, &layout);
    let limit = ledger.findings.iter().find(|f| f.id == "string-pressure-limit").unwrap();
    assert_eq!(limit.place.field.as_deref(), Some("limits.trip"));
    assert_eq!(limit.severity, Severity::Stop);
    job.file.limits.relief = (plan.lowest_internal_yield * 0.86).gauge();
    assert!(ids(&rated(&job, &layout).1, Severity::Warn).contains(&"string-relief-share"));
}

#[test]
fn a_rated_connection_is_counted() {
    let (mut job, layout) = laid_out("long-lateral");
    let table = &mut job.strings[1];
    let mut spec = table.pipe.spec().clone();
    let well::tubular::Connection::Rated(c) = &mut spec.connection else { panic!("not rated") };
    (c.internal, c.tension, c.compression) = (Some(Pressure::psi(6_000.0)), Some(Force::klbf(200.0)), None);
    table.pipe = well::tubular::Pipe::new(spec, well::tubular::Catalogue::standard().unwrap()).unwrap();
    let (plan, ledger) = rated(&job, &layout);
    assert_eq!(plan.lowest_internal_yield, Pressure::psi(6_000.0));
    let stops = ids(&ledger, Severity::Stop);
    assert!(["string-burst", "string-tension", "string-pressure-limit"].iter().all(|id| stops.contains(id)));
    let notes = ids(&ledger, Severity::Note);
    assert!(
        ["string-connection-governs", "string-connection-compression"].iter().all(|id| notes.contains(id))
    );
}

#[test]
fn stretch_is_locked_in_only_by_packers_that_set_under_pressure() {
    let (job, layout) = laid_out("shallow-oil");
    let (plan, _) = rated(&job, &layout);
    let liner = of(&plan, StringRole::Liner);
    let at = |case| liner.load(case, LoadPoint::CasingPacker).unwrap().hanging;
    let locked = job.file.packer.full_set.unwrap() * liner.id.circle() * 0.4;
    assert!((at(LoadCase::ShutIn) - at(LoadCase::RunIn) - locked).abs() < Force::n(1.0));
    let (job, layout) = laid_out("long-lateral");
    let (plan, _) = rated(&job, &layout);
    let liner = of(&plan, StringRole::Liner);
    let at = |case| liner.load(case, LoadPoint::CasingPacker).unwrap().hanging;
    assert_eq!(at(LoadCase::ShutIn), at(LoadCase::RunIn));
}

/// The annulus of an open stage is at the fracture pressure of that stage, also where it has a gradient of its own.
#[test]
fn a_stage_with_a_gradient_of_its_own_presses_with_it() {
    for name in JOBS {
        let (mut job, layout) = laid_out(name);
        let outside = |job: &Job| {
            let (plan, _) = rated(job, &layout);
            let row = of(&plan, StringRole::Liner).load(LoadCase::Treating, LoadPoint::WidestSeat).unwrap();
            (row.outside, job.trajectory.tvd_at(row.depth))
        };
        let widest = layout.stages.last().unwrap().stage;
        let own = |job: &mut Job, gradient| {
            for change in &mut job.file.treatment.change {
                change.fracture_gradient =
                    Some(gradient).filter(|_| (change.from_stage..=change.to_stage).contains(&widest));
            }
        };
        let (low, high) = (job.file.rock.fracture_gradient * 0.9, job.file.rock.fracture_gradient);
        own(&mut job, high);
        let (at_high, tvd) = outside(&job);
        own(&mut job, low);
        let (at_low, _) = outside(&job);
        let expected = (high - low) * Length::m(tvd.si());
        assert!(
            (at_high - at_low - expected).abs() < Pressure::psi(0.01),
            "{name}: {at_high} {at_low} {expected}"
        );
    }
}

/// Below a landed ball a screenout loads the liner from outside, by what the bore has over the pore.
#[test]
fn below_a_seat_the_annulus_presses() {
    for name in JOBS {
        let (job, layout) = laid_out(name);
        let (plan, _) = rated(&job, &layout);
        let liner = of(&plan, StringRole::Liner);
        let at = |point| liner.load(LoadCase::Screenout, point).unwrap();
        let (above, below) = (at(LoadPoint::WidestSeat), at(LoadPoint::BelowSeat));
        assert_eq!(below.outside, above.inside);
        assert!(below.inside < below.outside && below.collapse.is_some() && below.burst.is_none());
        assert!(above.seat > Force::ZERO && below.seat == Force::ZERO);
        // the seat carries the difference over its own bore
        let seat =
            job.file.ladder.largest_ball.unwrap() - job.file.ladder.interference.unwrap_or(Diameter::ZERO);
        let seat = seat.min(job.file.sleeve.largest_seat);
        assert!((above.seat - (above.inside - below.inside) * seat.circle()).abs() < Force::n(1.0));
    }
}

#[test]
fn the_result_is_plain_json() {
    let (job, layout) = laid_out("shallow-oil");
    let (plan, _) = rated(&job, &layout);
    let text = serde_json::to_string(&plan).unwrap();
    assert!(text.contains("\"case\":\"run-in\"") && text.contains("\"point\":\"widest-seat\""));
    assert!(schemars::schema_for!(StringsPlan).to_value().is_object());
}

/// Laid out once for all cases.
static SHALLOW: LazyLock<(Job, Layout)> = LazyLock::new(|| laid_out("shallow-oil"));

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn more_pressure_never_helps(psi in 3_000.0f64..8_000.0, more in 10.0f64..1_000.0) {
        let (mut job, layout) = SHALLOW.clone();
        let lowest = |job: &Job, c: Criterion| {
            let (plan, _) = rated(job, &layout);
            let row = |s: &StringPlan| s.load(LoadCase::Screenout, LoadPoint::CasingPacker).and_then(|r| c.of(r));
            row(of(&plan, StringRole::Treating)).map_or(f64::INFINITY, |f| f.si())
        };
        for criterion in [Criterion::Burst, Criterion::Tension, Criterion::Triaxial] {
            job.file.limits.treating_pressure = GaugePressure::psi(psi);
            let less = lowest(&job, criterion);
            job.file.limits.treating_pressure = GaugePressure::psi(psi + more);
            prop_assert!(lowest(&job, criterion) <= less * (1.0 + 1e-9));
        }
    }
}
