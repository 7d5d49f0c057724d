//! Radius of the hole's bend from its dogleg severity.

use crate::error::{Result, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Curvature, Length, Quantity};

/// Radius of curvature of the hole axis.
///
/// Equation: `R = 1/κ`, in field units `R = 5729.578/DLS` ft with DLS in deg/100 ft.
///
/// Symbols: R radius of the hole axis (m), κ dogleg severity (rad/m).
///
/// Range: none stated by the source.
///
/// Where it breaks: a straight hole has no radius and is refused.
///
/// Source: api_d20.
///
/// ```
/// use physics::geometry::radius_of_curvature;
/// use quantity::Curvature;
/// let radius = radius_of_curvature(Curvature::deg_per_100ft(10.0))?;
/// assert!((radius.in_ft() - 572.9578).abs() < 1e-4);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn radius_of_curvature(severity: Curvature) -> Result<Length> {
    require_positive(RADIUS_OF_CURVATURE.name, "dogleg severity", severity)?;
    // R = 1/kappa
    Ok(Length::m(1.0 / severity.si()))
}

/// Register entry of [`radius_of_curvature`].
pub static RADIUS_OF_CURVATURE: Relation = Relation {
    name: "radius_of_curvature",
    title: "Radius of curvature of the hole axis",
    equation: "R = 1/κ = 5729.578/DLS ft (DLS in deg/100 ft)",
    source: "api_d20",
    range: "none stated by the source; a straight hole has no radius",
    inputs: &[Input::new::<Curvature>("dogleg_severity", "curvature of the hole")],
    outputs: &[Output::new::<Length>("radius", "radius of the hole axis")],
    evaluate: |a| Ok(Outputs::new().put("radius", radius_of_curvature(a.get("dogleg_severity")?)?)),
};
