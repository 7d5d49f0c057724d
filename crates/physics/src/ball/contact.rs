//! Where a ball touches its seat, and with what force.

use crate::error::{Result, require, require_not_negative, require_positive};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Angle, Diameter, Force, ForcePerLength, Pressure, Quantity};

const NAME: &str = "seat_contact";

/// The seat as the ball meets it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seat {
    /// Diameter of the bore below the cone.
    pub bore: Diameter,
    /// Angle of the cone from the seat's axis; a right angle is a square shoulder.
    pub half_angle: Angle,
}

impl Seat {
    /// A bore with a square edge and no cone.
    pub fn square(bore: Diameter) -> Self {
        Self { bore, half_angle: Angle::deg(90.0) }
    }
}

/// What the ball rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rest {
    /// The cone above the bore.
    Cone,
    /// The edge between cone and bore.
    BoreEdge,
}

/// The contact of a ball with its seat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeatContact {
    /// What the ball rests on.
    pub rest: Rest,
    /// Diameter of the circle of contact, which is also the circle that seals.
    pub circle: Diameter,
    /// Angle between the axis and the ball's surface at the circle.
    pub angle: Angle,
    /// Axial force of the pressure on the seat.
    pub force: Force,
    /// Contact force per length of the circle, normal to the ball's surface.
    pub line_load: ForcePerLength,
}

/// Contact of a ball on a conical seat: cone or bore edge, circle, axial force, line load
/// (pressure is the difference across the ball).
///
/// ```text
/// Dc = Db cos(beta)  if Db cos(beta) > Ds, else Ds with sin(phi) = Ds/Db
/// F  = dp pi Dc^2 / 4
/// q  = F / (pi Dc sin(beta))  on the cone,  F / (pi Ds cos(phi))  on the edge
/// ```
///
/// - `Db` ball diameter, m; `Ds` seat bore, m; `Dc` circle of contact, m
/// - `beta` half-angle of the cone from the axis, rad; `phi` angle of the edge's normal, rad
/// - `dp` pressure difference, Pa; `F` axial force, N; `q` line load, N/m
///
/// Range: none stated by the source. `0 < beta <= 90 deg`, `Db > Ds`.
///
/// Where it breaks: the ball and the seat are rigid and smooth, the contact is frictionless.
/// A ball no larger than the bore passes, and is refused. Friction on the cone carries part of
/// the axial force and lowers the line load. A cone mouth smaller than `Db cos(beta)` would be
/// met at its rim; the kernel takes the cone as wide enough.
///
/// Source: derived_ball_statics, equilibrium of a sphere in a cone.
///
/// ```
/// use physics::ball::contact::{Rest, Seat, seat_contact};
/// use quantity::*;
/// let seat = Seat { bore: Diameter::inch(1.875), half_angle: Angle::deg(20.0) };
/// let c = seat_contact(Diameter::inch(2.0), seat, Pressure::psi(10e3))?;
/// assert_eq!(c.rest, Rest::Cone);
/// assert!((c.force.in_lbf() - 27_741.0).abs() < 1.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn seat_contact(ball: Diameter, seat: Seat, pressure: Pressure) -> Result<SeatContact> {
    require_positive(NAME, "seat", seat.bore)?;
    require_not_negative(NAME, "pressure", pressure)?;
    let (db, ds, beta) = (ball.si(), seat.bore.si(), seat.half_angle.si());
    require(
        beta > 0.0 && beta <= std::f64::consts::FRAC_PI_2,
        NAME,
        "half_angle",
        seat.half_angle,
        "above 0 and at most 90 deg",
        "Give the angle between the seat's axis and its cone, half the angle of the cone.",
    )?;
    require(
        db > ds,
        NAME,
        "ball",
        ball,
        format!("larger than the seat bore, {}", seat.bore),
        "This ball passes this seat; check which ball belongs to which seat.",
    )?;
    // Dc = Db cos(beta) on the cone; the bore edge where that would lie below the cone
    let on_cone = db * libm::cos(beta);
    let (rest, circle, angle) =
        if on_cone > ds { (Rest::Cone, on_cone, beta) } else { (Rest::BoreEdge, ds, libm::acos(ds / db)) };
    let circle = Diameter::from_si(circle);
    // F = dp pi Dc^2 / 4
    let force = pressure * circle.circle();
    // q = F / (pi Dc sin(angle)); on the edge sin(angle) = cos(phi)
    let line_load = force.si() / (std::f64::consts::PI * circle.si() * libm::sin(angle));
    Ok(SeatContact {
        rest,
        circle,
        angle: Angle::from_si(angle),
        force,
        line_load: ForcePerLength::from_si(line_load),
    })
}

