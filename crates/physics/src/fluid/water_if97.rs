//! Liquid water: the industrial formulation of 1997, region 1.

use crate::error::{Result, require};
use crate::{Input, Output, Outputs, Relation};
use quantity::{
    AbsolutePressure, Compressibility, Density, Expansion, Pressure, Quantity, SpecificHeat, SpecificVolume,
    Temperature, Velocity,
};

/// Specific gas constant of water, J/(kg K): iapws_r7_97 eq. 1.
const R: f64 = 461.526;
/// Reducing pressure, Pa: iapws_r7_97 eq. 7.
const P_STAR: f64 = 16.53e6;
/// Reducing temperature, K: iapws_r7_97 eq. 7.
const T_STAR: f64 = 1386.0;
/// Bounds of region 1, K and Pa: iapws_r7_97 section 4.
const T_RANGE: (f64, f64) = (273.15, 623.15);
const P_MAX: f64 = 100e6;

/// Exponents `I`, `J` and coefficients `n` of region 1: iapws_r7_97 Table 2.
const REGION_1: [(i32, i32, f64); 34] = [
    (0, -2, 0.146_329_712_131_67),
    (0, -1, -0.845_481_871_691_14),
    (0, 0, -3.756_360_367_204),
    (0, 1, 3.385_516_916_838_5),
    (0, 2, -0.957_919_633_878_72),
    (0, 3, 0.157_720_385_132_28),
    (0, 4, -0.016_616_417_199_501),
    (0, 5, 0.000_812_146_299_835_68),
    (1, -9, 0.000_283_190_801_238_04),
    (1, -7, -0.000_607_063_015_658_74),
    (1, -1, -0.018_990_068_218_419),
    (1, 0, -0.032_529_748_770_505),
    (1, 1, -0.021_841_717_175_414),
    (1, 3, -5.283_835_796_993e-5),
    (2, -3, -0.000_471_843_210_732_67),
    (2, 0, -0.000_300_017_807_930_26),
    (2, 1, 4.766_139_390_698_7e-5),
    (2, 3, -4.414_184_533_084_6e-6),
    (2, 17, -7.269_499_629_759_4e-16),
    (3, -4, -3.167_964_484_505_4e-5),
    (3, 0, -2.827_079_798_531_2e-6),
    (3, 6, -8.520_512_812_010_3e-10),
    (4, -5, -2.242_528_190_8e-6),
    (4, -2, -6.517_122_289_560_1e-7),
    (4, 10, -1.434_172_993_792_4e-13),
    (5, -8, -4.051_699_686_011_7e-7),
    (8, -11, -1.273_430_174_164_1e-9),
    (8, -6, -1.742_487_123_063_4e-10),
    (21, -29, -6.876_213_129_553_1e-19),
    (23, -31, 1.447_830_782_852_1e-20),
    (29, -38, 2.633_578_166_279_5e-23),
    (30, -39, -1.194_762_264_007_1e-23),
    (31, -40, 1.822_809_458_140_4e-24),
    (32, -41, -9.353_708_729_245_8e-26),
];

/// Coefficients of the saturation curve: iapws_r7_97 Table 34.
const SATURATION: [f64; 10] = [
    1_167.052_145_276_7,
    -724_213.167_032_06,
    -17.073_846_940_092,
    12_020.824_702_47,
    -3_232_555.032_233_3,
    14.915_108_613_53,
    -4_823.265_736_159_1,
    405_113.405_420_57,
    -0.238_555_575_678_49,
    650.175_348_447_98,
];

/// Properties of liquid water at one temperature and pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Water {
    /// Density.
    pub density: Density,
    /// Specific volume.
    pub specific_volume: SpecificVolume,
    /// Heat capacity at constant pressure.
    pub specific_heat: SpecificHeat,
    /// Speed of sound.
    pub sound_speed: Velocity,
    /// Isothermal compressibility.
    pub compressibility: Compressibility,
    /// Thermal expansion by volume.
    pub expansion: Expansion,
}

impl Water {
    /// Bulk modulus for slow compression, at constant temperature.
    pub fn isothermal_modulus(&self) -> Pressure {
        Pressure::pa(1.0 / self.compressibility.si())
    }

