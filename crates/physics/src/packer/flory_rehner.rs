//! How far a network of chains swells in a solvent before it is full.

use crate::error::{require, require_positive};
use crate::solve::brent;
use crate::{Error, Input, Output, Outputs, Relation, Result};
use quantity::{AmountConcentration, MolarVolume, Quantity, Ratio};

/// Volume share of rubber in a full, free gel.
///
/// Equation: `−[ln(1 − v2) + v2 + χ v2²] = V1 n (v2^{1/3} − v2/2)`; `Q = 1/v2`.
///
/// Symbols: v2 volume share of rubber (pure number), χ interaction parameter of solvent and
/// rubber (pure number), V1 molar volume of the solvent m³/mol, n chains per volume of dry
/// rubber mol/m³, Q full over dry volume.
///
/// Range: none stated by the source; affine network, no salt in the rubber.
///
/// Where it breaks: water-swelling rubbers swell by salt inside them, which is not in it; their
/// final volume is the supplier's figure. Without a root between 0 and 1 it is refused.
///
/// Source: flory_rehner1943.
///
/// ```
/// use physics::packer::flory_rehner::flory_rehner;
/// use quantity::{AmountConcentration, MolarVolume};
/// let share = flory_rehner(AmountConcentration::mol_per_m3(100.0), MolarVolume::cm3_per_mol(106.0), 0.4)?;
/// assert!((share - 0.17316).abs() < 1e-5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn flory_rehner(chains: AmountConcentration, solvent: MolarVolume, chi: f64) -> Result<f64> {
    require_positive(NAME, "chains", chains)?;
    require_positive(NAME, "solvent", solvent)?;
    let inside = (-2.0..=5.0).contains(&chi);
    require(inside, NAME, "chi", Ratio::of(chi), "-2 to 5", "Good solvents lie below 0.5.")?;
    let stiffness = solvent.si() * chains.si();
    // −[ln(1 − v2) + v2 + χ v2²] = V1 n (v2^{1/3} − v2/2)
    let balance = |v: f64| -(libm::log1p(-v) + v + chi * v * v) - stiffness * (v.cbrt() - 0.5 * v);
    brent(balance, 1e-12, 1.0 - 1e-12, 1e-15).ok_or(Error::NoSolution {
        relation: NAME,
        what: "no swelling balances these chains and this solvent".into(),
        hint: "Check the units of chains and solvent.",
    })
}

const NAME: &str = "flory_rehner";

/// `flory_rehner` in the register.
pub static FLORY_REHNER: Relation = Relation {
    name: NAME,
    title: "Volume share of rubber in a full, free gel",
    equation: "−[ln(1 − v2) + v2 + χ v2²] = V1 n (v2^{1/3} − v2/2)",
    source: "flory_rehner1943",
    range: "none stated by the source; no salt in the rubber",
    inputs: &[
        Input::new::<AmountConcentration>("chains", "chains per volume of dry rubber"),
        Input::new::<MolarVolume>("solvent", "molar volume of the solvent"),
        Input::new::<Ratio>("chi", "interaction parameter of solvent and rubber"),
    ],
    outputs: &[
        Output::new::<Ratio>("rubber_share", "volume share of rubber v2"),
        Output::new::<Ratio>("volume_ratio", "full over dry volume"),
    ],
    evaluate: |a| {
        let share = flory_rehner(a.get("chains")?, a.get("solvent")?, a.number("chi")?)?;
        Ok(Outputs::new().put("rubber_share", Ratio::of(share)).put("volume_ratio", Ratio::of(1.0 / share)))
    },
};
