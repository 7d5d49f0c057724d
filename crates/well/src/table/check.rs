//! The checks every table reader shares: what `explain ID` prints.

use crate::finding::{Check, Severity};

macro_rules! check {
    ($name:ident, $id:literal, $severity:ident, $title:literal,
     $checks:literal, $why:literal, $next:literal, $example:literal) => {
        #[doc = $title]
        pub static $name: Check = Check {
            id: $id,
            severity: Severity::$severity,
            title: $title,
            checks: $checks,
            why: $why,
            next: $next,
            example: $example,
            references: "practice",
        };
    };
}

check!(
    NOT_TEXT,
    "table-not-text",
    Stop,
    "the file is not a text table",
    "The first bytes of the file are compared with those of workbooks, archives, documents and pictures.",
    "A workbook renamed to .csv cannot be read line by line; guessing at its content would invent numbers.",
    "Save the sheet as comma-separated text and give that file.",
    "tally.csv begins with the mark of a zipped workbook."
);
check!(
    TOO_LARGE,
    "table-too-large",
    Stop,
    "the file is larger than what is read",
    "The size in bytes, the rows and the cells of a row are held against fixed bounds.",
    "A bound keeps a wrong or damaged file from filling the memory of the computer the job runs on.",
    "Give only the part of the file that belongs to this job.",
    "A log of the whole field, 400 MB, was given as a survey."
);
check!(
    EMPTY,
    "table-empty",
    Stop,
    "the table has no data row",
    "At least one row below the headings holds the columns that are needed.",
    "A file with headings alone looks complete in a folder, and gives nothing to plan with.",
    "Check that the export wrote its rows.",
    "survey.csv holds a heading row and two comments."
);
check!(
    NO_HEADER,
    "table-header-missing",
    Stop,
    "no heading row names the columns that are needed",
    "The first rows are searched for one that names every needed column, under any of its usual names.",
    "Taking columns by their position swaps inclination and azimuth, or length and depth, without a trace.",
    "Put one row of column names above the data, with units, such as `Length (m)`.",
    "The file begins with `1;12,61;12,61` and no names."
);
check!(
    COLUMN_TWICE,
    "table-column-twice",
    Note,
    "two columns have the same meaning",
    "Headings are compared with the names of each wanted column; more than one may fit.",
    "A table with lengths in feet and in metres holds two columns for one thing; only one can be used.",
    "Check that the column used is the measured one, and remove the other.",
    "`Length (ft)` and `Length (m)`: the first is used."
);
check!(
    UNIT_MISSING,
    "table-unit-missing",
    Stop,
    "a column of numbers has no unit",
    "Every column of numbers has a unit: in its heading, in a row of units below, or in each cell.",
    "Feet read as metres puts the string three times too deep.",
    "Write the unit into the heading, such as `MD (ft)`.",
    "The heading is `MD` and the cells are bare numbers."
);
check!(
    UNIT_ASSUMED,
    "table-unit-assumed",
    Warn,
    "the unit of a column is assumed",
    "The file states no unit for the column, and its usual unit was taken.",
    "An assumed unit is right until the day a file comes in the other system.",
    "Write the unit into the heading, such as `Inc (deg)`.",
    "The heading is `Inc`; degrees are assumed."
);
check!(
    DECIMAL_COMMA,
    "table-decimal-comma",
    Note,
    "decimals are written with a comma",
    "The numbers of the file are searched for commas, and their meaning is settled for the file as a whole.",
    "12,61 read as 1261 or as two cells changes every depth below it.",
    "Check one known number; nothing else is needed.",
    "`12,61` is read as 12.61."
);
check!(
    THOUSANDS,
    "table-thousands",
    Note,
    "thousands are parted by a comma",
    "The numbers of the file are searched for commas, and their meaning is settled for the file as a whole.",
    "1,234 read as 1.234 puts a depth near the surface.",
    "Check one known number; nothing else is needed.",
    "`1,234.5` is read as 1234.5."
);
check!(
    BAD_CELL,
    "table-cell",
    Stop,
    "a cell cannot be read",
    "Every cell of a column of numbers is a number, a number with a fitting unit, or a word for `nothing`.",
    "A row dropped in silence shifts everything below it.",
    "Correct the cell, or write N/A where there is no value.",
    "`12.6l` holds a letter l for a one."
);
check!(
    NO_CELL,
    "table-cell-missing",
    Warn,
    "a needed cell is empty",
    "In a row that holds data, every needed column has a value.",
    "A joint without a length or a station without an azimuth leaves a hole that later rows hide.",
    "Fill in the value, or remove the row.",
    "Joint 57 has a serial number and no length."
);
check!(
    MORE_CELLS,
    "table-cells-extra",
    Stop,
    "a row has more cells than there are columns",
    "The filled cells of each row are counted against the headings.",
    "Decimal commas in a comma-separated file split one number in two; every column after it is wrong.",
    "Write decimals with a point, or put quotes round the cells, or part the columns by semicolons.",
    "`1,12,61,casing` under three headings."
);
check!(
    PASSED_OVER,
    "table-row-passed",
    Note,
    "a row without numbers was passed over",
    "Rows in the data that hold words where numbers are needed are taken for remarks.",
    "A remark row is harmless; a data row damaged in every cell looks the same.",
    "Check that the row is a remark.",
    "`--- second rack ---` between joints 80 and 81."
);
check!(
    OPEN_QUOTE,
    "table-quote-open",
    Warn,
    "a quotation mark is not closed",
    "Each quoted cell is closed within a few lines.",
    "An open quote would swallow the rows that follow.",
    "Close or remove the quotation mark.",
    "`\"5.5 in pup,3.05` has one mark."
);

/// All checks of tables.
pub static CHECKS: &[&Check] = &[
    &NOT_TEXT,
    &TOO_LARGE,
    &EMPTY,
    &NO_HEADER,
    &COLUMN_TWICE,
    &UNIT_MISSING,
    &UNIT_ASSUMED,
    &DECIMAL_COMMA,
    &THOUSANDS,
    &BAD_CELL,
    &NO_CELL,
    &MORE_CELLS,
    &PASSED_OVER,
    &OPEN_QUOTE,
];
