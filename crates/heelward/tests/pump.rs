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
    assert_eq!(written, ["channels.csv", "channels.las", "events.csv", "run.json", "written.json"]);

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
