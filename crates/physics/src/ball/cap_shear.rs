//! Punching shear of the part of a ball that stands in the seat bore.

use super::contact::{BALL, PRESSURE, SEAT, Seat, seat_contact};
use crate::error::Result;
use crate::registry::{Output, Outputs, Relation};
use quantity::{Diameter, Length, Pressure, Quantity};

/// Mean shear stress on the cylinder of the seat bore cut through the ball (pressure is the
/// difference across the ball).
///
/// ```text
/// tau = dp Ds / (4 h),   h = sqrt(Db^2 - Ds^2)
/// ```
///
/// - `Db` ball diameter, `Ds` seat bore, `h` length of the cylinder inside the ball, m
/// - `dp` pressure difference, `tau` mean shear stress, Pa
///
/// Range: none stated by the source.
///
/// Where it breaks: it is a mean; the peak near the edge is higher. A ball no larger than the bore
/// passes, and is refused.
///
/// Source: derived_ball_statics, punched cylinder.
///
/// ```
/// use physics::ball::cap_shear::cap_shear;
/// use quantity::*;
/// let (tau, _) = cap_shear(Diameter::inch(2.0), Diameter::inch(1.875), Pressure::psi(10e3))?;
/// assert!((tau.in_psi() - 6_735.0).abs() < 0.5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn cap_shear(ball: Diameter, bore: Diameter, pressure: Pressure) -> Result<(Pressure, Length)> {
    seat_contact(ball, Seat::square(bore), pressure)?;
    // h = sqrt(Db^2 - Ds^2)
    let h = libm::sqrt(ball.si() * ball.si() - bore.si() * bore.si());
    // tau = dp Ds / (4 h)
    Ok((pressure * (bore.si() / (4.0 * h)), Length::from_si(h)))
}

/// Register entry of [`cap_shear`].
pub static CAP_SHEAR: Relation = Relation {
    name: "cap_shear",
    title: "Mean punching shear of a ball's cap in the seat bore (difference across the ball)",
    equation: "tau = dp Ds / (4 h), h = sqrt(Db^2 - Ds^2)",
    source: "derived_ball_statics, punched cylinder",
    range: "none stated by the source; a mean over the cylinder",
    inputs: &[BALL, SEAT, PRESSURE],
    outputs: &[
        Output::new::<Pressure>("shear", "mean shear stress"),
        Output::new::<Length>("height", "length of the sheared cylinder"),
    ],
    evaluate: |a| {
        let (tau, h) = cap_shear(a.get("ball")?, a.get("seat")?, a.get("pressure")?)?;
        Ok(Outputs::new().put("shear", tau).put("height", h))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    /// The shear on the cylinder carries the pressure on the bore.
    #[test]
    fn shear_carries_the_pressure() {
        let (ball, bore) = (Diameter::inch(3.5), Diameter::inch(3.25));
        let (tau, h) = cap_shear(ball, bore, Pressure::psi(7e3)).unwrap();
        let wall = std::f64::consts::PI * bore.si() * h.si();
        let force = (Pressure::psi(7e3) * bore.circle()).si();
        assert!((tau.si() * wall / force - 1.0).abs() < 1e-13);
    }
}