/// The ball of a call.
pub(crate) const BALL: Input = Input::new::<Diameter>("ball", "ball diameter");
/// The seat bore of a call.
pub(crate) const SEAT: Input = Input::new::<Diameter>("seat", "seat bore");
/// The pressure of a call.
pub(crate) const PRESSURE: Input = Input::new::<Pressure>("pressure", "pressure difference across the ball");
/// The half-angle of a call; a square shoulder when not given.
pub(crate) const HALF_ANGLE: Input =
    Input::new::<Angle>("half_angle", "half-angle of the seat cone from its axis; 90 deg is a square edge")
        .or("90 deg");

/// The seat of a call.
pub(crate) fn seat(a: &crate::Arguments) -> Result<Seat> {
    Ok(Seat { bore: a.get("seat")?, half_angle: a.get("half_angle")? })
}

/// Register entry of [`seat_contact`].
pub static SEAT_CONTACT: Relation = Relation {
    name: NAME,
    title: "Contact of a ball on its seat: circle, axial force, line load (difference across the ball)",
    equation: "Dc = Db cos(beta) if > Ds, else Ds; F = dp pi Dc^2/4; q = F/(pi Dc sin(angle))",
    source: "derived_ball_statics, equilibrium of a sphere in a cone",
    range: "none stated by the source; rigid, smooth, frictionless; 0 < half_angle <= 90 deg; ball > seat",
    inputs: &[BALL, SEAT, HALF_ANGLE, PRESSURE],
    outputs: &[
        Output::new::<Diameter>("contact_circle", "diameter of the circle of contact, which seals"),
        Output::new::<quantity::Ratio>("on_cone", "1 when the ball rests on the cone, 0 on the bore edge"),
        Output::new::<Angle>("contact_angle", "angle of the ball's surface from the axis at the circle"),
        Output::new::<Force>("force", "axial force on the seat"),
        Output::new::<ForcePerLength>("line_load", "contact force per length, normal to the ball"),
    ],
    evaluate: |a| {
        let c = seat_contact(a.get("ball")?, seat(a)?, a.get("pressure")?)?;
        Ok(Outputs::new()
            .put("contact_circle", c.circle)
            .put("on_cone", super::count::flag(c.rest == Rest::Cone))
            .put("contact_angle", c.angle)
            .put("force", c.force)
            .put("line_load", c.line_load))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// The normal line load's axial part, summed round the circle, is the pressure force.
        #[test]
        fn forces_balance(ds in 1.0..3.5f64, over in 0.01..0.5f64, beta in 2.0..90.0f64, p in 0.0..15e3f64) {
            let seat = Seat { bore: Diameter::inch(ds), half_angle: Angle::deg(beta) };
            let c = seat_contact(Diameter::inch(ds + over), seat, Pressure::psi(p)).unwrap();
            let axial = c.line_load.si() * std::f64::consts::PI * c.circle.si() * c.angle.si().sin();
            prop_assert!((axial - c.force.si()).abs() <= 1e-9 * c.force.si().max(1.0));
            prop_assert!(c.circle.si() >= seat.bore.si() && c.circle.si() < Diameter::inch(ds + over).si());
        }
    }

    #[test]
    fn the_two_rests_meet_without_a_step() {
        let ball = Diameter::inch(2.0);
        let bore = Diameter::inch(2.0 * Angle::deg(20.0).si().cos());
        let at = |half: f64| {
            let seat = Seat { bore, half_angle: Angle::deg(half) };
            seat_contact(ball, seat, Pressure::psi(5e3)).unwrap()
        };
        let (cone, edge) = (at(20.0 - 1e-9), at(20.0 + 1e-9));
        assert_eq!((cone.rest, edge.rest), (Rest::Cone, Rest::BoreEdge));
        assert!((cone.line_load.si() / edge.line_load.si() - 1.0).abs() < 1e-8);
    }

    #[test]
    fn a_ball_that_passes_is_refused() {
        let seat = Seat::square(Diameter::inch(2.0));
        assert!(seat_contact(Diameter::inch(2.0), seat, Pressure::psi(1.0)).is_err());
        assert!(seat_contact(Diameter::inch(f64::NAN), seat, Pressure::psi(1.0)).is_err());
    }
}
