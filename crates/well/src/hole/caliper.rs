//! A caliper: the measured diameter of the hole against depth.

use crate::Read;
use crate::hole::check;
use quantity::{Diameter, Length, MeasuredDepth, Quantity, Ratio, said};

/// One reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sample {
    /// Where.
    pub depth: MeasuredDepth,
    /// The diameter; `None` where the reading was left out.
    pub diameter: Option<Diameter>,
    /// The diameter across the first, if a second arm was run.
    pub across: Option<Diameter>,
}

/// A stretch between two readings that is not bridged.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Gap {
    /// The last reading above.
    pub top: MeasuredDepth,
    /// The first reading below.
    pub bottom: MeasuredDepth,
}

/// Readings of the hole diameter, downward, without those left out.
#[derive(Debug, Clone)]
pub struct Caliper {
    source: String,
    depth: Vec<MeasuredDepth>,
    diameter: Vec<Diameter>,
    across: Vec<Diameter>,
    gaps: Vec<Gap>,
    bridge: Length,
}

impl Caliper {
    /// A gap shorter than this is bridged by a straight line unless said otherwise.
    pub const BRIDGE: Length = Length::m(1.0);

    /// A caliper from readings in any order. Between readings no further apart than `bridge` (or
    /// two and a half times the usual spacing, if that is more) the diameter is taken as a
    /// straight line. Of two readings at one depth the larger is kept.
    pub fn new(source: &str, samples: impl IntoIterator<Item = Sample>, bridge: Length) -> Read<Self> {
        let mut findings = Vec::new();
        let mut kept: Vec<Sample> = samples.into_iter().filter(usable).collect();
        if kept.is_empty() {
            findings.push(check::CALIPER_EMPTY.found(said!("the caliper {source} has no usable reading")));
            return Read::none(findings);
        }
        if !kept.is_sorted_by(|a, b| a.depth < b.depth) {
            if !kept.is_sorted_by(|a, b| a.depth > b.depth) {
                let message =
                    said!("the readings of the caliper {source} do not run one way; they are put in order");
                findings.push(check::CALIPER_ORDER.found(message));
            }
            kept.sort_by(|a, b| a.depth.total_cmp(&b.depth));
        }
        let before = kept.len();
        kept.dedup_by(|later, first| {
            let same = later.depth == first.depth;
            if same {
                first.diameter = larger(first.diameter, later.diameter);
                first.across = larger(first.across, later.across);
            }
            same
        });
        if kept.len() < before {
            let message =
                said!("{} depths have more than one reading; the larger is kept", before - kept.len());
            findings.push(check::CALIPER_ORDER.found(message));
        }
        let two = kept.iter().any(|s| s.across.is_some());
        let depth: Vec<MeasuredDepth> = kept.iter().map(|s| s.depth).collect();
        let diameter: Vec<Diameter> = kept.iter().filter_map(|s| s.diameter).collect();
        let across = match two {
            true => kept.iter().filter_map(|s| s.across.or(s.diameter)).collect(),
            false => Vec::new(),
        };
        let bridge = bridge.max(median_step(&depth) * 2.5);
        let gaps = gaps(&depth, bridge);
        Read::some(Self { source: source.to_string(), depth, diameter, across, gaps, bridge }, findings)
    }

    /// What it was taken from.
    pub fn source(&self) -> &str {
        &self.source
    }

    /// Depths, increasing.
    pub fn depth(&self) -> &[MeasuredDepth] {
        &self.depth
    }

    /// Diameters, one a depth.
    pub fn diameter(&self) -> &[Diameter] {
        &self.diameter
    }

    /// Diameters across the first, one a depth; empty if one arm was run.
    pub fn across(&self) -> &[Diameter] {
        &self.across
    }

    /// Stretches that are not bridged.
    pub fn gaps(&self) -> &[Gap] {
        &self.gaps
    }

    /// Readings closer than this are joined by a straight line.
    pub fn bridge(&self) -> Length {
        self.bridge
    }

    /// The readings, with both arms.
    pub(super) fn samples(&self) -> impl Iterator<Item = Sample> {
        self.depth.iter().zip(&self.diameter).enumerate().map(|(at, (depth, diameter))| Sample {
            depth: *depth,
            diameter: Some(*diameter),
            across: self.across.get(at).copied(),
        })
    }

    /// The same with every depth moved by `shift`, without the readings `keep` refuses, and how
    /// many those are. `None` if no reading is left.
    pub(super) fn revised(
        &self,
        shift: Length,
        mut keep: impl FnMut(&Sample) -> bool,
    ) -> (Option<Self>, usize) {
        let moved = self.samples().map(|s| Sample { depth: s.depth + shift, ..s });
        let kept: Vec<Sample> = moved.filter(|s| keep(s)).collect();
        let refused = self.depth.len() - kept.len();
        (Self::new(&self.source, kept, self.bridge).value, refused)
    }

    /// Length of the stretches longer than the usual spacing that are bridged by a straight line.
    pub fn bridged(&self) -> Length {
        let usual = median_step(&self.depth) * 1.5;
        steps(&self.depth).filter(|s| *s > usual && *s <= self.bridge).sum()
    }
}

fn usable(sample: &Sample) -> bool {
    let good = |d: Diameter| d.is_finite() && d > Diameter::ZERO;
    sample.depth.is_finite() && sample.diameter.is_some_and(good) && sample.across.is_none_or(good)
}

fn larger(a: Option<Diameter>, b: Option<Diameter>) -> Option<Diameter> {
    match (a, b) {
        (Some(a), Some(b)) => Some(a.max(b)),
        (a, b) => a.or(b),
    }
}

fn steps(depth: &[MeasuredDepth]) -> impl Iterator<Item = Length> {
    depth.iter().zip(depth.iter().skip(1)).map(|(a, b)| *b - *a)
}

fn median_step(depth: &[MeasuredDepth]) -> Length {
    let mut all: Vec<Length> = steps(depth).collect();
    if all.is_empty() {
        return Length::ZERO;
    }
    let middle = all.len() / 2;
    *all.select_nth_unstable_by(middle, Length::total_cmp).1
}

fn gaps(depth: &[MeasuredDepth], bridge: Length) -> Vec<Gap> {
    let pairs = depth.iter().zip(depth.iter().skip(1));
    pairs.filter(|(a, b)| **b - **a > bridge).map(|(a, b)| Gap { top: *a, bottom: *b }).collect()
}

/// How far from round: the difference of two diameters across each other over their mean.
pub(super) fn ovality(a: f64, b: f64) -> Ratio {
    let sum = a + b;
    Ratio::of(if sum > 0.0 { 2.0 * (a - b).abs() / sum } else { 0.0 })
}
