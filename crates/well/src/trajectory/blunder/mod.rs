//! Blunders in a survey: stations that cannot be, stations off the line, and positions that do
//! not follow from the stations.

mod angle;
mod order;
mod reported;
mod trend;

pub(super) use order::usable;

use super::survey::Survey;
use super::survey_table::SurveyRow;
use crate::finding::{Check, Finding};
use crate::table::Notes;

/// Every check that needs the path.
pub(super) fn judge(survey: &Survey, notes: &mut Notes) {
    angle::vertical_azimuths(survey, notes);
    angle::jumps(survey, notes);
    angle::unit(survey, notes);
    trend::off_trend(survey, notes);
    trend::long_courses(survey, notes);
    reported::positions(survey, notes);
    reported::severities(survey, notes);
}

/// A finding at a row.
fn at(check: &'static Check, row: &SurveyRow, message: impl Into<quantity::Text>, notes: &Notes) -> Finding {
    check.found(message).line(notes.file().to_string(), row.line, row.shown.to_string()).depth(row.station.md)
}

/// A number with the words for one or for many.
pub(super) fn counted(n: usize, one: &str, many: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {many}") }
}
