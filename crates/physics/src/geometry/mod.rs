//! Hole geometry: the survey, bores and annuli, stiff bodies in bends.

mod arc_interpolation;
mod bend_components;
mod build_and_turn_rate;
mod caliper_volume;
mod capacity;
mod closure;
mod coupling_standoff;
mod dogleg_bending;
mod forced_bend;
mod frustum;
mod hole_direction;
mod minimum_curvature;
mod radius_of_curvature;
mod stiff_passage;
mod survey_path;
mod tvd_crossing;
mod vertical_section;

use crate::error::Result;
use crate::{Arguments, Input, Relation};
use quantity::{Angle, Length, MeasuredDepth};

pub use arc_interpolation::ARC_INTERPOLATION;
pub use bend_components::{BEND_COMPONENTS, BendComponents};
pub use build_and_turn_rate::{BUILD_AND_TURN_RATE, build_and_turn_rate};
pub use caliper_volume::{CALIPER_VOLUME, caliper_volume};
pub use capacity::{
    ANNULAR_CAPACITY, ANNULAR_VOLUME, BORE_CAPACITY, BORE_VOLUME, annular_capacity, bore_capacity,
};
pub use closure::{CLOSURE, closure};
pub use coupling_standoff::{COUPLING_STANDOFF, coupling_standoff};
pub use dogleg_bending::{
    DOGLEG_BENDING_LOAD, DOGLEG_BENDING_STRESS, dogleg_bending_load, dogleg_bending_stress,
};
pub use forced_bend::{FORCED_BEND, ForcedBend, StiffBody, forced_bend};
pub use frustum::{FRUSTUM_VOLUME, frustum_volume};
pub use hole_direction::{HoleDirection, full_circle, half_circle};
pub use minimum_curvature::{Arc, Displacement, MINIMUM_CURVATURE};
pub use radius_of_curvature::{RADIUS_OF_CURVATURE, radius_of_curvature};
pub use stiff_passage::{
    STIFF_PASSAGE, STIFF_PASSAGE_CLEARANCE, STIFF_PASSAGE_SEVERITY, StiffPassage, stiff_passage,
    stiff_passage_clearance, stiff_passage_severity,
};
pub use survey_path::{PathEnd, PathStart, SURVEY_PATH, survey_path};
pub use tvd_crossing::{Crossings, TVD_CROSSING};
pub use vertical_section::{VERTICAL_SECTION, vertical_section};

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[
    &MINIMUM_CURVATURE,
    &ARC_INTERPOLATION,
    &BEND_COMPONENTS,
    &BUILD_AND_TURN_RATE,
    &TVD_CROSSING,
    &SURVEY_PATH,
    &VERTICAL_SECTION,
    &CLOSURE,
    &RADIUS_OF_CURVATURE,
    &BORE_CAPACITY,
    &BORE_VOLUME,
    &ANNULAR_CAPACITY,
    &ANNULAR_VOLUME,
    &FRUSTUM_VOLUME,
    &CALIPER_VOLUME,
    &STIFF_PASSAGE,
    &STIFF_PASSAGE_SEVERITY,
    &STIFF_PASSAGE_CLEARANCE,
    &FORCED_BEND,
    &DOGLEG_BENDING_STRESS,
    &DOGLEG_BENDING_LOAD,
    &COUPLING_STANDOFF,
];

/// Inputs of a relation between two stations, with any others after them.
macro_rules! two_stations {
    ($($other:expr),* $(,)?) => {
        [STATION_1[0], STATION_1[1], STATION_1[2], STATION_2[0], STATION_2[1], STATION_2[2], $($other),*]
    };
}
use two_stations;

/// Inputs of the upper station.
const STATION_1: [Input; 3] = [
    Input::new::<MeasuredDepth>("md_1", "measured depth of the upper station"),
    Input::new::<Angle>("inclination_1", "inclination of the upper station"),
    Input::new::<Angle>("azimuth_1", "azimuth of the upper station"),
];

/// Inputs of the lower station.
const STATION_2: [Input; 3] = [
    Input::new::<MeasuredDepth>("md_2", "measured depth of the lower station"),
    Input::new::<Angle>("inclination_2", "inclination of the lower station"),
    Input::new::<Angle>("azimuth_2", "azimuth of the lower station"),
];

/// One station as a relation reads it.
type StationInput = (MeasuredDepth, HoleDirection);

/// Reads the two stations of a call.
fn stations(a: &Arguments) -> Result<(StationInput, StationInput)> {
    let upper = HoleDirection::new(a.get("inclination_1")?, a.get("azimuth_1")?);
    let lower = HoleDirection::new(a.get("inclination_2")?, a.get("azimuth_2")?);
    Ok(((a.get("md_1")?, upper), (a.get("md_2")?, lower)))
}

/// Reads two stations and a depth between them: the arc, and the length from its upper end.
fn depth_on_arc(relation: &'static str, a: &Arguments) -> Result<(Arc, Length)> {
    let ((md_1, upper), (md_2, lower)) = stations(a)?;
    let arc = Arc::between(md_2 - md_1, upper, lower)?;
    let md: MeasuredDepth = a.get("md")?;
    arc_interpolation::check_on_arc(relation, &arc, md, md - md_1)?;
    Ok((arc, md - md_1))
}
