//! Blunders in a survey, each with the finding it must raise.

#![allow(clippy::expect_used, clippy::panic)] // a test fails by panicking

use quantity::Quantity;
use well::trajectory::{CHECKS, SurveyOptions, read_survey};
use well::{Finding, Severity};

const HEAD: &str = "MD (ft),Inc (deg),azi grid (deg)\n";

/// A build from 1,000 ft at 9 deg/100 ft and a lateral, stations 95 ft apart, with the small
/// swing that real holes have.
fn clean() -> Vec<(f64, f64, f64)> {
    let swing = [0.3, -0.4, 0.1, 0.5, -0.2, -0.5, 0.4, 0.0, -0.3, 0.2];
    (0..100)
        .map(|k| {
            let (md, s) = (95.0 * f64::from(k), swing[k as usize % swing.len()]);
            let planned = ((md - 1000.0) * 0.09).clamp(0.0, 90.0);
            let inclination = if planned > 0.0 { planned + s } else { 0.0 };
            (md, inclination.clamp(0.0, 180.0), 141.0 + 1.3 * s)
        })
        .collect()
}

fn text(rows: &[(f64, f64, f64)]) -> String {
    rows.iter().fold(HEAD.to_string(), |t, (m, i, a)| t + &format!("{m},{i:.2},{a:.2}\n"))
}

fn findings(text: &str) -> Vec<Finding> {
    read_survey(text.as_bytes(), &SurveyOptions::for_file("s.csv")).findings
}

fn ids(text: &str) -> Vec<(&'static str, Severity, Option<usize>)> {
    findings(text).iter().map(|f| (f.id, f.severity, f.place.line)).collect()
}

/// Findings beyond those of the clean survey.
fn raised(rows: &[(f64, f64, f64)]) -> Vec<(&'static str, Severity, Option<usize>)> {
    let usual = ids(&text(&clean()));
    let ordinary = |id: &str| usual.iter().any(|(u, ..)| *u == id);
    ids(&text(rows)).into_iter().filter(|(id, ..)| !ordinary(id)).collect()
}

#[test]
fn a_clean_survey_raises_nothing_but_vertical_azimuths() {
    assert_eq!(ids(&text(&clean())), [("survey-azimuth-vertical", Severity::Note, Some(2))]);
}

#[test]
fn planned_profiles_with_sharp_corners_are_no_blunders() {
    // Standard survey profiles 2 and 3, in metres.
    let second = "MD (m),Inc (deg),azi grid (deg)\n0,0,0\n600,0,0\n1100,32,2\n1500,32,2\n1660,32,32\n1820,32,62\n1980,32,92\n2140,32,122\n2840,60,220\n3800,60,220\n";
    let third = "MD (m),Inc (deg),azi grid (deg)\n0,0,0\n500,0,0\n1100,50,0\n1700,50,0\n2450,0,0\n2850,0,0\n3030,90,283\n3430,90,193\n3730,90,193\n";
    for text in [second, third] {
        assert!(!ids(text).iter().any(|(id, ..)| *id == "survey-off-trend"), "{:?}", ids(text));
    }
}

#[test]
fn a_kick_off_is_no_blunder() {
    let mut rows: Vec<(f64, f64, f64)> = (0..40).map(|k| (95.0 * f64::from(k), 20.0, 141.0)).collect();
    rows.extend((0..8).map(|k| (3800.0 + 95.0 * f64::from(k), 20.0 + 11.0 * f64::from(k), 141.0)));
    assert!(!ids(&text(&rows)).iter().any(|(id, ..)| *id == "survey-off-trend"));
}

#[test]
fn swapped_digits_and_a_wrong_azimuth_are_named() {
    for (index, inclination, azimuth) in
        [(16usize, 65.98, 141.0), (50, 90.3, 114.4), (60, 96.0, 141.0), (70, 90.0, 147.0)]
    {
        let mut rows = clean();
        rows[index] = (rows[index].0, inclination, azimuth);
        let found = raised(&rows);
        let line = Some(index + 2);
        assert!(found.contains(&("survey-off-trend", Severity::Warn, line)), "{index}: {found:?}");
        assert_eq!(found.iter().filter(|(id, ..)| *id == "survey-off-trend").count(), 1, "{found:?}");
    }
}

#[test]
fn an_azimuth_from_the_other_side_jumps() {
    let mut rows = clean();
    rows[15].2 = 321.4;
    let found = raised(&rows);
    assert!(found.iter().any(|(id, s, _)| *id == "survey-azimuth-jump" && *s == Severity::Warn), "{found:?}");
    let mut rows = clean();
    rows[60] = (rows[60].0, 90.0, rows[59].2 + 180.0);
    rows[59].1 = 90.0;
    assert!(raised(&rows).contains(&("survey-reversal", Severity::Stop, Some(62))), "{:?}", raised(&rows));
}

#[test]
fn depths_that_fall_repeat_or_cannot_be() {
    let mut rows = clean();
    rows[50].0 = 4570.0;
    assert_eq!(raised(&rows), [("survey-depth-order", Severity::Stop, Some(52))]);
    let mut rows = clean();
    rows.insert(31, rows[30]);
    assert_eq!(raised(&rows), [("survey-depth-repeated", Severity::Note, Some(33))]);
    rows[31].1 += 1.0;
    assert_eq!(raised(&rows), [("survey-depth-repeated", Severity::Warn, Some(33))]);
    let mut rows = clean();
    rows[99].0 = 94_050.0;
    assert_eq!(raised(&rows), [("survey-depth-range", Severity::Stop, Some(101))]);
}

