//! The way of fluid and balls from the flow meter to the toe, laid out along the volume inside:
//! what lies above any volume of bore, depth, and seats.

use physics::hydraulics::seat::seat_loss;
use plan::ladder::LadderPlan;
use plan::layout::Layout;
use plan::path::{FlowPath, PathSegment};
use plan::stages::pressure::{bores, seat_model};
use quantity::*;
use well::Job;

/// Longest piece along which the vertical depth is taken as straight, m. On a bend of 12 deg a
/// hundred feet the middle of such a piece is off by a tenth of a millimetre.
const PIECE: f64 = 10.0;

/// One bore of the way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bore {
    /// Diameter.
    pub bore: Diameter,
    /// Roughness of the wall.
    pub roughness: Diameter,
}

/// A seat on the way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seat {
    /// Stage it belongs to.
    pub stage: usize,
    /// Measured depth of seat and ports.
    pub depth: MeasuredDepth,
    /// Bore of the seat.
    pub bore: Diameter,
    /// Volume from the meter, m³.
    pub(crate) volume: f64,
    /// Loss coefficient over the square of the throat area, 1/m⁴.
    pub(crate) loss: f64,
}

/// A point of the way where something changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Knot {
    /// Volume from the meter, m³.
    pub volume: f64,
    /// Measured depth, m.
    pub md: f64,
    /// Vertical depth, m.
    pub tvd: f64,
    /// Bore below it.
    pub bore: usize,
    /// Inclination at the middle of the piece below it, rad.
    pub inclination: f64,
}

/// A place on the way: what lies above it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Above {
    /// Knot above it.
    pub knot: usize,
    /// Share of the way to the next one.
    pub share: f64,
    /// Vertical depth, m.
    pub tvd: f64,
}

/// The way, from the meter to the toe tool.
#[derive(Debug, Clone, PartialEq)]
pub struct Route {
    knots: Vec<Knot>,
    bores: Vec<Bore>,
    /// Length of every bore above every knot, m; a row a knot.
    lengths: Vec<f64>,
    seats: Vec<Seat>,
    /// Volume from the meter to the launcher, m³.
    launcher: f64,
    /// Volume from the meter to the wellhead, m³.
    wellhead: f64,
}

impl Route {
    /// The way through the strings of a job with its layout and ladder.
    pub fn of(job: &Job, layout: &Layout, ladder: &LadderPlan) -> physics::Result<Self> {
        let path = FlowPath::of(job, layout);
        let launcher = job.file.launcher.line_volume.si();
        let wellhead = launcher + job.file.launcher.tree_volume.si();
        let segments = path.down_to(layout.toe_tool);
        let list: Vec<Bore> =
            bores(&segments).iter().map(|b| Bore { bore: b.bore, roughness: b.roughness }).collect();
        let mut marks: Vec<f64> = layout.stages.iter().map(|s| s.sleeve.ports.si()).collect();
        marks.extend(job.trajectory.stations().iter().map(|s| s.md.si()));
        let mut route = Self {
            knots: Vec::new(),
            bores: list,
            lengths: Vec::new(),
            seats: Vec::new(),
            launcher,
            wellhead,
        };
        route.lay(job, &segments, marks);
        for stage in &layout.stages {
            let Some(bore) = ladder.seat(stage.stage) else { continue };
            let loss = seat_loss(seat_model(job), bore, job.file.sleeve.id)?;
            route.seats.push(Seat {
                stage: stage.stage,
                depth: stage.sleeve.ports,
                bore,
                volume: route.volume_at(stage.sleeve.ports.si()),
                loss: loss.coefficient / loss.throat.si().powi(2),
            });
        }
        route.seats.sort_by(|a, b| a.volume.total_cmp(&b.volume));
        Ok(route)
    }

    fn lay(&mut self, job: &Job, segments: &[PathSegment], mut marks: Vec<f64>) {
        marks.sort_by(f64::total_cmp);
        let mut volume = self.wellhead;
        let mut lengths = vec![0.0; self.bores.len()];
        let mut walk = job.trajectory.walk();
        for s in segments {
            let at = self.bores.iter().position(|b| b.bore == s.bore && b.roughness == s.roughness);
            let Some(bore) = at else { continue };
            let area = s.bore.circle().si();
            for (top, bottom) in pieces(s.top.si(), s.bottom.si(), &marks) {
                let tvd = walk.tvd_at(MeasuredDepth::m(top)).si();
                let middle = MeasuredDepth::m(0.5 * (top + bottom));
                let inclination = job.trajectory.inclination_at(middle).si();
                self.knots.push(Knot { volume, md: top, tvd, bore, inclination });
                self.lengths.extend_from_slice(&lengths);
                volume += (bottom - top) * area;
                if let Some(length) = lengths.get_mut(bore) {
                    *length += bottom - top;
                }
            }
        }
        if let Some(last) = segments.last() {
            let md = last.bottom.si();
            let tvd = walk.tvd_at(last.bottom).si();
            let (bore, inclination) = self.knots.last().map_or((0, 0.0), |k| (k.bore, k.inclination));
            self.knots.push(Knot { volume, md, tvd, bore, inclination });
            self.lengths.extend_from_slice(&lengths);
        }
    }

