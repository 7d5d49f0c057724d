//! What is refused.

use super::{LAS_2, LAS_3, PRACTICE};
use crate::{Check, Severity};

/// Nothing in the file.
pub static EMPTY: Check = Check {
    id: "las-empty",
    severity: Severity::Stop,
    title: "An empty log file",
    checks: "That the file holds anything but blanks.",
    why: "An empty file is a broken transfer; a plan made without the log would use bit size everywhere.",
    next: "Get the file again and compare its size with the sender's.",
    example: "caliper.las has 0 bytes.",
    references: PRACTICE,
};

/// A web page saved under the name of a log.
pub static HTML: Check = Check {
    id: "las-html",
    severity: Severity::Stop,
    title: "A web page instead of a log",
    checks: "That the file does not begin with markup.",
    why: "A download that needed a sign-in often saves the sign-in page under the name of the log.",
    next: "Open the file in a browser to see what it says, then download the log itself.",
    example: "caliper.las begins with `<!DOCTYPE html>`.",
    references: PRACTICE,
};

/// A PDF document.
pub static PDF: Check = Check {
    id: "las-pdf",
    severity: Severity::Stop,
    title: "A PDF document instead of a log",
    checks: "That the file is not a PDF document.",
    why: "A picture of the log holds no numbers to compute with.",
    next: "Ask for the digital log in LAS 2.0.",
    example: "caliper.las begins with `%PDF-1.7`.",
    references: PRACTICE,
};

/// A packed file.
pub static ARCHIVE: Check = Check {
    id: "las-archive",
    severity: Severity::Stop,
    title: "A packed file instead of a log",
    checks: "That the file is not an archive.",
    why: "The log is inside and must be unpacked first.",
    next: "Unpack it and give the LAS file inside.",
    example: "caliper.las begins with the mark of a zip archive.",
    references: PRACTICE,
};

/// Binary data.
pub static BINARY: Check = Check {
    id: "las-binary",
    severity: Severity::Stop,
    title: "Binary data instead of a log",
    checks: "That the file is text.",
    why: "Tape formats of the same log are binary and are not read.",
    next: "Ask for the log in LAS 2.0, or convert it.",
    example: "caliper.las has a zero in every third byte.",
    references: LAS_2,
};

/// No section at all.
pub static NO_SECTIONS: Check = Check {
    id: "las-no-sections",
    severity: Severity::Stop,
    title: "No section in the file",
    checks: "That at least one line begins with `~`.",
    why: "Without sections the columns have no names, no units and no depth: numbers alone describe no hole.",
    next: "Give the LAS file the table came from, or write the table as CSV with a unit in each column head.",
    example: "The first line is `100.0, 0.63, 302.19`.",
    references: LAS_2,
};

/// Too large.
pub static LIMIT: Check = Check {
    id: "las-limit",
    severity: Severity::Stop,
    title: "Larger than is read",
    checks: "Bytes of the file, characters of a line, sections, header lines, curves and values.",
    why: "A file beyond these sizes is broken or no log of one hole, and could exhaust the machine.",
    next: "Cut the file to the interval and the curves that are needed.",
    example: "The header declares 12000 curves; at most 10000 are read.",
    references: PRACTICE,
};

/// LAS 3.0 beyond one log.
pub static VERSION_3: Check = Check {
    id: "las-version-3",
    severity: Severity::Stop,
    title: "A LAS 3.0 file with more than one log",
    checks: "That a LAS 3.0 file has one log data section.",
    why: "With several runs in one file it must be said which one describes the hole.",
    next: "Write the wanted run as LAS 2.0.",
    example: "The file has `~Log_Data[1]` and `~Log_Data[2]`.",
    references: LAS_3,
};

/// Rows without a discernible shape.
pub static ROW_SHAPE: Check = Check {
    id: "las-row-shape",
    severity: Severity::Stop,
    title: "Rows that do not come out",
    checks: "That the values of the data section fill the declared curves row by row.",
    why: "If values do not line up with the curves, any of them may be read as another: a porosity as a diameter.",
    next: "Compare the number of values on a data line with the curves in the header, and WRAP with the layout.",
    example: "8 curves are declared; the data lines have 5, 7, 9 and 6 values.",
    references: LAS_2,
};
