//! What the casing packer must stand: temperature, pressure, and the completion hung below it.

use crate::ball::count::flag;
use crate::error::{Result, require_not_negative, require_positive};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Force, Pressure, Quantity, Ratio, Temperature, TemperatureDifference};

const NAME: &str = "casing_packer_duty";

/// A duty, or what a packer is rated for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Duty {
    /// Temperature.
    pub temperature: Temperature,
    /// Pressure difference.
    pub pressure: Pressure,
    /// Load of the string below.
    pub load: Force,
}

/// What is left of the rating, at the duty times a design factor on pressure and load.
///
/// ```text
/// T_r - T,   p_r - n p,   F_r - n F
/// ```
///
/// - `T` temperature, K; `p` pressure difference, Pa; `F` load hung below, N; index `r` rated; `n` factor
///
/// Range: single limits.
///
/// Where it breaks: pressure and load act together; where the supplier gives an envelope, that rules.
///
/// Source: trade_practice, duty of the casing packer.
///
/// ```
/// use physics::practice::casing_packer_duty::{Duty, duty_reserve};
/// use quantity::*;
/// let duty = Duty { temperature: Temperature::deg_c(115.0), pressure: Pressure::psi(6e3), load: Force::klbf(90.0) };
/// let rated = Duty { temperature: Temperature::deg_c(150.0), pressure: Pressure::psi(10e3), load: Force::klbf(200.0) };
/// let (t, p, f) = duty_reserve(duty, rated, 1.25)?;
/// assert!((t.in_deg_c() - 35.0).abs() < 1e-9);
/// assert!((p.in_psi() - 2500.0).abs() < 1e-6 && (f.in_klbf() - 87.5).abs() < 1e-9);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn duty_reserve(
    duty: Duty,
    rated: Duty,
    design_factor: f64,
) -> Result<(TemperatureDifference, Pressure, Force)> {
    require_not_negative(NAME, "pressure", duty.pressure)?;
    require_not_negative(NAME, "load", duty.load)?;
    require_positive(NAME, "design_factor", Ratio::of(design_factor))?;
    Ok((
        rated.temperature - duty.temperature,
        rated.pressure - duty.pressure * design_factor,
        rated.load - duty.load * design_factor,
    ))
}

/// Whether a casing packer stands its duty.
///
/// ```text
/// T <= T_r,   n p <= p_r,   n F <= F_r
/// ```
pub static CASING_PACKER_DUTY: Relation = Relation {
    name: NAME,
    title: "Casing packer against temperature, pressure and the weight hung below it",
    equation: "T <= T_r; n p <= p_r; n F <= F_r",
    source: "trade_practice, duty of the casing packer",
    range: "single limits; where the supplier gives an envelope of pressure and load, that rules",
    inputs: &[
        Input::new::<Temperature>("temperature", "highest temperature at the packer"),
        Input::new::<Pressure>("pressure", "greatest pressure difference across it"),
        Input::new::<Force>("hung_load", "load of the completion hung below it"),
        Input::new::<Temperature>("rated_temperature", "temperature rating"),
        Input::new::<Pressure>("rated_pressure", "pressure rating"),
        Input::new::<Force>("rated_load", "hanging load rating"),
        Input::new::<Ratio>("design_factor", "factor on pressure and load").or("1"),
    ],
    outputs: &[
        Output::new::<Ratio>("stands", "1 when all three hold"),
        Output::new::<TemperatureDifference>("temperature_reserve", "rating less duty"),
        Output::new::<Pressure>("pressure_reserve", "rating less duty times the factor"),
        Output::new::<Force>("load_reserve", "rating less duty times the factor"),
    ],
    evaluate: |a| {
        let duty = Duty {
            temperature: a.get("temperature")?,
            pressure: a.get("pressure")?,
            load: a.get("hung_load")?,
        };
        let rated = Duty {
            temperature: a.get("rated_temperature")?,
            pressure: a.get("rated_pressure")?,
            load: a.get("rated_load")?,
        };
        let (t, p, f) = duty_reserve(duty, rated, a.number("design_factor")?)?;
        let stands = t.si() >= 0.0 && p.si() >= 0.0 && f.si() >= 0.0;
        Ok(Outputs::new()
            .put("stands", flag(stands))
            .put("temperature_reserve", t)
            .put("pressure_reserve", p)
            .put("load_reserve", f))
    },
};
