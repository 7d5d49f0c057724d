//! Textbook cases and closed forms: stopped flow, period, slow closure, reflection.

use super::strings::{Valve, bpm, psi, run_to, seconds, uniform};
use physics::hammer::reflection::{WavePipe, wave_reflection};
use physics::hammer::{CellFill, FrictionLaw, Hammer, Lower, Reach, Sink};
use quantity::{Density, Diameter, GaugePressure, Length, Quantity, RateSquaredLoss, Velocity};

/// Head of a pressure in metres of the fluid.
fn metres(pressure: f64, density: f64) -> f64 {
    pressure / (density * 9.81)
}

/// Highest rise at the valve of a flow stopped at once.
fn stopped(valve: &Valve) -> f64 {
    let mut hammer = valve.start();
    let before = hammer.pressure_above();
    let mut peak = 0.0_f64;
    run_to(&mut hammer, 3.0 * valve.length / valve.speed, |h| {
        peak = peak.max((h.pressure_above() - before).si());
    });
    peak
}

#[test]
fn oil_stopped_in_a_rigid_pipe_rises_by_335_metres() {
    // chaudhry2014 example 1-1, as remembered: 0.5 m pipe, oil of 900 kg/m3 and 1.5 GPa, 0.5 m3/s
    let speed = (1.5e9_f64 / 900.0).sqrt();
    let area = Diameter::m(0.5).circle().si();
    let valve =
        Valve { length: 1000.0, speed, area, density: 900.0, rate: 0.5, closing: 0.0, loss: 0.0, cells: 50 };
    assert!((speed - 1291.0).abs() < 0.5);
    assert!((metres(stopped(&valve), 900.0) - 335.0).abs() < 0.5);
}

#[test]
fn the_laboratory_pipe_rises_and_rings_as_it_should() {
    // bergant2001, as remembered: 37.23 m of 22.1 mm, 1319 m/s
    for (velocity, head) in [(0.1, 13.45), (0.2, 26.89), (0.3, 40.34)] {
        let area = Diameter::mm(22.1).circle().si();
        let rate = velocity * area;
        let valve = Valve {
            length: 37.23,
            speed: 1319.0,
            area,
            density: 998.2,
            rate,
            closing: 0.0,
            loss: 0.0,
            cells: 64,
        };
        assert!((metres(stopped(&valve), 998.2) - head).abs() < 0.01, "{velocity}");
        let mut hammer = valve.start();
        let before = hammer.pressure_above();
        let (mut rises, mut was_high) = (Vec::new(), false);
        run_to(&mut hammer, 1.0, |h| {
            let high = h.pressure_above() > before;
            if high && !was_high {
                rises.push(h.time().si());
            }
            was_high = high;
        });
        assert!(rises.len() > 8);
        for pair in rises.windows(2) {
            // 4L/a = 0.1129 s
            assert!((pair[1] - pair[0] - 0.1129).abs() < 5e-5, "{pair:?}");
        }
    }
}

/// Heads over that of the start at whole round trips of a valve that closes in a straight line.
///
/// Interlocking equations of allievi1925: `z_i^2 + z_(i-1)^2 - 2 = 2 r (h_(i-1) z_(i-1) - h_i z_i)`,
/// `z^2` head over head at the start, `h` opening, `r = rho a V/(2 p)`.
fn interlocked(r: f64, trips_to_close: f64, count: usize) -> Vec<f64> {
    let opening = |i: usize| (1.0 - i as f64 / trips_to_close).max(0.0);
    let mut heads = vec![1.0_f64];
    for i in 1..=count {
        let (z, h0, h1) = (heads[i - 1].sqrt(), opening(i - 1), opening(i));
        let c = z * z - 2.0 - 2.0 * r * h0 * z;
        let next = -r * h1 + (r * r * h1 * h1 - c).sqrt();
        heads.push(next * next);
    }
    heads
}

