//! The search: dynamic programming over the tally, toe to heel.
//!
//! A packer stands on a connection; the tools below it are known from its stage, and the pups
//! below it from how many of the list have been used. So its depth follows from three whole
//! numbers (stage, joints below, pups below), and the best way to a packer is the best over the
//! packer before it, the sleeve between, and whether a pup goes under it.

use std::collections::BTreeMap;

use super::problem::{Ground, Problem};
use super::score::Refusal;

/// One stage as found: joints below sleeve and packer, pups below the packer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Choice {
    /// Joints below the sleeve.
    pub sleeve: usize,
    /// Joints below the packer.
    pub packer: usize,
    /// Pups below the packer, counted along the list.
    pub pups: usize,
}

/// The best layout: one choice a stage, toe first, and its total penalty.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// Choices, stage 1 first.
    pub choices: Vec<Choice>,
    /// Sum of penalties.
    pub penalty: f64,
}

/// Why there is none: the first stage that cannot be placed, and the reasons by count.
#[derive(Debug, Clone, PartialEq)]
pub struct Stuck {
    /// Stage, 1 at the toe.
    pub stage: usize,
    /// Depth window in which its packer would have to stand, upper and lower.
    pub window: (f64, f64),
    /// Refused places by reason.
    pub reasons: BTreeMap<Refusal, usize>,
    /// Places that were looked at.
    pub looked: usize,
}

/// The most pups the search shifts by.
pub const MOST_PUPS: usize = 6;

#[derive(Clone, Copy)]
struct Cell {
    cost: f64,
    from: u32,
    sleeve: u32,
}

const NOWHERE: Cell = Cell { cost: f64::INFINITY, from: u32::MAX, sleeve: 0 };

/// The tables of the search.
pub struct Search<'a, G: Ground> {
    problem: &'a Problem,
    ground: &'a G,
    /// Length of the first n joints.
    joints: Vec<f64>,
    /// Length of the first n pups.
    pups: Vec<f64>,
}

impl<'a, G: Ground> Search<'a, G> {
    /// For a problem.
    pub fn new(problem: &'a Problem, ground: &'a G) -> Self {
        let sums = |lengths: &[f64]| -> Vec<f64> {
            std::iter::once(0.0)
                .chain(lengths.iter().scan(0.0, |sum, l| {
                    *sum += l;
                    Some(*sum)
                }))
                .collect()
        };
        let pups = problem.pups.get(..MOST_PUPS.min(problem.pups.len())).unwrap_or_default();
        Self { problem, ground, joints: sums(&problem.joints), pups: sums(pups) }
    }

    fn cells(&self) -> usize {
        self.joints.len() * self.pups.len()
    }

    fn index(&self, joints: usize, pups: usize) -> usize {
        joints * self.pups.len() + pups
    }

    /// Depth of the lower end of the packer of `stage` above `joints` joints and `pups` pups.
    pub fn packer_bottom(&self, stage: usize, joints: usize, pups: usize) -> f64 {
        self.problem.toe_top - self.joints[joints] - self.pups[pups] - self.problem.tools_below_packer(stage)
    }

    /// Depth of the lower end of the sleeve of `stage`.
    pub fn sleeve_bottom(&self, stage: usize, joints: usize, pups: usize) -> f64 {
        self.problem.toe_top - self.joints[joints] - self.pups[pups] - self.problem.tools_below_sleeve(stage)
    }

    /// Where the stage ends that a packer with this lower end closes at its heel.
    fn heel_end(&self, bottom: f64) -> f64 {
        bottom - self.problem.packer.length + self.problem.packer.from_top + self.problem.packer.part
    }

    /// Where the next stage starts at its toe: the top of the element.
    fn toe_end(&self, bottom: f64) -> f64 {
        bottom - self.problem.packer.length + self.problem.packer.from_top
    }

    fn ports(&self, stage: usize, bottom: f64) -> f64 {
        let tool = self.problem.sleeve_of(stage);
        bottom - tool.length + tool.from_top
    }

    /// The best layout, or where it gets stuck.
    pub fn run(&self) -> Result<Found, Stuck> {
        let mut rows: Vec<Vec<Cell>> = Vec::with_capacity(self.problem.stages);
        for stage in 1..=self.problem.stages {
            let row = self.advance(stage, rows.last().map(Vec::as_slice));
            if row.iter().all(|c| c.cost.is_infinite()) {
                return Err(self.stuck(stage, rows.last().map(Vec::as_slice)));
            }
            rows.push(row);
        }
        Ok(self.trace(&rows))
    }

    /// Places from which the packer of the next stage can be reached: index, cost, joints and pups
    /// below. The cheapest come first: what follows them is then seldom better and soon left.
    fn starts(&self, before: Option<&[Cell]>) -> Vec<(u32, f64, usize, usize)> {
        let Some(before) = before else { return vec![(u32::MAX, 0.0, 0, 0)] };
        let width = self.pups.len();
        let reached = before.iter().enumerate().filter(|(_, c)| c.cost.is_finite());
        let mut starts: Vec<(u32, f64, usize, usize)> = reached
            .map(|(i, c)| (u32::try_from(i).unwrap_or(u32::MAX), c.cost, i / width, i % width))
            .collect();
        starts.sort_by(|a, b| a.1.total_cmp(&b.1));
        starts
    }