    /// Bulk modulus for sound and water hammer, `rho w^2`.
    pub fn isentropic_modulus(&self) -> Pressure {
        Pressure::pa(self.density.si() * self.sound_speed.si().powi(2))
    }
}

/// Saturation pressure of water (absolute).
///
/// `p_s = [2C/(-B + sqrt(B^2 - 4AC))]^4` MPa, with `theta = T + n9/(T - n10)`,
/// `A = theta^2 + n1 theta + n2`, `B = n3 theta^2 + n4 theta + n5`, `C = n6 theta^2 + n7 theta + n8`
///
/// `T` temperature (K), `n1`..`n10` the ten coefficients.
///
/// Range: 273.15 to 647.096 K; refused outside.
///
/// Dissolved salt lowers it; that is not in it.
///
/// Source: iapws_r7_97 eq. 30.
///
/// ```
/// use physics::fluid::water_if97::saturation_pressure;
/// use quantity::Temperature;
/// let p = saturation_pressure(Temperature::kelvin(500.0))?;
/// assert!((p.in_mpa() - 2.638_897_76).abs() < 1e-8);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn saturation_pressure(temperature: Temperature) -> Result<AbsolutePressure> {
    let t = temperature.si();
    let hint = "Liquid water exists from 0 degC to 373.9 degC.";
    let inside = (T_RANGE.0..=647.096).contains(&t);
    require(inside, "water_saturation", "temperature", temperature, "from 273.15 K to 647.096 K", hint)?;
    let [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = SATURATION;
    let theta = t + n9 / (t - n10);
    let a = (theta + n1) * theta + n2;
    let b = (n3 * theta + n4) * theta + n5;
    let c = (n6 * theta + n7) * theta + n8;
    // p_s = [2C/(-B + sqrt(B^2 - 4AC))]^4
    Ok(AbsolutePressure::mpa((2.0 * c / (-b + (b * b - 4.0 * a * c).sqrt())).powi(4)))
}

/// Derivatives of the dimensionless Gibbs energy that the properties need.
#[derive(Default)]
struct Gamma {
    pi: f64,
    tau: f64,
    g_p: f64,
    g_pp: f64,
    g_tt: f64,
    g_pt: f64,
}

/// Refuses a state outside region 1.
fn check(temperature: Temperature, pressure: AbsolutePressure) -> Result<()> {
    let name = "water_if97";
    let (low, high) = T_RANGE;
    let hint = "Liquid water is described from 0 degC to 350 degC, up to 100 MPa absolute.";
    let (t, p) = (temperature.si(), pressure.si());
    require((low..=high).contains(&t), name, "temperature", temperature, "273.15 K to 623.15 K", hint)?;
    require(p <= P_MAX, name, "pressure", pressure, "at most 100 MPa absolute", hint)?;
    let boils = "Raise the pressure above saturation: below it the water is steam.";
    require(
        p >= saturation_pressure(temperature)?.si(),
        name,
        "pressure",
        pressure,
        "above saturation",
        boils,
    )
}

fn gamma(temperature: Temperature, pressure: AbsolutePressure) -> Gamma {
    let (pi, tau) = (pressure.si() / P_STAR, T_STAR / temperature.si());
    let mut g = Gamma { pi, tau, ..Gamma::default() };
    let (x, y) = (7.1 - pi, tau - 1.222);
    for (i, j, n) in REGION_1 {
        // gamma = sum n (7.1 - pi)^I (tau - 1.222)^J, and its derivatives term by term
        let term = n * x.powi(i) * y.powi(j);
        let (fi, fj) = (f64::from(i), f64::from(j));
        g.g_p -= fi * term / x;
        g.g_pp += fi * (fi - 1.0) * term / (x * x);
        g.g_tt += fj * (fj - 1.0) * term / (y * y);
        g.g_pt -= fi * fj * term / (x * y);
    }
    g
}

