//! The PDF of a program: a typst manuscript with the report's own drawings and data.

mod press;

pub use press::{Manuscript, PressError, press};

use report::document::Document;

/// The PDF of a program. The same document gives the same bytes.
pub fn program_pdf(document: &Document) -> Result<Vec<u8>, PressError> {
    press(Manuscript {
        text: document.text,
        files: document.files.clone(),
        identity: document.identity.clone(),
    })
}
