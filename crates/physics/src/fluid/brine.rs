//! Sodium chloride brine and fresh water: density, compressibility, strength and viscosity.

use crate::error::{Result, require, require_not_negative};
use crate::{Input, Output, Outputs, Relation};
use quantity::{
    AbsolutePressure, Compressibility, Density, Pressure, Quantity, Ratio, Temperature, Viscosity,
};

/// Density of a brine and its answer to pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Brine {
    /// Density.
    pub density: Density,
    /// Isothermal compressibility.
    pub compressibility: Compressibility,
}

impl Brine {
    /// Bulk modulus at constant temperature.
    pub fn isothermal_modulus(&self) -> Pressure {
        Pressure::pa(1.0 / self.compressibility.si())
    }
}

/// The polynomial in the salt mass fraction `S`: `rho = w + b S + a S^2` (g/cm³), and its
/// slopes with pressure (per MPa).
struct Salt {
    w: f64,
    b: f64,
    a: f64,
    w_p: f64,
    b_p: f64,
    a_p: f64,
}

fn polynomial(temperature: Temperature, pressure: AbsolutePressure) -> Salt {
    let (t, p) = (temperature.in_deg_c(), pressure.in_mpa());
    // rho_w = 1 + 1e-6(-80T - 3.3T^2 + 0.00175T^3 + 489P - 2TP + 0.016T^2 P - 1.3e-5 T^3 P
    //         - 0.333P^2 - 0.002TP^2)
    let by_t = t * (-80.0 + t * (-3.3 + t * 0.001_75));
    let by_p = 489.0 + t * (-2.0 + t * (0.016 - t * 1.3e-5));
    let by_p2 = -0.333 - 0.002 * t;
    Salt {
        w: 1.0 + 1e-6 * (by_t + p * (by_p + p * by_p2)),
        w_p: 1e-6 * (by_p + 2.0 * p * by_p2),
        // rho_b = rho_w + S{0.668 + 0.44S + 1e-6[300P - 2400PS + T(80 + 3T - 3300S - 13P + 47PS)]}
        b: 0.668 + 1e-6 * (300.0 * p + t * (80.0 + 3.0 * t - 13.0 * p)),
        a: 0.44 + 1e-6 * (-2400.0 * p + t * (-3300.0 + 47.0 * p)),
        b_p: 1e-6 * (300.0 - 13.0 * t),
        a_p: 1e-6 * (-2400.0 + 47.0 * t),
    }
}

fn check(relation: &'static str, temperature: Temperature, pressure: AbsolutePressure) -> Result<()> {
    let hint = "The polynomial was fitted from 20 degC and is of no use far outside its data.";
    let t = temperature.in_deg_c();
    let inside = (-10.0..=350.0).contains(&t);
    require(inside, relation, "temperature", temperature, "from -10 degC to 350 degC", hint)?;
    let p = pressure.in_mpa();
    let inside = (0.0..=150.0).contains(&p);
    require(inside, relation, "pressure", pressure, "from 0 to 150 MPa absolute", hint)
}

fn check_salt(relation: &'static str, salt: f64) -> Result<()> {
    let hint = "Sodium chloride dissolves to a mass fraction of about 0.26 at 20 degC.";
    require((0.0..=0.35).contains(&salt), relation, "salt", Ratio::of(salt), "from 0 to 0.35", hint)
}

/// Density and compressibility of fresh water and sodium chloride brine (absolute pressure).
///
/// `rho_w = 1 + 1e-6(-80T - 3.3T^2 + 0.00175T^3 + 489P - 2TP + 0.016T^2 P - 1.3e-5 T^3 P - 0.333P^2 - 0.002TP^2)`;
/// `rho_b = rho_w + S{0.668 + 0.44S + 1e-6[300P - 2400PS + T(80 + 3T - 3300S - 13P + 47PS)]}`
///
/// `rho` density (g/cm³), `T` temperature (degC), `P` pressure (MPa), `S` salt mass fraction.
/// The compressibility is the pressure slope of the same polynomial.
///
/// Range: data from 20 to 350 degC, 5 to 100 MPa, `S` to 0.25; flagged outside, refused below
/// -10 degC, above 150 MPa or above `S` 0.35.
///
/// Fresh water is within 0.15 % of the standard from 20 to 150 degC; brine within 0.3 % of
/// tables at 20 degC. For other salts give the density itself.
///
/// Source: batzle_wang1992 eqs. 27a and 27b.
///
/// ```
/// use physics::fluid::brine::brine_batzle_wang_1992;
/// use quantity::{AbsolutePressure, Temperature};
/// let b = brine_batzle_wang_1992(Temperature::deg_c(20.0), AbsolutePressure::mpa(0.1), 0.20)?;
/// assert!((b.density.in_g_per_cm3() - 1.146_25).abs() < 5e-6);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn brine_batzle_wang_1992(
    temperature: Temperature,
    pressure: AbsolutePressure,
    salt: f64,
) -> Result<Brine> {
    check("brine_density", temperature, pressure)?;
    check_salt("brine_density", salt)?;
    let Salt { w, b, a, w_p, b_p, a_p } = polynomial(temperature, pressure);
    let rho = w + salt * (b + salt * a);
    // c = (1/rho) d rho/dP
    let slope = w_p + salt * (b_p + salt * a_p);
    Ok(Brine {
        density: Density::g_per_cm3(rho),
        compressibility: Compressibility::per_pa(slope / rho * 1e-6),
    })
}

