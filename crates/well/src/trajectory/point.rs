//! A point of the hole: where it is, where it points, and whether it was surveyed.

use quantity::{Angle, Curvature, Length, MeasuredDepth, TrueVerticalDepth};

/// How well a point of the hole is known.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Coverage {
    /// Above the first station: taken straight on upward, by so much.
    Above(Length),
    /// Between measured stations.
    Surveyed,
    /// Below the last measured station, on a row the survey marks as projected.
    Projected,
    /// Below the last station: taken straight on downward, by so much.
    Beyond(Length),
}

impl Coverage {
    /// Whether the point lies outside all stations.
    pub fn is_extrapolated(self) -> bool {
        matches!(self, Coverage::Above(_) | Coverage::Beyond(_))
    }
}

/// A point of the hole.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct PathPoint {
    /// Measured depth.
    pub md: MeasuredDepth,
    /// To the north of the origin.
    pub north: Length,
    /// To the east of the origin.
    pub east: Length,
    /// Vertical depth.
    pub tvd: TrueVerticalDepth,
    /// Inclination from vertical.
    pub inclination: Angle,
    /// Azimuth, 0 to 360 deg; that of the nearest inclined hole where it is vertical.
    pub azimuth: Angle,
    /// Dogleg severity of the course it lies in; zero where it is extrapolated.
    pub severity: Curvature,
    /// How well it is known.
    pub coverage: Coverage,
}
