//! Every fault changes the channels where it should and nowhere else, and what it does to them is
//! what the trade's table of failure modes says of it (basis: practice, with the water hammer's and
//! the rock's own figures where there are any).
#![allow(clippy::unwrap_used, reason = "tests")]

use std::sync::OnceLock;

use plan::Program;
use pump::fault::{Channels, FAULTS, Fault, FaultKind};
use pump::record::{CHANNELS, EventKind, Sample};
use pump::{Run, Settings, pump};
use quantity::*;
use well::Job;

/// The stage the faults belong to.
const STAGE: usize = 4;

struct Fixture {
    job: Job,
    program: Program,
    normal: Run,
}

/// The shallow well's first stages, so that every fault has stages before and behind it.
fn fixture() -> &'static Fixture {
    static FIXTURE: OnceLock<Fixture> = OnceLock::new();
    FIXTURE.get_or_init(|| {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs/shallow-oil");
        let read = well::read_job(&well::Folder(folder));
        let job = read.value.unwrap();
        let mut program = plan::plan(&job, read.findings);
        program.stages.as_mut().unwrap().stages.truncate(7);
        program.balls.as_mut().unwrap().cards.retain(|c| c.stage <= 7);
        let normal = pump(&job, &program, &Settings::default()).unwrap();
        Fixture { job, program, normal }
    })
}

fn run(fault: Fault) -> Run {
    let f = fixture();
    pump(&f.job, &f.program, &Settings { faults: vec![fault], ..Settings::default() }).unwrap()
}

fn usual(kind: FaultKind) -> Run {
    run(Fault::usual(kind, STAGE))
}

/// Channels in which two samples differ.
fn differing(a: &Sample, b: &Sample) -> Vec<&'static str> {
    CHANNELS.iter().filter(|c| (c.value)(a) != (c.value)(b)).map(|c| c.name).collect()
}

fn pressure_at(run: &Run, time: f64) -> f64 {
    let at = run.samples.partition_point(|s| s.time.in_seconds() < time - 1e-6);
    run.samples[at.min(run.samples.len() - 1)].treating_pressure.in_psi()
}

fn found(run: &Run, id: &str) -> bool {
    run.findings.iter().any(|f| f.id == id)
}

fn landing(run: &Run, stage: usize) -> Option<&pump::LandingRun> {
    run.landings.iter().find(|l| l.stage == stage)
}

/// Time at which the normal run's sleeve of the stage opens.
fn opens() -> f64 {
    landing(&fixture().normal, STAGE).unwrap().opened.unwrap().in_seconds()
}

#[test]
fn every_fault_changes_what_it_should_from_its_beginning_on_and_nothing_else() {
    let normal = &fixture().normal;
    for doc in FAULTS {
        let faulty = usual(doc.kind);
        let label = faulty.labels.first().unwrap_or_else(|| panic!("{}: no label", doc.name));
        assert_eq!((label.kind, label.stage), (doc.kind, STAGE));
        let from = label.from.in_seconds();
        let mut changed = Vec::new();
        let mut theirs = faulty.samples.iter().peekable();
        for mine in &normal.samples {
            let Some(their) = theirs.next_if(|t| t.time == mine.time) else {
                changed.push("time");
                continue;
            };
            let differ = differing(mine, their);
            // Proppant round a ball is on the meter before the ball lands.
            let begins = if doc.kind == FaultKind::BallInSand { from - 3600.0 } else { from };
            assert!(
                differ.is_empty() || mine.time.in_seconds() >= begins - 1.0,
                "{} {differ:?} too soon",
                doc.name
            );
            changed.extend(differ);
        }
        changed.sort_unstable();
        changed.dedup();
        assert!(!changed.is_empty(), "{} changes nothing", doc.name);
        if let Channels::Only(names) = doc.channels {
            assert!(changed.iter().all(|c| names.contains(c)), "{}: {changed:?}", doc.name);
        }
        let (lost, pumped) = (faulty.lost(), faulty.pumped);
        assert!(lost.slurry.si().abs() < 1e-9 * pumped.slurry.si(), "{}: {:?}", doc.name, lost.slurry);
        assert!(lost.mass.si().abs() < 1e-9 * pumped.mass.si(), "{}: {:?}", doc.name, lost.mass);
        for s in &faulty.samples {
            let p = s.treating_pressure.si();
            assert!(p.is_finite() && p >= 0.0, "{}: {p} at {:?}", doc.name, s.time);
        }
    }
}

#[test]
fn a_ball_that_never_left_and_one_too_small_look_the_same_on_the_chart() {
    let (lost, small) = (usual(FaultKind::BallNotReleased), usual(FaultKind::BallTooSmall));
    for run in [&lost, &small] {
        assert!(landing(run, STAGE).is_none() && found(run, "pump-ball-missing") && !run.finished);
        assert!(run.stages[STAGE].placed.slurry.si() == 0.0, "its stage takes nothing");
    }
    for (a, b) in lost.samples.iter().zip(&small.samples) {
        let apart: Vec<_> = differing(a, b).into_iter().filter(|c| !c.starts_with("ball")).collect();
        assert!(apart.is_empty(), "{apart:?} at {:?}", a.time);
    }
}

