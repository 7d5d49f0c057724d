//! Force between tubing and a packer that holds it, from the movement it would make if free.

use super::length_change::helix_shortening;
use super::steel::Steel;
use super::tube::Tube;
use crate::error::{require, require_positive};
use crate::solve::brent;
use crate::{Error, Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, Force, ForcePerLength, Length, Pressure, Quantity};

const NAME: &str = "packer_restraint";

/// Tubing held by a packer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeldTubing {
    /// The tubing.
    pub tube: Tube,
    /// Length above the packer.
    pub length: Length,
    /// Radial clearance to the casing.
    pub clearance: Diameter,
    /// Buoyed weight per length.
    pub weight: ForcePerLength,
    /// Young's modulus.
    pub modulus: Pressure,
}

/// Forces of tubing held by a packer, compression positive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PackerForces {
    /// Force Fp between tubing and packer; negative pulls up on the packer.
    pub packer: Force,
    /// Fictitious force after restraint.
    pub fictitious: Force,
}

/// Force between tubing and a packer that lets it move no further; compression positive.
///
/// Equation: `D(Ff + Fp) - D(Ff) = -dL`, `D(F) = -F L/(E As) - r^2 F^2/(8 E I w) [F > 0]`, the
/// second term times `(L w/F)(2 - L w/F)` if `F/w > L`
///
/// - `Fp` force of the packer on the tubing, compression positive, N
/// - `Ff` fictitious force of the free tubing, N
/// - `dL` length change of the free tubing, slack-off included, m; shortening negative
/// - `L` length, m; `E As` axial stiffness, N; `r` radial clearance, m; `I` second moment, m4
/// - `w` buoyed weight, N/m
///
/// Range: vertical well, no friction, elastic.
///
/// Where it breaks: friction lets the packer see less than this when the movement is small; a
/// string without buoyed weight is refused.
///
/// Source: lubinski1962 (permanent packer, restrained motion).
///
/// ```
/// use physics::tubular::packer_restraint::{HeldTubing, packer_restraint};
/// use physics::tubular::tube::Tube;
/// use quantity::{Diameter, Force, ForcePerLength, Length, Pressure, Quantity};
/// let held = HeldTubing {
///     tube: Tube::bored("example", Diameter::inch(2.875), Diameter::inch(2.441))?,
///     length: Length::ft(10_000.0),
///     clearance: Diameter::inch(1.6095),
///     weight: ForcePerLength::from_si(0.64012 * 175.1268),
///     modulus: Pressure::psi(30e6),
/// };
/// let f = packer_restraint(held, Force::lbf(66_323.0), Length::inch(-165.194))?;
/// assert!((f.packer.in_lbf() + 54_624.6).abs() < 5.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn packer_restraint(held: HeldTubing, fictitious: Force, free_change: Length) -> Result<PackerForces> {
    require_positive(NAME, "length", held.length)?;
    require_positive(NAME, "weight", held.weight)?;
    require_positive(NAME, "modulus", held.modulus)?;
    let hint = "Check the movement of the free tubing.";
    let finite = free_change.is_finite() && fictitious.is_finite();
    require(finite, NAME, "free_change", free_change, "finite, as the fictitious force", hint)?;
    let (l, w) = (held.length.si(), held.weight.si());
    let stiffness = held.tube.stiffness(held.modulus);
    let k = held.clearance.si().powi(2) / (8.0 * held.modulus.si() * held.tube.inertia());
    // D(F) = -F L/(E As) - r^2 F^2/(8 E I w) [F > 0]
    let d = |f: f64| -f * l / stiffness - helix_shortening(f, w, l, k);
    let (ff, dl) = (fictitious.si(), free_change.si());
    // the linear term alone bounds the force
    let most = -dl * stiffness / l;
    let gap = |fp: f64| d(ff + fp) - d(ff) + dl;
    let bound = 1.01 * most.abs() + 1.0;
    let (low, high) = if dl < 0.0 { (-bound, 0.0) } else { (0.0, bound) };
    // D(Ff + Fp) - D(Ff) = -dL
    let fp = brent(gap, low, high, 1e-6).ok_or(Error::NoSolution {
        relation: NAME,
        what: "no packer force holds the tubing in place".into(),
        hint: "Check length, clearance and weight.",
    })?;
    Ok(PackerForces { packer: Force::n(fp), fictitious: Force::n(ff + fp) })
}

/// Register entry of [`packer_restraint`].
pub static PACKER_RESTRAINT: Relation = Relation {
    name: NAME,
    title: "Force between tubing and a packer that holds it (compression positive)",
    equation: "D(Ff + Fp) - D(Ff) = -dL; D(F) = -F L/(E As) - r^2 F^2/(8 E I w) [F > 0]",
    source: "lubinski1962",
    range: "vertical well, no friction",
    inputs: &[
        Input::new::<Diameter>("outer", "tubing outer diameter"),
        Input::new::<Diameter>("inner", "tubing inner diameter"),
        Input::new::<Length>("length", "length above the packer L"),
        Input::new::<Diameter>("casing_inner", "inner diameter of the casing"),
        Input::new::<ForcePerLength>("weight", "buoyed weight w"),
        Input::new::<Force>("fictitious_force", "fictitious force of the free tubing Ff"),
        Input::new::<Force>("piston_force", "actual force of the free tubing at the packer Fa").or("0 lbf"),
        Input::new::<Length>("free_change", "length change of the free tubing dL, shortening negative"),
        Steel::MODULUS,
    ],
    outputs: &[
        Output::new::<Force>("packer_force", "force of the packer on the tubing Fp"),
        Output::new::<Force>("fictitious", "fictitious force when held Ff + Fp"),
        Output::new::<Force>("actual", "actual force just above the packer when held Fa + Fp"),
    ],
    evaluate: |a| {
        let tube = Tube::bored(NAME, a.get("outer")?, a.get("inner")?)?;
        let casing: Diameter = a.get("casing_inner")?;
        let clearance = (casing - tube.outer()) / 2.0;
        let hint = "The casing must take the tubing.";
        require(clearance.si() >= 0.0, NAME, "casing_inner", casing, "at least the tubing's diameter", hint)?;
        let (length, weight, modulus) = (a.get("length")?, a.get("weight")?, a.get("modulus")?);
        let held = HeldTubing { tube, length, clearance, weight, modulus };
        let forces = packer_restraint(held, a.get("fictitious_force")?, a.get("free_change")?)?;
        let actual: Force = a.get("piston_force")?;
        Ok(Outputs::new()
            .put("packer_force", forces.packer)
            .put("fictitious", forces.fictitious)
            .put("actual", actual + forces.packer))
    },
};
