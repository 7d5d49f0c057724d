//! Jobs that cannot be pumped as they stand end as a trip or a finding, never as a hang, a pressure
//! below zero or something lost; and random jobs with random faults hold what every run must.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

use plan::Program;
use proptest::prelude::*;
use pump::fault::{FAULTS, Fault, FaultKind};
use pump::{PumpError, Run, Settings, pump};
use quantity::*;
use well::Job;

/// An example with changes to its job file, planned, with its first stages only.
fn planned(name: &str, stages: usize, changes: &[(&str, &str)]) -> (Job, Program) {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs").join(name);
    let mut files = well::Memory::default();
    for entry in std::fs::read_dir(folder).unwrap().map(Result::unwrap) {
        let name = entry.file_name().to_string_lossy().into_owned();
        files.0.insert(name, std::fs::read(entry.path()).unwrap());
    }
    let mut text = String::from_utf8(files.0.remove("job.toml").unwrap()).unwrap();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replacen(from, to, 1);
    }
    files.0.insert("job.toml".into(), text.into_bytes());
    let read = well::read_job(&files);
    let job = read.value.unwrap_or_else(|| panic!("{changes:?}: {:?}", read.findings));
    let mut program = plan::plan(&job, read.findings);
    if let Some(s) = program.stages.as_mut() {
        s.stages.truncate(stages);
    }
    if let Some(b) = program.balls.as_mut() {
        b.cards.retain(|c| c.stage <= stages);
    }
    (job, program)
}

/// What must hold of any run.
fn sound(run: &Run, what: &str) {
    assert!(!run.samples.is_empty(), "{what}");
    for s in &run.samples {
        for p in [s.treating_pressure.si(), s.bottomhole_pressure.si(), s.slurry_rate.si(), s.density.si()] {
            assert!(p.is_finite(), "{what}: {s:?}");
        }
        assert!(s.treating_pressure.si() >= 0.0 && s.slurry_rate.si() >= 0.0, "{what}: {s:?}");
    }
    let (lost, pumped) = (run.lost(), run.pumped.slurry + run.at_start.slurry);
    assert!(lost.slurry.si().abs() < 1e-9 * pumped.si(), "{what}: {:?}", lost.slurry);
    assert!(lost.mass.si().abs() <= 1e-9 * run.pumped.mass.si().max(1.0), "{what}: {:?}", lost.mass);
}

fn says(run: &Run, id: &str) -> bool {
    run.findings.iter().any(|f| f.id == id)
}

#[test]
fn limits_that_leave_no_room_end_as_a_trip_or_a_finding() {
    for (changes, ids) in [
        // The crew cannot hold the rate below the limit.
        (
            vec![("treating_pressure = \"34.5 MPa\"", "treating_pressure = \"16 MPa\"")],
            vec!["pump-no-rate", "pump-not-opened", "pump-held"],
        ),
        // A landing trips the pumps.
        (
            vec![
                ("treating_pressure = \"34.5 MPa\"", "treating_pressure = \"25 MPa\""),
                ("trip = \"35 MPa\"", "trip = \"26 MPa\""),
            ],
            vec!["pump-trip", "pump-not-opened"],
        ),
    ] {
        let (job, program) = planned("shallow-oil", 4, &changes);
        match pump(&job, &program, &Settings::default()) {
            Ok(run) => {
                sound(&run, "limits");
                assert!(ids.iter().any(|id| says(&run, id)), "{changes:?}: {:?}", run.findings);
            }
            Err(e) => assert!(matches!(e, PumpError::NoPlan { .. }), "{e}"),
        }
    }
}

#[test]
fn a_trip_and_a_relief_valve_act_within_the_waves() {
    let (mut job, program) = planned("shallow-oil", 3, &[]);
    // Above the pressure of the first stage, below that of a landing.
    let calm = pump(&job, &program, &Settings::default()).unwrap();
    let highest = calm.landings[0].highest;
    let before = calm.samples.iter().find(|s| s.time + Time::seconds(2.0) > calm.landings[0].landed).unwrap();
    let between = before.treating_pressure + (highest - before.treating_pressure) * 0.5;
    job.file.limits.relief = between;
    job.file.limits.trip = GaugePressure::from_si(2.0 * highest.si());
    let relieved = pump(&job, &program, &Settings::default()).unwrap();
    sound(&relieved, "relief");
    assert!(says(&relieved, "pump-relief") && relieved.relieved.slurry.si() > 0.0);
    assert!(relieved.landings[0].highest < highest);
    job.file.limits.relief = GaugePressure::from_si(3.0 * highest.si());
    job.file.limits.trip = between;
    let tripped =
        pump(&job, &program, &Settings { sample: Time::seconds(0.05), ..Settings::default() }).unwrap();
    sound(&tripped, "trip");
    assert!(says(&tripped, "pump-trip") && !tripped.finished);
}

