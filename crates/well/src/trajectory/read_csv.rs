//! Surveys as text tables: any column order, names, units, delimiter and encoding.

use super::check;
use super::station::{DepthDatum, Frame, Station};
use super::survey_table::{DepthUnit, Reported, RowKind, SurveyOptions, SurveyRow, SurveyTable};
use crate::finding::{Finding, Read, Severity};
use crate::job::North;
use crate::table::{Caps, Column, Notes, Row, Table, in_file_order, read_table_within};
use quantity::{Angle, Curvature, Length, MeasuredDepth, Quantity, TrueVerticalDepth, said};

/// Most rows of a survey that are read.
pub const MOST_ROWS: usize = 1_000_000;
/// Longest line of a survey, in bytes.
const LONGEST_LINE: usize = 1_000_000;
/// Most findings of one check that are listed.
pub(super) const MOST_FINDINGS: usize = 20;

const MD: &[&str] = &[
    "measured depth",
    "meas depth",
    "measureddepth",
    "depth md",
    "md depth",
    "survey depth",
    "md rkb",
    "md kb",
    "md rt",
    "depth",
];
const INCLINATION: &[&str] =
    &["inclination", "incl", "incl angle", "inc angle", "hole angle", "angle", "drift", "deviation"];
const AZIMUTH: &[&str] = &[
    "azimuth",
    "azim",
    "az",
    "azi grid",
    "azi gn",
    "azi true",
    "azi tn",
    "azi mag",
    "azi mn",
    "azim grid",
    "azim true",
    "azim mag",
    "azimuth grid",
    "azimuth true",
    "azimuth magnetic",
    "grid azi",
    "grid azim",
    "grid azimuth",
    "true azi",
    "true azimuth",
    "mag azi",
    "mag azimuth",
    "magnetic azimuth",
    "azimuth gn",
    "azimuth tn",
    "direction",
    "hole direction",
];
const TVD: &[&str] = &[
    "true vertical depth",
    "true vert depth",
    "vertical depth",
    "vert depth",
    "tvd rkb",
    "tvd kb",
    "tvd rt",
    "tvd rep",
];
const TVD_SUBSEA: &[&str] =
    &["tvdss", "tvd ss", "tvd subsea", "sub sea", "subsea", "subsea depth", "subsea tvd", "sstvd", "tvd msl"];
const NORTH: &[&str] =
    &["n s", "ns", "north south", "n", "local n", "local north", "n rep", "dispns", "disp ns", "y offset"];
const EAST: &[&str] =
    &["e w", "ew", "east west", "e", "local e", "local east", "e rep", "dispew", "disp ew", "x offset"];
const SEVERITY: &[&str] =
    &["dogleg severity", "dog leg severity", "dogleg", "dog leg", "dleg", "dl severity", "dog leg sev"];
const SECTION: &[&str] =
    &["vertical section", "vert section", "vert sect", "vsect", "vsec", "v sect", "v sec", "section"];
const NORTHING: &[&str] = &["map northing", "grid northing", "map north"];
const EASTING: &[&str] = &["map easting", "grid easting", "map east"];
const REMARK: &[&str] = &[
    "comment",
    "comments",
    "remarks",
    "annotation",
    "annotations",
    "note",
    "notes",
    "type",
    "survey type",
    "station type",
    "tool",
    "survey tool",
];

