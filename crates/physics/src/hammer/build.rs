//! From the description of a string to its cells, nodes and segments.

use crate::error::{Result, require, require_not_negative, require_positive};
use quantity::{FlowRate, Length, Quantity, Ratio};

use super::NAME;
use super::boundary::{Governor, Lower, Upper};
use super::grid::{Fineness, Grid};
use super::landing_place::{Landing, Place};
use super::power::Power;
use super::run::Joint;
use super::string::{CellFill, CellPlace, LumpedLoss, Reach};
use super::waves::{CellConstants, Segment, Waves};

/// A string of reaches with what stands in it and at its ends.
#[derive(Debug, Clone, PartialEq)]
pub struct HammerString {
    /// The reaches from the pump downwards.
    pub reaches: Vec<Reach>,
    /// How finely it is cut.
    pub fineness: Fineness,
    /// Seats and other lumped losses; each is moved to the nearest node.
    pub losses: Vec<LumpedLoss>,
    /// Where a ball lands, if one does.
    pub landing: Option<Landing>,
    /// The upper end.
    pub upper: Upper,
    /// The lower end.
    pub lower: Lower,
    /// Coefficient of the unsteady friction; off by default, see [`super::unsteady`].
    pub unsteady_friction: Option<f64>,
}

/// The parts of a running string.
pub(super) struct Built {
    pub waves: Waves,
    pub joints: Vec<Joint>,
    pub place: Option<Place>,
    pub grid: Grid,
    pub shift: Length,
}

/// Checks, cuts, fills.
pub(super) fn build(
    string: &HammerString,
    rate: FlowRate,
    mut fill: impl FnMut(&CellPlace) -> CellFill,
) -> Result<Built> {
    check(string, rate)?;
    let grid = Grid::new(&string.reaches, &string.fineness)?;
    let mut constants = Vec::with_capacity(grid.cells.len());
    let mut exponents = Vec::with_capacity(grid.cells.len());
    for cell in &grid.cells {
        let filled = fill(cell);
        constants.push(cell_constants(&string.reaches, cell, &filled, grid.dt)?);
        // a cell without friction takes any exponent: that of its neighbour
        let free = filled.friction.gradient.si() == 0.0;
        let last = exponents.last().copied();
        exponents.push(last.filter(|_| free).unwrap_or(filled.friction.exponent));
    }
    let place = string.landing.map(Place::new).transpose()?;
    let (specials, shift) = special_nodes(string, &grid)?;
    let (segments, joints) = cut(&specials, &exponents);
    let waves = Waves::new(segments, &constants, string.unsteady_friction);
    Ok(Built { waves, joints, place, grid, shift })
}

fn check(string: &HammerString, rate: FlowRate) -> Result<()> {
    let hint = "Give the rate the string flows at; a closed end has none.";
    require(rate.is_finite(), NAME, "rate", rate, "a number", hint)?;
    match string.lower {
        Lower::Closed(level) => {
            require(level.is_finite(), NAME, "level", level, "a number", hint)?;
            require(rate.si() == 0.0, NAME, "rate", rate, "zero where the lower end is closed", hint)?;
        }
        Lower::Ports { loss, .. } => require_not_negative(NAME, "port_loss", loss)?,
    }
    let starts = match string.upper {
        Upper::Constant(own) => own,
        Upper::Governed(governor) => {
            check_governor(&governor)?;
            governor.ramp.from
        }
        Upper::Closed => FlowRate::ZERO,
        Upper::Reservoir => rate,
    };
    let hint = "The flow is steady when it starts: let the pumps change their rate later.";
    require(starts == rate, NAME, "pump_rate", starts, "the rate of the steady flow", hint)?;
    if let Some(k) = string.unsteady_friction {
        let hint = "The coefficient is about 0.003 to 0.035.";
        require((0.0..=0.5).contains(&k), NAME, "unsteady_friction", Ratio::of(k), "from 0 to 0.5", hint)?;
    }
    Ok(())
}

