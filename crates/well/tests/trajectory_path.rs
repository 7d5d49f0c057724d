//! Questions asked of a path.

#![allow(clippy::expect_used, clippy::panic)] // a test fails by panicking

use proptest::prelude::*;
use quantity::{Angle, Curvature, Length, MeasuredDepth, Quantity, TrueVerticalDepth};
use well::trajectory::{Coverage, Frame, PathError, PathStart, Station, Trajectory};

fn station(md: f64, inclination: f64, azimuth: f64) -> Station {
    Station::new(MeasuredDepth::m(md), Angle::deg(inclination), Angle::deg(azimuth))
}

fn path(rows: &[(f64, f64, f64)]) -> Trajectory {
    let stations: Vec<_> = rows.iter().map(|(m, i, a)| station(*m, *i, *a)).collect();
    Trajectory::new(&stations, PathStart::default(), Frame::default()).expect("a path")
}

/// A well of 3 km with a build, a lateral over a crest, and a step of the azimuth through north.
fn lateral() -> Trajectory {
    path(&[
        (0.0, 0.0, 0.0),
        (1000.0, 0.0, 123.0),
        (1450.0, 45.0, 350.0),
        (1900.0, 90.0, 355.0),
        (2200.0, 92.0, 3.0),
        (2500.0, 88.0, 5.0),
        (3000.0, 90.0, 5.0),
    ])
}

#[test]
fn refuses_stations_that_make_no_path() {
    let new = |s: &[Station]| Trajectory::new(s, PathStart::default(), Frame::default());
    assert!(matches!(new(&[station(0.0, 0.0, 0.0)]), Err(PathError::TooFew(1))));
    let order = new(&[station(0.0, 0.0, 0.0), station(30.0, 0.0, 0.0), station(30.0, 1.0, 0.0)]);
    assert!(matches!(order, Err(PathError::Order { index: 2, .. })));
    let back = new(&[station(0.0, 90.0, 0.0), station(30.0, 90.0, 180.0)]);
    assert!(matches!(back, Err(PathError::Course { index: 1, .. })));
    let nan = new(&[station(0.0, 0.0, 0.0), station(f64::NAN, 0.0, 0.0)]);
    assert!(matches!(nan, Err(PathError::Order { .. })));
}

#[test]
fn a_vertical_station_has_the_azimuth_of_its_neighbour() {
    let azimuths: Vec<f64> = lateral().stations().iter().map(|s| s.azimuth.in_deg().round()).collect();
    assert_eq!(azimuths, [350.0, 350.0, 350.0, 355.0, 3.0, 5.0, 5.0]);
    let tail = path(&[(0.0, 0.0, 9.0), (30.0, 5.0, 70.0), (60.0, 0.0, 200.0)]);
    assert_eq!(tail.stations()[2].azimuth.in_deg().round(), 70.0);
    let none = path(&[(0.0, 0.0, 9.0), (30.0, 0.0, 70.0)]);
    assert_eq!(none.stations()[0].azimuth.in_deg().round(), 9.0);
    assert_eq!(lateral().position_at(MeasuredDepth::m(500.0)).azimuth.in_deg().round(), 350.0);
}

#[test]
fn azimuths_are_unwrapped_through_north() {
    let unwrapped: Vec<f64> = lateral().unwrapped_azimuths().iter().map(|a| a.in_deg().round()).collect();
    assert_eq!(unwrapped, [350.0, 350.0, 350.0, 355.0, 363.0, 365.0, 365.0]);
}

