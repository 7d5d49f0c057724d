//! Vertical section: the horizontal distance along one azimuth.

use crate::{Input, Output, Outputs, Relation};
use quantity::{Angle, Length, Quantity};

/// Vertical section at an azimuth.
///
/// Equation: `VS = N cos As + E sin As`.
///
/// Symbols: N, E distance to the north and east of the origin of the section (m), As azimuth of
/// the section (rad), VS distance along it (m).
///
/// Range: none stated by the source.
///
/// Where it breaks: it leaves out the distance across the section; a well that turns is longer
/// than its section.
///
/// Source: api_d20.
///
/// ```
/// use physics::geometry::vertical_section;
/// use quantity::{Angle, Length};
/// let vs = vertical_section(Length::ft(300.0), Length::ft(400.0), Angle::deg(90.0));
/// assert!((vs.in_ft() - 400.0).abs() < 1e-9);
/// ```
pub fn vertical_section(north: Length, east: Length, azimuth: Angle) -> Length {
    let (sin, cos) = azimuth.si().sin_cos();
    // VS = N cos As + E sin As
    north * cos + east * sin
}

/// Register entry of [`vertical_section`].
pub static VERTICAL_SECTION: Relation = Relation {
    name: "vertical_section",
    title: "Vertical section at an azimuth",
    equation: "VS = N cos As + E sin As",
    source: "api_d20",
    range: "none stated by the source",
    inputs: &[
        Input::new::<Length>("north", "distance to the north of the origin"),
        Input::new::<Length>("east", "distance to the east of the origin"),
        Input::new::<Angle>("azimuth", "azimuth of the section"),
    ],
    outputs: &[Output::new::<Length>("section", "distance along the section")],
    evaluate: |a| {
        let section = vertical_section(a.get("north")?, a.get("east")?, a.get("azimuth")?);
        Ok(Outputs::new().put("section", section))
    },
};
