//! Viscosity of a slurry relative to its clean fluid.

use crate::error::{Error, Result, require, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Ratio, Viscosity};

/// The relation taken between proppant fraction and relative viscosity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SlurryViscosity {
    /// Dilute spheres: `1 + 2.5 phi`.
    Einstein,
    /// `(1 - phi/phi_m)^(-2.5 phi_m)`, with the packing fraction `phi_m`.
    KriegerDougherty {
        /// Packing fraction `phi_m`.
        packing: f64,
    },
    /// `[1 + 1.25 phi/(1 - phi/phi_m)]^2`, with the packing fraction `phi_m`.
    Eilers {
        /// Packing fraction `phi_m`.
        packing: f64,
    },
}

/// Packing fraction of random close-packed spheres usually taken with these relations.
pub const USUAL_PACKING: f64 = 0.63;

impl SlurryViscosity {
    /// Relative viscosity of a slurry of spheres (slurry over clean fluid).
    ///
    /// Einstein `1 + 2.5 phi`; Krieger and Dougherty `(1 - phi/phi_m)^(-2.5 phi_m)`;
    /// Eilers `[1 + 1.25 phi/(1 - phi/phi_m)]^2`
    ///
    /// `phi` proppant volume per slurry volume, `phi_m` packing fraction at which the slurry
    /// stops flowing (0.63 is usual for spheres of one size).
    ///
    /// Range: Einstein below `phi` 0.02; the others `0 <= phi < phi_m`, refused outside.
    ///
    /// All three start with the slope 2.5. They hold for spheres in a Newtonian fluid without
    /// settling; angular sand is thicker. Einstein has no packing and stays too thin.
    ///
    /// Source: einstein1906; krieger_dougherty1959; eilers1941.
    ///
    /// ```
    /// use physics::fluid::slurry_viscosity::SlurryViscosity;
    /// let mu_r = SlurryViscosity::Eilers { packing: 0.63 }.relative(0.15)?;
    /// assert!((mu_r - 1.5527).abs() < 1e-4);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn relative(self, phi: f64) -> Result<f64> {
        let name = "slurry_viscosity";
        let hint = "Lower the concentration or give the packing fraction of the proppant.";
        let limit = self.limit();
        let usable = limit > 0.0 && limit <= 1.0;
        require(usable, name, "packing", Ratio::of(limit), "above 0, at most 1", hint)?;
        if !(0.0..limit).contains(&phi) {
            let limit = format!("from 0 to below {limit}");
            return Err(Error::Domain {
                relation: name,
                name: "proppant_fraction",
                value: Ratio::of(phi).into(),
                limit,
                hint,
            });
        }
        Ok(self.curve(phi))
    }

    /// The fraction at which the relation ends.
    fn limit(self) -> f64 {
        match self {
            Self::Einstein => 1.0,
            Self::KriegerDougherty { packing } | Self::Eilers { packing } => packing,
        }
    }

    fn curve(self, phi: f64) -> f64 {
        match self {
            // mu_r = 1 + 2.5 phi
            Self::Einstein => 1.0 + 2.5 * phi,
            // mu_r = (1 - phi/phi_m)^(-2.5 phi_m)
            Self::KriegerDougherty { packing } => (1.0 - phi / packing).powf(-2.5 * packing),
            // mu_r = [1 + 1.25 phi/(1 - phi/phi_m)]^2
            Self::Eilers { packing } => (1.0 + 1.25 * phi / (1.0 - phi / packing)).powi(2),
        }
    }

    /// Reads the choice by its word in the register.
    pub(crate) fn from_word(word: &str, packing: f64) -> Self {
        match word {
            "einstein" => Self::Einstein,
            "krieger_dougherty" => Self::KriegerDougherty { packing },
            _ => Self::Eilers { packing },
        }
    }
}

/// The words of [`SlurryViscosity`] in the register.
pub(crate) const SLURRY_VISCOSITY_WORDS: &[&str] = &["eilers", "krieger_dougherty", "einstein"];

/// Register entry of [`SlurryViscosity::relative`].
pub static SLURRY_VISCOSITY: Relation = Relation {
    name: "slurry_viscosity",
    title: "Viscosity of a slurry from its proppant volume fraction",
    equation: "eilers: mu_r = [1 + 1.25 phi/(1 - phi/phi_m)]^2; krieger_dougherty: mu_r = (1 - phi/phi_m)^(-2.5 phi_m); einstein: mu_r = 1 + 2.5 phi",
    source: "eilers1941; krieger_dougherty1959; einstein1906",
    range: "0 <= phi < phi_m; einstein below phi 0.02; spheres in a Newtonian fluid",
    inputs: &[
        Input::new::<Ratio>("proppant_fraction", "proppant volume per slurry volume"),
        Input::new::<Viscosity>("clean_viscosity", "viscosity of the clean fluid").or("1 cP"),
        Input::choice("model", SLURRY_VISCOSITY_WORDS, "relation between fraction and viscosity")
            .or("eilers"),
        Input::new::<Ratio>("packing", "packing fraction phi_m").or("0.63").within(0.5, 0.74),
    ],
    outputs: &[
        Output::new::<Ratio>("relative", "slurry viscosity over clean viscosity"),
        Output::new::<Viscosity>("viscosity", "slurry viscosity"),
    ],
    evaluate: |a| {
        let clean: Viscosity = a.get("clean_viscosity")?;
        require_positive("slurry_viscosity", "clean_viscosity", clean)?;
        let model = SlurryViscosity::from_word(a.word("model")?, a.number("packing")?);
        let relative = model.relative(a.number("proppant_fraction")?)?;
        Ok(Outputs::new().put("relative", Ratio::of(relative)).put("viscosity", clean * relative))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [SlurryViscosity; 3] = [
        SlurryViscosity::Einstein,
        SlurryViscosity::KriegerDougherty { packing: USUAL_PACKING },
        SlurryViscosity::Eilers { packing: USUAL_PACKING },
    ];

    #[test]
    fn all_start_at_one_with_the_slope_of_dilute_spheres() {
        for model in ALL {
            assert_eq!(model.relative(0.0).unwrap(), 1.0);
            let slope = (model.relative(1e-6).unwrap() - 1.0) / 1e-6;
            assert!((slope - 2.5).abs() < 1e-4, "{model:?}: {slope}");
        }
    }

    #[test]
    fn thicker_with_more_proppant_and_refused_when_packed() {
        for model in ALL {
            let at = |phi| model.relative(phi).unwrap();
            assert!((1..60).all(|i| at(f64::from(i) * 0.01) > at(f64::from(i - 1) * 0.01)));
            assert!(model.relative(-0.01).is_err());
            assert!(model.relative(f64::NAN).is_err());
            assert!(model.relative(1.0).is_err());
        }
        assert!(SlurryViscosity::Eilers { packing: 0.63 }.relative(0.63).is_err());
        assert!(SlurryViscosity::Eilers { packing: -0.5 }.relative(0.1).is_err());
    }
}
