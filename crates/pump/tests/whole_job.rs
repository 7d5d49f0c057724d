//! The two example jobs pumped from end to end: what must hold of any run, whatever its figures.
#![allow(clippy::unwrap_used, reason = "tests")]

use std::sync::OnceLock;

use plan::Program;
use pump::record::EventKind;
use pump::{Run, Settings, pump};
use quantity::*;
use well::Job;

struct Pumped {
    job: Job,
    program: Program,
    run: Run,
}

fn planned(name: &str) -> (Job, Program) {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs").join(name);
    let read = well::read_job(&well::Folder(folder));
    let job = read.value.unwrap();
    let program = plan::plan(&job, read.findings);
    (job, program)
}

fn both() -> &'static [Pumped; 2] {
    static RUNS: OnceLock<[Pumped; 2]> = OnceLock::new();
    RUNS.get_or_init(|| {
        ["long-lateral", "shallow-oil"].map(|name| {
            let (job, program) = planned(name);
            let run = pump(&job, &program, &Settings::default()).unwrap();
            Pumped { job, program, run }
        })
    })
}

#[test]
fn nothing_is_lost() {
    for Pumped { run, .. } in both() {
        let (lost, pumped) = (run.lost(), run.pumped);
        assert!(lost.slurry.si().abs() < 1e-9 * pumped.slurry.si(), "{:?}", lost.slurry);
        assert!(lost.clean.si().abs() < 1e-9 * pumped.clean.si());
        assert!(lost.mass.si().abs() < 1e-9 * pumped.mass.si(), "{:?}", lost.mass);
    }
}

#[test]
fn the_schedule_is_pumped_in_full() {
    for Pumped { run, program, .. } in both() {
        assert!(run.finished);
        let totals = &program.stages.as_ref().unwrap().totals;
        assert!((run.pumped.mass / totals.mass - 1.0).abs() < 1e-9);
        for (stage, plan) in run.stages.iter().skip(1).zip(&program.stages.as_ref().unwrap().stages) {
            assert!((stage.pumped.mass / plan.mass - 1.0).abs() < 1e-9, "stage {}", plan.stage);
            // All proppant of a stage goes through its own sleeve.
            assert!((stage.placed.mass / plan.mass - 1.0).abs() < 1e-6, "stage {}", plan.stage);
        }
    }
}

#[test]
fn the_slurry_law_and_the_proppant_integral_hold_on_the_channels() {
    for Pumped { run, job, .. } in both() {
        let (mut mass, mut clean) = (0.0, 0.0);
        for s in &run.samples {
            mass += s.concentration.si() * s.clean_rate.si() * run.sample.si();
            clean += s.clean_rate.si() * run.sample.si();
            // Two proppants may share a second: the yield lies between theirs.
            let yields = job.file.proppant.iter().map(|p| 1.0 + s.concentration.si() / p.grain_density.si());
            let (low, high) = yields.fold((f64::INFINITY, 1.0f64), |(a, b), y| (a.min(y), b.max(y)));
            let (slurry, clean) = (s.slurry_rate.si(), s.clean_rate.si());
            let holds = slurry >= clean * low * (1.0 - 1e-4) && slurry <= clean * high * (1.0 + 1e-4);
            assert!(holds, "{:?} {slurry} {clean} {:?}", s.time, s.concentration);
        }
        assert!((mass / run.pumped.mass.si() - 1.0).abs() < 1e-4);
        assert!((clean / run.pumped.clean.si() - 1.0).abs() < 1e-4);
    }
}

#[test]
fn every_ball_lands_on_its_own_seat_inside_its_window() {
    for Pumped { run, program, .. } in both() {
        let cards = &program.balls.as_ref().unwrap().cards;
        assert_eq!(run.landings.len(), cards.len());
        for (landing, card) in run.landings.iter().zip(cards) {
            assert_eq!(landing.stage, card.stage);
            assert!(landing.opened.is_some(), "stage {}", card.stage);
            let inside = card.window_opens <= landing.pumped && landing.pumped <= card.window_closes;
            assert!(inside, "ball {} after {:?}", card.stage, landing.pumped);
            // The card's middle and the run are one model; the run's rate ramps and its slurry behind the ball
            // are what parts them.
            let middle = card.landing.p50;
            assert!(
                (landing.pumped / middle - 1.0).abs() < 0.02,
                "ball {} {:?} {middle:?}",
                card.stage,
                landing.pumped
            );
        }
    }
}

