//! The pressure that shears the pins of a tool, its scatter, and what temperature takes off.

use crate::error::{require, require_not_negative, require_positive};
use crate::heat::profile::{Place, Profile};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Area, Diameter, Force, Pressure, Quantity, Ratio, Temperature};

/// A set of like pins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShearPins {
    /// Shear strength of the lot at the tool's temperature, from its certificate.
    pub strength: Pressure,
    /// Diameter at the shear plane.
    pub diameter: Diameter,
    /// Number of pins.
    pub count: f64,
    /// Shear planes of each pin.
    pub planes: f64,
}

impl ShearPins {
    /// Force that shears one pin.
    pub fn each(&self) -> Force {
        // F = τ A planes
        self.strength * self.diameter.circle() * self.planes
    }

    /// Force that shears all pins.
    pub fn all(&self) -> Force {
        self.each() * self.count
    }

    fn check(&self) -> Result<()> {
        require_positive(NAME, "strength", self.strength)?;
        require_positive(NAME, "diameter", self.diameter)?;
        let whole = |n: f64| n >= 1.0 && n.fract() == 0.0 && n <= 1000.0;
        let limit = "a whole number from 1 to 1000";
        require(whole(self.count), NAME, "count", Ratio::of(self.count), limit, "Count the pins.")?;
        require(whole(self.planes), NAME, "planes", Ratio::of(self.planes), limit, "Usually one.")
    }
}

/// Pressure difference across a piston that shears its pins.
///
/// Equation: `F = τ π d²/4 planes`; `P = (n F + F_friction + F_preset) / A_piston`.
///
/// Symbols: τ shear strength Pa, d pin diameter m, n pins, F_friction seal friction N, F_preset
/// spring or other force held against it N, A_piston net piston area m².
///
/// Range: none stated by the source; pins sheared square, load shared evenly.
///
/// Where it breaks: pins that share the load unevenly shear one after another below it. The
/// strength must be the lot's, at temperature. Counts that are not whole are refused.
///
/// Source: timoshenko_goodier1970, direct shear.
///
/// ```
/// use physics::packer::shear_pins::{ShearPins, shear_pin_pressure};
/// use quantity::{Diameter, Force, Pressure};
/// let pins = ShearPins { strength: Pressure::ksi(34.0), diameter: Diameter::inch(0.25), count: 8.0, planes: 1.0 };
/// let piston = Diameter::inch(4.75).ring(Diameter::inch(4.25));
/// let p = shear_pin_pressure(&pins, Force::ZERO, piston)?;
/// assert!((p.in_psi() - 3778.0).abs() < 0.5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn shear_pin_pressure(pins: &ShearPins, held: Force, piston: Area) -> Result<Pressure> {
    pins.check()?;
    require_not_negative(NAME, "friction and preset", held)?;
    require_positive(NAME, "piston_area", piston)?;
    // P = (n F + F_friction + F_preset) / A_piston
    Ok(Pressure::pa((pins.all() + held).si() / piston.si()))
}

/// The scatter of a set's strength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scatter {
    /// Nominal force of the set.
    pub nominal: Force,
    /// Standard deviation.
    pub sigma: Force,
    /// Low end.
    pub low: Force,
    /// High end.
    pub high: Force,
}

