//! Reference cases on a terminal: one line a case, what missed in full, and the summary.

use crate::text::family::Families;
use crate::text::look::{Look, Role, count};
use crate::text::table::{Column, Table, left, right};
use crate::text::verdict::{Judged, Line, Tally, by_basis, by_family};

const COLUMNS: [Column; 8] = [
    left("verdict"),
    left("relation and output"),
    right("expected"),
    right("got"),
    right("difference"),
    right("allowed"),
    left("source"),
    left("case"),
];

/// One line a case: the output furthest from its expected value by what is allowed, with how
/// many more there are.
pub fn lines(cases: &[Judged], look: &Look) -> String {
    if cases.is_empty() {
        return String::new();
    }
    let mut table = Table::new(&COLUMNS);
    for judged in cases {
        let all = judged.lines();
        let more = all.len().saturating_sub(1);
        if let Some(line) = judged.worst() {
            table.row(row(judged, &line, more));
        }
    }
    let mut out = String::new();
    for line in table.lines() {
        let missed = line.starts_with("MISS");
        out += &if missed { look.paint(Role::Stop, &line) } else { line };
        out += "\n";
    }
    out
}

fn row(judged: &Judged, line: &Line, more: usize) -> [String; 8] {
    let case = &judged.case;
    let output = match more {
        0 => format!("{}.{}", case.relation, line.output),
        n => format!("{}.{} (worst of {})", case.relation, line.output, n + 1),
    };
    [
        if judged.passes() { "pass" } else { "MISS" }.to_string(),
        output,
        clip(&line.expected),
        clip(&line.got),
        line.difference.clone(),
        line.allowed.clone(),
        format!("{}: {}", case.basis.word(), case.source),
        case.name.clone(),
    ]
}

/// The words of a refusal are cut here; JSON and the page of a miss have them in full.
fn clip(text: &str) -> String {
    /// Columns of a figure with its unit.
    const LONGEST: usize = 32;
    match text.chars().count() > LONGEST {
        true => text.chars().take(LONGEST - 3).chain("...".chars()).collect(),
        false => text.to_string(),
    }
}

/// Every case that missed, with its file, inputs and all outputs.
pub fn misses(cases: &[Judged], look: &Look) -> String {
    let mut out = String::new();
    for judged in cases.iter().filter(|j| !j.passes()) {
        let case = &judged.case;
        let title = format!("MISS  {}: {}", judged.file, case.name);
        out += &look.paint(Role::Stop, look.wrap(0, &title).trim_end());
        out += "\n";
        out += &look.hang("  relation", 13, &case.relation);
        out += &look.hang("  source", 13, &format!("{} ({})", case.source, case.basis.word()));
        let inputs: Vec<String> = case.inputs.iter().map(|(k, v)| format!("{k} = {v}")).collect();
        out += &look.hang("  inputs", 13, &inputs.join("; "));
        if !case.reason.is_empty() {
            out += &look.hang("  tolerance", 13, &case.reason);
        }
        out += &outputs(judged).render(look, 4);
        out += "\n";
    }
    out
}

fn outputs(judged: &Judged) -> Table {
    let mut table = Table::new(&[
        left("output"),
        right("expected"),
        right("got"),
        right("difference"),
        right("allowed"),
        left(""),
    ]);
    for line in judged.lines() {
        let word = if line.passes { "pass" } else { "MISS" };
        table.row([&line.output, &line.expected, &line.got, &line.difference, &line.allowed, word]);
    }
    table
}

/// Counts by basis and by family, and the closing line.
pub fn summary(cases: &[Judged], families: &Families, look: &Look) -> String {
    let mut out = String::new();
    if !cases.is_empty() {
        out += &tally_table("basis", by_basis(cases)).render(look, 0);
        out += "\n";
        out += &tally_table("family", by_family(cases, families)).render(look, 0);
        out += "\n";
    }
    out + &closing(cases) + "\n"
}

/// `12 passed, 0 failed`.
pub fn closing(cases: &[Judged]) -> String {
    let total = Tally::of(cases);
    format!("{}: {} passed, {} failed", count(total.cases(), "reference case"), total.passed, total.failed)
}

fn tally_table(head: &'static str, tallies: Vec<(&'static str, Tally)>) -> Table {
    let mut table = Table::new(&[left(head), right("cases"), right("passed"), right("missed")]);
    for (name, tally) in tallies {
        table.row([
            name.to_string(),
            tally.cases().to_string(),
            tally.passed.to_string(),
            tally.failed.to_string(),
        ]);
    }
    table
}
