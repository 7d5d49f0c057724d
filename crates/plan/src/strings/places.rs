//! The places of a string where its loads are looked at, and what holds it there.

use quantity::*;
use well::job::StringRole;
use well::{Job, PipeString};

use super::result::LoadPoint;
use super::surroundings::{Spot, Surroundings};
use crate::layout::Layout;

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
    /// Seat just below that a ball may close.
    pub seat: Option<Diameter>,
}

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
        Place { point, spot, held: Some(spot), seat: None }
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

/// A treating string, held between its two ends.
fn treating(around: &Surroundings<'_>, string: &PipeString) -> Vec<Place> {
    let packer = around.layout.casing_packer_top;
    let (top, mut bottom) = (string.table.top, string.table.bottom.min(packer));
    let deepest = around.job.strings.iter().filter(|s| s.table.role == StringRole::Treating);
    let last = deepest.map(|s| s.table.bottom).fold(MeasuredDepth::ZERO, MeasuredDepth::max);
    let lands = string.table.bottom >= last;
    if lands {
        bottom = packer;
    }
    if bottom <= top {
        return Vec::new();
    }
    let held = Some(around.mean(top, bottom));
    let lower = if lands { LoadPoint::CasingPacker } else { LoadPoint::Bottom };
    let place = |point, depth| Place { point, spot: around.spot(depth), held, seat: None };
    vec![place(LoadPoint::Top, top), place(lower, bottom)]
}

/// The liner: under the casing packer, above the widest seat, and its free end.
fn liner(around: &Surroundings<'_>) -> Vec<Place> {
    let layout = around.layout;
    let mut out = Vec::new();
    let hanger = hanger(around.job, layout);
    if let Some(last) = layout.stages.last() {
        let held = Some(around.mean(hanger, last.packer.element_top));
        out.push(Place { point: LoadPoint::CasingPacker, spot: around.spot(hanger), held, seat: None });
        if layout.stages.len() > 1 && last.sleeve.opened_by_ball {
            let held = Some(around.mean(last.heel_end, last.toe_end));
            let (spot, seat) = (around.spot(last.sleeve.ports), Some(widest_seat(around.job)));
            out.push(Place { point: LoadPoint::WidestSeat, spot, held, seat });
        }
    }
    out.push(Place { point: LoadPoint::Bottom, spot: around.spot(layout.toe_tool), held: None, seat: None });
    out
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
