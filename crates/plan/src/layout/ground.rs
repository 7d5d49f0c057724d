//! The ground of a real job: survey, caliper, rock and the supplier's ratings behind the
//! questions the layout asks.

use quantity::*;
use well::Job;

use super::problem::{Ground, Size};
use crate::rock::{packer_duty, packer_rating};

/// The job as ground.
pub struct JobGround<'a> {
    job: &'a Job,
}

impl<'a> JobGround<'a> {
    /// For a job.
    pub fn new(job: &'a Job) -> Self {
        Self { job }
    }

    /// A stretch clipped to the hole.
    fn clip(&self, top: f64, bottom: f64) -> (MeasuredDepth, MeasuredDepth) {
        let (first, last) = (self.job.hole.top().si(), self.job.hole.bottom().si());
        let top = top.clamp(first, last);
        (MeasuredDepth::m(top), MeasuredDepth::m(bottom.clamp(top, last)))
    }
}

impl Ground for JobGround<'_> {
    fn size(&self, top: f64, bottom: f64, widen: f64) -> Size {
        let (worst, least) = self.extremes(top - widen, bottom + widen);
        let (a, b) = self.clip(top, bottom);
        let window = well::hole::Window::exact(a, b - a, Diameter::m(worst));
        match self.job.hole.window(&window) {
            Ok(s) => Size { least, p10: s.p10.si(), p50: s.p50.si(), p90: s.p90.si(), worst },
            Err(_) => Size { least, p10: least, p50: worst, p90: worst, worst },
        }
    }

    fn extremes(&self, top: f64, bottom: f64) -> (f64, f64) {
        let (a, b) = self.clip(top, bottom);
        let worst = self.job.hole.largest(a, b).map_or(f64::INFINITY, |d| d.si());
        let least = self.job.hole.smallest(a, b).map_or(0.0, |d| d.si());
        (worst, least)
    }

    fn sharpest_bend(&self, top: f64, bottom: f64) -> f64 {
        let (a, b) = (MeasuredDepth::m(top), MeasuredDepth::m(bottom));
        self.job.trajectory.max_severity_over(a, b).map_or(0.0, |s| s.severity.si())
    }

    fn quality(&self, depth: f64) -> f64 {
        let quality = self.job.quality.as_ref().and_then(|q| q.at(MeasuredDepth::m(depth)));
        quality.map_or(0.5, |q| q.si())
    }

    fn hottest(&self, top: f64, bottom: f64) -> f64 {
        let at = |d: f64| self.job.rock_temperature(self.job.trajectory.tvd_at(MeasuredDepth::m(d))).si();
        at(top).max(at(bottom))
    }

    fn rating(&self, hole: f64, temperature: f64) -> Option<f64> {
        packer_rating(&self.job.file.packer, Diameter::m(hole), Temperature::kelvin(temperature))
            .map(|p| p.si())
    }

    fn needed(&self, depth: f64, stage: usize) -> f64 {
        packer_duty(self.job, MeasuredDepth::m(depth), stage).si()
    }

    fn depth_sigma(&self, depth: f64) -> f64 {
        self.job.depth_sigma(MeasuredDepth::m(depth)).si()
    }
}
