//! Swelling of a gel that is free, bonded to the pipe, or stopped by the wall of the hole.

use crate::error::{require, require_positive};
use crate::solve::brent;
use crate::{Error, Input, Output, Outputs, Relation, Result};
use quantity::constant::GAS_CONSTANT;
use quantity::{MolarVolume, Pressure, Quantity, Ratio, Temperature};

/// A rubber and its solvent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gel {
    /// Chains per molecule's volume of dry rubber, N v.
    pub chains: f64,
    /// Interaction parameter χ.
    pub chi: f64,
}

/// How far a gel swells.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FullGel {
    /// Volume over dry volume when free.
    pub volume: f64,
    /// Thickness over dry thickness when bonded to a stiff pipe.
    pub thickness: f64,
}

impl Gel {
    /// Checked gel.
    pub fn new(chains: f64, chi: f64) -> Result<Self> {
        require_positive(NAME, "chains", Ratio::of(chains))?;
        require(
            chains < 1e3,
            NAME,
            "chains",
            Ratio::of(chains),
            "below 1000",
            "Rubbers lie near 0.01 to 0.1.",
        )?;
        let inside = (-2.0..=5.0).contains(&chi);
        require(inside, NAME, "chi", Ratio::of(chi), "-2 to 5", "Good solvents lie below 0.5.")?;
        Ok(Self { chains, chi })
    }

    /// Mixing terms at a volume ratio: `ln(1 − 1/J) + 1/J + χ/J²`.
    fn mixing(&self, j: f64) -> f64 {
        libm::log1p(-1.0 / j) + 1.0 / j + self.chi / (j * j)
    }

    /// Stress of a bonded layer across its thickness over kT/v, tension above zero.
    fn bonded(&self, stretch: f64) -> f64 {
        // σ3/(kT/v) = N v (λ² − 1)/λ + ln(1 − 1/λ) + 1/λ + χ/λ²
        self.chains * (stretch * stretch - 1.0) / stretch + self.mixing(stretch)
    }

    /// Volume ratio of the free and thickness ratio of the bonded gel when full.
    ///
    /// Equation: free `N v (λ² − 1)/J + ln(1 − 1/J) + 1/J + χ/J² = 0`, `J = λ³`; bonded the same with
    /// `N v (λ² − 1)/λ` and `J = λ`.
    ///
    /// Symbols: N v chains per molecule's volume, χ interaction parameter, λ stretch, J volume
    /// ratio; pure numbers.
    ///
    /// Range: none stated by the source; molecules of fluid and links of rubber alike.
    ///
    /// Where it breaks: salt in the rubber and fillers are not in it. Without a root it is
    /// refused.
    ///
    /// Source: cai2010; hong2008 (free energy).
    ///
    /// ```
    /// use physics::packer::gel_swelling::Gel;
    /// let full = Gel::new(0.03, 0.4)?.full()?;
    /// assert!((full.volume - 4.1604).abs() < 1e-4);
    /// assert!((full.thickness - 2.3373).abs() < 1e-4);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn full(&self) -> Result<FullGel> {
        let free = |j: f64| {
            let stretch = j.cbrt();
            self.chains * (stretch * stretch - 1.0) / j + self.mixing(j)
        };
        Ok(FullGel { volume: root(free)?, thickness: root(|l| self.bonded(l))? })
    }

    /// Stress of a bonded layer on the wall that stops it.
    ///
    /// Equation: `p_c = −(R T/V1) { N v (λ² − 1)/λ + ln(1 − 1/λ) + 1/λ + χ/λ² }`.
    ///
    /// Symbols: λ thickness over dry thickness at the wall, V1 molar volume of the fluid m³/mol,
    /// R T/V1 the same as kT/v Pa, others as in [`Gel::full`].
    ///
    /// Range: 1 < λ; zero at the full thickness, above which the layer does not touch.
    ///
    /// Where it breaks: the state after a long time; fluid moves on for a significant further
    /// time after contact. It is not the differential a packer holds.
    ///
    /// Source: cai2010.
    ///
    /// ```
    /// use physics::packer::gel_swelling::Gel;
    /// use quantity::{MolarVolume, Temperature};
    /// let gel = Gel::new(0.03, 0.4)?;
    /// let stop = 1.0 + 0.9 * (gel.full()?.thickness - 1.0);
    /// let p = gel.contact_stress(stop, Temperature::kelvin(300.0), MolarVolume::cm3_per_mol(60.2214))?;
    /// assert!((p.in_psi() - 96.8).abs() < 0.1);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn contact_stress(
        &self,
        stretch: f64,
        temperature: Temperature,
        solvent: MolarVolume,
    ) -> Result<Pressure> {
        require_positive("gel_contact_stress", "temperature", temperature)?;
        require_positive("gel_contact_stress", "solvent", solvent)?;
        let hint = "A swollen layer is thicker than a dry one.";
        require(stretch > 1.0, "gel_contact_stress", "stretch", Ratio::of(stretch), "above 1", hint)?;
        // p_c = −σ3(λ_h); a layer beyond its full thickness does not touch
        let unit = GAS_CONSTANT * temperature.si() / solvent.si();
        Ok(Pressure::pa((-self.bonded(stretch) * unit).max(0.0)))
    }
}

