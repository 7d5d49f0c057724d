//! The diameter of the hole along its whole depth: pieces of straight wall, one after the other,
//! with running sums and tables over them, so that any stretch is looked up and not walked.

use crate::hole::caliper::{Caliper, ovality};
use crate::hole::extremes::Largest;
use crate::hole::section::{Section, SectionKind};
use crate::hole::volume::frustum;
use quantity::{Diameter, Length, MeasuredDepth, Quantity, Ratio};

/// Where a diameter comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Source {
    /// Inner diameter of the casing.
    Casing,
    /// Measured by the caliper.
    Caliper,
    /// Bit size, for want of a caliper.
    Bit,
}

/// The hole at one depth.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Local {
    /// Diameter of the circle of the same area.
    pub diameter: Diameter,
    /// The larger of two arms, or the diameter.
    pub large: Diameter,
    /// The smaller of two arms, or the diameter.
    pub small: Diameter,
    /// Where it comes from.
    pub source: Source,
}

/// A stretch the hole does not have.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum HoleError {
    /// A depth outside the hole.
    #[error(
        "{} is outside the hole, which runs from {} to {}; check the depth or the sections",
        .asked, .top, .bottom
    )]
    Outside {
        /// The depth asked for.
        asked: MeasuredDepth,
        /// Top of the hole.
        top: MeasuredDepth,
        /// Bottom of the hole.
        bottom: MeasuredDepth,
    },
    /// A bottom above its top.
    #[error("{} is above {}; give the upper depth first", .bottom, .top)]
    Reversed {
        /// The first depth.
        top: MeasuredDepth,
        /// The second depth.
        bottom: MeasuredDepth,
    },
    /// A depth uncertainty that is no number.
    #[error("a depth uncertainty of {} times {} is not finite; check both", .sigma, .factor.si())]
    Uncertainty {
        /// The standard deviation.
        sigma: Length,
        /// How many of them.
        factor: Ratio,
    },
}

/// A stretch of straight wall. Depths and diameters in m, at its top and bottom.
#[derive(Debug, Clone, Copy)]
pub(super) struct Piece {
    pub(super) top: f64,
    pub(super) bottom: f64,
    /// Diameter of the circle of the same area.
    pub(super) even: [f64; 2],
    /// The larger arm.
    pub(super) large: [f64; 2],
    /// The smaller arm.
    pub(super) small: [f64; 2],
    pub(super) source: Source,
}

impl Piece {
    fn at(ends: [f64; 2], share: f64) -> f64 {
        let [a, b] = ends;
        (a + (b - a) * share).clamp(a.min(b), a.max(b))
    }

    fn share(&self, depth: f64) -> f64 {
        ((depth - self.top) / (self.bottom - self.top)).clamp(0.0, 1.0)
    }

    /// The part between two depths.
    pub(super) fn cut(&self, top: f64, bottom: f64) -> Piece {
        let (a, b) = (self.share(top), self.share(bottom));
        let cut = |ends| [Self::at(ends, a), Self::at(ends, b)];
        Piece {
            top: top.clamp(self.top, self.bottom),
            bottom: bottom.clamp(self.top, self.bottom),
            even: cut(self.even),
            large: cut(self.large),
            small: cut(self.small),
            source: self.source,
        }
    }

    fn slope(&self) -> f64 {
        let steepest = |[a, b]: [f64; 2]| (b - a).abs();
        match self.source {
            Source::Caliper => steepest(self.large).max(steepest(self.small)) / (self.bottom - self.top),
            Source::Casing | Source::Bit => 0.0,
        }
    }

    /// Out of round: greatest at an end, as it is a ratio of straight lines.
    fn ovality(&self) -> f64 {
        let [a, b] = [0, 1].map(|end| ovality(self.large[end], self.small[end]).si());
        a.max(b)
    }
}

