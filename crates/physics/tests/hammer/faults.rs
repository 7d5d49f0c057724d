//! What balls, sleeves and pumps do, and refusals.

use super::strings::{Well, bpm, psi, run_to, seconds};
use physics::hammer::{
    BallFate, BallState, Governor, Hammer, Lower, Ramp, Relief, Sink, SleeveState, Trip, Upper,
};
use quantity::{FlowRate, GaugePressure, Length, Pressure, RateSquaredLoss, Time};

fn governed(rate: f64) -> Governor {
    Governor { ramp: Ramp::steady(bpm(rate)), trip: None, relief: None }
}

#[test]
fn a_landing_ends_at_the_new_stage() {
    let well = Well::new(10.0);
    let mut hammer = well.start();
    assert_eq!(hammer.ball(), Some(BallState::OnItsWay));
    let before = hammer.surface_pressure();
    let mut states = Vec::new();
    run_to(&mut hammer, 600.0, |h| {
        let now = (h.ball(), h.sleeve());
        if states.last() != Some(&now) {
            states.push(now);
        }
    });
    let ball = |s| Some(s);
    let sleeve = |s| Some(s);
    assert_eq!(
        states,
        [
            (ball(BallState::OnItsWay), sleeve(SleeveState::Closed)),
            (ball(BallState::Closing), sleeve(SleeveState::Closed)),
            (ball(BallState::Sealed), sleeve(SleeveState::Closed)),
            (ball(BallState::Sealed), sleeve(SleeveState::Opening)),
            (ball(BallState::Sealed), sleeve(SleeveState::Open)),
        ]
    );
    assert!(hammer.quiet(psi(5.0)));
    assert!((hammer.port_rate() / bpm(10.0) - 1.0).abs() < 1e-3);
    assert!(hammer.rate_past() == FlowRate::ZERO && hammer.end_rate().abs() < bpm(1e-3));
    // behind the ports 6100 + 150 x 10/15, and 0.4 x 10^2 in them
    assert!((hammer.pressure_above().in_psi() - 6240.0).abs() < 1.0, "{:?}", hammer.pressure_above());
    // below the ball the old stage alone: 5900, 15 m further down
    let column = psi(1010.0 * 9.80665 * 15.0 / 6894.757);
    assert!((hammer.pressure_below() + column - GaugePressure::psi(5900.0)).abs() < psi(1.0));
    assert!(hammer.surface_pressure() > before);
    assert!(hammer.adjustment() < 0.01 && hammer.moved() < Length::m(15.0));
}

#[test]
fn both_sides_count_towards_the_shear() {
    // the rise above, 1680 psi, is not enough alone
    let mut hammer = Well::new(25.0).start();
    run_to(&mut hammer, 1.3, |_| ());
    let opened = hammer.sheared().unwrap();
    assert!(opened < seconds(1.1), "{opened:?}");
}

#[test]
fn a_ball_that_shatters_gives_the_old_flow_back() {
    for fate in [BallFate::ShattersAfter(seconds(3.0)), BallFate::ShattersAt(psi(1500.0))] {
        let mut well = Well::new(10.0);
        well.landing().fate = fate;
        well.landing().sleeve = None;
        let mut hammer = well.start();
        let (before, seat) = (hammer.surface_pressure(), hammer.differential());
        run_to(&mut hammer, 900.0, |_| ());
        assert_eq!(hammer.ball(), Some(BallState::Shattered));
        assert!(hammer.shattered().is_some() && hammer.sleeve().is_none());
        assert!((hammer.surface_pressure() - before).abs() < psi(1.0), "{:?}", hammer.surface_pressure());
        assert!((hammer.differential() - seat).abs() < psi(1.0));
    }
}

#[test]
fn a_leaking_ball_settles_at_the_loss_of_its_leak() {
    let mut well = Well::new(8.0);
    let loss = RateSquaredLoss::psi_per_bpm2(25.0);
    well.landing().fate = BallFate::Leaks { loss, after: seconds(2.0), over: seconds(10.0) };
    well.landing().sleeve = None;
    let mut hammer = well.start();
    run_to(&mut hammer, 3.5, |_| ());
    assert_eq!(hammer.ball(), Some(BallState::Leaking));
    run_to(&mut hammer, 900.0, |_| ());
    // 25 x 8^2
    assert!((hammer.differential().in_psi() - 1600.0).abs() < 2.0, "{:?}", hammer.differential());
}

#[test]
fn a_sleeve_that_does_not_shift_trips_the_pumps() {
    let mut well = Well::new(10.0);
    well.landing().sleeve = None;
    let limit = well.start().surface_pressure() + psi(3000.0);
    let trip = Trip { pressure: limit, run_down: seconds(2.0) };
    well.string.upper = Upper::Governed(Governor { trip: Some(trip), ..governed(10.0) });
    let mut hammer = well.start();
    let mut last = bpm(10.0);
    run_to(&mut hammer, 60.0, |h| {
        match h.tripped() {
            None => assert!(h.surface_pressure() < limit && h.pump_rate() == bpm(10.0)),
            Some(at) if h.time() > at + seconds(2.0) => assert_eq!(h.pump_rate(), FlowRate::ZERO),
            Some(_) => assert!(h.pump_rate() <= last),
        }
        last = h.pump_rate();
    });
    assert!(hammer.tripped().is_some());
}

