//! Caliper statistics on real holes, where the folder with them is present. The figures to
//! compare with were computed from the same files with an array library.

#![allow(clippy::unwrap_used, clippy::panic)] // a test fails by panicking

mod las_beside;

use las_beside::file;
use quantity::{Diameter, Length, MeasuredDepth, Ratio};
use std::io::Read as _;
use std::time::{Duration, Instant};
use well::hole::{Caliper, Hole, Sample, Section, SectionKind, Window};
use well::las::{caliper_curve, read_las};

fn open(top: MeasuredDepth, bottom: MeasuredDepth, bit: f64) -> Section {
    Section::new("open hole", top, bottom, SectionKind::Open { bit: Diameter::inch(bit) })
}

#[test]
fn real_caliper_over_two_hundred_feet() {
    let Some(bytes) = file("forge_78B-32_caliper.las") else { return };
    let las = read_las(&bytes, "caliper.las").value.unwrap();
    let read = caliper_curve(&las, None);
    let ids: Vec<_> = read.findings.iter().map(|f| f.id).collect();
    assert_eq!(ids, ["caliper-choice"]);
    let caliper = read.value.unwrap();
    assert!(caliper.source().starts_with("CALI ") && caliper.depth().len() == 400);
    // The differential caliper is no diameter, under whatever bit.
    let refused = caliper_curve(&las, Some("DCAL"));
    assert!(refused.value.is_none() && refused.findings[0].id == "caliper-differential");

    let section = open(MeasuredDepth::ft(3200.0), MeasuredDepth::ft(3400.0), 10.625);
    let read = Hole::new(vec![section], Some(caliper), Length::ZERO);
    // The first half foot has no reading.
    assert_eq!(read.findings.iter().map(|f| f.id).collect::<Vec<_>>(), ["hole-caliper-coverage"]);
    let hole = read.value.unwrap();
    let volume = hole.volume(MeasuredDepth::ft(3200.5), MeasuredDepth::ft(3400.0)).unwrap();
    assert!((volume.in_m3() / 3.9882632171745143 - 1.0).abs() < 1e-12);

    let window = Window::exact(MeasuredDepth::ft(3300.0), Length::ft(30.0), Diameter::inch(11.6));
    let found = hole.window(&window).unwrap();
    let near = |d: Diameter, inches: f64, slack: f64| {
        assert!((d.in_inch() - inches).abs() < slack, "{d:?} {inches}")
    };
    near(found.max, 11.8493, 1e-9);
    near(found.min, 11.1162, 1e-9);
    near(found.mean, 11.369669166666666, 1e-9);
    // Percentiles from three million points of the same straight lines.
    near(found.p10, 11.1399, 1e-5);
    near(found.p50, 11.3764, 1e-5);
    near(found.p90, 11.77191372, 1e-5);
    assert_eq!(found.measured, Ratio::of(1.0));
}

/// Depth in m, caliper and bit size in inches.
fn near_horizontal() -> Option<Vec<[f64; 3]>> {
    let packed = file("nearhorizontal_caliper.csv.xz")?;
    let mut text = String::new();
    lzma_rust2::XzReader::new(packed.as_slice(), false).read_to_string(&mut text).unwrap();
    let number = |row: &str, at: usize| row.split(',').nth(at).and_then(|v| v.parse::<f64>().ok()).unwrap();
    Some(text.lines().skip(1).map(|row| [number(row, 0), number(row, 1), number(row, 2)]).collect())
}

#[test]
fn real_near_horizontal_hole_answers_fast() {
    let Some(rows) = near_horizontal() else { return };
    assert_eq!(rows.len(), 7244);
    let samples = rows.iter().map(|[m, inch, _]| Sample {
        depth: MeasuredDepth::m(*m),
        diameter: (*inch > 0.0).then(|| Diameter::inch(*inch)),
        across: None,
    });
    let caliper = Caliper::new("CALI", samples, Caliper::BRIDGE).value.unwrap();
    assert_eq!(caliper.depth().len(), 59 + 6651);
    let shoe = MeasuredDepth::m(3056.0);
    let upper = open(MeasuredDepth::m(2990.0), shoe, 12.25);
    let lower = open(shoe, MeasuredDepth::m(4090.0), 8.5);
    let read = Hole::new(vec![upper, lower], Some(caliper), Length::ZERO);
    let hole = read.value.unwrap();
    for finding in &read.findings {
        eprintln!("{}: {}", finding.id, finding.message);
    }
    // The log ends 20 m above the bottom of the hole.
    assert!(
        read.findings
            .iter()
            .any(|f| f.id == "hole-caliper-coverage" && f.message.contains("98.0 % of open hole"))
    );
    assert_eq!(hole.largest(MeasuredDepth::m(3060.0), hole.bottom()).unwrap(), Diameter::inch(8.8173));
    assert_eq!(hole.smallest(MeasuredDepth::m(3060.0), hole.bottom()).unwrap(), Diameter::inch(8.3046));

    // Every decimetre a seat of 3 m, the depth known to within 1 m.
    let start = Instant::now();
    let mut best: Option<(Diameter, MeasuredDepth)> = None;
    let mut asked = 0;
    for step in 0..10_000 {
        let top = MeasuredDepth::m(3060.0 + 0.1 * f64::from(step));
        let window = Window {
            sigma: Length::m(1.0),
            factor: Ratio::of(2.0),
            ..Window::exact(top, Length::m(3.0), Diameter::inch(8.7))
        };
        let found = hole.window(&window).unwrap();
        asked += 1;
        assert!(found.worst >= found.max && found.max >= found.p90 && found.p10 >= found.min);
        assert!(found.min >= found.tightest && found.measured == Ratio::of(1.0));
        if best.is_none_or(|(worst, _)| found.worst < worst) {
            best = Some((found.worst, top));
        }
    }
    let spent = start.elapsed();
    let (worst, top) = best.unwrap();
    eprintln!("{asked} windows in {spent:?}; the best seat is at {top} with at most {worst}");
    assert!((worst.in_inch() - 8.4755).abs() < 1e-9 && (top.in_m() - 3257.4).abs() < 1e-6);
    assert!(spent < Duration::from_secs(60), "{spent:?}");
}