#[test]
fn angles_that_cannot_be() {
    let mut rows = clean();
    rows[40].1 = 891.0;
    assert_eq!(raised(&rows), [("survey-inclination-range", Severity::Stop, Some(42))]);
    let mut rows = clean();
    rows[40].1 = -1.0;
    assert_eq!(raised(&rows), [("survey-inclination-range", Severity::Stop, Some(42))]);
    let mut rows = clean();
    rows[40].2 -= 360.0;
    assert_eq!(raised(&rows), [("survey-azimuth-range", Severity::Note, Some(42))]);
    let mut rows = clean();
    rows[40].2 += 3600.0;
    assert_eq!(raised(&rows), [("survey-azimuth-range", Severity::Warn, Some(42))]);
}

#[test]
fn radians_read_as_degrees_are_suspected() {
    let rows: Vec<_> = clean().into_iter().map(|(m, i, a)| (m, i.to_radians(), a.to_radians())).collect();
    let text = rows.iter().fold(HEAD.to_string(), |t, (m, i, a)| t + &format!("{m},{i:.5},{a:.5}\n"));
    assert!(ids(&text).contains(&("survey-angle-unit", Severity::Warn, None)), "{:?}", ids(&text));
}

#[test]
fn long_courses_in_inclined_hole_are_noted() {
    let mut rows = clean();
    rows.drain(55..58);
    let found = raised(&rows);
    assert_eq!(found, [("survey-course-length", Severity::Note, Some(57))]);
}

/// The clean survey with the positions it gives, changed by `change`.
fn reported(unit: &str, change: impl Fn(usize, [f64; 4]) -> [f64; 4]) -> String {
    let read = read_survey(text(&clean()).as_bytes(), &SurveyOptions::for_file("s.csv"));
    let path = read.value.expect("a survey").trajectory;
    let mut out = format!("MD (ft),Inc (deg),azi grid (deg),TVD ({unit}),NS (ft),EW (ft),DLS (deg/100ft)\n");
    for (k, ((m, i, a), s)) in clean().iter().zip(path.stations()).enumerate() {
        let p = path.position_at(s.md);
        // The severity of a station is that of the course above it.
        let above = path.severity_at(quantity::MeasuredDepth::ft(m - 1.0)).in_deg_per_100ft();
        let [tvd, n, e, d] = change(k, [p.tvd.in_ft(), p.north.in_ft(), p.east.in_ft(), above]);
        out += &format!("{m},{i:.2},{a:.2},{tvd:.2},{n:.2},{e:.2},{d:.2}\n");
    }
    out
}

#[test]
fn reported_positions_that_agree_raise_nothing() {
    assert_eq!(ids(&reported("ft", |_, p| p)), ids(&text(&clean())));
}

#[test]
fn reported_positions_that_do_not_follow() {
    let shifted = reported("ft", |k, [t, n, e, d]| [if k > 50 { t + 4.0 } else { t }, n, e, d]);
    assert!(ids(&shifted).iter().any(|(id, s, _)| *id == "survey-reported-position" && *s == Severity::Warn));
    let (sin, cos) = 3f64.to_radians().sin_cos();
    let turned = reported("ft", |_, [t, n, e, d]| [t, n * cos - e * sin, n * sin + e * cos, d]);
    let found = findings(&turned);
    let message = found.iter().find(|f| f.id == "survey-reported-position").map(|f| f.message.clone());
    assert!(message.as_ref().is_some_and(|m| m.contains("turned by 3.00 deg")), "{message:?}");
    let metres = reported("ft", |_, [t, n, e, d]| [t * 0.3048, n, e, d]);
    assert!(ids(&metres).contains(&("survey-length-unit", Severity::Warn, None)), "{:?}", ids(&metres));
}

#[test]
fn reported_severities_that_do_not_follow() {
    let other = reported("ft", |_, [t, n, e, d]| [t, n, e, d * 0.5]);
    assert!(ids(&other).iter().any(|(id, s, _)| *id == "survey-reported-severity" && *s == Severity::Note));
}

#[test]
fn findings_of_one_check_are_bounded() {
    let mut text = String::from(HEAD);
    (0..500).for_each(|k| text += &format!("{},1,2\n", 5000 - k / 2));
    let found = findings(&text);
    assert!(found.len() < 30, "{}", found.len());
    assert!(found.iter().any(|f| f.id == "survey-too-few"));
}

#[test]
fn a_survey_listed_from_the_bottom_up_is_said_once() {
    let mut text = String::from(HEAD);
    (0..500).for_each(|k| text += &format!("{},1,2\n", 5000 - k));
    let found = findings(&text);
    let order: Vec<_> = found.iter().filter(|f| f.id == "survey-depth-order").collect();
    assert_eq!(order.len(), 1, "{found:?}");
    assert!(order[0].message.contains("from the bottom of the hole up") && order[0].place.line.is_some());
}

#[test]
fn every_finding_names_a_known_check() {
    let known: Vec<&str> = CHECKS.iter().chain(well::table::CHECKS).map(|c| c.id).collect();
    let mut rows = clean();
    rows[40].1 = 891.0;
    for f in findings(&text(&rows)) {
        assert!(known.contains(&f.id), "{}", f.id);
        assert!(!f.next.is_empty());
        assert!(f.place.depth.is_none_or(|d| d.is_finite()));
    }
}
