//! Taking the hole diameter out of a log. The logs are invented.

#![allow(clippy::unwrap_used, clippy::panic)] // a test fails by panicking

use quantity::{Diameter, MeasuredDepth};
use well::hole::Caliper;
use well::las::{caliper_curve, read_las};
use well::{Finding, Severity};

/// A log with these curve lines and rows, in metres, behind a bit of 8.5 in.
fn log(curves: &str, rows: &str) -> Vec<u8> {
    let head =
        "~V\n VERS. 2.0 :\n WRAP. NO :\n~W\n STRT.M 100 :\n STOP.M 103 :\n STEP.M 1 :\n NULL. -999.25 :\n";
    format!("{head}~P\n BS.IN 8.5 : bit\n~C\n DEPT.M : depth\n{curves}~A\n{rows}").into_bytes()
}

fn take(curves: &str, rows: &str, name: Option<&str>) -> (Option<Caliper>, Vec<Finding>) {
    let las = read_las(&log(curves, rows), "log.las").value.unwrap();
    let read = caliper_curve(&las, name);
    (read.value, read.findings)
}

fn ids(findings: &[Finding]) -> Vec<&'static str> {
    findings.iter().map(|f| f.id).collect()
}

fn refusal(curves: &str, rows: &str, name: Option<&str>) -> &'static str {
    let (caliper, findings) = take(curves, rows, name);
    assert!(caliper.is_none());
    let last = findings.last().unwrap();
    assert_eq!(last.severity, Severity::Stop);
    last.id
}

const ROWS: &str = " 100 8.5\n 101 8.75\n 102 9\n 103 8.5\n";

#[test]
fn every_unit_of_diameter() {
    for (unit, factor) in
        [("IN", 1.0), ("MM", 25.4), ("CM", 2.54), ("M", 0.0254), ("[in]", 1.0), ("inches", 1.0)]
    {
        let rows: String = [8.5, 8.75, 9.0, 8.5]
            .iter()
            .enumerate()
            .map(|(i, d)| format!("{} {}\n", 100 + i, d * factor))
            .collect();
        let (caliper, findings) = take(&format!(" CALI.{unit} : caliper\n"), &rows, None);
        assert_eq!(ids(&findings), Vec::<&str>::new(), "{unit}");
        let caliper = caliper.unwrap();
        assert_eq!(caliper.depth()[0], MeasuredDepth::m(100.0));
        assert!((caliper.diameter()[2].in_inch() - 9.0).abs() < 1e-9, "{unit}");
        assert!(caliper.source().contains("CALI") && caliper.source().contains("log.las"));
    }
}

#[test]
fn a_differential_caliper_is_refused_by_name_and_by_reading() {
    let zero = " 100 0.1\n 101 -0.2\n 102 0.3\n 103 0.05\n";
    assert_eq!(refusal(" DCAL.IN : Differential Caliper\n", zero, None), "caliper-differential");
    assert_eq!(refusal(" DCAL.IN : \n", zero, Some("DCAL")), "caliper-differential");
    // Another name, the same readings.
    assert_eq!(refusal(" CALI.IN : caliper\n", zero, None), "caliper-differential");
    assert_eq!(refusal(" X.IN : \n", zero, Some("X")), "caliper-differential");
    // Beside a diameter it is passed over.
    let rows = " 100 0.1 8.6\n 101 -0.2 8.6\n 102 0.3 8.6\n 103 0.05 8.6\n";
    let (caliper, findings) = take(" DCAL.IN : Differential Caliper\n CALI.IN : Caliper\n", rows, None);
    assert!(findings.is_empty() && caliper.is_some_and(|c| c.source().starts_with("CALI ")));
}

