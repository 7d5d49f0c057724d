//! The fluid columns inside and outside a string before and after a change, and the inputs by
//! which a relation reads them.

use super::effective_tension::Pressures;
use crate::error::require_not_negative;
use crate::{Arguments, Input, Result};
use quantity::{Density, Length, Pressure};

/// Fluids and surface pressures, inside and outside.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Columns {
    /// Density inside.
    pub inside_density: Density,
    /// Density outside.
    pub outside_density: Density,
    /// Pressures at the surface.
    pub surface: Pressures,
}

impl Columns {
    /// Pressures at a vertical depth, with no flow.
    pub fn at(self, depth: Length) -> Pressures {
        Pressures {
            inside: self.surface.inside + self.inside_density.gradient() * depth,
            outside: self.surface.outside + self.outside_density.gradient() * depth,
        }
    }

    pub(super) fn checked(self, relation: &'static str) -> Result<Self> {
        require_not_negative(relation, "inside_density", self.inside_density)?;
        require_not_negative(relation, "outside_density", self.outside_density)?;
        Ok(self)
    }
}

/// Reads the columns when landed and after the change.
pub(super) fn landed_and_changed(a: &Arguments) -> Result<(Columns, Columns)> {
    let columns = |inside, outside, inside_pressure, outside_pressure| -> Result<Columns> {
        let surface = Pressures { inside: a.get(inside_pressure)?, outside: a.get(outside_pressure)? };
        Ok(Columns { inside_density: a.get(inside)?, outside_density: a.get(outside)?, surface })
    };
    let landed =
        columns("landed_inside", "landed_outside", "landed_inside_pressure", "landed_outside_pressure")?;
    let changed = columns("changed_inside", "changed_outside", "inside_pressure", "outside_pressure")?;
    Ok((landed, changed))
}

/// The inputs [`landed_and_changed`] reads.
pub(super) const INPUTS: [Input; 8] = [
    Input::new::<Density>("landed_inside", "density inside when landed"),
    Input::new::<Density>("landed_outside", "density outside when landed"),
    Input::new::<Density>("changed_inside", "density inside after the change"),
    Input::new::<Density>("changed_outside", "density outside after the change"),
    Input::new::<Pressure>("landed_inside_pressure", "surface pressure inside when landed").or("0 psi"),
    Input::new::<Pressure>("landed_outside_pressure", "surface pressure outside when landed").or("0 psi"),
    Input::new::<Pressure>("inside_pressure", "surface pressure inside after the change").or("0 psi"),
    Input::new::<Pressure>("outside_pressure", "surface pressure outside after the change").or("0 psi"),
];
