//! Cells of one time step each: a wave crosses every cell in the same time.

use std::ops::RangeInclusive;

use crate::error::{Error, Result, require, require_positive};
use quantity::{Length, Quantity, Ratio, Time};

use super::NAME;
use super::string::{CellPlace, Reach};

/// Candidates of the time step that are tried.
const TRIALS: usize = 2000;

/// How finely a string is cut.
#[derive(Debug, Clone, PartialEq)]
pub struct Fineness {
    /// Fewest and most cells of the whole string.
    pub cells: RangeInclusive<usize>,
    /// Largest share by which a wave speed may be adjusted.
    pub adjustment: f64,
}

impl Default for Fineness {
    /// 200 to 400 cells, wave speeds within 1 %.
    fn default() -> Self {
        Self { cells: 200..=400, adjustment: 0.01 }
    }
}

/// The cells of a string, all crossed in one time step.
///
/// `a' = L/(m dt)`, `m` whole: every reach has a whole number of cells, its wave speed `a` is
/// taken as `a'`. The step is the largest within the fineness whose worst `|a'/a - 1|` is
/// allowed, and it halves that worst between the reaches.
#[derive(Debug, Clone, PartialEq)]
pub struct Grid {
    /// Time step, s.
    pub(super) dt: f64,
    /// Largest adjustment of a wave speed, as a share.
    pub(super) adjustment: f64,
    /// The cells from the pump downwards.
    pub(super) cells: Vec<CellPlace>,
}

impl Grid {
    /// Cuts the reaches.
    pub fn new(reaches: &[Reach], fineness: &Fineness) -> Result<Self> {
        for reach in reaches {
            require_positive(NAME, "length", reach.length)?;
            require_positive(NAME, "area", reach.area)?;
            require_positive(NAME, "wave_speed", reach.wave_speed)?;
        }
        let times: Vec<f64> = reaches.iter().map(|r| r.length.si() / r.wave_speed.si()).collect();
        let (counts, dt, adjustment) = choose(&times, fineness).ok_or(Error::NoSolution {
            relation: NAME,
            what: "the string has no reach, or asks for no cell".to_string(),
            hint: "Give at least one reach and a range of cells from 1 up.",
        })?;
        let hint = "Join short reaches to their neighbours, allow more cells, or a larger adjustment.";
        let limit = format!("at most {}", fineness.adjustment);
        let fits = adjustment <= fineness.adjustment;
        require(fits, NAME, "adjustment", Ratio::of(adjustment), limit, hint)?;
        let mut cells = Vec::with_capacity(counts.iter().sum());
        let mut start = Length::ZERO;
        for (reach, (r, count)) in reaches.iter().zip(&counts).enumerate() {
            let at = |i: usize| start + r.length * (i as f64 / *count as f64);
            cells.extend((0..*count).map(|i| CellPlace { reach, top: at(i), bottom: at(i + 1) }));
            start += r.length;
        }
        Ok(Self { dt, adjustment, cells })
    }

    /// The time step.
    pub fn time_step(&self) -> Time {
        Time::seconds(self.dt)
    }

    /// The largest adjustment of a wave speed, as a share.
    pub fn adjustment(&self) -> f64 {
        self.adjustment
    }

    /// The cells.
    pub fn cells(&self) -> &[CellPlace] {
        &self.cells
    }

    /// The node nearest to a place: how many cells lie above it.
    pub(super) fn node(&self, at: Length) -> usize {
        let far = |node: usize| {
            let here = if node == 0 { Length::ZERO } else { self.cells[node - 1].bottom };
            (here - at).abs()
        };
        let after = self.cells.partition_point(|c| c.bottom < at).min(self.cells.len() - 1);
        if far(after) <= far(after + 1) { after } else { after + 1 }
    }

    /// Where a node lies.
    pub(super) fn place(&self, node: usize) -> Length {
        node.checked_sub(1).and_then(|i| self.cells.get(i)).map_or(Length::ZERO, |c| c.bottom)
    }
}

