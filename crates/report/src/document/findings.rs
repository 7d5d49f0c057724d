//! Findings, stops first; assumptions.

use well::{Finding, Severity};

use super::Desk;
use super::block::{Block, Column, FindingEntry, Paper, Table, Tone};
use super::units::{Units, pretty};
use crate::text::look::count;

/// Both lists.
pub(super) fn pages(desk: &Desk<'_>, paper: &mut Paper) {
    let program = desk.program;
    let counts = [Severity::Stop, Severity::Warn, Severity::Note].map(|s| count(program.count(s), s.word()));
    let lead = format!(
        "{}. A stop must be cleared before the job; a warning must be decided on and signed for.",
        counts.join(", ")
    );
    paper.section("Findings", &lead);
    let findings = program.findings.iter().map(|f| entry(f, desk.units)).collect();
    paper.blocks.push(Block::Findings { findings });
    paper.next_section(
        "Assumptions",
        "Taken because the job file gives no figure. Give the field in the job file to replace one.",
    );
    if program.assumptions.is_empty() {
        paper.text("None: the job file gives every figure.");
    } else {
        let mut table = Table::new(vec![
            Column::wide("field of the job file", 1.2),
            Column::wide("taken", 0.8),
            Column::wide("basis", 3.0),
        ]);
        for a in &program.assumptions {
            table.row(vec![a.field.clone().into(), pretty(&a.value).into(), a.basis.clone().into()]);
        }
        paper.table(table);
    }
    taken_by_phases(desk, paper);
}

/// What the phases took beyond the job file.
fn taken_by_phases(desk: &Desk<'_>, paper: &mut Paper) {
    let mut lines: Vec<(&str, &String)> = Vec::new();
    if let Some(ladder) = &desk.program.ladder {
        lines.extend(ladder.assumptions.iter().map(|a| ("ladder", a)));
    }
    if lines.is_empty() {
        return;
    }
    paper.heading("Taken by the computations");
    let mut table = Table::new(vec![Column::words("part"), Column::wide("what is taken", 1.0)]);
    for (part, text) in lines {
        table.row(vec![part.into(), text.clone().into()]);
    }
    paper.table(table);
}

/// A finding in one sentence with its place.
pub(super) fn sentence(finding: &Finding, u: Units) -> String {
    pretty(&finding.sentence(u.0))
}

fn entry(finding: &Finding, u: Units) -> FindingEntry {
    let p = &finding.place;
    let mut place = Vec::new();
    place.extend(p.stage.map(|s| format!("stage {s}")));
    place.extend(p.depth.map(|d| u.text(d)));
    place.extend(p.field.clone());
    match (&p.file, p.line) {
        (Some(file), Some(line)) => place.push(format!("{file}, line {line}")),
        (Some(file), None) => place.push(file.clone()),
        _ => {}
    }
    FindingEntry {
        tone: match finding.severity {
            Severity::Stop => Tone::Stop,
            Severity::Warn => Tone::Warn,
            Severity::Note => Tone::Note,
        },
        id: finding.id.to_string(),
        place: place.join("; "),
        text: sentence(finding, u),
        next: finding.next.clone(),
    }
}
