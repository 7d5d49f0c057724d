//! What the ladder's checks find, and that nothing a job file may say makes the ladder fail.

#![allow(clippy::unwrap_used)] // helpers of tests

mod ladder_common;

use ladder_common::*;
use proptest::prelude::*;
use quantity::*;
use well::job::{BallStructure, LadderMethod, Rung};
use well::{Job, Severity};

fn scaled(job: &mut Job, share: f64) {
    for row in &mut job.file.ball.strength {
        (row.bearing, row.shear) = (row.bearing * share, row.shear * share);
    }
    job.file.ball.rating.clear();
}

#[test]
fn a_weak_ball_stops_and_the_worst_static_case_warns() {
    let (mut job, layout) = example("long-lateral");
    let (plan, ledger) = ladder(&job, &layout);
    assert!(plan.unwrap().rungs.iter().all(|r| r.utilisation.si() < 1.0));
    let warned = said(&ledger, "ladder-worst-static");
    assert_eq!((warned.len(), warned[0].severity), (1, Severity::Warn));
    scaled(&mut job, 0.5);
    let (plan, ledger) = ladder(&job, &layout);
    let plan = plan.unwrap();
    let stopped: Vec<_> = said(&ledger, "ladder-rating").iter().filter_map(|f| f.place.stage).collect();
    let weak: Vec<_> = plan.rungs.iter().filter(|r| r.utilisation.si() > 1.0).map(|r| r.stage).collect();
    assert!(!weak.is_empty() && weak.len() < 30, "{weak:?}");
    assert_eq!(stopped, weak);
    assert!(plan.stages_that_fit < 30);
}

#[test]
fn a_laminate_is_rated_in_its_weak_plane() {
    let (mut job, layout) = example("long-lateral");
    let ladder_given = plan(&job, &layout);
    job.file.ladder.method = LadderMethod::Given;
    job.file.ladder.rung = ladder_given.rungs.iter().map(|r| Rung { ball: r.ball, seat: r.seat }).collect();
    job.file.ball.weak_plane = Ratio::of(0.6);
    let uniform = plan(&job, &layout);
    job.file.ball.structure = BallStructure::Laminate;
    let laminate = plan(&job, &layout);
    for (a, b) in uniform.rungs.iter().zip(&laminate.rungs) {
        assert!(close(b.rating / a.rating, 0.6));
    }
}

#[test]
fn strength_is_never_read_beyond_its_hottest_row() {
    let (mut job, layout) = example("long-lateral");
    job.file.ball.strength.pop();
    let (plan, ledger) = ladder(&job, &layout);
    assert!(plan.is_none());
    assert!(!said(&ledger, "ladder-no-rating").is_empty());
    // a test at least as hot and as hard goes before the table
    job.file.ball.rating = vec![well::job::BallRating {
        ball: Diameter::inch(3.625),
        seat: Diameter::inch(3.60),
        temperature: Temperature::deg_f(240.0),
        pressure: Pressure::psi(6000.0),
    }];
    let (plan, _) = ladder(&job, &layout);
    assert!(plan.unwrap().rungs.iter().all(|r| close(r.rating.in_psi(), 6000.0)));
}

#[test]
fn colder_rock_takes_the_coldest_row_with_a_note() {
    let (mut job, layout) = example("shallow-oil");
    job.file.ball.rating.clear();
    job.file.ball.strength.remove(0);
    job.file.ball.dissolving = None;
    let (plan, ledger) = ladder(&job, &layout);
    assert!(plan.unwrap().rungs.iter().all(|r| close(r.temperature.in_deg_c(), 60.0)));
    let cold = said(&ledger, "ladder-strength-cold");
    assert_eq!((cold.len(), cold[0].severity), (1, Severity::Note));
}

#[test]
fn balls_callipers_cannot_tell_apart_are_named() {
    let (mut job, layout) = example("long-lateral");
    assert!(said(&ladder(&job, &layout).1, "ladder-alike").is_empty());
    let sizes = plan(&job, &layout);
    job.file.ladder.method = LadderMethod::Given;
    job.file.ladder.rung = sizes.rungs.iter().map(|r| Rung { ball: r.ball, seat: r.seat }).collect();
    job.file.ladder.ball_tolerance = Diameter::inch(0.03);
    job.file.ladder.seat_tolerance = Diameter::ZERO;
    let (_, ledger) = ladder(&job, &layout);
    // such tolerances leave no overlap at the toe either
    assert!(stops(&ledger).contains(&"ladder-interference"));
    let (mut job, layout) = example("shallow-oil");
    job.file.toe.setting_ball = Some(Diameter::inch(1.499));
    let (_, ledger) = ladder(&job, &layout);
    assert_eq!(said(&ledger, "ladder-alike").len(), 1);
    assert!(stops(&ledger).contains(&"ladder-setting-ball"));
}

