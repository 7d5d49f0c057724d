//! The hole over a window: what a packer or a tool of some length sees, with the depth known to
//! within a standard deviation.

use crate::hole::build::Hole;
use crate::hole::profile::{HoleError, Piece, Source};
use quantity::{Diameter, Length, MeasuredDepth, Quantity, Ratio};

/// A stretch of hole asked about.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Window {
    /// Its top.
    pub top: MeasuredDepth,
    /// Its length.
    pub length: Length,
    /// Standard deviation of the depth at which it will really be.
    pub sigma: Length,
    /// How many standard deviations the window is widened by at each end for the worst case.
    pub factor: Ratio,
    /// A diameter above this counts as washed out.
    pub washout: Diameter,
}

/// The hole over a window. Shares are of its length.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct WindowStatistics {
    /// The smaller arm at its smallest.
    pub min: Diameter,
    /// The larger arm at its largest.
    pub max: Diameter,
    /// Mean over the length, of the circle of the same area.
    pub mean: Diameter,
    /// A tenth of the length has no larger diameter (of the circle of the same area).
    pub p10: Diameter,
    /// Half of the length has no larger diameter.
    pub p50: Diameter,
    /// Nine tenths of the length have no larger diameter.
    pub p90: Diameter,
    /// The larger arm at its largest in the window widened by the depth uncertainty.
    pub worst: Diameter,
    /// The smaller arm at its smallest in the widened window.
    pub tightest: Diameter,
    /// Share of the length above the washout diameter.
    pub washed_out: Ratio,
    /// Steepest change of diameter between neighbouring readings, length per length.
    pub gradient: Ratio,
    /// Greatest difference of two arms over their mean; `None` with one arm.
    pub ovality: Option<Ratio>,
    /// Share of the length known from casing or caliper; the rest is at bit size.
    pub measured: Ratio,
    /// Share of the widened window that lies in the hole.
    pub inside: Ratio,
}

impl Window {
    /// A window whose depth is certain.
    pub fn exact(top: MeasuredDepth, length: Length, washout: Diameter) -> Self {
        Self { top, length, sigma: Length::ZERO, factor: Ratio::ZERO, washout }
    }

    /// Its bottom.
    pub fn bottom(&self) -> MeasuredDepth {
        self.top + self.length
    }

    /// How far it is widened at each end.
    fn margin(&self) -> Length {
        let margin = self.sigma * self.factor.si();
        if margin < Length::ZERO { Length::ZERO } else { margin }
    }
}

impl Hole {
    /// The larger arm at its largest over a stretch, both ends inside. Two searches and a table
    /// look-up, whatever the length.
    pub fn largest(&self, top: MeasuredDepth, bottom: MeasuredDepth) -> Result<Diameter, HoleError> {
        let (a, b) = self.profile.span(top, bottom)?;
        Ok(Diameter::m(self.profile.largest(a, b)))
    }

    /// The smaller arm at its smallest over a stretch, both ends inside.
    pub fn smallest(&self, top: MeasuredDepth, bottom: MeasuredDepth) -> Result<Diameter, HoleError> {
        let (a, b) = self.profile.span(top, bottom)?;
        Ok(Diameter::m(self.profile.smallest(a, b)))
    }

    /// The largest diameter a window may meet: over the window widened by its depth uncertainty,
    /// as far as there is hole. Never smaller for a longer window or a greater uncertainty.
    pub fn worst(&self, window: &Window) -> Result<Diameter, HoleError> {
        let (top, bottom) = self.widened(window)?;
        Ok(Diameter::m(self.profile.largest(top, bottom)))
    }

    /// Everything about a window. Two searches for most of it; the shares and percentiles look
    /// at each reading within.
    pub fn window(&self, window: &Window) -> Result<WindowStatistics, HoleError> {
        let (a, b) = self.profile.span(window.top, window.bottom())?;
        let (wide_top, wide_bottom) = self.widened(window)?;
        let p = &self.profile;
        let (min, max) = (p.smallest(a, b), p.largest(a, b));
        let point = p.local(a);
        let local = point.map_or(min, |l| l.diameter.si());
        let known = if point.is_some_and(|l| l.source == Source::Bit) { 0.0 } else { 1.0 };
        let per_length = |of: f64, point: f64| if b > a { of / (b - a) } else { point };
        let spread = Spread {
            pieces: p.pieces(a, b).filter(|c| c.bottom > c.top).collect(),
            length: b - a,
            point: local,
        };
        let asked = (wide_bottom - wide_top).max(b - a + 2.0 * window.margin().si());
        Ok(WindowStatistics {
            min: Diameter::m(min),
            max: Diameter::m(max),
            mean: Diameter::m(per_length(p.width_to(b) - p.width_to(a), local).clamp(min, max)),
            p10: spread.percentile(0.1, min, max),
            p50: spread.percentile(0.5, min, max),
            p90: spread.percentile(0.9, min, max),
            worst: Diameter::m(p.largest(wide_top, wide_bottom)),
            tightest: Diameter::m(p.smallest(wide_top, wide_bottom)),
            washed_out: Ratio::of(1.0 - spread.share_up_to(window.washout.si())),
            gradient: Ratio::of(p.steepest(a, b)),
            ovality: p.most_oval(a, b).map(Ratio::of),
            measured: Ratio::of(per_length(p.measured_to(b) - p.measured_to(a), known).clamp(0.0, 1.0)),
            inside: Ratio::of(if asked > 0.0 { ((wide_bottom - wide_top) / asked).min(1.0) } else { 1.0 }),
        })
    }

    fn widened(&self, window: &Window) -> Result<(f64, f64), HoleError> {
        let (a, b) = self.profile.span(window.top, window.bottom())?;
        let margin = window.margin().si();
        if !margin.is_finite() {
            return Err(HoleError::Uncertainty { sigma: window.sigma, factor: window.factor });
        }
        Ok(((a - margin).max(self.profile.top()), (b + margin).min(self.profile.bottom())))
    }
}

/// How the diameter is spread over a stretch.
struct Spread {
    pieces: Vec<Piece>,
    length: f64,
    /// The diameter of a stretch without length.
    point: f64,
}

impl Spread {
    /// Share of the length with a diameter up to `d`. In a piece the diameter runs straight, so
    /// the share is (d - smaller end) / (larger end - smaller end).
    fn share_up_to(&self, d: f64) -> f64 {
        if self.length <= 0.0 {
            return if self.point <= d { 1.0 } else { 0.0 };
        }
        let part = |piece: &Piece| {
            let [a, b] = piece.even;
            let (small, large) = (a.min(b), a.max(b));
            let share = if d >= large {
                1.0
            } else if d < small {
                0.0
            } else {
                (d - small) / (large - small)
            };
            share * (piece.bottom - piece.top)
        };
        (self.pieces.iter().map(part).sum::<f64>() / self.length).clamp(0.0, 1.0)
    }

    /// The smallest diameter that a share of the length does not exceed, by halving.
    fn percentile(&self, share: f64, min: f64, max: f64) -> Diameter {
        if self.length <= 0.0 {
            return Diameter::m(self.point);
        }
        let (mut low, mut high) = (min, max);
        // 50 halvings of any hole diameter are below a femtometre.
        for _ in 0..50 {
            let middle = 0.5 * (low + high);
            if self.share_up_to(middle) >= share { high = middle } else { low = middle }
        }
        Diameter::m(high)
    }
}