/// Scatter of the force that shears a set of pins.
///
/// Equation: `σ² = (b n F)² + n s²`; ends `n F ± k σ`.
///
/// Symbols: F nominal force of one pin N, n pins, b standard deviation of the lot's mean (share
/// of F), s standard deviation from pin to pin N, k ends in standard deviations.
///
/// Range: none stated by the source; pins of one lot, independent within it.
///
/// Where it breaks: the lot's bias is common to all pins and does not average out, so more pins
/// narrow the scatter only down to b. Mixed lots lie between.
///
/// Source: taylor1997 ch. 3 (sums of independent and common errors).
///
/// ```
/// use physics::packer::shear_pins::{PinSpread, pin_scatter};
/// use quantity::Force;
/// let spread = PinSpread { lot: 0.02, pin: 0.03 };
/// let s = pin_scatter(Force::lbf(1669.0), 9.0, spread, 2.0)?;
/// assert!((s.sigma / s.nominal - (0.02f64.powi(2) + 0.01f64.powi(2)).sqrt()).abs() < 1e-12);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn pin_scatter(pin: Force, count: f64, spread: PinSpread, ends: f64) -> Result<Scatter> {
    require_positive(SCATTER, "pin_force", pin)?;
    let whole = count >= 1.0 && count.fract() == 0.0 && count <= 1000.0;
    require(whole, SCATTER, "count", Ratio::of(count), "a whole number from 1 to 1000", "Count the pins.")?;
    require_not_negative(SCATTER, "lot_spread", Ratio::of(spread.lot))?;
    require_not_negative(SCATTER, "pin_spread", Ratio::of(spread.pin))?;
    require_not_negative(SCATTER, "ends", Ratio::of(ends))?;
    let nominal = pin * count;
    // σ² = (b n F)² + n s²
    let variance = (spread.lot * nominal.si()).powi(2) + count * (spread.pin * pin.si()).powi(2);
    let sigma = Force::n(variance.sqrt());
    let low = (nominal - sigma * ends).max(Force::ZERO);
    Ok(Scatter { nominal, sigma, low, high: nominal + sigma * ends })
}

/// Standard deviations as shares of the nominal force.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PinSpread {
    /// Of the lot's mean.
    pub lot: f64,
    /// From pin to pin.
    pub pin: f64,
}

/// Share of the strength at room temperature left at a temperature, from the certificate's
/// rows.
///
/// Equation: straight between the rows `f(T)`.
///
/// Symbols: f strength at T over strength at the certificate's reference (pure number), T K.
///
/// Range: the certificate's rows.
///
/// Where it breaks: beyond the rows the nearest factor is held and the place reported: neither
/// end of a shear window is safe there.
///
/// Source: press2007 sec. 3.1 (linear interpolation of the certificate).
///
/// ```
/// use physics::heat::profile::Profile;
/// use physics::packer::shear_pins::shear_temperature_factor;
/// use quantity::{Ratio, Temperature};
/// let rows = Profile::new("certificate", &[70.0, 250.0].map(Temperature::deg_f), &[1.0, 0.94].map(Ratio::of))?;
/// let (factor, _) = shear_temperature_factor(&rows, Temperature::deg_f(160.0))?;
/// assert!((factor - 0.97).abs() < 1e-9);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn shear_temperature_factor(
    rows: &Profile<Temperature, Ratio>,
    temperature: Temperature,
) -> Result<(f64, Place)> {
    require_positive(FACTOR, "temperature", temperature)?;
    rows.rows().iter().try_for_each(|(_, f)| require_positive(FACTOR, "factors", *f))?;
    let (factor, place) = rows.at(temperature);
    Ok((factor.si(), place))
}

const NAME: &str = "shear_pin_pressure";
const SCATTER: &str = "pin_scatter";
const FACTOR: &str = "shear_temperature_factor";

/// `shear_pin_pressure` in the register.
pub static SHEAR_PIN_PRESSURE: Relation = Relation {
    name: NAME,
    title: "Pressure difference across a piston that shears its pins",
    equation: "F = τ π d²/4 planes;  P = (n F + F_friction + F_preset)/A_piston",
    source: "timoshenko_goodier1970, direct shear",
    range: "none stated by the source; load shared evenly",
    inputs: &[
        Input::new::<Pressure>("strength", "shear strength of the lot, from its certificate"),
        Input::new::<Ratio>("temperature_factor", "share of the strength left at temperature").or("1"),
        Input::new::<Diameter>("diameter", "pin diameter at the shear plane"),
        Input::new::<Ratio>("count", "number of pins"),
        Input::new::<Ratio>("planes", "shear planes of each pin").or("1"),
        Input::new::<Area>("piston_area", "net piston area"),
        Input::new::<Force>("friction", "seal friction").or("0 lbf"),
        Input::new::<Force>("preset", "force held against the piston").or("0 lbf"),
    ],
    outputs: &[
        Output::new::<Force>("pin_force", "force that shears one pin"),
        Output::new::<Force>("force", "force that shears all pins"),
        Output::new::<Pressure>("pressure", "pressure difference that shears them"),
    ],
    evaluate: |a| {
        let factor = a.number("temperature_factor")?;
        require_positive(NAME, "temperature_factor", Ratio::of(factor))?;
        let pins = ShearPins {
            strength: a.get::<Pressure>("strength")? * factor,
            diameter: a.get("diameter")?,
            count: a.number("count")?,
            planes: a.number("planes")?,
        };
        let (friction, preset): (Force, Force) = (a.get("friction")?, a.get("preset")?);
        require_not_negative(NAME, "friction", friction)?;
        let pressure = shear_pin_pressure(&pins, friction + preset, a.get("piston_area")?)?;
        Ok(Outputs::new().put("pin_force", pins.each()).put("force", pins.all()).put("pressure", pressure))
    },
};

