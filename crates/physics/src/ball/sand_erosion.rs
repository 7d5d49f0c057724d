//! Wear of a narrowing bore by sand, after a recommended practice for dilute sand, and the velocity
//! limit of an older one. Both are bounds for production, not predictions for treating slurry.

use super::contact::SEAT;
use super::wall_factor::BORE;
use crate::error::{Result, require, require_not_negative, require_positive};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Angle, Density, Diameter, FlowRate, Mass, Quantity, Ratio, Velocity};
use std::f64::consts::{FRAC_PI_2, PI};

const NAME: &str = "reducer_erosion";

/// Steel: factor K, (m/s)^-n (dnv_rp_o501).
const STEEL_FACTOR: f64 = 2.0e-9;
/// Steel: velocity exponent n (dnv_rp_o501).
const STEEL_EXPONENT: f64 = 2.6;
/// Steel: density, kg/m3 (dnv_rp_o501).
const STEEL_DENSITY: f64 = 7800.0;

/// Dependence of erosion on the angle of impact, for ductile metal.
///
/// ```text
/// F(a) = 0.6 [sin a + 7.2 (sin a - sin^2 a)]^0.6 [1 - exp(-20 a)]
/// ```
///
/// - `a` angle between the surface and the particle's path, rad
///
/// Range: 0 to 90 deg.
///
/// Where it breaks: brittle materials wear most at 90 deg, ductile ones near 35 deg.
///
/// Source: dnv_rp_o501, ductile function.
///
/// ```
/// use physics::ball::sand_erosion::impact_angle_function;
/// use quantity::Angle;
/// assert!((impact_angle_function(Angle::deg(90.0))? - 0.6).abs() < 1e-9);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn impact_angle_function(angle: Angle) -> Result<f64> {
    require(
        angle.si() >= 0.0 && angle.si() <= FRAC_PI_2,
        "impact_angle_function",
        "angle",
        angle,
        "from 0 to 90 deg",
        "Give the angle between the surface and the particle's path.",
    )?;
    let s = libm::sin(angle.si());
    // F(a) = 0.6 [sin a + 7.2 (sin a - sin^2 a)]^0.6 [1 - exp(-20 a)]
    Ok(0.6 * libm::pow(s + 7.2 * (s - s * s), 0.6) * -libm::expm1(-20.0 * angle.si()))
}

/// A bore that narrows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reducer {
    /// Bore before it.
    pub bore: Diameter,
    /// Narrow bore.
    pub seat: Diameter,
    /// Half-angle of the cone from the axis.
    pub half_angle: Angle,
}

/// Sand in a liquid or gas.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SandFlow {
    /// Rate of the mixture.
    pub rate: FlowRate,
    /// Density of the mixture.
    pub density: Density,
    /// Diameter of the grains.
    pub grain: Diameter,
    /// Mass of sand that passes.
    pub mass: Mass,
}

