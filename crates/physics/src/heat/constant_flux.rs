//! Conduction round a cylinder whose wall takes or gives heat at a constant rate.

use super::bessel::scaled_k;
use super::laplace::invert;
use crate::error::{require, require_positive};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::Ratio;

/// Temperature round a cylinder with constant heat flux at its wall, dimensionless.
///
/// Equation: `T_D(r_D, s) = K0(r_D √s) / (s^1.5 K1(√s))` in the Laplace domain of t_D.
///
/// Symbols: `T_D = 2π k (T − T_e) / q'` with q' the heat flow per length W/m; `r_D = r / r_w`
/// (1 at the wall), `t_D = α t / r_w²`; all pure numbers.
///
/// Range: `t_D > 0`, `r_D >= 1`; uniform rock without end, conduction alone.
///
/// Where it breaks: far ahead of the front the value falls below the inversion's rounding
/// (about 1e-11) and is returned as zero; other arguments are refused.
///
/// Source: carslaw_jaeger1959 sec. 13.5; everdingen_hurst1949 (the same function, in flow).
///
/// ```
/// let t_d = physics::heat::constant_flux::cylinder_constant_flux(10.0, 1.0)?;
/// assert!((t_d - 1.651).abs() < 5e-4);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn cylinder_constant_flux(t_d: f64, r_d: f64) -> Result<f64> {
    require_positive(NAME, "t_d", Ratio::of(t_d))?;
    require(r_d >= 1.0, NAME, "r_d", Ratio::of(r_d), "1 or more", "It is 1 at the wall of the hole.")?;
    let transform = |s: num_complex::Complex64| {
        let root = s.sqrt();
        let ahead = (-(r_d - 1.0) * root).exp();
        // T_D = K0(r_D √s) / (s^1.5 K1(√s))
        scaled_k(r_d * root).k0 * ahead / (s * root * scaled_k(root).k1)
    };
    Ok(invert(transform, t_d).max(0.0))
}

/// Temperature at the wall after the constant flux has stopped, dimensionless.
///
/// Equation: `T_D,s = T_D(t_p + Δt) − T_D(Δt)`.
///
/// Symbols: t_p dimensionless time with flux, Δt dimensionless time since it stopped, T_D as in
/// [`cylinder_constant_flux`] at the wall; all pure numbers.
///
/// Range: `t_p > 0`, `Δt > 0`.
///
/// Where it breaks: the fluid left in the hole is taken as without heat capacity; a full pipe
/// warms more slowly at first. Arguments outside the range are refused.
///
/// Source: carslaw_jaeger1959 sec. 1.14 (superposition) with sec. 13.5.
///
/// ```
/// let left = physics::heat::constant_flux::cylinder_recovery(10.0, 10.0)?;
/// assert!((left - 0.30853).abs() < 1e-5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn cylinder_recovery(t_p: f64, dt: f64) -> Result<f64> {
    require_positive("cylinder_recovery", "t_p", Ratio::of(t_p))?;
    require_positive("cylinder_recovery", "dt", Ratio::of(dt))?;
    // T_D,s = T_D(t_p + Δt) − T_D(Δt)
    Ok(cylinder_constant_flux(t_p + dt, 1.0)? - cylinder_constant_flux(dt, 1.0)?)
}

const NAME: &str = "cylinder_constant_flux";

/// `cylinder_constant_flux` in the register.
pub static CYLINDER_CONSTANT_FLUX: Relation = Relation {
    name: NAME,
    title: "Temperature round a cylinder with constant heat flux at its wall, dimensionless",
    equation: "T_D(r_D, s) = K0(r_D √s) / (s^1.5 K1(√s));  T_D = 2π k (T − T_e) / q'",
    source: "carslaw_jaeger1959 sec. 13.5; everdingen_hurst1949",
    range: "t_D > 0, r_D >= 1; uniform rock, conduction alone",
    inputs: &[
        Input::new::<Ratio>("t_d", "dimensionless time, α t / r_w²"),
        Input::new::<Ratio>("r_d", "radius over hole radius").or("1"),
    ],
    outputs: &[Output::new::<Ratio>("temperature", "dimensionless temperature T_D")],
    evaluate: |a| {
        let value = cylinder_constant_flux(a.number("t_d")?, a.number("r_d")?)?;
        Ok(Outputs::new().put("temperature", Ratio::of(value)))
    },
};

/// `cylinder_recovery` in the register.
pub static CYLINDER_RECOVERY: Relation = Relation {
    name: "cylinder_recovery",
    title: "Wall temperature after a constant heat flux has stopped, dimensionless",
    equation: "T_D,s = T_D(t_p + Δt) − T_D(Δt)",
    source: "carslaw_jaeger1959 sec. 1.14, 13.5",
    range: "t_p > 0, Δt > 0",
    inputs: &[
        Input::new::<Ratio>("t_p", "dimensionless time with flux"),
        Input::new::<Ratio>("dt", "dimensionless time since it stopped"),
    ],
    outputs: &[Output::new::<Ratio>("temperature", "dimensionless temperature left")],
    evaluate: |a| {
        let value = cylinder_recovery(a.number("t_p")?, a.number("dt")?)?;
        Ok(Outputs::new().put("temperature", Ratio::of(value)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    #[test]
    fn early_limit_is_the_plane_wall() {
        // T_D → 2 √(t_D/π) while the layer is thin beside the radius.
        let got = cylinder_constant_flux(1e-6, 1.0).unwrap();
        assert!((got / (2.0 * (1e-6 / PI).sqrt()) - 1.0).abs() < 1e-3);
    }

    #[test]
    fn late_limit_is_the_line_source() {
        let got = cylinder_constant_flux(1e6, 1.0).unwrap();
        // T_D → ½ (ln t_D + 0.80907)
        assert!((got - 0.5 * (1e6_f64.ln() + 0.809_078_7)).abs() < 1e-5);
    }

    #[test]
    fn the_rock_cools_with_distance_and_warms_with_time() {
        let mut last = f64::INFINITY;
        for r in [1.0, 1.1, 1.5, 3.0, 10.0, 100.0] {
            let got = cylinder_constant_flux(5.0, r).unwrap();
            assert!(got < last || got == 0.0, "{r}");
            last = got;
        }
        assert!(cylinder_constant_flux(0.0, 1.0).is_err());
        assert!(cylinder_constant_flux(1.0, 0.9).is_err());
        assert!(cylinder_constant_flux(f64::NAN, 1.0).is_err());
    }
}
