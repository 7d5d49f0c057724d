use super::*;
use crate::ball::terminal_velocity::Ball;
use proptest::prelude::*;
use quantity::{Density, Viscosity};

fn water() -> Liquid {
    Liquid { density: Density::kg_per_m3(1000.0), viscosity: Viscosity::cp(1.0) }
}

fn ride(diameter: f64, gravity: f64) -> Ride {
    Ride::new(Ball { diameter: Diameter::inch(diameter), density: Density::kg_per_m3(1000.0 * gravity) })
}

fn leg(metres: f64, from: f64, to: f64) -> Leg {
    Leg {
        length: Length::m(metres),
        from: Angle::deg(from),
        to: Angle::deg(to),
        bore: Diameter::inch(4.0),
        liquid: water(),
    }
}

fn step(rate: f64, minutes: f64) -> RateStep {
    RateStep { rate: FlowRate::bbl_per_min(rate), lasting: Time::minutes(minutes) }
}

proptest! {
    /// Cutting a straight leg or a rate step in two changes nothing.
    #[test]
    fn cuts_change_nothing(q in 2.0..40.0f64, cut in 0.1..0.9f64, minutes in 0.5..20.0f64) {
        let ride = ride(2.5, 1.8);
        let whole = transit(&ride, &[leg(3000.0, 90.0, 90.0)], &[step(q, 1.0)]).unwrap();
        let legs = [leg(3000.0 * cut, 90.0, 90.0), leg(3000.0 * (1.0 - cut), 90.0, 90.0)];
        let two = transit(&ride, &legs, &[step(q, minutes), step(q, 0.0)]).unwrap();
        prop_assert!((whole.time / two.time - 1.0).abs() < 1e-9);
        prop_assert!((whole.pumped / two.pumped - 1.0).abs() < 1e-9);
        prop_assert!((two.marks[0].time / two.time - cut).abs() < 1e-9);
    }

    /// Volume is rate times time, step by step.
    #[test]
    fn volume_is_what_was_pumped(a in 1.0..30.0f64, b in 1.0..30.0f64, minutes in 0.1..60.0f64) {
        let t = transit(&ride(2.0, 1.5), &[leg(4000.0, 90.0, 90.0)], &[step(a, minutes), step(b, 1.0)]).unwrap();
        let first = t.time.in_minutes().min(minutes);
        let pumped = a * first + b * (t.time.in_minutes() - first);
        prop_assert!((t.pumped.in_bbl() - pumped).abs() < 1e-6);
    }
}

#[test]
fn a_cut_in_rate_before_landing_is_not_a_factor_on_volume() {
    let path = [leg(2000.0, 0.0, 0.0), leg(2000.0, 90.0, 90.0)];
    let ride = ride(2.5, 1.8);
    let fast = transit(&ride, &path, &[step(20.0, 1.0)]).unwrap();
    let slowed = transit(&ride, &path, &[step(20.0, 4.0), step(3.0, 1.0)]).unwrap();
    assert!(slowed.time > fast.time);
    assert!(((slowed.pumped - fast.pumped) / fast.pumped).abs() > 1e-3);
}

#[test]
fn a_pause_holds_the_ball_in_the_lateral() {
    let path = [leg(1000.0, 90.0, 90.0)];
    let ride = ride(2.5, 1.8);
    let straight = transit(&ride, &path, &[step(10.0, 1.0)]).unwrap();
    let paused = transit(&ride, &path, &[step(10.0, 1.0), step(0.0, 5.0), step(10.0, 1.0)]).unwrap();
    assert!(((paused.time - straight.time).in_minutes() - 5.0).abs() < 1e-9);
    assert!((paused.pumped - straight.pumped).in_bbl().abs() < 1e-9);
}

#[test]
fn a_ball_that_stalls_is_an_error_not_a_hang() {
    let ride = ride(2.5, 1.8);
    let flat = [leg(1000.0, 90.0, 90.0)];
    assert!(transit(&ride, &flat, &[step(0.1, 1.0)]).is_err());
    assert!(transit(&ride, &flat, &[step(0.0, f64::MAX)]).is_err());
    assert!(transit(&ride, &flat, &[]).is_err());
    assert!(transit(&ride, &flat, &[step(f64::NAN, 1.0)]).is_err());
    // in the vertical a heavy ball falls by itself
    assert!(transit(&ride, &[leg(1000.0, 0.0, 0.0)], &[step(0.0, 1.0)]).is_ok());
    let none = transit(&ride, &[], &[step(1.0, 1.0)]).unwrap();
    assert_eq!((none.time, none.swept), (Time::ZERO, Volume::ZERO));
}

#[test]
fn a_finer_build_changes_little() {
    let ride = ride(2.5, 1.8);
    let coarse = transit(&ride, &[leg(340.0, 0.0, 90.0)], &[step(10.0, 1.0)]).unwrap();
    let fine: Vec<Leg> =
        (0..900).map(|i| leg(340.0 / 900.0, f64::from(i) * 0.1, f64::from(i + 1) * 0.1)).collect();
    let fine = transit(&ride, &fine, &[step(10.0, 1.0)]).unwrap();
    assert!((coarse.time / fine.time - 1.0).abs() < 1e-3);
}

/// Casing volume, volume at landing and modelled volume of ten landings of a public data set, in
/// barrels; `None` where the data are not beside the repository.
fn real_landings() -> Option<Vec<[f64; 3]>> {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../shared/data/landing/labels.csv");
    let Ok(text) = std::fs::read_to_string(path) else {
        println!("skipped: {path} is not here");
        return None;
    };
    let row = |line: &str| {
        let cell = |i: usize| line.split(',').nth(i).and_then(|c| c.parse::<f64>().ok()).unwrap();
        let (depth, casing, landed, rate) = (cell(1), cell(3), cell(9), cell(13));
        let well = Simple {
            kick_off: Length::ft(6730.0),
            build: Curvature::deg_per_100ft(8.0),
            inclination: Angle::deg(90.0),
            seat_depth: Length::ft(depth),
            bore: Diameter::inch(4.778),
            liquid: water(),
        };
        let t = transit(&ride(3.0, 1.8), &well.legs().unwrap(), &[step(rate, 1.0)]).unwrap();
        [casing, landed, t.pumped.in_bbl()]
    };
    let rows: Vec<_> = text.lines().skip(1).map(row).collect();
    assert!(rows.len() >= 10);
    Some(rows)
}

/// Ball size and moment of release are not recorded, so only the window can be asked for.
#[test]
fn real_landings_fall_in_the_default_window() {
    for [casing, landed, modelled] in real_landings().into_iter().flatten() {
        let w =
            crate::ball::landing_window::landing_window(Volume::bbl(casing), modelled / casing, 1.0).unwrap();
        assert!((w.opens.in_bbl()..w.closes.in_bbl()).contains(&landed), "{casing} bbl: {landed}");
    }
}

/// From stage to stage the release and the vertical cancel: what is left is the lateral.
#[test]
fn real_landings_agree_on_the_lateral() {
    let Some(rows) = real_landings() else { return };
    let n = rows.len() as f64;
    let mean = |i: usize| rows.iter().map(|r| r[i]).sum::<f64>() / n;
    let (x, y) = (mean(2), mean(1));
    let along: f64 = rows.iter().map(|r| (r[2] - x) * (r[1] - y)).sum();
    let slope = along / rows.iter().map(|r| (r[2] - x).powi(2)).sum::<f64>();
    // the scatter of the landings leaves 0.03 on the slope
    assert!((slope - 1.0).abs() < 0.1, "{slope}");
}
