//! Average build and turn rate between two survey stations, as a survey report prints them.

use super::hole_direction::{HoleDirection, half_circle};
use super::{STATION_1, STATION_2, stations, two_stations};
use crate::error::{Result, require_positive};
use crate::{Output, Outputs, Relation};
use quantity::{Curvature, Length, Quantity};

/// Average build and turn rate between two survey stations.
///
/// Equation: `build = (I2 − I1)/ΔM`, `turn = (A2 − A1)/ΔM` with `A2 − A1` folded into ±180 deg.
///
/// Symbols: I inclination (rad), A azimuth (rad), ΔM course length (m).
///
/// Range: none stated by the source.
///
/// Where it breaks: the turn rate is that of the azimuth, not of the hole: near vertical it
/// grows without limit while the hole hardly bends. For bending use the dogleg severity, or
/// `bend_components`, where the turn is multiplied with the sine of the inclination.
///
/// Source: api_d20.
///
/// ```
/// use physics::geometry::{HoleDirection, build_and_turn_rate};
/// use quantity::{Angle, Length};
/// let upper = HoleDirection::new(Angle::deg(88.0), Angle::deg(359.0));
/// let lower = HoleDirection::new(Angle::deg(90.0), Angle::deg(1.0));
/// let (build, turn) = build_and_turn_rate(Length::ft(100.0), upper, lower)?;
/// assert!((build.in_deg_per_100ft() - 2.0).abs() < 1e-9);
/// assert!((turn.in_deg_per_100ft() - 2.0).abs() < 1e-9);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn build_and_turn_rate(
    length: Length,
    upper: HoleDirection,
    lower: HoleDirection,
) -> Result<(Curvature, Curvature)> {
    require_positive(BUILD_AND_TURN_RATE.name, "course length", length)?;
    upper.check(BUILD_AND_TURN_RATE.name)?;
    lower.check(BUILD_AND_TURN_RATE.name)?;
    // build = (I2 - I1)/dM; turn = (A2 - A1)/dM
    let build = (lower.inclination - upper.inclination).si() / length.si();
    let turn = half_circle(lower.azimuth - upper.azimuth).si() / length.si();
    Ok((Curvature::rad_per_m(build), Curvature::rad_per_m(turn)))
}

/// Register entry of [`build_and_turn_rate`].
pub static BUILD_AND_TURN_RATE: Relation = Relation {
    name: "build_and_turn_rate",
    title: "Average build and turn rate between two survey stations",
    equation: "build = (I2 − I1)/ΔM; turn = (A2 − A1)/ΔM",
    source: "api_d20",
    range: "none stated by the source",
    inputs: &two_stations![],
    outputs: &[
        Output::new::<Curvature>("build_rate", "change of inclination per course length"),
        Output::new::<Curvature>("turn_rate", "change of azimuth per course length"),
    ],
    evaluate: |a| {
        let ((md_1, upper), (md_2, lower)) = stations(a)?;
        let (build, turn) = build_and_turn_rate(md_2 - md_1, upper, lower)?;
        Ok(Outputs::new().put("build_rate", build).put("turn_rate", turn))
    },
};