/// Wear of a narrowing steel bore by sand, per side.
///
/// ```text
/// E = K F(a) U2^n 4 sin(a) / (rho_t pi D1^2) G M,   G = min[1, 1e6 d_p / (30 sqrt(rho_m))]
/// ```
///
/// - `E` wear, m; `M` mass of sand, kg; `U2` velocity in the narrow bore, m/s; `a` half-angle, rad
/// - `D1` bore before it, m; `rho_t` 7800 kg/m3, `K` 2.0e-9 (m/s)^-n, `n` 2.6 for steel
/// - `d_p` grain, m; `rho_m` density of the mixture, kg/m3; `G` size factor
///
/// Range: velocity to 200 m/s, mixture 1 to 1500 kg/m3, sand below 500 parts per million of volume.
///
/// Where it breaks: treating slurry carries 40 to 300 times that much sand, so there it is an upper
/// bound and no prediction. The practice divides by the cone's area and multiplies by its share of the
/// bore; the two cancel to the form above, which stays finite as the bores become equal.
///
/// Source: dnv_rp_o501, reducer.
///
/// ```
/// use physics::ball::sand_erosion::*;
/// use quantity::*;
/// let reducer = Reducer { bore: Diameter::m(0.1005332), seat: Diameter::m(0.0635), half_angle: Angle::deg(30.0) };
/// let flow = SandFlow {
///     rate: Velocity::m_per_s(5.0) * reducer.bore.circle(), density: Density::kg_per_m3(200.0),
///     grain: Diameter::mm(0.25), mass: Mass::t(1.0),
/// };
/// assert!((reducer_erosion(reducer, flow)?.0.in_mm() - 0.0067388).abs() < 1e-6);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn reducer_erosion(reducer: Reducer, flow: SandFlow) -> Result<(Diameter, Velocity)> {
    require_positive(NAME, "seat", reducer.seat)?;
    require(
        reducer.bore >= reducer.seat,
        NAME,
        "bore",
        reducer.bore,
        format!("no smaller than the seat, {}", reducer.seat),
        "Give the bore before the seat.",
    )?;
    require_not_negative(NAME, "rate", flow.rate)?;
    require_positive(NAME, "density", flow.density)?;
    require_positive(NAME, "grain", flow.grain)?;
    require_not_negative(NAME, "mass", flow.mass)?;
    let velocity = flow.rate / reducer.seat.circle();
    let d1 = reducer.bore.si();
    // G = min[1, 1e6 d_p / (30 sqrt(rho_m))]
    let size = (1e6 * flow.grain.si() / (30.0 * libm::sqrt(flow.density.si()))).min(1.0);
    // E = K F(a) U2^n 4 sin(a) / (rho_t pi D1^2) G M
    let hit = STEEL_FACTOR * impact_angle_function(reducer.half_angle)?;
    let area = STEEL_DENSITY * PI * d1 * d1 / (4.0 * libm::sin(reducer.half_angle.si()));
    let wear = hit * libm::pow(velocity.si(), STEEL_EXPONENT) / area * size * flow.mass.si();
    Ok((Diameter::from_si(wear), velocity))
}

/// Velocity limit of pipes in production.
///
/// ```text
/// V_e = C / sqrt(rho_m)
/// ```
///
/// - `V_e` limit, ft/s; `rho_m` density of the mixture, lb/ft3; `C` 100 continuous, 125 intermittent
///
/// Range: no solids; with solids the practice asks for less and gives no figure.
///
/// Where it breaks: it knows no sand, no geometry and no material.
///
/// Source: api_rp_14e, velocity limit; madani_sani_2019 review.
///
/// ```
/// use physics::ball::sand_erosion::erosional_velocity;
/// use quantity::Density;
/// let v = erosional_velocity(Density::lb_per_ft3(12.0), 100.0)?;
/// assert!((v.in_ft_per_s() - 28.9).abs() < 0.05);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn erosional_velocity(density: Density, c: f64) -> Result<Velocity> {
    require_positive("erosional_velocity", "density", density)?;
    require_positive("erosional_velocity", "c", Ratio::of(c))?;
    // V_e = C / sqrt(rho_m), ft/s and lb/ft3
    Ok(Velocity::ft_per_s(c / libm::sqrt(density.in_lb_per_ft3())))
}

/// Register entry of [`impact_angle_function`].
pub static IMPACT_ANGLE_FUNCTION: Relation = Relation {
    name: "impact_angle_function",
    title: "Erosion of ductile metal against the angle of impact",
    equation: "F(a) = 0.6 [sin a + 7.2 (sin a - sin^2 a)]^0.6 [1 - exp(-20 a)]",
    source: "dnv_rp_o501, ductile function",
    range: "0 to 90 deg",
    inputs: &[Input::new::<Angle>("angle", "angle between surface and particle's path")],
    outputs: &[Output::new::<Ratio>("function", "erosion over that of the material's factor")],
    evaluate: |a| Ok(Outputs::new().put("function", Ratio::from_si(impact_angle_function(a.get("angle")?)?))),
};

