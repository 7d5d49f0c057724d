//! The waves between the nodes: the numerical kernel.
//!
//! Node by node `p` (Pa) and `q` (m³/s, downwards positive); cell by cell `b = rho a/A`
//! (Pa/(m³/s)), the friction factor `k dx`, and the weight `g = rho g dz` (Pa).
//!
//! The two waves that cross a cell in a step meet in its middle. There the friction acts on
//! both: one loses what the other gains. So a front loses what the flow ahead of it costs and
//! nothing for the flow behind it, volume is kept exactly, and friction can only take energy.

use std::ops::Range;

use super::node::Line;
use super::power_table::PowerTable;

/// A run of cells between two special nodes, with one friction exponent.
#[derive(Debug, Clone)]
pub(super) struct Segment {
    /// Its cells.
    pub cells: Range<usize>,
    /// Its nodes, one more than cells; a special node stands in both segments it parts.
    pub nodes: Range<usize>,
    /// Its table among the tables.
    pub table: usize,
}

/// Constants of a cell.
#[derive(Debug, Clone, Copy)]
pub(super) struct CellConstants {
    pub b: f64,
    pub friction: f64,
    pub weight: f64,
}

/// Friction that follows the change of the rate.
#[derive(Debug, Clone)]
struct Unsteady {
    /// Half the coefficient.
    half: f64,
    /// Rate in the middle of each cell a step ago.
    before: Vec<f64>,
}

/// State of all nodes and the waves under way.
#[derive(Debug, Clone)]
pub(super) struct Waves {
    pub segments: Vec<Segment>,
    pub p: Vec<f64>,
    pub q: Vec<f64>,
    tables: Vec<PowerTable>,
    b: Vec<f64>,
    /// `1/(2 b)`.
    per_2b: Vec<f64>,
    /// `1/(b_l + b_r)` of the cell and the one above it.
    per_sum: Vec<f64>,
    friction: Vec<f64>,
    weight: Vec<f64>,
    /// `|q|^(n - 1)` in the middle of each cell a step ago.
    factor: Vec<f64>,
    /// Waves on their way down and up, by cell.
    down: Vec<f64>,
    up: Vec<f64>,
    unsteady: Option<Unsteady>,
}

impl Waves {
    /// Nodes at rest without pressure.
    pub fn new(
        segments: Vec<Segment>,
        tables: Vec<PowerTable>,
        cells: &[CellConstants],
        brunone: Option<f64>,
    ) -> Self {
        let (n, m) = (cells.len() + segments.len(), cells.len());
        let above = |i: usize| cells[i.saturating_sub(1)].b;
        Self {
            segments,
            p: vec![0.0; n],
            q: vec![0.0; n],
            tables,
            b: cells.iter().map(|c| c.b).collect(),
            per_2b: cells.iter().map(|c| 0.5 / c.b).collect(),
            per_sum: cells.iter().enumerate().map(|(i, c)| 1.0 / (c.b + above(i))).collect(),
            friction: cells.iter().map(|c| c.friction).collect(),
            weight: cells.iter().map(|c| c.weight).collect(),
            factor: vec![0.0; m],
            down: vec![0.0; m],
            up: vec![0.0; m],
            unsteady: brunone.map(|k| Unsteady { half: k / 2.0, before: vec![0.0; m] }),
        }
    }

    /// Sends the waves from every node through its cells.
    pub fn depart(&mut self) {
        for i in 0..self.segments.len() {
            let (cells, nodes) = (self.segments[i].cells.clone(), self.segments[i].nodes.clone());
            let table = &self.tables[self.segments[i].table];
            let crossing = Crossing {
                p: &self.p[nodes.clone()],
                q: &self.q[nodes],
                b: &self.b[cells.clone()],
                per_2b: &self.per_2b[cells.clone()],
                friction: &self.friction[cells.clone()],
                weight: &self.weight[cells.clone()],
                factor: &mut self.factor[cells.clone()],
                down: &mut self.down[cells.clone()],
                up: &mut self.up[cells],
            };
            if table.is_square() { crossing.run(f64::abs) } else { crossing.run(|q| table.at(q)) }
        }
        if self.unsteady.is_some() {
            self.follow_change();
        }
    }

    /// Takes from the waves what the change of the rate costs.
    ///
    /// `dp = b (k/2) (dq + sign(q)|dq'|)`, `dq` change in a step, `dq'` along the cell.
    fn follow_change(&mut self) {
        let Some(unsteady) = &mut self.unsteady else { return };
        for segment in &self.segments {
            for (i, cell) in segment.cells.clone().enumerate() {
                let node = segment.nodes.start + i;
                let across = self.down[cell] - self.up[cell] - self.weight[cell];
                let (now, before) = (across * self.per_2b[cell], unsteady.before[cell]);
                let along = (self.q[node + 1] - self.q[node]).abs();
                let signed = if now + before < 0.0 { -along } else { along };
                // dp = b (k/2) (dq + sign(q)|dq'|)
                let cost = self.b[cell] * unsteady.half * (now - before + signed);
                self.down[cell] -= cost;
                self.up[cell] += cost;
                unsteady.before[cell] = now;
            }
        }
    }

