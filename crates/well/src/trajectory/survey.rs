//! A survey, read, judged and made into a path.

use super::blunder;
use super::check;
use super::path::Trajectory;
use super::read_csv::{MOST_FINDINGS, read_survey_csv};
use super::read_witsml::read_witsml_trajectory;
use super::station::Station;
use super::survey_table::{RowKind, SurveyOptions, SurveyRow, SurveyTable};
use crate::Severity;
use crate::finding::Read;
use crate::table::decode::{decode, is_web_page};
use crate::table::{Notes, in_file_order};
use physics::geometry::{PathStart, full_circle};
use quantity::{Angle, Length, MeasuredDepth, Quantity, Text, TrueVerticalDepth, said};

/// Depth within which a first station stands at the datum.
const AT_DATUM: Length = Length::m(0.01);
/// Inclination above which a hole over the first station is not taken as vertical in silence.
const NEARLY_VERTICAL: Angle = Angle::deg(1.0);

/// A survey with its path.
#[derive(Debug, Clone, PartialEq)]
pub struct Survey {
    /// The file as read.
    pub table: SurveyTable,
    /// The path of the stations that can be used.
    pub trajectory: Trajectory,
    used: Vec<usize>,
}

impl Survey {
    /// The rows the path is made of, one for each of its stations.
    pub fn rows(&self) -> impl Iterator<Item = &SurveyRow> {
        self.used.iter().filter_map(|i| self.table.rows.get(*i))
    }

    /// For each course, whether its two rows stand beside each other in the file.
    pub(super) fn neighbours(&self) -> impl Iterator<Item = bool> + '_ {
        self.used.windows(2).map(|w| matches!(w, [a, b] if a + 1 == *b))
    }
}

impl SurveyTable {
    /// Judges the stations and makes them into a path.
    pub fn survey(self) -> Read<Survey> {
        let mut notes = Notes::new(&self.file, MOST_FINDINGS);
        let used = blunder::usable(&self, &mut notes);
        let rows: Vec<&SurveyRow> = used.iter().filter_map(|i| self.rows.get(*i)).collect();
        let stations: Vec<Station> =
            rows.iter().map(|r| Station { azimuth: full_circle(r.station.azimuth), ..r.station }).collect();
        let Some(start) = rows.first().map(|first| tie_in(first, &mut notes)) else {
            return Read::none(notes.finish());
        };
        let projected = first_projected(&rows, &mut notes);
        let trajectory = match Trajectory::new(&stations, start, self.frame.clone()) {
            Ok(path) => path.projected_from(projected),
            Err(e) => {
                if !notes.has(&check::TOO_FEW) {
                    notes.whole(&check::TOO_FEW, e.to_string());
                }
                return Read::none(notes.finish());
            }
        };
        let survey = Survey { trajectory, used, table: self };
        blunder::judge(&survey, &mut notes);
        Read::some(survey, notes.finish())
    }
}

/// Coordinates of the first station: those it reports, or those of a vertical hole above it.
fn tie_in(first: &SurveyRow, notes: &mut Notes) -> PathStart {
    let (s, r) = (first.station, first.reported);
    let at_datum = s.md.si().abs() <= AT_DATUM.si();
    let start = PathStart {
        north: r.north.unwrap_or_default(),
        east: r.east.unwrap_or_default(),
        tvd: r.tvd.unwrap_or(TrueVerticalDepth::m(s.md.si())),
    };
    let place = |message: Text| {
        let found =
            check::TIE_IN.found(message).line(notes.file().to_string(), first.line, first.shown.to_string());
        found.depth(s.md)
    };
    let finding = if start.north.si() != 0.0 || start.east.si() != 0.0 {
        let message =
            said!("the first station stands {} north and {} east of the origin", start.north, start.east);
        Some(place(message))
    } else if !at_datum && r.tvd.is_none() {
        let tilted = s.inclination.si() > NEARLY_VERTICAL.si();
        let severity = if tilted { Severity::Warn } else { Severity::Note };
        let message = said!("the first station stands at {}; the hole above it is taken as vertical", s.md);
        Some(place(message).value(s.inclination).severity(severity))
    } else {
        None
    };
    if let Some(finding) = finding {
        notes.add(finding);
    }
    start
}

/// Position of the first of the projected stations at the end; their number if there is none.
fn first_projected(rows: &[&SurveyRow], notes: &mut Notes) -> usize {
    let tail = rows.iter().rev().take_while(|r| r.kind == RowKind::Projected).count();
    let first = rows.len() - tail;
    if let (Some(row), Some(last)) = (rows.get(first), rows.last()) {
        let depth: MeasuredDepth = last.station.md;
        let stations = blunder::counted(tail, "station is", "stations are");
        let message = said!("{stations} projected, down to {depth}");
        let finding =
            check::PROJECTED.found(message).line(notes.file().to_string(), row.line, row.shown.to_string());
        notes.add(finding.depth(row.station.md));
    }
    first
}

/// Reads a survey file, text table or WITSML, judges it and makes it into a path.
pub fn read_survey(bytes: &[u8], options: &SurveyOptions) -> Read<Survey> {
    let read =
        if is_xml(bytes) { read_witsml_trajectory(bytes, options) } else { read_survey_csv(bytes, options) };
    let Some(table) = read.value else { return Read { value: None, findings: read.findings } };
    let judged = table.survey();
    Read { value: judged.value, findings: in_file_order(read.findings, judged.findings) }
}

/// Whether a file is XML and no web page: its first sign is `<`, in any encoding.
fn is_xml(bytes: &[u8]) -> bool {
    let head = bytes.get(..2000).unwrap_or(bytes);
    if is_web_page(&decode(head).0) {
        return false;
    }
    let blank = |b: &u8| b.is_ascii_whitespace() || matches!(b, 0 | 0xEF | 0xBB | 0xBF | 0xFE | 0xFF);
    head.iter().find(|b| !blank(b)) == Some(&b'<')
}
