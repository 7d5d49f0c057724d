//! A second way into rock besides the open sleeve: past a leaking ball or packer, or down to a
//! sleeve that is open too.

use physics::hydraulics::port::port_loss;
use quantity::*;

use crate::column::Column;
use crate::error::PumpError;
use crate::pressure::{Stretch, down};
use crate::world::World;

/// Least share of a way's area that counts, so that a loss stays finite.
const LEAST: f64 = 1e-3;
/// Halvings of the share of flow: to a ten-millionth.
const HALVINGS: usize = 24;
/// Exponent with which pipe friction goes with rate between two ways.
const EXPONENT: f64 = 1.8;

/// A second way.
#[derive(Debug, Clone)]
pub(crate) struct Branch {
    /// Stage whose rock it leads to.
    pub stage: usize,
    /// What stands in the string between the open sleeve and its sleeve.
    pub column: Column,
    /// Volumes from the meter between which that stands; the same where it leads through no string.
    pub reach: (f64, f64),
    /// Loss of the open way, per rate squared.
    pub loss: f64,
    /// When its area begins to grow, s, and how long it takes.
    pub grows: (f64, f64),
    /// Share of the flow it takes.
    pub share: f64,
}

impl Branch {
    /// Share of its area that is open.
    fn open(&self, time: f64) -> f64 {
        let (start, over) = self.grows;
        if over <= 0.0 { f64::from(time >= start) } else { ((time - start) / over).clamp(0.0, 1.0) }
    }
}

/// Pressure against a way into rock, by its rate.
struct Way {
    level: f64,
    /// Near-wellbore friction at a rate.
    near: (f64, f64),
    /// Losses per rate squared.
    losses: f64,
    /// Pipe friction at the whole rate, and that rate.
    pipe: (f64, f64),
}

impl Way {
    fn at(&self, q: f64) -> f64 {
        let near = if self.near.1 > 0.0 { self.near.0 * (q / self.near.1).max(0.0).sqrt() } else { 0.0 };
        let pipe =
            if self.pipe.1 > 0.0 { self.pipe.0 * (q / self.pipe.1).max(0.0).powf(EXPONENT) } else { 0.0 };
        self.level + near + self.losses * q * q + pipe
    }
}

impl World<'_> {
    /// The way out through the sleeve of a stage into its rock at a rate.
    fn way(&self, stage: usize, rate: f64, density: f64) -> Result<Way, PumpError> {
        let line = self.line(stage);
        let area = self.sleeve_of(stage).and_then(|i| self.sleeves.get(i)).map_or(Area::ZERO, |s| s.ports);
        let near = line.map_or(0.0, |l| l.near_wellbore.at(FlowRate::from_si(rate)).si());
        let losses = match line {
            Some(l) => port_loss(area, l.port_coefficient, Density::kg_per_m3(density.max(1.0)))?.si(),
            None => 0.0,
        };
        Ok(Way { level: self.fracture_pressure(stage), near: (near, rate), losses, pipe: (0.0, 0.0) })
    }

    /// Pressure in the string at the open sleeve at a rate, Pa, shared out over all ways into rock;
    /// keeps the share that the second way takes.
    pub(crate) fn outlets(&mut self, rate: f64, density: f64) -> Result<f64, PumpError> {
        let stage = self.open_stage();
        let mut main = self.way(stage, rate, density)?;
        main.losses += self.choke();
        let Some(branch) = self.branch.take() else { return Ok(main.at(rate)) };
        let result = self.shared(&main, branch, rate, density);
        let (pressure, branch) = result?;
        self.branch = Some(branch);
        Ok(pressure)
    }

    fn shared(
        &mut self,
        main: &Way,
        mut branch: Branch,
        rate: f64,
        density: f64,
    ) -> Result<(f64, Branch), PumpError> {
        let open = branch.open(self.time);
        if rate <= 0.0 || open < LEAST {
            branch.share = 0.0;
            return Ok((main.at(rate), branch));
        }
        let mut other = self.way(branch.stage, rate, density)?;
        other.losses += branch.loss / (open * open);
        if branch.reach.1 > branch.reach.0 {
            let stretch = Stretch { from: branch.reach.0, to: branch.reach.1, rate };
            let Self { route, fluids, heat, .. } = self;
            let d = down(route, &branch.column, fluids, heat.heights(), stretch)?;
            other.level -= d.weight;
            other.pipe = (d.pipe + d.seats, rate);
        }
        branch.share = balance(main, &other, rate);
        Ok((main.at(rate * (1.0 - branch.share)), branch))
    }
}

/// Share of a rate that goes the other way, so that both ways need the same pressure.
fn balance(main: &Way, other: &Way, rate: f64) -> f64 {
    let miss = |share: f64| other.at(rate * share) - main.at(rate * (1.0 - share));
    if miss(0.0) >= 0.0 {
        return 0.0;
    }
    if miss(1.0) <= 0.0 {
        return 1.0;
    }
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if miss(middle) < 0.0 { low = middle } else { high = middle }
    }
    0.5 * (low + high)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn like_ways_share_alike_and_a_closed_one_takes_nothing() {
        let way = |level: f64, losses: f64| Way { level, near: (1e6, 0.05), losses, pipe: (0.0, 0.0) };
        assert!((balance(&way(5e7, 1e9), &way(5e7, 1e9), 0.05) - 0.5).abs() < 1e-6);
        assert_eq!(balance(&way(5e7, 1e9), &way(9e7, 1e9), 0.05), 0.0);
        assert_eq!(balance(&way(9e7, 1e9), &way(5e7, 1e9), 0.05), 1.0);
        let share = balance(&way(5e7, 1e9), &way(5e7, 4e9), 0.05);
        let (a, b) = (way(5e7, 1e9).at(0.05 * (1.0 - share)), way(5e7, 4e9).at(0.05 * share));
        assert!((a - b).abs() < 10.0 && share < 0.5, "{share} {a} {b}");
    }
}
