//! The index: what the rows are listed by.

use super::LAS_2;
use crate::{Check, Severity};

/// The index curve is not where, or what, the standard says.
pub static INDEX: Check = Check {
    id: "las-index",
    severity: Severity::Note,
    title: "The index curve is not named, or not first",
    checks: "That the first curve is DEPT, DEPTH, MD, TIME or INDEX.",
    why: "If the wrong column is taken for depth, every figure belongs to another place in the hole.",
    next: "Check the first and last depth shown against the log.",
    example: "The first curve is TIME and the fourth DEPT: DEPT is taken.",
    references: LAS_2,
};

/// The unit of the index.
pub static INDEX_UNIT: Check = Check {
    id: "las-index-unit",
    severity: Severity::Warn,
    title: "The unit of depth is missing, contradicted or unusual",
    checks: "The unit of the index curve against those of STRT, STOP and STEP.",
    why: "Metres read as feet put every depth at a third of its place.",
    next: "Check the first and last depth shown against the log.",
    example: "DEPT is in M, STOP in F: M is taken.",
    references: LAS_2,
};

/// The index is no measured depth.
pub static INDEX_KIND: Check = Check {
    id: "las-index-kind",
    severity: Severity::Note,
    title: "The rows are not listed by measured depth",
    checks: "Whether the index is measured depth, vertical depth or time.",
    why: "A hole is described along its measured depth only.",
    next: "Ask for the log by measured depth if it is to describe the hole.",
    example: "The index is ETIM in seconds.",
    references: LAS_2,
};

/// Rows without a readable index.
pub static INDEX_VALUE: Check = Check {
    id: "las-index-value",
    severity: Severity::Warn,
    title: "Rows without a depth",
    checks: "That each row has a number for its index.",
    why: "A row without a place cannot be used and is left out.",
    next: "Look at the line.",
    example: "The depth on line 99 is `****`.",
    references: LAS_2,
};

/// The index does not run one way.
pub static INDEX_ORDER: Check = Check {
    id: "las-index-order",
    severity: Severity::Warn,
    title: "Depths that repeat or turn back",
    checks: "That the index rises throughout or falls throughout.",
    why: "Two passes in one file, or a cable stretch correction, give two values at one depth.",
    next: "Ask which pass is the main one.",
    example: "1670.0, 1670.5, 1670.2.",
    references: LAS_2,
};

/// Start and stop against the data.
pub static START_STOP: Check = Check {
    id: "las-start-stop",
    severity: Severity::Warn,
    title: "STRT or STOP disagree with the data",
    checks: "STRT and STOP against the first and last row.",
    why: "A file that ends before its STOP was cut off: the hole below is then not described.",
    next: "Compare with the log header; get the file again if rows are missing.",
    example: "STOP is 1660.0, the last row 1669.75.",
    references: LAS_2,
};

/// Step against the data.
pub static STEP: Check = Check {
    id: "las-step",
    severity: Severity::Note,
    title: "STEP disagrees with the data",
    checks: "STEP against the spacing of the rows; 0 stands for a variable one.",
    why: "The depths of the rows are taken; a wrong STEP hints at a resampled or thinned file.",
    next: "Compare with the log header.",
    example: "STEP is -0.125, the rows are 0.25 apart.",
    references: LAS_2,
};