    fn start_depth(&self, stage: usize, joints: usize, pups: usize) -> f64 {
        if stage == 1 {
            self.problem.toe_limit
        } else {
            self.toe_end(self.packer_bottom(stage - 1, joints, pups))
        }
    }

    fn advance(&self, stage: usize, before: Option<&[Cell]>) -> Vec<Cell> {
        let mut row = vec![NOWHERE; self.cells()];
        let mut packers: Vec<f64> = vec![f64::NAN; self.cells()];
        let mut sleeves: Vec<f64> = vec![f64::NAN; self.cells()];
        for (from, cost, joints, pups) in self.starts(before) {
            let toe_end = self.start_depth(stage, joints, pups);
            for used in pups..(pups + 2).min(self.pups.len()) {
                for packer in joints + 2..self.joints.len() {
                    let bottom = self.packer_bottom(stage, packer, used);
                    let length = toe_end - self.heel_end(bottom);
                    if length > self.problem.longest {
                        break;
                    }
                    let Some(spacing) = self.problem.spacing_penalty(length) else { continue };
                    let cell = self.index(packer, used);
                    // No penalty is below zero: what is not better by now will not become so.
                    if cost + spacing >= row[cell].cost {
                        continue;
                    }
                    let seat = self.packer_cost(stage, cell, bottom, &mut packers);
                    if cost + seat + spacing >= row[cell].cost {
                        continue;
                    }
                    let span = (joints + 1, packer, pups);
                    if let Some((sleeve, rest)) =
                        self.best_sleeve(stage, span, (toe_end, length), &mut sleeves)
                    {
                        let total = cost + seat + (spacing + rest);
                        if total < row[cell].cost {
                            row[cell] = Cell { cost: total, from, sleeve };
                        }
                    }
                }
            }
        }
        row
    }

    fn packer_cost(&self, stage: usize, cell: usize, bottom: f64, held: &mut [f64]) -> f64 {
        if held[cell].is_nan() {
            held[cell] = self.problem.packer_penalty(self.ground, stage, bottom).unwrap_or(f64::INFINITY);
        }
        held[cell]
    }

    /// The best sleeve strictly between two packers, in a stage of a length from its toe end.
    fn best_sleeve(
        &self,
        stage: usize,
        (first, last, pups): (usize, usize, usize),
        (toe_end, length): (f64, f64),
        held: &mut [f64],
    ) -> Option<(u32, f64)> {
        let mut best: Option<(u32, f64)> = None;
        for joints in first..last {
            let bottom = self.sleeve_bottom(stage, joints, pups);
            let place = self.problem.place_penalty(length, toe_end - self.ports(stage, bottom));
            if best.is_some_and(|(_, b)| place >= b) {
                continue;
            }
            let cell = self.index(joints, pups);
            if held[cell].is_nan() {
                held[cell] = self.problem.sleeve_penalty(self.ground, stage, bottom).unwrap_or(f64::INFINITY);
            }
            let total = held[cell] + place;
            if total.is_finite() && best.is_none_or(|(_, b)| total < b) {
                best = Some((u32::try_from(joints).unwrap_or(u32::MAX), total));
            }
        }
        best
    }

    fn trace(&self, rows: &[Vec<Cell>]) -> Found {
        let width = self.pups.len();
        let mut choices = Vec::with_capacity(rows.len());
        let last = rows.last().map(Vec::as_slice).unwrap_or_default();
        let best = last.iter().enumerate().min_by(|a, b| a.1.cost.total_cmp(&b.1.cost));
        let mut at = best.map_or(0, |(i, _)| i);
        let penalty = best.map_or(0.0, |(_, c)| c.cost);
        for row in rows.iter().rev() {
            let cell = row[at];
            choices.push(Choice { sleeve: cell.sleeve as usize, packer: at / width, pups: at % width });
            at = cell.from as usize;
        }
        choices.reverse();
        Found { choices, penalty }
    }

    /// Counts why the packer of `stage` cannot be placed from any place reached before.
    fn stuck(&self, stage: usize, before: Option<&[Cell]>) -> Stuck {
        let mut places: BTreeMap<usize, f64> = BTreeMap::new();
        let mut window = (f64::INFINITY, f64::NEG_INFINITY);
        for (_, _, joints, pups) in self.starts(before) {
            let toe_end = self.start_depth(stage, joints, pups);
            window =
                (window.0.min(toe_end - self.problem.longest), window.1.max(toe_end - self.problem.shortest));
            for packer in joints + 2..self.joints.len() {
                let bottom = self.packer_bottom(stage, packer, pups);
                let length = toe_end - self.heel_end(bottom);
                if (self.problem.shortest..=self.problem.longest).contains(&length) {
                    places.insert(self.index(packer, pups), bottom);
                }
            }
        }
        let mut reasons = BTreeMap::new();
        for bottom in places.values() {
            if let Err(reason) = self.problem.packer_penalty(self.ground, stage, *bottom) {
                *reasons.entry(reason).or_insert(0) += 1;
            }
        }
        Stuck { stage, window, reasons, looked: places.len() }
    }
}
