//! Positions and bends the file reports, held against those of its stations.

use super::{at, counted};
use crate::table::Notes;
use crate::trajectory::check;
use crate::trajectory::point::PathPoint;
use crate::trajectory::survey::Survey;
use crate::trajectory::survey_table::SurveyRow;
use physics::geometry::{closure, half_circle};
use quantity::{Angle, Curvature, Length, Quantity, Value, said};

/// Difference of position that is allowed anywhere.
const POSITION: Length = Length::m(0.15);
/// Difference of position that is allowed per depth.
const POSITION_SHARE: f64 = 1e-4;
/// Difference of dogleg severity that is allowed anywhere.
const SEVERITY: Curvature = Curvature::deg_per_100ft(0.02);
/// Rounding of angles that is allowed over a course.
const ROUNDING: Angle = Angle::deg(0.02);

/// One coordinate that is off.
struct Off {
    name: &'static str,
    by: Length,
    value: Value,
}

/// Reported vertical depth, north and east.
pub(super) fn positions(survey: &Survey, notes: &mut Notes) {
    if let Some(ratio) = unit_ratio(survey) {
        let message = said!("reported vertical depths are {ratio:.4} times those of the stations");
        notes.whole(&check::LENGTH_UNIT, message);
        return;
    }
    let mut walk = survey.trajectory.walk();
    let mut worst: Option<(&SurveyRow, PathPoint, Off)> = None;
    let mut count = 0;
    for row in survey.rows() {
        let point = walk.position_at(row.station.md);
        let Some(off) = farthest_off(row, &point) else { continue };
        if off.by.si() > allowed(row).si() {
            count += 1;
            if worst.as_ref().is_none_or(|(_, _, w)| off.by.si() > w.by.si()) {
                worst = Some((row, point, off));
            }
        }
    }
    let Some((row, point, off)) = worst else { return };
    let message = said!(
        "{} a position that does not follow from the stations; the {} here is off by {}{}",
        counted(count, "row reports", "rows report"),
        off.name,
        off.by,
        rotation(row, &point)
    );
    notes.add(at(&check::REPORTED_POSITION, row, message, notes).value(off.value).limit(allowed(row)));
}

fn allowed(row: &SurveyRow) -> Length {
    Length::m(POSITION.si() + POSITION_SHARE * row.station.md.si().abs())
}

fn farthest_off(row: &SurveyRow, point: &PathPoint) -> Option<Off> {
    let r = row.reported;
    let off = |name, by: Option<Length>, value: Option<Value>| {
        by.zip(value).map(|(by, value)| Off { name, by: by.abs(), value })
    };
    let list = [
        off("vertical depth", r.tvd.map(|t| t - point.tvd), r.tvd.map(Value::of)),
        off("north", r.north.map(|n| n - point.north), r.north.map(Value::of)),
        off("east", r.east.map(|e| e - point.east), r.east.map(Value::of)),
    ];
    list.into_iter().flatten().max_by(|a, b| a.by.total_cmp(&b.by))
}

/// Words for a difference that a turn of the azimuths explains.
fn rotation(row: &SurveyRow, point: &PathPoint) -> String {
    let (Some(north), Some(east)) = (row.reported.north, row.reported.east) else { return String::new() };
    let ((far, way), (own_far, own_way)) = (closure(north, east), closure(point.north, point.east));
    let turn = half_circle(way - own_way);
    let explained = (far - own_far).abs().si() <= allowed(row).si() && own_far.si() > 100.0;
    if explained && turn.in_deg().abs() > 0.05 {
        format!("; positions turned by {:.2} deg would agree: another north?", turn.in_deg())
    } else {
        String::new()
    }
}

/// The ratio of reported to computed vertical depth, if it is that of feet and metres.
fn unit_ratio(survey: &Survey) -> Option<f64> {
    let mut ratios: Vec<f64> = survey
        .rows()
        .filter_map(|r| {
            let own = survey.trajectory.tvd_at(r.station.md).si();
            r.reported.tvd.filter(|_| own > 10.0).map(|t| t.si() / own)
        })
        .collect();
    ratios.sort_by(f64::total_cmp);
    let median = ratios.get(ratios.len() / 2).copied()?;
    let foot = quantity::constant::FOOT;
    let is = |x: f64| (median / x - 1.0).abs() < 0.01;
    (ratios.len() >= 3 && (is(foot) || is(1.0 / foot))).then_some(median)
}

/// Reported dogleg severities; only between stations that stand beside each other in the file.
pub(super) fn severities(survey: &Survey, notes: &mut Notes) {
    let mut worst: Option<(&SurveyRow, Curvature, f64)> = None;
    let mut count = 0;
    let courses = survey.trajectory.courses().zip(survey.rows().skip(1)).zip(survey.neighbours());
    for ((course, row), beside) in courses {
        let Some(reported) = row.reported.severity.filter(|_| beside) else { continue };
        let own = course.arc.severity();
        let allowed = SEVERITY.si() + ROUNDING.si() / course.arc.length().si();
        let excess = (reported - own).abs().si() / allowed;
        if excess > 1.0 {
            count += 1;
            if worst.is_none_or(|(_, _, e)| excess > e) {
                worst = Some((row, own, excess));
            }
        }
    }
    if let Some((row, own, _)) = worst {
        let reported = row.reported.severity.unwrap_or_default();
        let rows = counted(count, "row reports", "rows report");
        let message =
            said!("{rows} a dogleg severity that does not follow from the stations; here it is {own}");
        notes.add(at(&check::REPORTED_SEVERITY, row, message, notes).value(reported).limit(own));
    }
}