/// Where to look for a depth among the pieces: the hole in as many even steps as there are pieces,
/// with the number of pieces that end above each step. A search over all of them would touch a
/// dozen far places of the memory.
#[derive(Debug, Clone)]
struct Steps {
    top: f64,
    per_length: f64,
    ended: Vec<usize>,
}

impl Steps {
    fn new(pieces: &[Piece]) -> Self {
        let (top, bottom) = (pieces.first().map_or(0.0, |p| p.top), pieces.last().map_or(0.0, |p| p.bottom));
        let count = pieces.len().max(1);
        let length = (bottom - top) / count as f64;
        let mut at = 0;
        let ended = (0..count).map(|step| {
            let from = top + length * step as f64;
            while pieces.get(at).is_some_and(|p| p.bottom < from) {
                at += 1;
            }
            at
        });
        Self { top, per_length: 1.0 / length, ended: ended.collect() }
    }

    /// A run of pieces that holds the piece at a depth and its neighbours; a step more on each
    /// side covers rounding.
    fn around(&self, depth: f64) -> std::ops::Range<usize> {
        let step = ((depth - self.top) * self.per_length).max(0.0) as usize;
        let count = self.ended.len();
        let first = self.ended.get(step.min(count).saturating_sub(1)).copied().unwrap_or(0);
        let end = self.ended.get(step.saturating_add(2)).map_or(count, |n| n + 2);
        first.saturating_sub(1)..end.min(count)
    }
}

/// The hole in pieces.
#[derive(Debug, Clone)]
pub(super) struct Profile {
    pieces: Vec<Piece>,
    steps: Steps,
    /// Sums over all pieces above each, and at the end over all.
    volume: Vec<f64>,
    width: Vec<f64>,
    measured: Vec<f64>,
    large: Largest,
    /// The smaller arm, negated.
    small: Largest,
    slope: Largest,
    oval: Option<Largest>,
}

/// Depths are exact to this, m: what adding a length to a depth may be off by.
const ROUNDING: f64 = 1e-6;
/// Pieces shorter than this are left out, m.
const SHORTEST: f64 = 1e-9;

impl Profile {
    /// From joined sections and a caliper; `None` if there is no piece.
    pub(super) fn new(sections: &[Section], caliper: Option<&Caliper>) -> Option<Self> {
        let mut pieces = Vec::new();
        for section in sections {
            match section.kind {
                SectionKind::Cased { inner, .. } => {
                    push_plain(
                        &mut pieces,
                        section.top.si(),
                        section.bottom.si(),
                        inner.si(),
                        Source::Casing,
                    );
                }
                SectionKind::Open { bit } => push_open(&mut pieces, section, bit.si(), caliper),
            }
        }
        if pieces.is_empty() {
            return None;
        }
        let sums = |of: fn(&Piece) -> f64| running(pieces.iter().map(of));
        let oval = caliper.is_some_and(|c| !c.across().is_empty());
        Some(Self {
            volume: sums(|p| frustum(p.bottom - p.top, p.even[0], p.even[1])),
            width: sums(|p| (p.bottom - p.top) * 0.5 * (p.even[0] + p.even[1])),
            measured: sums(|p| if p.source == Source::Bit { 0.0 } else { p.bottom - p.top }),
            large: Largest::new(pieces.iter().map(|p| p.large[0].max(p.large[1])).collect()),
            small: Largest::new(pieces.iter().map(|p| -p.small[0].min(p.small[1])).collect()),
            slope: Largest::new(pieces.iter().map(Piece::slope).collect()),
            oval: oval.then(|| Largest::new(pieces.iter().map(Piece::ovality).collect())),
            steps: Steps::new(&pieces),
            pieces,
        })
    }

    pub(super) fn top(&self) -> f64 {
        self.pieces.first().map_or(0.0, |p| p.top)
    }

    pub(super) fn bottom(&self) -> f64 {
        self.pieces.last().map_or(0.0, |p| p.bottom)
    }

