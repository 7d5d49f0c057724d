//! The penny-shaped fracture: growth held by the fluid's viscosity or by the rock's toughness.

use super::drive::{MEAN_WIDTH, MODULUS, NET_PRESSURE, Opening, VISCOSITY, WIDTH};
use crate::error::{Result, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Diameter, FlowRate, Length, Pressure, Quantity, Time, Toughness, Viscosity};
use std::f64::consts::PI;

/// Radius coefficient where viscosity governs (savitski_detournay2002).
pub const VISCOSITY_COEFFICIENT: f64 = 0.6955;

/// Radius of a penny-shaped fracture whose growth the fluid's viscosity holds, no leak-off.
///
/// Equation: `R = 0.6955 (Q³ E'/µ')^(1/9) t^(4/9)`, `w̄ = Q t/(π R²)`, `p = 3 π E' w̄/(16 R)`,
/// `w = 1.5 w̄`.
///
/// Symbols: `R` radius m, `Q` the whole rate m³/s, `E'` plane-strain modulus Pa, `µ' = 12 µ`
/// Pa.s, `t` time since it began s, `w̄` mean width m; `p` and `w` net pressure Pa and centre width
/// m of a penny under one pressure that holds that volume.
///
/// Range: none stated; no leak-off, no toughness, no layer that stops it.
///
/// Where it breaks: the true pressure peaks at the well (without bound at a point source), so
/// `p` is the level that fits the volume; the true centre width is larger than `w` too. Arguments
/// not above zero are refused.
///
/// Source: savitski_detournay2002 (radius); sneddon1946 (penny under one pressure).
///
/// ```
/// use physics::fracture::radial::radial_viscosity;
/// use quantity::{FlowRate, Pressure, Time, Viscosity};
/// let rate = FlowRate::m3_per_s(2.0 * 0.05299576);
/// let penny = radial_viscosity(Pressure::gpa(20.0), Viscosity::pa_s(0.2), rate, Time::hours(1.0))?;
/// assert!((penny.length.in_m() - 158.6).abs() < 0.05);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn radial_viscosity(
    modulus: Pressure,
    viscosity: Viscosity,
    rate: FlowRate,
    time: Time,
) -> Result<Opening> {
    let name = "radial_viscosity";
    require_positive(name, "modulus", modulus)?;
    require_positive(name, "viscosity", viscosity)?;
    require_positive(name, "rate", rate)?;
    require_positive(name, "time", time)?;
    let (e, q, t) = (modulus.si(), rate.si(), time.si());
    // R = 0.6955 (Q³ E'/µ')^(1/9) t^(4/9)
    let group = (q.powi(3) * e / (12.0 * viscosity.si())).powf(1.0 / 9.0);
    Ok(penny(e, VISCOSITY_COEFFICIENT * group * t.powf(4.0 / 9.0), q * t))
}

/// Radius of a penny-shaped fracture whose growth the rock's toughness holds, no leak-off.
///
/// Equation: `R = (3 E' Q t/(8 √π K))^(2/5)`, `p = K √π/(2 √R)`, `w̄ = Q t/(π R²)`, `w = 1.5 w̄`.
/// In `K' = 4 √(2/π) K` it is `R = 0.8546 (E' Q t/K')^(2/5)`.
///
/// Symbols as in [`radial_viscosity`]; `K` fracture toughness Pa.√m.
///
/// Range: none stated; no leak-off, viscosity without part.
///
/// Where it breaks: thick fluid and high rate make the viscous pressure larger than `p`: the
/// smaller of the two radii is nearer. Arguments not above zero are refused.
///
/// Source: savitski_detournay2002 (toughness); sneddon1946.
///
/// ```
/// use physics::fracture::radial::radial_toughness;
/// use quantity::{FlowRate, Pressure, Time, Toughness};
/// let k = Toughness::mpa_root_m(2.0);
/// let penny = radial_toughness(Pressure::gpa(20.0), k, FlowRate::m3_per_s(0.1), Time::hours(1.0))?;
/// assert!((penny.length.in_m() - 225.27).abs() < 0.01);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn radial_toughness(
    modulus: Pressure,
    toughness: Toughness,
    rate: FlowRate,
    time: Time,
) -> Result<Opening> {
    let name = "radial_toughness";
    require_positive(name, "modulus", modulus)?;
    require_positive(name, "toughness", toughness)?;
    require_positive(name, "rate", rate)?;
    require_positive(name, "time", time)?;
    let (e, k, volume) = (modulus.si(), toughness.si(), rate.si() * time.si());
    // V = 16 R³ p/(3 E') with p = K √π/(2 √R):  R^(5/2) = 3 E' V/(8 √π K)
    Ok(penny(e, (3.0 * e * volume / (8.0 * PI.sqrt() * k)).powf(0.4), volume))
}

