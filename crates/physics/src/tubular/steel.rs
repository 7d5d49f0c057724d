//! Elastic and thermal constants of pipe steel.

use crate::error::{require, require_not_negative, require_positive};
use crate::{Arguments, Input, Result};
use quantity::{Expansion, Pressure, Quantity, Ratio};

/// Elastic and thermal constants.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steel {
    /// Young's modulus E.
    pub modulus: Pressure,
    /// Poisson's ratio nu.
    pub poisson: Ratio,
    /// Thermal expansion.
    pub expansion: Expansion,
}

impl Default for Steel {
    /// The round figures of lubinski1962: 30e6 psi, 0.3, 6.9e-6 per degree Fahrenheit.
    fn default() -> Self {
        Self {
            modulus: Pressure::psi(30e6),
            poisson: Ratio::of(0.3),
            expansion: Expansion::per_deg_f(6.9e-6),
        }
    }
}

impl Steel {
    /// The input `modulus`.
    pub(super) const MODULUS: Input = Input::new::<Pressure>("modulus", "Young's modulus E").or("30000 ksi");
    /// The input `poisson`.
    pub(super) const POISSON: Input = Input::new::<Ratio>("poisson", "Poisson's ratio nu").or("0.3");
    /// The input `expansion`.
    pub(super) const EXPANSION: Input =
        Input::new::<Expansion>("expansion", "thermal expansion alpha").or("6.9e-6 1/degF");

    /// Reads `modulus`, `poisson` and `expansion` of a call.
    pub(super) fn of(a: &Arguments) -> Result<Self> {
        Ok(Self { modulus: a.get("modulus")?, poisson: a.get("poisson")?, expansion: a.get("expansion")? })
    }

    /// Refuses constants no metal has.
    pub(super) fn checked(self, relation: &'static str) -> Result<Self> {
        require_positive(relation, "modulus", self.modulus)?;
        let poisson = self.poisson.si();
        let hint = "For steel it is 0.3.";
        require((0.0..0.5).contains(&poisson), relation, "poisson", self.poisson, "from 0 to 0.5", hint)?;
        require_not_negative(relation, "expansion", self.expansion)?;
        Ok(self)
    }
}
