//! Putting a hole together: sections, caliper, and what is said about them.

#![allow(clippy::unwrap_used, clippy::panic)] // a test fails by panicking

use quantity::{Diameter, Length, MeasuredDepth};
use well::hole::{CHECKS, Caliper, Hole, Sample, Section, SectionKind, Source};
use well::{Finding, Read, Severity};

fn cased(top: f64, bottom: f64, inner: f64, drift: Option<f64>) -> Section {
    let kind = SectionKind::Cased { inner: Diameter::inch(inner), drift: drift.map(Diameter::inch) };
    Section::new("casing", MeasuredDepth::m(top), MeasuredDepth::m(bottom), kind)
}

fn open(top: f64, bottom: f64, bit: f64) -> Section {
    let kind = SectionKind::Open { bit: Diameter::inch(bit) };
    Section::new("lateral", MeasuredDepth::m(top), MeasuredDepth::m(bottom), kind)
}

fn caliper(readings: impl IntoIterator<Item = (f64, f64)>) -> Caliper {
    let samples = readings.into_iter().map(|(m, inch)| Sample {
        depth: MeasuredDepth::m(m),
        diameter: Some(Diameter::inch(inch)),
        across: None,
    });
    Caliper::new("test", samples, Caliper::BRIDGE).value.unwrap()
}

fn ids(findings: &[Finding]) -> Vec<&'static str> {
    assert!(findings.iter().all(|f| CHECKS.iter().any(|c| c.id == f.id)));
    findings.iter().map(|f| f.id).collect()
}

fn build(sections: Vec<Section>, caliper: Option<Caliper>) -> Read<Hole> {
    Hole::new(sections, caliper, Length::ZERO)
}

fn refused(sections: Vec<Section>) -> Vec<&'static str> {
    let read = build(sections, None);
    assert!(read.value.is_none() && read.findings.iter().any(|f| f.severity == Severity::Stop));
    ids(&read.findings)
}

#[test]
fn sections_that_describe_no_hole() {
    assert_eq!(refused(vec![]), ["hole-section-missing"]);
    assert_eq!(refused(vec![open(200.0, 100.0, 6.0)]), ["hole-section-form"]);
    assert_eq!(refused(vec![open(100.0, 100.0, 6.0)]), ["hole-section-form"]);
    assert_eq!(refused(vec![open(0.0, 100.0, 0.0), open(f64::NAN, 1.0, 6.0)]), ["hole-section-form"; 2]);
    assert_eq!(
        refused(vec![cased(0.0, 110.0, 7.0, None), open(100.0, 200.0, 6.0)]),
        ["hole-section-overlap"]
    );
    assert_eq!(refused(vec![cased(0.0, 90.0, 7.0, None), open(100.0, 200.0, 6.0)]), ["hole-section-gap"]);
}

#[test]
fn sections_worth_a_word() {
    let told = |sections| {
        let read = build(sections, None);
        assert!(read.value.is_some());
        ids(&read.findings)
    };
    let plain = || vec![cased(0.0, 100.0, 7.0, None), open(100.0, 200.0, 6.0)];
    assert_eq!(told(plain()), ["hole-no-caliper"]);
    let turned = plain().into_iter().rev().collect();
    assert_eq!(told(turned), ["hole-section-order", "hole-no-caliper"]);
    let tight = vec![cased(0.0, 100.0, 6.1, Some(5.9)), open(100.0, 200.0, 6.0)];
    assert_eq!(told(tight), ["hole-bit-over-casing", "hole-no-caliper"]);
    let bits = vec![open(0.0, 100.0, 6.0), open(100.0, 200.0, 6.125)];
    assert_eq!(told(bits), ["hole-bit-over-bit", "hole-no-caliper", "hole-no-caliper"]);
    let inverted = vec![open(0.0, 100.0, 8.0), cased(100.0, 200.0, 7.0, None)];
    assert_eq!(told(inverted), ["hole-cased-below-open", "hole-no-caliper"]);
    assert_eq!(told(vec![cased(0.0, 10.0, 0.3, None)]), ["hole-section-size"]);
}

#[test]
fn bit_size_stands_where_there_is_no_reading() {
    let log = caliper((0..=100).map(|i| (120.0 + 0.5 * f64::from(i), 6.5)));
    let read = build(vec![cased(0.0, 100.0, 7.0, None), open(100.0, 200.0, 6.0)], Some(log));
    assert_eq!(ids(&read.findings), ["hole-caliper-coverage"]);
    assert_eq!(read.findings[0].severity, Severity::Warn);
    let hole = read.value.unwrap();
    let at = |m: f64| {
        let local = hole.at(MeasuredDepth::m(m)).unwrap();
        ((local.diameter.in_inch() * 1e9).round() / 1e9, local.source)
    };
    assert_eq!(at(50.0), (7.0, Source::Casing));
    assert_eq!(at(100.0), (6.0, Source::Bit));
    assert_eq!(at(120.0), (6.5, Source::Caliper));
    assert_eq!(at(170.0), (6.0, Source::Bit));
    assert_eq!(at(200.0), (6.0, Source::Bit));
    assert!(hole.at(MeasuredDepth::m(200.1)).is_err() && hole.at(MeasuredDepth::m(f64::NAN)).is_err());
    let measured = hole.measured(MeasuredDepth::m(100.0), MeasuredDepth::m(200.0)).unwrap();
    assert!((measured.in_m() - 50.0).abs() < 1e-9);
    assert_eq!(hole.section_at(MeasuredDepth::m(100.0)).unwrap().name, "lateral");
    assert!(hole.section_at(MeasuredDepth::m(-1.0)).is_none());
}

