//! Volumes and windows: closed forms, additivity, monotony, and the same by looking at every
//! point.

#![allow(clippy::unwrap_used, clippy::panic)] // a test fails by panicking

use proptest::prelude::*;
use quantity::{Diameter, Length, MeasuredDepth, Ratio};
use std::f64::consts::PI;
use well::hole::{Caliper, Hole, HoleError, Sample, Section, SectionKind, Window, WindowStatistics};

const IN: f64 = 0.0254;

fn sections(bottom: f64) -> Vec<Section> {
    let casing = SectionKind::Cased { inner: Diameter::inch(8.7), drift: None };
    let open = SectionKind::Open { bit: Diameter::inch(8.5) };
    vec![
        Section::new("casing", MeasuredDepth::m(0.0), MeasuredDepth::m(50.0), casing),
        Section::new("lateral", MeasuredDepth::m(50.0), MeasuredDepth::m(bottom), open),
    ]
}

/// A hole of 50 m casing above readings 0.5 m apart, in inches; the last 10 m have none.
fn hole(readings: &[f64], across: Option<&[f64]>) -> Hole {
    let samples = readings.iter().enumerate().map(|(i, inch)| Sample {
        depth: MeasuredDepth::m(50.0 + 0.5 * i as f64),
        diameter: Some(Diameter::inch(*inch)),
        across: across.and_then(|a| a.get(i)).copied().map(Diameter::inch),
    });
    let caliper = Caliper::new("test", samples, Caliper::BRIDGE).value.unwrap();
    let bottom = 60.0 + 0.5 * readings.len() as f64;
    Hole::new(sections(bottom), Some(caliper), Length::ZERO).value.unwrap()
}

fn window(top: f64, length: f64, sigma: f64) -> Window {
    Window {
        top: MeasuredDepth::m(top),
        length: Length::m(length),
        sigma: Length::m(sigma),
        factor: Ratio::of(2.0),
        washout: Diameter::inch(9.0),
    }
}

fn volume(hole: &Hole, top: f64, bottom: f64) -> f64 {
    hole.volume(MeasuredDepth::m(top), MeasuredDepth::m(bottom)).unwrap().in_m3()
}

/// Diameter, m, at many points of a stretch, in the middle of equal steps.
fn points(hole: &Hole, top: f64, length: f64) -> Vec<f64> {
    let count = 4000;
    let depth = |i: i32| top + length * (f64::from(i) + 0.5) / f64::from(count);
    (0..count).map(|i| hole.diameter_at(MeasuredDepth::m(depth(i))).unwrap().in_m()).collect()
}

#[test]
fn volume_of_a_cone_is_the_closed_form() {
    // Straight from 8.5 in to 12.5 in over 40 m: V = π/12 L (D₁² + D₁ D₂ + D₂²).
    let cone = hole(&(0..=80).map(|i| 8.5 + 0.05 * f64::from(i)).collect::<Vec<_>>(), None);
    let exact = |l: f64, a: f64, b: f64| PI / 12.0 * l * (a * a + a * b + b * b) * IN * IN;
    assert!((volume(&cone, 50.0, 90.0) / exact(40.0, 8.5, 12.5) - 1.0).abs() < 1e-13);
    // A part that begins and ends between readings.
    assert!((volume(&cone, 60.3, 77.9) / exact(17.6, 9.53, 11.29) - 1.0).abs() < 1e-13);
    // Casing above, bit size below.
    let whole = exact(50.0, 8.7, 8.7) + exact(40.0, 8.5, 12.5) + exact(10.5, 8.5, 8.5);
    assert!((volume(&cone, 0.0, 100.5) / whole - 1.0).abs() < 1e-13);
}

