//! The ladders of the two example jobs: counts, order, pressures, ratings and workings.

#![allow(clippy::unwrap_used)] // helpers of tests

mod ladder_common;

use ladder_common::*;
use plan::ladder::{BorePart, RatingBasis, Rest};
use quantity::*;

#[test]
fn balls_are_counted_by_the_kind_of_system() {
    let (job, layout) = example("long-lateral");
    let fluid = plan(&job, &layout);
    assert_eq!((layout.stages.len(), fluid.balls, fluid.frac_balls), (30, 30, 30));
    assert!(fluid.setting_ball.is_none() && fluid.rung(1).is_some() && fluid.rung(31).is_none());
    let (job, layout) = example("shallow-oil");
    let hydraulic = plan(&job, &layout);
    assert_eq!((layout.stages.len(), hydraulic.balls, hydraulic.frac_balls), (15, 15, 14));
    assert!(hydraulic.setting_ball.is_some() && hydraulic.rung(1).is_none() && hydraulic.rung(2).is_some());
    // the list: setting ball first, then the smallest frac ball
    let stages: Vec<_> = hydraulic.ledger.iter().map(|b| b.stage).collect();
    assert_eq!(stages[..3], [None, Some(2), Some(3)]);
    assert_eq!(hydraulic.ledger.len(), hydraulic.balls);
    assert!(hydraulic.ledger.iter().enumerate().all(|(i, b)| b.order == i + 1 && b.smallest < b.largest));
}

#[test]
fn the_ladders_of_the_examples_stop_nothing_and_keep_their_order() {
    for name in ["long-lateral", "shallow-oil"] {
        let (job, layout) = example(name);
        let (plan, ledger) = ladder(&job, &layout);
        let plan = plan.unwrap();
        assert!(stops(&ledger).is_empty(), "{name}: {:#?}", ledger.findings);
        check_order(&job, &plan);
        assert!(plan.stages_that_fit >= layout.stages.len());
        assert!(plan.bores.iter().all(|b| b.passes), "{:#?}", plan.bores);
    }
}

#[test]
fn a_stage_never_meets_its_own_seat() {
    let (job, layout) = example("long-lateral");
    let plan = plan(&job, &layout);
    let mut last = RateSquaredLoss::ZERO;
    for stage in (1..=30).rev() {
        let above = plan.seats_above(stage);
        assert_eq!(above.len(), 30 - stage);
        assert!(above.iter().all(|(s, seat)| *s > stage && plan.seat(*s) == Some(*seat)));
        let loss = plan.loss_to(stage);
        assert!(close(loss.si(), plan.rung(stage).unwrap().loss_above.si()));
        assert!(loss > last || stage == 30);
        last = loss;
    }
    assert!(close(plan.toe_loss.si(), plan.loss_to(1).si()));
    // with no seat at all there is nothing to lose
    assert_eq!(plan.loss_to(30), RateSquaredLoss::ZERO);
    // stage 1 is opened by pressure in the other system: all its seats are above it
    let (job, layout) = example("shallow-oil");
    let plan = ladder_common::plan(&job, &layout);
    assert_eq!(plan.seats_above(1).len(), 14);
    assert!(close(plan.toe_loss.si(), plan.loss_to(1).si()));
}

