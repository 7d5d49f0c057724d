//! Real surveys, where the data folder beside the workspace is present.

#![allow(clippy::expect_used, clippy::panic)] // a test fails by panicking

use quantity::{Angle, Curvature, Length, MeasuredDepth, Quantity};
use std::path::{Path, PathBuf};
use well::trajectory::{Coverage, DepthUnit, RowKind, Survey, SurveyOptions, read_survey};
use well::{Finding, Severity};

fn file(name: &str) -> Option<(String, Vec<u8>)> {
    let path: PathBuf = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../shared/data").join(name);
    match std::fs::read(&path) {
        Ok(bytes) => Some((name.to_string(), bytes)),
        Err(e) => {
            println!("skipped: {} cannot be read ({e})", path.display());
            None
        }
    }
}

fn read(name: &str, unit: Option<DepthUnit>) -> Option<(Survey, Vec<Finding>)> {
    let (name, bytes) = file(name)?;
    let options = SurveyOptions { depth_unit: unit, ..SurveyOptions::for_file(name) };
    let read = read_survey(&bytes, &options);
    let findings = read.findings;
    Some((read.value.unwrap_or_else(|| panic!("no survey: {findings:#?}")), findings))
}

/// Greatest difference between reported and computed vertical depth, north, east, and how many
/// stations report them.
fn worst(survey: &Survey) -> (Length, usize) {
    let mut worst = Length::ZERO;
    let mut count = 0;
    for row in survey.rows() {
        let p = survey.trajectory.position_at(row.station.md);
        let r = row.reported;
        let (Some(tvd), Some(north), Some(east)) = (r.tvd, r.north, r.east) else { continue };
        count += 1;
        worst = worst.max((p.tvd - tvd).abs()).max((p.north - north).abs()).max((p.east - east).abs());
    }
    (worst, count)
}

fn worst_severity(survey: &Survey) -> Curvature {
    let courses = survey.trajectory.courses().zip(survey.rows().skip(1));
    let off = courses.filter_map(|(c, r)| r.reported.severity.map(|s| (s - c.arc.severity()).abs()));
    off.fold(Curvature::ZERO, Curvature::max)
}

fn ids(findings: &[Finding]) -> Vec<(&str, Severity)> {
    findings.iter().map(|f| (f.id, f.severity)).collect()
}

#[test]
fn real_forge_16a_is_reproduced() {
    let Some((survey, findings)) = read("survey/forge_16a.csv", Some(DepthUnit::Foot)) else { return };
    assert_eq!(survey.trajectory.stations().len(), 422);
    let (off, count) = worst(&survey);
    assert_eq!(count, 24);
    assert!(off.in_ft() < 0.006, "{}", off.in_ft());
    let end = survey.trajectory.position_at(MeasuredDepth::ft(10955.0));
    assert!((end.tvd.in_ft() - 8558.83).abs() < 0.006);
    assert!(!findings.iter().any(|f| f.severity == Severity::Stop), "{:?}", ids(&findings));
    assert!(!findings.iter().any(|f| f.id == "survey-off-trend"), "{findings:#?}");
}

#[test]
fn real_marcellus_5h_is_reproduced() {
    let Some((survey, findings)) = read("survey/marcellus_5h.csv", None) else { return };
    assert_eq!(survey.trajectory.stations().len(), 153);
    let (off, count) = worst(&survey);
    assert_eq!(count, 153);
    assert!(off.in_ft() < 0.006, "{}", off.in_ft());
    assert!(worst_severity(&survey).in_deg_per_100ft() < 0.006);
    assert_eq!(survey.rows().last().map(|r| r.kind), Some(RowKind::Projected));
    let toe = survey.trajectory.position_at(MeasuredDepth::ft(14440.0));
    assert_eq!(toe.coverage, Coverage::Projected);
    assert_eq!(survey.trajectory.last_measured_md().in_ft().round(), 14416.0);
    let datum = survey.trajectory.frame().datum.clone().expect("datum from vertical depth below sea level");
    assert!((datum.elevation.map_or(0.0, Length::in_ft) - 1082.0).abs() < 0.006);
    assert_eq!(survey.trajectory.frame().north.map(|n| n.word()), Some("grid"));
    let serious: Vec<_> = findings.iter().filter(|f| f.severity < Severity::Note).collect();
    assert!(serious.is_empty(), "{serious:#?}");
}

