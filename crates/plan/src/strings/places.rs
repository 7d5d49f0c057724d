//! The places of a string where its loads are looked at, and what holds it there.

use quantity::*;
use well::job::StringRole;
use well::{Job, PipeString};

use super::result::LoadPoint;
use super::surroundings::{Spot, Surroundings};
use crate::layout::Layout;

/// A place and the seat a ball may close beside it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum SeatSide {
    /// No seat near.
    Away,
    /// Just above a seat of this bore, in a stage that is treated.
    Above(Diameter),
    /// Just below it, still in the stage that is treated.
    Below,
}

/// A place of a string.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Place {
    /// Which.
    pub point: LoadPoint,
    /// Where.
    pub spot: Spot,
    /// Mean of the stretch that is held at both ends once the packers have set; none for an end
    /// that stays free.
    pub held: Option<Spot>,
    /// Which side of a seat it is on.
    pub seat: SeatSide,
    /// Bend of the pipe there.
    pub bend: Curvature,
}

/// How far from a place its bend is looked for, either way.
const REACH: Length = Length::m(15.0);

/// The places of a string.
pub(super) fn places(around: &Surroundings<'_>, string: &PipeString) -> Vec<Place> {
    match string.table.role {
        StringRole::Casing => casing(around, string),
        StringRole::Treating => treating(around, string),
        StringRole::Liner => liner(around),
    }
}

/// Cemented casing, held everywhere; only where no smaller casing stands inside it.
fn casing(around: &Surroundings<'_>, string: &PipeString) -> Vec<Place> {
    let (top, bottom) = (string.table.top, exposed_to(around.job, string));
    let packer = around.layout.casing_packer_top;
    let place = |point, depth| {
        let spot = around.spot(depth);
        Place { point, spot, held: Some(spot), seat: SeatSide::Away, bend: bend_at(around.job, depth) }
    };
    let mut out = Vec::new();
    if bottom > top {
        out.push(place(LoadPoint::Top, top));
        if packer > top && packer < bottom {
            out.push(place(LoadPoint::CasingPacker, packer));
        }
        out.push(place(LoadPoint::Bottom, bottom));
    }
    out
}

/// How far down a casing is the innermost.
fn exposed_to(job: &Job, string: &PipeString) -> MeasuredDepth {
    let inner = job.strings.iter().filter(|s| {
        let covers = s.table.bottom > string.table.top && s.table.top < string.table.bottom;
        s.table.role == StringRole::Casing && covers && s.pipe.outer() < string.pipe.outer()
    });
    inner.map(|s| s.table.top).fold(string.table.bottom, MeasuredDepth::min)
}

/// The stretch of a treating string: to the casing packer where it is the deepest.
fn treating_stretch(
    around: &Surroundings<'_>,
    string: &PipeString,
) -> (MeasuredDepth, MeasuredDepth, LoadPoint) {
    let packer = around.layout.casing_packer_top;
    let all = around.job.strings.iter().filter(|s| s.table.role == StringRole::Treating);
    let deepest = all.map(|s| s.table.bottom).fold(MeasuredDepth::ZERO, MeasuredDepth::max);
    if string.table.bottom >= deepest {
        (string.table.top, packer, LoadPoint::CasingPacker)
    } else {
        (string.table.top, string.table.bottom.min(packer), LoadPoint::Bottom)
    }
}

/// A treating string, held between its two ends.
fn treating(around: &Surroundings<'_>, string: &PipeString) -> Vec<Place> {
    let (top, bottom, lower) = treating_stretch(around, string);
    if bottom <= top {
        return Vec::new();
    }
    let held = Some(around.mean(top, bottom));
    let place = |point, depth| {
        let bend = bend_at(around.job, depth);
        Place { point, spot: around.spot(depth), held, seat: SeatSide::Away, bend }
    };
    vec![place(LoadPoint::Top, top), place(lower, bottom)]
}