#[test]
fn the_differentials_are_those_of_the_job_file() {
    let (job, layout) = example("long-lateral");
    let plan = plan(&job, &layout);
    let tvd = |stage: usize| layout.stage(stage).unwrap().sleeve.tvd.in_ft();
    // stage 12: 0.78 psi/ft, 250 psi at its full rate, six ports of 1.25 in at 0.85
    let ppg = (8.4 + 2.5) / (1.0 + 2.5 / (2.58 * 8.345_404));
    let ports = 0.237_636 * ppg * 35.0f64.powi(2) / (36.0 * 1.25f64.powi(4) * 0.85 * 0.85);
    let rung = plan.rung(12).unwrap();
    let expected = 0.78 * tvd(12) + 250.0 + ports - 0.55 * tvd(11);
    assert!((rung.expected_differential.in_psi() - expected).abs() < 0.5, "{expected}");
    // worst: 8,500 psi over 2.5 ppa of the lighter grain
    let worst = 8500.0 + 0.051_948 * ppg * tvd(12) - 0.55 * tvd(11);
    assert!((rung.worst_differential.in_psi() - worst).abs() < 0.5, "{worst}");
    // stage 3 at 28 bbl/min: the near-wellbore part goes with the root of the rate
    let rung = plan.rung(3).unwrap();
    let slow = (28.0f64 / 35.0).powi(2) * ports;
    let expected = 0.78 * tvd(3) + 250.0 * (28.0f64 / 35.0).sqrt() + slow - 0.55 * tvd(2);
    assert!((rung.expected_differential.in_psi() - expected).abs() < 0.5, "{expected}");
    // stage 30 has its own gradient
    let rung = plan.rung(30).unwrap();
    assert!((rung.treating_pressure.in_psi() - (0.80 * tvd(30) + 250.0 + ports)).abs() < 0.5);
    // below stage 1 there is no stage: the lighter of pore pressure and fluid column
    let rung = plan.rung(1).unwrap();
    assert!((rung.pressure_below.in_psi() - 8.4 * 0.051_948 * tvd(1)).abs() < 0.5);
}

#[test]
fn a_rung_is_that_of_the_closed_forms() {
    let (job, layout) = example("long-lateral");
    let plan = plan(&job, &layout);
    let cone = 10f64.to_radians();
    for rung in &plan.rungs {
        let (db, ds) = (rung.ball.in_inch(), rung.seat.in_inch());
        let circle = if db * cone.cos() > ds { db * cone.cos() } else { ds };
        assert_eq!(rung.rest, if db * cone.cos() > ds { Rest::Cone } else { Rest::BoreEdge });
        assert!(close(rung.contact_circle.in_inch(), circle));
        let force = rung.expected_differential.in_psi() * std::f64::consts::FRAC_PI_4 * circle * circle;
        assert!((rung.force_at_expected.in_lbf() / force - 1.0).abs() < 1e-9);
        // rating: strength at temperature times 2.9 on the ring of the smallest ball on the largest seat
        let t = rung.temperature.in_deg_f();
        let strength = 64.0 + (t - 200.0) / 50.0 * (62.0 - 64.0);
        let (db, ds) = (db - 0.002, ds + 0.002);
        let circle = if db * cone.cos() > ds { db * cone.cos() } else { ds };
        let rating = strength * 2.9 * (db * db - ds * ds) / (circle * circle);
        assert!((rung.rating.in_ksi() - rating).abs() < 1e-6, "{} {rating}", rung.rating.in_ksi());
        assert!(matches!(rung.rating_basis, RatingBasis::Bearing { .. }));
        // cooler is stronger
        assert!(rung.rating_when_cooled.unwrap() > rung.rating);
    }
}

#[test]
fn an_equal_stress_ladder_leaves_one_share_and_uses_its_span() {
    let (job, layout) = example("long-lateral");
    let plan = plan(&job, &layout);
    let share = |r: &plan::ladder::RungPlan| r.interference / r.ball;
    let shares: Vec<f64> = plan.rungs.iter().map(share).collect();
    let least = shares.iter().copied().fold(f64::INFINITY, f64::min);
    // seats are drawn to 0.001 in: up to that the share is the same
    assert!(plan.rungs.iter().all(|r| (share(r) - least) * r.ball.in_inch() < 0.001 + 1e-9), "{shares:?}");
    assert!(plan.rungs.first().unwrap().ball >= Diameter::inch(1.25));
    assert!(close(plan.rungs.last().unwrap().ball.in_inch(), 3.625));
    // clearance is kept at the worst of the tolerances
    assert!(plan.rungs.iter().filter_map(|r| r.clearance).all(|c| c.in_inch() > 0.020 - 1e-9));
}

