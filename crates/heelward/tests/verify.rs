//! `verify` on the built-in cases and on files of one's own.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]

mod common;
use common::{Scratch, command, names, run};

const MISS: &str = r#"
[[case]]
name = "a step to the north that is wrong on purpose"
relation = "minimum_curvature"
source = "no_source, made up"
basis = "memory"
inputs = { md_1 = "3500 ft", inclination_1 = "15 deg", azimuth_1 = "20 deg", md_2 = "3600 ft", inclination_2 = "25 deg", azimuth_2 = "45 deg" }
expected = { north = "27.22 ft", east = "19.99 ft" }
tolerance = { north = "0.01 ft", east = "1 %" }
reason = "wrong on purpose"

[[case]]
name = "a unit that does not fit"
relation = "minimum_curvature"
source = "no_source, made up"
basis = "closed-form"
inputs = { md_1 = "3500 psi" }
expected = { error = "is not a unit of measured depth" }

[[case]]
name = "a relation that is not there"
relation = "none_such"
source = "no_source, made up"
basis = "memory"
expected = { length = "1 ft" }
"#;

#[test]
fn the_built_in_cases_all_pass() {
    let all = run(&["verify", "--quiet"]);
    assert_eq!(all.code, 0, "{}", all.out);
    assert!(all.out.ends_with(" passed, 0 failed\n"), "{}", all.out);
    let json = run(&["verify", "--json"]).json();
    assert_eq!(json["failed"], 0);
    let cases = json["cases"].as_array().unwrap();
    assert_eq!(json["passed"], cases.len());
    let texts = ["source", "basis", "relation", "name", "file"];
    assert!(cases.iter().all(|c| texts.iter().all(|t| c[t].as_str().is_some_and(|s| !s.is_empty()))));
}

#[test]
fn every_case_has_its_line() {
    let lines = run(&["verify"]).out;
    let passed = lines.lines().filter(|l| l.starts_with("pass ")).count();
    assert_eq!(run(&["verify", "--json"]).json()["passed"], passed);
}

#[test]
fn a_miss_is_shown_in_full_and_ends_with_one() {
    let scratch = Scratch::new("miss");
    let file = scratch.put("cases/miss.toml", MISS);
    let quiet = run(&["verify", "--quiet", &file]);
    insta::assert_snapshot!(scratch.blank(&quiet.all()));
    let loud = run(&["verify", &scratch.path("cases")]);
    insta::assert_snapshot!(scratch.blank(&loud.out));
    assert_eq!(loud.code, 1);
}

#[test]
fn a_miss_as_json_and_markdown() {
    let scratch = Scratch::new("miss-json");
    let file = scratch.put("miss.toml", MISS);
    let json = run(&["verify", "--json", &file]);
    assert_eq!(json.code, 1);
    insta::assert_snapshot!(scratch.blank(&json.out));
    let markdown = run(&["verify", "--markdown", &file]);
    assert_eq!(markdown.code, 1);
    assert!(markdown.out.starts_with("# Accuracy\n"), "{}", markdown.out);
}

#[test]
fn files_that_hold_no_case_are_refused() {
    let scratch = Scratch::new("no-case");
    let broken = scratch.put("broken.toml", "[[case]]\nnome = \"x\"\n");
    let empty = scratch.put("empty/notes.txt", "nothing");
    let refusals = [
        run(&["verify", &broken]),
        run(&["verify", &scratch.path("empty")]),
        run(&["verify", &scratch.path("nowhere")]),
        run(&["verify", &scratch.put("none.toml", "")]),
    ];
    assert!(refusals.iter().all(|r| r.code == 1 && r.out.is_empty() && r.err.starts_with("error: ")));
    assert!(refusals[0].err.contains("nome"), "{}", refusals[0].err);
    assert_eq!(names(&scratch.0), ["broken.toml", "empty", "none.toml"]);
    assert!(!empty.is_empty());
}

#[test]
fn a_reader_that_leaves_early_is_no_fault() {
    let mut child = command()
        .args(["calc", "--list"])
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!(output.status.code(), Some(0));
    assert!(output.stderr.is_empty(), "{}", String::from_utf8_lossy(&output.stderr));
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_behind_standard_output_is_said() {
    let full = std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let output = command().args(["calc", "--list"]).stdout(full).output().unwrap();
    assert_eq!(output.status.code(), Some(1));
    assert!(String::from_utf8_lossy(&output.stderr).contains("standard output"));
}
