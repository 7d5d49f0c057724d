//! What a LAS file holds.

use crate::las::unit;
use quantity::{Diameter, MeasuredDepth};

/// A LAS file as read.
#[derive(Debug, Clone)]
pub struct Las {
    /// Name of the file.
    pub file: String,
    /// How its characters are coded.
    pub encoding: Encoding,
    /// Version of the standard it follows.
    pub version: Version,
    /// How the rows are laid out, as found in the data (not as the header claims).
    pub wrap: Wrap,
    /// The declared null value.
    pub null: Option<f64>,
    /// Items of the well section.
    pub well: Vec<Item>,
    /// Items of the parameter section.
    pub parameters: Vec<Item>,
    /// Text of the other-information section.
    pub other: String,
    /// The curves, in the order of the file, the index among them.
    pub curves: Vec<Curve>,
    /// What the rows are listed by.
    pub index: Index,
}

/// How the characters of the file are coded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Encoding {
    /// UTF-8, of which ASCII is a part.
    Utf8,
    /// UTF-16, low byte first.
    Utf16Le,
    /// UTF-16, high byte first.
    Utf16Be,
    /// Windows-1252, of which Latin-1 text is a part.
    Windows1252,
}

/// The version of the standard.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Version {
    /// 1.2: most well items stand after the colon.
    V1,
    /// 2.0: values stand before the colon.
    V2,
    /// 3.0: sections are named in full.
    V3,
}

/// How the rows of data are laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wrap {
    /// One line a row.
    No,
    /// Several lines a row.
    Yes,
}

/// One line of a header section.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Item {
    /// Short name.
    pub mnemonic: String,
    /// Unit, as written.
    pub unit: String,
    /// Value, as written.
    pub value: String,
    /// Description.
    pub description: String,
    /// Line of the file, from 1.
    pub line: usize,
}

/// One column of data.
#[derive(Debug, Clone)]
pub struct Curve {
    /// Short name, as written; empty if the file has none.
    pub mnemonic: String,
    /// Unit, as written.
    pub unit: String,
    /// API code, as written.
    pub code: String,
    /// Description.
    pub description: String,
    /// The values, one a row.
    pub data: Data,
}

/// The values of a curve.
#[derive(Debug, Clone)]
pub enum Data {
    /// Numbers in the curve's unit; `NaN` where there is none.
    Numbers(Vec<f64>),
    /// Words.
    Text(TextColumn),
}

/// A column of words, held in one piece.
#[derive(Debug, Clone, Default)]
pub struct TextColumn {
    text: String,
    ends: Vec<usize>,
}

/// What the rows are listed by.
#[derive(Debug, Clone)]
pub enum Index {
    /// Measured depth.
    Depth {
        /// The index curve, counted from 0.
        curve: usize,
        /// The depths, one a row.
        depths: Vec<MeasuredDepth>,
    },
    /// Vertical depth, which a hole cannot be described by.
    Vertical {
        /// The index curve, counted from 0.
        curve: usize,
    },
    /// Time.
    Time {
        /// The index curve, counted from 0.
        curve: usize,
    },
    /// Something else, or a depth without a unit.
    Other {
        /// The index curve, counted from 0.
        curve: usize,
    },
    /// There are no curves.
    None,
}

impl Index {
    /// The index curve, counted from 0.
    pub fn curve(&self) -> Option<usize> {
        match self {
            Index::Depth { curve, .. }
            | Index::Vertical { curve }
            | Index::Time { curve }
            | Index::Other { curve } => Some(*curve),
            Index::None => None,
        }
    }
}

impl Las {
    /// The number of rows.
    pub fn rows(&self) -> usize {
        self.curves.first().map_or(0, Curve::len)
    }

    /// The depths of the rows, if the file is listed by measured depth.
    pub fn depths(&self) -> Option<&[MeasuredDepth]> {
        match &self.index {
            Index::Depth { depths, .. } => Some(depths),
            _ => None,
        }
    }

    /// The curve of that name, upper or lower case. Of several with one name the first is
    /// `NAME`, and `NAME:2` the second.
    pub fn curve(&self, name: &str) -> Option<&Curve> {
        let named = |wanted: &str, nth: usize| {
            self.curves.iter().filter(|c| c.mnemonic.eq_ignore_ascii_case(wanted)).nth(nth)
        };
        named(name.trim(), 0).or_else(|| {
            let (wanted, nth) = name.trim().rsplit_once(':')?;
            named(wanted, nth.parse::<usize>().ok()?.checked_sub(1)?)
        })
    }

    /// The item of that name in the parameter section, else in the well section.
    pub fn item(&self, name: &str) -> Option<&Item> {
        let named = |i: &&Item| i.mnemonic.eq_ignore_ascii_case(name);
        self.parameters.iter().find(named).or_else(|| self.well.iter().find(named))
    }

    /// A diameter of the header, such as the bit size.
    pub fn diameter(&self, name: &str) -> Option<Diameter> {
        let item = self.item(name)?;
        let value = item.number().filter(|v| v.is_finite() && *v > 0.0)?;
        let written = item.value.split_whitespace().nth(1).unwrap_or("");
        let unit = if item.unit.is_empty() { written } else { &item.unit };
        Some(Diameter::m(value * unit::diameter_factor(unit)?))
    }
}

impl Item {
    /// The number the value begins with.
    pub fn number(&self) -> Option<f64> {
        self.value.split_whitespace().next()?.parse().ok().filter(|v: &f64| v.is_finite())
    }
}

impl Curve {
    /// The number of rows.
    pub fn len(&self) -> usize {
        match &self.data {
            Data::Numbers(n) => n.len(),
            Data::Text(t) => t.len(),
        }
    }

    /// Whether there is no row.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// The numbers, in the curve's unit, `NaN` where there is none.
    pub fn numbers(&self) -> Option<&[f64]> {
        match &self.data {
            Data::Numbers(n) => Some(n),
            Data::Text(_) => None,
        }
    }
}

impl TextColumn {
    /// Adds a row.
    pub(super) fn push(&mut self, word: &str) {
        self.text.push_str(word);
        self.ends.push(self.text.len());
    }

    /// The number of rows.
    pub fn len(&self) -> usize {
        self.ends.len()
    }

    /// Whether there is no row.
    pub fn is_empty(&self) -> bool {
        self.ends.is_empty()
    }

    /// The word of a row.
    pub fn get(&self, row: usize) -> Option<&str> {
        let end = *self.ends.get(row)?;
        let start = match row.checked_sub(1) {
            Some(before) => *self.ends.get(before)?,
            None => 0,
        };
        self.text.get(start..end)
    }

    /// All words, in order.
    pub fn iter(&self) -> impl Iterator<Item = &str> {
        (0..self.len()).filter_map(|row| self.get(row))
    }
}