#[test]
fn a_ball_that_dissolves_in_its_stage_warns_then_stops() {
    let (mut job, layout) = example("shallow-oil");
    let severity = |job: &Job| {
        let (plan, ledger) = ladder(job, &layout);
        let found = said(&ledger, "ladder-dissolves").iter().map(|f| f.severity).min();
        (plan.is_some(), found, stops(&ledger).contains(&"ladder-interference"))
    };
    let faster = |job: &mut Job, times: f64| {
        let d = job.file.ball.dissolving.as_mut().unwrap();
        d.recession = d.recession * times;
    };
    assert_eq!(severity(&job), (true, None, false));
    faster(&mut job, 12.0);
    assert_eq!(severity(&job), (true, Some(Severity::Warn), false));
    // so fast that nothing is left on the seat when its stage ends
    faster(&mut job, 3.0);
    assert_eq!(severity(&job), (false, None, true));
}

#[test]
fn bores_and_seats_that_do_not_fit_are_named() {
    let (mut job, layout) = example("shallow-oil");
    job.file.casing_packer.id = Diameter::inch(3.15);
    let (_, ledger) = ladder(&job, &layout);
    let found = said(&ledger, "ladder-bore");
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].place.field.as_deref(), Some("casing_packer.id"));
    let (mut job, layout) = example("shallow-oil");
    job.file.sleeve.largest_seat = Diameter::inch(3.0);
    job.file.sleeve.smallest_seat = Diameter::inch(1.5);
    let (_, ledger) = ladder(&job, &layout);
    assert_eq!(said(&ledger, "ladder-seat-size").len(), 2);
}

#[test]
fn tolerances_that_eat_the_clearance_are_weighed() {
    let (mut job, layout) = example("shallow-oil");
    let severity =
        |job: &Job| said(&ladder(job, &layout).1, "ladder-clearance").iter().map(|f| f.severity).min();
    assert_eq!(severity(&job), Some(Severity::Note));
    job.file.ladder.seat_tolerance = Diameter::inch(0.035);
    job.file.ladder.erosion = None;
    job.file.ball.dissolving = None;
    assert_eq!(severity(&job), Some(Severity::Warn));
    job.file.ladder.clearance = Diameter::inch(0.07);
    assert_eq!(severity(&job), Some(Severity::Stop));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]
    /// Whatever the figures of a ladder, it comes out in order or a finding stops it.
    #[test]
    fn any_ladder_is_in_order_or_stopped(
        method in prop::sample::select(vec![
            LadderMethod::Given, LadderMethod::Step, LadderMethod::Fractions,
            LadderMethod::EqualStress, LadderMethod::Search,
        ]),
        smallest in 0.5..2.5f64,
        span in -0.2..2.5f64,
        step in 0.0..0.3f64,
        overlap in -0.02..0.2f64,
        clearance in 0.0..0.08f64,
        tolerance in 0.0..0.02f64,
        increment in prop::sample::select(vec![0.0, 1e-9, 0.005, 1.0 / 64.0, 0.125, 5.0]),
        strength in 0.05..2.0f64,
        angle in 1.0..90.0f64,
    ) {
        let (mut job, mut layout) = example("shallow-oil");
        layout.stages.truncate(6);
        scaled(&mut job, strength);
        job.file.sleeve.seat_angle = Angle::deg(angle);
        let inch = Diameter::inch;
        let l = &mut job.file.ladder;
        l.method = method;
        (l.smallest_ball, l.largest_ball) = (Some(inch(smallest)), Some(inch(smallest + span)));
        (l.step, l.interference) = (Some(inch(step)), Some(inch(overlap)));
        (l.clearance, l.increment) = (inch(clearance), inch(increment));
        (l.ball_tolerance, l.seat_tolerance) = (inch(tolerance), inch(tolerance));
        let sizes = (0..8).map(|i| smallest + span / 7.0 * f64::from(i));
        l.fractions = sizes.clone().map(inch).collect();
        l.rung = sizes.map(|b| Rung { ball: inch(b), seat: inch(b - overlap) }).collect();
        let (plan, ledger) = ladder(&job, &layout);
        prop_assert!(said(&ledger, "relation-refused").is_empty(), "{:#?}", ledger.findings);
        let Some(plan) = plan else {
            prop_assert!(!stops(&ledger).is_empty());
            return Ok(());
        };
        prop_assert_eq!(plan.rungs.len(), 5);
        if stops(&ledger).is_empty() {
            check_order(&job, &plan);
            prop_assert!(plan.rungs.iter().all(|r| r.utilisation.si() <= 1.0 + 1e-9));
            prop_assert!(plan.stages_that_fit >= 6, "{} {}", plan.stages_that_fit, plan.bound_by);
        }
        if matches!(method, LadderMethod::Search) {
            prop_assert!(stops(&ledger).iter().all(|id| *id == "ladder-dissolves" || *id == "ladder-setting-ball"));
        }
    }
}