/// A penny of radius `r` under the one pressure that holds `volume`.
fn penny(e: f64, r: f64, volume: f64) -> Opening {
    let mean = volume / (PI * r * r);
    Opening {
        length: Length::m(r),
        width: Diameter::m(1.5 * mean),
        mean_width: Diameter::m(mean),
        // V = 16 R³ p/(3 E')
        net_pressure: Pressure::pa(3.0 * PI * e * mean / (16.0 * r)),
    }
}

const RATE: Input = Input::new::<FlowRate>("rate", "the whole pumped rate");
const TIME: Input = Input::new::<Time>("time", "time since the fracture began");
const RADIUS: Output = Output::new::<Length>("radius", "radius of the fracture");

fn outputs(opening: &Opening) -> Outputs {
    opening.put(Outputs::new().put("radius", opening.length))
}

/// `radial_viscosity` in the register.
pub static RADIAL_VISCOSITY: Relation = Relation {
    name: "radial_viscosity",
    title: "Growth of a penny-shaped fracture held by viscosity, no leak-off (whole rate)",
    equation: "R = 0.6955 (Q³ E'/(12 µ))^(1/9) t^(4/9), w̄ = Q t/(π R²), p = 3 π E' w̄/(16 R)",
    source: "savitski_detournay2002; sneddon1946",
    range: "none stated by the source; no leak-off, no toughness",
    inputs: &[MODULUS, VISCOSITY, RATE, TIME],
    outputs: &[RADIUS, WIDTH, MEAN_WIDTH, NET_PRESSURE],
    evaluate: |a| {
        Ok(outputs(&radial_viscosity(
            a.get("modulus")?,
            a.get("viscosity")?,
            a.get("rate")?,
            a.get("time")?,
        )?))
    },
};

/// `radial_toughness` in the register.
pub static RADIAL_TOUGHNESS: Relation = Relation {
    name: "radial_toughness",
    title: "Growth of a penny-shaped fracture held by toughness, no leak-off (whole rate)",
    equation: "R = (3 E' Q t/(8 √π K))^(2/5), p = K √π/(2 √R)",
    source: "savitski_detournay2002; sneddon1946",
    range: "none stated by the source; no leak-off, no viscosity",
    inputs: &[MODULUS, Input::new::<Toughness>("toughness", "fracture toughness"), RATE, TIME],
    outputs: &[RADIUS, WIDTH, MEAN_WIDTH, NET_PRESSURE],
    evaluate: |a| {
        Ok(outputs(&radial_toughness(
            a.get("modulus")?,
            a.get("toughness")?,
            a.get("rate")?,
            a.get("time")?,
        )?))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_two_forms_of_the_toughness_radius_are_one() {
        let (e, k, q, t): (f64, f64, f64, f64) = (2e10, 1.5e6, 0.08, 1800.0);
        let o = radial_toughness(
            Pressure::pa(e),
            Toughness::pa_root_m(k),
            FlowRate::m3_per_s(q),
            Time::seconds(t),
        )
        .unwrap();
        let printed = 0.8546 * (e * q * t / (4.0 * (2.0 / PI).sqrt() * k)).powf(0.4);
        assert!((o.length.si() / printed - 1.0).abs() < 1e-4);
        // p = K √π/(2 √R)
        let p = k * PI.sqrt() / (2.0 * o.length.si().sqrt());
        assert!((o.net_pressure.si() / p - 1.0).abs() < 1e-12);
    }

    #[test]
    fn nothing_is_made_of_nothing() {
        let (e, q, t) = (Pressure::gpa(20.0), FlowRate::m3_per_s(0.1), Time::hours(1.0));
        assert!(radial_viscosity(e, Viscosity::ZERO, q, t).is_err());
        assert!(radial_toughness(e, Toughness::ZERO, q, t).is_err());
    }
}
