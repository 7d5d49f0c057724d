//! An independent check of the landing: the method of characteristics on a uniform pipe.

use super::landing::{LandingString, first_surface_step, landing_staircase};
use super::sealed_pressure::SealedVolume;
use quantity::{Compressibility, Density, Diameter, FlowRate, Length, Pressure, Quantity, Velocity, Volume};

/// What the pipe showed, all relative to the flow before the landing.
struct Record {
    /// Time the sleeve opened, s.
    opened: f64,
    /// Surface pressure at each step, Pa.
    surface: Vec<f64>,
    /// Time step, s.
    dt: f64,
}

/// When the sleeve opens after the seat has passed its opening pressure.
#[derive(Clone, Copy, PartialEq)]
enum Shift {
    AtOnce,
    OneStepLate,
}

/// Runs the pipe with a constant rate at the top and a ball that seals the bottom at time zero.
///
/// Courant number one; `p_i = (C+ + C-)/2`, `C+ = p + B q - R q|q|`, `C- = p - B q + R q|q|`,
/// `B = rho a/A`, `R = f dx rho/(2 D A^2)`.
fn run(string: &LandingString, rate: FlowRate, opening: Pressure, darcy: f64, shift: Shift) -> Record {
    const NODES: usize = 200;
    let area = string.bore.circle().si();
    let b = string.density.si() * string.wave_speed.si() / area;
    let dx = string.length.si() / NODES as f64;
    let r = darcy * dx * string.density.si() / (2.0 * string.bore.si() * area * area);
    let (q0, dt) = (rate.si(), dx / string.wave_speed.si());
    // steady flow before the landing; the bottom stands at zero
    let mut p: Vec<f64> = (0..=NODES).map(|i| r * q0 * q0 * (NODES - i) as f64).collect();
    let mut q = vec![q0; NODES + 1];
    let start = p[0];
    let (mut opened, mut surface) = (f64::NAN, Vec::new());
    let mut open = false;
    for step in 0..12_000_usize {
        let rises = |p: f64| p >= opening.si() * (1.0 - 1e-9);
        if step > 0 {
            let plus = |i: usize| p[i - 1] + b * q[i - 1] - r * q[i - 1] * q[i - 1].abs();
            let minus = |i: usize| p[i + 1] - b * q[i + 1] + r * q[i + 1] * q[i + 1].abs();
            let inner: Vec<_> =
                (1..NODES).map(|i| ((plus(i) + minus(i)) / 2.0, (plus(i) - minus(i)) / (2.0 * b))).collect();
            let (top, bottom) = (minus(0) + b * q0, plus(NODES));
            for (i, (pi, qi)) in inner.into_iter().enumerate() {
                (p[i + 1], q[i + 1]) = (pi, qi);
            }
            (p[0], q[0]) = (top, q0);
            (p[NODES], q[NODES]) = if open { (0.0, bottom / b) } else { (bottom, 0.0) };
        } else {
            // the ball stops the flow: a step of B q0 at the seat
            (p[NODES], q[NODES]) = (b * q0, 0.0);
        }
        if !open && rises(p[NODES]) {
            open = true;
            opened = step as f64 * dt;
            if shift == Shift::AtOnce {
                let c = p[NODES] + b * q[NODES];
                (p[NODES], q[NODES]) = (0.0, c / b);
            }
        }
        surface.push(p[0] - start);
        if open && step as f64 * dt > opened + 1.5 * string.length.si() / string.wave_speed.si() {
            break;
        }
    }
    Record { opened, surface, dt }
}

fn string(length: f64) -> LandingString {
    LandingString {
        density: Density::kg_per_m3(1000.0),
        wave_speed: Velocity::m_per_s(1420.72),
        bore: Diameter::inch(4.0),
        length: Length::m(length),
    }
}

fn highest(list: &[f64]) -> f64 {
    list.iter().copied().fold(0.0, f64::max)
}

#[test]
fn the_staircase_is_what_the_characteristics_give() {
    let mut checked = 0;
    for bpm in [5.0, 8.0, 10.0, 15.0, 20.0, 25.0, 40.0] {
        for psi in [1500.0, 2000.0, 2500.0, 3000.0] {
            let (s, rate, opening) = (string(5000.0), FlowRate::bbl_per_min(bpm), Pressure::psi(psi));
            let stairs = landing_staircase(&s, rate, opening).unwrap();
            let run = run(&s, rate, opening, 0.0, Shift::AtOnce);
            assert!((run.opened - stairs.opening.in_seconds()).abs() < run.dt, "{bpm} {psi}");
            let peak = Pressure::pa(highest(&run.surface));
            assert!((peak - stairs.surface_rise).in_psi().abs() < 0.01, "{bpm} {psi}: {peak:?}");
            checked += 1;
        }
    }
    assert_eq!(checked, 28);
}

#[test]
fn a_late_shift_sends_the_spike() {
    for (bpm, psi) in [(15.0, 1000.0), (15.0, 2000.0), (5.0, 2500.0)] {
        let (s, rate, opening) = (string(5000.0), FlowRate::bbl_per_min(bpm), Pressure::psi(psi));
        let stairs = landing_staircase(&s, rate, opening).unwrap();
        let run = run(&s, rate, opening, 0.0, Shift::OneStepLate);
        let peak = Pressure::pa(highest(&run.surface));
        assert!((peak - stairs.surface_spike).in_psi().abs() < 0.01, "{bpm} {psi}: {peak:?}");
    }
}

#[test]
fn with_friction_the_first_surface_step_is_within_its_bounds() {
    for bpm in [5.0, 10.0, 15.0, 20.0, 30.0] {
        let (s, rate) = (string(5000.0), FlowRate::bbl_per_min(bpm));
        let step = s.step(rate).unwrap();
        let u = (rate / s.bore.circle()).si();
        let friction = Pressure::pa(0.0045 * s.length.si() / s.bore.si() * 500.0 * u * u);
        let record = run(&s, rate, Pressure::psi(1e6), 0.0045, Shift::AtOnce);
        let arrival = (s.length / s.wave_speed).in_seconds();
        let seen = record.surface[(arrival / record.dt).round() as usize + 1];
        let (low, high) = first_surface_step(step, friction).unwrap();
        assert!(seen >= low.si() * 0.999 && seen <= high.si(), "{bpm}: {seen}");
        if friction < step {
            assert!(seen <= low.si() + 0.05 * step.si(), "{bpm}: {} psi", Pressure::pa(seen).in_psi());
        }
    }
}

#[test]
fn the_mean_slope_is_rate_over_volume_and_compressibility() {
    let s = string(5000.0);
    let rate = FlowRate::bbl_per_min(15.0);
    let volume = s.length * s.bore.circle();
    // 1/K + C = 1/(rho a^2)
    let total = 1.0 / (s.density.si() * s.wave_speed.si().powi(2));
    let modulus = Pressure::gpa(2.4);
    let wall = Compressibility::per_pa(total - 1.0 / modulus.si());
    let sealed = SealedVolume::liquid(Volume::m3(volume.si()), modulus, wall);
    let slope = landing_staircase(&s, rate, Pressure::psi(2000.0)).unwrap().mean_slope;
    assert!((sealed.pressure_rate(rate).unwrap() / slope - 1.0).abs() < 1e-12);
}
