//! The landing without friction against the closed form, and with friction against itself.

use super::strings::{bpm, psi, run_to, seconds, uniform};
use physics::hydraulics::landing::landing_staircase;
use physics::hydraulics::sealed_pressure::SealedVolume;
use quantity::{Compressibility, Pressure, Quantity, Time, Volume};

#[test]
fn staircase_and_round_trips_agree_with_the_closed_form_in_every_case() {
    let mut checked = 0;
    for length in [3000.0, 3500.0, 4000.0, 4500.0, 5000.0, 5500.0, 6000.0, 6500.0] {
        for rate in [5.0, 8.0, 10.0, 12.5, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0] {
            for shear in [1000.0, 1500.0, 2000.0, 2500.0, 3000.0] {
                let landing = uniform(length, rate, shear, 0.0);
                let closed = landing_staircase(&landing.string, bpm(rate), psi(shear)).unwrap();
                let mut hammer = landing.start().unwrap();
                let (dt, start) = (hammer.time_step(), hammer.surface_pressure());
                let mut peak = Pressure::ZERO;
                while hammer.sheared().is_none() {
                    hammer.step();
                    peak = peak.max(hammer.surface_pressure() - start);
                }
                let opened = hammer.sheared().unwrap() - dt;
                let case = format!("{length} m, {rate} bbl/min, {shear} psi");
                assert!((opened - closed.opening).abs() < dt, "{case}: opened {opened:?}");
                let trips = (opened / closed.round_trip).round();
                assert_eq!(trips, f64::from(closed.round_trips), "{case}");
                // what is under way still arrives, and no more
                let last = hammer.time().si() + closed.round_trip.si() * 6.0;
                run_to(&mut hammer, last, |h| peak = peak.max(h.surface_pressure() - start));
                assert!((peak - closed.surface_rise).abs() < psi(1.0), "{case}: peak {peak:?}");
                checked += 1;
            }
        }
    }
    assert_eq!(checked, 400);
}

#[test]
fn a_sleeve_that_takes_its_time_sends_the_spike() {
    for (rate, shear) in [(15.0, 1000.0), (15.0, 2000.0), (5.0, 2500.0), (25.0, 3000.0)] {
        let mut landing = uniform(5000.0, rate, shear, 0.0);
        landing.opening = seconds(0.5);
        let closed = landing_staircase(&landing.string, bpm(rate), psi(shear)).unwrap();
        let record = landing.record(psi(200.0), seconds(1.0)).unwrap();
        assert!((record.peak.0 - closed.surface_spike).abs() < psi(1.0), "{rate} {shear}");
    }
}

#[test]
fn the_mean_slope_is_rate_over_volume_and_compressibility() {
    let landing = uniform(5000.0, 15.0, 1e6, 0.0);
    let s = landing.string;
    // 1/K + C = 1/(rho a^2)
    let total = 1.0 / (s.density.si() * s.wave_speed.si().powi(2));
    let modulus = Pressure::gpa(2.4);
    let wall = Compressibility::per_pa(total - 1.0 / modulus.si());
    let volume = s.length * s.bore.circle();
    let slope =
        SealedVolume::liquid(Volume::m3(volume.si()), modulus, wall).pressure_rate(bpm(15.0)).unwrap();
    let mut hammer = landing.start().unwrap();
    let trip = s.length.si() / s.wave_speed.si() * 2.0;
    run_to(&mut hammer, 1.25 * trip, |_| ());
    let (from, time) = (hammer.surface_pressure(), hammer.time());
    for _ in 0..400 * 5 {
        hammer.step();
    }
    let seen = (hammer.surface_pressure() - from).si() / (hammer.time() - time).si();
    assert!((seen / slope.si() - 1.0).abs() < 1e-9, "{seen} {slope:?}");
}

#[test]
fn a_step_travels_without_smearing() {
    let mut landing = uniform(5000.0, 10.0, 1e6, 0.0);
    landing.level = quantity::GaugePressure::ZERO;
    let mut hammer = landing.start().unwrap();
    let step = landing.string.step(bpm(10.0)).unwrap();
    let at = |h: &physics::hammer::Hammer, node: f64| {
        h.pressure_at(landing.string.length * (node / 200.0)).above_atmosphere() / step
    };
    for steps in 1..=3000_u32 {
        hammer.step();
        // up with the step, back with twice it, and again: fronts stand between two nodes
        let done = (steps - 1) % 400;
        let trips = f64::from((steps - 1) / 400) * 2.0;
        for node in 0..=200_u32 {
            let passed_up = 200 - node <= done.min(200);
            let passed_down = done >= 200 && node <= done - 200;
            let wanted = trips + f64::from(u8::from(passed_up)) + f64::from(u8::from(passed_down));
            let got = at(&hammer, f64::from(node));
            assert!((got - wanted).abs() < 1e-12 * (1.0 + wanted), "{steps} {node}: {got} {wanted}");
        }
    }
}

#[test]
fn half_the_time_step_changes_the_surface_by_less_than_two_per_mille() {
    for (rate, shear) in [(5.0, 1000.0), (10.0, 2000.0), (15.0, 2000.0)] {
        let mut landing = uniform(5000.0, rate, shear, 0.0045);
        landing.opening = seconds(0.3);
        let treating = 6000.0;
        let coarse = landing.record(psi(200.0), seconds(1.0)).unwrap();
        landing.cells = 400;
        let fine = landing.record(psi(200.0), seconds(1.0)).unwrap();
        let change = (coarse.peak.0 - fine.peak.0).in_psi().abs() / treating;
        assert!(change < 0.002, "{rate} {shear}: {change}");
        let opened = |r: &physics::hammer::uniform::LandingRecord| r.sheared.unwrap_or(Time::ZERO);
        assert!((opened(&coarse) - opened(&fine)).abs() < seconds(0.1));
    }
}