/// Salt mass fraction of a sodium chloride brine from its density at a stated temperature and
/// pressure.
///
/// `a S^2 + b S + rho_w = rho`, solved for `S`, with `a` and `b` of
/// [`brine_batzle_wang_1992`].
///
/// `S` salt mass fraction, `rho` density (g/cm³).
///
/// Range: the density of fresh water up to that of `S` 0.35; refused outside.
///
/// State the temperature the density was measured at: 10 degC of error is about 0.4 % of salt.
///
/// Source: batzle_wang1992 eqs. 27a and 27b, solved for `S`.
///
/// ```
/// use physics::fluid::brine::brine_strength;
/// use quantity::{AbsolutePressure, Density, Temperature};
/// let p = AbsolutePressure::mpa(0.101325);
/// let s = brine_strength(Temperature::deg_c(20.0), p, Density::g_per_cm3(1.146_25))?;
/// assert!((s - 0.200).abs() < 0.001);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn brine_strength(temperature: Temperature, pressure: AbsolutePressure, density: Density) -> Result<f64> {
    let name = "brine_strength";
    check(name, temperature, pressure)?;
    let Salt { w, b, a, .. } = polynomial(temperature, pressure);
    let c = w - density.in_g_per_cm3();
    let hint = "No sodium chloride brine has this density here; check the unit and the temperature.";
    // the stable root of a S^2 + b S + c = 0
    let root = b * b - 4.0 * a * c;
    let salt = if root >= 0.0 { -2.0 * c / (b + root.sqrt()) } else { f64::NAN };
    let inside = (-1e-12..=0.35).contains(&salt);
    require(inside, name, "density", density, "between fresh water and a salt fraction of 0.35", hint)?;
    Ok(salt.max(0.0))
}

/// Viscosity of sodium chloride brine; pressure is neglected.
///
/// `mu = 0.1 + 0.333S + (1.65 + 91.9S^3) exp{-[0.42(S^0.8 - 0.17)^2 + 0.045] T^0.8}`
///
/// `mu` viscosity (cP), `S` salt mass fraction, `T` temperature (degC).
///
/// Range: stated by the source for less than 250 degC; refused below 0 degC and above 250 degC.
///
/// Fresh water comes out 2 % thin at 20 degC and 7 % thin at 150 degC: use the standard for it.
///
/// Source: batzle_wang1992 eq. 32.
///
/// ```
/// use physics::fluid::brine::brine_viscosity;
/// use quantity::Temperature;
/// let mu = brine_viscosity(Temperature::deg_c(20.0), 0.10)?;
/// assert!((mu.in_cp() - 1.193).abs() < 0.005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn brine_viscosity(temperature: Temperature, salt: f64) -> Result<Viscosity> {
    let name = "brine_viscosity";
    let t = temperature.in_deg_c();
    let hint = "Give the viscosity itself outside these temperatures.";
    let inside = (0.0..=250.0).contains(&t);
    require(inside, name, "temperature", temperature, "from 0 degC to 250 degC", hint)?;
    require_not_negative(name, "salt", Ratio::of(salt))?;
    check_salt(name, salt)?;
    // mu = 0.1 + 0.333S + (1.65 + 91.9S^3) exp{-[0.42(S^0.8 - 0.17)^2 + 0.045] T^0.8}
    let power = -(0.42 * (salt.powf(0.8) - 0.17).powi(2) + 0.045) * t.powf(0.8);
    Ok(Viscosity::cp(0.1 + 0.333 * salt + (1.65 + 91.9 * salt.powi(3)) * power.exp()))
}

const SALT: Input = Input::new::<Ratio>("salt", "sodium chloride, mass fraction").within(0.0, 0.25);
const T: Input = Input::new::<Temperature>("temperature", "temperature").within(293.15, 623.15);
const P: Input = Input::new::<AbsolutePressure>("pressure", "absolute pressure").within(0.0, 100e6);

