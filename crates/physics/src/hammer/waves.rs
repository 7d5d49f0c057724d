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
use super::power::{Power, Tangent};

/// A run of cells between two special nodes, with one friction exponent.
#[derive(Debug, Clone)]
pub(super) struct Segment {
    /// Its cells.
    pub cells: Range<usize>,
    /// Its nodes, one more than cells; a special node stands in both segments it parts.
    pub nodes: Range<usize>,
    /// The power of the rate in its friction.
    pub power: Power,
}

/// Constants of a cell.
#[derive(Debug, Clone, Copy)]
pub(super) struct CellConstants {
    pub b: f64,
    pub friction: f64,
    pub weight: f64,
}

/// Constants of all cells, each as a list.
#[derive(Debug, Clone)]
struct Cells {
    b: Vec<f64>,
    /// `1/(2 b)`.
    per_2b: Vec<f64>,
    /// `k dx/(2 b)`.
    half: Vec<f64>,
    /// `1/(b_l + b_r)` of the cell and the one above it.
    per_sum: Vec<f64>,
    friction: Vec<f64>,
    weight: Vec<f64>,
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
    cells: Cells,
    /// `|q|^(n - 1)` in the middle of each cell.
    factor: Vec<f64>,
    tangents: Vec<Tangent>,
    /// Rate where the waves meet in the middle of each cell.
    middle: Vec<f64>,
    /// Waves on their way down and up, by cell.
    down: Vec<f64>,
    up: Vec<f64>,
    unsteady: Option<Unsteady>,
}

impl Waves {
    /// Nodes at rest without pressure.
    pub fn new(segments: Vec<Segment>, cells: &[CellConstants], brunone: Option<f64>) -> Self {
        let (n, m) = (cells.len() + segments.len(), cells.len());
        let above = |i: usize| cells[i.saturating_sub(1)].b;
        Self {
            segments,
            p: vec![0.0; n],
            q: vec![0.0; n],
            cells: Cells {
                b: cells.iter().map(|c| c.b).collect(),
                per_2b: cells.iter().map(|c| 0.5 / c.b).collect(),
                half: cells.iter().map(|c| 0.5 * c.friction / c.b).collect(),
                per_sum: cells.iter().enumerate().map(|(i, c)| 1.0 / (c.b + above(i))).collect(),
                friction: cells.iter().map(|c| c.friction).collect(),
                weight: cells.iter().map(|c| c.weight).collect(),
            },
            factor: vec![0.0; m],
            tangents: vec![Tangent::default(); m],
            middle: vec![0.0; m],
            down: vec![0.0; m],
            up: vec![0.0; m],
            unsteady: brunone.map(|k| Unsteady { half: k / 2.0, before: vec![0.0; m] }),
        }
    }

    /// Sends the waves from every node through its cells.
    pub fn depart(&mut self) {
        for segment in &self.segments {
            let (cells, nodes) = (segment.cells.clone(), segment.nodes.clone());
            let (p, q) = (&self.p[nodes.clone()], &self.q[nodes]);
            let (down, up) = (&mut self.down[cells.clone()], &mut self.up[cells.clone()]);
            self.cells.send(cells.clone(), p, q, down, up);
        }
        self.cells.meet(&self.down, &self.up, &self.factor, &mut self.middle);
        // one pass for neighbours of one exponent
        let mut start = 0;
        for (i, segment) in self.segments.iter().enumerate() {
            let end = segment.cells.end;
            if self.segments.get(i + 1).is_none_or(|next| next.power != segment.power) {
                let tangents = &mut self.tangents[start..end];
                segment.power.each(&self.middle[start..end], tangents, &mut self.factor[start..end]);
                start = end;
            }
        }
        self.cells.rub(&self.middle, &self.factor, &mut self.down, &mut self.up);
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
                let (now, before) = (self.middle[cell], unsteady.before[cell]);
                let along = (self.q[node + 1] - self.q[node]).abs();
                let signed = if now + before < 0.0 { -along } else { along };
                // dp = b (k/2) (dq + sign(q)|dq'|)
                let cost = self.cells.b[cell] * unsteady.half * (now - before + signed);
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
            let (p, q) = (&mut self.p[nodes.clone()], &mut self.q[nodes]);
            self.cells.receive(above.clone(), &self.down[above], &self.up[below], p, q);
        }
    }

    /// The wave arriving from above at the lower end of a segment.
    pub fn wave_from_above(&self, segment: usize) -> Line {
        let cell = self.segments[segment].cells.end - 1;
        Line { c: self.down[cell], b: self.cells.b[cell] }
    }

    /// The wave arriving from below at the upper end of a segment.
    pub fn wave_from_below(&self, segment: usize) -> Line {
        let cell = self.segments[segment].cells.start;
        Line { c: self.up[cell], b: self.cells.b[cell] }
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
        let factor = s.power.at(q);
        let mut p = p;
        self.settle_bottom(segment, p, q);
        for (i, cell) in s.cells.enumerate().rev() {
            // dp = k dx |q|^(n - 1) q - rho g dz
            p += self.cells.friction[cell] * factor * q - self.cells.weight[cell];
            let node = s.nodes.start + i;
            (self.p[node], self.q[node]) = (p, q);
            self.factor[cell] = factor;
            if let Some(u) = &mut self.unsteady {
                u.before[cell] = q;
            }
        }
        p
    }

    /// Volume held by compression above that at no pressure, over the time step.
    ///
    /// `S/dt = sum (C+ + C-)/(2 b)` of the waves that leave the nodes: its change in a step is
    /// exactly the rate in less the rate out.
    pub fn stored(&self) -> f64 {
        let waves = |n: usize, cell: usize| {
            self.p[n] + self.p[n + 1] + self.cells.b[cell] * (self.q[n] - self.q[n + 1])
        };
        let of = |s: &Segment| -> f64 {
            let each = s.cells.clone().zip(s.nodes.clone());
            each.map(|(cell, n)| waves(n, cell) * self.cells.per_2b[cell]).sum()
        };
        self.segments.iter().map(of).sum()
    }

    /// Energy of the waves against a state at rest without pressure, over half the time step.
    ///
    /// `E = sum [(C+)^2 + (C-)^2]/(2 b)`: kinetic and compression together.
    #[cfg(test)]
    pub fn energy(&self) -> f64 {
        let waves = |n: usize, cell: usize| {
            let b = self.cells.b[cell];
            let (down, up) = (self.p[n] + b * self.q[n], self.p[n + 1] - b * self.q[n + 1]);
            (down * down + up * up) * self.cells.per_2b[cell]
        };
        let of = |s: &Segment| -> f64 {
            s.cells.clone().zip(s.nodes.clone()).map(|(cell, n)| waves(n, cell)).sum()
        };
        self.segments.iter().map(of).sum()
    }
}