#[test]
fn a_slow_closure_follows_the_interlocking_equations() {
    let (length, speed, density, rate) = (1000.0, 1200.0, 1000.0, 0.1);
    let area = Diameter::m(0.4).circle().si();
    for (level, trips) in [(1.5e6, 4.0), (0.6e6, 7.5), (4.0e6, 3.0)] {
        let closing = trips * 2.0 * length / speed;
        let valve =
            Valve { length, speed, area, density, rate, closing, loss: level / (rate * rate), cells: 100 };
        let mut hammer = valve.start();
        let r = density * speed * rate / area / (2.0 * level);
        for (i, head) in interlocked(r, trips, 12).into_iter().enumerate() {
            let got = hammer.pressure_above().above_atmosphere().si() / level;
            assert!((got - head).abs() < 1e-9, "{level} {i}: {got} {head}");
            for _ in 0..200 {
                hammer.step();
            }
        }
    }
}

#[test]
fn a_wave_goes_on_and_back_in_its_shares_where_the_pipe_changes() {
    for (inch, speed, density) in [(6.18, 1380.0, 1000.0), (3.0, 1421.0, 1000.0), (4.0, 1300.0, 1250.0)] {
        let landing = uniform(2000.0, 10.0, 1e6, 0.0);
        let mut string = landing.string().unwrap();
        let upper = Reach {
            length: Length::m(2000.0),
            area: Diameter::inch(inch).circle(),
            wave_speed: Velocity::m_per_s(speed),
        };
        string.reaches.insert(0, upper);
        string.fineness = physics::hammer::Fineness::default();
        let place = string.landing.as_mut().unwrap();
        place.at = Length::m(4000.0);
        let fill = |cell: &physics::hammer::CellPlace| CellFill {
            density: Density::kg_per_m3(if cell.reach == 0 { density } else { 1000.0 }),
            friction: FrictionLaw::none(),
            drop: Length::ZERO,
        };
        let mut hammer = Hammer::new(&string, bpm(10.0), fill).unwrap();
        let pipe = |cell: usize, density: f64, reach: usize| WavePipe {
            density: Density::kg_per_m3(density),
            wave_speed: hammer.wave_speed_at(cell).unwrap(),
            area: string.reaches[reach].area,
        };
        let (back, on) = wave_reflection(pipe(hammer.cells() - 1, 1000.0, 1), pipe(0, density, 0)).unwrap();
        let rise = |h: &Hammer, at: f64, from: GaugePressure| (h.pressure_at(Length::m(at)) - from).si();
        let start = hammer.surface_pressure();
        // once the wave is past the change but not yet at the pumps
        run_to(&mut hammer, 1.9, |_| ());
        let step = landing.string.step(bpm(10.0)).unwrap().si() * (pipe_speed(&hammer) / 1420.72);
        assert!((rise(&hammer, 1700.0, start) / step - on).abs() < 1e-9, "{inch}");
        assert!((rise(&hammer, 2300.0, start) / step - 1.0 - back).abs() < 1e-9, "{inch}");
    }
}

fn pipe_speed(hammer: &Hammer) -> f64 {
    hammer.wave_speed_at(hammer.cells() - 1).unwrap().si()
}

#[test]
fn a_reservoir_behind_ports_settles_at_its_own_pressure() {
    let landing = uniform(3000.0, 8.0, 1e6, 0.02);
    let mut string = landing.string().unwrap();
    string.landing = None;
    string.lower = Lower::Ports {
        loss: RateSquaredLoss::psi_per_bpm2(1.0),
        sink: Sink::line(GaugePressure::psi(4000.0), psi(80.0), bpm(8.0)).unwrap(),
    };
    let fill =
        CellFill { density: Density::kg_per_m3(1000.0), friction: FrictionLaw::none(), drop: Length::ZERO };
    let mut hammer = Hammer::new(&string, bpm(8.0), |_| fill).unwrap();
    // 4000 + 80 + 1 x 8^2
    assert!((hammer.surface_pressure().in_psi() - 4144.0).abs() < 1e-6);
    let lower = Lower::Ports {
        loss: RateSquaredLoss::psi_per_bpm2(1.0),
        sink: Sink::constant(GaugePressure::psi(4500.0)),
    };
    hammer.set_lower(lower);
    run_to(&mut hammer, 4000.0, |_| ());
    assert!((hammer.surface_pressure().in_psi() - 4564.0).abs() < 0.01);
    assert!(hammer.quiet(psi(0.1)) && hammer.time() > seconds(3999.0));
}
