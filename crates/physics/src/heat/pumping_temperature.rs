//! Temperature of pumped fluid along the well by the relaxation length, for a time since
//! pumping began.

use super::constant_flux::cylinder_constant_flux;
use super::constant_wall::{Film, cylinder_constant_wall};
use super::exchange::{Earth, Fluid, Wall, read_well, require_within, well_inputs};
use super::hasan_kabir_1991::{hasan_kabir_1991, hasan_kabir_single};
use super::ramey_1962::ramey_1962;
use crate::error::{require, require_positive};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{FlowRate, Length, MeasuredDepth, Quantity, Ratio, Temperature, Time};
use std::f64::consts::PI;

/// The time function of conduction put into the relaxation length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TimeFunction {
    /// Exact cylinder with constant heat flux.
    ConstantFlux,
    /// Inverse of the exact heat flow at constant wall temperature.
    ConstantWall,
    /// Two-piece fit.
    HasanKabir1991,
    /// One-piece fit.
    HasanKabirSingle,
    /// Late-time form.
    Ramey1962,
}

/// Words of [`TimeFunction`] in the register.
const WORDS: &[&str] =
    &["constant_flux", "constant_wall", "hasan_kabir_1991", "hasan_kabir_single", "ramey_1962"];

impl TimeFunction {
    /// Of its word in the register.
    fn of(word: &str) -> Self {
        match word {
            "constant_wall" => Self::ConstantWall,
            "hasan_kabir_1991" => Self::HasanKabir1991,
            "hasan_kabir_single" => Self::HasanKabirSingle,
            "ramey_1962" => Self::Ramey1962,
            _ => Self::ConstantFlux,
        }
    }

    /// Its value at a dimensionless time.
    pub fn at(self, t_d: f64) -> Result<f64> {
        match self {
            Self::ConstantFlux => cylinder_constant_flux(t_d, 1.0),
            Self::ConstantWall => cylinder_constant_wall(t_d, Film::None).map(|q| 1.0 / q),
            Self::HasanKabir1991 => hasan_kabir_1991(t_d),
            Self::HasanKabirSingle => hasan_kabir_single(t_d),
            Self::Ramey1962 => ramey_1962(t_d),
        }
    }
}

/// Length over which the pumped fluid comes within 1/e of the earth's temperature.
///
/// Equation: `A = w c [k + r_w U f(t)] / (2π r_w U k)`; without a barrier `A = w c f(t)/(2π k)`.
///
/// Symbols: w c heat carried per degree W/K, k rock conductivity W/(m K), r_w hole radius m, U
/// coefficient on the hole wall W/(m² K), f time function (pure number).
///
/// Range: none stated by the source; heat stored in the well itself is left out.
///
/// Where it breaks: a time function that is not above zero (the late-time form below
/// `t_D = 0.45`) with a thin barrier gives no length and is refused.
///
/// Source: ramey1962, length A.
///
/// ```
/// use physics::heat::{exchange::{Barrier, Fluid, Wall}, pumping_temperature::relaxation_length, rock::Rock};
/// use quantity::{Conductivity, Density, Diameter, FlowRate, SpecificHeat, VolumetricHeat};
/// let fluid = Fluid { density: Density::lb_per_gal(350.0 / 42.0), specific_heat: SpecificHeat::btu_per_lbf(1.0) };
/// let rock = Rock::new(Conductivity::btu_per_hftf(1.4), VolumetricHeat::mj_per_m3k(2.2))?;
/// let wall = Wall { hole: Diameter::ft(0.584), rock, barrier: Barrier::None };
/// let a = relaxation_length(&fluid, FlowRate::bbl_per_day(4790.0), &wall, 3.772482)?;
/// assert!((a.in_ft() - 29_957.9).abs() < 0.1);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn relaxation_length(fluid: &Fluid, rate: FlowRate, wall: &Wall, f: f64) -> Result<Length> {
    fluid.check(NAME)?;
    wall.check(NAME)?;
    require_positive(NAME, "rate", rate)?;
    // A = w c [k + r_w U f] / (2π r_w U k) = w c [ f/(2πk) + 1/(2π r_w U) ]
    let resistance = f / (2.0 * PI * wall.rock.conductivity.si()) + wall.barrier_resistance();
    let length = Length::m(fluid.carried(rate) * resistance);
    let hint = "The time function is not above zero so early; choose `constant_flux`.";
    require(length.si() > 0.0, NAME, "relaxation_length", length, "above zero", hint)?;
    Ok(length)
}