/// The loops over cells and nodes. Each takes what it changes as lists of its own, so that the
/// compiler may run several cells at once.
impl Cells {
    /// `C+ = p + b q + g` from the upper end of each cell, `C- = p - b q - g` from the lower.
    #[inline(never)]
    fn send(&self, cells: Range<usize>, p: &[f64], q: &[f64], down: &mut [f64], up: &mut [f64]) {
        let m = cells.len();
        let (b, weight) = (&self.b[cells.clone()][..m], &self.weight[cells][..m]);
        let (pl, pr, ql, qr) = (&p[..m], &p[1..=m], &q[..m], &q[1..=m]);
        let (down, up) = (&mut down[..m], &mut up[..m]);
        for i in 0..m {
            down[i] = pl[i] + b[i] * ql[i] + weight[i];
            up[i] = pr[i] - b[i] * qr[i] - weight[i];
        }
    }

    /// `q_m = (C+ - C- - g)/(2 b) - F/(2 b)` where the waves meet, `F = k dx |q_m|^(n - 1) q_m`
    /// with its factor a step old.
    #[inline(never)]
    fn meet(&self, down: &[f64], up: &[f64], factor: &[f64], middle: &mut [f64]) {
        let m = middle.len();
        let (down, up, factor, weight) = (&down[..m], &up[..m], &factor[..m], &self.weight[..m]);
        let (per_2b, half) = (&self.per_2b[..m], &self.half[..m]);
        for i in 0..m {
            middle[i] = (down[i] - up[i] - weight[i]) * per_2b[i] / (1.0 + half[i] * factor[i]);
        }
    }

    /// Takes `F = k dx |q_m|^(n - 1) q_m` from the one wave and gives it to the other.
    #[inline(never)]
    fn rub(&self, middle: &[f64], factor: &[f64], down: &mut [f64], up: &mut [f64]) {
        let m = middle.len();
        let friction = &self.friction[..m];
        let (middle, factor, down, up) = (&middle[..m], &factor[..m], &mut down[..m], &mut up[..m]);
        for i in 0..m {
            let cost = friction[i] * factor[i] * middle[i];
            down[i] -= cost;
            up[i] += cost;
        }
    }

    /// `p + b_l q = C+`, `p - b_r q = C-` at the nodes below the cells given.
    #[inline(never)]
    fn receive(&self, above: Range<usize>, down: &[f64], up: &[f64], p: &mut [f64], q: &mut [f64]) {
        let m = above.len();
        let (b, per_sum) = (&self.b[above.clone()][..m], &self.per_sum[above.start + 1..above.end + 1][..m]);
        let (down, up, p, q) = (&down[..m], &up[..m], &mut p[..m], &mut q[..m]);
        for i in 0..m {
            let rate = (down[i] - up[i]) * per_sum[i];
            p[i] = down[i] - b[i] * rate;
            q[i] = rate;
        }
    }
}