/// Register entry of [`reducer_erosion`].
pub static REDUCER_EROSION: Relation = Relation {
    name: NAME,
    title: "Wear per side of a narrowing steel bore by dilute sand: an upper bound in treating slurry",
    equation: "E = K F(a) U2^n 4 sin(a)/(rho_t pi D1^2) G M, G = min[1, 1e6 d_p/(30 sqrt(rho_m))]",
    source: "dnv_rp_o501, reducer",
    range: "velocity to 200 m/s, mixture 1 to 1500 kg/m3, sand below 500 ppm by volume",
    inputs: &[
        BORE,
        SEAT,
        Input::new::<Angle>("half_angle", "half-angle of the cone from the axis").or("30 deg"),
        Input::new::<FlowRate>("rate", "rate of the mixture"),
        Input::new::<Density>("density", "density of the mixture").within(1.0, 1500.0),
        Input::new::<Diameter>("grain", "diameter of the grains"),
        Input::new::<Mass>("mass", "mass of sand that passes"),
    ],
    outputs: &[
        Output::new::<Diameter>("wear", "wear per side"),
        Output::new::<Velocity>("velocity", "velocity in the narrow bore"),
    ],
    evaluate: |a| {
        let reducer =
            Reducer { bore: a.get("bore")?, seat: a.get("seat")?, half_angle: a.get("half_angle")? };
        let flow = SandFlow {
            rate: a.get("rate")?,
            density: a.get("density")?,
            grain: a.get("grain")?,
            mass: a.get("mass")?,
        };
        let (wear, velocity) = reducer_erosion(reducer, flow)?;
        Ok(Outputs::new().put("wear", wear).put("velocity", velocity))
    },
};

/// Register entry of [`erosional_velocity`].
pub static EROSIONAL_VELOCITY: Relation = Relation {
    name: "erosional_velocity",
    title: "Velocity limit of pipes in production, no solids",
    equation: "V_e = C / sqrt(rho_m), ft/s and lb/ft3",
    source: "api_rp_14e, velocity limit; madani_sani_2019 review",
    range: "no solids; C 100 continuous, 125 intermittent",
    inputs: &[
        Input::new::<Density>("density", "density of the mixture"),
        Input::new::<Ratio>("c", "constant C").or("100").within(100.0, 250.0),
    ],
    outputs: &[Output::new::<Velocity>("velocity", "velocity limit")],
    evaluate: |a| Ok(Outputs::new().put("velocity", erosional_velocity(a.get("density")?, a.number("c")?)?)),
};

#[cfg(test)]
mod tests {
    use super::*;

    fn wear(seat: f64, tonnes: f64, rate: f64) -> f64 {
        let reducer =
            Reducer { bore: Diameter::inch(4.0), seat: Diameter::inch(seat), half_angle: Angle::deg(30.0) };
        let flow = SandFlow {
            rate: FlowRate::m3_per_min(rate),
            density: Density::kg_per_m3(1100.0),
            grain: Diameter::mm(0.6),
            mass: Mass::t(tonnes),
        };
        reducer_erosion(reducer, flow).unwrap().0.si()
    }

    #[test]
    fn linear_in_sand_and_a_power_of_velocity() {
        assert!((wear(2.0, 2.0, 5.0) / wear(2.0, 1.0, 5.0) - 2.0).abs() < 1e-12);
        assert!((wear(2.0, 1.0, 10.0) / wear(2.0, 1.0, 5.0) / 2f64.powf(2.6) - 1.0).abs() < 1e-12);
        assert!(wear(4.0, 1.0, 5.0) > 0.0);
        assert_eq!(wear(2.0, 0.0, 5.0), 0.0);
    }

    #[test]
    fn the_angle_function_peaks_between() {
        let f = |d: f64| impact_angle_function(Angle::deg(d)).unwrap();
        assert_eq!(f(0.0), 0.0);
        assert!(f(34.71) > f(34.0) && f(34.71) > f(35.5));
        assert!(impact_angle_function(Angle::deg(91.0)).is_err());
    }

    #[test]
    fn a_cone_of_no_angle_wears_nothing() {
        let reducer =
            Reducer { bore: Diameter::inch(4.0), seat: Diameter::inch(2.0), half_angle: Angle::ZERO };
        let flow = SandFlow {
            rate: FlowRate::m3_per_min(5.0),
            density: Density::kg_per_m3(1100.0),
            grain: Diameter::mm(0.6),
            mass: Mass::t(1.0),
        };
        assert_eq!(reducer_erosion(reducer, flow).unwrap().0, Diameter::ZERO);
    }
}
