//! How much more friction a slurry has than its clean fluid at the same rate.

use crate::error::{Result, require, require_not_negative, require_positive};
use crate::fluid::slurry::slurry;
use crate::fluid::slurry_viscosity::{SLURRY_VISCOSITY_WORDS, SlurryViscosity};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Concentration, Density, Ratio, ShearRate};

/// The relation taken between slurry and clean friction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SlurryFriction {
    /// Turbulent scaling of a Newtonian fluid: `rho_r^0.8 mu_r^0.2`.
    TurbulentScaling(SlurryViscosity),
    /// Laminar flow: the friction follows the viscosity, `mu_r`.
    LaminarScaling(SlurryViscosity),
    /// Fit to fracturing gels: `mu_r^0.55 rho_r^0.45` with a `mu_r` of its own.
    Keck1992 {
        /// Flow behaviour index of the clean fluid.
        n: f64,
        /// Shear rate at the wall.
        shear_rate: ShearRate,
    },
}

const NAME: &str = "slurry_friction_multiplier";

impl SlurryFriction {
    /// Friction pressure of a slurry over that of its clean fluid, at the same rate.
    ///
    /// turbulent scaling `M = rho_r^0.8 mu_r^0.2`; laminar `M = mu_r`;
    /// keck_1992 `M = mu_r^0.55 rho_r^0.45`,
    /// `mu_r = {1 + 0.75(e^(1.5n) - 1) e^(-(1-n) rate/1000) 1.25phi/(1 - 1.5phi)}^2`
    ///
    /// `rho_r` slurry over clean density, `mu_r` slurry over clean viscosity (for the scalings
    /// from [`SlurryViscosity`]), `n` flow behaviour index, `rate` wall shear rate (1/s), `phi`
    /// proppant volume fraction.
    ///
    /// Range: scalings as the viscosity relation; keck_1992 none known, refused from `phi` 2/3.
    ///
    /// The exponents of the turbulent scaling are those of a smooth pipe near `f ~ Re^-0.2`; in
    /// fully rough flow only `rho_r` counts. The fit starts with a slope of 6.5 in `phi` where
    /// spheres have 2.5: it is for gels, and for slickwater it is an upper bound.
    ///
    /// Source: white2011 ch. 6 (power-law smooth friction) for the scaling; keck1992, form
    /// from memory.
    ///
    /// ```
    /// use physics::fluid::slurry_viscosity::SlurryViscosity;
    /// use physics::hydraulics::slurry_friction::SlurryFriction;
    /// let eilers = SlurryViscosity::Eilers { packing: 0.63 };
    /// let m = SlurryFriction::TurbulentScaling(eilers).multiplier(1.252, 0.1532)?;
    /// assert!((m - 1.31).abs() < 0.01);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn multiplier(self, density_ratio: f64, proppant_fraction: f64) -> Result<f64> {
        require_positive(NAME, "density_ratio", Ratio::of(density_ratio))?;
        match self {
            // M = rho_r^0.8 mu_r^0.2
            Self::TurbulentScaling(viscosity) => {
                Ok(density_ratio.powf(0.8) * viscosity.relative(proppant_fraction)?.powf(0.2))
            }
            // M = mu_r
            Self::LaminarScaling(viscosity) => viscosity.relative(proppant_fraction),
            // M = mu_r^0.55 rho_r^0.45
            Self::Keck1992 { n, shear_rate } => {
                let viscosity = keck_viscosity(n, shear_rate, proppant_fraction)?;
                Ok(viscosity.powf(0.55) * density_ratio.powf(0.45))
            }
        }
    }
}

fn keck_viscosity(n: f64, shear_rate: ShearRate, phi: f64) -> Result<f64> {
    let hint = "The fit ends where the proppant is packed; lower the concentration.";
    let inside = (0.0..0.66).contains(&phi);
    require(inside, NAME, "proppant_fraction", Ratio::of(phi), "from 0 to below 0.66", hint)?;
    let hint = "A shear-thinning fluid has n between 0.2 and 1.";
    require(n > 0.0 && n <= 1.0, NAME, "n", Ratio::of(n), "above 0, at most 1", hint)?;
    require_not_negative(NAME, "shear_rate", shear_rate)?;
    // mu_r = {1 + 0.75(e^(1.5n) - 1) e^(-(1-n) rate/1000) 1.25phi/(1 - 1.5phi)}^2
    let shear = (-(1.0 - n) * shear_rate.in_per_second() / 1000.0).exp();
    Ok((1.0 + 0.75 * (1.5 * n).exp_m1() * shear * 1.25 * phi / (1.0 - 1.5 * phi)).powi(2))
}

