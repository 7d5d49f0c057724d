//! The list of sources.

use super::head;
use crate::text::bibliography::Bibliography;
use crate::text::table::{Table, left};

/// The document.
pub fn document(sources: &Bibliography) -> String {
    let about = "Every relation and every reference case begins its source with one of these keys. The last \
                 column says how far the source was read for this program.";
    let mut table = Table::new(&[left("key"), left("source")]);
    for (key, source) in &sources.0 {
        table.row([key.clone(), source.line()]);
    }
    head("Bibliography", about) + &table.markdown()
}
