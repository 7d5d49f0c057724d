//! Reading typed records from TOML: every fault is a finding with its line, reading goes on,
//! and each record knows its own fields, so the schema, the template and the messages come
//! from one description.

mod checks;
mod context;
pub(crate) mod fields;
mod macros;
mod schema;

pub use checks::CHECKS;
pub use context::{Assumption, Context, Document, Node};
pub use fields::Field;
pub(crate) use macros::{choice, record};
pub use schema::json_schema;

use quantity::{Kind, Text};

/// The shape of a field, for the schema, the template and messages.
#[derive(Clone, Copy)]
pub enum Shape {
    /// A quantity with its unit, as text.
    Quantity(&'static Kind),
    /// Text.
    Text,
    /// A whole number.
    Whole,
    /// True or false.
    Bool,
    /// One word of a list, each with its meaning.
    Choice(&'static [(&'static str, &'static str)]),
    /// A list.
    List(fn() -> Shape),
    /// A table.
    Table(fn() -> TableDoc),
}

impl Shape {
    /// A value of this shape as someone wrote it.
    pub fn written(self, text: &str) -> Text {
        match self {
            Self::Quantity(kind) => Text::written(text, kind),
            _ => text.into(),
        }
    }
}

/// What happens when a field is absent.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Absent {
    /// It is a fault.
    Refused,
    /// The field stays empty.
    Empty,
    /// A plain default is taken.
    Default(&'static str),
    /// A labelled assumption is taken and listed: text and basis.
    Assumed(&'static str, &'static str),
}

/// One field of a record.
#[derive(Clone, Copy)]
pub struct FieldDoc {
    /// Key in the file.
    pub key: &'static str,
    /// What it is; the doc comment of the field.
    pub doc: &'static str,
    /// Shape.
    pub shape: Shape,
    /// What happens when it is absent.
    pub absent: Absent,
}

/// One record.
#[derive(Clone)]
pub struct TableDoc {
    /// What the table describes.
    pub doc: &'static str,
    /// Name of the type, for the schema.
    pub name: &'static str,
    /// Its fields, in the order a person reads them.
    pub fields: Vec<FieldDoc>,
}
