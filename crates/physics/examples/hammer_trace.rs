//! Pressure at a valve that shuts at the end of a pipe from a reservoir, as CSV:
//! `cargo run --release -p physics --example hammer_trace -- LENGTH AREA SPEED DENSITY RATE DARCY
//! CELLS LEVEL CLOSING SPAN`, all in SI; `LEVEL` is the pressure behind the open valve.
//! `cases/oracle/compare_hammer.py` holds it against another program (tsnet_library).
#![allow(clippy::unwrap_used, reason = "an example")]

use physics::hammer::{
    BallFate, CellFill, Fineness, FrictionLaw, Hammer, HammerString, Landing, Lower, Reach, Sink, Upper,
};
use quantity::{
    Area, Density, Diameter, FlowRate, Length, Pressure, Quantity, RateSquaredLoss, Time, Velocity,
};

fn main() {
    let given: Vec<f64> = std::env::args().skip(1).map(|a| a.parse().unwrap()).collect();
    let [length, area, speed, density, rate, darcy, cells, level, closing, span] = given[..] else {
        eprintln!("give ten numbers: length area speed density rate darcy cells level closing span");
        std::process::exit(2);
    };
    let cells = cells as usize;
    let bore = Diameter::m((area / std::f64::consts::FRAC_PI_4).sqrt());
    let density = Density::kg_per_m3(density);
    let string = HammerString {
        reaches: vec![Reach {
            length: Length::m(length),
            area: Area::m2(area),
            wave_speed: Velocity::m_per_s(speed),
        }],
        fineness: Fineness { cells: cells..=cells, adjustment: 1e-9 },
        losses: Vec::new(),
        landing: Some(Landing {
            at: Length::m(length),
            seat: RateSquaredLoss::si(if closing > 0.0 { level / (rate * rate) } else { 0.0 }),
            time: Time::ZERO,
            closing: Time::seconds(closing),
            fate: BallFate::Holds,
            sleeve: None,
        }),
        upper: Upper::Reservoir,
        lower: Lower::Ports {
            loss: RateSquaredLoss::ZERO,
            sink: Sink::constant(Pressure::pa(if closing > 0.0 { 0.0 } else { level }).gauge()),
        },
        unsteady_friction: None,
    };
    let friction = FrictionLaw::darcy(darcy, density, bore);
    let fill = CellFill { density, friction, drop: Length::ZERO };
    let mut hammer = Hammer::new(&string, FlowRate::m3_per_s(rate), |_| fill).unwrap();
    println!("time_s,pressure_pa,rate_m3_per_s");
    while hammer.time().si() <= span {
        println!(
            "{:.9},{:.6},{:.12}",
            hammer.time().si(),
            hammer.pressure_above().above_atmosphere().si(),
            hammer.rate_at(Length::m(length)).si()
        );
        hammer.step();
    }
}