/// Density of liquid water, when nothing else is wanted; see [`water`].
pub fn water_density(temperature: Temperature, pressure: AbsolutePressure) -> Result<Density> {
    check(temperature, pressure)?;
    let (pi, tau) = (pressure.si() / P_STAR, T_STAR / temperature.si());
    let (x, y) = (7.1 - pi, tau - 1.222);
    // gamma_pi = -sum n I (7.1 - pi)^(I-1) (tau - 1.222)^J
    let g_p = |sum: f64, &(i, j, n): &(i32, i32, f64)| sum - n * f64::from(i) * x.powi(i - 1) * y.powi(j);
    let g_p = REGION_1.iter().skip(8).fold(0.0, g_p);
    Ok(Density::kg_per_m3(P_STAR / (g_p * R * temperature.si())))
}

/// Liquid water from temperature and absolute pressure.
///
/// `gamma = sum n_i (7.1 - pi)^I_i (tau - 1.222)^J_i`; `v = pi gamma_pi R T/p`;
/// `c_p = -R tau^2 gamma_tautau`;
/// `w^2 = R T gamma_pi^2/[(gamma_pi - tau gamma_pitau)^2/(tau^2 gamma_tautau) - gamma_pipi]`;
/// `kappa_T = -pi gamma_pipi/(gamma_pi p)`; `alpha_v = (1 - tau gamma_pitau/gamma_pi)/T`
///
/// `pi = p/16.53 MPa`, `tau = 1386 K/T`, `p` absolute pressure, `T` temperature (K), `v`
/// specific volume (m³/kg), `R` 461.526 J/(kg K), `w` speed of sound (m/s).
///
/// Range: 273.15 to 623.15 K, from saturation to 100 MPa; refused outside.
///
/// Density is within 0.003 % of the scientific formulation below 150 degC; the speed of sound
/// within 0.1 % or better. Dissolved salt and gas are not in it: see the brine relations.
///
/// Source: iapws_r7_97 eq. 7, Tables 2 and 3.
///
/// ```
/// use physics::fluid::water_if97::water;
/// use quantity::{AbsolutePressure, Temperature};
/// let w = water(Temperature::kelvin(300.0), AbsolutePressure::mpa(3.0))?;
/// assert!((w.specific_volume.in_m3_per_kg() - 0.100_215_168e-2).abs() < 1e-12);
/// assert!((w.sound_speed.in_m_per_s() - 1507.739_21).abs() < 1e-5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn water(temperature: Temperature, pressure: AbsolutePressure) -> Result<Water> {
    check(temperature, pressure)?;
    let (t, p) = (temperature.si(), pressure.si());
    let Gamma { pi, tau, g_p, g_pp, g_tt, g_pt } = gamma(temperature, pressure);
    // v = pi gamma_pi R T/p
    let v = pi * g_p * R * t / p;
    let mixed = g_p - tau * g_pt;
    // w^2 = R T gamma_pi^2/[(gamma_pi - tau gamma_pitau)^2/(tau^2 gamma_tautau) - gamma_pipi]
    let w2 = R * t * g_p * g_p / (mixed * mixed / (tau * tau * g_tt) - g_pp);
    Ok(Water {
        density: Density::kg_per_m3(1.0 / v),
        specific_volume: SpecificVolume::m3_per_kg(v),
        // c_p = -R tau^2 gamma_tautau
        specific_heat: SpecificHeat::j_per_kgk(-R * tau * tau * g_tt),
        sound_speed: Velocity::m_per_s(w2.sqrt()),
        // kappa_T = -pi gamma_pipi/(gamma_pi p)
        compressibility: Compressibility::per_pa(-pi * g_pp / g_p / p),
        // alpha_v = (1 - tau gamma_pitau/gamma_pi)/T
        expansion: Expansion::per_k(mixed / g_p / t),
    })
}

