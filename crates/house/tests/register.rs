//! The register of relations and the list of checks: unique names, complete texts.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]

use std::collections::BTreeSet;

fn is_name(text: &str, join: char) -> bool {
    !text.is_empty() && text.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == join)
}

#[test]
fn every_relation_is_complete_and_its_name_is_its_own() {
    let mut names = BTreeSet::new();
    for relation in physics::relations() {
        let name = relation.name;
        assert!(is_name(name, '_') && names.insert(name), "{name}: not a name of its own in snake_case");
        let texts = [relation.title, relation.equation, relation.source, relation.range];
        assert!(texts.iter().all(|t| !t.trim().is_empty()), "{name} lacks a text");
        assert!(
            !relation.inputs.is_empty() && !relation.outputs.is_empty(),
            "{name} has no input or no output"
        );
    }
}

#[test]
fn every_input_and_output_is_described_once() {
    for relation in physics::relations() {
        let mut names = BTreeSet::new();
        for input in relation.inputs {
            assert!(names.insert(input.name), "{}: `{}` stands twice", relation.name, input.name);
            assert!(!input.doc.trim().is_empty(), "{}: `{}` is not described", relation.name, input.name);
            if let Some((low, high)) = input.range {
                assert!(low < high, "{}: the range of `{}` is empty", relation.name, input.name);
            }
        }
        let mut names = BTreeSet::new();
        for output in relation.outputs {
            assert!(names.insert(output.name), "{}: output `{}` stands twice", relation.name, output.name);
            assert!(!output.doc.trim().is_empty(), "{}: `{}` is not described", relation.name, output.name);
        }
    }
}

#[test]
fn every_check_is_complete_and_its_name_is_its_own() {
    let mut ids = BTreeSet::new();
    for check in pump::checks::all() {
        assert!(is_name(check.id, '-') && ids.insert(check.id), "{}: not a name of its own", check.id);
        let texts = [check.title, check.checks, check.why, check.next, check.example, check.references];
        assert!(texts.iter().all(|t| !t.trim().is_empty()), "{} lacks a text", check.id);
    }
}
