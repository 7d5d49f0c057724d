//! Checks of reading the job folder.

use crate::finding::{Check, Severity};

/// A file is absent.
pub static ABSENT: Check = Check {
    id: "job-file-absent",
    severity: Severity::Stop,
    title: "A file of the job is absent",
    checks: "Every file the job file names, and the job file itself.",
    why: "Without its data the job cannot be judged.",
    next: "Put the file into the job folder, or correct the name.",
    example: "`file = \"survey.csv\"` with no such file beside the job file.",
    references: "the job folder's layout",
};

/// A file cannot be read.
pub static UNREADABLE: Check = Check {
    id: "job-file-unreadable",
    severity: Severity::Stop,
    title: "A file of the job cannot be read",
    checks: "Files for permission, size, and a name that stays inside the job folder.",
    why: "Data files stand beside the job file so that the folder is the whole job.",
    next: "Copy the file into the job folder and name it without a path that leads out.",
    example: "`file = \"../other/survey.csv\"`.",
    references: "the job folder's layout",
};

/// The job file is not text.
pub static NOT_TEXT: Check = Check {
    id: "job-not-text",
    severity: Severity::Stop,
    title: "The job file is not UTF-8 text",
    checks: "The job file's encoding.",
    why: "TOML is UTF-8 text; another encoding would garble units and names.",
    next: "Save the file as UTF-8.",
    example: "A job file saved by a word processor.",
    references: "TOML v1.0",
};

/// A pipe is not in the catalogue.
pub static PIPE: Check = Check {
    id: "job-pipe",
    severity: Severity::Stop,
    title: "A string's pipe cannot be made up",
    checks: "Each string's outer diameter, weight, grade and connection against the catalogue and the user's own figures.",
    why: "Bore, drift and ratings follow from the pipe.",
    next: "Correct the size or grade, or give `id` and `yield_strength` of pipe of your own.",
    example: "4.5 in 13.8 lb/ft; the catalogue has 13.5 lb/ft.",
    references: "API 5CT dimensions; API TR 5C3 ratings",
};

/// A log curve is absent.
pub static CURVE: Check = Check {
    id: "job-curve-absent",
    severity: Severity::Stop,
    title: "A log has no such curve",
    checks: "Every curve the job file names against the log's curves.",
    why: "Another curve in its place would be another figure.",
    next: "Take one of the curves the message lists.",
    example: "`curve = \"RQ\"` in a log with RQI and GR.",
    references: "LAS 2.0",
};

/// The checks of this module.
pub static CHECKS: &[&Check] = &[&ABSENT, &UNREADABLE, &NOT_TEXT, &PIPE, &CURVE];
