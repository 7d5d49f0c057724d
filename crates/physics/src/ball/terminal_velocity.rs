//! Velocity at which a ball sinks or rises through a still liquid.

use super::contact::BALL;
use super::count::flag;
use super::drag::{DRAG_LAW, DragLaw, MOST_REYNOLDS, NEWTON_DRAG};
use crate::error::{Error, Result, require, require_positive};
use crate::registry::{Arguments, Input, Output, Outputs, Relation};
use crate::solve::brent;
use quantity::constant::GRAVITY;
use quantity::{Acceleration, Density, Diameter, Quantity, Ratio, Velocity, Viscosity};

const NAME: &str = "terminal_velocity";

/// A ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ball {
    /// Diameter.
    pub diameter: Diameter,
    /// Density.
    pub density: Density,
}

/// The liquid round it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Liquid {
    /// Density, of the slurry where there is proppant.
    pub density: Density,
    /// Dynamic viscosity; the apparent one of a gel at the ball's shear rate.
    pub viscosity: Viscosity,
}

impl Ball {
    /// Excess of density over the liquid, `s - 1`; negative for a ball that floats.
    pub fn excess(&self, liquid: Liquid) -> f64 {
        self.density / liquid.density - 1.0
    }
}

/// Whether a drag correlation covered the motion.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Coverage {
    /// The correlation holds.
    Correlation,
    /// The Reynolds number lies above its range; the constant coefficient was taken.
    Constant,
}

/// Steady motion through still liquid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settling {
    /// Velocity along the driving acceleration, with its sign.
    pub velocity: Velocity,
    /// Reynolds number on the ball.
    pub reynolds: f64,
    /// Drag coefficient.
    pub drag: f64,
    /// Whether the correlation covered it.
    pub coverage: Coverage,
}

/// Steady velocity of a ball through still, boundless liquid under an acceleration: gravity less
/// buoyancy, or its part along the hole.
///
/// ```text
/// v^2 = 4 |a| d / (3 CD(Re)),  Re = rho v d / mu,  a = (s - 1) g for free fall, s = rho_b / rho
/// ```
///
/// - `v` velocity, m/s, with the sign of `a`; `a` driving acceleration, m/s2; `d` diameter, m
/// - `rho_b`, `rho` density of ball and liquid, kg/m3; `mu` viscosity, Pa s; `CD` drag coefficient
///
/// Range: `Re <= 2e5`.
///
/// Where it breaks: above the range `CD` = 0.44 is taken and the result is flagged; through the drag
/// crisis a smooth ball may go twice as fast. Walls slow a ball ([`super::wall_factor`]); gels need
/// an apparent viscosity.
///
/// Source: clift_grace_weber_1978, balance of drag and buoyed weight; drag by [`super::drag`].
///
/// ```
/// use physics::ball::terminal_velocity::*;
/// use quantity::*;
/// let ball = Ball { diameter: Diameter::inch(2.5), density: Density::kg_per_m3(1850.0) };
/// let water = Liquid { density: Density::kg_per_m3(1000.0), viscosity: Viscosity::cp(1.0) };
/// let v = settling(ball, water, free_fall(ball, water), Default::default())?;
/// assert!((v.velocity.in_m_per_s() - 1.233).abs() < 0.005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn settling(ball: Ball, liquid: Liquid, drive: Acceleration, law: DragLaw) -> Result<Settling> {
    require_positive(NAME, "ball", ball.diameter)?;
    require_positive(NAME, "ball_density", ball.density)?;
    require_positive(NAME, "fluid_density", liquid.density)?;
    require_positive(NAME, "viscosity", liquid.viscosity)?;
    require(drive.is_finite(), NAME, "drive", drive, "finite", "Check the densities.")?;
    let (d, a) = (ball.diameter.si(), drive.si());
    if a == 0.0 {
        let still = (Velocity::ZERO, 0.0, 0.0, Coverage::Correlation);
        return Ok(Settling { velocity: still.0, reynolds: still.1, drag: still.2, coverage: still.3 });
    }
    let per_velocity = liquid.density.si() * d / liquid.viscosity.si();
    // CD Re^2 = 4 |a| d / 3 (rho d / mu)^2, which rises with Re
    let load = 4.0 * a.abs() * d / 3.0 * per_velocity * per_velocity;
    let (reynolds, drag, coverage) = balance(load, law)?;
    let velocity = Velocity::from_si((reynolds / per_velocity).copysign(a));
    Ok(Settling { velocity, reynolds, drag, coverage })
}

/// Solves `CD(Re) Re^2 = load`.
fn balance(load: f64, law: DragLaw) -> Result<(f64, f64, Coverage)> {
    let excess = |ln_re: f64| {
        let re = libm::exp(ln_re);
        libm::log(law.correlation(re) / load) + 2.0 * ln_re
    };
    let most = libm::log(MOST_REYNOLDS);
    if excess(most) < 0.0 {
        // Newton: CD = 0.44, Re = sqrt(load / CD)
        return Ok((libm::sqrt(load / NEWTON_DRAG), NEWTON_DRAG, Coverage::Constant));
    }
    // Stokes, Re = load / 24, is never exceeded
    let stokes = libm::log(load / 24.0);
    let low = stokes.min(most) - 15.0;
    let root = brent(excess, low, stokes.min(most), 1e-13).ok_or_else(|| Error::NoSolution {
        relation: NAME,
        what: "the balance of drag and buoyed weight has no root".into(),
        hint: "Check diameter, densities and viscosity.",
    })?;
    let re = libm::exp(root);
    Ok((re, law.correlation(re), Coverage::Correlation))
}

