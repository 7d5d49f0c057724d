//! The checks of the LAS reader and of taking a caliper from a log.

mod caliper;
mod data;
mod header;
mod index;
mod refusal;

pub use caliper::*;
pub use data::*;
pub use header::*;
pub use index::*;
pub use refusal::*;

use crate::Check;

/// Every check of the LAS reader.
pub static CHECKS: &[&Check] = &[
    &EMPTY,
    &HTML,
    &PDF,
    &ARCHIVE,
    &BINARY,
    &NO_SECTIONS,
    &LIMIT,
    &VERSION_3,
    &ROW_SHAPE,
    &ENCODING,
    &PREAMBLE,
    &VERSION,
    &SECTION,
    &SECTION_UNREAD,
    &HEADER_LINE,
    &DUPLICATE,
    &WRAP,
    &NULL,
    &OTHER_NULL,
    &DELIMITER,
    &NO_DATA,
    &COLUMNS,
    &ROW_LENGTH,
    &RUN_ON,
    &DECIMAL_COMMA,
    &NON_NUMERIC,
    &TEXT_CURVE,
    &DATA_COMMENT,
    &INDEX,
    &INDEX_UNIT,
    &INDEX_KIND,
    &INDEX_VALUE,
    &INDEX_ORDER,
    &START_STOP,
    &STEP,
    &CALIPER_DEPTH,
    &CALIPER_MISSING,
    &CALIPER_CHOICE,
    &CALIPER_UNIT,
    &CALIPER_DIFFERENTIAL,
    &CALIPER_RADIUS,
    &CALIPER_MASKED,
    &CALIPER_TWO_ARMS,
];

/// Where the standard is to be read.
const LAS_1: &str = "CWLS LAS 1.2 (1990)";
const LAS_2: &str = "CWLS LAS 2.0 (update of 2014)";
const LAS_3: &str = "CWLS LAS 3.0 (2000)";
const PRACTICE: &str = "practice";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_check_is_told_in_full() {
        let mut ids: Vec<_> = CHECKS.iter().map(|c| c.id).collect();
        for check in CHECKS {
            for text in [check.title, check.checks, check.why, check.next, check.example, check.references] {
                assert!(!text.is_empty(), "{}", check.id);
            }
        }
        ids.sort_unstable();
        ids.dedup();
        assert_eq!(ids.len(), CHECKS.len());
    }
}
