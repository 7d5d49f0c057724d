//! The layout of the data section: what parts the values, how many columns there are, and
//! whether a row takes one line or several. The data lines decide; what the header claims is
//! held against them.

use crate::las::cell::{Cell, Delimiter, cell, part_run_on};
use crate::las::check;
use crate::las::header::Header;
use crate::las::limit;
use crate::las::model::Wrap;
use crate::las::notes::{Notes, Refusal};
use crate::las::section::Section;
use std::collections::BTreeMap;

/// The layout of the data section.
#[derive(Debug, Clone, Copy)]
pub(super) struct Layout {
    pub(super) delimiter: Delimiter,
    pub(super) wrap: Wrap,
    pub(super) columns: usize,
}

/// One value of a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Value<'a> {
    /// As it stands.
    Text(&'a str),
    /// Parted from a neighbour it had run into.
    Parted(f64),
    /// Run into a neighbour beyond recovery, or not to be placed.
    Lost,
}

/// What a walk over the data lines counts.
#[derive(Debug, Default)]
struct Survey {
    lines: usize,
    /// How many lines have how many values, run-on numbers parted where that makes a row.
    counts: BTreeMap<usize, usize>,
    /// Whether rows of several lines come out: every row ends at a line end.
    wrapped: bool,
    /// Values in the row not yet complete.
    open: usize,
}

/// Finds the layout.
pub(super) fn find_layout(section: &Section, header: &Header, notes: &mut Notes) -> Result<Layout, Refusal> {
    let curves = header.curves.len();
    let delimiter = delimiter(section, header, notes);
    let survey = survey(section, delimiter, curves);
    let mode = survey.counts.iter().max_by_key(|(_, lines)| **lines).map_or(0, |(count, _)| *count);
    let share = |count: usize| share(survey.counts.get(&count).copied().unwrap_or(0), survey.lines);
    let single = |columns| Layout { delimiter, wrap: Wrap::No, columns };
    if survey.lines == 0 {
        return Ok(single(curves));
    }
    if mode > limit::CURVES {
        let message = format!("a data line has {mode} values; at most {} are read", limit::CURVES);
        return Err(notes.refuse(&check::LIMIT, message));
    }
    let declared = header.wrap == Some(Wrap::Yes);
    if curves > 0 && share(curves) >= 0.5 {
        if declared && curves > 1 {
            notes.file(&check::WRAP, "WRAP says YES, but each row stands on one line");
        }
        return Ok(single(curves));
    }
    if survey.wrapped && (declared || survey.counts.len() > 1) {
        if !declared {
            notes.file(&check::WRAP, "WRAP does not say YES, but each row takes several lines");
        }
        return Ok(Layout { delimiter, wrap: Wrap::Yes, columns: curves });
    }
    if !declared && share(mode) >= 0.9 {
        note_columns(mode, header, notes);
        return Ok(single(mode));
    }
    let found: Vec<String> = survey.counts.keys().take(6).map(usize::to_string).collect();
    let message = format!("{curves} curves are declared; the data lines have {} values", found.join(", "));
    Err(notes.refuse(&check::ROW_SHAPE, message))
}

fn share(part: usize, whole: usize) -> f64 {
    if whole == 0 { 0.0 } else { part as f64 / whole as f64 }
}

fn note_columns(columns: usize, header: &Header, notes: &mut Notes) {
    let names = |list: &[crate::las::Item]| {
        let names: Vec<&str> = list.iter().take(6).map(|i| i.mnemonic.as_str()).collect();
        names.join(", ")
    };
    let curves = header.curves.len();
    if curves == 0 {
        return;
    }
    let message = match header.curves.get(columns..) {
        Some(absent) => {
            format!(
                "{curves} curves are declared and the rows have {columns} values; without any: {}",
                names(absent)
            )
        }
        None => {
            format!("{curves} curves are declared and the rows have {columns} values; the last are unnamed")
        }
    };
    notes.file(&check::COLUMNS, message);
}

