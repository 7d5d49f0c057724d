//! The header.

use super::{LAS_1, LAS_2, PRACTICE};
use crate::{Check, Severity};

/// Characters outside ASCII.
pub static ENCODING: Check = Check {
    id: "las-encoding",
    severity: Severity::Note,
    title: "Characters outside ASCII",
    checks: "How the characters of the file are coded.",
    why: "Names and descriptions may show wrong letters; numbers are not affected.",
    next: "Nothing, unless a name looks wrong.",
    example: "A well name with an accent, written in Windows-1252.",
    references: LAS_2,
};

/// Text before the first section.
pub static PREAMBLE: Check = Check {
    id: "las-preamble",
    severity: Severity::Note,
    title: "Text before the first section",
    checks: "That the file begins with a section or comments.",
    why: "It is not read; a header line moved there would be lost.",
    next: "Look at the lines before the first `~`.",
    example: "An e-mail footer pasted above `~Version`.",
    references: LAS_2,
};

/// Version missing or not known.
pub static VERSION: Check = Check {
    id: "las-version",
    severity: Severity::Warn,
    title: "The version of the standard is missing or not known",
    checks: "VERS in the version section: 1.2, 2.0 or 3.0.",
    why: "1.2 and 2.0 put well items on opposite sides of the colon; the data are the same in both.",
    next: "Compare the well name and the null value shown with the file.",
    example: "`~Version` has no VERS line; the file is read as 2.0.",
    references: LAS_2,
};

/// A section of the writer's own.
pub static SECTION_UNREAD: Check = Check {
    id: "las-section-unread",
    severity: Severity::Note,
    title: "Sections that are not read",
    checks: "Whether there are sections besides version, well, curve, parameter, other and data.",
    why: "The standard allows them, but their content is not known.",
    next: "Nothing, unless a curve or parameter you need stands there.",
    example: "`~Core_Definition` in a LAS 3.0 file.",
    references: LAS_2,
};

/// A section that is missing, repeated or in the wrong place.
pub static SECTION: Check = Check {
    id: "las-section",
    severity: Severity::Warn,
    title: "A section is missing, repeated or in the wrong place",
    checks: "The version, well, curve and data sections, each once, the data last.",
    why: "Without a curve section columns have no names; a second data section is not read.",
    next: "Look at the section titles of the file.",
    example: "There is no `~C`; the columns are named by the words after `~A`.",
    references: LAS_2,
};

/// A header line that does not follow the standard.
pub static HEADER_LINE: Check = Check {
    id: "las-header-line",
    severity: Severity::Note,
    title: "A header line out of form",
    checks: "That each header line has a point and a colon: `MNEM.UNIT VALUE : DESCRIPTION`.",
    why: "Its name, unit or value may be read otherwise than meant.",
    next: "Compare the line with what was read from it.",
    example: "`DEPT.M` without a colon; `COMPANY :` without a point.",
    references: LAS_2,
};

/// One mnemonic, several curves.
pub static DUPLICATE: Check = Check {
    id: "las-duplicate-mnemonic",
    severity: Severity::Note,
    title: "Curves of the same name",
    checks: "That curve names differ.",
    why: "A name alone does not say which curve is meant; the first is taken.",
    next: "Name the second as `NAME:2`.",
    example: "Three curves are called RHO.",
    references: PRACTICE,
};

/// Wrap missing or wrong.
pub static WRAP: Check = Check {
    id: "las-wrap",
    severity: Severity::Note,
    title: "The wrap flag is missing or wrong",
    checks: "WRAP against the layout of the data lines.",
    why: "Rows read with the wrong layout would mix the curves; the layout found in the data is taken.",
    next: "Compare the number of rows with the log.",
    example: "WRAP says NO, but each row takes six lines.",
    references: LAS_2,
};

/// No null value declared.
pub static NULL: Check = Check {
    id: "las-null",
    severity: Severity::Warn,
    title: "No null value is declared",
    checks: "NULL in the well section.",
    why: "Without it a placeholder such as -999.25 is a number like any other.",
    next: "Ask for the null value; the usual ones that stand in the data have been taken for it.",
    example: "There is no NULL line, and DT has -999.25 twice.",
    references: LAS_1,
};

/// Usual null values besides the declared one.
pub static OTHER_NULL: Check = Check {
    id: "las-other-null",
    severity: Severity::Note,
    title: "Another usual null value stands in the data",
    checks: "-999.25, -9999.25, -999, -9999, -99999 and -32768 where NULL says otherwise.",
    why: "Files merged from several runs keep the null values of each. They are left as numbers.",
    next: "Look at the curve where it occurs; a caliper is masked by its plausible range in any case.",
    example: "NULL is -999.25; CALI has -9999 on 12 rows.",
    references: LAS_2,
};
