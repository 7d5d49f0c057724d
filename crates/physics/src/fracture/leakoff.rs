//! Leak-off through walls that opened at different times, kept in bounded memory.

use super::carter::carter_area;
use crate::error::{Result, require};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Area, Quantity, Ratio, Time};

/// Pieces of wall kept apart; above it neighbours are joined.
const MOST: usize = 64;
/// Where joining stops, so that it is not done at every step.
const FEW: usize = 44;

/// Wall of a fracture by the time it opened, oldest first; numbers in SI.
///
/// Through a piece of wall (both faces) that opened at `τ` goes `A [4 C √(t − τ) + 2 S]` (Carter's
/// law). Neighbours whose ages differ little are joined so that what they have lost is kept.
#[derive(Debug, Clone, PartialEq)]
pub struct Walls {
    coefficient: f64,
    spurt: f64,
    clock: f64,
    /// Difference of ages over age below which neighbours may be joined.
    spacing: f64,
    area: Vec<f64>,
    opened: Vec<f64>,
    /// Mean `√(t − τ)` up to which the losses of each piece are counted.
    root: Vec<f64>,
}

impl Walls {
    /// No wall yet, with a leak-off coefficient m/√s and a spurt m.
    pub fn new(coefficient: f64, spurt: f64) -> Self {
        let empty = || Vec::with_capacity(MOST + 1);
        Self { coefficient, spurt, clock: 0.0, spacing: 0.05, area: empty(), opened: empty(), root: empty() }
    }

    /// Lets time pass, s; returns the volume that goes through the walls there are, m³.
    pub fn pass(&mut self, dt: f64) -> f64 {
        self.clock += dt;
        let now = self.clock;
        // four at a time, so that the roots are taken side by side
        let (areas, last_areas) = self.area.as_chunks::<4>();
        let (opened, last_opened) = self.opened.as_chunks::<4>();
        let (roots, last_roots) = self.root.as_chunks_mut::<4>();
        let mut sums = [0.0; 4];
        for ((area, opened), root) in areas.iter().zip(opened).zip(roots) {
            for i in 0..4 {
                let next = (now - opened[i]).sqrt();
                sums[i] += area[i] * (next - root[i]);
                root[i] = next;
            }
        }
        let mut sum = (sums[0] + sums[1]) + (sums[2] + sums[3]);
        for ((area, opened), root) in last_areas.iter().zip(last_opened).zip(last_roots) {
            let next = (now - opened).sqrt();
            sum += area * (next - *root);
            *root = next;
        }
        // two faces, 2 C √(t − τ) each
        (4.0 * self.coefficient * sum).max(0.0)
    }

    /// Volume lost per area of wall that opens evenly during a time just passed, m³/m².
    pub fn fresh(&self, dt: f64) -> f64 {
        // 4 C · ∫√(dt − τ) dτ/dt + 2 S
        4.0 * self.coefficient * (2.0 / 3.0) * dt.sqrt() + 2.0 * self.spurt
    }

    /// Adds wall that opened evenly during the time just passed.
    pub fn open(&mut self, area: f64, dt: f64) {
        if area <= 0.0 {
            return;
        }
        self.area.push(area);
        self.opened.push(self.clock - 0.5 * dt);
        self.root.push(2.0 / 3.0 * dt.sqrt());
        while self.area.len() > MOST {
            self.join();
            if self.area.len() > FEW {
                self.spacing *= 1.1;
            }
        }
    }

    /// Joins neighbours of nearly the same age, each at most once.
    fn join(&mut self) {
        let (count, mut kept, mut i) = (self.area.len(), 0, 0);
        while i < count {
            let (mut area, mut opened, mut root) = (self.area[i], self.opened[i], self.root[i]);
            if i + 1 < count
                && self.opened[i + 1] - opened <= self.spacing * (self.clock - self.opened[i + 1])
            {
                let both = area + self.area[i + 1];
                // What was lost stays counted. The mean age would lose too much from now on, the age of
                // the mean root too little by as much: the middle cancels the second order.
                root = (area * root + self.area[i + 1] * self.root[i + 1]) / both;
                let mean = (area * opened + self.area[i + 1] * self.opened[i + 1]) / both;
                opened = 0.5 * (mean + self.clock - root * root);
                area = both;
                i += 1;
            }
            (self.area[kept], self.opened[kept], self.root[kept]) = (area, opened, root);
            kept += 1;
            i += 1;
        }
        self.area.truncate(kept);
        self.opened.truncate(kept);
        self.root.truncate(kept);
    }

    /// Pieces kept.
    pub fn pieces(&self) -> usize {
        self.area.len()
    }

