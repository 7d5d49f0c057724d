//! The checks of the hole and of the caliper in it.

use crate::{Check, Severity};

/// Every check of the hole.
pub static CHECKS: &[&Check] = &[
    &SECTION_MISSING,
    &SECTION_FORM,
    &SECTION_ORDER,
    &SECTION_OVERLAP,
    &SECTION_GAP,
    &SECTION_SIZE,
    &CASED_BELOW_OPEN,
    &BIT_OVER_CASING,
    &BIT_OVER_BIT,
    &NO_CALIPER,
    &CALIPER_EMPTY,
    &CALIPER_ORDER,
    &CALIPER_PLACE,
    &CALIPER_IMPLAUSIBLE,
    &CALIPER_COVERAGE,
    &CALIPER_BRIDGED,
    &CALIPER_SHIFT,
    &CALIPER_CASING,
    &CALIPER_STUCK,
    &CALIPER_UNDER_BIT,
];

const PRACTICE: &str = "practice";

/// No section.
pub static SECTION_MISSING: Check = Check {
    id: "hole-section-missing",
    severity: Severity::Stop,
    title: "The hole has no section",
    checks: "That at least one section of hole is given.",
    why: "Nothing can be placed in a hole that is not described.",
    next: "Give the casing and the open hole with their depths and sizes.",
    example: "The list of sections is empty.",
    references: PRACTICE,
};

/// A section without length or size.
pub static SECTION_FORM: Check = Check {
    id: "hole-section-form",
    severity: Severity::Stop,
    title: "A section has no length or no size",
    checks: "That the bottom of each section is below its top and its diameter above zero.",
    why: "Depths given the wrong way round describe no hole.",
    next: "Exchange top and bottom, or correct the diameter.",
    example: "The lateral runs from 4000 m to 2000 m.",
    references: PRACTICE,
};

/// Sections out of order.
pub static SECTION_ORDER: Check = Check {
    id: "hole-section-order",
    severity: Severity::Note,
    title: "Sections not listed downward",
    checks: "That sections are listed from top to bottom.",
    why: "They are put in order; a depth typed wrongly may be the reason.",
    next: "List them downward.",
    example: "The lateral stands before the intermediate casing.",
    references: PRACTICE,
};

/// Two sections at one depth.
pub static SECTION_OVERLAP: Check = Check {
    id: "hole-section-overlap",
    severity: Severity::Stop,
    title: "Two sections overlap",
    checks: "That no depth lies in two sections.",
    why: "The hole has one diameter at a depth: where strings overlap it is the inner one.",
    next: "Give only the innermost string at each depth.",
    example: "Casing to 2010 m and open hole from 2000 m.",
    references: PRACTICE,
};

/// No section at a depth.
pub static SECTION_GAP: Check = Check {
    id: "hole-section-gap",
    severity: Severity::Stop,
    title: "A gap between two sections",
    checks: "That the sections leave no depth out.",
    why: "Volumes and clearances across the gap cannot be computed.",
    next: "Extend one of the sections, or give the one that is missing.",
    example: "Casing to 2000 m and open hole from 2005 m.",
    references: PRACTICE,
};

/// An unlikely size.
pub static SECTION_SIZE: Check = Check {
    id: "hole-section-size",
    severity: Severity::Warn,
    title: "A diameter no hole is expected to have",
    checks: "That diameters lie between 2 in and 60 in.",
    why: "A slip of the unit makes a hole 25 times too large or too small.",
    next: "Check the unit.",
    example: "A bit of 8.5 mm.",
    references: PRACTICE,
};

/// Casing below open hole.
pub static CASED_BELOW_OPEN: Check = Check {
    id: "hole-cased-below-open",
    severity: Severity::Warn,
    title: "Casing below open hole",
    checks: "That open hole has no casing below it.",
    why: "It is possible, but more often a section was given the wrong kind.",
    next: "Check the kinds of the sections.",
    example: "Open from 1500 m to 2000 m, cased from 2000 m to 2500 m.",
    references: PRACTICE,
};

/// A bit that does not pass the casing.
pub static BIT_OVER_CASING: Check = Check {
    id: "hole-bit-over-casing",
    severity: Severity::Warn,
    title: "A bit larger than the casing it came through",
    checks: "Each bit against the drift, or inner diameter, of the casing above.",
    why: "Unless the hole was opened below the casing, one of the two sizes is wrong.",
    next: "Check both sizes; if the hole was under-reamed, give the caliper.",
    example: "A 6.25 in bit below casing of 6.151 in drift.",
    references: PRACTICE,
};

/// A larger bit below a smaller one.
pub static BIT_OVER_BIT: Check = Check {
    id: "hole-bit-over-bit",
    severity: Severity::Warn,
    title: "A larger bit below a smaller one",
    checks: "That bits do not grow downward in open hole.",
    why: "A larger bit does not pass a smaller hole.",
    next: "Check the bit sizes and the depth of the change.",
    example: "6 in to 3000 m, then 6.125 in.",
    references: PRACTICE,
};

/// No caliper at all.
pub static NO_CALIPER: Check = Check {
    id: "hole-no-caliper",
    severity: Severity::Warn,
    title: "Open hole without a caliper",
    checks: "Whether a caliper was given.",
    why: "A hole is seldom at bit size throughout. A packer set in a washout does not seal.",
    next: "Give the caliper, or read every packer result as one for a hole in gauge.",
    example: "The lateral is taken at 6.125 in.",
    references: PRACTICE,
};

