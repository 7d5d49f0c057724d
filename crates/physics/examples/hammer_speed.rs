//! How long a landing with its ringing takes, in time of the processor:
//! `cargo run --release -p physics --example hammer_speed`.
#![allow(clippy::unwrap_used, reason = "an example")]

use physics::hammer::uniform::UniformLanding;
use physics::hammer::{CellFill, FrictionLaw, Hammer, LumpedLoss};
use physics::hydraulics::landing::LandingString;
use quantity::{
    Density, Diameter, FlowRate, GaugePressure, Length, Pressure, PressureGradient, RateSquaredLoss, Time,
    Velocity,
};

/// Seconds of the processor this process has used; of the clock where the system does not tell.
fn used() -> f64 {
    let text = std::fs::read_to_string("/proc/self/schedstat").unwrap_or_default();
    let own = text.split(' ').next().and_then(|t| t.parse::<f64>().ok()).map(|ns| ns * 1e-9);
    let clock = || std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap().as_secs_f64();
    own.unwrap_or_else(clock)
}

fn main() {
    println!("cells  exponent  seats  unsteady   steps  new us  landing ms  ns/step  ns/(step 300 cells)");
    for cells in [200, 300, 400] {
        for (exponent, seats, brunone) in
            [(2.0, 0, None), (1.8, 0, None), (1.8, 20, None), (1.8, 20, Some(0.006))]
        {
            let landing = UniformLanding {
                string: LandingString {
                    density: Density::kg_per_m3(1000.0),
                    wave_speed: Velocity::m_per_s(1420.72),
                    bore: Diameter::inch(4.0),
                    length: Length::m(5000.0),
                },
                friction: 0.0045,
                rate: FlowRate::bbl_per_min(8.0),
                shear: Pressure::psi(2000.0),
                opening: Time::seconds(0.2),
                new_level: Pressure::ZERO,
                level: GaugePressure::psi(8000.0),
                cells,
                span: Time::seconds(150.0),
            };
            let mut string = landing.string().unwrap();
            let seat = |i: u32| LumpedLoss {
                at: Length::m(3000.0 + 90.0 * f64::from(i)),
                loss: RateSquaredLoss::psi_per_bpm2(0.02),
            };
            string.losses = (0..seats).map(seat).collect();
            string.unsteady_friction = brunone;
            let friction = FrictionLaw {
                gradient: PressureGradient::psi_per_1000ft(40.0),
                rate: FlowRate::bbl_per_min(15.0),
                exponent,
            };
            let fill = CellFill { density: Density::kg_per_m3(1000.0), friction, drop: Length::ZERO };
            let best = (0..20).map(|_| {
                let begun = used();
                let mut hammer = Hammer::new(&string, landing.rate, |_| fill).unwrap();
                let built = used() - begun;
                let mut steps = 0_u32;
                while hammer.time() < Time::seconds(150.0) {
                    hammer.step();
                    steps += 1;
                }
                assert!(hammer.sheared().is_some());
                (used() - begun, built, steps)
            });
            let (all, built, steps) = best.min_by(|a, b| a.0.total_cmp(&b.0)).unwrap();
            let step = (all - built) / f64::from(steps) * 1e9;
            let unsteady = if brunone.is_some() { "yes" } else { "no" };
            println!(
                "{cells:5} {exponent:9} {seats:6} {unsteady:>9} {steps:7} {:7.0} {:11.2} {step:8.0} {:8.0}",
                built * 1e6,
                all * 1e3,
                step * 300.0 / cells as f64
            );
        }
    }
}
