//! Slurry: density, yield, concentration and proppant mass, from proppant added to clean fluid.

use crate::error::{Result, require, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Concentration, Density, Mass, Quantity, Ratio, Volume};

/// A slurry made of clean fluid and dry proppant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slurry {
    /// Density of the mixture.
    pub density: Density,
    /// Slurry volume per clean volume, `y`.
    pub slurry_yield: f64,
    /// Clean volume per slurry volume, `1/y`.
    pub clean_fraction: f64,
    /// Proppant volume per slurry volume, `phi`.
    pub proppant_fraction: f64,
}

/// Density and yield of a slurry, from proppant added to clean fluid.
///
/// `y = 1 + c/rho_p`, `rho_s = (rho_f + c)/y`, `phi = (y - 1)/y`
///
/// `c` proppant mass per clean volume (kg/m³; ppa is pounds added per gallon of clean fluid),
/// `rho_p` grain density, `rho_f` clean density (kg/m³), `y` slurry volume per clean volume.
///
/// Range: none stated; a settled bed is reached near `phi` 0.6.
///
/// Volumes are taken to add. A grain density that is the bulk density (with the pores between
/// the grains) makes the yield too large: give the grain density.
///
/// Source: economides1992, Table P-21 (its values follow from this mass balance).
///
/// ```
/// use physics::fluid::slurry::slurry;
/// use quantity::{Concentration, Density};
/// let s = slurry(Density::kg_per_m3(1011.0), Density::kg_per_m3(2650.0), Concentration::ppa(4.0))?;
/// assert!((s.density.in_lb_per_gal() - 10.53).abs() < 0.01);
/// assert!((s.slurry_yield - 1.181).abs() < 0.0005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn slurry(clean: Density, proppant: Density, concentration: Concentration) -> Result<Slurry> {
    require_positive("slurry_density", "clean_density", clean)?;
    require_positive("slurry_density", "proppant_density", proppant)?;
    require_not_negative("slurry_density", "concentration", concentration)?;
    let (rho_f, rho_p, c) = (clean.si(), proppant.si(), concentration.si());
    // y = 1 + c/rho_p
    let y = 1.0 + c / rho_p;
    Ok(Slurry {
        // rho_s = (rho_f + c)/y
        density: Density::kg_per_m3((rho_f + c) / y),
        slurry_yield: y,
        clean_fraction: 1.0 / y,
        // phi = (y - 1)/y
        proppant_fraction: c / rho_p / y,
    })
}

/// Concentration of a slurry from its measured density: the inverse of [`slurry`].
///
/// `c = (rho_s - rho_f)/(1 - rho_s/rho_p)`
///
/// Symbols as in [`slurry`]; `rho_s` the density a densitometer reads (kg/m³).
///
/// Range: `rho_f <= rho_s < rho_p`; outside it the call is refused.
///
/// Near `rho_f` a small error of density is a large error of concentration: 0.05 lb/gal is
/// about 0.1 ppa for sand in water.
///
/// Source: economides1992, Table P-21 (mass balance, solved for `c`).
///
/// ```
/// use physics::fluid::slurry::concentration_from_density;
/// use quantity::Density;
/// let ppg = Density::lb_per_gal;
/// let c = concentration_from_density(ppg(8.437), Density::kg_per_m3(2650.0), ppg(10.532))?;
/// assert!((c.in_ppa() - 4.0).abs() < 0.01);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn concentration_from_density(
    clean: Density,
    proppant: Density,
    mixture: Density,
) -> Result<Concentration> {
    let name = "slurry_concentration";
    require_positive(name, "clean_density", clean)?;
    let hint = "Check the densitometer, the clean density and the grain density.";
    require(mixture >= clean, name, "slurry_density", mixture, "at least the clean density", hint)?;
    require(mixture < proppant, name, "slurry_density", mixture, "below the grain density", hint)?;
    // c = (rho_s - rho_f)/(1 - rho_s/rho_p)
    let c = (mixture.si() - clean.si()) / (1.0 - mixture.si() / proppant.si());
    Ok(Concentration::kg_per_m3(c))
}

