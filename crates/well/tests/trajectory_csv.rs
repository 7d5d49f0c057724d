//! Surveys as text tables, in the shapes they come in.

#![allow(clippy::expect_used, clippy::panic)] // a test fails by panicking

use proptest::prelude::*;
use quantity::{Angle, Length, MeasuredDepth, Quantity};
use well::Severity;
use well::job::North;
use well::trajectory::{DepthUnit, Frame, RowKind, Survey, SurveyOptions, read_survey, read_survey_csv};

fn options() -> SurveyOptions {
    SurveyOptions {
        frame: Frame { north: Some(North::Grid), ..Frame::default() },
        ..SurveyOptions::for_file("s.csv")
    }
}

/// Identity, weight and line of a finding.
type Found = (&'static str, Severity, Option<usize>);

fn read(text: &str) -> (Option<Survey>, Vec<Found>) {
    let read = read_survey(text.as_bytes(), &options());
    let found = read.findings.iter().map(|f| (f.id, f.severity, f.place.line)).collect();
    (read.value, found)
}

/// Depth in feet and angles in degrees of every station.
fn rows(survey: &Survey) -> Vec<(f64, f64, f64)> {
    let round = |x: f64| (x * 1e4).round() / 1e4;
    let stations = survey.trajectory.stations().iter();
    stations
        .map(|s| (round(s.md.in_ft()), round(s.inclination.in_deg()), round(s.azimuth.in_deg())))
        .collect()
}

#[test]
fn the_same_stations_in_many_shapes() {
    let want = [(0.0, 0.5, 10.0), (100.0, 1.5, 20.0), (200.0, 3.25, 30.5)];
    let shapes = [
        "MD (ft),Inc (deg),Azi (deg)\n0,0.5,10\n100,1.5,20\n200,3.25,30.5\n",
        "azi_grid_deg,md_ft,incl_deg\r\n10,0,0.5\r\n20,100,1.5\r\n30.5,200,3.25\r\n",
        "Azimuth [deg]\tMeasured Depth [ft]\tInclination [deg]\n10\t0\t0.5\n20\t100\t1.5\n30.5\t200\t3.25\n",
        "MD;Incl;Azim\nft;deg;deg\n0;0,5;10\n100;1,5;20\n200;3,25;30,5\n",
        "# a comment\nMy well, definitive survey\n\nMD (ft),Inc (deg),Azi (deg)\n0,0.5,10\n\"a, remark\"\nMD (ft),Inc (deg),Azi (deg)\n100,1.5,20\n# more\n200,3.25,30.5\n",
        "\u{feff}MD (m),Inc (rad),Azi (rad)\n0,0.00872665,0.17453293\n30.48,0.02617994,0.34906585\n60.96,0.05672320,0.53232542\n",
        "Measured,Incl.,Azim.\nDepth,,\n(ft),(deg),(deg)\n0,0.5,10\n100,1.5,20\n200,3.25,30.5\n",
    ];
    for text in shapes {
        let (survey, found) = read(text);
        let survey = survey.unwrap_or_else(|| panic!("{text}: {found:?}"));
        assert_eq!(rows(&survey), want, "{text}: {found:?}");
        assert!(found.iter().all(|(_, s, _)| *s == Severity::Note), "{text}: {found:?}");
    }
}

#[test]
fn other_encodings() {
    let text = "Tiefe é,MD (ft),Inc (deg),Azi (deg)\n,0,0.5,10\n,100,1.5,20\n";
    let latin: Vec<u8> = text.chars().map(|c| c as u8).collect();
    let mut wide: Vec<u8> = vec![0xFF, 0xFE];
    wide.extend(text.encode_utf16().flat_map(u16::to_le_bytes));
    for bytes in [latin, wide] {
        let survey = read_survey(&bytes, &options()).value.expect("a survey");
        assert_eq!(rows(&survey), [(0.0, 0.5, 10.0), (100.0, 1.5, 20.0)]);
    }
}

#[test]
fn reported_columns_take_the_unit_of_measured_depth() {
    let text = "MD (ft),Inc,Azi,TVD,N/S,E/W,DLS\n0,0,0,0,0,0,0\n100,0,0,100,0,0,0\n200,2,0,199.98,1.75,0,2\n";
    let (survey, found) = read(text);
    let survey = survey.expect("a survey");
    let reported = survey.rows().last().map(|r| r.reported).expect("a row");
    assert_eq!(reported.tvd.map(|t| (t.in_ft() * 100.0).round()), Some(19998.0));
    assert_eq!(reported.north.map(|n| (n.in_ft() * 100.0).round()), Some(175.0));
    assert!(reported.severity.is_some_and(|d| (d.in_deg_per_100ft() - 2.0).abs() < 1e-9));
    assert!(found.iter().all(|(id, s, _)| *id == "table-unit-assumed" && *s == Severity::Note), "{found:?}");
}

#[test]
fn a_depth_without_a_unit_is_refused_unless_it_is_stated() {
    let text = "MD,Inc,Azi\n0,0,0\n100,1,2\n";
    let (survey, found) = read(text);
    assert!(survey.is_none());
    assert!(found.iter().any(|(_, s, _)| *s == Severity::Stop), "{found:?}");
    let stated = read_survey(text.as_bytes(), &options().depth_unit(DepthUnit::Metre));
    assert_eq!(stated.value.map(|s| s.trajectory.last_md().in_m().round()), Some(100.0));
}

#[test]
fn a_tie_in_off_the_origin_is_kept() {
    let text =
        "MD (m),Inc (deg),Azi (deg),TVD (m),NS (m),EW (m)\n1000,10,90,995.5,12.25,-7.5\n1030,10,90,,,\n";
    let (survey, found) = read(text);
    let survey = survey.expect("a survey");
    let top = survey.trajectory.position_at(MeasuredDepth::m(1000.0));
    assert_eq!((top.tvd.in_m(), top.north.in_m(), top.east.in_m()), (995.5, 12.25, -7.5));
    assert!(found.contains(&("survey-tie-in", Severity::Note, Some(2))), "{found:?}");
}

#[test]
fn a_first_station_below_the_datum_without_coordinates() {
    let tilted = "MD (m),Inc (deg),Azi (deg)\n500,20,90\n530,21,90\n";
    assert_eq!(read(tilted).1, [("survey-tie-in", Severity::Warn, Some(2))]);
    let upright = "MD (m),Inc (deg),Azi (deg)\n100,0.3,90\n130,0.5,90\n";
    let (survey, found) = read(upright);
    assert_eq!(found, [("survey-tie-in", Severity::Note, Some(2))]);
    assert_eq!(survey.map(|s| s.trajectory.position_at(MeasuredDepth::m(100.0)).tvd.in_m()), Some(100.0));
}

#[test]
fn projections_and_incomplete_rows() {
    let text = "MD (ft),Inc (deg),Azi (deg),Comment\n0,0,N/A,tie-in\n100,1,N/A,\n200,2,3,MWD\n230,2,3,Projection to TD\n";
    let (survey, found) = read(text);
    let survey = survey.expect("a survey");
    assert_eq!(rows(&survey).len(), 3);
    let kinds: Vec<RowKind> = survey.rows().map(|r| r.kind).collect();
    assert_eq!(kinds, [RowKind::TieIn, RowKind::Measured, RowKind::Projected]);
    let (incomplete, projected) = ("survey-row-incomplete", "survey-projected");
    assert_eq!(found, [(incomplete, Severity::Warn, Some(3)), (projected, Severity::Note, Some(5))]);
}

#[test]
fn decimal_commas_that_could_be_thousands_are_named() {
    let read = read_survey(b"MD (ft);Inc (deg);Azi (deg)\n1,000;1;2\n2,000;2;3\n", &options());
    assert!(
        read.findings.iter().any(|f| f.id == "table-cell" && f.place.line == Some(2)),
        "{:?}",
        read.findings
    );
    let commas = read_survey(b"MD (m),Inc (deg),Azi (deg)\n1000,5,1,25,2,5\n1030,5,1,75,3,5\n", &options());
    assert!(commas.value.is_none());
    assert!(commas.findings.iter().any(|f| f.severity == Severity::Stop), "{:?}", commas.findings);
}

#[test]
fn the_north_of_file_and_job_must_agree() {
    let text = "MD (ft),Inc (deg),azi_true_deg\n0,0.5,10\n100,1.5,20\n";
    assert_eq!(read(text).1, [("survey-north", Severity::Warn, None)]);
    let open = read_survey(text.as_bytes(), &SurveyOptions::for_file("s.csv"));
    assert_eq!(open.value.and_then(|s| s.trajectory.frame().north), Some(North::True));
}

#[test]
fn a_line_that_is_no_survey_line_is_refused() {
    let mut text = String::from("MD (ft),Inc (deg),Azi (deg)\r\n0,0,0\r\n");
    text.extend(std::iter::repeat_n('9', 1_000_001));
    let (survey, found) = read(&text);
    assert!(survey.is_none());
    assert_eq!(found, [("survey-line-too-long", Severity::Stop, Some(3))]);
}

#[test]
fn datum_elevation_comes_from_depth_below_sea_level() {
    let text = "MD (ft),Inc (deg),Azi (deg),TVD (ft),TVDSS (ft)\n0,0,0,0,-1082\n100,0,0,100,-982\n";
    let survey = read(text).0.expect("a survey");
    let datum = survey.trajectory.frame().datum.clone().expect("a datum");
    assert!((datum.elevation.map_or(0.0, Length::in_ft) - 1082.0).abs() < 1e-9);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn no_bytes_make_it_panic(bytes in proptest::collection::vec(any::<u8>(), 0..500)) {
        let _ = read_survey(&bytes, &options());
        let _ = read_survey_csv(&bytes, &options());
    }

    #[test]
    fn no_survey_makes_it_panic(body in "([-0-9.eE/NA,;\t\"#]{0,12},){0,4}[-0-9.,;\n\"]{0,120}") {
        let text = format!("MD (ft),Inc (deg),Azi (deg),TVD (ft),DLS (deg/100ft)\n0,0,0,0,0\n{body}");
        let read = read_survey(text.as_bytes(), &options());
        for point in read.value.iter().flat_map(|s| s.trajectory.samples(MeasuredDepth::ft(-10.0), MeasuredDepth::ft(9e4), Length::ft(9e3))) {
            prop_assert!(point.tvd.is_finite() && point.north.is_finite() && point.azimuth.is_finite());
        }
    }

    #[test]
    fn what_is_written_is_read_back(steps in proptest::collection::vec((1u32..300, 0u32..9000, 0u32..36000), 2..40)) {
        let mut depth = 0;
        let mut text = String::from("Azi (deg);Inc (deg);MD (m)\n");
        let mut want = Vec::new();
        for (step, inclination, azimuth) in steps {
            depth += step;
            let (i, a) = (f64::from(inclination) / 100.0, f64::from(azimuth) / 100.0);
            text += &format!("{a:.2};{i:.2};{depth}\n");
            want.push((f64::from(depth), i, a));
        }
        let table = read_survey_csv(text.as_bytes(), &options()).value.expect("a table");
        prop_assert_eq!(table.rows.len(), want.len());
        for (row, (md, i, a)) in table.rows.iter().zip(want) {
            prop_assert!((row.station.md.in_m() - md).abs() < 1e-9);
            prop_assert!((row.station.inclination - Angle::deg(i)).si().abs() < 1e-12);
            prop_assert!((row.station.azimuth - Angle::deg(a)).si().abs() < 1e-12);
        }
    }
}
