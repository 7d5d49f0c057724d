//! Closure: horizontal distance and direction from the origin to a point of the hole.

use super::hole_direction::full_circle;
use crate::{Input, Output, Outputs, Relation};
use quantity::{Angle, Length, Quantity};

/// Closure distance and direction.
///
/// Equation: `C = hypot(N, E)`, `Ac = atan2(E, N)`.
///
/// Symbols: N, E distance to the north and east (m), C closure distance (m), Ac closure
/// direction, clockwise from north (rad).
///
/// Range: none stated by the source.
///
/// Where it breaks: at the origin there is no direction; zero is given.
///
/// Source: api_d20.
///
/// ```
/// use physics::geometry::closure;
/// use quantity::Length;
/// let (distance, direction) = closure(Length::ft(-3.0), Length::ft(-4.0));
/// assert!((distance.in_ft() - 5.0).abs() < 1e-9);
/// assert!((direction.in_deg() - 233.130102).abs() < 1e-6);
/// ```
pub fn closure(north: Length, east: Length) -> (Length, Angle) {
    // C = hypot(N, E); Ac = atan2(E, N)
    let distance = Length::m(north.si().hypot(east.si()));
    (distance, full_circle(Angle::rad(east.si().atan2(north.si()))))
}

/// Register entry of [`closure`].
pub static CLOSURE: Relation = Relation {
    name: "closure",
    title: "Closure distance and direction",
    equation: "C = hypot(N, E); Ac = atan2(E, N)",
    source: "api_d20",
    range: "none stated by the source",
    inputs: &[
        Input::new::<Length>("north", "distance to the north"),
        Input::new::<Length>("east", "distance to the east"),
    ],
    outputs: &[
        Output::new::<Length>("distance", "horizontal distance"),
        Output::new::<Angle>("direction", "clockwise from north"),
    ],
    evaluate: |a| {
        let (distance, direction) = closure(a.get("north")?, a.get("east")?);
        Ok(Outputs::new().put("distance", distance).put("direction", direction))
    },
};
