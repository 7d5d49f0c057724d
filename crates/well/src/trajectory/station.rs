//! Survey stations, and what their angles and depths are measured from.

use crate::job::North;
use physics::geometry::HoleDirection;
use quantity::{Angle, Length, MeasuredDepth};

/// One survey station.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Station {
    /// Measured depth.
    pub md: MeasuredDepth,
    /// Inclination from vertical.
    pub inclination: Angle,
    /// Azimuth from the north of the [`Frame`]; says nothing where the hole is vertical.
    pub azimuth: Angle,
}

impl Station {
    /// From depth, inclination and azimuth.
    pub const fn new(md: MeasuredDepth, inclination: Angle, azimuth: Angle) -> Self {
        Self { md, inclination, azimuth }
    }

    /// Where the hole points there.
    pub const fn direction(self) -> HoleDirection {
        HoleDirection::new(self.inclination, self.azimuth)
    }
}

/// What depths are measured from.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct DepthDatum {
    /// Its name, such as "rotary table".
    pub name: String,
    /// Its height above mean sea level, if known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub elevation: Option<Length>,
}

/// What the numbers of a survey are measured from.
#[derive(Debug, Clone, PartialEq, Default, serde::Serialize, schemars::JsonSchema)]
pub struct Frame {
    /// What azimuths are measured from, if stated.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub north: Option<North>,
    /// The words in which the survey file states it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub north_text: Option<String>,
    /// Magnetic declination the survey used.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub declination: Option<Angle>,
    /// Grid convergence the survey used.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub convergence: Option<Angle>,
    /// What depths are measured from.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub datum: Option<DepthDatum>,
    /// Azimuth of the vertical section.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub section_azimuth: Option<Angle>,
}