#[test]
fn statistics_of_a_cone_are_the_closed_form() {
    let cone = hole(&(0..=80).map(|i| 8.0 + 0.05 * f64::from(i)).collect::<Vec<_>>(), None);
    // From 9 in at 60 m to 11 in at 80 m.
    let found = cone.window(&window(60.0, 20.0, 1.0)).unwrap();
    let inches = |d: Diameter| (d.in_inch() * 1e9).round() / 1e9;
    let WindowStatistics { min, max, mean, p10, p50, p90, worst, tightest, .. } = found;
    assert_eq!([min, max, mean].map(inches), [9.0, 11.0, 10.0]);
    assert_eq!([p10, p50, p90].map(inches), [9.2, 10.0, 10.8]);
    // Two standard deviations of 1 m are 0.2 in of cone at each end.
    assert_eq!([worst, tightest].map(inches), [11.2, 8.8]);
    assert!((found.washed_out.in_one() - 1.0).abs() < 1e-9);
    assert!((found.gradient.in_one() - 0.1 * IN).abs() < 1e-12);
    assert_eq!((found.ovality, found.measured.in_one(), found.inside.in_one()), (None, 1.0, 1.0));
}

#[test]
fn annulus_and_where_the_hole_is_tighter() {
    let cone = hole(&(0..=80).map(|i| 8.0 + 0.05 * f64::from(i)).collect::<Vec<_>>(), None);
    let annulus =
        |outer| cone.annulus(MeasuredDepth::m(60.0), MeasuredDepth::m(80.0), Diameter::inch(outer)).unwrap();
    let ring =
        |l: f64, a: f64, b: f64, o: f64| PI / 12.0 * l * (a * a + a * b + b * b - 3.0 * o * o) * IN * IN;
    let clear = annulus(7.0);
    assert!((clear.volume.in_m3() / ring(20.0, 9.0, 11.0, 7.0) - 1.0).abs() < 1e-12 && clear.tight.is_none());
    // A string of 10 in has room in the lower half only.
    let tight = annulus(10.0);
    assert!((tight.volume.in_m3() / ring(10.0, 10.0, 11.0, 10.0) - 1.0).abs() < 1e-9);
    assert_eq!(tight.tight.map(|(at, _)| at), Some(MeasuredDepth::m(60.0)));
    assert_eq!(annulus(12.0).volume.in_m3(), 0.0);
}

#[test]
fn two_arms_give_area_and_ovality() {
    let (a, b) = (vec![8.5; 41], vec![9.5; 41]);
    let oval = hole(&a, Some(&b));
    let found = oval.window(&window(52.0, 10.0, 0.0)).unwrap();
    // Circle of the same area as the ellipse; the larger arm is the worst, 2 (9.5 - 8.5) / 18.
    assert!((found.mean.in_inch() - (8.5f64 * 9.5).sqrt()).abs() < 1e-9);
    assert!((found.worst.in_inch() - 9.5).abs() < 1e-12 && (found.min.in_inch() - 8.5).abs() < 1e-12);
    assert!((found.ovality.unwrap().in_one() - 1.0 / 9.0).abs() < 1e-12);
    let volume = volume(&oval, 52.0, 62.0);
    assert!((volume / (PI / 4.0 * 8.5 * 9.5 * IN * IN * 10.0) - 1.0).abs() < 1e-12);
}

#[test]
fn windows_outside_the_hole_are_errors() {
    let plain = hole(&[8.5; 41], None);
    assert!(matches!(plain.window(&window(-1.0, 2.0, 0.0)), Err(HoleError::Outside { .. })));
    assert!(matches!(plain.window(&window(60.0, 100.0, 0.0)), Err(HoleError::Outside { .. })));
    assert!(matches!(plain.window(&window(60.0, -1.0, 0.0)), Err(HoleError::Reversed { .. })));
    assert!(matches!(plain.window(&window(60.0, f64::NAN, 0.0)), Err(HoleError::Outside { .. })));
    assert!(matches!(plain.window(&window(60.0, 1.0, f64::NAN)), Err(HoleError::Uncertainty { .. })));
    // Near the top the widened window is cut off, and says so.
    let found = plain.window(&window(1.0, 2.0, 1.0)).unwrap();
    assert!((found.inside.in_one() - 5.0 / 6.0).abs() < 1e-12);
    // A window of no length is a point.
    let point = plain.window(&window(60.0, 0.0, 0.0)).unwrap();
    assert_eq!((point.mean, point.p50), (Diameter::inch(8.5), Diameter::inch(8.5)));
}

#[test]
fn a_joint_belongs_to_both_sides() {
    let plain = hole(&[8.5; 41], None);
    let at_shoe = |top: f64, length: f64| plain.window(&window(top, length, 0.0)).unwrap();
    assert_eq!(at_shoe(50.0, 1.0).max, Diameter::inch(8.7));
    assert_eq!(at_shoe(49.0, 1.0).min, Diameter::inch(8.5));
    assert_eq!(at_shoe(50.001, 1.0).max, Diameter::inch(8.5));
}

