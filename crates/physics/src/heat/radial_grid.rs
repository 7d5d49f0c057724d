//! Conduction round the hole on a grid of rings, stepped implicitly in time.

use super::exchange::Wall;
use crate::error::{require, require_positive};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Quantity, Ratio};
use std::f64::consts::PI;

/// How finely the rock is divided.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mesh {
    /// Rings of rock.
    pub rings: usize,
    /// Outer radius over hole radius.
    pub reach: f64,
}

impl Default for Mesh {
    /// Forty rings out to 200 hole radii: above `t_D = 0.1` within 0.4 % of the exact cylinder at
    /// constant flux, within 1.7 % at constant wall temperature.
    fn default() -> Self {
        Self { rings: 40, reach: 200.0 }
    }
}

/// What is given at the inside of the rings during a step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Inside {
    /// Temperature held, K.
    Held(f64),
    /// Heat flow into the rock per length, W/m.
    Flow(f64),
    /// Fluid at a temperature K with its heat capacity per length J/(m K).
    Fluid(f64, f64),
}

/// Rings of rock of one hole size: capacities and conductances per length.
#[derive(Debug, Clone)]
pub struct RadialGrid {
    /// Heat capacity of each ring, J/(m K).
    capacity: Vec<f64>,
    /// Conductance between neighbouring rings, W/(m K).
    between: f64,
    /// Conductance from the inside (through the barrier) to the first ring, W/(m K).
    entry: f64,
    /// Conductance from the wall of the hole to the first ring, W/(m K).
    half: f64,
}

/// The elimination for one time step, shared by all places with the same grid.
#[derive(Debug, Clone)]
pub struct Sweep {
    step: f64,
    /// `T_i = gain_i T_{i−1} + offset_i`
    gain: Vec<f64>,
    /// `offset_i = keep_i T_i' + pull_i offset_{i+1}`, the offset beyond the last being the earth's temperature
    keep: Vec<f64>,
    pull: Vec<f64>,
}

impl RadialGrid {
    /// Rings that widen by a constant factor.
    pub fn new(wall: &Wall, mesh: Mesh) -> Result<Self> {
        wall.check(NAME)?;
        let rings = Ratio::of(mesh.rings as f64);
        require((2..=400).contains(&mesh.rings), NAME, "rings", rings, "2 to 400", "Forty is enough.")?;
        let reach = Ratio::of(mesh.reach);
        let hint = "200 serves jobs of months.";
        require((1.1..=1e6).contains(&mesh.reach), NAME, "reach", reach, "1.1 to 1e6", hint)?;
        let (k, heat) = (wall.rock.conductivity.si(), wall.rock.heat.si());
        let radius = 0.5 * wall.hole.si();
        let log = mesh.reach.ln() / mesh.rings as f64;
        let face = |i: usize| radius * (log * i as f64).exp();
        // C_i = ρc π (r_{i+1}² − r_i²);  G = 2π k / ln β
        let capacity = (0..mesh.rings).map(|i| heat * PI * (face(i + 1).powi(2) - face(i).powi(2))).collect();
        let between = 2.0 * PI * k / log;
        let entry = 1.0 / (0.5 / between + wall.barrier_resistance());
        Ok(Self { capacity, between, entry, half: 2.0 * between })
    }

    /// Number of rings.
    pub fn rings(&self) -> usize {
        self.capacity.len()
    }

    /// The elimination for a time step, s.
    pub fn sweep(&self, step: f64) -> Sweep {
        let n = self.capacity.len();
        let (mut gain, mut keep, mut pull) = (vec![0.0; n], vec![0.0; n], vec![0.0; n]);
        // The outer face holds the earth's temperature, half a ring away.
        let mut outward = self.half;
        for (i, capacity) in self.capacity.iter().enumerate().rev() {
            let inward = if i == 0 { self.entry } else { self.between };
            // (C/Δt + G_in + G_out (1 − gain_{i+1})) T_i = C/Δt T_i' + G_in T_{i−1} + G_out offset_{i+1}
            let p = capacity / step + inward + outward;
            let beyond = if i + 1 == n { self.half } else { self.between };
            if let (Some(g), Some(k), Some(o)) = (gain.get_mut(i), keep.get_mut(i), pull.get_mut(i)) {
                (*g, *k, *o) = (inward / p, capacity / step / p, beyond / p);
                outward = self.between * (1.0 - *g);
            }
        }
        Sweep { step, gain, keep, pull }
    }