#[test]
fn a_stage_without_a_pad_sends_proppant_into_the_stage_before() {
    let (job, program) = planned(
        "shallow-oil",
        4,
        &[
            ("clean_volume = \"4 m3\"", "clean_volume = \"0.1 m3\""),
            ("clean_volume = \"12 m3\"", "clean_volume = \"0.1 m3\""),
            ("spacer_behind = \"1.0 m3\"", "spacer_behind = \"0.1 m3\""),
        ],
    );
    let run = pump(&job, &program, &Settings::default()).unwrap();
    sound(&run, "no pad");
    // Proppant follows its ball closely but not ahead of it: what it does to the rock is told.
    assert!(!run.findings.is_empty(), "a job without a pad must not pass in silence");
    // With no ball on its seat the proppant is past the sleeve before anyone misses the ball.
    let faults = vec![Fault::usual(FaultKind::BallNotReleased, 3)];
    let run = pump(&job, &program, &Settings { faults, ..Settings::default() }).unwrap();
    assert!(says(&run, "pump-short-pad") && says(&run, "pump-ball-missing"), "{:?}", run.findings);
}

#[test]
fn a_time_that_is_no_sample_is_refused() {
    let (job, program) = planned("shallow-oil", 2, &[]);
    for sample in [0.0, -1.0, 0.001, 3600.0, f64::NAN] {
        let settings = Settings { sample: Time::seconds(sample), ..Settings::default() };
        assert!(matches!(pump(&job, &program, &settings), Err(PumpError::Setting { .. })), "{sample}");
    }
}

/// Seats near the liner's top leave short reaches, into which no step of the waves fits well.
#[test]
fn balls_of_the_highest_stages_land_wherever_they_land() {
    let (job, program) = planned("long-lateral", 30, &[]);
    for (kind, stage) in
        [(FaultKind::BallsSwapped, 28), (FaultKind::BallTooLarge, 28), (FaultKind::BallTooSmall, 30)]
    {
        let settings = Settings { faults: vec![Fault::usual(kind, stage)], ..Settings::default() };
        let run = pump(&job, &program, &settings).unwrap_or_else(|e| panic!("{kind:?} at {stage}: {e}"));
        sound(&run, &format!("{kind:?} at {stage}"));
    }
}

#[test]
fn a_second_way_down_does_not_lose_what_stands_in_the_first() {
    let (job, program) = planned("shallow-oil", 5, &[]);
    let ways = FAULTS.iter().map(|d| d.kind).filter(|k| k.makes_a_way());
    for first in ways.clone() {
        for second in ways.clone() {
            let at = |kind| Fault { after: Time::seconds(0.0), ..Fault::usual(kind, 3) };
            let faults = vec![at(first), at(second)];
            let what = format!("{first:?} then {second:?}");
            sound(&pump(&job, &program, &Settings { faults, ..Settings::default() }).unwrap(), &what);
        }
    }
}