    /// Two depths of the hole as numbers, or why not. Depths outside by rounding alone are taken
    /// for the end they miss.
    pub(super) fn span(&self, top: MeasuredDepth, bottom: MeasuredDepth) -> Result<(f64, f64), HoleError> {
        let (first, last) = (self.top(), self.bottom());
        for asked in [top, bottom] {
            if !(asked.si() >= first - ROUNDING && asked.si() <= last + ROUNDING) {
                let ends = (MeasuredDepth::m(first), MeasuredDepth::m(last));
                return Err(HoleError::Outside { asked, top: ends.0, bottom: ends.1 });
            }
        }
        if bottom < top {
            return Err(HoleError::Reversed { top, bottom });
        }
        Ok((top.si().clamp(first, last), bottom.si().clamp(first, last)))
    }

    /// How many pieces lie above a depth, by what lies above says of a piece and the depth.
    fn above(&self, depth: f64, lies_above: impl Fn(&Piece) -> bool) -> usize {
        let around = self.steps.around(depth);
        around.start + self.pieces.get(around).unwrap_or(&[]).partition_point(lies_above)
    }

    /// The piece at a depth: at a joint the lower one, at the bottom the last.
    fn find(&self, depth: f64) -> usize {
        self.above(depth, |p| p.bottom <= depth).min(self.pieces.len().saturating_sub(1))
    }

    pub(super) fn local(&self, depth: f64) -> Option<Local> {
        let piece = self.pieces.get(self.find(depth))?;
        let cut = piece.cut(depth, depth);
        Some(Local {
            diameter: Diameter::m(cut.even[0]),
            large: Diameter::m(cut.large[0]),
            small: Diameter::m(cut.small[0]),
            source: cut.source,
        })
    }

    /// The pieces between two depths, cut at both.
    pub(super) fn pieces(&self, top: f64, bottom: f64) -> impl Iterator<Item = Piece> + Clone + '_ {
        let below = self.pieces.get(self.find(top)..).unwrap_or(&[]);
        below.iter().take_while(move |p| p.top < bottom || p.top == top).map(move |p| p.cut(top, bottom))
    }

    /// Sum from the top of the hole to a depth: whole pieces, and the part of the last.
    fn sum_to(&self, sums: &[f64], depth: f64, part: impl Fn(&Piece) -> f64) -> f64 {
        let at = self.find(depth);
        let whole = sums.get(at).copied().unwrap_or(0.0);
        whole + self.pieces.get(at).map_or(0.0, |p| part(&p.cut(p.top, depth)))
    }

    pub(super) fn volume_to(&self, depth: f64) -> f64 {
        self.sum_to(&self.volume, depth, |p| frustum(p.bottom - p.top, p.even[0], p.even[1]))
    }

    /// Integral of the diameter.
    pub(super) fn width_to(&self, depth: f64) -> f64 {
        self.sum_to(&self.width, depth, |p| (p.bottom - p.top) * 0.5 * (p.even[0] + p.even[1]))
    }

    /// Length that is cased or measured.
    pub(super) fn measured_to(&self, depth: f64) -> f64 {
        self.sum_to(&self.measured, depth, |p| if p.source == Source::Bit { 0.0 } else { p.bottom - p.top })
    }

    /// The largest of a table over whole pieces, and of the cut pieces at both ends.
    fn extreme(&self, table: &Largest, top: f64, bottom: f64, of: impl Fn(&Piece) -> f64) -> f64 {
        // The piece that ends at `top` counts too: a joint belongs to both sides.
        let first = self.above(top, |p| p.bottom < top);
        let last = self.above(bottom, |p| p.top <= bottom).max(first + 1) - 1;
        let ends = [first, last]
            .map(|at| self.pieces.get(at).map_or(f64::NEG_INFINITY, |p| of(&p.cut(top, bottom))));
        ends[0].max(ends[1]).max(table.over(first + 1, last))
    }

    /// The larger arm at its largest, both ends inside.
    pub(super) fn largest(&self, top: f64, bottom: f64) -> f64 {
        self.extreme(&self.large, top, bottom, |p| p.large[0].max(p.large[1]))
    }

    /// The smaller arm at its smallest, both ends inside.
    pub(super) fn smallest(&self, top: f64, bottom: f64) -> f64 {
        -self.extreme(&self.small, top, bottom, |p| -p.small[0].min(p.small[1]))
    }

    /// The steepest change of diameter between neighbouring readings, per length.
    pub(super) fn steepest(&self, top: f64, bottom: f64) -> f64 {
        let at = (self.find(top), self.find(bottom));
        self.slope.over(at.0, at.1 + 1).max(0.0)
    }

    /// The greatest ovality; `None` with one arm.
    pub(super) fn most_oval(&self, top: f64, bottom: f64) -> Option<f64> {
        self.oval.as_ref().map(|table| self.extreme(table, top, bottom, Piece::ovality))
    }
}

