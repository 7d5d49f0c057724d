//! The data rows: what is kept, what is passed over, what is refused.

use super::cell::{CellFault, Comma, is_absent, looks_numeric, quantity};
use super::check;
use super::column::{Cell, Column};
use super::delimiter::Delimiter;
use super::header::{Header, Mapped, units_of};
use super::line::Line;
use super::notes::Notes;
use super::read::{Source, is_required};
use super::rows::{Held, Kept};
use crate::finding::Severity;

/// Where the data begin and what their commas mean.
#[derive(Debug, Clone, Copy)]
pub(super) struct Data {
    /// Line above the data.
    pub after: usize,
    /// Meaning of a comma.
    pub comma: Comma,
}

impl Source<'_> {
    /// The rows that are kept.
    pub(super) fn data(
        &self,
        header: &Header,
        wanted: &[Column],
        data: Data,
        notes: &mut Notes,
    ) -> Vec<Kept> {
        let mut kept = Vec::new();
        for (line, cells) in self.below(data.after) {
            let row = line.of(self.text);
            if kept.len() == self.caps.rows {
                let message = format!("only the first {} rows are read", self.caps.rows);
                notes.at(&check::TOO_LARGE, line.number, row, message);
                break;
            }
            if line.open_quote {
                notes.at(&check::OPEN_QUOTE, line.number, row, "a quotation mark is opened and not closed");
            }
            if cells == header.headings {
                continue;
            }
            if is_remark(header, wanted, &cells) {
                notes.at(
                    &check::PASSED_OVER,
                    line.number,
                    row,
                    "the row holds no numbers where they are needed",
                );
                continue;
            }
            if too_many_cells(self, header, &cells, &line, notes) {
                continue;
            }
            kept.push(keep(self, header, wanted, (&line, &cells, data.comma), notes));
        }
        kept
    }
}

/// A row that holds no number in any column of interest and lacks every needed one.
fn is_remark(header: &Header, wanted: &[Column], cells: &[String]) -> bool {
    let starts_numeric =
        |cell: &str| cell.trim_start_matches(['-', '+', '.']).starts_with(|c: char| c.is_ascii_digit());
    let interesting = header.columns.iter().filter_map(|c| cells.get(c.at));
    let any_number = interesting.clone().any(|c| looks_numeric(c));
    let needed =
        header.columns.iter().filter(|c| is_required(wanted, c.name)).filter_map(|c| cells.get(c.at));
    !any_number && !needed.clone().any(|c| starts_numeric(c))
}

/// Filled cells beyond the headings: a fault when decimal commas could be the reason.
fn too_many_cells(
    source: &Source,
    header: &Header,
    cells: &[String],
    line: &Line,
    notes: &mut Notes,
) -> bool {
    let filled = cells.iter().rposition(|c| !c.is_empty()).map_or(0, |at| at + 1);
    let headings = header.headings.len();
    if filled <= headings {
        return false;
    }
    let points = cells.iter().any(|c| looks_numeric(c) && c.contains('.'));
    let split_numbers = source.delimiter() == Delimiter::Comma && !points;
    let message = format!("the row has {filled} cells under {headings} headings");
    let finding =
        check::MORE_CELLS.found(message).line(notes.file().to_string(), line.number, line.of(source.text));
    let weight = if split_numbers { Severity::Stop } else { Severity::Warn };
    notes.add(finding.severity(weight));
    split_numbers
}

fn keep(
    source: &Source,
    header: &Header,
    wanted: &[Column],
    (line, cells, comma): (&Line, &[String], Comma),
    notes: &mut Notes,
) -> Kept {
    let mut faulty = false;
    let mut held = Vec::with_capacity(header.columns.len());
    for column in &header.columns {
        let cell = cells.get(column.at).map(String::as_str).unwrap_or_default();
        held.push(match column.cell {
            _ if is_absent(cell) => {
                if is_required(wanted, column.name) {
                    faulty = true;
                    let message = format!("the row has no {}", column.name);
                    notes.at(&check::NO_CELL, line.number, line.of(source.text), message);
                }
                Held::Nothing
            }
            Cell::Text => Held::Words(cell.to_string()),
            Cell::Quantity(kind) => match quantity(cell, kind, column.scale.as_ref(), comma) {
                Ok(si) => Held::Number(si),
                Err(fault) => {
                    faulty |= is_required(wanted, column.name);
                    note_fault(source, column, (line, cell, fault), is_required(wanted, column.name), notes);
                    Held::Nothing
                }
            },
        });
    }
    Kept { line: line.number, span: line.span.clone(), held, faulty }
}

/// A cell that cannot be read stops the job in a needed column, and is a warning elsewhere.
fn note_fault(
    source: &Source,
    column: &Mapped,
    (line, cell, fault): (&Line, &str, CellFault),
    needed: bool,
    notes: &mut Notes,
) {
    let finding = check::BAD_CELL.found(fault_message(fault, cell, column));
    let weight = if needed { Severity::Stop } else { Severity::Warn };
    let finding = finding.line(notes.file().to_string(), line.number, line.of(source.text));
    notes.add(finding.severity(weight));
}

fn fault_message(fault: CellFault, cell: &str, column: &Mapped) -> String {
    let cell: String = cell.chars().take(40).collect();
    let name = column.name;
    let units = match column.cell {
        Cell::Quantity(kind) => units_of(kind),
        Cell::Text => String::new(),
    };
    match fault {
        CellFault::NotANumber => format!("{name}: `{cell}` is not a number"),
        CellFault::TwoReadings => {
            format!(
                "{name}: `{cell}` can be read in two ways; write a point for the decimals and no other mark"
            )
        }
        CellFault::NoUnit => format!("{name}: `{cell}` has no unit; use one of: {units}"),
        CellFault::WrongUnit => format!("{name}: `{cell}` has a unit that does not fit; use one of: {units}"),
    }
}
