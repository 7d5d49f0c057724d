//! Every relation has its source and its cases, and every source is in the bibliography.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]

mod common;
use common::{files, named, read, root, with_extension};

use std::collections::{BTreeMap, BTreeSet};

use report::text::bibliography::{Bibliography, key};

/// All case files with their cases, by the name of the file.
fn case_files() -> Vec<(String, Vec<proof::Case>)> {
    let skipped = ["cases/bibliography/", "cases/oracle/"];
    let files = with_extension(&root().join("cases"), &["toml"]).into_iter().map(|p| named(&p));
    files
        .filter(|name| !skipped.iter().any(|s| name.starts_with(s)))
        .map(|name| {
            let cases = proof::read_cases(&read(&name)).unwrap_or_else(|e| panic!("{name}: {e}"));
            (name, cases)
        })
        .collect()
}

fn bibliography() -> Bibliography {
    let mut all = Bibliography::default();
    for path in with_extension(&root().join("cases/bibliography"), &["toml"]) {
        let name = named(&path);
        all.add(&read(&name)).unwrap_or_else(|e| panic!("{name}: {e}"));
    }
    all
}

#[test]
fn every_source_begins_with_a_key_of_the_bibliography() {
    let sources = bibliography();
    let mut strange = BTreeSet::new();
    for relation in physics::relations() {
        if !sources.0.contains_key(key(relation.source)) {
            strange.insert(format!("relation {}: {}", relation.name, relation.source));
        }
    }
    for (file, cases) in case_files() {
        for case in cases.iter().filter(|c| !sources.0.contains_key(key(&c.source))) {
            strange.insert(format!("{file}: {}: {}", case.name, case.source));
        }
    }
    assert!(strange.is_empty(), "sources that begin with no key of cases/bibliography: {strange:#?}");
}

#[test]
fn every_key_of_the_bibliography_is_used() {
    let mut used: BTreeSet<String> = BTreeSet::new();
    let mut note = |text: &str| {
        let parts = text.split(|c: char| !(c.is_alphanumeric() || c == '_'));
        used.extend(parts.map(str::to_string));
    };
    physics::relations().for_each(|r| note(r.source));
    case_files().iter().flat_map(|(_, cases)| cases).for_each(|c| note(&c.source));
    for path in files(&root().join("crates")).iter().chain(&files(&root().join("jobs"))) {
        if path.extension().is_some_and(|e| e == "rs" || e == "toml")
            && !path.starts_with(root().join("crates/house"))
        {
            note(&std::fs::read_to_string(path).unwrap_or_default());
        }
    }
    let idle: Vec<_> = bibliography().0.into_keys().filter(|k| !used.contains(k)).collect();
    assert!(idle.is_empty(), "keys of cases/bibliography that nothing uses: {idle:#?}");
}

#[test]
fn every_entry_of_the_bibliography_is_complete() {
    for (key, source) in bibliography().0 {
        let texts = [&source.title, &source.authors, &source.place];
        assert!(texts.iter().all(|t| !t.trim().is_empty()), "{key} lacks title, authors or where");
    }
}

#[test]
fn every_relation_has_a_case() {
    let files = case_files();
    let covered: BTreeSet<&str> = files.iter().flat_map(|(_, c)| c).map(|c| c.relation.as_str()).collect();
    let bare: Vec<_> = physics::relations().map(|r| r.name).filter(|n| !covered.contains(n)).collect();
    assert!(bare.is_empty(), "relations without a reference case: {bare:#?}");
}

#[test]
fn the_cases_of_a_relation_stand_in_one_family() {
    let mut homes: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for (file, cases) in case_files() {
        let family = file.split('/').nth(1).unwrap_or_default().to_string();
        cases.iter().for_each(|c| {
            homes.entry(c.relation.clone()).or_default().insert(family.clone());
        });
    }
    let spread: Vec<_> = homes.iter().filter(|(_, families)| families.len() > 1).collect();
    assert!(spread.is_empty(), "relations with cases in several families: {spread:#?}");
}

#[test]
fn every_case_says_where_it_comes_from_and_why_it_is_so_close() {
    let mut bare = Vec::new();
    for (file, cases) in case_files() {
        for case in cases {
            let refusal = case.expected.contains_key("error");
            let blank = |t: &str| t.trim().is_empty();
            if blank(&case.name) || blank(&case.source) || blank(&case.reason) && !refusal {
                bare.push(format!("{file}: {} ({})", case.name, case.relation));
            }
        }
    }
    assert!(bare.is_empty(), "cases without name, source or reason: {bare:#?}");
}

#[test]
fn every_case_passes() {
    let mut missed = Vec::new();
    for (file, cases) in case_files() {
        missed
            .extend(cases.iter().filter(|c| !proof::run(c).passes()).map(|c| format!("{file}: {}", c.name)));
    }
    assert!(missed.is_empty(), "cases that miss (`heelward verify` shows them in full): {missed:#?}");
}