fn push_plain(pieces: &mut Vec<Piece>, top: f64, bottom: f64, diameter: f64, source: Source) {
    if bottom - top >= SHORTEST {
        let ends = [diameter; 2];
        pieces.push(Piece { top, bottom, even: ends, large: ends, small: ends, source });
    }
}

/// An open section: the caliper where readings are joined, bit size elsewhere.
fn push_open(pieces: &mut Vec<Piece>, section: &Section, bit: f64, caliper: Option<&Caliper>) {
    let (top, bottom) = (section.top.si(), section.bottom.si());
    let mut cursor = top;
    for piece in caliper.into_iter().flat_map(joined_readings) {
        let (from, to) = (piece.top.max(cursor), piece.bottom.min(bottom));
        if to - from < SHORTEST {
            continue;
        }
        push_plain(pieces, cursor, from, bit, Source::Bit);
        // A sliver too short for a piece of its own goes to the measured one.
        let from = if from - cursor < SHORTEST { cursor } else { from };
        let cut = piece.cut(from, to);
        pieces.push(Piece { top: from, bottom: to, ..cut });
        cursor = to;
    }
    if bottom - cursor >= SHORTEST {
        push_plain(pieces, cursor, bottom, bit, Source::Bit);
    } else if let Some(last) = pieces.last_mut() {
        last.bottom = bottom;
    }
}

/// Each pair of neighbouring readings that is joined by a straight wall.
fn joined_readings(caliper: &Caliper) -> impl Iterator<Item = Piece> + '_ {
    let reading = |(depth, diameter, across): (&MeasuredDepth, &Diameter, Option<&Diameter>)| {
        let first = diameter.si();
        let second = across.map_or(first, |d| d.si());
        (depth.si(), first, second)
    };
    let count = caliper.depth().len();
    (1..count).filter_map(move |at| {
        let end = |at: usize| {
            Some(reading((caliper.depth().get(at)?, caliper.diameter().get(at)?, caliper.across().get(at))))
        };
        let ((top, a1, a2), (bottom, b1, b2)) = (end(at - 1)?, end(at)?);
        (bottom - top <= caliper.bridge().si()).then_some(Piece {
            top,
            bottom,
            // The circle of the same area as the ellipse: D² = D₁ D₂.
            even: [(a1 * a2).sqrt(), (b1 * b2).sqrt()],
            large: [a1.max(a2), b1.max(b2)],
            small: [a1.min(a2), b1.min(b2)],
            source: Source::Caliper,
        })
    })
}

/// Running sums with Neumaier's correction, so that a short stretch deep in a long hole keeps
/// its digits.
fn running(terms: impl Iterator<Item = f64>) -> Vec<f64> {
    let (mut sum, mut correction) = (0.0f64, 0.0f64);
    let mut out = vec![0.0];
    for term in terms {
        let next = sum + term;
        correction += if sum.abs() >= term.abs() { (sum - next) + term } else { (term - next) + sum };
        sum = next;
        out.push(sum + correction);
    }
    out
}
