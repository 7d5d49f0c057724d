//! Taking the hole diameter out of a log.

use super::PRACTICE;
use crate::{Check, Severity};

/// No measured depth.
pub static CALIPER_DEPTH: Check = Check {
    id: "caliper-depth",
    severity: Severity::Stop,
    title: "The log has no measured depth",
    checks: "That the rows are listed by measured depth.",
    why: "A diameter without a place in the hole is of no use.",
    next: "Ask for the log by measured depth, with its unit.",
    example: "The log is listed by time.",
    references: PRACTICE,
};

/// No caliper.
pub static CALIPER_MISSING: Check = Check {
    id: "caliper-missing",
    severity: Severity::Stop,
    title: "No caliper curve",
    checks: "That the curve asked for, or any curve of hole diameter, is in the log.",
    why: "Without it the hole is taken at bit size, and a packer may be set in a washout.",
    next: "Name the curve in the job file, or leave the caliper out and accept bit size.",
    example: "The log has DEPT, GR and ROP.",
    references: PRACTICE,
};

/// Several calipers.
pub static CALIPER_CHOICE: Check = Check {
    id: "caliper-choice",
    severity: Severity::Note,
    title: "One of several calipers is taken",
    checks: "Whether the log has more than one curve of hole diameter.",
    why: "They may differ by run, tool or averaging; only one describes the hole.",
    next: "Name the wanted curve in the job file.",
    example: "CALI is taken; LCAL is there too.",
    references: PRACTICE,
};

/// Unit of the caliper.
pub static CALIPER_UNIT: Check = Check {
    id: "caliper-unit",
    severity: Severity::Stop,
    title: "The unit of the caliper is missing, not known or wrong",
    checks: "That the unit is in, mm, cm, m or ft, and gives diameters a hole can have.",
    why: "A diameter in the wrong unit is off by 25 or more.",
    next: "Write the right unit into the curve line of the file.",
    example: "CALI is in IN but reads 216 throughout: it is in mm.",
    references: PRACTICE,
};

/// A differential caliper.
pub static CALIPER_DIFFERENTIAL: Check = Check {
    id: "caliper-differential",
    severity: Severity::Stop,
    title: "A differential caliper is not a diameter",
    checks: "The name and description of the curve, and whether it reads about zero.",
    why: "It is the diameter less the bit size: taken for a diameter the hole would have almost none.",
    next: "Name the diameter curve itself.",
    example: "DCAL reads 0.06 in where CALI reads 10.685 in behind a 10.625 in bit.",
    references: PRACTICE,
};

/// A radius.
pub static CALIPER_RADIUS: Check = Check {
    id: "caliper-radius",
    severity: Severity::Stop,
    title: "A radius is not a diameter",
    checks: "The name and description of the curve.",
    why: "One arm of a tool off centre reads neither half the diameter nor anything close to it.",
    next: "Name a diameter curve, or the average diameter of the tool.",
    example: "IRAV is an internal radius.",
    references: PRACTICE,
};

/// Implausible readings.
pub static CALIPER_MASKED: Check = Check {
    id: "caliper-masked",
    severity: Severity::Warn,
    title: "Caliper readings left out",
    checks: "Each reading against half and three times the bit size; 2 in and 60 in where the log has no bit size.",
    why: "Such a reading is a null value, a closed arm or a fault, and no hole.",
    next: "Look at the log at the depth shown; ask for the repeat pass if it matters.",
    example: "-9999 at 3120.5 ft behind an 8.5 in bit.",
    references: PRACTICE,
};

/// Two arms.
pub static CALIPER_TWO_ARMS: Check = Check {
    id: "caliper-two-arms",
    severity: Severity::Note,
    title: "Two caliper arms are used",
    checks: "Whether the log has a second diameter across the first.",
    why: "An oval hole is sealed at its long axis: the larger arm counts for a packer, both for volume.",
    next: "Nothing.",
    example: "C1 reads 8.6 in and C2 9.9 in.",
    references: PRACTICE,
};
