//! What a reader wants of a table: its columns, under the names files use for them.

use quantity::{Kind, Quantity};

/// What the cells of a column hold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cell {
    /// A quantity.
    Quantity(&'static Kind),
    /// Words.
    Text,
}

/// Whether a table without the column is of use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Need {
    /// It is not.
    Required,
    /// It is.
    Optional,
}

/// One wanted column.
#[derive(Debug, Clone, Copy)]
pub struct Column {
    /// Name by which the caller asks for it, also taken as a heading.
    pub name: &'static str,
    /// Other headings, in lower case, words parted by single spaces, no signs and no unit; where
    /// a table has several, the one named first here is used.
    pub names: &'static [&'static str],
    /// What its cells hold.
    pub cell: Cell,
    /// Whether it must be there.
    pub need: Need,
    /// Unit of bare numbers when the file states none; its use is a finding.
    pub assumed: Option<&'static str>,
}

impl Column {
    /// A quantity that must be there.
    pub const fn required<Q: Quantity>(name: &'static str, names: &'static [&'static str]) -> Self {
        Self { name, names, cell: Cell::Quantity(Q::KIND), need: Need::Required, assumed: None }
    }

    /// A quantity that may be there.
    pub const fn optional<Q: Quantity>(name: &'static str, names: &'static [&'static str]) -> Self {
        Self { name, names, cell: Cell::Quantity(Q::KIND), need: Need::Optional, assumed: None }
    }

    /// Words that may be there.
    pub const fn text(name: &'static str, names: &'static [&'static str]) -> Self {
        Self { name, names, cell: Cell::Text, need: Need::Optional, assumed: None }
    }

    /// The same with a unit assumed for bare numbers where the file states none.
    pub const fn assuming(mut self, unit: &'static str) -> Self {
        self.assumed = Some(unit);
        self
    }
}

/// Bounds on what is read.
#[derive(Debug, Clone, Copy)]
pub struct Caps {
    /// Most bytes of the file.
    pub bytes: usize,
    /// Most data rows.
    pub rows: usize,
    /// Most cells in a row.
    pub cells: usize,
    /// Most findings of one check; the rest is counted.
    pub findings: usize,
}

impl Default for Caps {
    fn default() -> Self {
        Self { bytes: 32 << 20, rows: 200_000, cells: 256, findings: 20 }
    }
}