/// Temperature of the pumped fluid along the well, heat in the fluid itself quasi-steady.
///
/// Equation, leg by leg: `T(Z) = T_e(Z) − g A + [T_in − T_e(in) + g A] e^(−ΔZ/A)`.
///
/// Symbols: T_e earth temperature K, g its slope along the leg K/m (zero in a lateral), A
/// relaxation length m, T_in temperature entering the leg K, ΔZ length along the leg m.
///
/// Range: after at least one well volume has been pumped at a steady rate.
///
/// Where it breaks: it takes every depth as cooled since pumping began, though fluid reached
/// the end later: too cold there at first (69 for an exact 78 °C in the reference case after 1.2 well
/// volumes). Use [`super::well_heat::WellHeat`] for a schedule. A depth outside the earth's rows is
/// refused.
///
/// Source: ramey1962 eq. 1, applied leg by leg.
///
/// ```
/// use physics::heat::{exchange::earth_along, pumping_temperature::pumping_temperature};
/// use quantity::{Length, MeasuredDepth, Temperature};
/// let earth = earth_along("example", &[0.0, 1000.0].map(MeasuredDepth::ft), &[70.0, 78.3].map(Temperature::deg_f))?;
/// let t = pumping_temperature(&earth, Temperature::deg_f(58.5), Length::ft(29_957.913), MeasuredDepth::ft(1000.0))?;
/// assert!((t.in_deg_f() - 59.0145).abs() < 1e-4);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn pumping_temperature(
    earth: &Earth,
    inlet: Temperature,
    relaxation: Length,
    depth: MeasuredDepth,
) -> Result<Temperature> {
    require_positive(NAME, "relaxation_length", relaxation)?;
    require_within(NAME, earth, depth)?;
    let a = relaxation.si();
    let mut fluid = inlet.si();
    for pair in earth.rows().windows(2) {
        let [(z0, t0), (z1, t1)] = pair else { continue };
        let end = z1.si().min(depth.si());
        if end <= z0.si() {
            break;
        }
        let g = (t1.si() - t0.si()) / (z1.si() - z0.si());
        let along = end - z0.si();
        // T(Z) = T_e(Z) − g A + [T_in − T_e(in) + g A] e^(−ΔZ/A)
        fluid = t0.si() + g * along - g * a + (fluid - t0.si() + g * a) * (-along / a).exp();
    }
    Ok(Temperature::kelvin(fluid))
}

const NAME: &str = "pumping_temperature";

/// `pumping_temperature` in the register.
pub static PUMPING_TEMPERATURE: Relation = Relation {
    name: NAME,
    title: "Temperature of pumped fluid along the well by the relaxation length",
    equation: "T(Z) = T_e(Z) − g A + [T_in − T_e(in) + g A] e^(−ΔZ/A);  A = w c [k + r_w U f(t)] / (2π r_w U k)",
    source: "ramey1962 eq. 1, length A, applied leg by leg",
    range: "after at least one well volume at a steady rate",
    inputs: well_inputs![
        Input::new::<FlowRate>("rate", "rate"),
        Input::new::<Time>("time", "time since pumping began"),
        Input::choice("time_function", WORDS, "time function of conduction").or("constant_flux"),
        Input::new::<MeasuredDepth>("at", "measured depth wanted"),
    ],
    outputs: &[
        Output::new::<Temperature>("temperature", "temperature of the fluid"),
        Output::new::<Length>("relaxation_length", "relaxation length A"),
        Output::new::<Ratio>("time_function_value", "time function f(t)"),
    ],
    evaluate: |a| {
        let (fluid, wall, earth) = read_well(NAME, a)?;
        let t_d = wall.rock.dimensionless_time(a.get("time")?, wall.hole);
        let f = TimeFunction::of(a.word("time_function")?).at(t_d)?;
        let length = relaxation_length(&fluid, a.get("rate")?, &wall, f)?;
        let temperature = pumping_temperature(&earth, a.get("inlet")?, length, a.get("at")?)?;
        Ok(Outputs::new()
            .put("temperature", temperature)
            .put("relaxation_length", length)
            .put("time_function_value", Ratio::of(f)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::exchange::{Barrier, earth_along};
    use crate::heat::rock::Rock;
    use quantity::{Conductivity, Density, Diameter, HeatTransfer, SpecificHeat, VolumetricHeat};

    #[test]
    fn limits_of_a_short_and_a_long_relaxation() {
        let depths = [0.0, 2800.0, 5000.0].map(MeasuredDepth::m);
        let earth = earth_along("t", &depths, &[5.0, 89.0, 89.0].map(Temperature::deg_c)).unwrap();
        let inlet = Temperature::deg_c(10.0);
        let at = |a: f64, z: f64| {
            pumping_temperature(&earth, inlet, Length::m(a), MeasuredDepth::m(z)).unwrap().in_deg_c()
        };
        // no length: the earth's temperature; endless length: the inlet's
        assert!((at(1e-3, 5000.0) - 89.0).abs() < 1e-9);
        assert!((at(1e9, 5000.0) - 10.0).abs() < 1e-3);
        assert!((at(3000.0, 0.0) - 10.0).abs() < 1e-12);
        // cutting a leg in two changes nothing
        let depths = [0.0, 1234.0, 2800.0, 5000.0].map(MeasuredDepth::m);
        let cut = [5.0, 5.0 + 0.03 * 1234.0, 89.0, 89.0].map(Temperature::deg_c);
        let cut = earth_along("t", &depths, &cut).unwrap();
        let other = pumping_temperature(&cut, inlet, Length::m(3000.0), MeasuredDepth::m(4000.0)).unwrap();
        assert!((other.in_deg_c() - at(3000.0, 4000.0)).abs() < 1e-9);
    }

    #[test]
    fn an_early_late_form_is_refused() {
        let rock = Rock::new(Conductivity::w_per_mk(2.5), VolumetricHeat::mj_per_m3k(2.2)).unwrap();
        let wall = Wall { hole: Diameter::m(0.1556), rock, barrier: Barrier::None };
        let fluid =
            Fluid { density: Density::kg_per_m3(1000.0), specific_heat: SpecificHeat::kj_per_kgk(4.184) };
        let f = TimeFunction::Ramey1962.at(0.3).unwrap();
        assert!(relaxation_length(&fluid, FlowRate::bbl_per_min(15.0), &wall, f).is_err());
        let film = Wall { barrier: Barrier::Film(HeatTransfer::w_per_m2k(1.0)), ..wall };
        assert!(relaxation_length(&fluid, FlowRate::bbl_per_min(15.0), &film, f).is_ok());
    }
}
