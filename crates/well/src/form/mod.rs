//! The job file as a form: every table and field with what it is, its units, and the value that stands
//! in the file; and edits of single fields that leave all other text as it was typed.

mod edit;
mod path;
mod read;

pub use edit::{Edit, edit};
pub use read::form;

/// Most tables of one form: a job of a hundred stages with every list filled has a tenth of them.
pub const MOST_TABLES: usize = 20_000;

/// A table of the job file, or an item of a list of tables.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct FormTable {
    /// Path, such as `packer.rating[3]`.
    pub path: String,
    /// What it describes.
    pub doc: String,
    /// Whether it stands in the file.
    pub present: bool,
    /// Whether it is an item of a list, or would be one.
    pub in_list: bool,
    /// Whether the job file must have it.
    pub required: bool,
    /// Its fields that are no tables.
    pub fields: Vec<FormField>,
}

/// A field with its value as it is typed.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct FormField {
    /// Key in its table.
    pub key: String,
    /// What it is.
    pub doc: String,
    /// Shape of its value.
    pub shape: FormShape,
    /// Units of a quantity; the usual one of field and of metric units first.
    pub units: Vec<String>,
    /// Words of a choice, each with its meaning.
    pub choices: Vec<FormChoice>,
    /// What happens when it is absent.
    pub absent: String,
    /// Whether the job file must have it.
    pub required: bool,
    /// The value as it is typed, without quotes; none where the field is absent.
    pub value: Option<String>,
    /// Line in the file, from 1.
    pub line: Option<usize>,
}

/// Shape of a field's value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum FormShape {
    /// A quantity with its unit.
    Quantity,
    /// Text.
    Text,
    /// A whole number.
    Whole,
    /// True or false.
    Bool,
    /// One of some words.
    Choice,
    /// A list of values, typed as in the file.
    List,
}

/// A word with its meaning.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
pub struct FormChoice {
    /// The word.
    pub word: String,
    /// What it means.
    pub meaning: String,
}

/// Why a form cannot be made or an edit not be done.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum EditError {
    /// The text is no TOML.
    #[error("line {line}: {what}. Mend the text of the job file first.")]
    Broken {
        /// Line, from 1.
        line: usize,
        /// What the reader says.
        what: String,
    },
    /// The path is none.
    #[error("`{path}` is no path of a field; write it as `packer.rating[3].hole`")]
    Path {
        /// The path.
        path: String,
    },
    /// The job file has no such field.
    #[error("the job file has no field `{path}`; docs/job-file.md names them all")]
    Unknown {
        /// The path.
        path: String,
    },
    /// A list has no such item and it is not the next one.
    #[error("`{path}`: the list has {length} items; name one of them, or the next")]
    Item {
        /// The path.
        path: String,
        /// Items there are.
        length: usize,
    },
    /// The value has not the shape of the field.
    #[error("`{path}` = {value}: it must be {wanted}")]
    Value {
        /// The path.
        path: String,
        /// The value.
        value: String,
        /// What it must be.
        wanted: &'static str,
    },
    /// Too many edits or tables at once.
    #[error("{count} {what} at once; {most} are the most")]
    Many {
        /// How many.
        count: usize,
        /// Of what.
        what: &'static str,
        /// The limit.
        most: usize,
    },
}

impl EditError {
    fn broken(text: &str, e: &toml_edit::TomlError) -> Self {
        let at = e.span().map_or(0, |s| s.start).min(text.len());
        let line = 1 + text.as_bytes()[..at].iter().filter(|b| **b == b'\n').count();
        Self::Broken { line, what: e.message().lines().collect::<Vec<_>>().join("; ") }
    }
}