/// Acceleration of free fall through a liquid, `(s - 1) g`, downward.
pub fn free_fall(ball: Ball, liquid: Liquid) -> Acceleration {
    Acceleration::from_si(ball.excess(liquid) * GRAVITY)
}

/// Density of the ball of a call.
pub(crate) const BALL_DENSITY: Input = Input::new::<Density>("ball_density", "density of the ball");
/// Density of the liquid of a call.
pub(crate) const FLUID_DENSITY: Input =
    Input::new::<Density>("fluid_density", "density of the liquid or slurry").or("1000 kg/m3");
/// Viscosity of the liquid of a call.
pub(crate) const VISCOSITY: Input =
    Input::new::<Viscosity>("viscosity", "dynamic (apparent) viscosity of the liquid").or("1 cP");

/// The ball of a call.
pub(crate) fn ball(a: &Arguments) -> Result<Ball> {
    Ok(Ball { diameter: a.get("ball")?, density: a.get("ball_density")? })
}

/// The liquid of a call.
pub(crate) fn liquid(a: &Arguments) -> Result<Liquid> {
    let density: Density = a.get("fluid_density")?;
    require_positive(NAME, "fluid_density", density)?;
    Ok(Liquid { density, viscosity: a.get("viscosity")? })
}

/// Register entry of [`settling`] in free fall.
pub static TERMINAL_VELOCITY: Relation = Relation {
    name: NAME,
    title: "Terminal velocity of a ball in still, boundless liquid; positive sinks",
    equation: "v^2 = 4 |s - 1| g d / (3 CD(Re)), Re = rho v d / mu",
    source: "clift_grace_weber_1978, balance of drag and buoyed weight",
    range: "Re <= 2e5; CD = 0.44 above, flagged by in_range = 0",
    inputs: &[BALL, BALL_DENSITY, FLUID_DENSITY, VISCOSITY, DRAG_LAW],
    outputs: &[
        Output::new::<Velocity>("velocity", "terminal velocity; positive sinks, negative rises"),
        Output::new::<Ratio>("reynolds", "Reynolds number on the ball"),
        Output::new::<Ratio>("drag_coefficient", "drag coefficient"),
        Output::new::<Ratio>("in_range", "1 when the drag correlation covers it, 0 when CD = 0.44 was taken"),
    ],
    evaluate: |a| {
        let (ball, liquid) = (ball(a)?, liquid(a)?);
        let s = settling(ball, liquid, free_fall(ball, liquid), DragLaw::of(a.word("drag_law")?))?;
        Ok(Outputs::new()
            .put("velocity", s.velocity)
            .put("reynolds", Ratio::from_si(s.reynolds))
            .put("drag_coefficient", Ratio::from_si(s.drag))
            .put("in_range", flag(s.coverage == Coverage::Correlation)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn water(viscosity: f64) -> Liquid {
        Liquid { density: Density::kg_per_m3(1000.0), viscosity: Viscosity::pa_s(viscosity) }
    }

    fn fall(d: f64, rho: f64, liquid: Liquid) -> Settling {
        let ball = Ball { diameter: Diameter::m(d), density: Density::kg_per_m3(rho) };
        settling(ball, liquid, free_fall(ball, liquid), DragLaw::default()).unwrap()
    }

    proptest! {
        /// Drag equals buoyed weight at the velocity found.
        #[test]
        fn forces_balance(d in 1e-4..0.1f64, rho in 100.0..8000.0f64, mu in 1e-4..1.0f64) {
            prop_assume!((rho - 1000.0).abs() > 1.0);
            let s = fall(d, rho, water(mu));
            let drag = s.drag * 0.5 * 1000.0 * s.velocity.si().powi(2) * d * d / 4.0;
            let weight = (rho - 1000.0).abs() * GRAVITY * d * d * d / 6.0;
            prop_assert!((drag / weight - 1.0).abs() < 1e-9);
            prop_assert_eq!(s.velocity.si() > 0.0, rho > 1000.0);
        }
    }

    #[test]
    fn limits() {
        // Stokes: v = (rho_b - rho) g d^2 / (18 mu)
        let s = fall(1e-4, 2600.0, water(1.0));
        assert!((s.velocity.si() / (1600.0 * GRAVITY * 1e-8 / 18.0) - 1.0).abs() < 1e-3);
        assert_eq!(fall(0.05, 1000.0, water(1e-3)).velocity, Velocity::ZERO);
        // a ball in gas leaves the range
        let gas = Liquid { density: Density::kg_per_m3(16.98), viscosity: Viscosity::cp(0.014) };
        assert_eq!(fall(0.0635, 1850.0, gas).coverage, Coverage::Constant);
    }

    #[test]
    fn nonsense_is_refused() {
        let ball = Ball { diameter: Diameter::m(0.05), density: Density::kg_per_m3(f64::NAN) };
        let liquid = water(1e-3);
        assert!(settling(ball, liquid, free_fall(ball, liquid), DragLaw::default()).is_err());
        let ball = Ball { diameter: Diameter::m(-0.05), density: Density::kg_per_m3(2e3) };
        assert!(settling(ball, liquid, free_fall(ball, liquid), DragLaw::default()).is_err());
    }
}
