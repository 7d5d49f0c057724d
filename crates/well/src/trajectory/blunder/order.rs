//! Depths that do not rise, and angles that cannot be: which stations are used.

use super::at;
use crate::Severity;
use crate::table::Notes;
use crate::trajectory::check;
use crate::trajectory::path::LEAST_COURSE;
use crate::trajectory::survey_table::{SurveyRow, SurveyTable};
use physics::geometry::full_circle;
use quantity::{Angle, MeasuredDepth, Quantity, said};

/// Highest measured depth that is taken.
const HIGHEST: MeasuredDepth = MeasuredDepth::m(-100.0);
/// Deepest measured depth that is taken.
const DEEPEST: MeasuredDepth = MeasuredDepth::m(20_000.0);
/// Two readings of one station differ by no more than this.
const SAME_ANGLE: Angle = Angle::deg(0.005);
/// Stations nearer than this to opposite ways are refused.
const REVERSED: Angle = Angle::deg(179.9);

/// Positions of the rows that make the path, in order; says why others do not.
pub(in crate::trajectory) fn usable(table: &SurveyTable, notes: &mut Notes) -> Vec<usize> {
    if let Some(first) = bottom_up(table) {
        let message = "the stations are listed from the bottom of the hole up".to_string();
        let finding = at(&check::DEPTH_ORDER, first, message, notes).value(first.station.md);
        notes.add(finding.next("Put the rows in order of depth, from the top down."));
        return Vec::new();
    }
    let mut kept: Vec<usize> = Vec::with_capacity(table.rows.len());
    for (index, row) in table.rows.iter().enumerate() {
        let last = kept.last().and_then(|i| table.rows.get(*i));
        if is_possible(row, notes) && follows(row, last, notes) {
            kept.push(index);
        }
    }
    if kept.len() < 2 {
        let message = said!("{} of {} stations can be used", kept.len(), table.rows.len());
        notes.whole(&check::TOO_FEW, message);
    }
    kept
}

/// The first row of a survey whose depths fall from row to row.
fn bottom_up(table: &SurveyTable) -> Option<&SurveyRow> {
    let falls = table.rows.is_sorted_by(|a, b| a.station.md.si() > b.station.md.si());
    table.rows.first().filter(|_| falls && table.rows.len() > 2)
}

/// Whether depth and inclination can be.
fn is_possible(row: &SurveyRow, notes: &mut Notes) -> bool {
    let s = row.station;
    if !(s.md.si() >= HIGHEST.si() && s.md.si() <= DEEPEST.si()) {
        let limit = if s.md.si() < HIGHEST.si() { HIGHEST } else { DEEPEST };
        let message = "the measured depth lies outside what is drilled; the station is left out".to_string();
        notes.add(at(&check::DEPTH_RANGE, row, message, notes).value(s.md).limit(limit));
        return false;
    }
    if !(0.0..=std::f64::consts::PI).contains(&s.inclination.si()) {
        let message = "the inclination lies outside 0 to 180 deg; the station is left out".to_string();
        notes.add(at(&check::INCLINATION_RANGE, row, message, notes).value(s.inclination));
        return false;
    }
    let folded = full_circle(s.azimuth);
    if s.azimuth.si() < 0.0 || s.azimuth.si() > 2.0 * std::f64::consts::PI + 1e-9 {
        let beyond = s.azimuth.in_deg().abs() > 360.0 + 1e-6;
        let severity = if beyond { Severity::Warn } else { Severity::Note };
        let message = said!("the azimuth is read as {:.2} deg", folded.in_deg());
        notes.add(at(&check::AZIMUTH_RANGE, row, message, notes).value(s.azimuth).severity(severity));
    }
    true
}

/// Whether a row lies below the last one used.
fn follows(row: &SurveyRow, last: Option<&SurveyRow>, notes: &mut Notes) -> bool {
    let Some(last) = last else { return true };
    let course = row.station.md - last.station.md;
    let turned = row.station.direction().dogleg(last.station.direction());
    if course.si().abs() < LEAST_COURSE.si() {
        let same = turned.si() <= SAME_ANGLE.si();
        let severity = if same { Severity::Note } else { Severity::Warn };
        let message = if same {
            "the station above stands here once more; it is used once".to_string()
        } else {
            format!(
                "the station above, on line {}, stands at the same depth; the first one is used",
                last.line
            )
        };
        notes.add(at(&check::DEPTH_REPEATED, row, message, notes).value(turned).severity(severity));
        return false;
    }
    if course.si() < 0.0 {
        let message =
            said!("the depth does not rise from that on line {}; the station is left out", last.line);
        notes.add(at(&check::DEPTH_ORDER, row, message, notes).value(row.station.md).limit(last.station.md));
        return false;
    }
    if turned.si() > REVERSED.si() {
        let message = said!("the station points opposite to that on line {}; it is left out", last.line);
        notes.add(at(&check::REVERSAL, row, message, notes).value(turned).limit(REVERSED));
        return false;
    }
    true
}