/// Concentration of a slurry from its proppant volume fraction.
///
/// `c = rho_p phi/(1 - phi)`
///
/// `c` proppant mass per clean volume (kg/m³), `rho_p` grain density (kg/m³), `phi` proppant
/// volume per slurry volume.
///
/// Range: `0 <= phi < 1`; outside it the call is refused.
///
/// A settled bed is near 0.6; toward 1 the concentration grows without bound.
///
/// Source: economides1992, Table P-21 (mass balance, solved for `c`).
///
/// ```
/// use physics::fluid::slurry::concentration_from_fraction;
/// use quantity::Density;
/// let c = concentration_from_fraction(Density::kg_per_m3(2650.0), 0.5)?;
/// assert!((c.in_kg_per_m3() - 2650.0).abs() < 1e-9);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn concentration_from_fraction(proppant: Density, fraction: f64) -> Result<Concentration> {
    let name = "concentration_from_fraction";
    require_positive(name, "proppant_density", proppant)?;
    let hint = "A volume fraction is proppant volume over slurry volume.";
    let inside = (0.0..1.0).contains(&fraction);
    require(inside, name, "proppant_fraction", Ratio::of(fraction), "from 0 to below 1", hint)?;
    // c = rho_p phi/(1 - phi)
    Ok(Concentration::kg_per_m3(proppant.si() * fraction / (1.0 - fraction)))
}

/// Proppant mass and slurry volume of a clean volume at one concentration.
///
/// `m = c V`, `V_s = y V`
///
/// `c` proppant mass per clean volume (kg/m³), `V` clean volume (m³), `y` the yield of
/// [`slurry`].
///
/// Range: none stated.
///
/// A ramp is summed from short pieces, each at its mean concentration. A concentration stated
/// per gallon of slurry is another quantity: it must be multiplied by slurry volume.
///
/// Source: economides1992, Table P-21 (mass balance).
///
/// ```
/// use physics::fluid::slurry::proppant_mass;
/// use quantity::{Concentration, Density, Volume};
/// let (mass, _) =
///     proppant_mass(Volume::gal(1000.0), Concentration::ppa(2.5), Density::kg_per_m3(2650.0))?;
/// assert!((mass.in_lb() - 2500.0).abs() < 1e-9);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn proppant_mass(
    clean_volume: Volume,
    concentration: Concentration,
    proppant: Density,
) -> Result<(Mass, Volume)> {
    let name = "proppant_mass";
    require_not_negative(name, "clean_volume", clean_volume)?;
    require_not_negative(name, "concentration", concentration)?;
    require_positive(name, "proppant_density", proppant)?;
    // m = c V
    let mass = Mass::kg(concentration.si() * clean_volume.si());
    // V_s = y V, y = 1 + c/rho_p
    Ok((mass, clean_volume * (1.0 + concentration.si() / proppant.si())))
}

const MASS_BALANCE: &str = "economides1992 Table P-21 (mass balance)";

/// Register entry of [`slurry`].
pub static SLURRY_DENSITY: Relation = Relation {
    name: "slurry_density",
    title: "Density and yield of a slurry, proppant added to clean fluid",
    equation: "y = 1 + c/rho_p; rho_s = (rho_f + c)/y; phi = (y - 1)/y",
    source: MASS_BALANCE,
    range: "none stated by the source; a settled bed is reached near phi 0.6",
    inputs: &[
        Input::new::<Density>("clean_density", "density of the clean fluid"),
        Input::new::<Density>("proppant_density", "grain density of the proppant"),
        Input::new::<Concentration>("concentration", "proppant added per clean volume"),
    ],
    outputs: &[
        Output::new::<Density>("density", "density of the slurry"),
        Output::new::<Ratio>("slurry_yield", "slurry volume per clean volume"),
        Output::new::<Ratio>("clean_fraction", "clean volume per slurry volume"),
        Output::new::<Ratio>("proppant_fraction", "proppant volume per slurry volume"),
    ],
    evaluate: |a| {
        let s = slurry(a.get("clean_density")?, a.get("proppant_density")?, a.get("concentration")?)?;
        Ok(Outputs::new()
            .put("density", s.density)
            .put("slurry_yield", Ratio::of(s.slurry_yield))
            .put("clean_fraction", Ratio::of(s.clean_fraction))
            .put("proppant_fraction", Ratio::of(s.proppant_fraction)))
    },
};