fn check_governor(governor: &Governor) -> Result<()> {
    require_not_negative(NAME, "ramp_time", governor.ramp.end - governor.ramp.start)?;
    require_not_negative(NAME, "ramp_from", governor.ramp.from)?;
    require_not_negative(NAME, "ramp_to", governor.ramp.to)?;
    if let Some(trip) = governor.trip {
        require_not_negative(NAME, "run_down", trip.run_down)?;
        require_positive(NAME, "trip_pressure", trip.pressure)?;
    }
    if let Some(relief) = governor.relief {
        require_positive(NAME, "relief_orifice", relief.orifice)?;
        let hint = "A valve closes again below the pressure that opens it.";
        let order = relief.reseat <= relief.set;
        require(order, NAME, "reseat", relief.reseat, "at most the set pressure", hint)?;
    }
    Ok(())
}

fn cell_constants(reaches: &[Reach], cell: &CellPlace, fill: &CellFill, dt: f64) -> Result<CellConstants> {
    require_positive(NAME, "density", fill.density)?;
    let hint = "A cell cannot drop by more than its length.";
    let (drop, length) = (fill.drop, cell.length());
    require(drop.abs() <= length * (1.0 + 1e-9), NAME, "drop", drop, "at most the cell's length", hint)?;
    let area = reaches.get(cell.reach).map_or(f64::NAN, |r| r.area.si());
    let dx = length.si();
    Ok(CellConstants {
        // b = rho a/A with a = dx/dt
        b: fill.density.si() * dx / (dt * area),
        friction: fill.friction.factor()? * dx,
        // rho g dz
        weight: (fill.density.gradient() * drop).si(),
    })
}

/// Nodes with a loss or the landing, in their order, and the largest move to a node.
fn special_nodes(string: &HammerString, grid: &Grid) -> Result<(Vec<(usize, Joint)>, Length)> {
    let total = grid.place(grid.cells.len());
    let last = grid.cells.len();
    let mut shift = Length::ZERO;
    let mut place = |at: Length, lowest: usize| {
        let hint = "Places are along the pipe from the pump, at least a cell below it.";
        let inside = at.si() > 0.0 && at <= total * (1.0 + 1e-9);
        require(inside, NAME, "at", at, "between the pump and the end of the string", hint)?;
        let node = grid.node(at).clamp(1, lowest);
        shift = shift.max((grid.place(node) - at).abs());
        Ok(node)
    };
    let mut out: Vec<(usize, Joint)> = Vec::new();
    if let Some(landing) = string.landing {
        out.push((place(landing.at, last)?, Joint::Landing));
    }
    for loss in &string.losses {
        require_not_negative(NAME, "lumped_loss", loss.loss)?;
        let node = place(loss.at, last - 1)?;
        match out.iter_mut().find(|(n, _)| *n == node) {
            // two seats nearest to one node: in a row
            Some((_, Joint::Loss(k))) => *k += loss.loss.si(),
            // at the landing place the seat's own loss counts
            Some((_, Joint::Landing)) => {}
            None => out.push((node, Joint::Loss(loss.loss.si()))),
        }
    }
    out.sort_by_key(|(node, _)| *node);
    Ok((out, shift))
}

/// Cuts the cells into segments at the special nodes and where the exponent changes.
fn cut(specials: &[(usize, Joint)], exponents: &[f64]) -> (Vec<Segment>, Vec<Joint>) {
    let mut ends: Vec<(usize, Joint)> = specials.to_vec();
    for node in 1..exponents.len() {
        if exponents[node] != exponents[node - 1] && !ends.iter().any(|(n, _)| *n == node) {
            ends.push((node, Joint::Loss(0.0)));
        }
    }
    ends.sort_by_key(|(node, _)| *node);
    let (mut segments, mut start) = (Vec::new(), 0);
    let last = exponents.len();
    let mut bounds: Vec<usize> = ends.iter().map(|(node, _)| *node).collect();
    if bounds.last() != Some(&last) {
        bounds.push(last);
    }
    for end in bounds {
        let power = Power::new(exponents[start]);
        let first = start + segments.len();
        segments.push(Segment { cells: start..end, nodes: first..first + (end - start) + 1, power });
        start = end;
    }
    (segments, ends.into_iter().map(|(_, joint)| joint).collect())
}