#[test]
fn readings_elsewhere_or_implausible_are_left_out() {
    let mut readings: Vec<(f64, f64)> = (0..=240).map(|i| (90.0 + 0.5 * f64::from(i), 6.3)).collect();
    readings[100].1 = 2.0;
    readings[101].1 = 30.0;
    let read = build(vec![cased(0.0, 100.0, 6.4, None), open(100.0, 200.0, 6.0)], Some(caliper(readings)));
    // 20 in casing, 20 below the hole; the two left out make a gap of 1.5 m at 140 m.
    assert_eq!(
        ids(&read.findings),
        ["hole-caliper-place", "hole-caliper-implausible", "hole-caliper-coverage"]
    );
    assert!(read.findings[0].message.starts_with("20 caliper readings are in casing and 20 outside"));
    assert_eq!(read.findings[1].place.depth, Some(MeasuredDepth::m(140.0)));
    assert_eq!(read.findings[2].severity, Severity::Note);
    let hole = read.value.unwrap();
    let gap = hole.caliper().unwrap().gaps();
    assert_eq!((gap.len(), gap[0].top, gap[0].bottom), (1, MeasuredDepth::m(139.5), MeasuredDepth::m(141.0)));
}

#[test]
fn a_short_gap_is_bridged() {
    let readings =
        (0..=200).filter(|i| *i != 100).map(|i| (100.0 + 0.5 * f64::from(i), 6.0 + 0.01 * f64::from(i)));
    let read = build(vec![open(100.0, 200.0, 6.0)], Some(caliper(readings)));
    assert_eq!(ids(&read.findings), ["hole-caliper-bridged"]);
    let there = read.value.unwrap().diameter_at(MeasuredDepth::m(150.0)).unwrap();
    assert!((there.in_inch() - 7.0).abs() < 1e-9);
}

#[test]
fn the_shift_moves_every_reading() {
    let log = || caliper((0..=200).map(|i| (98.0 + 0.5 * f64::from(i), if i < 100 { 6.1 } else { 6.9 })));
    let read = Hole::new(vec![open(100.0, 198.0, 6.0)], Some(log()), Length::m(2.0));
    assert_eq!(ids(&read.findings), ["hole-caliper-place"]);
    let hole = read.value.unwrap();
    let at = |m: f64| (hole.diameter_at(MeasuredDepth::m(m)).unwrap().in_inch() * 1e6).round() / 1e6;
    assert_eq!((at(149.5), at(150.0)), (6.1, 6.9));
    let read = Hole::new(vec![open(100.0, 220.0, 6.0)], Some(log()), Length::m(20.0));
    assert!(ids(&read.findings).contains(&"hole-caliper-shift"));
    let read = Hole::new(vec![open(100.0, 220.0, 6.0)], Some(log()), Length::m(f64::NAN));
    assert!(ids(&read.findings).contains(&"hole-caliper-shift") && read.value.is_some());
}

#[test]
fn signs_of_a_caliper_not_to_be_trusted() {
    let sections = || vec![cased(0.0, 100.0, 6.4, None), open(100.0, 200.0, 6.0)];
    let log = |d: fn(i32) -> f64| caliper((0..=280).map(|i| (60.0 + 0.5 * f64::from(i), d(i))));
    let told = |d| ids(&build(sections(), Some(log(d))).findings);
    // Right in casing, right below.
    assert_eq!(told(|i| if i < 80 { 6.4 } else { 6.1 }), ["hole-caliper-place"]);
    // 7 in where the casing is 6.4 in.
    assert_eq!(told(|i| if i < 80 { 7.0 } else { 6.1 }), ["hole-caliper-casing", "hole-caliper-place"]);
    assert_eq!(told(|i| if i < 80 { 6.4 } else { 5.5 }), ["hole-caliper-place", "hole-caliper-under-bit"]);
    let stuck = |i| {
        if i < 80 {
            6.4
        } else if (150..160).contains(&i) {
            9.0
        } else {
            6.1
        }
    };
    assert_eq!(told(stuck), ["hole-caliper-place", "hole-caliper-stuck"]);
    assert_eq!(
        told(|i| if i < 80 { 6.4 } else { 1.0 }),
        ["hole-caliper-place", "hole-caliper-implausible", "hole-caliper-empty", "hole-no-caliper"]
    );
}

#[test]
fn readings_in_any_order_and_twice() {
    let sample = |m: f64, inch: f64| Sample {
        depth: MeasuredDepth::m(m),
        diameter: Some(Diameter::inch(inch)),
        across: None,
    };
    let read = Caliper::new("t", [sample(2.0, 6.0), sample(1.0, 6.5), sample(2.0, 7.0)], Caliper::BRIDGE);
    assert_eq!(ids(&read.findings), ["hole-caliper-order", "hole-caliper-order"]);
    let caliper = read.value.unwrap();
    assert_eq!(caliper.depth(), [1.0, 2.0].map(MeasuredDepth::m));
    assert_eq!(caliper.diameter(), [6.5, 7.0].map(Diameter::inch));
    let bad = [sample(f64::NAN, 6.0), sample(1.0, -6.0), sample(1.0, f64::INFINITY)];
    let read = Caliper::new("t", bad, Caliper::BRIDGE);
    assert!(read.value.is_none());
    assert_eq!(ids(&read.findings), ["hole-caliper-empty"]);
}
