//! What the string is made of: reaches, the fluid in each cell, seats.

use crate::error::{Result, require, require_not_negative, require_positive};
use quantity::{
    Area, Density, Diameter, FlowRate, Length, PressureGradient, Quantity, RateSquaredLoss, Ratio, Velocity,
};

use super::NAME;

/// A length of pipe with one bore and one wave speed, from the pump downwards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// Length along the pipe.
    pub length: Length,
    /// Area of the bore.
    pub area: Area,
    /// Wave speed of its fluid in its wall.
    pub wave_speed: Velocity,
}

/// Where a cell lies, for the host that fills it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CellPlace {
    /// The reach it belongs to, from 0 at the pump.
    pub reach: usize,
    /// Its upper end, from the pump along the pipe.
    pub top: Length,
    /// Its lower end.
    pub bottom: Length,
}

impl CellPlace {
    /// Length of the cell.
    pub fn length(&self) -> Length {
        self.bottom - self.top
    }
}

/// What fills a cell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CellFill {
    /// Density of the fluid or slurry.
    pub density: Density,
    /// Its friction in this bore.
    pub friction: FrictionLaw,
    /// How much deeper the lower end lies than the upper; negative where the pipe climbs.
    pub drop: Length,
}

/// Friction as a power law of the rate.
///
/// `dp/dx = g (|q|/q_r)^(n - 1) q/q_r`
///
/// `g` gradient at the rate `q_r`, `n` exponent: 2 fully rough, about 1.75 smooth, 1 laminar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FrictionLaw {
    /// Gradient at the reference rate.
    pub gradient: PressureGradient,
    /// Reference rate.
    pub rate: FlowRate,
    /// Exponent, from 1 to 2.
    pub exponent: f64,
}

impl FrictionLaw {
    /// No friction.
    pub fn none() -> Self {
        Self { gradient: PressureGradient::ZERO, rate: FlowRate::m3_per_s(1.0), exponent: 2.0 }
    }

    /// A constant Darcy factor.
    ///
    /// `dp/dx = f rho q|q|/(2 D A^2)`
    pub fn darcy(factor: f64, density: Density, bore: Diameter) -> Self {
        let area = bore.circle().si();
        // at 1 m3/s: f rho/(2 D A^2)
        let gradient = factor * density.si() / (2.0 * bore.si() * area * area);
        Self { gradient: PressureGradient::pa_per_m(gradient), ..Self::none() }
    }

    /// The factor `k` of `dp/dx = k |q|^(n - 1) q`.
    pub(super) fn factor(&self) -> Result<f64> {
        require_not_negative(NAME, "friction_gradient", self.gradient)?;
        require_positive(NAME, "friction_rate", self.rate)?;
        let hint = "Turbulent friction has 1.7 to 2, laminar 1.";
        let n = self.exponent;
        require((1.0..=2.0).contains(&n), NAME, "friction_exponent", Ratio::of(n), "from 1 to 2", hint)?;
        Ok(self.gradient.si() / self.rate.si().powf(n))
    }
}

/// A lumped loss: a seat, a restriction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LumpedLoss {
    /// Where it stands, from the pump along the pipe.
    pub at: Length,
    /// Pressure loss per rate squared, `K rho/(2 A^2)`.
    pub loss: RateSquaredLoss,
}