#[test]
fn pressures_stay_real_and_within_the_limits_of_a_sound_plan() {
    for Pumped { run, job, .. } in both() {
        for s in &run.samples {
            assert!(s.treating_pressure.si().is_finite() && s.treating_pressure.si() >= 0.0);
            assert!(s.treating_pressure < job.file.limits.trip, "{:?} at {:?}", s.treating_pressure, s.time);
            assert!(s.bottomhole_pressure.si().is_finite() && s.bottomhole_temperature.si() > 250.0);
        }
    }
}

#[test]
fn events_come_in_their_order() {
    for Pumped { run, program, .. } in both() {
        for card in &program.balls.as_ref().unwrap().cards {
            let at = |kind: EventKind| {
                run.events
                    .iter()
                    .find(|e| e.kind == kind && e.stage == card.stage)
                    .map(|e| e.time.si())
                    .unwrap()
            };
            let (left, landed) = (at(EventKind::BallLaunched), at(EventKind::BallLanded));
            let (opened, seen) = (at(EventKind::SleeveOpened), at(EventKind::LandingSeen));
            assert!(left < landed && landed <= opened && opened < seen, "ball {}", card.stage);
            assert!(seen < at(EventKind::ProppantAtSleeve));
        }
        assert!(run.events.windows(2).all(|w| w[0].time.si() <= w[1].time.si() + 1.0 + 1e-9));
    }
}

#[test]
fn the_same_seed_gives_the_same_run_and_another_shears_elsewhere() {
    let (job, program) = planned("shallow-oil");
    let run = |seed| pump(&job, &program, &Settings { seed, ..Settings::default() }).unwrap();
    let (one, again, other) = (run(7), run(7), run(8));
    assert!(one.samples == again.samples && one.events == again.events);
    assert!(one.samples != other.samples);
}

#[test]
fn half_the_time_step_is_the_same_job() {
    let (job, program) = planned("shallow-oil");
    let run =
        |s: f64| pump(&job, &program, &Settings { sample: Time::seconds(s), ..Settings::default() }).unwrap();
    let (whole, half) = (run(1.0), run(0.5));
    for (a, b) in whole.landings.iter().zip(&half.landings) {
        assert!((a.landed - b.landed).si().abs() < 0.1, "ball {}: {:?} {:?}", a.stage, a.landed, b.landed);
    }
    // Away from events: once both runs are at the same fluid, rate and stage.
    let quiet = |t: f64| {
        whole.events.iter().chain(&half.events).all(|e| t < e.time.si() - 2.0 || t > e.time.si() + 320.0)
    };
    let mut compared = 0;
    for (a, b) in whole.samples.iter().zip(half.samples.iter().skip(1).step_by(2)) {
        if quiet(a.time.si()) && a.slurry_rate.si() > 0.0 {
            let off = (a.treating_pressure - b.treating_pressure).si().abs() / a.treating_pressure.si();
            assert!(off < 2e-3, "{:?}: {:?} {:?}", a.time, a.treating_pressure, b.treating_pressure);
            compared += 1;
        }
    }
    assert!(compared > 1000, "{compared}");
}

/// The waves keep the clock of the job, also where a sample is shorter than their own step.
#[test]
fn sleeves_open_at_the_same_moment_however_often_is_sampled() {
    let (job, mut program) = planned("shallow-oil");
    // The first landings tell it.
    let stages = program.stages.as_mut().unwrap();
    stages.stages.truncate(3);
    program.balls.as_mut().unwrap().cards.truncate(2);
    let opens = |s: f64| {
        let run =
            pump(&job, &program, &Settings { sample: Time::seconds(s), ..Settings::default() }).unwrap();
        run.landings.iter().map(|l| (l.opened.unwrap() - l.landed).in_seconds()).collect::<Vec<_>>()
    };
    let coarse = opens(1.0);
    assert_eq!(coarse.len(), 2);
    for sample in [0.25, 0.02, 0.01] {
        for (a, b) in coarse.iter().zip(opens(sample)) {
            assert!((a - b).abs() < 0.05, "sampled each {sample} s: {a} s and {b} s");
        }
    }
}

#[test]
fn a_plan_without_a_ball_program_cannot_be_pumped() {
    let (job, mut program) = planned("shallow-oil");
    program.balls = None;
    let refused = pump(&job, &program, &Settings::default());
    assert!(refused.is_err_and(|e| e.to_string().contains("ball program")));
    let fine = Settings { sample: Time::seconds(1e-6), ..Settings::default() };
    assert!(pump(&job, &program, &fine).is_err());
}
