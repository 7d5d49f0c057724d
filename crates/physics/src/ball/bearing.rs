//! Bearing stress on the shelf between ball and seat, and the pressure it allows.

use super::contact::{BALL, HALF_ANGLE, PRESSURE, SEAT, Seat, seat, seat_contact};
use crate::error::{Result, require_not_negative};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Diameter, Pressure, Quantity, Ratio};

/// Share of the pressure that the shelf sees as bearing stress, `Dc^2 / (Db^2 - Ds^2)`.
fn magnification(ball: Diameter, seat: Seat) -> Result<f64> {
    let contact = seat_contact(ball, seat, Pressure::ZERO)?;
    Ok(contact.circle.circle() / ball.ring(seat.bore))
}

/// Projected bearing stress of a ball on its seat (pressure is the difference across the ball).
///
/// ```text
/// sigma_br = dp Dc^2 / (Db^2 - Ds^2)
/// ```
///
/// - `Db` ball diameter, `Ds` seat bore, `Dc` circle of contact ([`seat_contact`]), m
/// - `dp` pressure difference, `sigma_br` bearing stress on the ring between `Ds` and `Db`, Pa
///
/// Range: none stated by the source.
///
/// Where it breaks: it spreads the force evenly over the projected ring, so it compares balls of
/// one material and one seat shape; confinement by the seat raises the real strength above the
/// uniaxial one by a factor nobody has published. A supplier's pressure test of the very ball and
/// seat overrides it. With a square edge (`half_angle` 90 deg) `Dc = Ds`.
///
/// Source: derived_ball_statics, projected ring.
///
/// ```
/// use physics::ball::{bearing::projected_bearing, contact::Seat};
/// use quantity::*;
/// let s = projected_bearing(Diameter::inch(2.0), Seat::square(Diameter::inch(1.875)), Pressure::psi(10e3))?;
/// assert!((s.in_psi() - 72_581.0).abs() < 1.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn projected_bearing(ball: Diameter, seat: Seat, pressure: Pressure) -> Result<Pressure> {
    require_not_negative("projected_bearing", "pressure", pressure)?;
    // sigma_br = dp Dc^2 / (Db^2 - Ds^2)
    Ok(pressure * magnification(ball, seat)?)
}

/// Pressure difference at which the projected bearing stress reaches an allowable stress.
///
/// ```text
/// dp = sigma_allow (Db^2 - Ds^2) / Dc^2
/// ```
///
/// - `sigma_allow` allowable bearing stress, Pa; other symbols as in [`projected_bearing`]
///
/// Range: none stated by the source.
///
/// Where it breaks: as [`projected_bearing`], of which it is the inverse.
///
/// Source: derived_ball_statics, projected ring.
///
/// ```
/// use physics::ball::{bearing::projected_bearing_limit, contact::Seat};
/// use quantity::*;
/// let p = projected_bearing_limit(Diameter::inch(2.0), Seat::square(Diameter::inch(1.875)), Pressure::ksi(60.0))?;
/// assert!((p.in_psi() - 8_267.0).abs() < 0.5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn projected_bearing_limit(ball: Diameter, seat: Seat, allowable: Pressure) -> Result<Pressure> {
    require_not_negative("projected_bearing_limit", "allowable", allowable)?;
    // dp = sigma_allow (Db^2 - Ds^2) / Dc^2
    Ok(allowable / magnification(ball, seat)?)
}

/// Register entry of [`projected_bearing`].
pub static PROJECTED_BEARING: Relation = Relation {
    name: "projected_bearing",
    title: "Projected bearing stress of a ball on its seat (difference across the ball)",
    equation: "sigma_br = dp Dc^2 / (Db^2 - Ds^2)",
    source: "derived_ball_statics, projected ring",
    range: "none stated by the source; a supplier's test of ball and seat overrides it",
    inputs: &[BALL, SEAT, HALF_ANGLE, PRESSURE],
    outputs: &[
        Output::new::<Pressure>("bearing", "stress on the projected ring"),
        Output::new::<Ratio>("magnification", "bearing stress over pressure"),
    ],
    evaluate: |a| {
        let (ball, seat) = (a.get("ball")?, seat(a)?);
        Ok(Outputs::new()
            .put("bearing", projected_bearing(ball, seat, a.get("pressure")?)?)
            .put("magnification", Ratio::from_si(magnification(ball, seat)?)))
    },
};

/// Register entry of [`projected_bearing_limit`].
pub static PROJECTED_BEARING_LIMIT: Relation = Relation {
    name: "projected_bearing_limit",
    title: "Pressure difference at an allowable projected bearing stress",
    equation: "dp = sigma_allow (Db^2 - Ds^2) / Dc^2",
    source: "derived_ball_statics, projected ring",
    range: "none stated by the source; a supplier's test of ball and seat overrides it",
    inputs: &[BALL, SEAT, HALF_ANGLE, Input::new::<Pressure>("allowable", "allowable bearing stress")],
    outputs: &[Output::new::<Pressure>("pressure", "difference at which the allowable stress is reached")],
    evaluate: |a| {
        let p = projected_bearing_limit(a.get("ball")?, seat(a)?, a.get("allowable")?)?;
        Ok(Outputs::new().put("pressure", p))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use quantity::Angle;

    proptest! {
        #[test]
        fn limit_is_the_inverse(ds in 1.0..3.5f64, over in 0.01..0.5f64, beta in 5.0..90.0f64, p in 1.0..15e3f64) {
            let (ball, seat) =
                (Diameter::inch(ds + over), Seat { bore: Diameter::inch(ds), half_angle: Angle::deg(beta) });
            let stress = projected_bearing(ball, seat, Pressure::psi(p)).unwrap();
            let back = projected_bearing_limit(ball, seat, stress).unwrap();
            prop_assert!((back.in_psi() / p - 1.0).abs() < 1e-12);
        }

        /// At fixed overlap the rating falls with size.
        #[test]
        fn larger_balls_carry_less(d in 1.0..3.4f64, over in 0.02..0.2f64) {
            let limit = |d: f64| {
                projected_bearing_limit(Diameter::inch(d), Seat::square(Diameter::inch(d - over)), Pressure::ksi(60.0))
                    .unwrap()
            };
            prop_assert!(limit(d + 0.1) < limit(d));
        }
    }
}
