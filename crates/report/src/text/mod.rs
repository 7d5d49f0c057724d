//! Building blocks that do not depend on a terminal: the look, tables, families, cautions, the
//! JSON forms and the Markdown documents.

pub mod bibliography;
pub mod caution;
pub mod family;
pub mod json;
pub mod look;
pub mod markdown;
pub mod page_units;
pub mod reading;
pub mod table;
pub mod verdict;