/// Register entry of [`concentration_from_density`].
pub static SLURRY_CONCENTRATION: Relation = Relation {
    name: "slurry_concentration",
    title: "Proppant concentration from the density of a slurry",
    equation: "c = (rho_s - rho_f)/(1 - rho_s/rho_p)",
    source: MASS_BALANCE,
    range: "rho_f <= rho_s < rho_p",
    inputs: &[
        Input::new::<Density>("clean_density", "density of the clean fluid"),
        Input::new::<Density>("proppant_density", "grain density of the proppant"),
        Input::new::<Density>("slurry_density", "density of the slurry"),
    ],
    outputs: &[Output::new::<Concentration>("concentration", "proppant added per clean volume")],
    evaluate: |a| {
        let c = concentration_from_density(
            a.get("clean_density")?,
            a.get("proppant_density")?,
            a.get("slurry_density")?,
        )?;
        Ok(Outputs::new().put("concentration", c))
    },
};

/// Register entry of [`concentration_from_fraction`].
pub static CONCENTRATION_FROM_FRACTION: Relation = Relation {
    name: "concentration_from_fraction",
    title: "Proppant concentration from the proppant volume fraction",
    equation: "c = rho_p phi/(1 - phi)",
    source: MASS_BALANCE,
    range: "0 <= phi < 1",
    inputs: &[
        Input::new::<Density>("proppant_density", "grain density of the proppant"),
        Input::new::<Ratio>("proppant_fraction", "proppant volume per slurry volume"),
    ],
    outputs: &[Output::new::<Concentration>("concentration", "proppant added per clean volume")],
    evaluate: |a| {
        let c = concentration_from_fraction(a.get("proppant_density")?, a.number("proppant_fraction")?)?;
        Ok(Outputs::new().put("concentration", c))
    },
};

/// Register entry of [`proppant_mass`].
pub static PROPPANT_MASS: Relation = Relation {
    name: "proppant_mass",
    title: "Proppant mass and slurry volume of a clean volume",
    equation: "m = c V; V_s = (1 + c/rho_p) V",
    source: MASS_BALANCE,
    range: "none stated by the source",
    inputs: &[
        Input::new::<Volume>("clean_volume", "clean volume"),
        Input::new::<Concentration>("concentration", "proppant added per clean volume"),
        Input::new::<Density>("proppant_density", "grain density of the proppant"),
    ],
    outputs: &[
        Output::new::<Mass>("mass", "proppant mass"),
        Output::new::<Volume>("slurry_volume", "slurry volume"),
    ],
    evaluate: |a| {
        let (mass, volume) =
            proppant_mass(a.get("clean_volume")?, a.get("concentration")?, a.get("proppant_density")?)?;
        Ok(Outputs::new().put("mass", mass).put("slurry_volume", volume))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn volume_and_mass_are_conserved(rho_f in 700.0..1500.0f64, rho_p in 1600.0..4000.0f64, c in 0.0..3000.0f64) {
            let (f, p) = (Density::kg_per_m3(rho_f), Density::kg_per_m3(rho_p));
            let s = slurry(f, p, Concentration::kg_per_m3(c)).unwrap();
            prop_assert!((s.clean_fraction + s.proppant_fraction - 1.0).abs() < 1e-14);
            let mass = s.clean_fraction * rho_f + s.proppant_fraction * rho_p;
            prop_assert!((mass / s.density.si() - 1.0).abs() < 1e-13);
            let back = concentration_from_density(f, p, s.density).unwrap();
            prop_assert!((back.si() - c).abs() < 1e-9 * (c + 1.0) * rho_p / (rho_p - s.density.si()));
            let back = concentration_from_fraction(p, s.proppant_fraction).unwrap();
            prop_assert!((back.si() - c).abs() < 1e-9 * (c + 1.0));
        }
    }

    #[test]
    fn impossible_slurries_are_refused() {
        let (f, p) = (Density::kg_per_m3(1000.0), Density::kg_per_m3(2650.0));
        assert!(slurry(f, p, Concentration::ppa(-1.0)).is_err());
        assert!(slurry(f, Density::ZERO, Concentration::ppa(1.0)).is_err());
        assert!(slurry(f, p, Concentration::ppa(f64::NAN)).is_err());
        assert!(concentration_from_density(f, p, Density::kg_per_m3(999.0)).is_err());
        assert!(concentration_from_density(f, p, p).is_err());
        assert!(concentration_from_fraction(p, 1.0).is_err());
        assert!(proppant_mass(Volume::m3(-1.0), Concentration::ppa(1.0), p).is_err());
    }
}