    /// One step of rings and inside; returns the inside temperature after it.
    ///
    /// `rock` holds the rings' temperatures, `far` the undisturbed temperature.
    pub fn step(&self, sweep: &Sweep, inside: Inside, rock: &mut [f64], far: f64) -> f64 {
        let mut outer = far;
        // The offsets are kept in place of the temperatures.
        for ((keep, pull), t) in sweep.keep.iter().zip(&sweep.pull).zip(rock.iter_mut()).rev() {
            *t = keep * *t + pull * outer;
            outer = *t;
        }
        let gain = sweep.gain.first().copied().unwrap_or(0.0);
        let offset = rock.first().copied().unwrap_or(far);
        // heat flow into the rock: q' = P T_0 − Q
        let (p, q) = (self.entry * (1.0 - gain), self.entry * offset);
        let inner = match inside {
            Inside::Held(t) => t,
            Inside::Flow(flow) => (flow + q) / p,
            // C_f (T_0 − T_0')/Δt = −(P T_0 − Q)
            Inside::Fluid(t, capacity) => (capacity / sweep.step * t + q) / (capacity / sweep.step + p),
        };
        let mut before = inner;
        for (gain, t) in sweep.gain.iter().zip(rock.iter_mut()) {
            *t += gain * before;
            before = *t;
        }
        inner
    }

    /// Temperature of the hole wall, from the inside's and the first ring's.
    pub fn wall(&self, inside: f64, first: f64) -> f64 {
        // the flow through barrier and half ring is one: T_w = T_1 + G_entry/G_half (T_0 − T_1)
        first + self.entry / self.half * (inside - first)
    }

    /// Heat held by the rings above the undisturbed temperature, per length, J/m.
    pub fn held(&self, rock: &[f64], far: f64) -> f64 {
        self.capacity.iter().zip(rock).map(|(c, t)| c * (t - far)).sum()
    }

    /// Heat flow into the rock per length, W/m.
    pub fn flow(&self, inside: f64, first: f64) -> f64 {
        self.entry * (inside - first)
    }
}

/// Wall temperature at constant flux, and heat flow at constant wall temperature, of a cylinder
/// solved on the grid, both dimensionless: the check of the grid against the exact functions.
///
/// Equation: implicit Euler on rings with `r_{i+1} = β r_i`, `β = reach^(1/rings)`,
/// conductance `2π k / ln β`, from `t_D = 1e-4` in steps of a constant ratio.
///
/// Symbols: `T_D = 2π k (T_w − T_e)/q'`, `q_D = q'/[2π k (T_w − T_e)]`, `t_D = α t/r_w²`.
///
/// Range: `t_D` 1e-3 to 1e6, 2 to 400 rings.
///
/// Where it breaks: coarse rings miss the first minutes (`t_D` below the square of the first
/// ring's width), long times feel the outer face (`t_D` above a tenth of reach squared).
///
/// Source: patankar1980 ch. 4 (implicit control volumes).
///
/// ```
/// use physics::heat::radial_grid::{Mesh, radial_conduction_grid};
/// let (temperature, flow) = radial_conduction_grid(1.0, Mesh::default(), 60.0)?;
/// assert!((temperature / 0.802145 - 1.0).abs() < 0.005);
/// assert!((flow / 0.983771 - 1.0).abs() < 0.006);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn radial_conduction_grid(t_d: f64, mesh: Mesh, steps_per_decade: f64) -> Result<(f64, f64)> {
    require_positive(NAME, "t_d", Ratio::of(t_d))?;
    require(
        (1e-3..=1e6).contains(&t_d),
        NAME,
        "t_d",
        Ratio::of(t_d),
        "1e-3 to 1e6",
        "Use the exact function.",
    )?;
    let steps = Ratio::of(steps_per_decade);
    require((5.0..=1e4).contains(&steps_per_decade), NAME, "steps", steps, "5 to 10000", "Sixty is usual.")?;
    let grid = RadialGrid::new(&unit_wall(), mesh)?;
    let (mut warm, mut held) = (vec![0.0; grid.rings()], vec![0.0; grid.rings()]);
    const START: f64 = 1e-4;
    let count = ((t_d / START).log10() * steps_per_decade).ceil();
    let ratio = (t_d / START).powf(1.0 / count);
    let (mut now, mut wall) = (0.0, 0.0);
    for i in 0..=count as usize {
        let next = START * ratio.powf(i as f64);
        let sweep = grid.sweep(next - now);
        wall = grid.step(&sweep, Inside::Flow(2.0 * PI), &mut warm, 0.0);
        grid.step(&sweep, Inside::Held(1.0), &mut held, 0.0);
        now = next;
    }
    let first = held.first().copied().unwrap_or(0.0);
    Ok((wall, grid.flow(1.0, first) / (2.0 * PI)))
}

