//! The table as read: rows with their lines.

use std::ops::Range;

use super::decode::Encoding;
use super::delimiter::Delimiter;
use super::header::Mapped;
use quantity::Quantity;

/// What a cell holds.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Held {
    /// Nothing, or something that was refused with a finding.
    Nothing,
    /// SI number of the column's kind.
    Number(f64),
    /// Words.
    Words(String),
}

/// One data row as kept.
#[derive(Debug, Clone)]
pub(super) struct Kept {
    pub line: usize,
    pub span: Range<usize>,
    pub held: Vec<Held>,
    pub faulty: bool,
}

/// A table as read.
#[derive(Debug, Clone)]
pub struct Table {
    pub(super) text: String,
    pub(super) columns: Vec<Mapped>,
    pub(super) kept: Vec<Kept>,
    pub(super) before: Vec<(usize, Range<usize>)>,
    /// How the bytes were read.
    pub encoding: Encoding,
    /// What stands between cells.
    pub delimiter: Delimiter,
    /// Line of the headings, from 1.
    pub header_line: usize,
}

/// One data row.
#[derive(Debug, Clone, Copy)]
pub struct Row<'t> {
    table: &'t Table,
    kept: &'t Kept,
}

impl Table {
    /// The data rows in file order.
    pub fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.kept.iter().map(|kept| Row { table: self, kept })
    }

    /// How many data rows there are.
    pub fn len(&self) -> usize {
        self.kept.len()
    }

    /// Whether there is no data row.
    pub fn is_empty(&self) -> bool {
        self.kept.is_empty()
    }

    /// Whether the file has the wanted column.
    pub fn has(&self, name: &str) -> bool {
        self.columns.iter().any(|c| c.name == name)
    }

    /// The wanted columns found, with heading and unit.
    pub fn columns(&self) -> &[Mapped] {
        &self.columns
    }

    /// The lines above the headings, comments included, with their numbers.
    pub fn preamble(&self) -> impl Iterator<Item = (usize, &str)> {
        self.before.iter().map(|(n, span)| (*n, self.text.get(span.clone()).unwrap_or_default()))
    }
}

impl<'t> Row<'t> {
    /// The quantity under the wanted column, if the cell holds one.
    pub fn get<Q: Quantity>(&self, name: &str) -> Option<Q> {
        let (column, held) = self.find(name)?;
        match (held, column.cell) {
            (Held::Number(si), super::Cell::Quantity(kind)) if kind == Q::KIND => Some(Q::from_si(*si)),
            _ => None,
        }
    }

    /// The words under the wanted column, if there are any.
    pub fn text(&self, name: &str) -> Option<&'t str> {
        match self.find(name)?.1 {
            Held::Words(words) => Some(words),
            _ => None,
        }
    }

    /// Line in the file, from 1.
    pub fn line(&self) -> usize {
        self.kept.line
    }

    /// The line as it stands in the file.
    pub fn shown(&self) -> &'t str {
        self.table.text.get(self.kept.span.clone()).unwrap_or_default()
    }

    /// Whether a needed cell of the row is empty or cannot be read; a finding says which.
    pub fn is_faulty(&self) -> bool {
        self.kept.faulty
    }

    fn find(&self, name: &str) -> Option<(&'t Mapped, &'t Held)> {
        self.table.columns.iter().zip(&self.kept.held).find(|(c, _)| c.name == name)
    }
}
