//! Checks of a survey file as a file.

use crate::finding::{Check, Severity};

/// A line is longer than any survey line can be.
pub static LINE_TOO_LONG: Check = Check {
    id: "survey-line-too-long",
    severity: Severity::Stop,
    title: "a line of the survey file is too long to be one",
    checks: "No line of a text survey is longer than 1 MB.",
    why: "A line of that length is not a survey station: the file is damaged, or it is of another kind. Nothing in \
          it can be trusted.",
    next: "Export the survey again as text, one station a line.",
    example: "A workbook was copied into survey.csv without line ends: line 1 holds 4,200,000 characters.",
    references: "practice",
};

/// The XML cannot be read to its end.
pub static XML: Check = Check {
    id: "survey-xml",
    severity: Severity::Stop,
    title: "the trajectory file is not well-formed WITSML",
    checks: "The file is read as WITSML 1.4.1.1 trajectory XML; every element that is opened must be closed, and at \
             least one trajectory must be there.",
    why: "A file cut off in transfer still looks complete in a folder; its last stations, at the toe, are those \
          that are missing.",
    next: "Fetch the trajectory again and compare its size with the source.",
    example: "The file ends inside station 71 of 87.",
    references: "WITSML 1.4.1.1 data schema, trajectory object",
};

/// The XML declares entities or a document type.
pub static XML_ENTITY: Check = Check {
    id: "survey-xml-entity",
    severity: Severity::Stop,
    title: "the trajectory file declares a document type or entities",
    checks: "WITSML files hold no document type declaration and use no entities but the five of XML itself.",
    why: "Entities can make a small file swell without limit or pull in other files. No WITSML source writes them.",
    next: "Ask the sender for a plain WITSML file; do not open this one with other programs.",
    example: "Line 2 holds `<!DOCTYPE trajectorys [<!ENTITY a \"...\">]>`.",
    references: "practice",
};

/// A unit is missing or not known.
pub static UNIT: Check = Check {
    id: "survey-unit",
    severity: Severity::Stop,
    title: "a quantity of the trajectory has no known unit",
    checks: "Every quantity of a WITSML station carries a unit (uom); depth must be a length and angles must be \
             degrees or radians.",
    why: "WITSML sources mix metres with feet and degrees with radians. Guessing turns 1.57 rad, a horizontal hole, \
          into 1.57 deg, a vertical one.",
    next: "Ask the sender for the unit, and correct the uom in the file.",
    example: "incl uom=\"gon\" is not read: write \"dega\" or \"rad\".",
    references: "WITSML 1.4.1.1 units of measure",
};

/// The file holds more than one trajectory.
pub static SEVERAL: Check = Check {
    id: "survey-several",
    severity: Severity::Warn,
    title: "the file holds more than one trajectory",
    checks: "A WITSML file may hold several trajectories. The one that is named is read, or the first.",
    why: "Plan, interim and definitive survey of one well often share a file. The wrong one moves every packer.",
    next: "Name the trajectory to use, and remove the others from the job folder.",
    example: "The file holds `Plan rev 3` and `Definitive`; `Plan rev 3` comes first.",
    references: "practice",
};

/// The trajectory is a plan.
pub static PLANNED: Check = Check {
    id: "survey-planned",
    severity: Severity::Warn,
    title: "the trajectory is a plan, not a survey",
    checks: "The item state of a WITSML trajectory is `actual`; a plan or a model is pointed out.",
    why: "A planned path has no tortuosity: drag, bending and the pick of packer seats come out too good.",
    next: "Use the definitive survey of the hole as drilled.",
    example: "itemState is `plan`.",
    references: "practice",
};

/// A row lacks one of depth, inclination and azimuth.
pub static ROW_INCOMPLETE: Check = Check {
    id: "survey-row-incomplete",
    severity: Severity::Warn,
    title: "a station lacks depth, inclination or azimuth",
    checks: "Every station has a measured depth, an inclination and an azimuth; an azimuth may be missing where the \
             inclination is zero.",
    why: "The station is left out: the hole between its neighbours is then taken as one arc, which hides what \
          the station would have shown.",
    next: "Complete the row from the survey listing, or delete it.",
    example: "Line 66: 6472 ft has an inclination of 0.62 deg and an azimuth of N/A.",
    references: "practice",
};

/// Too few stations.
pub static TOO_FEW: Check = Check {
    id: "survey-too-few",
    severity: Severity::Stop,
    title: "the survey has fewer than two stations",
    checks: "Two usable stations or more are needed to draw a path.",
    why: "Without a path there is no vertical depth, no bend and no drag.",
    next: "Check that the file holds the stations and that their columns were found.",
    example: "Of 87 stations 86 were refused for their depth.",
    references: "practice",
};
