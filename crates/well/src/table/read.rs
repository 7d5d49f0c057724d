//! From bytes to a table with findings.

use super::cell::{Comma, CommaEvidence, is_absent, looks_numeric};
use super::check;
use super::column::{Caps, Cell, Column, Need};
use super::data::Data;
use super::decode::{decode, is_web_page, not_text};
use super::delimiter::{Delimiter, Splitter, sniff};
use super::header::{Header, Mapped, units_of};
use super::line::{Line, rows};
use super::notes::Notes;
use super::rows::Table;
use super::unit::Scale;
use crate::finding::{Read, Severity};

/// How many rows are searched for the headings.
const HEADER_ROWS: usize = 200;

/// Reads a table with the usual bounds.
pub fn read_table(bytes: &[u8], file: &str, wanted: &[Column]) -> Read<Table> {
    read_table_within(bytes, file, wanted, Caps::default())
}

/// Reads a table within given bounds.
pub fn read_table_within(bytes: &[u8], file: &str, wanted: &[Column], caps: Caps) -> Read<Table> {
    let mut notes = Notes::new(file, caps.findings);
    let table = read(bytes, wanted, caps, &mut notes);
    match table {
        Some(table) => Read::some(table, notes.finish()),
        None => Read::none(notes.finish()),
    }
}

fn read(bytes: &[u8], wanted: &[Column], caps: Caps, notes: &mut Notes) -> Option<Table> {
    if bytes.len() > caps.bytes {
        let message = format!("the file holds {} bytes; at most {} are read", bytes.len(), caps.bytes);
        notes.whole(&check::TOO_LARGE, message);
        return None;
    }
    if let Some(what) = not_text(bytes) {
        notes.whole(&check::NOT_TEXT, format!("the file is {what}, not a text table"));
        return None;
    }
    let (text, encoding) = decode(bytes);
    if is_web_page(&text) {
        notes.add(
            check::NOT_TEXT
                .found("the file is a web page, not a text table")
                .file(notes.file().to_string())
                .next("Open the file in a browser to see what it says, then download the table itself."),
        );
        return None;
    }
    let source = Source { text: &text, splitter: Splitter::new(delimiter_of(&text)), caps };
    let (mut header, at) = source.header(wanted, notes)?;
    let before = rows(&text, source.delimiter().byte())
        .take_while(|l| l.number < at.first)
        .take(HEADER_ROWS)
        .map(|l| (l.number, l.span))
        .collect();
    let after = source.units(&mut header, at.last);
    note_header(&header, at.first, notes);
    let comma = source.commas(&header, after, notes);
    let own_units = source.cells_carry_units(&header, after);
    if !settle_units(&mut header, wanted, &own_units, at.first, notes) {
        return None;
    }
    let kept = source.data(&header, wanted, Data { after, comma }, notes);
    if kept.is_empty() {
        notes.whole(&check::EMPTY, "no row below the headings holds the needed values");
    }
    let (columns, delimiter) = (header.columns, source.delimiter());
    Some(Table { columns, kept, before, encoding, delimiter, header_line: at.first, text })
}

fn is_comment(row: &str) -> bool {
    row.trim_start().starts_with(['#', '%']) || row.trim_start().starts_with("//")
}

fn delimiter_of(text: &str) -> Delimiter {
    let mut sample: Vec<&str> = Vec::new();
    for line in rows(text, None).take(400) {
        let row = line.of(text);
        if let (true, Some(stated)) = (sample.is_empty(), Delimiter::stated(row)) {
            return stated;
        }
        if !row.trim().is_empty() && !is_comment(row) && row.len() < 4000 && sample.len() < 200 {
            sample.push(row);
        }
    }
    sniff(&sample)
}

/// Whether the caller needs the column.
pub(super) fn is_required(wanted: &[Column], name: &str) -> bool {
    wanted.iter().any(|w| w.name == name && w.need == Need::Required)
}

fn lacks_unit(column: &Mapped) -> bool {
    matches!(column.cell, Cell::Quantity(kind) if !kind.unitless) && column.scale.is_none()
}