#[test]
fn tested_ratings_go_before_computed_ones_and_wear_lessens_them() {
    let (job, layout) = example("shallow-oil");
    let plan = plan(&job, &layout);
    let tested = |stage| match plan.rung(stage).unwrap().rating_basis {
        RatingBasis::Tested { ball, pressure, .. } => (ball.in_inch(), pressure.in_mpa()),
        other => panic!("stage {stage}: {other:?}"),
    };
    // a ball between two tests takes the larger ball's
    assert!(close(tested(2).0, 1.5) && close(tested(3).0, 2.25) && close(tested(9).0, 3.125));
    for rung in &plan.rungs {
        assert!(rung.rating.in_mpa() <= tested(rung.stage).1 + 1e-9);
    }
    // the heel ball is the very ball of the test, a little worn and dissolved
    let heel = plan.rung(15).unwrap();
    assert!(heel.seat_growth > Diameter::ZERO && heel.ball_loss > Diameter::ZERO);
    let ring = |db: f64, ds: f64| (db * db - ds * ds) / (db * 10f64.to_radians().cos()).powi(2);
    let (db, ds) = ((heel.ball - heel.ball_loss).in_inch(), (heel.seat + heel.seat_growth).in_inch());
    let left = ring(db, ds) / ring(3.125, 3.0625);
    assert!((heel.rating.in_mpa() / (42.0 * left) - 1.0).abs() < 1e-9);
    // more sand has gone through the seats nearer the heel, at a larger bore
    let first = plan.rung(2).unwrap();
    let stage_1 = 0.006 * 2.0 * (plan_mass_t(&job) / 10.0) * (50.0 / first.seat.in_mm()).powf(5.2);
    assert!(
        (first.seat_growth.in_mm() / stage_1 - 1.0).abs() < 0.01,
        "{} {stage_1}",
        first.seat_growth.in_mm()
    );
}

/// Proppant of a full stage of the shallow job, t, by hand.
fn plan_mass_t(job: &well::Job) -> f64 {
    let steps = job.file.treatment.step.iter();
    steps.map(|s| s.clean_volume.in_m3() * 0.5 * (s.from.si() + s.to.si()) / 1000.0).sum()
}

#[test]
fn a_dissolving_ball_outlives_its_stage() {
    let (job, layout) = example("shallow-oil");
    let plan = plan(&job, &layout);
    for rung in &plan.rungs {
        let life = rung.life.unwrap();
        assert!(life.lost_at_landing > Diameter::ZERO && life.lost_at_landing < life.lost_at_end);
        assert!(life.transit > Time::ZERO && life.stage_time > life.transit);
        let overlap = rung.interference - rung.seat_growth - Diameter::inch(0.002);
        assert!(close((life.recession * life.passes_after * 2.0).si(), overlap.si()));
        assert!(life.passes_after > (life.transit + life.stage_time) * 2.0);
    }
    // cooler rock, slower: 40 kJ/mol between 95 degC and the rock
    let rung = plan.rung(8).unwrap();
    let t = layout.stage(8).unwrap().sleeve.temperature.si();
    let k = 0.17 * (-40_000.0 / 8.314_462_618 * (1.0 / t - 1.0 / 368.15)).exp();
    assert!((rung.life.unwrap().recession.in_mm_per_h() / k - 1.0).abs() < 1e-9);
}

#[test]
fn every_bore_down_to_the_toe_is_in_the_table() {
    let (job, layout) = example("shallow-oil");
    let plan = plan(&job, &layout);
    let parts: Vec<BorePart> = plan.bores.iter().map(|b| b.part).collect();
    let top = [BorePart::Launcher, BorePart::Treating, BorePart::CasingPacker, BorePart::Liner];
    assert_eq!(parts[..4], top);
    assert_eq!(parts[4..6], [BorePart::Packer, BorePart::Sleeve]);
    assert_eq!(parts.iter().filter(|p| **p == BorePart::Seat).count(), 14);
    let depths: Vec<_> = plan.bores.iter().filter_map(|b| b.depth).collect();
    assert!(depths.iter().zip(depths.iter().skip(3)).all(|(a, b)| a <= b), "{depths:?}");
    // the smallest seat is passed by the setting ball only
    let last = plan.bores.last().unwrap();
    assert!(close(last.ball.unwrap().in_inch(), 1.25));
    assert!(close(last.clearance.unwrap().in_inch(), 1.4375 - 0.001 - 1.251));
    // a drift, not the bore of the pipe
    let liner = plan.bores.iter().find(|b| b.part == BorePart::Liner).unwrap();
    assert!(close(liner.bore.in_inch(), 3.875));
}

