//! Time of 5,000 one-second steps of a fracture, alone and with proppant:
//! `cargo run --release -p physics --example fracture_speed`.

use physics::fracture::growth::{Fracture, Geometry, Ground};
use physics::fracture::nolte_smith::Form;
use physics::fracture::pkn::PknProfile;
use physics::fracture::proppant::{Filling, Rules};
use quantity::{Diameter, FlowRate, Leakoff, Length, Pressure, Ratio, Spurt, Time, Toughness, Viscosity};
use std::time::Instant;

fn run(geometry: Geometry, filled: bool) -> physics::Result<f64> {
    let mut fracture = Fracture::new(Ground {
        geometry,
        modulus: Pressure::gpa(20.0),
        leakoff: Leakoff::m_per_root_s(5e-5),
        spurt: Spurt::l_per_m2(0.1),
        toughness: Toughness::mpa_root_m(1.5),
    })?;
    let form = Form::Pkn;
    let rules = Rules { form, grain: Diameter::mm(0.6), width_ratio: 2.5, packed: 0.6, hole: None };
    let mut filling = Filling::new(rules)?;
    let start = Instant::now();
    for second in 0..5000 {
        let (step, rate) = (Time::seconds(1.0), FlowRate::bbl_per_min(40.0));
        let done = fracture.advance(step, rate, Viscosity::pa_s(0.05))?;
        if filled {
            filling.advance(&fracture, &done, Ratio::of(f64::from(second) * 4e-5))?;
        }
    }
    let spent = start.elapsed().as_secs_f64() * 1e3;
    assert!(fracture.length() > Length::m(1.0));
    Ok(spent)
}

fn main() -> physics::Result<()> {
    let height = Length::m(30.0);
    let forms = [
        ("pkn", Geometry::Pkn { height, profile: PknProfile::Usual }),
        ("kgd", Geometry::Kgd { height }),
        ("radial", Geometry::Radial),
    ];
    for (name, geometry) in forms {
        for filled in [false, true] {
            let mut best = f64::INFINITY;
            for _ in 0..20 {
                best = best.min(run(geometry, filled)?);
            }
            println!("{name}, proppant {filled}: {best:.3} ms for 5000 steps, best of 20");
        }
    }
    Ok(())
}
