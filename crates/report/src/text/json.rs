//! The JSON forms. Figures are in SI with their unit beside; every form names the version of
//! the program that wrote it.

use plan::Step;
use serde_json::{Value, json};
use well::{Check, Finding, Severity};

use physics::{Input, InputKind, Output, Relation};

use super::caution;
use super::family::{Families, Family};
use super::reading;
use super::verdict::{Judged, Tally, by_basis, by_family};

/// Text of a JSON value as it is printed: indented, with a line feed at the end.
pub fn text(value: &Value) -> String {
    format!("{value:#}\n")
}

/// One relation: what `calc --list` knows of it.
pub fn relation(family: &Family, relation: &Relation) -> Value {
    json!({
        "name": relation.name,
        "family": family.name,
        "title": relation.title,
        "equation": relation.equation,
        "source": relation.source,
        "range": relation.range,
        "inputs": relation.inputs.iter().map(input).collect::<Vec<_>>(),
        "outputs": relation.outputs.iter().map(output).collect::<Vec<_>>(),
    })
}

/// The relations of some families.
pub fn relations<'a>(families: impl Iterator<Item = &'a Family>, version: &str) -> Value {
    let all: Vec<Value> = families.flat_map(|f| f.relations.iter().map(move |r| relation(f, r))).collect();
    json!({ "version": version, "relations": all })
}

fn input(input: &Input) -> Value {
    let mut out = json!({ "name": input.name, "doc": input.doc });
    let fields = match input.kind {
        InputKind::Quantity(kind) => json!({ "kind": kind.name, "si": kind.si_unit().symbol }),
        InputKind::List(kind) => json!({ "kind": kind.name, "list": true, "si": kind.si_unit().symbol }),
        InputKind::Choice(words) => json!({ "choices": words }),
    };
    let range = input.range.map(|(low, high)| json!({ "low": finite(low), "high": finite(high) }));
    let rest = json!({ "units": reading::units(input), "default": input.default, "valid_si": range });
    for part in [fields, rest] {
        if let (Some(out), Value::Object(part)) = (out.as_object_mut(), part) {
            out.extend(part.into_iter().filter(|(_, v)| !v.is_null()));
        }
    }
    out
}

/// An end of a range; none where it is open.
fn finite(end: f64) -> Option<f64> {
    end.is_finite().then_some(end)
}

fn output(output: &Output) -> Value {
    json!({ "name": output.name, "doc": output.doc, "kind": output.kind.name, "si": output.kind.si_unit().symbol })
}

/// One call of a relation with its workings.
pub fn step(step: &Step, version: &str) -> Value {
    json!({ "version": version, "workings": step })
}

/// Findings with their counts and the cautions.
pub fn findings(findings: &[Finding], version: &str) -> Value {
    json!({
        "version": version,
        "counts": counts(findings),
        "findings": findings,
        "standing": caution::STANDING,
        "cautions": caution::CAUTIONS,
    })
}

fn counts(findings: &[Finding]) -> Value {
    let of = |severity| findings.iter().filter(|f| f.severity == severity).count();
    json!({ "stop": of(Severity::Stop), "warn": of(Severity::Warn), "note": of(Severity::Note) })
}

/// Reference cases as they came out.
pub fn cases(cases: &[Judged], families: &Families, version: &str) -> Value {
    let tallies = |list: Vec<(&str, Tally)>| {
        list.into_iter()
            .map(|(name, tally)| (name.to_string(), json!(tally)))
            .collect::<serde_json::Map<_, _>>()
    };
    let total = Tally::of(cases);
    json!({
        "version": version,
        "passed": total.passed,
        "failed": total.failed,
        "by_basis": tallies(by_basis(cases)),
        "by_family": tallies(by_family(cases, families)),
        "cases": cases.iter().map(case).collect::<Vec<_>>(),
    })
}

fn case(judged: &Judged) -> Value {
    json!({
        "file": judged.file,
        "name": judged.case.name,
        "relation": judged.case.relation,
        "source": judged.case.source,
        "basis": judged.case.basis.word(),
        "reason": judged.case.reason,
        "inputs": judged.case.inputs,
        "passes": judged.passes(),
        "outputs": judged.lines(),
    })
}

/// One check: what `explain` knows of it.
pub fn check(check: &Check) -> Value {
    json!({
        "id": check.id,
        "severity": check.severity.word(),
        "title": check.title,
        "checks": check.checks,
        "why": check.why,
        "next": check.next,
        "example": check.example,
        "references": check.references,
    })
}

/// Checks.
pub fn checks<'a>(checks: impl Iterator<Item = &'a Check>, version: &str) -> Value {
    json!({ "version": version, "checks": checks.map(check).collect::<Vec<_>>() })
}