#[test]
fn points_outside_the_stations_are_straight_and_say_so() {
    let well = path(&[(100.0, 30.0, 90.0), (200.0, 60.0, 90.0)]);
    let above = well.position_at(MeasuredDepth::m(90.0));
    assert_eq!(above.coverage, Coverage::Above(Length::m(10.0)));
    assert!((above.tvd.in_m() + 10.0 * 30f64.to_radians().cos()).abs() < 1e-9);
    assert!((above.east.in_m() + 5.0).abs() < 1e-9);
    let last = well.position_at(MeasuredDepth::m(200.0));
    assert_eq!(last.coverage, Coverage::Surveyed);
    let below = well.position_at(MeasuredDepth::m(220.0));
    assert_eq!(below.coverage, Coverage::Beyond(Length::m(20.0)));
    assert!(below.coverage.is_extrapolated());
    assert!((below.tvd.in_m() - last.tvd.in_m() - 10.0).abs() < 1e-9);
    assert_eq!(below.severity, Curvature::ZERO);
    assert!((well.tvd_at(MeasuredDepth::m(220.0)) - below.tvd).si().abs() < 1e-9);
    assert!((well.tvd_at(MeasuredDepth::m(90.0)) - above.tvd).si().abs() < 1e-9);
    assert_eq!(well.short_of(MeasuredDepth::m(220.0)), Some(Length::m(20.0)));
    assert_eq!(well.short_of(MeasuredDepth::m(200.0)), None);
    assert!(well.bend_at(MeasuredDepth::m(220.0)).is_none());
}

#[test]
fn projected_stations_are_told_from_measured_ones() {
    let well = lateral().projected_from(6);
    assert_eq!(well.last_measured_md().in_m(), 2500.0);
    assert_eq!(well.last_md().in_m(), 3000.0);
    assert_eq!(well.position_at(MeasuredDepth::m(2500.0)).coverage, Coverage::Surveyed);
    assert_eq!(well.position_at(MeasuredDepth::m(2501.0)).coverage, Coverage::Projected);
}

#[test]
fn the_sharpest_course_of_a_stretch() {
    let well = lateral();
    let over = |a, b| well.max_severity_over(MeasuredDepth::m(a), MeasuredDepth::m(b));
    let build = over(0.0, 3000.0).expect("a course");
    assert!((build.severity.in_deg_per_30m() - 3.0).abs() < 0.2, "{}", build.severity);
    let lateral = over(2600.0, 2900.0).expect("a course");
    assert_eq!((lateral.top.in_m(), lateral.bottom.in_m()), (2500.0, 3000.0));
    assert_eq!(over(2900.0, 2600.0), Some(lateral));
    // A stretch that ends where a course begins does not reach into it; a single depth does.
    assert_eq!(over(100.0, 1000.0).map(|s| s.severity.si()), Some(0.0));
    assert!(over(1000.0, 1000.0).is_some_and(|s| s.severity.si() > 0.0));
    assert_eq!(over(3001.0, 3100.0), None);
    assert_eq!(over(-5.0, -1.0), None);
}

#[test]
fn a_level_is_met_once_twice_or_never() {
    let well = lateral();
    let at = |tvd: f64| well.mds_at_tvd(TrueVerticalDepth::m(tvd));
    assert_eq!(at(500.0), [MeasuredDepth::m(500.0)]);
    assert_eq!(at(-1.0), []);
    let crest = well.position_at(MeasuredDepth::m(2200.0)).tvd.in_m();
    let found = at(crest + 0.5);
    assert!(found.len() >= 2, "{found:?}");
    for md in found {
        assert!((well.tvd_at(md).in_m() - crest - 0.5).abs() < 1e-6);
    }
    // A station's own depth is found once, not once for each course it belongs to.
    let station = well.position_at(MeasuredDepth::m(1450.0)).tvd;
    assert_eq!(well.mds_at_tvd(station).len(), 1);
    let level = path(&[(0.0, 0.0, 0.0), (900.0, 90.0, 0.0), (1200.0, 90.0, 0.0), (1500.0, 90.0, 0.0)]);
    let bottom = level.position_at(MeasuredDepth::m(1500.0)).tvd;
    let ends: Vec<f64> = level.mds_at_tvd(bottom).iter().map(|m| m.in_m().round()).collect();
    assert_eq!(ends, [900.0, 1200.0, 1500.0]);
}

#[test]
fn section_and_closure() {
    let well = path(&[(0.0, 90.0, 30.0), (1000.0, 90.0, 30.0)]);
    assert!((well.section_azimuth().in_deg() - 30.0).abs() < 1e-9);
    let section = well.section_at(MeasuredDepth::m(400.0), well.section_azimuth());
    assert!((section.in_m() - 400.0).abs() < 1e-9);
    let across = well.section_at(MeasuredDepth::m(400.0), Angle::deg(120.0));
    assert!(across.in_m().abs() < 1e-9);
}