/// `pin_scatter` in the register.
pub static PIN_SCATTER: Relation = Relation {
    name: SCATTER,
    title: "Scatter of the force that shears a set of pins of one lot",
    equation: "σ² = (b n F)² + n s²;  ends n F ± k σ",
    source: "taylor1997 ch. 3",
    range: "none stated by the source; one lot, pins independent within it",
    inputs: &[
        Input::new::<Force>("pin_force", "nominal force of one pin"),
        Input::new::<Ratio>("count", "number of pins"),
        Input::new::<Ratio>("lot_spread", "standard deviation of the lot's mean, share of nominal"),
        Input::new::<Ratio>("pin_spread", "standard deviation from pin to pin, share of nominal"),
        Input::new::<Ratio>("ends", "ends of the window in standard deviations").or("2"),
    ],
    outputs: &[
        Output::new::<Force>("nominal", "nominal force"),
        Output::new::<Force>("sigma", "standard deviation"),
        Output::new::<Force>("low", "low end"),
        Output::new::<Force>("high", "high end"),
    ],
    evaluate: |a| {
        let spread = PinSpread { lot: a.number("lot_spread")?, pin: a.number("pin_spread")? };
        let s = pin_scatter(a.get("pin_force")?, a.number("count")?, spread, a.number("ends")?)?;
        Ok(Outputs::new()
            .put("nominal", s.nominal)
            .put("sigma", s.sigma)
            .put("low", s.low)
            .put("high", s.high))
    },
};

/// `shear_temperature_factor` in the register.
pub static SHEAR_TEMPERATURE_FACTOR: Relation = Relation {
    name: FACTOR,
    title: "Share of a shear device's strength left at temperature, from its certificate",
    equation: "straight between the certificate's rows",
    source: "press2007 sec. 3.1",
    range: "the certificate's rows; `beyond_rows` is 1 elsewhere",
    inputs: &[
        Input::list::<Temperature>("temperatures", "temperatures of the certificate"),
        Input::list::<Ratio>("factors", "strength there over strength at the reference"),
        Input::new::<Temperature>("temperature", "temperature of the tool"),
    ],
    outputs: &[
        Output::new::<Ratio>("factor", "share of the strength left"),
        Output::new::<Ratio>("beyond_rows", "1 outside the rows, 0 within"),
    ],
    evaluate: |a| {
        let temperatures: Vec<Temperature> = a.list("temperatures")?;
        let rows = Profile::new(FACTOR, &temperatures, &a.list::<Ratio>("factors")?)?;
        let (factor, place) = shear_temperature_factor(&rows, a.get("temperature")?)?;
        let beyond = if place == Place::Within { 0.0 } else { 1.0 };
        Ok(Outputs::new().put("factor", Ratio::of(factor)).put("beyond_rows", Ratio::of(beyond)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn many_pins_leave_the_lot() {
        let spread = PinSpread { lot: 0.02, pin: 0.05 };
        let relative = |n: f64| {
            let s = pin_scatter(Force::lbf(1000.0), n, spread, 2.0).unwrap();
            s.sigma / s.nominal
        };
        assert!(relative(1.0) > relative(4.0) && relative(4.0) > relative(100.0));
        assert!((relative(1000.0) - 0.02).abs() < 1e-4);
        let alone = PinSpread { lot: 0.0, pin: 0.05 };
        let s = pin_scatter(Force::lbf(1000.0), 25.0, alone, 2.0).unwrap();
        assert!((s.sigma / s.nominal - 0.01).abs() < 1e-12);
        assert!(pin_scatter(Force::lbf(1000.0), 2.5, spread, 2.0).is_err());
    }
}