/// Register entry of [`water`].
pub static WATER_IF97: Relation = Relation {
    name: "water_if97",
    title: "Liquid water, industrial formulation 1997, region 1 (absolute pressure)",
    equation: "gamma = sum n (7.1 - pi)^I (tau - 1.222)^J; v = pi gamma_pi R T/p; w, c_p, kappa_T from its derivatives",
    source: "iapws_r7_97 eq. 7, Tables 2 and 3",
    range: "273.15 to 623.15 K, from saturation to 100 MPa; refused outside",
    inputs: &[
        Input::new::<Temperature>("temperature", "temperature").within(273.15, 623.15),
        Input::new::<AbsolutePressure>("pressure", "absolute pressure").within(0.0, 100e6),
    ],
    outputs: &[
        Output::new::<Density>("density", "density"),
        Output::new::<SpecificVolume>("specific_volume", "specific volume"),
        Output::new::<SpecificHeat>("specific_heat", "heat capacity at constant pressure"),
        Output::new::<Velocity>("sound_speed", "speed of sound"),
        Output::new::<Compressibility>("compressibility", "isothermal compressibility"),
        Output::new::<Expansion>("expansion", "thermal expansion by volume"),
        Output::new::<Pressure>("isothermal_modulus", "bulk modulus for slow compression"),
        Output::new::<Pressure>("isentropic_modulus", "bulk modulus for pressure waves"),
    ],
    evaluate: |a| {
        let w = water(a.get("temperature")?, a.get("pressure")?)?;
        Ok(Outputs::new()
            .put("density", w.density)
            .put("specific_volume", w.specific_volume)
            .put("specific_heat", w.specific_heat)
            .put("sound_speed", w.sound_speed)
            .put("compressibility", w.compressibility)
            .put("expansion", w.expansion)
            .put("isothermal_modulus", w.isothermal_modulus())
            .put("isentropic_modulus", w.isentropic_modulus()))
    },
};

/// Register entry of [`saturation_pressure`].
pub static WATER_SATURATION: Relation = Relation {
    name: "water_saturation",
    title: "Saturation pressure of water (absolute)",
    equation: "p_s = [2C/(-B + sqrt(B^2 - 4AC))]^4",
    source: "iapws_r7_97 eq. 30, Table 34",
    range: "273.15 to 647.096 K; refused outside",
    inputs: &[Input::new::<Temperature>("temperature", "temperature").within(273.15, 647.096)],
    outputs: &[Output::new::<AbsolutePressure>("pressure", "saturation pressure")],
    evaluate: |a| Ok(Outputs::new().put("pressure", saturation_pressure(a.get("temperature")?)?)),
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn states_outside_region_1_are_refused() {
        let at = |c, mpa| water(Temperature::deg_c(c), AbsolutePressure::mpa(mpa));
        assert!(at(-1.0, 1.0).is_err());
        assert!(at(360.0, 50.0).is_err());
        assert!(at(20.0, 101.0).is_err());
        assert!(at(150.0, 0.1).is_err());
        assert!(at(f64::NAN, 1.0).is_err());
        assert!(at(20.0, f64::NAN).is_err());
        assert!(saturation_pressure(Temperature::kelvin(700.0)).is_err());
    }

    proptest! {
        #[test]
        fn compressibility_and_expansion_are_the_slopes_of_density(c in 5.0..200.0f64, mpa in 3.0..95.0f64) {
            let rho = |c, mpa| water_density(Temperature::deg_c(c), AbsolutePressure::mpa(mpa)).unwrap().si();
            let w = water(Temperature::deg_c(c), AbsolutePressure::mpa(mpa)).unwrap();
            prop_assert!((w.density.si() / rho(c, mpa) - 1.0).abs() < 1e-12);
            let slope = (rho(c, mpa + 0.01) - rho(c, mpa - 0.01)) / 0.02e6 / w.density.si();
            prop_assert!((slope / w.compressibility.si() - 1.0).abs() < 1e-5);
            let slope = -(rho(c + 0.01, mpa) - rho(c - 0.01, mpa)) / 0.02 / w.density.si();
            prop_assert!((slope - w.expansion.si()).abs() < 1e-8);
            // K_S/K_T = c_p/c_v >= 1, by 1 + T alpha^2 K_S v/c_p
            let excess = w.isentropic_modulus().si() / w.isothermal_modulus().si() - 1.0;
            let t = Temperature::deg_c(c).si();
            let k_s = w.isentropic_modulus().si();
            let expected = t * w.expansion.si().powi(2) * k_s * w.specific_volume.si() / w.specific_heat.si();
            prop_assert!((excess - expected).abs() < 1e-9 + 1e-6 * expected);
        }
    }
}