/// Figures of a rung that a table shows.
const FIGURES: [&str; 20] = [
    "ball",
    "seat",
    "interference",
    "least_interference",
    "clearance",
    "temperature",
    "treating_pressure",
    "pressure_below",
    "worst_pressure",
    "expected_differential",
    "worst_differential",
    "rating",
    "rating_when_cooled",
    "utilisation",
    "worst_utilisation",
    "contact_circle",
    "force_at_expected",
    "bearing_at_expected",
    "shear_at_expected",
    "loss_above",
];

#[test]
fn every_figure_opens_to_its_workings() {
    let more = ["seat_growth", "ball_loss", "passes_after"];
    for (name, more) in [("long-lateral", &more[..0]), ("shallow-oil", &more[..])] {
        let (job, layout) = example(name);
        let (plan, ledger) = ladder(&job, &layout);
        let plan = plan.unwrap();
        for rung in &plan.rungs {
            let value =
                |figure: &str| ledger.workings.get(&format!("ladder.{}.{figure}", rung.stage)).unwrap();
            let same = |figure: &str, si: f64| assert!(close(value(figure).value.si(), si), "{figure}");
            same("ball", rung.ball.si());
            same("interference", rung.interference.si());
            same("rating", rung.rating.si());
            same("utilisation", rung.utilisation.si());
            let output = |figure: &str, step: usize, name: &str| {
                let step = value(figure).steps.get(step).unwrap();
                step.outputs.iter().find(|o| o.name == name).unwrap().values[0].si()
            };
            let steps = value("least_interference").steps.len();
            assert!(close(output("least_interference", steps - 1, "least"), rung.least_interference.si()));
            assert!(close(output("force_at_expected", 0, "force"), rung.force_at_expected.si()));
            assert!(close(output("bearing_at_expected", 0, "bearing"), rung.bearing_at_expected.si()));
            assert!(close(output("shear_at_expected", 0, "shear"), rung.shear_at_expected.si()));
            assert!(close(output("loss_above", 0, "per_rate_squared"), rung.loss_above.si()));
            assert!(close(output("seat_loss", 0, "per_rate_squared"), rung.seat_loss.si()));
            let computed = matches!(rung.rating_basis, RatingBasis::Bearing { .. });
            let last = value("rating").steps.len() - 1;
            let rated = output("rating", last, "pressure");
            assert!(if computed {
                close(rated, rung.rating.si())
            } else {
                rated >= rung.rating.si() * (1.0 - 1e-9)
            });
            let column = value("worst_differential").steps.len() - 1;
            let bottom = output("worst_differential", column, "pressure") - quantity::constant::ATMOSPHERE;
            assert!((bottom / rung.worst_pressure.si() - 1.0).abs() < 1e-9);
        }
        let toe = &ledger.workings["ladder.toe_loss"];
        assert!(close(toe.value.si(), plan.toe_loss.si()));
        assert!(close(toe.steps[0].outputs[1].values[0].si(), plan.toe_loss.si()));
        for figure in FIGURES.iter().chain(more) {
            for rung in &plan.rungs {
                let missing = rung.clearance.is_none() && *figure == "clearance";
                let id = format!("ladder.{}.{figure}", rung.stage);
                assert!(missing || ledger.workings.contains_key(&id), "{name}: {id}");
            }
        }
        for id in ["ladder.balls", "ladder.stages_that_fit", "ladder.bore.1", "ladder.bore.6"] {
            assert!(ledger.workings.contains_key(id), "{name}: {id}");
        }
    }
}

#[test]
fn the_plan_is_plain_data() {
    let (job, layout) = example("shallow-oil");
    let plan = plan(&job, &layout);
    let text = serde_json::to_string(&plan).unwrap();
    assert!(!text.contains("null,\"unit\"") && !text.contains("NaN"));
    assert_eq!(text, serde_json::to_string(&ladder_common::plan(&job, &layout)).unwrap());
    let schema = serde_json::to_value(schemars::schema_for!(plan::ladder::LadderPlan)).unwrap();
    assert!(schema["properties"]["toe_loss"].is_object());
}
