//! Checks of the positions and bends a survey file reports.

use crate::finding::{Check, Severity};

/// Reported positions that do not follow from the stations.
pub static REPORTED_POSITION: Check = Check {
    id: "survey-reported-position",
    severity: Severity::Warn,
    title: "the reported position does not follow from the stations",
    checks: "Vertical depth, north and east of the file are compared with minimum curvature from the same stations. \
             They may differ by 0.15 m (0.5 ft) and a ten-thousandth of the depth.",
    why: "A greater difference means that the file was computed by another method, from other stations, or with \
          azimuths from another north, or that a station was changed and the positions were not.",
    next: "Find out which is right, stations or positions. The program uses the stations.",
    example: "At 14,454 ft the file reports a vertical depth of 7,449.1 ft; the stations give 7,452.6 ft.",
    references: "api_d20",
};

/// Reported dogleg severity that does not follow from the stations.
pub static REPORTED_SEVERITY: Check = Check {
    id: "survey-reported-severity",
    severity: Severity::Note,
    title: "the reported dogleg severity does not follow from the stations",
    checks: "Dogleg severities of the file are compared with those of the stations. They may differ by 0.02 \
             deg/100 ft and by what 0.02 deg of angle make over the course.",
    why: "A difference that is the same everywhere is a unit: per 30 m against per 100 ft. One at a single row is a \
          station that was changed after the file was computed.",
    next: "Check the unit of the column; the program uses the stations.",
    example: "10,580 ft: 8.40 in the file, 8.54 deg/100 ft from the stations: the file is per 30 m.",
    references: "api_d20",
};

/// Feet and metres mixed up.
pub static LENGTH_UNIT: Check = Check {
    id: "survey-length-unit",
    severity: Severity::Warn,
    title: "feet and metres may be mixed up",
    checks: "Where reported vertical depths are 0.3048 or 3.2808 times those of the stations, all along, the unit of \
             one of the columns is wrong.",
    why: "Everything that depends on vertical depth, pressures first of all, is then wrong by a factor of three.",
    next: "Check the units of measured depth and of vertical depth in the headings.",
    example: "At 3,000 m of measured depth the file reports a vertical depth of 9,842 m.",
    references: "practice",
};
