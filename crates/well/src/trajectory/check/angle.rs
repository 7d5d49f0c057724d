//! Checks of the angles of a survey.

use crate::finding::{Check, Severity};

/// An inclination that cannot be.
pub static INCLINATION_RANGE: Check = Check {
    id: "survey-inclination-range",
    severity: Severity::Stop,
    title: "an inclination lies outside 0 to 180 deg",
    checks: "Inclination is measured from vertical and lies between 0 and 180 deg.",
    why: "A negative inclination is a dip or a slip of the sign; one above 180 deg is a slip of the column or of a \
          digit. The station is left out.",
    next: "Check the columns and the row. A dip from horizontal must be turned into an inclination from vertical.",
    example: "Line 40: inclination 891 deg, a lost decimal point in 89.1 deg.",
    references: "practice",
};

/// An azimuth outside a turn.
pub static AZIMUTH_RANGE: Check = Check {
    id: "survey-azimuth-range",
    severity: Severity::Note,
    title: "an azimuth lies outside 0 to 360 deg",
    checks: "Azimuths lie between 0 and 360 deg; others are folded into it, and beyond one turn they are pointed out \
             as a fault.",
    why: "Azimuths of -180 to 180 deg are only another way to write; an azimuth of 3241 deg is a lost decimal point.",
    next: "Check the azimuth column.",
    example: "-38.5 deg is read as 321.5 deg.",
    references: "practice",
};

/// An azimuth where there is none.
pub static AZIMUTH_VERTICAL: Check = Check {
    id: "survey-azimuth-vertical",
    severity: Severity::Note,
    title: "azimuths of vertical stations say nothing and are left aside",
    checks: "Where the inclination is zero the azimuth of the nearest inclined station below, or above, is shown.",
    why: "At zero inclination the azimuth is whatever the tool wrote. It has no effect on the path, but it would \
          make a false jump in a plot or in a list of azimuths.",
    next: "Nothing needs to be done.",
    example: "14 stations from 0 ft to 1,850 ft are vertical.",
    references: "practice",
};

/// A sudden change of azimuth.
pub static AZIMUTH_JUMP: Check = Check {
    id: "survey-azimuth-jump",
    severity: Severity::Warn,
    title: "the azimuth jumps between two stations",
    checks: "Where both stations are inclined by 5 deg or more, the azimuth changes by no more than 45 deg over a \
             course that bends by more than 8 deg per 100 ft.",
    why: "A hole of some inclination cannot turn that fast. The azimuth was read in magnetic interference, taken \
          from the wrong column, or typed wrong.",
    next: "Compare with the raw survey; correct the azimuth or delete the station.",
    example: "8,904 ft: 142.0 deg, 8,998 ft: 322.4 deg, at an inclination of 31 deg.",
    references: "practice",
};

/// Degrees and radians mixed up.
pub static ANGLE_UNIT: Check = Check {
    id: "survey-angle-unit",
    severity: Severity::Warn,
    title: "the angles may be radians read as degrees",
    checks: "A survey in degrees whose inclinations all lie below 3.2 and whose azimuths all lie below 6.3, with at \
             least three different azimuths, is pointed out.",
    why: "WITSML sources write radians. Read as degrees, a horizontal well of 1.57 rad becomes a vertical hole of \
          1.57 deg.",
    next: "Check the unit of the angles with whoever sent the file.",
    example: "Inclinations run from 0 to 1.59 and azimuths from 5.51 to 5.68.",
    references: "practice",
};

/// The north reference is not known, or not the same.
pub static NORTH: Check = Check {
    id: "survey-north",
    severity: Severity::Note,
    title: "the north reference is not stated, or stated in two ways",
    checks: "The north that azimuths are measured from is stated in the job file or in the survey file, and both \
             state the same one.",
    why: "Grid, true and magnetic north differ by degrees: over a lateral of 7,000 ft one degree is 122 ft sideways. \
          Measured depths and bends do not change, but positions, faults and offset wells do.",
    next: "Find the north reference on the survey certificate and state it in the job file.",
    example: "The job file says true north; the survey heading says `azi_grid_deg`.",
    references: "practice",
};