/// Register entry of [`SlurryFriction::multiplier`].
pub static SLURRY_FRICTION_MULTIPLIER: Relation = Relation {
    name: NAME,
    title: "Friction of a slurry over that of its clean fluid at the same rate",
    equation: "turbulent_scaling: M = rho_r^0.8 mu_r^0.2; laminar_scaling: M = mu_r; keck_1992: M = mu_r^0.55 rho_r^0.45",
    source: "white2011 ch. 6 (scaling); keck1992 (form from memory)",
    range: "spheres in a Newtonian fluid for the scalings; gels for keck_1992",
    inputs: &[
        Input::new::<Density>("clean_density", "density of the clean fluid"),
        Input::new::<Density>("proppant_density", "grain density of the proppant"),
        Input::new::<Concentration>("concentration", "proppant added per clean volume"),
        Input::choice("model", &["turbulent_scaling", "laminar_scaling", "keck_1992"], "relation taken")
            .or("turbulent_scaling"),
        Input::choice("viscosity_model", SLURRY_VISCOSITY_WORDS, "viscosity relation of the scalings")
            .or("eilers"),
        Input::new::<Ratio>("packing", "packing fraction of that relation").or("0.63").within(0.5, 0.74),
        Input::new::<Ratio>("n", "flow behaviour index, for keck_1992").or("1"),
        Input::new::<ShearRate>("shear_rate", "shear rate at the wall, for keck_1992").or("0 1/s"),
    ],
    outputs: &[
        Output::new::<Ratio>("multiplier", "slurry friction over clean friction"),
        Output::new::<Ratio>("density_ratio", "slurry density over clean density"),
        Output::new::<Ratio>("proppant_fraction", "proppant volume per slurry volume"),
    ],
    evaluate: |a| {
        let clean: Density = a.get("clean_density")?;
        let s = slurry(clean, a.get("proppant_density")?, a.get("concentration")?)?;
        let viscosity = SlurryViscosity::from_word(a.word("viscosity_model")?, a.number("packing")?);
        let model = match a.word("model")? {
            "keck_1992" => SlurryFriction::Keck1992 { n: a.number("n")?, shear_rate: a.get("shear_rate")? },
            "laminar_scaling" => SlurryFriction::LaminarScaling(viscosity),
            _ => SlurryFriction::TurbulentScaling(viscosity),
        };
        let ratio = s.density / clean;
        Ok(Outputs::new()
            .put("multiplier", Ratio::of(model.multiplier(ratio, s.proppant_fraction)?))
            .put("density_ratio", Ratio::of(ratio))
            .put("proppant_fraction", Ratio::of(s.proppant_fraction)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    const EILERS: SlurryViscosity = SlurryViscosity::Eilers { packing: 0.63 };

    #[test]
    fn no_proppant_is_no_change() {
        let all = [
            SlurryFriction::TurbulentScaling(EILERS),
            SlurryFriction::LaminarScaling(EILERS),
            SlurryFriction::Keck1992 { n: 0.5, shear_rate: ShearRate::per_second(500.0) },
        ];
        for model in all {
            assert_eq!(model.multiplier(1.0, 0.0).unwrap(), 1.0);
        }
    }

    #[test]
    fn the_fit_for_gels_starts_steeper_than_spheres() {
        let slope = (keck_viscosity(1.0, ShearRate::ZERO, 1e-7).unwrap() - 1.0) / 1e-7;
        assert!((slope - 6.53).abs() < 0.01, "{slope}");
    }

    #[test]
    fn nonsense_is_refused() {
        let keck = |n, rate| SlurryFriction::Keck1992 { n, shear_rate: ShearRate::per_second(rate) };
        assert!(keck(1.0, 0.0).multiplier(1.2, 0.67).is_err());
        assert!(keck(0.0, 0.0).multiplier(1.2, 0.1).is_err());
        assert!(keck(0.5, -1.0).multiplier(1.2, 0.1).is_err());
        assert!(SlurryFriction::TurbulentScaling(EILERS).multiplier(0.0, 0.1).is_err());
    }
}
