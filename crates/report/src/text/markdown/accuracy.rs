//! The accuracy tables: how the program compares with its reference cases.

use std::collections::BTreeMap;

use proof::{Basis, Verdict};

use super::head;
use crate::text::family::{Families, Family};
use crate::text::look::count;
use crate::text::reading::plain;
use crate::text::table::{Table, left, right};
use crate::text::verdict::{Judged, Tally, by_basis};

use quantity::round_significant;

/// Relative differences below this are rounding of the arithmetic and not told apart.
const ROUNDING: f64 = 1e-9;

/// The document.
pub fn document(cases: &[Judged], families: &Families) -> String {
    let about = "How the program compares with its reference cases, as `heelward verify` runs them. \
                 Printed values are met within the digits that are printed. `memory` marks a value that nobody \
                 has checked against print, `practice` a fact of the trade that has no source. The relative \
                 difference is to the expected value; the share is of the difference that the case allows.";
    let mut by_relation: BTreeMap<&str, Vec<&Judged>> = BTreeMap::new();
    cases.iter().for_each(|j| by_relation.entry(&j.case.relation).or_default().push(j));
    let families: String = families.0.iter().map(|f| family(f, &by_relation)).collect();
    head("Accuracy", about) + &total(cases) + &families + &printed(cases)
}

fn total(cases: &[Judged]) -> String {
    let mut table = Table::new(&[left("basis"), right("cases"), right("passed"), right("missed")]);
    let mut add = |name: &str, tally: Tally| {
        let numbers = [tally.cases(), tally.passed, tally.failed].map(|n| n.to_string());
        table.row(std::iter::once(name.to_string()).chain(numbers));
    };
    by_basis(cases).into_iter().for_each(|(name, tally)| add(name, tally));
    add("all", Tally::of(cases));
    table.markdown()
}

fn family(family: &Family, by_relation: &BTreeMap<&str, Vec<&Judged>>) -> String {
    let mut table = Table::new(&[
        left("relation"),
        left("cases"),
        right("missed"),
        right("median difference"),
        right("largest difference"),
        right("largest share of allowed"),
    ]);
    for relation in &family.relations {
        let cases = by_relation.get(relation.name).map(Vec::as_slice).unwrap_or_default();
        let spread = Spread::of(cases);
        table.row([
            relation.name.to_string(),
            bases(cases),
            Tally::of(cases.iter().copied()).failed.to_string(),
            relative(spread.median),
            relative(spread.largest),
            percent(spread.share),
        ]);
    }
    if table.is_empty() { String::new() } else { format!("\n## {}\n\n{}", family.title, table.markdown()) }
}

fn bases(cases: &[&Judged]) -> String {
    let mut counts: BTreeMap<Basis, usize> = BTreeMap::new();
    cases.iter().for_each(|j| *counts.entry(j.case.basis).or_default() += 1);
    let words: Vec<String> = counts.iter().map(|(basis, n)| format!("{n} {}", basis.word())).collect();
    if words.is_empty() { "none".to_string() } else { words.join(", ") }
}

/// The spread of the differences of a relation's compared outputs.
#[derive(Default)]
struct Spread {
    median: Option<f64>,
    largest: Option<f64>,
    share: Option<f64>,
}

impl Spread {
    fn of(cases: &[&Judged]) -> Self {
        let mut relative = Vec::new();
        let mut share: Option<f64> = None;
        for judged in cases {
            if let Verdict::Compared(list) = &judged.verdict {
                relative.extend(list.iter().filter_map(relative_difference));
                let shares = judged.lines().into_iter().map(|l| l.share);
                share = shares.chain(share).filter(|s| s.is_finite()).max_by(f64::total_cmp);
            }
        }
        relative.sort_by(f64::total_cmp);
        let median = relative.get(relative.len() / 2).copied();
        Self { median, largest: relative.last().copied(), share }
    }
}

/// The difference over the expected value; none where that is zero within what is allowed.
fn relative_difference(c: &proof::Comparison) -> Option<f64> {
    let size = c.expected.si().abs();
    (size > c.allowed).then(|| (c.got.si() - c.expected.si()).abs() / size)
}

fn relative(value: Option<f64>) -> String {
    match value {
        None => "-".to_string(),
        Some(v) if v < ROUNDING => "rounding".to_string(),
        Some(v) => plain(round_significant(v, 2)),
    }
}

fn percent(share: Option<f64>) -> String {
    share.map_or_else(|| "-".to_string(), |s| format!("{:.0} %", 100.0 * s))
}

/// Every line of a case that rests on print or a standard.
fn printed(cases: &[Judged]) -> String {
    let strong = |j: &&Judged| matches!(j.case.basis, Basis::Printed | Basis::Standard);
    let mut table = Table::new(&[
        left("relation and output"),
        right("expected"),
        right("got"),
        right("allowed"),
        left("source"),
        left("verdict"),
    ]);
    let mut lines = 0;
    for judged in cases.iter().filter(strong) {
        for line in judged.lines() {
            lines += 1;
            let case = &judged.case;
            let name = format!("{}.{}", case.relation, line.output);
            let verdict = if line.passes { "pass" } else { "MISS" };
            table.row([&name, &line.expected, &line.got, &line.allowed, &case.source, verdict]);
        }
    }
    if table.is_empty() {
        return String::new();
    }
    format!("\n## Printed and standard values\n\n{} compared.\n\n{}", count(lines, "value"), table.markdown())
}