/// Lines of the headings.
#[derive(Debug, Clone, Copy)]
struct HeaderAt {
    first: usize,
    last: usize,
}

/// The text and how it is cut into cells.
pub(super) struct Source<'t> {
    pub text: &'t str,
    splitter: Splitter,
    pub caps: Caps,
}

impl Source<'_> {
    /// What stands between cells.
    pub(super) fn delimiter(&self) -> Delimiter {
        self.splitter.delimiter()
    }

    fn split(&self, line: &Line) -> Vec<String> {
        let row = line.of(self.text);
        if line.open_quote {
            self.splitter.split(&row.replace('"', ""), self.caps.cells)
        } else {
            self.splitter.split(row, self.caps.cells)
        }
    }

    /// Rows that are neither blank nor comments, below a line.
    pub(super) fn below(&self, line: usize) -> impl Iterator<Item = (Line, Vec<String>)> + '_ {
        rows(self.text, self.delimiter().byte())
            .filter(move |l| l.number > line)
            .filter(|l| !l.of(self.text).trim().is_empty() && !is_comment(l.of(self.text)))
            .map(|l| (l.clone(), self.split(&l)))
            .filter(|(_, cells)| cells.iter().any(|c| !c.is_empty()))
    }

    fn header(&self, wanted: &[Column], notes: &mut Notes) -> Option<(Header, HeaderAt)> {
        let plain: Vec<(Line, Vec<String>)> = self.below(0).take(HEADER_ROWS).collect();
        let spans = (1..=3).flat_map(|n| plain.windows(n));
        let stacked = spans.map(|window| {
            let first = window.first().map_or(0, |(l, _)| l.number);
            let last = window.last().map_or(0, |(l, _)| l.number);
            (Header::read(&stack(window), wanted), HeaderAt { first, last })
        });
        let commented = rows(self.text, self.delimiter().byte()).take(HEADER_ROWS);
        let commented = commented.filter(|l| is_comment(l.of(self.text))).flat_map(|l| {
            let at = HeaderAt { first: l.number, last: l.number };
            let stripped = l.of(self.text).trim_start().trim_start_matches(['#', '%', '/']).trim_start();
            [self.split(&l), self.splitter.split(stripped, self.caps.cells)]
                .map(|c| (Header::read(&c, wanted), at))
        });
        let mut nearest: Option<(Header, HeaderAt)> = None;
        for (header, at) in stacked.chain(commented) {
            if header.is_complete(wanted) {
                return Some((header, at));
            }
            let weight = header.weight(wanted);
            if weight > nearest.as_ref().map_or(0, |(h, _)| h.weight(wanted)) {
                nearest = Some((header, at));
            }
        }
        self.no_header(wanted, nearest, notes);
        None
    }

    fn no_header(&self, wanted: &[Column], nearest: Option<(Header, HeaderAt)>, notes: &mut Notes) {
        let missing = |found: &dyn Fn(&str) -> bool| {
            let list = wanted.iter().filter(|w| w.need == Need::Required && !found(w.name));
            list.map(|w| format!("`{}`", w.name)).collect::<Vec<_>>().join(", ")
        };
        match nearest {
            Some((header, at)) => {
                let lacking = missing(&|name| header.column(name).is_some());
                let shown = header.headings.join(" | ");
                let message = format!("line {} names columns, but none of them is {lacking}", at.first);
                notes.at(&check::NO_HEADER, at.first, &shown, message);
            }
            None => {
                let lacking = missing(&|_| false);
                let message = format!("no row names the columns that are needed: {lacking}");
                notes.whole(&check::NO_HEADER, message);
            }
        }
    }

    /// Takes a row of units below the headings; returns the line the data begin after.
    fn units(&self, header: &mut Header, line: usize) -> usize {
        match self.below(line).next() {
            Some((next, cells)) if header.take_units(&cells) => next.number,
            _ => line,
        }
    }

    fn commas(&self, header: &Header, after: usize, notes: &mut Notes) -> Comma {
        let mut evidence = CommaEvidence::default();
        let mut first: Option<(usize, String)> = None;
        for (line, cells) in self.below(after).take(self.caps.rows) {
            for (_, cell) in quantities(header, &cells) {
                if cell.contains(',') && first.is_none() {
                    first = Some((line.number, line.of(self.text).to_string()));
                }
                evidence.add(cell);
            }
        }
        let comma = evidence.verdict();
        if let Some((line, shown)) = first {
            match comma {
                Comma::Decimal => {
                    notes.at(&check::DECIMAL_COMMA, line, &shown, "commas are read as decimal points")
                }
                Comma::Thousands => {
                    notes.at(&check::THOUSANDS, line, &shown, "commas are read as marks between thousands");
                }
                Comma::Unused | Comma::Unknown => {}
            }
        }
        comma
    }

    /// Which quantity columns write the unit into every filled cell.
    fn cells_carry_units(&self, header: &Header, after: usize) -> Vec<&'static str> {
        let mut bare: Vec<&'static str> = Vec::new();
        for (_, cells) in self.below(after).take(self.caps.rows) {
            for (column, cell) in quantities(header, &cells) {
                if looks_numeric(cell) && !bare.contains(&column.name) {
                    bare.push(column.name);
                }
            }
        }
        header.columns.iter().map(|c| c.name).filter(|n| !bare.contains(n)).collect()
    }
}