/// A stage whose fracture took next to nothing while its ball was on the way, and then all of it.
#[test]
fn a_fracture_that_packs_at_once_is_told() {
    let changes = [
        ("clean_volume = \"12 m3\"", "clean_volume = \"10.265 m3\""),
        ("closure_gradient = \"17.4 kPa/m\"", "closure_gradient = \"12.00 kPa/m\""),
        ("leakoff = \"0.05 mm/min0.5\"", "leakoff = \"0.312 mm/min0.5\""),
        ("form = \"radial\"", "form = \"kgd\"\nheight = \"25 m\""),
    ];
    let (job, program) = planned("shallow-oil", 5, &changes);
    let late = Fault { after: Time::seconds(1796.5), ..Fault::usual(FaultKind::SleeveEarly, 2) };
    let packed = Fault { after: Time::seconds(1055.2), ..Fault::usual(FaultKind::ScreenoutSleeve, 2) };
    let early = Fault { after: Time::seconds(0.0), ..Fault::usual(FaultKind::SleeveEarly, 3) };
    for (faults, ids) in
        [(vec![late], ["pump-trip", "pump-relief"]), (vec![packed, early], ["pump-trip", "pump-screen-out"])]
    {
        let settings = Settings { faults: faults.clone(), sample: Time::seconds(0.5), ..Settings::default() };
        let run = pump(&job, &program, &settings).unwrap();
        sound(&run, &format!("{faults:?}"));
        assert!(ids.iter().any(|id| says(&run, id)), "{faults:?}: {:?}", run.findings);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// Rates, volumes, rock, limits and up to three faults at random.
    #[test]
    fn random_jobs_hold_what_every_run_must(
        seed in 0u64..1_000_000,
        rate in 0.4f64..2.6,
        pad in 0.2f64..30.0,
        closure in 12.0f64..18.0,
        leakoff in 0.0f64..0.6,
        form in prop::sample::select(vec!["radial", "pkn", "kgd"]),
        axial in any::<bool>(),
        faults in prop::collection::vec((0..FAULTS.len(), 2usize..5, 0.0f64..2000.0), 0..3),
        sample in prop::sample::select(vec![0.5, 1.0, 2.0]),
    ) {
        let changes = [
            ("rate = \"1.6 m3/min\"", format!("rate = \"{rate:.3} m3/min\"")),
            ("clean_volume = \"12 m3\"", format!("clean_volume = \"{pad:.3} m3\"")),
            ("closure_gradient = \"17.4 kPa/m\"", format!("closure_gradient = \"{closure:.2} kPa/m\"")),
            ("leakoff = \"0.05 mm/min0.5\"", format!("leakoff = \"{leakoff:.3} mm/min0.5\"")),
            ("form = \"radial\"", format!("form = \"{form}\"\nheight = \"25 m\"")),
            ("# initiation = \"transverse\"", format!("initiation = \"{}\"", if axial { "axial" } else { "transverse" })),
        ];
        let changes: Vec<(&str, &str)> = changes.iter().map(|(a, b)| (*a, b.as_str())).collect();
        // A stage above those of the faults for every ball that may leave in the place of another.
        let (job, program) = planned("shallow-oil", 6, &changes);
        let faults: Vec<Fault> = faults
            .iter()
            .map(|(i, stage, after)| Fault { after: Time::seconds(*after), ..Fault::usual(FAULTS[*i].kind, *stage) })
            .collect();
        let settings = Settings { seed, faults: faults.clone(), sample: Time::seconds(sample), ..Settings::default() };
        match pump(&job, &program, &settings) {
            Ok(run) => {
                sound(&run, &format!("{faults:?}"));
                let stopped = run.findings.iter().any(|f| f.severity == well::Severity::Stop);
                prop_assert!(run.finished || stopped, "ended without a reason: {:?}", run.findings);
            }
            Err(e) => prop_assert!(matches!(e, PumpError::NoPlan { .. }), "{e}: {faults:?}"),
        }
    }
}

#[test]
fn a_fracture_along_the_hole_grows_past_its_packer_and_one_across_does_not() {
    let long = ("form = \"radial\"", "form = \"pkn\"\nheight = \"20 m\"");
    let along = ("# initiation = \"transverse\"", "initiation = \"axial\"");
    let (job, program) = planned("shallow-oil", 4, &[long]);
    let across = pump(&job, &program, &Settings::default()).unwrap();
    assert!(!says(&across, "pump-past-packer"));
    let (job, program) = planned("shallow-oil", 4, &[long, along]);
    let run = pump(&job, &program, &Settings::default()).unwrap();
    sound(&run, "along the hole");
    let found = run.findings.iter().find(|f| f.id == "pump-past-packer").unwrap();
    let stage = found.place.stage.unwrap();
    assert!(found.value.unwrap().si() >= found.limit.unwrap().si());
    // What goes round the packer treats the stage before a second time.
    let (twice, once) = (&run.stages[stage - 1], &across.stages[stage - 1]);
    assert!(twice.placed.slurry > once.placed.slurry * 1.02, "{:?} {:?}", twice.placed, once.placed);
}