#[test]
fn a_ball_too_large_lands_early_on_a_seat_nearer_the_heel() {
    let run = usual(FaultKind::BallTooLarge);
    let early = landing(&run, STAGE + 2).unwrap();
    let own = landing(&fixture().normal, STAGE).unwrap();
    assert!(early.pumped < own.pumped && early.opened.is_some());
    assert!(landing(&run, STAGE).is_none());
    let swapped = usual(FaultKind::BallsSwapped);
    assert!(landing(&swapped, STAGE + 1).is_some() && found(&swapped, "pump-ball-missing"));
}

#[test]
fn a_ball_that_shatters_gives_the_pressure_back_and_its_stage_stays_shut() {
    let run = usual(FaultKind::BallShatters);
    let landed = landing(&run, STAGE).unwrap();
    assert!(landed.opened.is_none() && run.stages[STAGE].placed.slurry.si() == 0.0);
    let at = landed.landed.in_seconds();
    let lost = usual(FaultKind::BallNotReleased);
    let before = pressure_at(&run, at - 1.0);
    assert!(landed.highest.in_psi() > before + 200.0, "a spike");
    // Minutes later it is where it would be had no ball been launched.
    for later in [180.0, 240.0] {
        let (a, b) = (pressure_at(&run, at + later), pressure_at(&lost, at + later));
        assert!((a - b).abs() < 15.0, "{a} psi and {b} psi after {later} s");
    }
}

#[test]
fn a_sleeve_that_is_stuck_holds_the_pressure_until_the_trip() {
    for kind in [FaultKind::SleeveStuck, FaultKind::BallInSand] {
        let run = usual(kind);
        let landed = landing(&run, STAGE).unwrap();
        assert!(landed.opened.is_none() && found(&run, "pump-trip") && found(&run, "pump-sleeve-shut"));
        // It is a closed string: the pressure stands once the waves have died.
        let last = run.samples.last().unwrap().time.in_seconds();
        let (a, b) = (pressure_at(&run, last - 60.0), pressure_at(&run, last));
        assert!((a - b).abs() < 30.0 && b > 1000.0, "{a} psi, {b} psi");
    }
    let sand = usual(FaultKind::BallInSand);
    let launched =
        sand.events.iter().find(|e| e.kind == EventKind::BallLaunched && e.stage == STAGE).unwrap();
    let at = sand.samples.partition_point(|s| s.time < launched.time);
    assert!(sand.samples[at - 2].concentration.si() > 0.0, "proppant is on the meter at the launch");
}

#[test]
fn two_ways_into_rock_need_less_pressure_than_one() {
    let normal = &fixture().normal;
    for (kind, after, share) in [
        (FaultKind::BallShattersLater, 960.0, 0.02),
        (FaultKind::BallExtrudes, 1260.0, 0.02),
        (FaultKind::TwoOpen, 180.0, 0.02),
        (FaultKind::PackerLeak, 180.0, 0.02),
    ] {
        let run = usual(kind);
        let time = opens() + after;
        let (mine, theirs) = (pressure_at(normal, time), pressure_at(&run, time));
        assert!(theirs < mine - 5.0, "{kind:?}: {theirs} psi, {mine} psi without");
        let label = &run.labels[0];
        assert!(label.until.is_some(), "{kind:?}: the next ball isolates both");
        let twice: Vec<usize> = (1..run.stages.len())
            .filter(|i| run.stages[*i].placed.slurry > normal.stages[*i].placed.slurry * (1.0 + share))
            .collect();
        assert_eq!(twice.len(), 1, "{kind:?}: one other stage takes more than its own: {twice:?}");
    }
}

#[test]
fn an_early_sleeve_drops_the_pressure_outside_any_landing() {
    let normal = &fixture().normal;
    // In the pad: proppant would bridge a fracture that has just begun.
    let run = run(Fault { after: Time::minutes(2.0), ..Fault::usual(FaultKind::SleeveEarly, STAGE) });
    let from = run.labels[0].from.in_seconds();
    assert!(from < opens() - 60.0);
    let (a, b) = (pressure_at(normal, from + 120.0), pressure_at(&run, from + 120.0));
    assert!(b < a - 5.0, "{b} psi, {a} psi without");
    let opened = run.events.iter().find(|e| e.kind == EventKind::SleeveOpened && e.stage == STAGE).unwrap();
    assert!((opened.time.in_seconds() - from).abs() < 1.0);
}

#[test]
fn a_worn_seat_lands_weaker_than_a_sound_one() {
    let (worn, sound) = (usual(FaultKind::SeatEroded), landing(&fixture().normal, STAGE).unwrap());
    let weak = landing(&worn, STAGE).unwrap();
    let rise =
        |l: &pump::LandingRun, run: &Run| l.highest.in_psi() - pressure_at(run, l.landed.in_seconds() - 1.0);
    assert!(rise(weak, &worn) < 0.9 * rise(sound, &fixture().normal));
    // A small leak still opens the sleeve, and goes on leaking.
    let small = run(Fault { size: Ratio::of(0.02), ..Fault::usual(FaultKind::SeatEroded, STAGE) });
    assert!(landing(&small, STAGE).unwrap().opened.is_some());
}

