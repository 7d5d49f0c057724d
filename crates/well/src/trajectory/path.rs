//! The path of the hole: arcs between stations, and every question asked of it.

use super::point::{Coverage, PathPoint};
use super::station::{Frame, Station};
use physics::geometry::{
    Arc, BendComponents, Crossings, Displacement, PathStart, closure, full_circle, half_circle,
    vertical_section,
};
use quantity::{Angle, Curvature, Length, MeasuredDepth, Quantity, TrueVerticalDepth};

/// Stations nearer to each other than this are one.
pub const LEAST_COURSE: Length = Length::mm(10.0);

/// Why stations do not make a path.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PathError {
    /// Fewer than two stations.
    #[error("{0} station makes no path; give two or more")]
    TooFew(usize),
    /// A depth that does not rise.
    #[error("station {index} at {md} is not below the one before it; put the stations in order of depth")]
    Order {
        /// Position in the list, from 0.
        index: usize,
        /// Its depth.
        md: MeasuredDepth,
    },
    /// Two stations no arc joins, or angles out of range.
    #[error("station {index} at {md}: {reason}")]
    Course {
        /// Position of the lower station in the list, from 0.
        index: usize,
        /// Its depth.
        md: MeasuredDepth,
        /// What is wrong.
        reason: physics::Error,
    },
}

/// The path of the hole by minimum curvature.
#[derive(Debug, Clone, PartialEq)]
pub struct Trajectory {
    stations: Vec<Station>,
    nodes: Vec<Node>,
    arcs: Vec<Arc>,
    measured: usize,
    frame: Frame,
}

/// Position of a station, in metres.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Node {
    md: f64,
    north: f64,
    east: f64,
    tvd: f64,
}

/// One course: two stations and the arc between them.
#[derive(Debug, Clone, Copy)]
pub struct Course<'t> {
    /// The station above.
    pub upper: Station,
    /// The station below.
    pub lower: Station,
    /// The arc.
    pub arc: &'t Arc,
}

/// The sharpest course of a stretch of hole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sharpest {
    /// Its dogleg severity.
    pub severity: Curvature,
    /// Its upper station.
    pub top: MeasuredDepth,
    /// Its lower station.
    pub bottom: MeasuredDepth,
}

impl Trajectory {
    /// From stations in order of depth and the coordinates of the first.
    pub fn new(stations: &[Station], start: PathStart, frame: Frame) -> Result<Self, PathError> {
        if stations.len() < 2 {
            return Err(PathError::TooFew(stations.len()));
        }
        let stations = with_azimuths(stations);
        let first = Node {
            md: stations.first().map_or(0.0, |s| s.md.si()),
            north: start.north.si(),
            east: start.east.si(),
            tvd: start.tvd.si(),
        };
        let (mut nodes, mut arcs) = (vec![first], Vec::with_capacity(stations.len()));
        let mut at = first;
        for (index, pair) in stations.windows(2).enumerate() {
            let [upper, lower] = pair else { continue };
            let (index, md) = (index + 1, lower.md);
            if !(md.si() > upper.md.si() && md.is_finite()) {
                return Err(PathError::Order { index, md });
            }
            let arc = Arc::between(md - upper.md, upper.direction(), lower.direction())
                .map_err(|reason| PathError::Course { index, md, reason })?;
            at = at.moved(md.si(), arc.displacement());
            nodes.push(at);
            arcs.push(arc);
        }
        let measured = nodes.len() - 1;
        Ok(Self { stations, nodes, arcs, measured, frame })
    }

    /// The same, its stations from `first` on being projected and not measured.
    pub fn projected_from(mut self, first: usize) -> Self {
        self.measured = first.saturating_sub(1).min(self.nodes.len() - 1);
        self
    }

    /// What its numbers are measured from.
    pub fn frame(&self) -> &Frame {
        &self.frame
    }

    /// The stations; a vertical one has the azimuth of the nearest inclined one.
    pub fn stations(&self) -> &[Station] {
        &self.stations
    }

