//! Speed of pressure waves in a pipe, and the bulk modulus of a slurry.

use super::pipe_wall::{BORE, OUTSIDE, POISSON, RESTRAINT, WALL, YOUNG, read_compliance};
use crate::error::{Result, require, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Compressibility, Density, Pressure, Quantity, Ratio, Velocity};

/// Speed of a pressure wave in a fluid-filled pipe.
///
/// `a = 1/sqrt[rho (1/K + C)]`
///
/// `rho` density (kg/m³), `K` bulk modulus of the fluid, the isentropic one (Pa), `C`
/// compliance of the wall (1/Pa), [`super::pipe_wall::wall_compliance`].
///
/// Range: waves long against the bore; no free gas.
///
/// A few bubbles bring it down by half or more. With `C = c D/(E e)` it is the form
/// `sqrt(K/rho)/sqrt(1 + K D c/(E e))`.
///
/// Source: korteweg1878; wylie_streeter1993 ch. 1.
///
/// ```
/// use physics::hydraulics::wave_speed::wave_speed;
/// use quantity::{Compressibility, Density, Pressure};
/// let rigid = Compressibility::ZERO;
/// let a = wave_speed(Density::kg_per_m3(900.0), Pressure::gpa(1.5), rigid)?;
/// assert!((a.in_m_per_s() - 1291.0).abs() < 0.5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn wave_speed(density: Density, modulus: Pressure, wall: Compressibility) -> Result<Velocity> {
    require_positive("wave_speed", "density", density)?;
    require_positive("wave_speed", "modulus", modulus)?;
    require_not_negative("wave_speed", "compliance", wall)?;
    // a = 1/sqrt[rho (1/K + C)]
    Ok(Velocity::m_per_s(1.0 / (density.si() * (1.0 / modulus.si() + wall.si())).sqrt()))
}

/// Bulk modulus of a slurry.
///
/// `1/K_m = (1 - phi)/K + phi/K_s`
///
/// `K` bulk modulus of the fluid, `K_s` of the grains (Pa), `phi` proppant volume per slurry
/// volume.
///
/// Range: `0 <= phi <= 1`; waves long against the grains.
///
/// The grains move with the fluid: with heavy proppant the real wave is somewhat faster than
/// the density of the mixture makes it.
///
/// Source: wood1930 p. 327.
///
/// ```
/// use physics::hydraulics::wave_speed::slurry_modulus;
/// use quantity::Pressure;
/// let m = slurry_modulus(Pressure::gpa(2.4), Pressure::gpa(36.6), 0.5)?;
/// assert!((m.in_gpa() - 4.505).abs() < 0.001);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn slurry_modulus(fluid: Pressure, grains: Pressure, proppant_fraction: f64) -> Result<Pressure> {
    let name = "slurry_modulus";
    require_positive(name, "fluid_modulus", fluid)?;
    require_positive(name, "grain_modulus", grains)?;
    let hint = "A volume fraction is proppant volume over slurry volume.";
    let phi = proppant_fraction;
    let inside = (0.0..=1.0).contains(&phi);
    require(inside, name, "proppant_fraction", Ratio::of(phi), "from 0 to 1", hint)?;
    // 1/K_m = (1 - phi)/K + phi/K_s
    Ok(Pressure::pa(1.0 / ((1.0 - phi) / fluid.si() + phi / grains.si())))
}

/// Register entry of [`wave_speed`].
pub static WAVE_SPEED: Relation = Relation {
    name: "wave_speed",
    title: "Speed of a pressure wave in a fluid-filled pipe",
    equation: "a = 1/sqrt[rho (1/K + C)], C compliance of the wall",
    source: "korteweg1878; wylie_streeter1993 ch. 1; lame1852",
    range: "waves long against the bore; no free gas",
    inputs: &[
        Input::new::<Density>("density", "density of the fluid or slurry"),
        Input::new::<Pressure>("modulus", "isentropic bulk modulus of the fluid or slurry"),
        BORE,
        OUTSIDE,
        YOUNG,
        POISSON,
        WALL,
        RESTRAINT,
    ],
    outputs: &[
        Output::new::<Velocity>("wave_speed", "speed of the wave"),
        Output::new::<Compressibility>("compliance", "compliance of the wall"),
    ],
    evaluate: |a| {
        let compliance = read_compliance(a)?;
        let speed = wave_speed(a.get("density")?, a.get("modulus")?, compliance)?;
        Ok(Outputs::new().put("wave_speed", speed).put("compliance", compliance))
    },
};

/// Register entry of [`slurry_modulus`].
pub static SLURRY_MODULUS: Relation = Relation {
    name: "slurry_modulus",
    title: "Bulk modulus of a slurry",
    equation: "1/K_m = (1 - phi)/K + phi/K_s",
    source: "wood1930 p. 327",
    range: "0 <= phi <= 1; waves long against the grains",
    inputs: &[
        Input::new::<Pressure>("fluid_modulus", "bulk modulus of the clean fluid"),
        Input::new::<Pressure>("grain_modulus", "bulk modulus of the grains, about 37 GPa for quartz"),
        Input::new::<Ratio>("proppant_fraction", "proppant volume per slurry volume"),
    ],
    outputs: &[Output::new::<Pressure>("modulus", "bulk modulus of the slurry")],
    evaluate: |a| {
        let m =
            slurry_modulus(a.get("fluid_modulus")?, a.get("grain_modulus")?, a.number("proppant_fraction")?)?;
        Ok(Outputs::new().put("modulus", m))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stiffer_pipe_carries_faster_waves() {
        let (rho, k) = (Density::kg_per_m3(1000.0), Pressure::gpa(2.25));
        let at = |c| wave_speed(rho, k, Compressibility::per_gpa(c)).unwrap();
        assert_eq!(at(0.0).in_m_per_s(), 1500.0);
        assert!(at(0.05) > at(0.08));
    }

    #[test]
    fn slurry_lies_between_its_parts() {
        let (w, q) = (Pressure::gpa(2.3), Pressure::gpa(37.0));
        assert!((slurry_modulus(w, q, 0.0).unwrap() / w - 1.0).abs() < 1e-15);
        assert!((slurry_modulus(w, q, 1.0).unwrap() / q - 1.0).abs() < 1e-15);
        assert!(slurry_modulus(w, q, 1.1).is_err());
        assert!(slurry_modulus(w, Pressure::ZERO, 0.1).is_err());
    }
}