/// The declared delimiter, unless another one gives the right number of columns more often.
fn delimiter(section: &Section, header: &Header, notes: &mut Notes) -> Delimiter {
    let declared = header.delimiter.unwrap_or(Delimiter::Blank);
    let mut values = Vec::new();
    let mut score = |delimiter: Delimiter| {
        let (mut fits, mut numbers, mut all) = (0, 0, 0);
        for line in section.lines().take(100) {
            delimiter.part(line.text, &mut values);
            let fit = values.len() == header.curves.len() || (header.curves.is_empty() && values.len() > 1);
            fits += usize::from(fit);
            all += values.len();
            numbers += values.iter().filter(|v| matches!(cell(v), Cell::Number(_))).count();
        }
        // Fits first; where nothing fits (rows of several lines) the share of numbers.
        (fits, (100.0 * share(numbers, all)) as usize)
    };
    let mut best = (declared, score(declared));
    for other in [Delimiter::Blank, Delimiter::Comma, Delimiter::Tab] {
        let scored = score(other);
        let more = scored.0 > best.1.0 || (best.1.0 == 0 && scored.0 == 0 && scored.1 > best.1.1);
        if other != declared && more {
            best = (other, scored);
        }
    }
    // Blanks take tabs in; only empty cells tell them apart.
    let quiet = header.delimiter.is_none() && best.0 == Delimiter::Tab;
    if best.0 != declared && !quiet {
        let said = if header.delimiter.is_some() { "DLM says" } else { "DLM is not given, which means" };
        let message = format!("{said} {}, but the values are parted by {}", declared.word(), best.0.word());
        notes.file(&check::DELIMITER, message);
    }
    best.0
}

fn survey(section: &Section, delimiter: Delimiter, curves: usize) -> Survey {
    let mut survey = Survey { wrapped: curves > 1, ..Survey::default() };
    let (mut values, mut scratch) = (Vec::new(), Vec::new());
    for line in section.lines() {
        survey.lines += 1;
        part_line(line.text, delimiter, curves, &mut values, &mut scratch);
        let mut count = values.len();
        *survey.counts.entry(count).or_insert(0) += 1;
        if survey.wrapped && count < curves && part_every_run_on(&mut values, &mut scratch) {
            count = values.len();
        }
        survey.open += count;
        if survey.open == curves {
            survey.open = 0;
        } else if survey.open > curves {
            survey.wrapped = false;
        }
    }
    survey
}

/// The values of one line. Where they are fewer than `expected`, numbers that ran together are
/// parted, if that gives the number expected.
pub(super) fn part_line<'a>(
    line: &'a str,
    delimiter: Delimiter,
    expected: usize,
    values: &mut Vec<Value<'a>>,
    scratch: &mut Vec<Value<'a>>,
) -> bool {
    values.clear();
    let mut texts = Vec::new();
    delimiter.part(line, &mut texts);
    values.extend(texts.iter().map(|t| Value::Text(t)));
    if delimiter != Delimiter::Blank || values.len() >= expected {
        return false;
    }
    let whole = values.clone();
    if part_every_run_on(values, scratch) && values.len() == expected {
        return true;
    }
    *values = whole;
    false
}

/// Parts every value in which numbers ran together; whether there was one.
pub(super) fn part_every_run_on<'a>(values: &mut Vec<Value<'a>>, scratch: &mut Vec<Value<'a>>) -> bool {
    scratch.clear();
    let mut parts = Vec::new();
    let mut any = false;
    for value in values.iter() {
        parts.clear();
        match value {
            Value::Text(text) if part_run_on(text, &mut parts) => {
                any = true;
                scratch.extend(parts.iter().map(|p| p.map_or(Value::Lost, Value::Parted)));
            }
            other => scratch.push(*other),
        }
    }
    if any {
        std::mem::swap(values, scratch);
    }
    any
}