    /// Every course from the top down.
    pub fn courses(&self) -> impl DoubleEndedIterator<Item = Course<'_>> + ExactSizeIterator {
        let pairs = self.stations.windows(2).zip(&self.arcs);
        pairs.map(|(pair, arc)| Course { upper: pair[0], lower: pair[1], arc })
    }

    /// Depth of the first station.
    pub fn first_md(&self) -> MeasuredDepth {
        MeasuredDepth::m(self.nodes.first().map_or(0.0, |n| n.md))
    }

    /// Depth of the last station, measured or projected.
    pub fn last_md(&self) -> MeasuredDepth {
        MeasuredDepth::m(self.nodes.last().map_or(0.0, |n| n.md))
    }

    /// Depth of the last measured station.
    pub fn last_measured_md(&self) -> MeasuredDepth {
        MeasuredDepth::m(self.nodes.get(self.measured).map_or(0.0, |n| n.md))
    }

    /// By how much the survey is too short to reach a depth; nothing if it reaches it.
    pub fn short_of(&self, md: MeasuredDepth) -> Option<Length> {
        let short = md - self.last_md();
        (short.si() > 0.0).then_some(short)
    }

    /// Whether a depth lies between the first and the last station.
    pub fn covers(&self, md: MeasuredDepth) -> bool {
        md.si() >= self.first_md().si() && md.si() <= self.last_md().si()
    }

    /// The point of the hole at a depth. Above the first station and below the last the hole is
    /// taken straight on, which the point says.
    pub fn position_at(&self, md: MeasuredDepth) -> PathPoint {
        self.point(self.course_index(md.si()), md)
    }

    /// Vertical depth at a depth: quicker than the whole point.
    pub fn tvd_at(&self, md: MeasuredDepth) -> TrueVerticalDepth {
        self.tvd(self.course_index(md.si()), md)
    }

    /// Inclination at a depth: quicker than the whole point.
    pub fn inclination_at(&self, md: MeasuredDepth) -> Angle {
        let (arc, node) = self.course(self.course_index(md.si()));
        arc.inclination_at(on_arc(arc, md.si() - node.md).0)
    }

    /// Build, walk and toolface at a depth; none outside the stations.
    pub fn bend_at(&self, md: MeasuredDepth) -> Option<BendComponents> {
        let (arc, node) = self.course(self.course_index(md.si()));
        self.covers(md).then(|| arc.bend_at(Length::m(md.si() - node.md)))
    }

    /// Dogleg severity of the course at a depth; zero outside the stations.
    pub fn severity_at(&self, md: MeasuredDepth) -> Curvature {
        let (arc, _) = self.course(self.course_index(md.si()));
        if self.covers(md) { arc.severity() } else { Curvature::ZERO }
    }

    /// The sharpest course that reaches into a stretch of hole; none if no course does.
    pub fn max_severity_over(&self, top: MeasuredDepth, bottom: MeasuredDepth) -> Option<Sharpest> {
        let (top, bottom) = (top.si().min(bottom.si()), top.si().max(bottom.si()));
        let first = self.course_index(top);
        let reach = |n: &[Node]| matches!(n, [a, b] if b.md >= top && (a.md < bottom || a.md <= top));
        let nodes = self.nodes.get(first..)?;
        let courses = nodes.windows(2).zip(self.arcs.get(first..)?);
        courses
            .take_while(|(n, _)| matches!(n, [a, _] if a.md <= bottom))
            .filter(|(n, _)| reach(n))
            .map(|(n, arc)| Sharpest {
                severity: arc.severity(),
                top: MeasuredDepth::m(n[0].md),
                bottom: MeasuredDepth::m(n[1].md),
            })
            .max_by(|a, b| a.severity.total_cmp(&b.severity))
    }

    /// Every measured depth at a vertical depth, from the top down; a level stretch gives its
    /// two ends. Only between the stations.
    pub fn mds_at_tvd(&self, tvd: TrueVerticalDepth) -> Vec<MeasuredDepth> {
        let mut found: Vec<f64> = Vec::new();
        for (node, arc) in self.nodes.iter().zip(&self.arcs) {
            let lengths = match arc.crossings(Length::m(tvd.si() - node.tvd)) {
                Crossings::None => [None, None],
                Crossings::Once(s) => [Some(s), None],
                Crossings::Twice(p, q) => [Some(p), Some(q)],
                Crossings::Along => [Some(Length::ZERO), Some(arc.length())],
            };
            found.extend(lengths.into_iter().flatten().map(|s| node.md + s.si()));
        }
        found.dedup_by(|b, a| (*b - *a).abs() < 1e-4);
        found.into_iter().map(MeasuredDepth::m).collect()
    }

    /// Distance along the vertical section at a depth.
    pub fn section_at(&self, md: MeasuredDepth, azimuth: Angle) -> Length {
        let p = self.position_at(md);
        vertical_section(p.north, p.east, azimuth)
    }

    /// Azimuth of the vertical section: the stated one, or the direction to the last station.
    pub fn section_azimuth(&self) -> Angle {
        let (first, last) = (self.nodes.first(), self.nodes.last());
        let step = first.zip(last).map_or((0.0, 0.0), |(f, l)| (l.north - f.north, l.east - f.east));
        self.frame.section_azimuth.unwrap_or(closure(Length::m(step.0), Length::m(step.1)).1)
    }

    /// Azimuths of the stations without the step from 360 to 0 deg, for a plot.
    pub fn unwrapped_azimuths(&self) -> Vec<Angle> {
        let mut at: Option<Angle> = None;
        let unwrap = |s: &Station| {
            let next = at.map_or(full_circle(s.azimuth), |a| a + half_circle(s.azimuth - a));
            at = Some(next);
            next
        };
        self.stations.iter().map(unwrap).collect()
    }

    /// Index of the course a depth lies in; the nearest one outside.
    pub(super) fn course_index(&self, md: f64) -> usize {
        let below = self.nodes.partition_point(|n| n.md <= md);
        below.saturating_sub(1).min(self.arcs.len() - 1)
    }

    /// Index of the course a depth lies in, found by stepping from a nearby one.
    pub(super) fn course_index_from(&self, near: usize, md: f64) -> usize {
        let mut at = near.min(self.arcs.len() - 1);
        while at + 1 < self.arcs.len() && self.nodes.get(at + 1).is_some_and(|n| n.md <= md) {
            at += 1;
        }
        while at > 0 && self.nodes.get(at).is_some_and(|n| n.md > md) {
            at -= 1;
        }
        at
    }

    pub(super) fn tvd(&self, index: usize, md: MeasuredDepth) -> TrueVerticalDepth {
        let (arc, node) = self.course(index);
        let (along, past) = on_arc(arc, md.si() - node.md);
        let straight = if past == 0.0 { 0.0 } else { past * arc.inclination_at(along).si().cos() };
        TrueVerticalDepth::m(node.tvd + arc.down_at(along).si() + straight)
    }

    pub(super) fn point(&self, index: usize, md: MeasuredDepth) -> PathPoint {
        let (arc, node) = self.course(index);
        let (along, past) = on_arc(arc, md.si() - node.md);
        let (step, direction) = (arc.displacement_at(along), arc.direction_at(along));
        let (sin_i, cos_i) = direction.inclination.si().sin_cos();
        let (sin_a, cos_a) = direction.azimuth.si().sin_cos();
        let coverage = self.coverage(md, past);
        PathPoint {
            md,
            north: Length::m(node.north + step.north.si() + past * sin_i * cos_a),
            east: Length::m(node.east + step.east.si() + past * sin_i * sin_a),
            tvd: TrueVerticalDepth::m(node.tvd + step.down.si() + past * cos_i),
            inclination: direction.inclination,
            azimuth: direction.azimuth,
            severity: if coverage.is_extrapolated() { Curvature::ZERO } else { arc.severity() },
            coverage,
        }
    }

    fn coverage(&self, md: MeasuredDepth, past: f64) -> Coverage {
        if past < 0.0 {
            Coverage::Above(Length::m(-past))
        } else if past > 0.0 {
            Coverage::Beyond(Length::m(past))
        } else if md.si() > self.last_measured_md().si() {
            Coverage::Projected
        } else {
            Coverage::Surveyed
        }
    }

    /// A course by index; there is always one.
    fn course(&self, index: usize) -> (&Arc, Node) {
        (&self.arcs[index], self.nodes[index])
    }
}

impl Node {
    fn moved(self, md: f64, step: Displacement) -> Self {
        Self {
            md,
            north: self.north + step.north.si(),
            east: self.east + step.east.si(),
            tvd: self.tvd + step.down.si(),
        }
    }
}

/// A length from the upper station as a length on the arc, and how far it lies past an end.
fn on_arc(arc: &Arc, from_upper: f64) -> (Length, f64) {
    let along = from_upper.clamp(0.0, arc.length().si());
    (Length::m(along), from_upper - along)
}

/// Stations with the azimuth of the nearest inclined one where they are vertical: the next one
/// below, or the last one above.
fn with_azimuths(stations: &[Station]) -> Vec<Station> {
    let carry = |last: &mut Option<Angle>, s: &Station| {
        *last = if s.direction().has_azimuth() { Some(s.azimuth) } else { *last };
        Some(*last)
    };
    let above = stations.iter().scan(None, carry);
    let mut below: Vec<Option<Angle>> = stations.iter().rev().scan(None, carry).collect();
    below.reverse();
    let nearest = below.into_iter().zip(above);
    let all = stations.iter().zip(nearest);
    all.map(|(s, (b, a))| Station { azimuth: b.or(a).unwrap_or(s.azimuth), ..*s }).collect()
}