fn readings() -> impl Strategy<Value = Vec<f64>> {
    prop::collection::vec(6.0..20.0f64, 3..200)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 120, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn volumes_add_up(readings in readings(), mut cuts in prop::array::uniform3(0.0..1.0f64), outer in 2.0..6.0f64) {
        let hole = hole(&readings, None);
        cuts.sort_by(f64::total_cmp);
        let [a, b, c] = cuts.map(|f| MeasuredDepth::m(f * hole.bottom().in_m()));
        let volume = |a, b| hole.volume(a, b).unwrap().in_m3();
        let whole = volume(MeasuredDepth::ZERO, hole.bottom());
        prop_assert!((volume(a, c) - volume(a, b) - volume(b, c)).abs() <= 1e-14 * whole);
        let ring = |a, b| hole.annulus(a, b, Diameter::inch(outer)).unwrap().volume.in_m3();
        prop_assert!((ring(a, c) - ring(a, b) - ring(b, c)).abs() <= 1e-13 * whole);
        prop_assert!(volume(a, c) >= 0.0 && ring(a, c) >= -1e-13 * whole);
    }

    #[test]
    fn the_worst_never_shrinks_with_length_or_uncertainty(
        readings in readings(),
        top in 0.0..1.0f64,
        lengths in prop::array::uniform2(0.0..1.0f64),
        sigmas in prop::array::uniform2(0.0..10.0f64),
    ) {
        let hole = hole(&readings, None);
        let top = top * hole.bottom().in_m();
        let room = hole.bottom().in_m() - top;
        let [short, long] = [lengths[0].min(lengths[1]), lengths[0].max(lengths[1])].map(|f| f * room * 0.999);
        let [sure, unsure] = [sigmas[0].min(sigmas[1]), sigmas[0].max(sigmas[1])];
        let worst = |length, sigma| hole.worst(&window(top, length, sigma)).unwrap();
        prop_assert!(worst(long, sure) >= worst(short, sure));
        prop_assert!(worst(short, unsure) >= worst(short, sure));
        let tightest = |length, sigma| hole.window(&window(top, length, sigma)).unwrap().tightest;
        prop_assert!(tightest(long, unsure) <= tightest(short, sure));
    }

    #[test]
    fn a_window_agrees_with_looking_at_every_point(
        readings in readings(),
        across in readings(),
        top in 0.0..0.8f64,
        length in 0.02..0.2f64,
    ) {
        let hole = hole(&readings, Some(&across));
        let (top, length) = (top * hole.bottom().in_m(), length * hole.bottom().in_m());
        let found = hole.window(&window(top, length, 0.0)).unwrap();
        let mut all = points(&hole, top, length);
        let mean = all.iter().sum::<f64>() / all.len() as f64;
        let washed = all.iter().filter(|d| **d > 9.0 * IN).count() as f64 / all.len() as f64;
        all.sort_by(f64::total_cmp);
        // Points are length/4000 apart; the diameter changes by less than 14 in over 0.5 m.
        let slack = 14.0 * IN / 0.5 * length / 4000.0 + 1e-9;
        let percentile = |share: f64| all[((all.len() as f64) * share) as usize];
        prop_assert!((found.mean.in_m() - mean).abs() < slack);
        // A percentile may fall on a step, where it is anything between its neighbours.
        for (share, read) in [(0.1, found.p10), (0.5, found.p50), (0.9, found.p90)] {
            let (low, high) = (percentile(share - 0.003), percentile(share + 0.003));
            prop_assert!(read.in_m() >= low - slack && read.in_m() <= high + slack, "{share}");
        }
        prop_assert!((found.washed_out.in_one() - washed).abs() < 0.02);
        prop_assert!(found.min.in_m() <= all[0] + slack && found.max.in_m() >= all[all.len() - 1] - slack);
        let ordered = [found.min, found.p10, found.p50, found.p90, found.max];
        prop_assert!(ordered.is_sorted_by(|a, b| a.in_m() <= b.in_m() + 1e-15));
    }
}