/// Heading rows read as one.
fn stack(window: &[(Line, Vec<String>)]) -> Vec<String> {
    let width = window.iter().map(|(_, cells)| cells.len()).max().unwrap_or(0);
    let cell = |at: usize| {
        let parts: Vec<&str> = window.iter().filter_map(|(_, c)| c.get(at)).map(String::as_str).collect();
        parts.join(" ").trim().to_string()
    };
    (0..width).map(cell).collect()
}

/// The filled cells under quantity columns.
fn quantities<'a>(header: &'a Header, cells: &'a [String]) -> impl Iterator<Item = (&'a Mapped, &'a str)> {
    let columns = header.columns.iter().filter(|c| matches!(c.cell, Cell::Quantity(_)));
    columns
        .filter_map(|c| cells.get(c.at).map(|cell| (c, cell.as_str())))
        .filter(|(_, cell)| !is_absent(cell))
}

/// The headings as one line, for findings on them.
fn shown(header: &Header) -> String {
    header.headings.join(" | ")
}

fn note_header(header: &Header, line: usize, notes: &mut Notes) {
    let shown = shown(header);
    for (name, heading) in &header.twice {
        let used = header.column(name).map(|c| c.heading.clone()).unwrap_or_default();
        let message = format!("`{used}` is used for {name}; `{heading}` is left out");
        notes.at(&check::COLUMN_TWICE, line, &shown, message);
    }
}

/// Gives each column without a unit the assumed one, or says that it has none and leaves it out;
/// false when a needed column has none.
fn settle_units(
    header: &mut Header,
    wanted: &[Column],
    own: &[&str],
    line: usize,
    notes: &mut Notes,
) -> bool {
    let shown = shown(header);
    let mut unsettled: Vec<&'static str> = Vec::new();
    for column in header.columns.iter_mut().filter(|c| lacks_unit(c) && !own.contains(&c.name)) {
        let Cell::Quantity(kind) = column.cell else { continue };
        let assumed = wanted.iter().find(|w| w.name == column.name).and_then(|w| w.assumed);
        column.scale = assumed.and_then(|u| Scale::find(kind, u));
        if let Some(scale) = &column.scale {
            let message = format!("column `{}` states no unit; {} is assumed", column.heading, scale.symbol);
            notes.at(&check::UNIT_ASSUMED, line, &shown, message);
            continue;
        }
        unsettled.push(column.name);
        let units = units_of(kind);
        let message = format!(
            "column `{}` states no unit of {}; write it into the heading, one of: {units}",
            column.heading, kind.name
        );
        let needed = is_required(wanted, column.name);
        let weight = if needed { Severity::Stop } else { Severity::Warn };
        let finding = check::UNIT_MISSING.found(message).line(notes.file().to_string(), line, shown.as_str());
        notes.add(finding.severity(weight));
    }
    header.columns.retain(|c| !unsettled.contains(&c.name));
    !unsettled.iter().any(|name| is_required(wanted, name))
}