    /// Bores of the way.
    pub fn bores(&self) -> &[Bore] {
        &self.bores
    }

    /// Seats on the way, heel first.
    pub fn seats(&self) -> &[Seat] {
        &self.seats
    }

    /// Changes the loss of the seat of a stage.
    pub(crate) fn set_loss(&mut self, stage: usize, loss: f64) {
        if let Some(seat) = self.seats.iter_mut().find(|s| s.stage == stage) {
            seat.loss = loss;
        }
    }

    /// Volume from the meter to the launcher.
    pub fn to_launcher(&self) -> Volume {
        Volume::m3(self.launcher)
    }

    /// Volume from the meter to a depth; that of the nearer end beyond the way.
    pub fn to_depth(&self, depth: MeasuredDepth) -> Volume {
        Volume::m3(self.volume_at(depth.si()))
    }

    pub(crate) fn knots(&self) -> &[Knot] {
        &self.knots
    }

    pub(crate) fn wellhead(&self) -> f64 {
        self.wellhead
    }

    /// Volume from the meter to a measured depth, m³ at m.
    pub(crate) fn volume_at(&self, md: f64) -> f64 {
        let i = self.knots.partition_point(|k| k.md <= md).saturating_sub(1);
        match (self.knots.get(i), self.knots.get(i + 1)) {
            (Some(a), Some(b)) if b.md > a.md => {
                a.volume + (b.volume - a.volume) * ((md - a.md) / (b.md - a.md)).clamp(0.0, 1.0)
            }
            (Some(a), _) => a.volume,
            _ => self.wellhead,
        }
    }

    /// The place at a volume from the meter, at or below the knot `from`; the surface lines above
    /// the wellhead count as the wellhead.
    pub(crate) fn above(&self, volume: f64, from: usize) -> Above {
        let deeper = self.knots.get(from + 1..).unwrap_or_default();
        let i = from + deeper.partition_point(|k| k.volume <= volume);
        match (self.knots.get(i), self.knots.get(i + 1)) {
            (Some(a), Some(b)) if b.volume > a.volume => {
                let share = ((volume - a.volume) / (b.volume - a.volume)).clamp(0.0, 1.0);
                Above { knot: i, share, tvd: a.tvd + share * (b.tvd - a.tvd) }
            }
            (Some(a), _) => Above { knot: i, share: 0.0, tvd: a.tvd },
            _ => Above { knot: 0, share: 0.0, tvd: 0.0 },
        }
    }

    /// Value of a profile over the knots at a place.
    pub(crate) fn of_profile(&self, profile: &[f64], at: &Above) -> f64 {
        match (profile.get(at.knot), profile.get(at.knot + 1)) {
            (Some(a), Some(b)) => a + at.share * (b - a),
            (Some(a), None) => *a,
            _ => 0.0,
        }
    }

    /// Friction pressure between two places at a gradient in every bore, Pa.
    pub(crate) fn friction(&self, upper: &Above, lower: &Above, gradients: &[f64]) -> f64 {
        let n = self.bores.len();
        let row = |i: usize| self.lengths.get(i * n..(i + 1) * n).unwrap_or_default();
        let within = |at: &Above| {
            let (a, b) = (self.knots.get(at.knot), self.knots.get(at.knot + 1));
            let (Some(a), Some(b)) = (a, b) else { return 0.0 };
            at.share * (b.md - a.md) * gradients.get(a.bore).copied().unwrap_or(0.0)
        };
        let whole: f64 =
            row(upper.knot).iter().zip(row(lower.knot)).zip(gradients).map(|((a, b), g)| (b - a) * g).sum();
        whole + within(lower) - within(upper)
    }
}

/// A stretch cut at the marks inside it and into pieces no longer than [`PIECE`].
fn pieces(top: f64, bottom: f64, marks: &[f64]) -> Vec<(f64, f64)> {
    let inside = marks.iter().copied().filter(|m| *m > top + 1e-6 && *m < bottom - 1e-6);
    let mut ends: Vec<f64> = inside.collect();
    ends.push(bottom);
    ends.dedup_by(|b, a| *b - *a < 1e-6);
    let (mut out, mut at) = (Vec::new(), top);
    for end in ends {
        let count = ((end - at) / PIECE).ceil().max(1.0);
        let step = (end - at) / count;
        for i in 0..count as usize {
            let low = if i + 1 == count as usize { end } else { at + step * (i as f64 + 1.0) };
            out.push((at + step * i as f64, low));
        }
        at = end;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces_join_without_a_gap() {
        let list = pieces(3.0, 100.0, &[1.0, 50.0, 50.0, 99.9999999]);
        assert_eq!(list.first().map(|p| p.0), Some(3.0));
        assert_eq!(list.last().map(|p| p.1), Some(100.0));
        assert!(list.windows(2).all(|w| w[0].1 == w[1].0));
        assert!(list.iter().all(|(a, b)| b > a && b - a <= PIECE + 1e-9));
        assert!(list.iter().any(|p| p.0 == 50.0));
    }
}
