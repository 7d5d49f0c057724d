//! Viscosity of water: the formulation of 2008.

use crate::error::{Result, require};
use crate::fluid::water_if97::water_density;
use crate::{Input, Output, Outputs, Relation};
use quantity::{AbsolutePressure, Density, Quantity, Temperature, Viscosity};

/// Reducing temperature (K) and density (kg/m³): iapws_r12_08 eqs. 1 and 2.
const T_STAR: f64 = 647.096;
const RHO_STAR: f64 = 322.0;

/// Coefficients `H_i` of the dilute gas: iapws_r12_08 Table 1.
const DILUTE: [f64; 4] = [1.677_52, 2.204_62, 0.636_656_4, -0.241_605];

/// Exponents `i`, `j` and coefficients `H_ij` of finite density: iapws_r12_08 Table 2.
const FINITE: [(i32, i32, f64); 21] = [
    (0, 0, 0.520_094),
    (1, 0, 0.085_089_5),
    (2, 0, -1.083_74),
    (3, 0, -0.289_555),
    (0, 1, 0.222_531),
    (1, 1, 0.999_115),
    (2, 1, 1.887_97),
    (3, 1, 1.266_13),
    (5, 1, 0.120_573),
    (0, 2, -0.281_378),
    (1, 2, -0.906_851),
    (2, 2, -0.772_479),
    (3, 2, -0.489_837),
    (4, 2, -0.257_040),
    (0, 3, 0.161_913),
    (1, 3, 0.257_399),
    (0, 4, -0.032_537_2),
    (3, 4, 0.069_845_2),
    (4, 5, 0.008_721_02),
    (3, 6, -0.004_356_73),
    (5, 6, -0.000_593_264),
];

/// Viscosity of water from temperature and density.
///
/// `mu = mu_0(T) mu_1(T, rho)`; `mu_0 = 100 sqrt(Tr)/sum H_i Tr^-i` µPa·s;
/// `mu_1 = exp{rho_r sum_i (1/Tr - 1)^i sum_j H_ij (rho_r - 1)^j}`
///
/// `Tr = T/647.096 K`, `rho_r = rho/322 kg/m³`.
///
/// Range: 273.15 to 1173.15 K and up to 1300 kg/m³ here; refused outside. The release bounds
/// the pressure instead, to 300 MPa and more at these temperatures.
///
/// The enhancement next to the critical point is left out, as the release allows for
/// industrial use.
///
/// Source: iapws_r12_08 eqs. 10 to 12, Tables 1 and 2.
///
/// ```
/// use physics::fluid::water_viscosity::viscosity_from_density;
/// use quantity::{Density, Temperature};
/// let mu = viscosity_from_density(Temperature::kelvin(298.15), Density::kg_per_m3(998.0))?;
/// assert!((mu.in_pa_s() - 889.735_100e-6).abs() < 1e-12);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn viscosity_from_density(temperature: Temperature, density: Density) -> Result<Viscosity> {
    let name = "water_viscosity_from_density";
    let hint = "Check the temperature and the density of the water.";
    let (t, rho) = (temperature.si(), density.si());
    let inside = (273.15..=1173.15).contains(&t);
    require(inside, name, "temperature", temperature, "from 273.15 K to 1173.15 K", hint)?;
    require((0.0..=1300.0).contains(&rho), name, "density", density, "from 0 to 1300 kg/m3", hint)?;
    let (t_r, rho_r) = (t / T_STAR, rho / RHO_STAR);
    // mu_0 = 100 sqrt(Tr)/sum H_i Tr^-i
    let dilute = DILUTE.iter().rev().fold(0.0, |sum, h| sum / t_r + h);
    let mu_0 = 100.0 * t_r.sqrt() / dilute;
    // mu_1 = exp{rho_r sum_ij H_ij (1/Tr - 1)^i (rho_r - 1)^j}
    let (x, y) = (1.0 / t_r - 1.0, rho_r - 1.0);
    let finite: f64 = FINITE.iter().map(|&(i, j, h)| h * x.powi(i) * y.powi(j)).sum();
    Ok(Viscosity::pa_s(mu_0 * (rho_r * finite).exp() * 1e-6))
}

/// Viscosity of liquid water from temperature and absolute pressure.
///
/// [`viscosity_from_density`] at the density of [`crate::fluid::water_if97::water`].
///
/// Range: 273.15 to 623.15 K, from saturation to 100 MPa; refused outside.
///
/// Salt and polymer are not in it.
///
/// Source: iapws_r12_08 eq. 10; iapws_r7_97 eq. 7 for the density.
///
/// ```
/// use physics::fluid::water_viscosity::water_viscosity;
/// use quantity::{AbsolutePressure, Temperature};
/// let mu = water_viscosity(Temperature::deg_c(20.0), AbsolutePressure::mpa(0.101325))?;
/// assert!((mu.in_cp() - 1.0016).abs() < 0.0005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn water_viscosity(temperature: Temperature, pressure: AbsolutePressure) -> Result<Viscosity> {
    viscosity_from_density(temperature, water_density(temperature, pressure)?)
}

/// Register entry of [`viscosity_from_density`].
pub static WATER_VISCOSITY_FROM_DENSITY: Relation = Relation {
    name: "water_viscosity_from_density",
    title: "Viscosity of water from temperature and density, formulation 2008",
    equation: "mu = mu_0(Tr) mu_1(Tr, rho_r)",
    source: "iapws_r12_08 eqs. 10 to 12, Tables 1 and 2",
    range: "273.15 to 1173.15 K, up to 1300 kg/m3; without the critical enhancement",
    inputs: &[
        Input::new::<Temperature>("temperature", "temperature").within(273.15, 1173.15),
        Input::new::<Density>("density", "density").within(0.0, 1300.0),
    ],
    outputs: &[Output::new::<Viscosity>("viscosity", "viscosity")],
    evaluate: |a| {
        let mu = viscosity_from_density(a.get("temperature")?, a.get("density")?)?;
        Ok(Outputs::new().put("viscosity", mu))
    },
};

/// Register entry of [`water_viscosity`].
pub static WATER_VISCOSITY: Relation = Relation {
    name: "water_viscosity",
    title: "Viscosity of liquid water from temperature and absolute pressure",
    equation: "mu = mu_0(Tr) mu_1(Tr, rho_r) at the density of region 1",
    source: "iapws_r12_08 eq. 10; iapws_r7_97 eq. 7",
    range: "273.15 to 623.15 K, from saturation to 100 MPa; refused outside",
    inputs: &[
        Input::new::<Temperature>("temperature", "temperature").within(273.15, 623.15),
        Input::new::<AbsolutePressure>("pressure", "absolute pressure").within(0.0, 100e6),
    ],
    outputs: &[Output::new::<Viscosity>("viscosity", "viscosity")],
    evaluate: |a| {
        Ok(Outputs::new().put("viscosity", water_viscosity(a.get("temperature")?, a.get("pressure")?)?))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hot_water_is_thinner_and_bad_states_are_refused() {
        let at = |c| water_viscosity(Temperature::deg_c(c), AbsolutePressure::mpa(20.0)).unwrap();
        assert!((1..20).all(|i| at(f64::from(i) * 10.0) < at(f64::from(i - 1) * 10.0)));
        assert!(water_viscosity(Temperature::deg_c(-5.0), AbsolutePressure::mpa(1.0)).is_err());
        assert!(viscosity_from_density(Temperature::deg_c(20.0), Density::kg_per_m3(f64::NAN)).is_err());
    }
}
