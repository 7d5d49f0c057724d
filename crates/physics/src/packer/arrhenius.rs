//! How much faster fluid moves into rubber at one temperature than at another.

use crate::error::{require, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::constant::GAS_CONSTANT;
use quantity::{MolarEnergy, Quantity, Ratio, Temperature};

/// A rate's dependence on temperature: its reference and its activation energy.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clock {
    /// Activation energy.
    pub activation: MolarEnergy,
    /// Temperature at which the rate is one.
    pub reference: Temperature,
}

impl Clock {
    /// Checked clock.
    pub fn new(activation: MolarEnergy, reference: Temperature) -> Result<Self> {
        require_not_negative(NAME, "activation_energy", activation)?;
        let sane = activation.si() <= 1e6;
        let hint = "Rubber and solvents lie at tens of kJ/mol.";
        require(sane, NAME, "activation_energy", activation, "1000 kJ/mol or less", hint)?;
        require_positive(NAME, "reference_temperature", reference)?;
        Ok(Self { activation, reference })
    }

    /// Factor on the rate at a temperature above absolute zero.
    ///
    /// Equation: `D(T)/D_ref = exp[−(E_a/R)(1/T − 1/T_ref)]`.
    ///
    /// Symbols: E_a activation energy J/mol, R molar gas constant, T and T_ref K.
    ///
    /// Range: none stated by the source; within about 15 °C of the temperatures tested.
    ///
    /// Where it breaks: where the rubber changes state or the fluid boils; temperatures at or
    /// below absolute zero are refused.
    ///
    /// Source: arrhenius_1889.
    ///
    /// ```
    /// use physics::packer::arrhenius::Clock;
    /// use quantity::{MolarEnergy, Temperature};
    /// let clock = Clock::new(MolarEnergy::kj_per_mol(40.0), Temperature::deg_c(80.0))?;
    /// assert!((clock.rate(Temperature::deg_c(60.0))? - 0.441394).abs() < 1e-6);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn rate(&self, temperature: Temperature) -> Result<f64> {
        require_positive(NAME, "temperature", temperature)?;
        Ok(self.exponent(temperature.si()).exp())
    }

    /// Natural logarithm of the rate at a temperature in K.
    pub(super) fn exponent(&self, kelvin: f64) -> f64 {
        // −(E_a/R)(1/T − 1/T_ref)
        -self.activation.si() / GAS_CONSTANT * (1.0 / kelvin - 1.0 / self.reference.si())
    }
}

const NAME: &str = "arrhenius_shift";

/// `arrhenius_shift` in the register.
pub static ARRHENIUS_SHIFT: Relation = Relation {
    name: NAME,
    title: "Factor on the rate of uptake at another temperature",
    equation: "D(T)/D_ref = exp[−(E_a/R)(1/T − 1/T_ref)]",
    source: "arrhenius_1889",
    range: "none stated by the source; within about 15 degC of the temperatures tested",
    inputs: &[
        Input::new::<MolarEnergy>("activation_energy", "activation energy"),
        Input::new::<Temperature>("reference_temperature", "temperature of the reference rate"),
        Input::new::<Temperature>("temperature", "temperature wanted"),
    ],
    outputs: &[Output::new::<Ratio>("factor", "factor on the rate")],
    evaluate: |a| {
        let clock = Clock::new(a.get("activation_energy")?, a.get("reference_temperature")?)?;
        Ok(Outputs::new().put("factor", Ratio::of(clock.rate(a.get("temperature")?)?)))
    },
};