    /// Area of each piece with its present rate of loss per area and coefficient, oldest (at the
    /// well) first.
    pub fn losing(&self) -> impl Iterator<Item = (f64, f64)> + '_ {
        self.area.iter().zip(&self.root).map(|(a, r)| (*a, 1.0 / r.max(f64::MIN_POSITIVE)))
    }

    /// Area of all pieces.
    pub fn whole(&self) -> f64 {
        self.area.iter().sum()
    }
}

/// Area and efficiency of a fracture of constant width, marched in time with the walls' losses:
/// the check of the march against Carter's closed form.
///
/// Equation: `i dt = (w̄ + loss per fresh area) dA + losses through the walls there are`.
///
/// Symbols: `i` rate into one wing m³/s, `w̄` mean width m, `A` area of one face m², losses by
/// `4 C √(t − τ) + 2 S` per area of wall opened at `τ`, `C` leak-off coefficient m/√s, `S` spurt m.
///
/// Range: 10 to 1e6 steps.
///
/// Where it breaks: few steps overstate the area while the fracture is young. Arguments outside
/// the range are refused.
///
/// Source: howard_fast1957 (Carter's appendix), by volume balance.
///
/// ```
/// use physics::fracture::leakoff::carter_march;
/// use physics::fracture::carter::Wing;
/// use quantity::{Diameter, FlowRate, Leakoff, Spurt, Time};
/// let wing = Wing {
///     mean_width: Diameter::mm(5.0),
///     spurt: Spurt::ZERO,
///     leakoff: Leakoff::m_per_root_s(5e-5),
///     rate: FlowRate::m3_per_s(0.053),
/// };
/// let (area, _) = carter_march(&wing, Time::hours(1.0), 3600.0)?;
/// assert!((area.in_m2() / 13854.68 - 1.0).abs() < 5e-4);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn carter_march(wing: &super::carter::Wing, time: Time, steps: f64) -> Result<(Area, f64)> {
    carter_area(wing, time)?;
    let hint = "A step a second is usual.";
    require((10.0..=1e6).contains(&steps), MARCH, "steps", Ratio::of(steps), "10 to 1000000", hint)?;
    let (w, i) = (wing.mean_width.si(), wing.rate.si());
    let mut walls = Walls::new(wing.leakoff.si(), wing.spurt.si());
    let dt = time.si() / steps.round();
    let mut area = 0.0;
    for _ in 0..steps.round() as usize {
        let through = walls.pass(dt);
        // i dt = (w̄ + fresh) dA + through
        let more = ((i * dt - through) / (w + walls.fresh(dt))).max(0.0);
        walls.open(more, dt);
        area += more;
    }
    Ok((Area::m2(area), w * area / (i * time.si())))
}

const MARCH: &str = "carter_march";

static MARCH_INPUTS: [Input; 6] = {
    let [a, b, c, d, e] = super::carter::WING;
    [a, b, c, d, e, Input::new::<Ratio>("steps", "time steps").or("3600")]
};

/// `carter_march` in the register.
pub static CARTER_MARCH: Relation = Relation {
    name: MARCH,
    title: "Area of a fracture of constant width, marched in time with Carter's leak-off (one wing's rate)",
    equation: "i dt = (w̄ + 4 C (2/3) √dt + 2 S) dA + 4 C Σ A_j [√(t + dt − τ_j) − √(t − τ_j)]",
    source: "howard_fast1957 appendix",
    range: "10 to 1e6 steps",
    inputs: &MARCH_INPUTS,
    outputs: &[
        Output::new::<Area>("area", "area of one face of one wing"),
        Output::new::<Ratio>("efficiency", "volume in the fracture over volume pumped"),
    ],
    evaluate: |a| {
        let (area, efficiency) =
            carter_march(&super::carter::Wing::read(a)?, a.get("time")?, a.number("steps")?)?;
        Ok(Outputs::new().put("area", area).put("efficiency", Ratio::of(efficiency)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn memory_is_bounded_and_nothing_is_forgotten() {
        let mut walls = Walls::new(1e-5, 0.0);
        let (mut lost, mut exact) = (0.0, 0.0);
        let count = 20_000;
        for _ in 0..count {
            lost += walls.pass(1.0) + walls.fresh(1.0);
            walls.open(1.0, 1.0);
            assert!(walls.pieces() <= MOST);
        }
        for j in 1..=count {
            // every piece exactly: mean of √ over the second in which it opened
            let (a, b) = (f64::from(j - 1), f64::from(j));
            exact += 4e-5 * (2.0 / 3.0) * (b.powf(1.5) - a.powf(1.5));
        }
        assert!((lost / exact - 1.0).abs() < 2e-4, "{}", lost / exact - 1.0);
        assert!((walls.area.iter().sum::<f64>() - f64::from(count)).abs() < 1e-6);
        assert!(walls.opened.windows(2).all(|w| w[0] < w[1]));
    }
}
