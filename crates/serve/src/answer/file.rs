//! The job file: its form, and edits of single fields.

use schemars::JsonSchema;
use serde::Serialize;
use well::form::FormTable;
use well::job::JobFile;

use crate::ask;
use crate::desk::Desk;

/// A job file as a form.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Form {
    /// Its tables; none where the text is broken.
    tables: Vec<FormTable>,
    /// Why the text cannot be read as a form, with its line.
    broken: Option<String>,
}

/// A job file after edits.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Edited {
    /// Its text.
    text: String,
}

/// The job file as a form.
pub(crate) fn form(desk: &Desk, ask: ask::Edited) -> Result<Form, String> {
    let text = desk.text_or(ask.text)?;
    Ok(match well::form::form(&JobFile::table(), &text) {
        Ok(tables) => Form { tables, broken: None },
        Err(e) => Form { tables: Vec::new(), broken: Some(e.to_string()) },
    })
}

/// The job file after edits; nothing is saved.
pub(crate) fn edit(desk: &Desk, ask: ask::Edits) -> Result<Edited, String> {
    let text = desk.text_or(ask.text)?;
    let text = well::form::edit(&JobFile::table(), &text, &ask.edits).map_err(|e| e.to_string())?;
    Ok(Edited { text })
}