/// A wall of unit radius, conductivity and diffusivity.
fn unit_wall() -> Wall {
    let rock = super::rock::Rock {
        conductivity: quantity::Conductivity::from_si(1.0),
        heat: quantity::VolumetricHeat::from_si(1.0),
    };
    Wall { hole: quantity::Diameter::m(2.0), rock, barrier: super::exchange::Barrier::None }
}

const NAME: &str = "radial_conduction_grid";

/// `radial_conduction_grid` in the register.
pub static RADIAL_CONDUCTION_GRID: Relation = Relation {
    name: NAME,
    title: "Conduction round a cylinder on a grid of rings, dimensionless",
    equation: "implicit Euler on rings r_{i+1} = β r_i, conductance 2π k / ln β",
    source: "patankar1980 ch. 4",
    range: "t_D 1e-3 to 1e6; see the cases for its error",
    inputs: &[
        Input::new::<Ratio>("t_d", "dimensionless time, α t / r_w²"),
        Input::new::<Ratio>("rings", "rings of rock").or("40"),
        Input::new::<Ratio>("reach", "outer radius over hole radius").or("200"),
        Input::new::<Ratio>("steps_per_decade", "time steps per decade of time").or("60"),
    ],
    outputs: &[
        Output::new::<Ratio>("temperature", "wall temperature T_D at constant flux"),
        Output::new::<Ratio>("heat_flow", "heat flow q_D at constant wall temperature"),
    ],
    evaluate: |a| {
        let rings = a.number("rings")?;
        require(
            (2.0..=400.0).contains(&rings),
            NAME,
            "rings",
            Ratio::of(rings),
            "2 to 400",
            "Forty is enough.",
        )?;
        let mesh = Mesh { rings: rings as usize, reach: a.number("reach")? };
        let (t, q) = radial_conduction_grid(a.number("t_d")?, mesh, a.number("steps_per_decade")?)?;
        Ok(Outputs::new().put("temperature", Ratio::of(t)).put("heat_flow", Ratio::of(q)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heat_is_kept() {
        // What the flux brings in is what the rings hold, while the outer face feels nothing.
        let grid = RadialGrid::new(&unit_wall(), Mesh::default()).unwrap();
        let mut rock = vec![3.0; grid.rings()];
        let sweep = grid.sweep(0.05);
        for _ in 0..40 {
            grid.step(&sweep, Inside::Flow(7.0), &mut rock, 3.0);
        }
        let held = grid.held(&rock, 3.0);
        assert!((held / (7.0 * 2.0) - 1.0).abs() < 1e-9, "{held}");
    }

    #[test]
    fn rest_stays_at_rest() {
        let grid = RadialGrid::new(&unit_wall(), Mesh { rings: 7, reach: 50.0 }).unwrap();
        let mut rock = vec![3.0; 7];
        let inside = grid.step(&grid.sweep(1e5), Inside::Fluid(3.0, 2.0), &mut rock, 3.0);
        assert!((inside - 3.0).abs() < 1e-12 && rock.iter().all(|t| (t - 3.0).abs() < 1e-12));
        assert!((grid.wall(3.0, 3.0) - 3.0).abs() < 1e-12);
    }
}