#[test]
fn a_relief_valve_caps_the_surface() {
    let mut well = Well::new(10.0);
    well.landing().sleeve = None;
    let start = well.start().surface_pressure();
    let (set, reseat) = (start + psi(1500.0), start + psi(500.0));
    let mut run = |relief: Option<Relief>| {
        well.string.upper = Upper::Governed(Governor { relief, ..governed(10.0) });
        let mut hammer = well.start();
        let (mut relieved, mut worst) = (0_u32, GaugePressure::ZERO);
        run_to(&mut hammer, 60.0, |h| {
            worst = worst.max(h.surface_pressure());
            relieved += u32::from(h.surface_rate() < h.pump_rate());
        });
        (relieved, worst)
    };
    let orifice = RateSquaredLoss::psi_per_bpm2(20.0);
    let (relieved, worst) = run(Some(Relief { set, reseat, orifice }));
    assert!(relieved > 0 && worst - set < psi(50.0), "{worst:?} {set:?}");
    let (relieved, worst) = run(None);
    assert!(relieved == 0 && worst - set > psi(2000.0), "{worst:?} {set:?}");
}

#[test]
fn a_breakdown_stands_above_the_new_level_and_decays() {
    let mut well = Well::new(10.0);
    let peak = |well: &mut Well, breakdown: f64| {
        let sleeve = well.landing().sleeve.as_mut().unwrap();
        sleeve.sink = Sink::constant(GaugePressure::psi(6200.0));
        if breakdown > 0.0 {
            sleeve.sink = sleeve.sink.with_breakdown(psi(breakdown), seconds(5.0)).unwrap();
        }
        let mut hammer = well.start();
        let mut seen = GaugePressure::ZERO;
        run_to(&mut hammer, 120.0, |h| {
            if h.sheared().is_some_and(|at| h.time() > at + seconds(0.3)) {
                seen = seen.max(h.pressure_above());
            }
        });
        (seen, hammer.pressure_above())
    };
    let (without, level) = peak(&mut well, 0.0);
    let (with, later) = peak(&mut well, 1500.0);
    assert!(with - without > psi(800.0), "{with:?} {without:?}");
    assert!((later - level).abs() < psi(30.0), "{later:?} {level:?}");
}

#[test]
fn a_closed_string_builds_up() {
    let mut well = Well::new(0.0);
    well.landing().sleeve = None;
    well.string.lower = Lower::Closed(GaugePressure::psi(5000.0));
    let ramp = Ramp { from: bpm(0.0), to: bpm(2.0), start: seconds(1.0), end: seconds(5.0) };
    well.string.upper = Upper::Governed(Governor { ramp, ..governed(0.0) });
    let mut hammer = well.start();
    let before = hammer.surface_pressure();
    run_to(&mut hammer, 60.0, |_| ());
    assert!(hammer.surface_pressure() - before > psi(100.0));
    hammer.set_upper(Upper::Closed);
    run_to(&mut hammer, 61.0, |_| ());
    assert_eq!(hammer.surface_rate(), FlowRate::ZERO);
}

fn refusal(change: impl Fn(&mut Well)) -> String {
    let mut well = Well::new(10.0);
    change(&mut well);
    Hammer::new(&well.string, well.rate, Well::fill).unwrap_err().to_string()
}

#[test]
fn what_makes_no_sense_is_refused() {
    let closed = Lower::Closed(GaugePressure::psi(5000.0));
    assert!(refusal(|w| w.string.lower = closed).contains("zero where the lower end is closed"));
    assert!(refusal(|w| w.string.upper = Upper::Constant(bpm(12.0))).contains("steady flow"));
    assert!(refusal(|w| w.landing().at = Length::m(9000.0)).contains("end of the string"));
    assert!(refusal(|w| w.landing().time = seconds(-1.0)).contains("landing_time"));
    assert!(refusal(|w| w.landing().seat = RateSquaredLoss::ZERO).contains("seat_loss"));
    assert!(refusal(|w| w.landing().sleeve.as_mut().unwrap().shear = Pressure::ZERO).contains("shear"));
    assert!(refusal(|w| w.string.unsteady_friction = Some(3.0)).contains("unsteady_friction"));
    assert!(refusal(|w| w.string.reaches[2].length = Length::m(0.5)).contains("adjustment"));
    assert!(refusal(|w| w.string.losses[0].loss = RateSquaredLoss::si(f64::NAN)).contains("lumped_loss"));
    let trip = Trip { pressure: GaugePressure::psi(9000.0), run_down: Time::seconds(-1.0) };
    let governor = Governor { trip: Some(trip), ..governed(10.0) };
    assert!(refusal(|w| w.string.upper = Upper::Governed(governor)).contains("run_down"));
    assert!(Sink::line(GaugePressure::ZERO, psi(1.0), FlowRate::ZERO).is_err());
    assert!(Sink::constant(GaugePressure::ZERO).with_breakdown(psi(-1.0), seconds(1.0)).is_err());
}

/// A step that would break the ball and shear the sleeve at once breaks the weaker of the two.
#[test]
fn a_ball_weaker_than_its_sleeve_breaks_and_leaves_it_shut() {
    for (limit, opens) in [(1800.0, false), (2200.0, true)] {
        let mut well = Well::new(40.0);
        well.landing().fate = BallFate::ShattersAt(psi(limit));
        well.landing().closing = Time::ZERO;
        let mut hammer = well.start();
        run_to(&mut hammer, 5.0, |_| ());
        assert!(hammer.shattered().is_some(), "{limit} psi");
        assert_eq!(hammer.sheared().is_some(), opens, "{limit} psi");
    }
}