/// Rates of rise: a landing hundreds of psi a second, a sand-off tens, a tip screen-out psi a minute
/// (the handbook's table of discriminators).
#[test]
fn screen_outs_rise_as_fast_as_the_handbook_says() {
    let normal = &fixture().normal;
    let rise = |run: &Run, from: f64, over: f64| {
        let of = |r: &Run| pressure_at(r, from + over) - pressure_at(r, from);
        (of(run) - of(normal)) / over
    };
    let near = usual(FaultKind::ScreenoutSleeve);
    let at = near.labels[0].from.in_seconds();
    let fast = rise(&near, at + 2.0, 10.0);
    assert!((5.0..=100.0).contains(&fast), "{fast} psi/s");
    assert!(found(&near, "pump-no-rate") || found(&near, "pump-trip"));
    let tip = usual(FaultKind::ScreenoutTip);
    let at = tip.labels[0].from.in_seconds();
    let slow = rise(&tip, at + 60.0, 180.0) * 60.0;
    assert!((1.0..=120.0).contains(&slow), "{slow} psi/min");
}

#[test]
fn a_growing_restriction_goes_with_the_square_of_the_rate() {
    let run = usual(FaultKind::SeatRestriction);
    let from = run.labels[0].from.in_seconds();
    let more = |t: f64| pressure_at(&run, t) - pressure_at(&fixture().normal, t);
    assert!(more(from + 60.0) < more(from + 600.0), "{} {}", more(from + 60.0), more(from + 600.0));
    assert!(more(from + 600.0) > 1.0);
}

#[test]
fn the_annulus_rises_alone_until_the_crew_stops() {
    let slow = usual(FaultKind::AnnulusPressure);
    let normal = &fixture().normal;
    for (a, b) in normal.samples.iter().zip(&slow.samples) {
        let apart = differing(a, b);
        if !found(&slow, "pump-annulus") {
            assert!(apart.iter().all(|c| *c == "annulus_pressure"), "{apart:?}");
        }
    }
    let all = run(Fault {
        size: Ratio::of(1.0),
        over: Time::minutes(1.0),
        ..Fault::usual(FaultKind::AnnulusPressure, STAGE)
    });
    assert!(found(&all, "pump-annulus") && !all.finished);
}

#[test]
fn tripped_pumps_ring_and_the_job_goes_on() {
    let run = usual(FaultKind::PumpTrip);
    assert!(run.finished && run.events.iter().any(|e| e.kind == EventKind::PumpsStarted));
    let at = run.labels[0].from.in_seconds();
    let still = run.samples.iter().find(|s| s.time.in_seconds() > at + 10.0).unwrap();
    assert_eq!(still.slurry_rate.si(), 0.0);
    // A quarter wave of the string up and down: the pressure swings by more than a gauge's noise.
    let swing: Vec<f64> = (6..40).map(|t| pressure_at(&run, at + f64::from(t))).collect();
    let (low, high) = swing.iter().fold((f64::MAX, 0.0f64), |(l, h), p| (l.min(*p), h.max(*p)));
    assert!(high - low > 100.0, "{low} to {high} psi");
}

#[test]
fn noise_is_drawn_by_the_seed_and_off_without_it() {
    let f = fixture();
    let noisy = |seed| {
        let settings = Settings { noise: Some(pump::sensors::Noise::default()), seed, ..Settings::default() };
        pump(&f.job, &f.program, &settings).unwrap()
    };
    let (a, b) = (noisy(plan::program::SEED), noisy(plan::program::SEED));
    assert_eq!(a.samples, b.samples);
    assert_eq!(a.landings, f.normal.landings, "the well does not know of its instruments");
    let apart: Vec<f64> = a
        .samples
        .iter()
        .zip(&f.normal.samples)
        .map(|(x, y)| x.treating_pressure.in_psi() - y.treating_pressure.in_psi())
        .collect();
    let mean = apart.iter().sum::<f64>() / apart.len() as f64;
    let sigma = (apart.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / apart.len() as f64).sqrt();
    assert!(mean.abs() < 0.3 && (sigma - 5.0).abs() < 0.2, "{mean} {sigma}");
}

#[test]
fn a_fault_that_this_job_cannot_have_is_refused() {
    let f = fixture();
    let settings = Settings { faults: vec![Fault::usual(FaultKind::PumpTrip, 99)], ..Settings::default() };
    let said = pump(&f.job, &f.program, &settings).unwrap_err().to_string();
    assert!(said.contains("stage 99"), "{said}");
    // A ball that there is none of cannot leave in the place of another.
    for (kind, of) in
        [(FaultKind::BallsSwapped, 7), (FaultKind::BallTooLarge, 6), (FaultKind::BallShatters, 1)]
    {
        let settings = Settings { faults: vec![Fault::usual(kind, of)], ..Settings::default() };
        let said = pump(&f.job, &f.program, &settings).unwrap_err().to_string();
        assert!(said.contains("has no ball"), "{said}");
    }
}
