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

/// Longest line of [`lines`], without its indent.
const LINE: usize = 110;

/// Text of a large JSON value: what fits on one line stands on one line, the rest is indented.
/// The same value as [`text`] prints, in three fifths of the bytes of a long program.
pub fn lines(value: &Value) -> String {
    let mut out = String::new();
    spread(value, 0, &mut out);
    out.push('\n');
    out
}

fn spread(value: &Value, depth: usize, out: &mut String) {
    let new_line = |out: &mut String, depth: usize| {
        out.push('\n');
        (0..depth).for_each(|_| out.push_str("  "));
    };
    let fits = width(value, LINE).is_some();
    match value {
        Value::Array(list) if !fits => {
            out.push('[');
            for (i, item) in list.iter().enumerate() {
                out.push_str(if i > 0 { "," } else { "" });
                new_line(out, depth + 1);
                spread(item, depth + 1, out);
            }
            new_line(out, depth);
            out.push(']');
        }
        Value::Object(fields) if !fits => {
            out.push('{');
            for (i, (name, item)) in fields.iter().enumerate() {
                out.push_str(if i > 0 { "," } else { "" });
                new_line(out, depth + 1);
                out.push_str(&format!("{}: ", Value::from(name.as_str())));
                spread(item, depth + 1, out);
            }
            new_line(out, depth);
            out.push('}');
        }
        _ => out.push_str(&value.to_string()),
    }
}

/// About how many characters a value takes on one line; none if more than `room`. A text counts
/// without its escapes.
fn width(value: &Value, room: usize) -> Option<usize> {
    let add = |sum: usize, name: usize, item: &Value| {
        let sum = sum + name + 1;
        Some(sum + width(item, room.checked_sub(sum)?)?)
    };
    let width = match value {
        Value::Array(list) => list.iter().try_fold(2, |sum, item| add(sum, 0, item))?,
        Value::Object(fields) => {
            fields.iter().try_fold(2, |sum, (name, item)| add(sum, name.len() + 3, item))?
        }
        Value::String(text) => text.len() + 2,
        other => other.to_string().len(),
    };
    (width <= room).then_some(width)
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_short_form_is_the_same_value_on_fewer_lines() {
        let named =
            |i: usize| json!({ "name": format!("in \"{i}\""), "values": [{ "unit": "Pa", "value": i }] });
        let value = json!({
            "empty": [{}, [], null, true],
            "list": (0..9).map(named).collect::<Vec<_>>(),
            "text": "word ".repeat(60),
        });
        let short = lines(&value);
        assert_eq!(serde_json::from_str::<Value>(&short).unwrap(), value);
        assert!(
            short.contains("\n    {\"name\":\"in \\\"3\\\"\",\"values\":[{\"unit\":\"Pa\",\"value\":3}]},\n"),
            "{short}"
        );
        assert_eq!(short.lines().count(), 15, "{short}");
        assert!(short.len() < text(&value).len());
    }
}
