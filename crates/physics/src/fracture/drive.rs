//! What drives a fracture of given height, and what it opens to.

use crate::error::require_positive;
use crate::{Arguments, Input, Output, Outputs, Result};
use quantity::{Diameter, FlowRate, Length, Pressure, Viscosity};

/// Rock, fluid and rate of one wing of a fracture of given height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drive {
    /// Plane-strain modulus `E' = E/(1 - nu²)`.
    pub modulus: Pressure,
    /// Height of the fracture.
    pub height: Length,
    /// Viscosity of the fluid.
    pub viscosity: Viscosity,
    /// Rate into one wing: half of what is pumped.
    pub wing_rate: FlowRate,
}

/// A fracture at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Opening {
    /// Length of one wing, or the radius.
    pub length: Length,
    /// Greatest width, at the well.
    pub width: Diameter,
    /// Width averaged over height and length.
    pub mean_width: Diameter,
    /// Pressure in the fracture at the well above the closure stress.
    pub net_pressure: Pressure,
}

impl Drive {
    /// Refuses what no fracture can have.
    pub(crate) fn check(&self, relation: &'static str) -> Result<()> {
        require_positive(relation, "modulus", self.modulus)?;
        require_positive(relation, "height", self.height)?;
        require_positive(relation, "viscosity", self.viscosity)?;
        require_positive(relation, "wing_rate", self.wing_rate)
    }

    /// From the inputs of a relation.
    pub(crate) fn read(a: &Arguments) -> Result<Self> {
        Ok(Self {
            modulus: a.get("modulus")?,
            height: a.get("height")?,
            viscosity: a.get("viscosity")?,
            wing_rate: a.get("wing_rate")?,
        })
    }
}

pub(crate) const MODULUS: Input = Input::new::<Pressure>("modulus", "plane-strain modulus E' = E/(1 - nu²)");
pub(crate) const HEIGHT: Input = Input::new::<Length>("height", "height of the fracture");
pub(crate) const VISCOSITY: Input = Input::new::<Viscosity>("viscosity", "viscosity of the fluid");
pub(crate) const WING_RATE: Input =
    Input::new::<FlowRate>("wing_rate", "rate into ONE wing, half the pumped rate");

pub(crate) const WIDTH: Output = Output::new::<Diameter>("width", "greatest width, at the well");
pub(crate) const MEAN_WIDTH: Output = Output::new::<Diameter>("mean_width", "width averaged over the face");
pub(crate) const NET_PRESSURE: Output =
    Output::new::<Pressure>("net_pressure", "pressure at the well above the closure stress");

impl Opening {
    /// As the outputs `width`, `mean_width` and `net_pressure`.
    pub(crate) fn put(&self, outputs: Outputs) -> Outputs {
        outputs
            .put("width", self.width)
            .put("mean_width", self.mean_width)
            .put("net_pressure", self.net_pressure)
    }
}
