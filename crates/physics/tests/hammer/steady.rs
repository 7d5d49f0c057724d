//! What must not change: steady flow, volume.

use super::strings::{Well, bpm, psi, run_to, seconds};
use physics::hammer::{BallFate, Governor, Hammer, Ramp, Relief, SleeveState, Trip, Upper};
use quantity::{GaugePressure, Length, Quantity, RateSquaredLoss, Time};

fn balanced(hammer: &Hammer) -> f64 {
    let b = hammer.balance();
    b.gone().si().abs() / b.pumped.si()
}

#[test]
fn steady_flow_stands_still_for_ten_thousand_steps() {
    for unsteady in [None, Some(0.01)] {
        let mut well = Well::new(15.0);
        well.landing().time = seconds(1e6);
        well.string.unsteady_friction = unsteady;
        let mut hammer = well.start();
        let places: Vec<_> = (0..=46).map(|i| Length::m(f64::from(i) * 100.0)).collect();
        let before: Vec<_> = places.iter().map(|at| hammer.pressure_at(*at)).collect();
        let mut worst = 0.0_f64;
        for _ in 0..10_000 {
            hammer.step();
            for (at, p) in places.iter().zip(&before) {
                worst = worst.max((hammer.pressure_at(*at).si() / p.si() - 1.0).abs());
            }
        }
        assert!(worst < 1e-9, "{worst}");
        assert!((hammer.rate_at(Length::m(2000.0)) / bpm(15.0) - 1.0).abs() < 1e-9);
        assert!(hammer.quiet(psi(0.001)));
    }
}

#[test]
fn volume_is_kept_through_a_landing_and_its_ringing() {
    let fates = [
        BallFate::Holds,
        BallFate::ShattersAfter(seconds(40.0)),
        BallFate::Leaks {
            loss: RateSquaredLoss::psi_per_bpm2(20.0),
            after: seconds(40.0),
            over: seconds(20.0),
        },
    ];
    for fate in fates {
        for unsteady in [None, Some(0.006)] {
            let mut well = Well::new(10.0);
            well.landing().fate = fate;
            well.string.unsteady_friction = unsteady;
            let mut hammer = well.start();
            let mut worst = 0.0_f64;
            run_to(&mut hammer, 150.0, |h| worst = worst.max(balanced(h)));
            assert!(worst < 1e-9, "{fate:?}: {worst}");
            assert_ne!(hammer.sleeve(), Some(SleeveState::Closed), "{fate:?}");
            assert!(hammer.balance().ports.si() > 0.0);
        }
    }
}

#[test]
fn volume_is_kept_through_trip_relief_and_a_parted_column() {
    let mut well = Well::new(10.0);
    well.landing().sleeve = None;
    let start = well.start().surface_pressure();
    let relief = Relief {
        set: start + psi(1800.0),
        reseat: start + psi(1200.0),
        orifice: RateSquaredLoss::psi_per_bpm2(200.0),
    };
    let governor = Governor {
        ramp: Ramp { from: bpm(10.0), to: bpm(12.0), start: seconds(2.0), end: seconds(4.0) },
        trip: Some(Trip { pressure: start + psi(2500.0), run_down: seconds(1.5) }),
        relief: Some(relief),
    };
    well.string.upper = Upper::Governed(governor);
    let mut hammer = well.start();
    let mut worst = 0.0_f64;
    run_to(&mut hammer, 100.0, |h| worst = worst.max(balanced(h)));
    assert!(worst < 1e-9, "{worst}");
    assert!(hammer.balance().relieved.si() > 0.0);
    // a stop at low pressure parts the column under the pumps
    let mut well = Well::new(15.0);
    well.landing().time = Time::seconds(1e6);
    let low = |p: f64| physics::hammer::Sink::constant(GaugePressure::psi(p));
    well.string.lower = physics::hammer::Lower::Ports { loss: RateSquaredLoss::ZERO, sink: low(4000.0) };
    let ramp = Ramp { from: bpm(15.0), to: bpm(0.0), start: seconds(1.0), end: seconds(1.0) };
    well.string.upper = Upper::Governed(Governor { ramp, trip: None, relief: None });
    let mut hammer = well.start();
    let (mut worst, mut widest, mut lowest) = (0.0_f64, 0.0_f64, f64::INFINITY);
    run_to(&mut hammer, 120.0, |h| {
        worst = worst.max(balanced(h));
        widest = widest.max(h.balance().gap.si());
        lowest = lowest.min(h.surface_pressure().absolute().si());
    });
    assert!(worst < 1e-9, "{worst}");
    assert!(widest > 1e-4, "{widest}");
    assert!(lowest >= 0.0, "{lowest}");
}
