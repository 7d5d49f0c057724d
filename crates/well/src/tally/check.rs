//! The checks on the tally: what `explain ID` prints.

use crate::finding::{Check, Severity};

/// A length is zero or negative.
pub static SIGN: Check = Check {
    id: "tally-length-sign",
    severity: Severity::Stop,
    title: "a joint has no positive length",
    checks: "Every length in the tally is above zero.",
    why: "A joint of no length moves everything below it by a joint.",
    next: "Measure the joint again and correct the row.",
    example: "Joint 57 with a length of 0.00 ft.",
    references: "practice",
};

/// A length is implausible.
pub static IMPLAUSIBLE: Check = Check {
    id: "tally-length-implausible",
    severity: Severity::Stop,
    title: "a length is not that of a joint",
    checks: "Every length lies between 0.3 m (1 ft) and 16 m (52.5 ft); tools may be longer.",
    why: "A misplaced point or a wrong unit puts packers and sleeves into the wrong rock.",
    next: "Check the length and the unit of the column; measure the joint again.",
    example: "412.5 ft where 41.25 ft was meant.",
    references: "api_5ct_2018: casing ranges from 16 to 48 ft",
};

/// The unit looks wrong.
pub static UNIT_DOUBT: Check = Check {
    id: "tally-unit-doubt",
    severity: Severity::Warn,
    title: "the lengths look like those of another unit",
    checks: "The middle length of the full joints is compared with the length ranges of pipe, in the unit \
             stated and in the other one.",
    why: "A tally in metres under a heading in feet makes the string three times too short.",
    next: "Check the unit of the length column against a joint on the rack.",
    example: "A middle length of 12.6 ft: joints of that length are rare in feet and common in metres.",
    references: "api_5ct_2018: casing ranges from 16 to 48 ft",
};

/// A joint number stands twice.
pub static NUMBER_TWICE: Check = Check {
    id: "tally-number-twice",
    severity: Severity::Warn,
    title: "a joint number stands twice",
    checks: "Numbers of joints are compared.",
    why: "A joint counted twice makes the string a joint too long on paper; a number painted twice makes the \
          running tally useless.",
    next: "Look at both joints; correct the number or remove the row.",
    example: "Joint 57 on lines 58 and 131.",
    references: "practice",
};

/// A serial number stands twice.
pub static SERIAL_TWICE: Check = Check {
    id: "tally-serial-twice",
    severity: Severity::Warn,
    title: "a serial number stands twice",
    checks: "Serial numbers are compared. A column in which most numbers repeat holds heats, not serials, and \
             is left alone.",
    why: "The same piece of pipe cannot be in the string twice.",
    next: "Look at both joints; remove the row that is too many.",
    example: "Serial A1234 on lines 58 and 131.",
    references: "practice",
};

/// The total of the file differs from the sum.
pub static TOTAL: Check = Check {
    id: "tally-total",
    severity: Severity::Warn,
    title: "the total in the file differs from the sum of the joints",
    checks: "A row called total is compared with the sum of the joints above it.",
    why: "A difference of a joint is a joint left out or counted twice.",
    next: "Find the row that is missing or too many before the shoe is run.",
    example: "Total 6,225.40 ft against a sum of 6,183.90 ft: one R3 joint.",
    references: "practice",
};

/// The lengths are overall lengths.
pub static OVERALL: Check = Check {
    id: "tally-overall-length",
    severity: Severity::Note,
    title: "the lengths are overall lengths",
    checks: "The heading of the length column says whether the thread is in the length.",
    why: "Each make-up swallows the pin: 4 in a joint is 50 ft in 150 joints.",
    next: "Give the make-up loss per joint with the tally, or the length without the pin.",
    example: "Heading `Overall length (ft)`.",
    references: "practice",
};

/// All checks of the tally.
pub static CHECKS: &[&Check] =
    &[&SIGN, &IMPLAUSIBLE, &UNIT_DOUBT, &NUMBER_TWICE, &SERIAL_TWICE, &TOTAL, &OVERALL];
