//! A whole survey in one call: the end of a list of stations, and its sharpest bend.

use super::closure::closure;
use super::hole_direction::HoleDirection;
use super::minimum_curvature::Arc;
use crate::error::{Error, Result};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Angle, Curvature, Length, MeasuredDepth, TrueVerticalDepth};

/// Where a path starts: the coordinates of its first station.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PathStart {
    /// To the north of the origin.
    pub north: Length,
    /// To the east of the origin.
    pub east: Length,
    /// Vertical depth.
    pub tvd: TrueVerticalDepth,
}

/// Where a path ends, and its sharpest bend.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PathEnd {
    /// To the north of the origin.
    pub north: Length,
    /// To the east of the origin.
    pub east: Length,
    /// Vertical depth.
    pub tvd: TrueVerticalDepth,
    /// Greatest dogleg severity of all courses.
    pub max_severity: Curvature,
}

/// End of a survey by minimum curvature, from lists of stations.
///
/// Equation: the sum of the steps of `minimum_curvature` over all courses, from the
/// coordinates of the first station.
///
/// Symbols: as in `minimum_curvature`.
///
/// Range: none stated by the source; measured depth rising, two stations or more.
///
/// Where it breaks: lists of different length, and a depth that does not rise, are refused. A
/// first station whose coordinates are not zero must be given with them.
///
/// Source: taylor1972; api_d20.
///
/// ```
/// use physics::geometry::{HoleDirection, PathStart, survey_path};
/// use quantity::{Angle, MeasuredDepth};
/// // A quarter circle of 900 m from vertical to horizontal: radius 1800/pi m.
/// let md = [MeasuredDepth::m(0.0), MeasuredDepth::m(900.0)];
/// let d = |i| HoleDirection::new(Angle::deg(i), Angle::deg(0.0));
/// let end = survey_path(&md, &[d(0.0), d(90.0)], PathStart::default())?;
/// assert!((end.north.in_m() - 572.957795).abs() < 1e-6);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn survey_path(md: &[MeasuredDepth], directions: &[HoleDirection], start: PathStart) -> Result<PathEnd> {
    if md.len() != directions.len() || md.len() < 2 {
        return Err(uneven(md.len(), directions.len()));
    }
    let mut end =
        PathEnd { north: start.north, east: start.east, tvd: start.tvd, max_severity: Curvature::ZERO };
    for (depth, way) in md.windows(2).zip(directions.windows(2)) {
        let ([upper_md, lower_md], [upper, lower]) = (depth, way) else { continue };
        let arc = Arc::between(*lower_md - *upper_md, *upper, *lower)?;
        let step = arc.displacement();
        end.north += step.north;
        end.east += step.east;
        end.tvd = end.tvd + step.down;
        end.max_severity = end.max_severity.max(arc.severity());
    }
    Ok(end)
}

fn uneven(depths: usize, directions: usize) -> Error {
    Error::NoSolution {
        relation: SURVEY_PATH.name,
        what: format!("there are {depths} measured depths and {directions} directions"),
        hint: "Give two stations or more, each with measured depth, inclination and azimuth.",
    }
}

/// Register entry of [`survey_path`].
pub static SURVEY_PATH: Relation = Relation {
    name: "survey_path",
    title: "End of a survey by minimum curvature",
    equation: "N, E, V = N0, E0, V0 + Σ ΔM/2 (t1 + t2) RF",
    source: "taylor1972; api_d20",
    range: "none stated by the source; measured depth rising",
    inputs: &[
        Input::list::<MeasuredDepth>("md", "measured depths of the stations"),
        Input::list::<Angle>("inclination", "inclinations of the stations"),
        Input::list::<Angle>("azimuth", "azimuths of the stations"),
        Input::new::<Length>("north", "first station, to the north").or("0 ft"),
        Input::new::<Length>("east", "first station, to the east").or("0 ft"),
        Input::new::<TrueVerticalDepth>("tvd", "first station, vertical depth").or("0 ft"),
    ],
    outputs: &[
        Output::new::<Length>("north", "last station, to the north"),
        Output::new::<Length>("east", "last station, to the east"),
        Output::new::<TrueVerticalDepth>("tvd", "last station, vertical depth"),
        Output::new::<Length>("closure", "horizontal distance from the origin"),
        Output::new::<Angle>("closure_direction", "clockwise from north"),
        Output::new::<Curvature>("max_dogleg_severity", "sharpest course"),
    ],
    evaluate: |a| {
        let (i, az) = (a.list::<Angle>("inclination")?, a.list::<Angle>("azimuth")?);
        let md = a.list::<MeasuredDepth>("md")?;
        if i.len() != az.len() {
            return Err(uneven(md.len(), i.len().min(az.len())));
        }
        let directions: Vec<_> = i.into_iter().zip(az).map(|(i, a)| HoleDirection::new(i, a)).collect();
        let start = PathStart { north: a.get("north")?, east: a.get("east")?, tvd: a.get("tvd")? };
        let end = survey_path(&md, &directions, start)?;
        let (distance, direction) = closure(end.north, end.east);
        Ok(Outputs::new()
            .put("north", end.north)
            .put("east", end.east)
            .put("tvd", end.tvd)
            .put("closure", distance)
            .put("closure_direction", direction)
            .put("max_dogleg_severity", end.max_severity))
    },
};