#[test]
fn real_marcellus_map_coordinates_follow_with_the_grid_scale() {
    let Some((survey, _)) = read("survey/marcellus_5h.csv", None) else { return };
    let Some(first) = survey.rows().next().map(|r| r.reported) else { return };
    let (n0, e0) = (first.northing.unwrap_or_default(), first.easting.unwrap_or_default());
    let (mut up, mut down) = (0.0, 0.0);
    for row in survey.rows() {
        let p = survey.trajectory.position_at(row.station.md);
        let (n, e) = (row.reported.northing.unwrap_or_default(), row.reported.easting.unwrap_or_default());
        up += (n - n0).si() * p.north.si() + (e - e0).si() * p.east.si();
        down += p.north.si().powi(2) + p.east.si().powi(2);
    }
    // Map coordinates in US survey feet, positions in international feet.
    let scale = up / down;
    assert!((scale - 0.99994083).abs() < 1e-8, "{scale}");
}

#[test]
fn real_well_1515_is_reproduced() {
    let Some((survey, findings)) = read("survey/well_1515.csv", Some(DepthUnit::Foot)) else { return };
    assert_eq!(survey.trajectory.stations().len(), 83);
    let (off, count) = worst(&survey);
    assert_eq!(count, 83);
    assert!(off.in_ft() < 0.006, "{}", off.in_ft());
    assert!(worst_severity(&survey).in_deg_per_100ft() < 0.006);
    assert!(!findings.iter().any(|f| f.severity == Severity::Stop), "{:?}", ids(&findings));
}

#[test]
fn real_well_1515_without_a_unit_is_refused() {
    let Some((name, bytes)) = file("survey/well_1515.csv") else { return };
    let read = read_survey(&bytes, &SurveyOptions::for_file(name));
    assert!(read.value.is_none());
    assert!(read.findings.iter().any(|f| f.severity == Severity::Stop), "{:?}", ids(&read.findings));
}

#[test]
fn real_witsml_with_a_tie_in_off_the_origin_is_reproduced() {
    let Some((survey, findings)) = read("witsml/komle_v1411_trajectory.xml", None) else { return };
    assert_eq!(survey.trajectory.stations().len(), 82);
    let (off, count) = worst(&survey);
    assert_eq!(count, 82);
    assert!(off.in_m() < 0.003, "{}", off.in_m());
    let top = survey.trajectory.position_at(MeasuredDepth::m(0.0));
    assert!((top.north.in_m() - 29.293).abs() < 1e-9 && (top.east.in_m() - 2.087).abs() < 1e-9);
    assert!(worst_severity(&survey).in_deg_per_30m() < 0.001);
    let found = ids(&findings);
    assert!(found.contains(&("survey-tie-in", Severity::Note)), "{found:?}");
    assert!(!found.iter().any(|(_, s)| *s == Severity::Stop), "{findings:#?}");
    assert_eq!(survey.trajectory.frame().north.map(|n| n.word()), Some("grid"));
}

#[test]
fn real_witsml_in_radians_is_reproduced() {
    let Some((survey, findings)) = read("witsml/volve_15_9-F-4_trajectory.xml", None) else { return };
    assert_eq!(survey.trajectory.stations().len(), 87);
    let (off, count) = worst(&survey);
    assert_eq!(count, 87);
    assert!(off.in_m() < 0.003, "{}", off.in_m());
    let steepest = survey.trajectory.stations().iter().map(|s| s.inclination).fold(Angle::ZERO, Angle::max);
    assert!((steepest.in_deg() - 55.23).abs() < 0.01, "{steepest}");
    assert_eq!(survey.trajectory.frame().north.map(|n| n.word()), Some("true"));
    assert!(!findings.iter().any(|f| f.severity == Severity::Stop), "{findings:#?}");
}

/// A blunder put into a real lateral is found, at the station it was put into.
#[test]
fn real_survey_with_a_blunder_names_the_station() {
    let Some((name, bytes)) = file("survey/marcellus_5h.csv") else { return };
    let text = String::from_utf8(bytes).expect("text");
    let row = "\"\",13228,89.87,324.73,";
    assert!(text.contains(row));
    for bad in ["\"\",13228,98.87,324.73,", "\"\",13228,89.87,342.73,", "\"\",13228,89.87,144.73,"] {
        let read = read_survey(text.replace(row, bad).as_bytes(), &SurveyOptions::for_file(name.clone()));
        let named: Vec<_> = read
            .findings
            .iter()
            .filter(|f| ["survey-off-trend", "survey-azimuth-jump", "survey-reversal"].contains(&f.id))
            .filter_map(|f| f.place.depth.map(|d| d.in_ft().round()))
            .collect();
        assert!(named.contains(&13228.0), "{bad}: {:?}", ids(&read.findings));
    }
}
