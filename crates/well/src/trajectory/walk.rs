//! Many points of the hole one after another: a walk remembers where it stands, so that each
//! step costs a look at the next station instead of a search.

use super::path::Trajectory;
use super::point::PathPoint;
use quantity::{Length, MeasuredDepth, Quantity, TrueVerticalDepth};

/// A walk along the hole.
#[derive(Debug, Clone, Copy)]
pub struct Walk<'t> {
    path: &'t Trajectory,
    at: usize,
}

impl Walk<'_> {
    /// The point at a depth.
    pub fn position_at(&mut self, md: MeasuredDepth) -> PathPoint {
        self.at = self.path.course_index_from(self.at, md.si());
        self.path.point(self.at, md)
    }

    /// The vertical depth at a depth.
    pub fn tvd_at(&mut self, md: MeasuredDepth) -> TrueVerticalDepth {
        self.at = self.path.course_index_from(self.at, md.si());
        self.path.tvd(self.at, md)
    }
}

impl Trajectory {
    /// A walk from the first station; fast for depths that rise or fall in small steps.
    pub fn walk(&self) -> Walk<'_> {
        Walk { path: self, at: 0 }
    }

    /// Points from `top` to `bottom` no further apart than `step`, both ends included. At most
    /// a million points are given: the step is widened for more.
    pub fn samples(
        &self,
        top: MeasuredDepth,
        bottom: MeasuredDepth,
        step: Length,
    ) -> impl Iterator<Item = PathPoint> + '_ {
        let span = (bottom - top).si().max(0.0);
        let wanted = (span / step.si().max(f64::MIN_POSITIVE)).ceil();
        let count = wanted.clamp(1.0, 1e6) as usize;
        let mut walk = self.walk();
        (0..=count).map(move |k| {
            let md = if k == count { top.si() + span } else { top.si() + span * (k as f64 / count as f64) };
            walk.position_at(MeasuredDepth::m(md))
        })
    }
}
