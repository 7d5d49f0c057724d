//! `pump` as a person runs it.
#![allow(clippy::unwrap_used, reason = "tests")]

mod common;
use common::{Scratch, names, run};

fn job(name: &str) -> String {
    format!("{}/../../jobs/{name}", env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn the_summary_and_the_channels_of_a_job() {
    let scratch = Scratch::new("pump");
    let folder = scratch.path("run");
    let pumped = run(&["pump", &job("shallow-oil"), "--out", &folder]);
    assert_eq!(pumped.code, 0, "{}", pumped.err);
    insta::assert_snapshot!("pump_shallow-oil", pumped.out);
    let written = names(std::path::Path::new(&folder));
    assert_eq!(
        written,
        ["channels.csv", "channels.las", "events.csv", "run.json", "states.csv", "written.json"]
    );

    // Both tables say the same, and the log is one that our own reader takes.
    let read = |name: &str| std::fs::read_to_string(std::path::Path::new(&folder).join(name)).unwrap();
    let csv = read("channels.csv");
    let rows: Vec<&str> = csv.lines().filter(|l| !l.starts_with('#')).skip(1).collect();
    let las = read("channels.las");
    let data: Vec<&str> = las.lines().skip_while(|l| !l.starts_with("~A")).skip(1).collect();
    assert_eq!(rows.len(), data.len());
    assert!(rows.iter().zip(&data).all(|(c, l)| c.replace(',', " ") == **l));
    let head: Vec<&str> = las.lines().filter(|l| l.starts_with('~')).collect();
    assert_eq!(head.len(), 5, "{head:?}");
    let log = well::las::read_las(las.as_bytes(), "channels.las");
    assert!(log.value.is_some(), "{:?}", log.findings);
}

#[test]
fn a_sample_without_its_unit_is_refused_and_a_stopped_plan_is_told() {
    let refused = run(&["pump", &job("shallow-oil"), "--sample", "1"]);
    assert_eq!(refused.code, 1);
    assert!(refused.err.contains("--sample") && refused.err.contains("unit"), "{}", refused.err);
    let slow = run(&["pump", &job("shallow-oil"), "--sample", "1 h"]);
    assert_eq!(slow.code, 1);
    assert!(slow.err.contains("0.01 s to 10 s"), "{}", slow.err);
}

#[test]
fn faults_are_described_acted_out_and_labelled() {
    let list = run(&["pump", &job("shallow-oil"), "--fault", "list"]);
    assert_eq!(list.code, 0, "{}", list.err);
    assert!(pump::fault::FAULTS.iter().all(|f| list.out.contains(f.name)), "{}", list.out);

    let scratch = Scratch::new("pump-fault");
    let (folder, file) = (scratch.path("run"), scratch.path("scenario.toml"));
    std::fs::write(&file, "[[fault]]\nkind = \"sleeve-stuck\"\nstage = 3\n[noise]\npressure = \"8 psi\"\n")
        .unwrap();
    let pumped =
        run(&["pump", &job("shallow-oil"), "--scenario", &file, "--fine", "0.02 s", "--out", &folder]);
    assert_eq!(pumped.code, 1, "a stop finding ends with 1: {}", pumped.err);
    assert!(pumped.out.contains("sleeve-stuck, stage 3") && pumped.out.contains("pump-sleeve-shut"));
    let read = |name: &str| std::fs::read_to_string(std::path::Path::new(&folder).join(name)).unwrap();
    assert!(read("labels.csv").lines().last().unwrap().contains("sleeve-stuck,3,"));
    assert!(read("states.csv").contains("sleeve_3"));
    assert!(read("channels.las").contains("STEP.S   0.00"));
}

#[test]
fn words_of_a_run_read_in_the_units_that_are_asked_for() {
    for (system, depth) in [("field", "at 0.0 ft"), ("metric", "at 0.00 m")] {
        let pumped = run(&[
            "pump",
            &job("shallow-oil"),
            "--fault",
            "ball-not-released@4",
            "--json",
            "--units",
            system,
        ]);
        let findings = pumped.json()["findings"].to_string();
        assert!(findings.contains(&format!("ball 4 has not landed, {depth}")), "{findings}");
    }
}

#[test]
fn a_fault_or_a_scenario_that_is_none_is_refused() {
    let scratch = Scratch::new("pump-bad");
    let file = scratch.path("scenario.toml");
    std::fs::write(&file, "[[fault]]\nkind = \"sleeve-stuk\"\n").unwrap();
    for (args, word) in [
        (["--fault", "sleeve-stuk@2"], "sleeve-stuck"),
        (["--fault", "sleeve-stuck@99"], "99"),
        (["--fine", "1"], "unit"),
        (["--scenario", &file], "sleeve-stuck"),
        (["--scenario", "nowhere.toml"], "nowhere.toml"),
    ] {
        let refused = run(&["pump", &job("shallow-oil"), args[0], args[1]]);
        assert_eq!(refused.code, 1, "{args:?}");
        assert!(refused.err.contains(word), "{args:?}: {}", refused.err);
    }
}

#[test]
fn the_same_seed_writes_the_same_bytes() {
    let scratch = Scratch::new("pump-bytes");
    let write = |name: &str, seed: &str| {
        let folder = scratch.path(name);
        let args = ["--fault", "meter-drift@3", "--noise", "--seed", seed, "--out", &folder];
        let mut words = vec!["pump", "JOB"];
        words.extend(args);
        let job = job("shallow-oil");
        words[1] = &job;
        assert_eq!(run(&words).code, 0);
        let bytes = |file: &str| std::fs::read(std::path::Path::new(&folder).join(file)).unwrap();
        ["channels.csv", "channels.las", "states.csv", "events.csv", "labels.csv", "run.json"].map(bytes)
    };
    let first = write("a", "7");
    assert!(first == write("b", "7"));
    assert!(first[0] != write("c", "8")[0], "another seed, another noise");
}
