//! The rows.

use super::{LAS_2, PRACTICE};
use crate::{Check, Severity};

/// Another delimiter than declared.
pub static DELIMITER: Check = Check {
    id: "las-delimiter",
    severity: Severity::Note,
    title: "The columns are parted otherwise than declared",
    checks: "DLM (a blank if there is none) against the data lines.",
    why: "The right delimiter is the one that gives the declared number of columns; it is taken.",
    next: "Compare a row with the file.",
    example: "No DLM is given, and the values are parted by commas.",
    references: LAS_2,
};

/// No rows.
pub static NO_DATA: Check = Check {
    id: "las-no-data",
    severity: Severity::Warn,
    title: "No data",
    checks: "That the data section has rows.",
    why: "The header alone describes no hole.",
    next: "Get the file again; it may have been cut off.",
    example: "The last line of the file is `~ASCII`.",
    references: LAS_2,
};

/// Header and data do not have the same number of columns.
pub static COLUMNS: Check = Check {
    id: "las-columns",
    severity: Severity::Warn,
    title: "More or fewer columns than curves",
    checks: "The columns of the data against the curves of the header.",
    why: "The first columns are taken for the first curves; if the missing one is in the middle, the rest \
        are misnamed.",
    next: "Compare the words after `~A`, or a value you know, with the curve names.",
    example: "6 curves are declared and every row has 4 values: the last two curves are empty.",
    references: LAS_2,
};

/// A row with too few or too many values.
pub static ROW_LENGTH: Check = Check {
    id: "las-row-length",
    severity: Severity::Warn,
    title: "Rows with too few or too many values",
    checks: "That each row has one value for each curve.",
    why: "Behind a missing value every number is one column off. What cannot be placed is left out.",
    next: "Look at the line; get the file again if there are many.",
    example: "Line 812 has 7 values for 8 curves: only its depth is kept.",
    references: LAS_2,
};

/// Numbers without a blank between.
pub static RUN_ON: Check = Check {
    id: "las-run-on",
    severity: Severity::Warn,
    title: "Numbers run together",
    checks: "Values such as `123.4-999.25` or `7.020101130.188`.",
    why: "A column too narrow for its numbers leaves no blank. At a minus sign they are parted; else both \
        are left out.",
    next: "Compare the parted values with their neighbours.",
    example: "`7.330-19508.961` is read as 7.330 and -19508.961.",
    references: PRACTICE,
};

/// Commas for the decimals.
pub static DECIMAL_COMMA: Check = Check {
    id: "las-decimal-comma",
    severity: Severity::Warn,
    title: "A comma within a number",
    checks: "Values such as `123,45` where columns are parted by blanks.",
    why: "It is read as a decimal comma. If it marks thousands, the value is a thousand times too small.",
    next: "Compare with the neighbouring values.",
    example: "`123,420` is read as 123.42.",
    references: PRACTICE,
};

/// Words among numbers.
pub static NON_NUMERIC: Check = Check {
    id: "las-non-numeric",
    severity: Severity::Note,
    title: "Words in a column of numbers",
    checks: "That the values of a curve are numbers.",
    why: "Such a value is taken as missing.",
    next: "Look at the line if there are many.",
    example: "`****`, `(null)`, `ERR`, `-1.#IND`.",
    references: LAS_2,
};

/// A column of words.
pub static TEXT_CURVE: Check = Check {
    id: "las-text-curve",
    severity: Severity::Note,
    title: "A column of words",
    checks: "Whether a curve holds words, dates or times.",
    why: "It is kept as text and not computed with.",
    next: "Nothing.",
    example: "ZONE holds `pick_alpha`; TIME holds `00:00:01`.",
    references: LAS_2,
};

/// Comments among the rows.
pub static DATA_COMMENT: Check = Check {
    id: "las-data-comment",
    severity: Severity::Note,
    title: "Comments among the rows",
    checks: "Lines of the data section that begin with `#`.",
    why: "The standard has none there. They are skipped; a row that was commented out is not read.",
    next: "Look at the lines if they hold numbers.",
    example: "`# 1670.0 8.51` between two rows.",
    references: LAS_2,
};