/// The liner: under the casing packer, above and below the widest seat, and its free end. The bend
/// at the widest seat is the sharpest of the whole interval with seats.
fn liner(around: &Surroundings<'_>) -> Vec<Place> {
    let (job, layout) = (around.job, around.layout);
    let place = |point, depth, held| {
        let bend = bend_at(job, depth);
        Place { point, spot: around.spot(depth), held, seat: SeatSide::Away, bend }
    };
    let mut out = Vec::new();
    if let Some(last) = layout.stages.last() {
        let hanger = hanger(job, layout);
        let held = around.mean(hanger, last.packer.element_top);
        out.push(place(LoadPoint::CasingPacker, hanger, Some(held)));
        if layout.stages.len() > 1 && last.sleeve.opened_by_ball {
            let held = around.mean(last.heel_end, last.toe_end);
            let bend = sharpest(job, last.heel_end, layout.shoe);
            let at = |point, seat| Place { seat, bend, ..place(point, last.sleeve.ports, Some(held)) };
            out.push(at(LoadPoint::WidestSeat, SeatSide::Above(widest_seat(job))));
            out.push(at(LoadPoint::BelowSeat, SeatSide::Below));
        }
    }
    out.push(place(LoadPoint::Bottom, layout.toe_tool, None));
    out
}

/// Every end of a survey course in a string, with the sharper bend beside it: where the worst
/// bend is looked for. In the liner only above the first open-hole packer; the widest seat stands
/// for the rest.
pub(super) fn bends(around: &Surroundings<'_>, string: &PipeString) -> Vec<Place> {
    let (job, layout) = (around.job, around.layout);
    let (top, bottom) = match string.table.role {
        StringRole::Casing => (string.table.top, exposed_to(job, string)),
        StringRole::Treating => {
            let (top, bottom, _) = treating_stretch(around, string);
            (top, bottom)
        }
        StringRole::Liner => {
            let first = layout.stages.last().map_or(layout.shoe, |s| s.packer.element_top);
            (hanger(job, layout), first)
        }
    };
    if bottom <= top {
        return Vec::new();
    }
    let mean = around.mean(top, bottom);
    let mut out = Vec::new();
    for course in job.trajectory.courses() {
        let (upper, lower) = (course.upper.md.max(top), course.lower.md.min(bottom));
        if lower <= upper {
            continue;
        }
        for depth in [upper, lower] {
            let spot = around.spot(depth);
            let held = if string.table.role == StringRole::Casing { spot } else { mean };
            let (point, bend) = (LoadPoint::WorstBend, course.arc.severity());
            out.push(Place { point, spot, held: Some(held), seat: SeatSide::Away, bend });
        }
    }
    out
}

/// The sharpest bend of a stretch of hole.
pub(super) fn sharpest(job: &Job, top: MeasuredDepth, bottom: MeasuredDepth) -> Curvature {
    job.trajectory.max_severity_over(top, bottom).map_or(Curvature::ZERO, |s| s.severity)
}

/// The sharpest bend near a depth.
fn bend_at(job: &Job, depth: MeasuredDepth) -> Curvature {
    sharpest(job, depth - REACH, depth + REACH)
}

/// Lower end of the casing packer, where the liner begins.
pub(crate) fn hanger(job: &Job, layout: &Layout) -> MeasuredDepth {
    layout.casing_packer_top + job.file.casing_packer.length
}

/// No seat of the ladder is wider: the widest given, or the largest ball less its interference,
/// within what fits the sleeve.
fn widest_seat(job: &Job) -> Diameter {
    let ladder = &job.file.ladder;
    let given = ladder.rung.iter().map(|r| r.seat).reduce(Diameter::max);
    let interference = ladder.interference.unwrap_or(Diameter::ZERO);
    let below_ball = ladder.largest_ball.map(|b| b - interference);
    given.or(below_ball).map_or(job.file.sleeve.largest_seat, |d| d.min(job.file.sleeve.largest_seat))
}
