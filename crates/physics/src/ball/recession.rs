//! Recession of a dissolving surface: from a mass rate, and at another temperature.

use crate::error::{Result, require_not_negative, require_positive};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::constant::GAS_CONSTANT;
use quantity::{Density, MassFlux, MolarEnergy, Quantity, RecessionRate, Temperature};

const NAME: &str = "recession_at_temperature";

/// A recession rate with its dependence on temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arrhenius {
    /// Rate at the reference temperature.
    pub recession: RecessionRate,
    /// Temperature of the test.
    pub reference: Temperature,
    /// Activation energy; zero when the rate is taken as the same at all temperatures.
    pub activation: MolarEnergy,
}

impl Arrhenius {
    /// Recession of a dissolving surface at another temperature (Arrhenius).
    ///
    /// ```text
    /// k(T) = k_ref exp[ -(Ea/R)(1/T - 1/T_ref) ]
    /// ```
    ///
    /// - `k` recession per side, m/s; `T` temperature, K; `Ea` activation energy, J/mol
    /// - `R` molar gas constant, J/(mol K)
    ///
    /// Range: none stated by the source; temperatures near that of the test.
    ///
    /// Where it breaks: `Ea` holds for one alloy in one fluid; films of hydroxide, lack of salt or a
    /// change of the governing step break it. An `Ea` that nobody measured is an assumption.
    ///
    /// Source: arrhenius_1889, rate law.
    ///
    /// ```
    /// use physics::ball::recession::Arrhenius;
    /// use quantity::*;
    /// let law = Arrhenius {
    ///     recession: RecessionRate::mm_per_h(0.19),
    ///     reference: Temperature::deg_c(93.0),
    ///     activation: MolarEnergy::kj_per_mol(40.0),
    /// };
    /// let cool = law.at(Temperature::deg_c(40.0))?;
    /// assert!((cool.in_mm_per_h() - 0.02056).abs() < 5e-6);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn at(&self, temperature: Temperature) -> Result<RecessionRate> {
        require_not_negative(NAME, "recession", self.recession)?;
        require_not_negative(NAME, "activation", self.activation)?;
        require_positive(NAME, "temperature", temperature)?;
        require_positive(NAME, "reference", self.reference)?;
        // k(T) = k_ref exp[ -(Ea/R)(1/T - 1/T_ref) ]
        let lag = 1.0 / temperature.si() - 1.0 / self.reference.si();
        Ok(self.recession * libm::exp(-self.activation.si() / GAS_CONSTANT * lag))
    }
}

/// Recession of a surface from the mass it loses per area and time.
///
/// ```text
/// k = m'' / rho
/// ```
///
/// - `m''` mass rate per area, kg/(m2 s); `rho` density of the ball, kg/m3; `k` recession, m/s
///
/// Range: none stated by the source.
///
/// Where it breaks: pits and lost grains take more than the mean.
///
/// Source: derived_dissolution, conservation of mass.
///
/// ```
/// use physics::ball::recession::recession_from_mass_rate;
/// use quantity::*;
/// let k = recession_from_mass_rate(MassFlux::mg_per_cm2h(7.42), Density::g_per_cm3(1.8))?;
/// assert!((k.in_mm_per_h() - 0.0412).abs() < 5e-5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn recession_from_mass_rate(mass_rate: MassFlux, density: Density) -> Result<RecessionRate> {
    require_not_negative("recession_from_mass_rate", "mass_rate", mass_rate)?;
    require_positive("recession_from_mass_rate", "density", density)?;
    // k = m'' / rho
    Ok(mass_rate / density)
}

/// Register entry of [`Arrhenius::at`].
pub static RECESSION_AT_TEMPERATURE: Relation = Relation {
    name: NAME,
    title: "Recession of a dissolving surface at another temperature (Arrhenius)",
    equation: "k(T) = k_ref exp[-(Ea/R)(1/T - 1/T_ref)]",
    source: "arrhenius_1889, rate law",
    range: "none stated by the source; one alloy in one fluid, near the temperature of the test",
    inputs: &[
        Input::new::<RecessionRate>("recession", "recession per side in the test"),
        Input::new::<Temperature>("reference", "temperature of the test"),
        Input::new::<MolarEnergy>("activation", "activation energy, measured or assumed"),
        Input::new::<Temperature>("temperature", "temperature wanted"),
    ],
    outputs: &[Output::new::<RecessionRate>("recession", "recession per side")],
    evaluate: |a| {
        let law = Arrhenius {
            recession: a.get("recession")?,
            reference: a.get("reference")?,
            activation: a.get("activation")?,
        };
        Ok(Outputs::new().put("recession", law.at(a.get("temperature")?)?))
    },
};

/// Register entry of [`recession_from_mass_rate`].
pub static RECESSION_FROM_MASS_RATE: Relation = Relation {
    name: "recession_from_mass_rate",
    title: "Recession of a surface from its mass loss per area and time",
    equation: "k = m'' / rho",
    source: "derived_dissolution, conservation of mass",
    range: "none stated by the source",
    inputs: &[
        Input::new::<MassFlux>("mass_rate", "mass lost per area and time"),
        Input::new::<Density>("density", "density of the ball"),
    ],
    outputs: &[Output::new::<RecessionRate>("recession", "recession per side")],
    evaluate: |a| {
        let k = recession_from_mass_rate(a.get("mass_rate")?, a.get("density")?)?;
        Ok(Outputs::new().put("recession", k))
    },
};

/// Register entry of the inverse of [`recession_from_mass_rate`].
pub static MASS_RATE_FROM_RECESSION: Relation = Relation {
    name: "mass_rate_from_recession",
    title: "Mass loss per area and time from the recession of a surface",
    equation: "m'' = rho k",
    source: "derived_dissolution, conservation of mass",
    range: "none stated by the source",
    inputs: &[
        Input::new::<RecessionRate>("recession", "recession per side"),
        Input::new::<Density>("density", "density of the ball"),
    ],
    outputs: &[Output::new::<MassFlux>("mass_rate", "mass lost per area and time")],
    evaluate: |a| {
        let (k, rho): (RecessionRate, Density) = (a.get("recession")?, a.get("density")?);
        require_not_negative("mass_rate_from_recession", "recession", k)?;
        require_positive("mass_rate_from_recession", "density", rho)?;
        // m'' = rho k
        Ok(Outputs::new().put("mass_rate", rho * k))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_reference_is_met_and_zero_energy_is_flat() {
        let law = |ea: f64| Arrhenius {
            recession: RecessionRate::mm_per_h(0.2),
            reference: Temperature::deg_c(80.0),
            activation: MolarEnergy::kj_per_mol(ea),
        };
        let at = |ea: f64, t: f64| law(ea).at(Temperature::deg_c(t)).unwrap().in_mm_per_h();
        assert!((at(60.0, 80.0) - 0.2).abs() < 1e-15);
        assert!((at(0.0, 20.0) - 0.2).abs() < 1e-15);
        assert!(at(60.0, 20.0) < at(60.0, 40.0) && at(60.0, 100.0) > 0.2);
        assert!(law(60.0).at(Temperature::kelvin(0.0)).is_err());
    }
}
