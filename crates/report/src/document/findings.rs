//! Findings, stops first; assumptions.

use well::record::Assumption;
use well::{Finding, Severity};

use super::Desk;
use super::block::{Block, Column, FindingEntry, Paper, Table, Tone, fact};
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
    let findings = entries(&program.findings, desk.units);
    paper.blocks.push(Block::Findings { findings });
    paper.next_section(
        "Assumptions",
        "Taken because the job file gives no figure. Give the field in the job file to replace one.",
    );
    let (fields, taken): (Vec<&Assumption>, Vec<&Assumption>) = program
        .assumptions
        .iter()
        .partition(|a| desk.job.document.assumptions.iter().any(|b| b.field == a.field));
    if fields.is_empty() {
        paper.text("None: the job file gives every figure.");
    } else {
        let mut table = Table::new(vec![
            Column::wide("field of the job file", 1.2),
            Column::wide("taken", 0.8),
            Column::wide("basis", 3.0),
        ]);
        for a in fields {
            table.row(vec![
                a.field.clone().into(),
                pretty(&a.value.text(desk.units.0)).into(),
                a.basis.clone().into(),
            ]);
        }
        paper.table(table);
    }
    if !taken.is_empty() {
        paper.heading("Taken by the computations; no field replaces them");
        let mut table = Table::new(vec![Column::words("part"), Column::wide("what is taken", 1.0)]);
        let mut last = "";
        for a in taken {
            let part = if last == a.field { "" } else { a.field.as_str() };
            last = &a.field;
            table.row(vec![part.into(), super::units::sentence(&pretty(&a.value.text(desk.units.0))).into()]);
        }
        paper.table(table);
    }
}

/// A finding in one sentence with its place.
pub(super) fn sentence(finding: &Finding, u: Units) -> String {
    super::units::sentence(&pretty(&finding.sentence(u.0)))
}

/// Findings that follow one another and differ in place and message alone go together.
fn entries(findings: &[Finding], u: Units) -> Vec<FindingEntry> {
    let mut out: Vec<FindingEntry> = Vec::new();
    for f in findings {
        let (tone, line) = (tone(f.severity), fact(place(f, u), sentence(f, u)));
        let next = f.next.text(u.0);
        match out.last_mut() {
            Some(last) if last.tone == tone && last.id == f.id && last.next == next => last.lines.push(line),
            _ => out.push(FindingEntry { tone, id: f.id.to_string(), lines: vec![line], next }),
        }
    }
    out
}

fn tone(severity: Severity) -> Tone {
    match severity {
        Severity::Stop => Tone::Stop,
        Severity::Warn => Tone::Warn,
        Severity::Note => Tone::Note,
    }
}

fn place(finding: &Finding, u: Units) -> String {
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
    place.join("; ")
}
