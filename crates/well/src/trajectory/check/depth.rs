//! Checks of the depths of a survey.

use crate::finding::{Check, Severity};

/// A depth no hole has.
pub static DEPTH_RANGE: Check = Check {
    id: "survey-depth-range",
    severity: Severity::Stop,
    title: "a measured depth lies outside what is drilled",
    checks: "Measured depths lie between 100 m above the datum and 20,000 m below it.",
    why: "A depth outside that is a slip of the unit, of the column, or of a digit.",
    next: "Check the unit of the depth column and the row.",
    example: "A depth of 144160 ft: a digit was typed twice in 14416 ft.",
    references: "practice",
};

/// Depths that do not rise.
pub static DEPTH_ORDER: Check = Check {
    id: "survey-depth-order",
    severity: Severity::Stop,
    title: "the measured depth does not rise",
    checks: "Each station is deeper than the one before it.",
    why: "A station out of order is a row in the wrong place, a slip of a digit, or the start of a sidetrack. \
          Joined as it stands it makes a bend that is not in the hole.",
    next: "Put the rows in order; where the well was sidetracked keep only the hole that is completed.",
    example: "Line 88: 12,450 ft follows 12,544 ft.",
    references: "practice",
};

/// The same depth twice.
pub static DEPTH_REPEATED: Check = Check {
    id: "survey-depth-repeated",
    severity: Severity::Warn,
    title: "two stations stand at the same depth",
    checks: "No two stations in a row stand within 10 mm of each other. A second one with the same angles is left \
             out with a note; with other angles it is left out and must be looked at.",
    why: "At the seam of two survey tools the same depth is often read twice. Only one reading can be kept, and it \
          is the engineer who knows which.",
    next: "Keep the station of the better tool and delete the other.",
    example: "6472 ft: 0.62 deg from the gyro, 0.88 deg from the tool on the drill string.",
    references: "practice",
};

/// Where the path starts.
pub static TIE_IN: Check = Check {
    id: "survey-tie-in",
    severity: Severity::Note,
    title: "the survey does not start at the datum",
    checks: "The first station stands at depth zero, or has vertical depth and coordinates of its own. Otherwise the \
             hole above it is taken as vertical. Coordinates that are not zero are kept.",
    why: "A tie-in that is dropped shifts the whole path; a hole above the first station that was not vertical makes \
          all vertical depths too great.",
    next: "Give the first station its vertical depth, north and east, or add a row at depth zero.",
    example: "The first station stands at 100 m and 0.3 deg without coordinates; vertical depth 100 m is taken.",
    references: "practice",
};

/// Projected stations.
pub static PROJECTED: Check = Check {
    id: "survey-projected",
    severity: Severity::Note,
    title: "the last stations are projected, not measured",
    checks: "Rows marked as a projection, such as to total depth, are kept and marked.",
    why: "Below the last measured station the direction of the hole is a guess: at the toe, where the first packers \
          and the isolation tool stand.",
    next: "Leave a margin for tools that stand below the last measured station.",
    example: "Measured to 14,416 ft; 14,454 ft is `Proj to TD`.",
    references: "practice",
};

/// Stations far apart.
pub static COURSE_LENGTH: Check = Check {
    id: "survey-course-length",
    severity: Severity::Note,
    title: "stations are far apart where the hole is inclined",
    checks: "Where the hole is inclined by more than 5 deg, stations stand no more than 60 m (197 ft) apart.",
    why: "A long course hides the bends within it: its dogleg severity is only the average. A stiff tool meets the \
          real one.",
    next: "Allow for more drag, and take a higher dogleg severity for stiff tools there.",
    example: "Between 9,105 ft and 9,530 ft lie 425 ft without a station; the course turns by 11 deg.",
    references: "api_d20; practice",
};
