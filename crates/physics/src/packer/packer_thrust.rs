//! The thrust a stage's pressure puts on a packer, and the contact it needs to stand it.

use crate::error::{require, require_positive};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, Force, Length, Pressure, Quantity, Ratio};
use std::f64::consts::PI;

/// Thrust along the hole on a packer that separates two stages.
///
/// Equation: `F = Δp π/4 (D_hole² − D_pipe²)`.
///
/// Symbols: Δp pressure difference across the packer Pa, D_hole hole and D_pipe mandrel
/// diameter m, F thrust toward the lower pressure N.
///
/// Range: none stated by the source; a balance of forces.
///
/// Where it breaks: in an oval or washed-out hole the area is larger than the caliper's mean
/// says; negative differences are refused.
///
/// Source: timoshenko_goodier1970, equilibrium of a plug under pressure.
///
/// ```
/// use physics::packer::packer_thrust::packer_thrust;
/// use quantity::{Diameter, Pressure};
/// let f = packer_thrust(Pressure::psi(5000.0), Diameter::inch(6.125), Diameter::inch(4.5))?;
/// assert!((f.in_lbf() - 67_802.0).abs() < 1.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn packer_thrust(difference: Pressure, hole: Diameter, pipe: Diameter) -> Result<Force> {
    crate::error::require_not_negative("packer_thrust", "difference", difference)?;
    require_positive("packer_thrust", "pipe", pipe)?;
    require(hole > pipe, "packer_thrust", "hole", hole, "above the pipe's diameter", "Check the diameters.")?;
    // F = Δp π/4 (D_hole² − D_pipe²)
    Ok(difference * hole.ring(pipe))
}

/// Mean contact stress with which wall friction alone carries a packer's thrust.
///
/// Equation: `p_c = F / (μ π D_hole L_e)`.
///
/// Symbols: F thrust N, μ friction of rubber on rock (pure number), D_hole hole diameter m, L_e
/// element length m.
///
/// Range: none stated by the source; friction shared evenly over the length.
///
/// Where it breaks: the string and neighbouring packers carry part of the thrust; the stress is
/// not even, and leakage begins at the upstream end first.
///
/// Source: timoshenko_goodier1970, equilibrium with Coulomb friction.
///
/// ```
/// use physics::packer::packer_thrust::contact_required;
/// use quantity::{Diameter, Force, Length};
/// let p = contact_required(Force::lbf(67_802.0), 0.3, Diameter::inch(6.125), Length::ft(5.0))?;
/// assert!((p.in_psi() - 195.8).abs() < 0.1);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn contact_required(thrust: Force, friction: f64, hole: Diameter, length: Length) -> Result<Pressure> {
    crate::error::require_not_negative(NEEDED, "thrust", thrust)?;
    require_positive(NEEDED, "friction", Ratio::of(friction))?;
    require_positive(NEEDED, "hole", hole)?;
    require_positive(NEEDED, "length", length)?;
    // p_c = F / (μ π D_hole L_e)
    Ok(Pressure::pa(thrust.si() / (friction * PI * hole.si() * length.si())))
}

const NEEDED: &str = "packer_contact_required";

/// `packer_thrust` in the register.
pub static PACKER_THRUST: Relation = Relation {
    name: "packer_thrust",
    title: "Thrust along the hole on a packer between two stages",
    equation: "F = Δp π/4 (D_hole² − D_pipe²)",
    source: "timoshenko_goodier1970, equilibrium",
    range: "none stated by the source",
    inputs: &[
        Input::new::<Pressure>("difference", "pressure difference across the packer"),
        Input::new::<Diameter>("hole", "hole diameter"),
        Input::new::<Diameter>("pipe", "outside diameter of the mandrel"),
    ],
    outputs: &[Output::new::<Force>("thrust", "thrust toward the lower pressure")],
    evaluate: |a| {
        let thrust = packer_thrust(a.get("difference")?, a.get("hole")?, a.get("pipe")?)?;
        Ok(Outputs::new().put("thrust", thrust))
    },
};

/// `packer_contact_required` in the register.
pub static PACKER_CONTACT_REQUIRED: Relation = Relation {
    name: NEEDED,
    title: "Mean contact stress with which wall friction carries a packer's thrust",
    equation: "p_c = F / (μ π D_hole L_e)",
    source: "timoshenko_goodier1970, equilibrium",
    range: "friction shared evenly over the length",
    inputs: &[
        Input::new::<Force>("thrust", "thrust on the packer"),
        Input::new::<Ratio>("friction", "friction of rubber on rock"),
        Input::new::<Diameter>("hole", "hole diameter"),
        Input::new::<Length>("length", "element length in contact"),
    ],
    outputs: &[Output::new::<Pressure>("stress", "mean contact stress needed")],
    evaluate: |a| {
        let (thrust, friction) = (a.get("thrust")?, a.number("friction")?);
        let stress = contact_required(thrust, friction, a.get("hole")?, a.get("length")?)?;
        Ok(Outputs::new().put("stress", stress))
    },
};
