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

/// The tally cannot be made up.
pub static TALLY: Check = Check {
    id: "job-tally",
    severity: Severity::Stop,
    title: "The tally cannot be used",
    checks: "The make-up loss against every joint, and the figures of a simulated tally.",
    why: "A joint without length is a slip that moves every tool above it.",
    next: "Correct the figure.",
    example: "A make-up loss of 45 ft.",
    references: "API 5CT length ranges",
};

/// The tally is simulated.
pub static SIMULATED: Check = Check {
    id: "job-tally-simulated",
    severity: Severity::Warn,
    title: "The tally is made up by the program",
    checks: "Whether joints were measured.",
    why: "Every depth of the program moves when the real joints are strapped.",
    next: "Strap the joints on the rack and plan again before anything is run.",
    example: "230 joints of a normal distribution about 41.5 ft.",
    references: "API 5CT length ranges",
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
pub static CHECKS: &[&Check] = &[&ABSENT, &UNREADABLE, &NOT_TEXT, &TALLY, &SIMULATED, &CURVE];