/// Reads a survey from a text table.
///
/// Depth, inclination and azimuth must be there; vertical depth, coordinates and dogleg
/// severity are kept where they are. Angles without a unit are degrees; depths without one need
/// [`SurveyOptions::depth_unit`].
pub fn read_survey_csv(bytes: &[u8], options: &SurveyOptions) -> Read<SurveyTable> {
    let mut notes = Notes::new(&options.file, MOST_FINDINGS);
    if let Some((line, length)) = too_long(bytes) {
        let message = said!("line {line} holds {length} bytes; {LONGEST_LINE} is the most");
        notes.at(&check::LINE_TOO_LONG, line, "", message);
        return Read::none(notes.finish());
    }
    let caps = Caps { bytes: 256 << 20, rows: MOST_ROWS, cells: 256, findings: MOST_FINDINGS };
    let unit = stated_unit(bytes, options, caps).or(options.depth_unit);
    let read = read_table_within(bytes, &options.file, &columns(options.depth_unit, unit), caps);
    let findings = weighed(read.findings, options.depth_unit);
    let Some(table) = read.value else { return Read { value: None, findings } };
    let rows = table.rows().filter_map(|row| station(&row, &mut notes)).collect();
    let frame = frame(&table, options, &mut notes);
    let value = SurveyTable { file: options.file.clone(), name: None, rows, frame };
    Read::some(value, in_file_order(findings, notes.finish()))
}

/// An assumed unit is a note: degrees are what surveys are written in, and lengths take the unit
/// of the measured depth. One the caller stated is no assumption. Empty cells are judged with the
/// station they belong to.
fn weighed(findings: Vec<Finding>, stated: Option<DepthUnit>) -> Vec<Finding> {
    let assumed = |f: &Finding| f.id == "table-unit-assumed";
    let ending = stated.map(|u| format!("; {} is assumed", u.symbol()));
    let said = |f: &Finding| ending.as_ref().is_some_and(|e| f.message.ends_with(e.as_str()));
    let told_elsewhere = |f: &Finding| f.id == "table-cell-missing" || assumed(f) && said(f);
    let kept = findings.into_iter().filter(|f| !told_elsewhere(f));
    kept.map(|f| if assumed(&f) { f.severity(Severity::Note) } else { f }).collect()
}

/// First line that is too long, with its length.
fn too_long(bytes: &[u8]) -> Option<(usize, usize)> {
    let lines = bytes.split(|b| matches!(b, b'\n' | b'\r'));
    let mut ended = 1;
    let mut at = 0;
    for line in lines {
        if line.len() > LONGEST_LINE {
            return Some((ended, line.len()));
        }
        at += line.len() + 1;
        let pair = matches!(bytes.get(at - 1..=at), Some(b"\r\n"));
        ended += usize::from(!pair);
    }
    None
}

/// The unit of measured depth the file itself states.
fn stated_unit(bytes: &[u8], options: &SurveyOptions, caps: Caps) -> Option<DepthUnit> {
    let caps = Caps { rows: 50, ..caps };
    let table = read_table_within(bytes, &options.file, &columns(options.depth_unit, None), caps).value?;
    let column = table.columns().iter().find(|c| c.name == "md")?;
    DepthUnit::from_symbol(&column.scale.as_ref()?.symbol)
}

/// The columns of a survey; the unit of depth is assumed for all lengths that state none.
fn columns(depth: Option<DepthUnit>, other: Option<DepthUnit>) -> Vec<Column> {
    let assume = |column: Column, unit: Option<&'static str>| Column { assumed: unit, ..column };
    let length = other.map(DepthUnit::symbol);
    let lengths = |name, names| assume(Column::optional::<Length>(name, names), length);
    let verticals = |name, names| assume(Column::optional::<TrueVerticalDepth>(name, names), length);
    vec![
        assume(Column::required::<MeasuredDepth>("md", MD), depth.map(DepthUnit::symbol)),
        Column::required::<Angle>("inc", INCLINATION).assuming("deg"),
        Column::required::<Angle>("azi", AZIMUTH).assuming("deg"),
        verticals("tvd", TVD),
        verticals("tvd subsea", TVD_SUBSEA),
        lengths("north", NORTH),
        lengths("east", EAST),
        assume(Column::optional::<Curvature>("dls", SEVERITY), other.map(DepthUnit::severity_symbol)),
        lengths("vs", SECTION),
        lengths("northing", NORTHING),
        lengths("easting", EASTING),
        Column::text("remark", REMARK),
    ]
}

