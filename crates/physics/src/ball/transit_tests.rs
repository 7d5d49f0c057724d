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

/// Ten landings of a public data set, read beside the repository: volume at landing over casing volume.
#[test]
fn real_landing_ratios_fall_in_the_default_window() {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../../../shared/data/landing/labels.csv");
    let Ok(text) = std::fs::read_to_string(root) else {
        println!("skipped: {root} is not here");
        return;
    };
    let well = Simple {
        kick_off: Length::ft(6730.0),
        build: Curvature::deg_per_100ft(8.0),
        inclination: Angle::deg(90.0),
        seat_depth: Length::ZERO,
        bore: Diameter::inch(4.778),
        liquid: water(),
    };
    let mut seen = 0;
    for row in text.lines().skip(1) {
        let cell = |i: usize| row.split(',').nth(i).and_then(|c| c.parse::<f64>().ok()).unwrap();
        let (depth, casing, landed, rate) = (cell(1), cell(3), cell(9), cell(13));
        let well = Simple { seat_depth: Length::ft(depth), ..well };
        let t = transit(&ride(3.0, 1.8), &well.legs().unwrap(), &[step(rate, 1.0)]).unwrap();
        // ball size and moment of release are not recorded, so only the window can be asked for
        let opens = t.pumped / t.swept - 0.05;
        assert!((opens..1.02).contains(&(landed / casing)), "{depth} ft: {}", landed / casing);
        seen += 1;
    }
    assert!(seen >= 10);
}