/// A caliper without readings.
pub static CALIPER_EMPTY: Check = Check {
    id: "hole-caliper-empty",
    severity: Severity::Warn,
    title: "The caliper has no usable reading",
    checks: "That the caliper has readings in the open hole.",
    why: "The open hole is then taken at bit size.",
    next: "Check the curve, its unit, and the depths of log and hole.",
    example: "The log ends at the casing shoe.",
    references: PRACTICE,
};

/// Readings out of order.
pub static CALIPER_ORDER: Check = Check {
    id: "hole-caliper-order",
    severity: Severity::Note,
    title: "Caliper readings out of order, or several at one depth",
    checks: "That depths run one way without repeating.",
    why: "Two passes in one log disagree; of two readings the larger counts, to be safe for a packer.",
    next: "Give the main pass alone.",
    example: "3120.0, 3120.5, 3120.0.",
    references: PRACTICE,
};

/// Readings in casing or outside the hole.
pub static CALIPER_PLACE: Check = Check {
    id: "hole-caliper-place",
    severity: Severity::Note,
    title: "Caliper readings outside open hole",
    checks: "Whether readings lie in casing, or above or below the hole.",
    why: "They are not used. Many of them hint at a wrong unit of depth or a wrong shoe depth.",
    next: "Nothing if the log was run up into casing.",
    example: "80 readings are in casing.",
    references: PRACTICE,
};

/// Readings that are no hole.
pub static CALIPER_IMPLAUSIBLE: Check = Check {
    id: "hole-caliper-implausible",
    severity: Severity::Warn,
    title: "Caliper readings that are no hole",
    checks: "Each reading against half and three times the bit size.",
    why: "They are left out; a cave larger than three bit sizes would be left out too.",
    next: "Look at the log at the depth shown.",
    example: "1.2 in behind an 8.5 in bit.",
    references: PRACTICE,
};

/// Coverage of the open hole.
pub static CALIPER_COVERAGE: Check = Check {
    id: "hole-caliper-coverage",
    severity: Severity::Warn,
    title: "Open hole without readings",
    checks: "The share of each open section that the caliper covers; below 95 % it is a warning.",
    why: "The rest is taken at bit size: a washout there is not seen.",
    next: "Keep packers out of the stretches without readings, or get the rest of the log.",
    example: "The caliper ends 40 m above the toe.",
    references: PRACTICE,
};

/// Short stretches bridged.
pub static CALIPER_BRIDGED: Check = Check {
    id: "hole-caliper-bridged",
    severity: Severity::Note,
    title: "Short stretches without readings are bridged",
    checks: "Stretches longer than the usual spacing, up to the length shown.",
    why: "Between two readings the wall is taken as straight.",
    next: "Nothing.",
    example: "Two readings left out at 3120.5 ft.",
    references: PRACTICE,
};

/// A large shift.
pub static CALIPER_SHIFT: Check = Check {
    id: "hole-caliper-shift",
    severity: Severity::Warn,
    title: "The depth shift of the caliper is doubtful",
    checks: "That the shift between logger's and driller's depth is below 10 m.",
    why: "Packers are placed by driller's depth; a wrong shift puts them beside the good hole.",
    next: "Compare the casing shoe on the caliper with the tally.",
    example: "A shift of 30 m.",
    references: PRACTICE,
};

/// The caliper reads casing wrongly.
pub static CALIPER_CASING: Check = Check {
    id: "hole-caliper-casing",
    severity: Severity::Warn,
    title: "The caliper misreads the casing",
    checks: "The median reading in the last 30 m of casing against its inner diameter; 0.2 in is allowed.",
    why: "Casing is the one place where the diameter is known: a caliper that is wrong there is wrong below.",
    next: "Ask for the calibration, or correct the readings by the difference.",
    example: "It reads 6.8 in in casing of 6.276 in.",
    references: PRACTICE,
};

/// The arms fully open.
pub static CALIPER_STUCK: Check = Check {
    id: "hole-caliper-stuck",
    severity: Severity::Warn,
    title: "The caliper stays at its largest reading",
    checks: "Five or more equal readings in a row at the largest value, well above the usual one.",
    why: "Arms that are fully open read their reach, not the hole: the washout is larger than it looks.",
    next: "Ask for the reach of the tool; keep packers away from there.",
    example: "16.00 in over 12 ft.",
    references: PRACTICE,
};

/// Below bit size.
pub static CALIPER_UNDER_BIT: Check = Check {
    id: "hole-caliper-under-bit",
    severity: Severity::Warn,
    title: "The caliper reads below bit size",
    checks: "The median reading of each open section against its bit size; 1/8 in is allowed.",
    why: "Mud cake, swelling clay, a worn bit, or a caliper out of calibration: the string may not pass, \
        or the hole is larger than it reads.",
    next: "Check bit wear and calibration; consider a wiper trip before running the liner.",
    example: "A median of 5.9 in behind a 6.125 in bit.",
    references: PRACTICE,
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_check_is_told_in_full() {
        let mut ids: Vec<_> = CHECKS.iter().map(|c| c.id).collect();
        assert!(ids.iter().all(|id| id.starts_with("hole-")));
        for check in CHECKS {
            let texts = [check.title, check.checks, check.why, check.next, check.example, check.references];
            assert!(texts.iter().all(|t| !t.is_empty()), "{}", check.id);
        }
        ids.sort_unstable();
        ids.dedup();
        assert_eq!(ids.len(), CHECKS.len());
    }
}
