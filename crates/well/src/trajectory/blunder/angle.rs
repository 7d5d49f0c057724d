//! Angles that say nothing, jump, or are in another unit.

use super::{at, counted};
use crate::table::Notes;
use crate::trajectory::check;
use crate::trajectory::survey::Survey;
use physics::geometry::half_circle;
use quantity::{Angle, Curvature, Quantity, said};
use std::collections::BTreeSet;

/// Inclination from which an azimuth is held against its neighbour's.
pub(super) const INCLINED: Angle = Angle::deg(5.0);
/// Change of azimuth that is a jump.
const JUMP: Angle = Angle::deg(45.0);
/// Dogleg severity a hole may turn with.
const SHARP: Curvature = Curvature::deg_per_100ft(8.0);

/// Counts the vertical stations whose azimuth is not zero.
pub(super) fn vertical_azimuths(survey: &Survey, notes: &mut Notes) {
    let said: Vec<_> = survey
        .rows()
        .filter(|r| !r.station.direction().has_azimuth() && r.station.azimuth.si() != 0.0)
        .collect();
    if let (Some(first), Some(last)) = (said.first(), said.last()) {
        let stations = counted(said.len(), "vertical station has", "vertical stations have");
        let (from, to) = (first.station.md, last.station.md);
        let message = if said.len() == 1 {
            said!("{stations} an azimuth, which is left aside")
        } else {
            said!("{stations} an azimuth, which is left aside, from {from} to {to}")
        };
        notes.add(at(&check::AZIMUTH_VERTICAL, first, message, notes));
    }
}

/// Sudden changes of azimuth in inclined hole.
pub(super) fn jumps(survey: &Survey, notes: &mut Notes) {
    for (course, row) in survey.trajectory.courses().zip(survey.rows().skip(1)) {
        let (upper, lower) = (course.upper, course.lower);
        let inclined = |i: Angle| i.si().sin() >= INCLINED.si().sin();
        let change = half_circle(lower.azimuth - upper.azimuth).abs();
        let sharp = course.arc.severity();
        if inclined(upper.inclination)
            && inclined(lower.inclination)
            && change.si() > JUMP.si()
            && sharp.si() > SHARP.si()
        {
            let message = said!(
                "the azimuth goes from {:.2} deg at {} to {:.2} deg, a bend of {sharp}",
                upper.azimuth.in_deg(),
                upper.md,
                lower.azimuth.in_deg()
            );
            notes.add(at(&check::AZIMUTH_JUMP, row, message, notes).value(change).limit(JUMP));
        }
    }
}

/// Angles that look like radians read as degrees.
pub(super) fn unit(survey: &Survey, notes: &mut Notes) {
    let stations = || survey.rows().map(|r| r.station);
    let greatest = |of: fn(Angle) -> f64| stations().map(|s| of(s.inclination)).fold(0.0, f64::max);
    let inclination = greatest(Angle::in_deg);
    let azimuth = stations().map(|s| s.azimuth.in_deg()).fold(0.0, f64::max);
    // Hundredths of a unit, so that a survey that never turns shows one azimuth only.
    let different: BTreeSet<i64> = stations().map(|s| (s.azimuth.in_deg() * 100.0).round() as i64).collect();
    let many = survey.trajectory.stations().len() >= 5 && different.len() >= 3;
    if many && (0.05..3.2).contains(&inclination) && azimuth < 6.3 {
        let message = said!(
            "read as degrees, inclinations reach {inclination:.3} deg and azimuths {azimuth:.3} deg; as \
             radians they would reach {:.1} and {:.1} deg",
            inclination.to_degrees(),
            azimuth.to_degrees()
        );
        notes.whole(&check::ANGLE_UNIT, message);
    }
}