/// A row as a station; says what is missing where no other finding does.
fn station(row: &Row<'_>, notes: &mut Notes) -> Option<SurveyRow> {
    let (md, inclination) = (row.get::<MeasuredDepth>("md"), row.get::<Angle>("inc"));
    let vertical = inclination.is_some_and(|i| i.si() == 0.0);
    let azimuth = row.get::<Angle>("azi").or(vertical.then_some(Angle::ZERO));
    let (Some(md), Some(inclination), Some(azimuth)) = (md, inclination, azimuth) else {
        let lacking: Vec<&str> = [
            ("measured depth", md.is_none()),
            ("inclination", inclination.is_none()),
            ("azimuth", azimuth.is_none()),
        ]
        .iter()
        .filter(|(_, lacks)| *lacks)
        .map(|(name, _)| *name)
        .collect();
        let message = said!("the row has no {}; the station is left out", lacking.join(" and no "));
        notes.at(&check::ROW_INCOMPLETE, row.line(), row.shown(), message);
        return None;
    };
    let reported = Reported {
        tvd: row.get("tvd"),
        tvd_subsea: row.get("tvd subsea"),
        north: row.get("north"),
        east: row.get("east"),
        severity: row.get("dls"),
        section: row.get("vs"),
        northing: row.get("northing"),
        easting: row.get("easting"),
    };
    let kind = row.text("remark").map_or(RowKind::Measured, RowKind::from_words);
    let shown = row.shown().chars().take(200).collect::<String>().into_boxed_str();
    Some(SurveyRow {
        line: row.line(),
        shown,
        station: Station::new(md, inclination, azimuth),
        kind,
        reported,
    })
}

/// What the file states of its north and datum, below what the caller states.
fn frame(table: &Table, options: &SurveyOptions, notes: &mut Notes) -> Frame {
    let mut frame = options.frame.clone();
    let heading = table.columns().iter().find(|c| c.name == "azi").map(|c| c.heading.clone());
    let stated = heading.as_deref().and_then(north_of_words);
    frame.north_text = frame.north_text.or(stated.and(heading.clone()));
    settle_north(&mut frame, stated, &heading.unwrap_or_default(), notes);
    let elevation = table.rows().find_map(|r| {
        let (tvd, subsea): (TrueVerticalDepth, TrueVerticalDepth) = (r.get("tvd")?, r.get("tvd subsea")?);
        Some(tvd - subsea)
    });
    if let (None, Some(elevation)) = (&frame.datum, elevation) {
        let name = "depth datum of the survey file".to_string();
        frame.datum = Some(DepthDatum { name, elevation: Some(elevation) });
    }
    frame
}

/// North as words of a heading or of a WITSML file state it.
pub(super) fn north_of_words(words: &str) -> Option<North> {
    let lower = words.to_lowercase();
    let parts = || lower.split(|c: char| !c.is_alphanumeric());
    let has = |list: &[&str]| parts().any(|p| list.contains(&p));
    if has(&["grid", "gn"]) {
        Some(North::Grid)
    } else if has(&["true", "tn"]) {
        Some(North::True)
    } else if has(&["magnetic", "mag", "mn"]) {
        Some(North::Magnetic)
    } else {
        None
    }
}

/// Takes the file's north where the caller states none, and says where they differ.
pub(super) fn settle_north(frame: &mut Frame, stated: Option<North>, words: &str, notes: &mut Notes) {
    match (frame.north, stated) {
        (Some(job), Some(file)) if job != file => {
            let message = said!(
                "the job file states {} north, the survey file {} (`{words}`)",
                job.word(),
                file.word()
            );
            let finding = check::NORTH.found(message).file(notes.file().to_string());
            notes.add(finding.severity(Severity::Warn));
        }
        (None, None) => notes.whole(&check::NORTH, "neither job file nor survey file states the north"),
        _ => frame.north = frame.north.or(stated),
    }
}
