//! The temperature of the earth before anything is pumped.

use super::profile::{Place, Profile};
use crate::error::require_positive;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Quantity, Ratio, Temperature, TemperatureGradient, TrueVerticalDepth};

/// Temperature of the undisturbed earth with one gradient.
///
/// Equation: `T_e = T_s + g Z`.
///
/// Symbols: T_s temperature at the depth datum (taken below the season's reach) K, g gradient
/// K/m, Z true vertical depth m.
///
/// Range: none stated by the source; exact by definition.
///
/// Where it breaks: gradients differ from formation to formation; with measured points use
/// [`geothermal_profile`]. A depth below zero or a result below absolute zero is refused.
///
/// Source: ramey1962, earth temperature `aZ + b`.
///
/// ```
/// use physics::heat::geothermal::geothermal_temperature;
/// use quantity::{Temperature, TemperatureGradient, TrueVerticalDepth};
/// let t = geothermal_temperature(Temperature::deg_c(5.0), TemperatureGradient::k_per_m(0.03),
///     TrueVerticalDepth::m(2800.0))?;
/// assert!((t.in_deg_c() - 89.0).abs() < 1e-9);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn geothermal_temperature(
    surface: Temperature,
    gradient: TemperatureGradient,
    depth: TrueVerticalDepth,
) -> Result<Temperature> {
    crate::error::require_not_negative("geothermal_temperature", "depth", depth)?;
    // T_e = T_s + g Z
    let earth = Temperature::kelvin(surface.si() + gradient.si() * depth.si());
    require_positive("geothermal_temperature", "temperature", earth)?;
    Ok(earth)
}

/// Temperature of the undisturbed earth between measured points.
///
/// Equation: `T_e = T_i + (T_{i+1} − T_i)(Z − Z_i)/(Z_{i+1} − Z_i)`; below the last point the
/// last gradient goes on.
///
/// Symbols: Z true vertical depth m, T temperature K.
///
/// Range: between the first and last point; beyond them the place is reported.
///
/// Where it breaks: points taken too soon after drilling are too cold at the bottom. Above the
/// first point its value is held.
///
/// Source: ramey1962, earth temperature, applied piece by piece.
///
/// ```
/// use physics::heat::{geothermal::geothermal_profile, profile::{Place, Profile}};
/// use quantity::{Temperature, TrueVerticalDepth};
/// let depth = [0.0, 1000.0, 2000.0].map(TrueVerticalDepth::m);
/// let points = Profile::new("points", &depth, &[5.0, 30.0, 65.0].map(Temperature::deg_c))?;
/// let (t, place) = geothermal_profile(&points, TrueVerticalDepth::m(2200.0));
/// assert!((t.in_deg_c() - 72.0).abs() < 1e-9 && place == Place::After);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn geothermal_profile(
    points: &Profile<TrueVerticalDepth, Temperature>,
    depth: TrueVerticalDepth,
) -> (Temperature, Place) {
    let (held, place) = points.at(depth);
    match points.rows() {
        [.., (z0, t0), (z1, t1)] if place == Place::After => {
            // the last gradient goes on
            let gradient = (t1.si() - t0.si()) / (z1.si() - z0.si());
            (Temperature::kelvin(t1.si() + gradient * (depth.si() - z1.si())), place)
        }
        _ => (held, place),
    }
}

/// `geothermal_temperature` in the register.
pub static GEOTHERMAL_TEMPERATURE: Relation = Relation {
    name: "geothermal_temperature",
    title: "Temperature of the undisturbed earth with one gradient",
    equation: "T_e = T_s + g Z",
    source: "ramey1962, earth temperature",
    range: "none stated by the source",
    inputs: &[
        Input::new::<Temperature>("surface", "earth temperature at the depth datum"),
        Input::new::<TemperatureGradient>("gradient", "temperature gradient over vertical depth"),
        Input::new::<TrueVerticalDepth>("depth", "true vertical depth"),
    ],
    outputs: &[Output::new::<Temperature>("temperature", "earth temperature")],
    evaluate: |a| {
        let t = geothermal_temperature(a.get("surface")?, a.get("gradient")?, a.get("depth")?)?;
        Ok(Outputs::new().put("temperature", t))
    },
};

/// `geothermal_profile` in the register.
pub static GEOTHERMAL_PROFILE: Relation = Relation {
    name: "geothermal_profile",
    title: "Temperature of the undisturbed earth between measured points",
    equation: "straight between points; the last gradient goes on below the last point",
    source: "ramey1962, earth temperature",
    range: "between the first and the last point; `beyond_points` is 1 elsewhere",
    inputs: &[
        Input::list::<TrueVerticalDepth>("depths", "true vertical depths of the points"),
        Input::list::<Temperature>("temperatures", "earth temperatures there"),
        Input::new::<TrueVerticalDepth>("depth", "true vertical depth wanted"),
    ],
    outputs: &[
        Output::new::<Temperature>("temperature", "earth temperature"),
        Output::new::<Ratio>("beyond_points", "1 outside the points, 0 between them"),
    ],
    evaluate: |a| {
        let depths: Vec<TrueVerticalDepth> = a.list("depths")?;
        let points = Profile::new("geothermal_profile", &depths, &a.list::<Temperature>("temperatures")?)?;
        let (temperature, place) = geothermal_profile(&points, a.get("depth")?);
        let beyond = if place == Place::Within { 0.0 } else { 1.0 };
        Ok(Outputs::new().put("temperature", temperature).put("beyond_points", Ratio::of(beyond)))
    },
};