/// The swelling at which the stress vanishes, beyond 1.
fn root(balance: impl Fn(f64) -> f64) -> Result<f64> {
    brent(balance, 1.0 + 1e-12, 1e9, 1e-12).ok_or(Error::NoSolution {
        relation: NAME,
        what: "no swelling balances this rubber and solvent".into(),
        hint: "Check chains and interaction parameter.",
    })
}

const NAME: &str = "gel_swelling";

/// `gel_swelling` in the register.
pub static GEL_SWELLING: Relation = Relation {
    name: NAME,
    title: "Final swelling of a gel, free and bonded to a pipe",
    equation: "N v (λ² − 1)/J + ln(1 − 1/J) + 1/J + χ/J² = 0, J = λ³;  bonded: N v (λ² − 1)/λ + ..., J = λ",
    source: "cai2010; hong2008",
    range: "none stated by the source; no salt in the rubber",
    inputs: &[
        Input::new::<Ratio>("chains", "chains per molecule's volume of dry rubber, N v"),
        Input::new::<Ratio>("chi", "interaction parameter"),
    ],
    outputs: &[
        Output::new::<Ratio>("volume_ratio", "volume over dry volume when free"),
        Output::new::<Ratio>("bonded_thickness", "thickness over dry thickness when bonded"),
    ],
    evaluate: |a| {
        let full = Gel::new(a.number("chains")?, a.number("chi")?)?.full()?;
        Ok(Outputs::new()
            .put("volume_ratio", Ratio::of(full.volume))
            .put("bonded_thickness", Ratio::of(full.thickness)))
    },
};

/// `gel_contact_stress` in the register.
pub static GEL_CONTACT_STRESS: Relation = Relation {
    name: "gel_contact_stress",
    title: "Stress of a bonded gel layer on the wall that stops it, after a long time",
    equation: "p_c = −(R T/V1) { N v (λ² − 1)/λ + ln(1 − 1/λ) + 1/λ + χ/λ² }",
    source: "cai2010",
    range: "long after contact; not the differential a packer holds",
    inputs: &[
        Input::new::<Ratio>("chains", "chains per molecule's volume of dry rubber, N v"),
        Input::new::<Ratio>("chi", "interaction parameter"),
        Input::new::<Ratio>("stretch", "thickness over dry thickness at the wall"),
        Input::new::<Temperature>("temperature", "temperature"),
        Input::new::<MolarVolume>("solvent", "molar volume of the fluid"),
    ],
    outputs: &[Output::new::<Pressure>("stress", "contact stress")],
    evaluate: |a| {
        let gel = Gel::new(a.number("chains")?, a.number("chi")?)?;
        let stress = gel.contact_stress(a.number("stretch")?, a.get("temperature")?, a.get("solvent")?)?;
        Ok(Outputs::new().put("stress", stress))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    proptest::proptest! {
        #[test]
        fn bonding_holds_it_back_and_contact_grows_inward(chains in 1e-4f64..0.5, chi in 0.0f64..0.8) {
            let gel = Gel::new(chains, chi).unwrap();
            let full = gel.full().unwrap();
            // bonded: less volume than free, but thicker than a free gel in each direction
            proptest::prop_assert!(full.thickness < full.volume && full.thickness > full.volume.cbrt());
            let at = |share: f64| {
                let stop = 1.0 + share * (full.thickness - 1.0);
                gel.contact_stress(stop, Temperature::kelvin(300.0), MolarVolume::cm3_per_mol(60.0)).unwrap()
            };
            proptest::prop_assert!(at(0.8) > at(0.9) && at(0.9) > at(0.99));
            proptest::prop_assert!(at(1.0).si().abs() < 1.0 && at(1.1).si() == 0.0);
        }
    }
}
