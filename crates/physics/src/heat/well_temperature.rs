//! `well_temperature` in the register: the well's temperature at the end of a schedule.

use super::exchange::{Earth, Fluid, Wall, read_well, well_inputs};
use super::profile::same_length;
use super::radial_grid::Mesh;
use super::well_heat::{Division, Reach, Step, WellHeat};
use crate::error::require;
use crate::{Arguments, Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, FlowRate, MeasuredDepth, Ratio, Temperature, Time};

/// A well of one bore and one hole size through a schedule of rates.
#[derive(Debug, Clone)]
pub struct Schedule {
    /// Bore of the string.
    pub bore: Diameter,
    /// Rates, zero while waiting.
    pub rates: Vec<FlowRate>,
    /// How long each rate is held.
    pub durations: Vec<Time>,
    /// Temperature of the fluid at the top.
    pub inlet: Temperature,
    /// Plugs of fluid and rings of rock.
    pub division: Division,
}

/// The state of a well of one bore and one hole size at the end of a schedule.
///
/// Equation, plug by plug: `C dT/dt = −q'`, the plug moved with the fluid; round it implicit
/// Euler on rings, `q'` their heat flow at the wall.
///
/// Symbols: C heat capacity of the fluid per length J/(m K), T its temperature K, q' heat flow
/// to the rock W/m.
///
/// Range: rates down the string, zero included; the well starts at the earth's temperature.
///
/// Where it breaks: heat stored in steel, annulus and cement, friction heat and conduction
/// along the well are left out; the first minute after a change of rate is coarse.
///
/// Source: hasan_kabir1991 (heat balance), patankar1980 ch. 4 (rings).
///
/// ```
/// use physics::heat::exchange::{Barrier, Fluid, Wall, earth_along};
/// use physics::heat::{rock::Rock, well_heat::Division, well_temperature::{Schedule, well_temperature}};
/// use quantity::{Conductivity, Density, Diameter, FlowRate, MeasuredDepth, SpecificHeat, Temperature, Time,
///     VolumetricHeat};
/// let earth = earth_along("example", &[0.0, 2800.0, 5000.0].map(MeasuredDepth::m),
///     &[5.0, 89.0, 89.0].map(Temperature::deg_c))?;
/// let rock = Rock::new(Conductivity::w_per_mk(2.5), VolumetricHeat::mj_per_m3k(2.2))?;
/// let fluid = Fluid { density: Density::kg_per_m3(1000.0), specific_heat: SpecificHeat::kj_per_kgk(4.184) };
/// let wall = Wall { hole: Diameter::m(0.1556), rock, barrier: Barrier::None };
/// let schedule = Schedule { bore: Diameter::inch(4.0), rates: vec![FlowRate::bbl_per_min(15.0)],
///     durations: vec![Time::hours(0.5)], inlet: Temperature::deg_c(10.0),
///     division: Division { plugs: 60, ..Division::default() } };
/// let state = well_temperature(&schedule, &fluid, &wall, &earth)?;
/// assert!((state.fluid_at(MeasuredDepth::m(5000.0))?.in_deg_c() - 48.1).abs() < 1.5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn well_temperature(schedule: &Schedule, fluid: &Fluid, wall: &Wall, earth: &Earth) -> Result<WellHeat> {
    same_length(NAME, schedule.rates.len(), schedule.durations.len())?;
    let end = earth.rows().last().map_or(MeasuredDepth::ZERO, |(z, _)| *z);
    let reach = Reach { end, bore: schedule.bore, wall: *wall };
    let mut well = WellHeat::new(&[reach], earth, fluid, schedule.division)?;
    for (rate, duration) in schedule.rates.iter().zip(&schedule.durations) {
        well.advance(Step { rate: *rate, duration: *duration, inlet: schedule.inlet })?;
    }
    Ok(well)
}

/// A whole number of an input, within bounds.
fn count(a: &Arguments, name: &'static str, most: f64) -> Result<usize> {
    let value = a.number(name)?;
    let limit = format!("2 to {most}");
    require((2.0..=most).contains(&value), NAME, name, Ratio::of(value), limit, "Keep the default.")?;
    Ok(value as usize)
}

const NAME: &str = "well_temperature";

/// `well_temperature` in the register.
pub static WELL_TEMPERATURE: Relation = Relation {
    name: NAME,
    title: "Temperature of fluid and hole wall at the end of a schedule of pumping and waiting",
    equation: "C dT/dt = −q' for each plug of fluid, moved with the flow; q' from rings of rock by implicit Euler",
    source: "hasan_kabir1991, heat balance; patankar1980 ch. 4",
    range: "rates down the string, zero included; starts at the earth's temperature",
    inputs: well_inputs![
        Input::new::<Diameter>("bore", "bore of the string"),
        Input::list::<FlowRate>("rates", "rates, zero while waiting"),
        Input::list::<Time>("durations", "how long each rate is held"),
        Input::new::<MeasuredDepth>("at", "measured depth wanted"),
        Input::new::<Ratio>("plugs", "plugs of fluid along the string").or("150"),
        Input::new::<Ratio>("rings", "rings of rock").or("40"),
    ],
    outputs: &[
        Output::new::<Temperature>("temperature", "temperature of the fluid"),
        Output::new::<Temperature>("wall", "temperature of the hole wall"),
    ],
    evaluate: |a| {
        let (fluid, wall, earth) = read_well(NAME, a)?;
        let mesh = Mesh { rings: count(a, "rings", 400.0)?, ..Mesh::default() };
        let schedule = Schedule {
            bore: a.get("bore")?,
            rates: a.list("rates")?,
            durations: a.list("durations")?,
            inlet: a.get("inlet")?,
            division: Division { plugs: count(a, "plugs", 2000.0)?, mesh },
        };
        let well = well_temperature(&schedule, &fluid, &wall, &earth)?;
        let at = a.get("at")?;
        Ok(Outputs::new().put("temperature", well.fluid_at(at)?).put("wall", well.wall_at(at)?))
    },
};
