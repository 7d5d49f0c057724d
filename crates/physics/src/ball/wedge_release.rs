//! Whether a ball wedged in its seat comes off by itself, and the pressure from below it needs.

use super::count::flag;
use crate::error::{Result, require, require_not_negative};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Angle, Pressure, Quantity, Ratio};

const NAME: &str = "wedge_release";

/// Force to pull a rigid ball out of a cone over the force that seated it (pressures are
/// differences across the ball).
///
/// ```text
/// R = (mu cos(beta) - sin(beta)) / (mu cos(beta) + sin(beta))
/// dp_back = max(R, 0) dp_set
/// ```
///
/// - `beta` contact angle from the axis (the cone's half-angle on the cone), rad
/// - `mu` coefficient of friction; `R` ratio of the forces
/// - `dp_set` greatest pressure difference while seated, `dp_back` from below to come off, Pa
///
/// Range: none stated by the source. `R <= 0`, that is `tan(beta) >= mu`: the ball comes off by itself.
///
/// Where it breaks: a ball that was squeezed into the bore holds more than this. The buoyed weight of
/// a ball is a few newtons and is left out. The pressure from below is only there while something
/// below flows.
///
/// Source: derived_ball_statics, wedge with friction reversed.
///
/// ```
/// use physics::ball::wedge_release::wedge_release;
/// use quantity::*;
/// let (r, back) = wedge_release(Angle::deg(15.0), 0.3, Pressure::psi(5000.0))?;
/// assert!((r - 0.0564).abs() < 5e-5 && (back.in_psi() - 282.0).abs() < 0.5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn wedge_release(half_angle: Angle, friction: f64, seating: Pressure) -> Result<(f64, Pressure)> {
    require(
        half_angle.si() > 0.0 && half_angle.si() <= std::f64::consts::FRAC_PI_2,
        NAME,
        "half_angle",
        half_angle,
        "above 0 and at most 90 deg",
        "Give the contact angle from the seat's axis.",
    )?;
    require_not_negative(NAME, "friction", Ratio::of(friction))?;
    require_not_negative(NAME, "seating", seating)?;
    let (grip, push) = (friction * libm::cos(half_angle.si()), libm::sin(half_angle.si()));
    // R = (mu cos(beta) - sin(beta)) / (mu cos(beta) + sin(beta))
    let ratio = (grip - push) / (grip + push);
    Ok((ratio, seating * ratio.max(0.0)))
}

/// Register entry of [`wedge_release`].
pub static WEDGE_RELEASE: Relation = Relation {
    name: NAME,
    title: "Release of a ball wedged in a conical seat (differences across the ball)",
    equation: "R = (mu cos(beta) - sin(beta)) / (mu cos(beta) + sin(beta)); dp_back = max(R, 0) dp_set",
    source: "derived_ball_statics, wedge with friction reversed",
    range: "none stated by the source; rigid ball, not extruded",
    inputs: &[
        Input::new::<Angle>("half_angle", "contact angle from the seat's axis"),
        Input::new::<Ratio>("friction", "coefficient of friction between ball and seat"),
        Input::new::<Pressure>("seating", "greatest pressure difference while seated").or("0 psi"),
    ],
    outputs: &[
        Output::new::<Ratio>(
            "release_ratio",
            "force to come off over seating force; 0 or less comes off by itself",
        ),
        Output::new::<Pressure>("back_pressure", "difference from below that lifts the ball"),
        Output::new::<Ratio>("self_releasing", "1 when the ball comes off by itself"),
    ],
    evaluate: |a| {
        let (ratio, back) = wedge_release(a.get("half_angle")?, a.number("friction")?, a.get("seating")?)?;
        Ok(Outputs::new()
            .put("release_ratio", Ratio::from_si(ratio))
            .put("back_pressure", back)
            .put("self_releasing", flag(ratio <= 0.0)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits() {
        let r = |beta: f64, mu: f64| wedge_release(Angle::deg(beta), mu, Pressure::ZERO).unwrap().0;
        assert_eq!(r(20.0, 0.0), -1.0);
        assert!((r(30.0, Angle::deg(30.0).si().tan())).abs() < 1e-15);
        assert!(r(1e-9, 0.3) > 1.0 - 1e-8);
        assert!(r(10.0, 0.3) > r(15.0, 0.3) && r(15.0, 0.5) > r(15.0, 0.3));
    }
}