#[test]
fn radii_and_unknown_units_are_refused() {
    assert_eq!(refusal(" IRAV.IN : Internal Radius Averaged\n", ROWS, None), "caliper-radius");
    assert_eq!(refusal(" CR1.IN : arm 1\n", ROWS, Some("CR1")), "caliper-radius");
    assert_eq!(refusal(" CALI. : caliper\n", ROWS, None), "caliper-unit");
    assert_eq!(refusal(" CALI.V : caliper\n", ROWS, Some("CALI")), "caliper-unit");
    // Millimetres under the name of inches.
    assert_eq!(
        refusal(" CALI.IN : caliper\n", " 100 216\n 101 217\n 102 218\n 103 216\n", None),
        "caliper-unit"
    );
    assert_eq!(refusal(" GR.GAPI : gamma\n", ROWS, None), "caliper-missing");
    assert_eq!(refusal(" CALI.IN : caliper\n", ROWS, Some("HCAL")), "caliper-missing");
}

#[test]
fn implausible_readings_are_left_out_and_counted() {
    let rows = " 100 8.5\n 101 4.2\n 102 26\n 103 -9999\n 104 -999.25\n 105 8.6\n";
    let (caliper, findings) = take(" CALI.IN : caliper\n", rows, None);
    assert_eq!(ids(&findings), ["caliper-masked"]);
    assert!(findings[0].message.starts_with("3 of 6"), "{}", findings[0].message);
    assert_eq!(findings[0].place.depth, Some(MeasuredDepth::m(101.0)));
    assert_eq!(caliper.unwrap().depth(), [100.0, 105.0].map(MeasuredDepth::m));
}

#[test]
fn the_bit_may_be_a_curve() {
    // Behind a 12.25 in bit 5.5 in is no hole, behind an 8.5 in bit it is.
    let rows = " 100 12.3 12.25\n 101 5.5 12.25\n 102 8.6 8.5\n 103 5.5 8.5\n";
    let (caliper, findings) = take(" CALI.IN : caliper\n BS.IN : bit size\n", rows, None);
    assert_eq!(ids(&findings), ["caliper-masked"]);
    assert_eq!(caliper.unwrap().depth(), [100.0, 102.0, 103.0].map(MeasuredDepth::m));
}

#[test]
fn the_choice_among_several_is_told() {
    let rows = " 100 8.5 9.5\n 101 8.75 9.5\n";
    let (caliper, findings) = take(" LCAL.IN : Density Caliper\n CALI.IN : Caliper\n", rows, None);
    assert_eq!(ids(&findings), ["caliper-choice"]);
    assert_eq!(caliper.unwrap().diameter()[0], Diameter::inch(9.5));
    let (caliper, findings) = take(" LCAL.IN : Density Caliper\n CALI.IN : Caliper\n", rows, Some("lcal"));
    assert!(findings.is_empty());
    assert_eq!(caliper.unwrap().diameter()[0], Diameter::inch(8.5));
}

#[test]
fn two_arms_are_used_together() {
    let rows = " 100 8.5 9.5\n 101 -999.25 9.6\n 102 8.6 -999.25\n";
    let (caliper, findings) = take(" C1.IN : Caliper 1\n C2.IN : Caliper 2\n", rows, None);
    assert_eq!(ids(&findings), ["caliper-two-arms"]);
    let caliper = caliper.unwrap();
    let inches = |d: &[Diameter]| d.iter().map(|d| (d.in_inch() * 1e6).round() / 1e6).collect::<Vec<_>>();
    // Where one arm reads alone it counts for both.
    assert_eq!(inches(caliper.diameter()), [8.5, 9.6, 8.6]);
    assert_eq!(inches(caliper.across()), [9.5, 9.6, 8.6]);
}

#[test]
fn a_log_by_time_has_no_caliper() {
    let text = "~V\n VERS. 2.0 :\n WRAP. NO :\n~W\n NULL. -999.25 :\n~C\n TIME.S :\n CALI.IN :\n~A\n 1 8.5\n";
    let read = caliper_curve(&read_las(text.as_bytes(), "t").value.unwrap(), None);
    assert!(read.value.is_none());
    assert_eq!(ids(&read.findings), ["caliper-depth"]);
}

#[test]
fn a_log_upward_is_turned() {
    let (caliper, findings) = take(" CALI.IN :\n", " 103 8.5\n 102 9\n 101 8.75\n 100 8.6\n", None);
    assert!(findings.is_empty());
    assert_eq!(caliper.unwrap().depth(), [100.0, 101.0, 102.0, 103.0].map(MeasuredDepth::m));
}