    /// Lets the waves arrive at the nodes inside the segments.
    ///
    /// `p + b_l q = C+`, `p - b_r q = C-`
    pub fn arrive(&mut self) {
        for segment in &self.segments {
            let nodes = segment.nodes.start + 1..segment.nodes.end - 1;
            let above = segment.cells.start..segment.cells.end - 1;
            let below = segment.cells.start + 1..segment.cells.end;
            let m = nodes.len();
            let (p, q) = (&mut self.p[nodes.clone()], &mut self.q[nodes]);
            let (b, down) = (&self.b[above.clone()][..m], &self.down[above][..m]);
            let (per_sum, up) = (&self.per_sum[below.clone()][..m], &self.up[below][..m]);
            let (p, q) = (&mut p[..m], &mut q[..m]);
            for i in 0..m {
                let rate = (down[i] - up[i]) * per_sum[i];
                p[i] = down[i] - b[i] * rate;
                q[i] = rate;
            }
        }
    }

    /// The wave arriving from above at the lower end of a segment.
    pub fn from_above(&self, segment: usize) -> Line {
        let cell = self.segments[segment].cells.end - 1;
        Line { c: self.down[cell], b: self.b[cell] }
    }

    /// The wave arriving from below at the upper end of a segment.
    pub fn from_below(&self, segment: usize) -> Line {
        let cell = self.segments[segment].cells.start;
        Line { c: self.up[cell], b: self.b[cell] }
    }

    /// Sets the upper end of a segment.
    pub fn settle_top(&mut self, segment: usize, p: f64, q: f64) {
        let node = self.segments[segment].nodes.start;
        (self.p[node], self.q[node]) = (p, q);
    }

    /// Sets the lower end of a segment.
    pub fn settle_bottom(&mut self, segment: usize, p: f64, q: f64) {
        let node = self.segments[segment].nodes.end - 1;
        (self.p[node], self.q[node]) = (p, q);
    }

    /// A steady rate in a segment whose lower end has the pressure `p`; gives that at the upper.
    pub fn lay_steady(&mut self, segment: usize, q: f64, p: f64) -> f64 {
        let s = self.segments[segment].clone();
        let factor = self.tables[s.table].at(q);
        let mut p = p;
        self.settle_bottom(segment, p, q);
        for (i, cell) in s.cells.enumerate().rev() {
            // dp = k dx |q|^(n - 1) q - rho g dz
            p += self.friction[cell] * factor * q - self.weight[cell];
            let node = s.nodes.start + i;
            (self.p[node], self.q[node]) = (p, q);
            self.factor[cell] = factor;
            if let Some(u) = &mut self.unsteady {
                // as the middle of the cell reads it: the waves have had their friction
                u.before[cell] = q - self.friction[cell] * factor * q * self.per_2b[cell];
            }
        }
        p
    }

    /// Volume held by compression above that at no pressure, over the time step.
    ///
    /// `S/dt = sum (C+ + C-)/(2 b)` of the waves that leave the nodes: its change in a step is
    /// exactly the rate in less the rate out.
    pub fn stored(&self) -> f64 {
        let waves =
            |n: usize, cell: usize| self.p[n] + self.p[n + 1] + self.b[cell] * (self.q[n] - self.q[n + 1]);
        let of = |s: &Segment| -> f64 {
            let each = s.cells.clone().zip(s.nodes.clone());
            each.map(|(cell, n)| waves(n, cell) * self.per_2b[cell]).sum()
        };
        self.segments.iter().map(of).sum()
    }

    /// Energy of the waves against a state at rest without pressure, over half the time step.
    ///
    /// `E = sum [(C+)^2 + (C-)^2]/(2 b)`: kinetic and compression together.
    #[cfg(test)]
    pub fn energy(&self) -> f64 {
        let waves = |n: usize, cell: usize| {
            let b = self.b[cell];
            let (down, up) = (self.p[n] + b * self.q[n], self.p[n + 1] - b * self.q[n + 1]);
            (down * down + up * up) * self.per_2b[cell]
        };
        let of = |s: &Segment| -> f64 {
            s.cells.clone().zip(s.nodes.clone()).map(|(cell, n)| waves(n, cell)).sum()
        };
        self.segments.iter().map(of).sum()
    }
}

/// A segment's cells on their way through a step, as slices.
struct Crossing<'a> {
    p: &'a [f64],
    q: &'a [f64],
    b: &'a [f64],
    per_2b: &'a [f64],
    friction: &'a [f64],
    weight: &'a [f64],
    factor: &'a mut [f64],
    down: &'a mut [f64],
    up: &'a mut [f64],
}

impl Crossing<'_> {
    /// `C+ = p + b q + g - F` from the upper end, `C- = p - b q - g + F` from the lower,
    /// `F = k dx |q_m|^(n - 1) q_m`, `q_m = (C+ - C-)/(2 b)` where they meet, half of `F` taken.
    #[inline]
    fn run(self, power: impl Fn(f64) -> f64) {
        let m = self.b.len();
        let (pl, pr, ql, qr) = (&self.p[..m], &self.p[1..=m], &self.q[..m], &self.q[1..=m]);
        let (b, per_2b) = (&self.b[..m], &self.per_2b[..m]);
        let (friction, weight) = (&self.friction[..m], &self.weight[..m]);
        let (factor, down, up) = (&mut self.factor[..m], &mut self.down[..m], &mut self.up[..m]);
        for i in 0..m {
            let c_down = pl[i] + b[i] * ql[i] + weight[i];
            let c_up = pr[i] - b[i] * qr[i];
            // q_m = (C+ - C-)/(2 b) - F/(2 b), the factor of F a step old
            let half = friction[i] * per_2b[i];
            let rate = (c_down - c_up) * per_2b[i] / (1.0 + half * factor[i]);
            let now = power(rate);
            // F = k dx |q_m|^(n - 1) q_m
            let cost = friction[i] * now * rate;
            factor[i] = now;
            down[i] = c_down - cost;
            up[i] = c_up - weight[i] + cost;
        }
    }
}