#[test]
fn samples_hold_both_ends_and_the_step() {
    let well = lateral();
    let (top, bottom) = (MeasuredDepth::m(1000.0), MeasuredDepth::m(1900.0));
    let points: Vec<_> = well.samples(top, bottom, Length::m(7.0)).collect();
    assert_eq!(points.first().map(|p| p.md), Some(top));
    assert_eq!(points.last().map(|p| p.md), Some(bottom));
    assert!(points.windows(2).all(|w| (w[1].md - w[0].md).in_m() <= 7.0 + 1e-9));
    assert_eq!(well.samples(top, top, Length::m(7.0)).count(), 2);
    assert_eq!(well.samples(bottom, top, Length::ZERO).count(), 2);
}

#[test]
fn a_thousand_questions_take_no_time() {
    let rows: Vec<(f64, f64, f64)> =
        (0..2000).map(|k| (f64::from(k) * 10.0, f64::from(k) * 0.04, f64::from(k % 360))).collect();
    let well = path(&rows);
    let start = std::time::Instant::now();
    let mut walk = well.walk();
    let sum: f64 = (0..100_000).map(|k| walk.tvd_at(MeasuredDepth::m(f64::from(k) * 0.2)).si()).sum();
    let searched: f64 = (0..100_000).map(|k| well.tvd_at(MeasuredDepth::m(f64::from(k) * 0.2)).si()).sum();
    assert!((sum - searched).abs() < 1e-6 * sum.abs());
    assert!(start.elapsed().as_secs() < 20);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn interpolation_splits_sum_to_the_whole(
        turns in proptest::collection::vec((5.0f64..60.0, -8.0f64..8.0, -15.0f64..15.0), 3..12),
        x in 0.0f64..1.0,
    ) {
        let well = wandering(&turns);
        let (top, bottom) = (well.first_md(), well.last_md());
        let md = top + Length::m((bottom - top).si() * x);
        let point = well.position_at(md);
        // A station put in at any depth leaves the path as it is.
        let mut stations = well.stations().to_vec();
        stations.push(Station::new(md, point.inclination, point.azimuth));
        stations.sort_by(|a, b| a.md.total_cmp(&b.md));
        stations.dedup_by(|a, b| (a.md - b.md).si().abs() < 1e-6);
        let split = Trajectory::new(&stations, PathStart::default(), Frame::default()).expect("a path");
        let (p, q) = (well.position_at(bottom), split.position_at(bottom));
        prop_assert!((p.tvd - q.tvd).si().abs() < 1e-6);
        prop_assert!((p.north - q.north).si().abs() < 1e-6);
        prop_assert!((p.east - q.east).si().abs() < 1e-6);
        prop_assert!((well.tvd_at(md) - point.tvd).si().abs() < 1e-9);
        prop_assert!((well.inclination_at(md) - point.inclination).si().abs() < 1e-12);
    }

    #[test]
    fn the_inverse_of_vertical_depth_closes(
        turns in proptest::collection::vec((5.0f64..60.0, -8.0f64..8.0, -15.0f64..15.0), 3..12),
        x in 0.0f64..1.0,
    ) {
        let well = wandering(&turns);
        let md = MeasuredDepth::m(well.last_md().si() * x);
        let tvd = well.tvd_at(md);
        let found = well.mds_at_tvd(tvd);
        prop_assert!(found.iter().any(|m| (*m - md).si().abs() < 1e-2), "{found:?} lacks {md:?}");
        for m in found {
            prop_assert!((well.tvd_at(m) - tvd).si().abs() < 1e-6);
        }
    }

    #[test]
    fn a_walk_gives_what_a_search_gives(depths in proptest::collection::vec(-100.0f64..4000.0, 1..40)) {
        let well = lateral();
        let mut walk = well.walk();
        for md in depths.into_iter().map(MeasuredDepth::m) {
            prop_assert_eq!(walk.position_at(md), well.position_at(md));
        }
    }
}

/// A path that bends by small random steps from near vertical.
fn wandering(turns: &[(f64, f64, f64)]) -> Trajectory {
    let mut at = (0.0, 40.0, 10.0);
    let mut rows = vec![at];
    for (length, build, turn) in turns {
        at = (at.0 + length, (at.1 + build).clamp(2.0, 120.0), at.2 + turn);
        rows.push(at);
    }
    path(&rows)
}
