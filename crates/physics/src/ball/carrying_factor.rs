//! How fast the flow carries a ball of no weight, against the mean flow.

use super::contact::BALL;
use super::wall_factor::{BORE, blocked_share};
use crate::error::{Result, require};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Diameter, Quantity, Ratio};
use std::f64::consts::PI;

const NAME: &str = "carrying_factor";

/// Where the ball is in the pipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Position {
    /// On the axis, as in a vertical pipe.
    Centred,
    /// Touching the wall, as on the low side (or, for a ball that floats, the high side).
    Wall,
}

/// Mean of the power-law velocity profile over the ball's disc, over the mean velocity.
///
/// ```text
/// kappa = (1/A_b) integral over the disc of u/U dA,   u/U = (n+1)(2n+1)/(2 n^2) (1 - r/R)^(1/n)
/// ```
///
/// - `u` velocity at radius `r`, `U` mean velocity, m/s; `R` radius of the pipe, m
/// - `n` exponent of the profile, 7 for turbulent flow; `A_b` disc of the ball, m2
///
/// Range: `n` 5 to 10, turbulent flow. Ball over pipe below 1.
///
/// Where it breaks: the ball changes the flow round it, so this is a model, not a measurement. It falls
/// inside the measured band of spheres in a horizontal pipe (1.04 to 1.08 of the mean flow above
/// half the bore, ellis_1964) and of balls of the liquid's own density (1.05 and more). A ball off
/// the axis in a vertical pipe is carried less than a centred one, down to 1.05: take 4 % of the
/// vertical volume as uncertain.
///
/// Source: derived_carrying, disc mean of the profile; nikuradse_1932 profile.
///
/// ```
/// use physics::ball::carrying_factor::{Position, carrying_factor};
/// use quantity::Diameter;
/// let low = carrying_factor(Diameter::inch(2.0), Diameter::inch(4.0), Position::Wall, 7.0)?;
/// assert!((low - 1.060).abs() < 5e-4);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn carrying_factor(ball: Diameter, bore: Diameter, position: Position, exponent: f64) -> Result<f64> {
    let l = blocked_share(NAME, ball, bore)?;
    require(
        exponent.is_finite() && exponent >= 1.0,
        NAME,
        "exponent",
        Ratio::of(exponent),
        "1 or more",
        "A turbulent profile has an exponent of 5 to 10; 7 is usual.",
    )?;
    let m = 1.0 / exponent;
    // u/U = (n+1)(2n+1)/(2 n^2) (1 - r/R)^(1/n), r in pipe radii
    let peak = (1.0 + m) * (2.0 + m) / 2.0;
    let mean = match position {
        Position::Centred => round_the_axis(l, m) / (l * l),
        Position::Wall => {
            let inner = (2.0 * l - 1.0).max(0.0);
            (round_the_axis(inner, m) + arcs(l, m)) / (l * l)
        }
    };
    Ok(peak * mean)
}

/// `2 integral from 0 to a of r (1-r)^m dr`: a disc round the axis.
fn round_the_axis(a: f64, m: f64) -> f64 {
    let part = |p: f64| -libm::expm1(p * libm::log1p(-a)) / p;
    2.0 * (part(m + 1.0) - part(m + 2.0))
}

/// `(2/pi) integral of r (1-r)^m theta(r) dr`: the arcs, of half-angle `theta`, that a disc touching
/// the wall cuts out of circles round the axis and that are not full circles.
fn arcs(l: f64, m: f64) -> f64 {
    const POINTS: u32 = 192;
    let centre = 1.0 - l;
    let (low, high) = ((centre - l).abs(), 1.0);
    let half = 0.5 * (high - low);
    let mut sum = 0.0;
    for i in 0..POINTS {
        // r = low + half (1 - cos phi) takes the infinite slopes out of both ends
        let phi = (f64::from(i) + 0.5) * PI / f64::from(POINTS);
        let gap = half * (1.0 + libm::cos(phi));
        let r = high - gap;
        let cosine = (r * r + centre * centre - l * l) / (2.0 * r * centre);
        let theta = libm::acos(cosine.clamp(-1.0, 1.0));
        sum += r * libm::pow(gap, m) * theta * half * libm::sin(phi);
    }
    2.0 / PI * sum * PI / f64::from(POINTS)
}

/// The profile exponent of a call.
pub(crate) const EXPONENT: Input =
    Input::new::<Ratio>("exponent", "exponent n of the velocity profile (1 - r/R)^(1/n)")
        .or("7")
        .within(5.0, 10.0);

/// Register entry of [`carrying_factor`].
pub static CARRYING_FACTOR: Relation = Relation {
    name: NAME,
    title: "Velocity at which the flow carries a weightless ball, over the mean velocity",
    equation: "kappa = mean over the ball's disc of (n+1)(2n+1)/(2 n^2) (1 - r/R)^(1/n)",
    source: "derived_carrying, disc mean of the profile of nikuradse_1932",
    range: "turbulent flow, n 5 to 10, ball < bore; a model, see ellis_1964 for the measured band",
    inputs: &[
        BALL,
        BORE,
        Input::choice("position", &["centred", "wall"], "on the axis, or touching the wall on the low side"),
        EXPONENT,
    ],
    outputs: &[Output::new::<Ratio>("carrying_factor", "velocity of the ball over the mean velocity")],
    evaluate: |a| {
        let position = match a.word("position")? {
            "wall" => Position::Wall,
            _ => Position::Centred,
        };
        let k = carrying_factor(a.get("ball")?, a.get("bore")?, position, a.number("exponent")?)?;
        Ok(Outputs::new().put("carrying_factor", Ratio::from_si(k)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    fn at(l: f64, position: Position, n: f64) -> f64 {
        carrying_factor(Diameter::m(l), Diameter::m(1.0), position, n).unwrap()
    }

    #[test]
    fn a_ball_that_fills_the_pipe_goes_with_the_mean_flow() {
        for n in [5.0, 7.0, 10.0] {
            assert!((at(1.0 - 1e-9, Position::Centred, n) - 1.0).abs() < 1e-7);
            assert!((at(1.0 - 1e-9, Position::Wall, n) - 1.0).abs() < 1e-4);
        }
    }

    #[test]
    fn a_speck_goes_with_the_velocity_where_it_is() {
        // 120/98 on the axis of a 1/7-power profile
        assert!((at(1e-6, Position::Centred, 7.0) - 120.0 / 98.0).abs() < 1e-6);
        assert!(at(1e-3, Position::Wall, 7.0) < 0.5);
        // a flat profile carries everything alike
        assert!((at(0.4, Position::Wall, 1e9) - 1.0).abs() < 1e-4);
        assert!((at(0.4, Position::Centred, 1e9) - 1.0).abs() < 1e-8);
    }

    #[test]
    fn nonsense_is_refused() {
        assert!(carrying_factor(Diameter::m(0.5), Diameter::m(1.0), Position::Wall, 0.0).is_err());
        assert!(carrying_factor(Diameter::m(0.5), Diameter::m(1.0), Position::Wall, f64::NAN).is_err());
        assert!(carrying_factor(Diameter::m(1.5), Diameter::m(1.0), Position::Wall, 7.0).is_err());
    }
}
