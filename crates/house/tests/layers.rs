//! The floors of the house: each crate uses only the floors below it, and keeps out of what it
//! must not touch.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]

mod common;
use common::{crates, for_tests, named, read, root, sources};

/// The floor of every crate.
const FLOORS: &[(&str, u8)] = &[
    ("quantity", 1),
    ("physics", 2),
    ("proof", 3),
    ("well", 3),
    ("plan", 4),
    ("pump", 5),
    ("report", 6),
    ("print", 7),
    ("serve", 7),
    ("heelward", 8),
    ("house", 9),
];

fn floor(name: &str) -> Option<u8> {
    FLOORS.iter().find(|(n, _)| *n == name).map(|(_, f)| *f)
}

/// Names of the crates of this workspace that a manifest depends on.
fn used(manifest: &toml::Table) -> Vec<String> {
    ["dependencies", "dev-dependencies", "build-dependencies"]
        .iter()
        .filter_map(|table| manifest.get(*table)?.as_table())
        .flat_map(|table| table.keys().cloned())
        .filter(|name| floor(name).is_some())
        .collect()
}

#[test]
fn every_crate_stands_on_a_floor() {
    for name in crates() {
        assert!(floor(&name).is_some(), "{name} has no floor; add it to the table of this test");
    }
}

#[test]
fn every_crate_uses_only_the_floors_below_it() {
    for name in crates() {
        let manifest: toml::Table = read(&format!("crates/{name}/Cargo.toml")).parse().unwrap();
        for below in used(&manifest) {
            assert!(floor(&below) < floor(&name), "{name} uses {below}, which is not below it");
        }
    }
}

/// What the pure floors must not name.
const OUTSIDE: &[&str] =
    &["std::fs", "std::net", "std::env", "std::process", "std::time::", "println!", "eprintln!"];

/// What the floor of the job folder must not name; its files come through the host.
const OUTSIDE_OF_WELL: &[&str] =
    &["std::net", "std::env", "std::process", "std::time::", "println!", "eprintln!"];

/// Floors and what they must not name in their source, outside tests and comments.
const FORBIDDEN: &[(&str, &[&str])] = &[
    ("quantity", OUTSIDE),
    ("physics", OUTSIDE),
    ("proof", OUTSIDE),
    ("well", OUTSIDE_OF_WELL),
    ("plan", OUTSIDE),
    ("pump", OUTSIDE),
    ("report", OUTSIDE),
    ("print", OUTSIDE),
];

/// The lines of a file that are code outside its tests.
fn code(path: &std::path::Path) -> Vec<String> {
    let text = std::fs::read_to_string(path).unwrap();
    let outside_tests = text.split("#[cfg(test)]").next().unwrap_or_default();
    let is_code = |l: &&str| !l.trim_start().starts_with("//");
    outside_tests.lines().filter(is_code).map(str::to_string).collect()
}

#[test]
fn the_pure_floors_touch_no_file_no_clock_and_no_screen() {
    let mut found = Vec::new();
    for (name, words) in FORBIDDEN {
        for path in sources(&root().join("crates").join(name).join("src")).iter().filter(|p| !for_tests(p)) {
            let lines = code(path);
            let named_words = words.iter().filter(|w| lines.iter().any(|l| l.contains(**w)));
            found.extend(named_words.map(|w| format!("{}: {w}", named(path))));
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn only_the_host_reads_the_job_folder() {
    let files = sources(&root().join("crates/well/src"));
    let past: Vec<_> = files
        .iter()
        .filter(|p| !for_tests(p) && !p.ends_with("host.rs") && code(p).iter().any(|l| l.contains("std::fs")))
        .map(|p| named(p))
        .collect();
    assert!(past.is_empty(), "these read files past the host: {past:?}");
}