/// Register entry of [`brine_batzle_wang_1992`].
pub static BRINE_DENSITY: Relation = Relation {
    name: "brine_density",
    title: "Density of water and sodium chloride brine (absolute pressure)",
    equation: "rho = rho_w(T, P) + S{0.668 + 0.44S + 1e-6[300P - 2400PS + T(80 + 3T - 3300S - 13P + 47PS)]}",
    source: "batzle_wang1992 eqs. 27a and 27b",
    range: "20 to 350 degC, to 100 MPa, salt mass fraction to 0.25",
    inputs: &[T, P, SALT],
    outputs: &[
        Output::new::<Density>("density", "density"),
        Output::new::<Compressibility>("compressibility", "isothermal compressibility"),
        Output::new::<Pressure>("isothermal_modulus", "bulk modulus at constant temperature"),
    ],
    evaluate: |a| {
        let b = brine_batzle_wang_1992(a.get("temperature")?, a.get("pressure")?, a.number("salt")?)?;
        Ok(Outputs::new()
            .put("density", b.density)
            .put("compressibility", b.compressibility)
            .put("isothermal_modulus", b.isothermal_modulus()))
    },
};

/// Register entry of [`brine_strength`].
pub static BRINE_STRENGTH: Relation = Relation {
    name: "brine_strength",
    title: "Salt mass fraction of a sodium chloride brine from its density",
    equation: "a S^2 + b S + rho_w = rho",
    source: "batzle_wang1992 eqs. 27a and 27b",
    range: "20 to 350 degC, to 100 MPa, salt mass fraction to 0.25",
    inputs: &[
        T,
        P.or("0.101325 MPa"),
        Input::new::<Density>("density", "density of the brine at that temperature and pressure"),
    ],
    outputs: &[Output::new::<Ratio>("salt", "sodium chloride, mass fraction")],
    evaluate: |a| {
        let s = brine_strength(a.get("temperature")?, a.get("pressure")?, a.get("density")?)?;
        Ok(Outputs::new().put("salt", Ratio::of(s)))
    },
};

/// Register entry of [`brine_viscosity`].
pub static BRINE_VISCOSITY: Relation = Relation {
    name: "brine_viscosity",
    title: "Viscosity of sodium chloride brine",
    equation: "mu = 0.1 + 0.333S + (1.65 + 91.9S^3) exp{-[0.42(S^0.8 - 0.17)^2 + 0.045] T^0.8}",
    source: "batzle_wang1992 eq. 32",
    range: "below 250 degC; pressure neglected",
    inputs: &[Input::new::<Temperature>("temperature", "temperature").within(273.15, 523.15), SALT],
    outputs: &[Output::new::<Viscosity>("viscosity", "viscosity")],
    evaluate: |a| {
        Ok(Outputs::new().put("viscosity", brine_viscosity(a.get("temperature")?, a.number("salt")?)?))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn strength_undoes_density(c in 20.0..150.0f64, mpa in 0.1..100.0f64, s in 0.0..0.25f64) {
            let (t, p) = (Temperature::deg_c(c), AbsolutePressure::mpa(mpa));
            let b = brine_batzle_wang_1992(t, p, s).unwrap();
            prop_assert!((brine_strength(t, p, b.density).unwrap() - s).abs() < 1e-12);
        }

        #[test]
        fn compressibility_is_the_slope_of_density(c in 20.0..150.0f64, mpa in 1.0..99.0f64, s in 0.0..0.25f64) {
            let at = |p| brine_batzle_wang_1992(Temperature::deg_c(c), AbsolutePressure::mpa(p), s).unwrap();
            let slope = (at(mpa + 0.01).density.si() - at(mpa - 0.01).density.si()) / 0.02e6;
            let b = at(mpa);
            prop_assert!((slope / b.density.si() / b.compressibility.si() - 1.0).abs() < 1e-6);
        }
    }

    #[test]
    fn states_outside_are_refused() {
        let (t, p) = (Temperature::deg_c(20.0), AbsolutePressure::mpa(0.1));
        assert!(brine_batzle_wang_1992(Temperature::deg_c(400.0), p, 0.1).is_err());
        assert!(brine_batzle_wang_1992(t, AbsolutePressure::mpa(-1.0), 0.1).is_err());
        assert!(brine_batzle_wang_1992(t, p, 0.4).is_err());
        assert!(brine_batzle_wang_1992(t, p, f64::NAN).is_err());
        assert!(brine_strength(t, p, Density::g_per_cm3(0.9)).is_err());
        assert!(brine_strength(t, p, Density::g_per_cm3(2.0)).is_err());
        assert!(brine_viscosity(t, -0.1).is_err());
    }
}