/// Counts of cells, the step and its worst adjustment: the first that is allowed, or the best.
fn choose(times: &[f64], fineness: &Fineness) -> Option<(Vec<usize>, f64, f64)> {
    let (fewest, most) = (*fineness.cells.start(), *fineness.cells.end());
    if times.is_empty() || fewest < 1 || most < fewest {
        return None;
    }
    let total: f64 = times.iter().sum();
    let ratio = most as f64 / fewest as f64;
    let trial = |i: usize| total / fewest as f64 * ratio.powf(-(i as f64) / TRIALS as f64);
    let mut best: Option<(f64, f64)> = None;
    for dt in (0..=TRIALS).map(trial) {
        let (step, adjustment) = fitted(times, dt);
        if best.is_none_or(|(_, known)| adjustment < known) {
            best = Some((step, adjustment));
        }
        if adjustment <= fineness.adjustment {
            break;
        }
    }
    let (dt, adjustment) = best?;
    Some((times.iter().map(|t| count(*t, dt)).collect(), dt, adjustment))
}

/// Cells of a reach crossed in `time`.
fn count(time: f64, dt: f64) -> usize {
    ((time / dt).round() as usize).max(1)
}

/// The step that suits the counts of a trial best, and its worst adjustment.
fn fitted(times: &[f64], dt: f64) -> (f64, f64) {
    let own = times.iter().map(|t| t / count(*t, dt) as f64);
    let (low, high) = own.fold((f64::INFINITY, 0.0f64), |(l, h), t| (l.min(t), h.max(t)));
    // between the shortest and the longest of the reaches' own steps
    let step = f64::midpoint(low, high);
    // with other counts than those of the trial the step would suit less well
    if times.iter().any(|t| count(*t, step) != count(*t, dt)) {
        return (
            dt,
            times.iter().fold(0.0, |worst, t| worst.max((t / (count(*t, dt) as f64 * dt) - 1.0).abs())),
        );
    }
    (step, (high - low) / (high + low))
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{Diameter, Velocity};

    fn reach(length: f64, speed: f64) -> Reach {
        Reach {
            length: Length::m(length),
            area: Diameter::inch(4.0).circle(),
            wave_speed: Velocity::m_per_s(speed),
        }
    }

    #[test]
    fn one_reach_is_cut_without_adjustment() {
        let grid = Grid::new(&[reach(5000.0, 1420.0)], &Fineness::default()).unwrap();
        assert_eq!(grid.cells.len(), 200);
        assert!(grid.adjustment < 1e-15);
        assert_eq!(grid.node(Length::m(5000.0)), 200);
        assert_eq!(grid.node(Length::ZERO), 0);
        assert_eq!(grid.node(Length::m(2512.0)), 100);
        assert_eq!(grid.node(Length::m(2513.0)), 101);
    }

    #[test]
    fn reaches_of_many_lengths_are_cut_within_one_percent() {
        let reaches =
            [reach(41.0, 1390.0), reach(2310.0, 1421.0), reach(2633.0, 1448.0), reach(97.0, 1421.0)];
        let grid = Grid::new(&reaches, &Fineness::default()).unwrap();
        assert!(
            grid.adjustment <= 0.01 && grid.cells.len() <= 404,
            "{} {}",
            grid.adjustment,
            grid.cells.len()
        );
        for (i, r) in reaches.iter().enumerate() {
            let own = grid.cells.iter().filter(|c| c.reach == i).count() as f64;
            let speed = r.length.si() / (own * grid.dt);
            assert!((speed / r.wave_speed.si() - 1.0).abs() <= grid.adjustment * (1.0 + 1e-9));
        }
    }

    #[test]
    fn what_cannot_be_cut_is_refused_with_the_best_there_is() {
        let text = Grid::new(&[reach(3.0, 1400.0), reach(5000.0, 1400.0)], &Fineness::default())
            .unwrap_err()
            .to_string();
        assert!(text.contains("adjustment") && text.contains("Join short reaches"), "{text}");
        assert!(Grid::new(&[], &Fineness::default()).is_err());
        assert!(Grid::new(&[reach(0.0, 1400.0)], &Fineness::default()).is_err());
    }
}
