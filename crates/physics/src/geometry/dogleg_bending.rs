//! Bending stress of pipe in a dogleg, and the axial load that gives the same stress.

use crate::error::{Result, require, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Curvature, Diameter, Force, Pressure, Quantity, Ratio};

/// Bending stress at the outside of pipe in a dogleg.
///
/// Equation: `σb = f E κ D/2`; with E = 30e6 psi, `σb = 218.17 DLS D` psi (D in in, DLS in
/// deg/100 ft).
///
/// Symbols: σb bending stress, tension on the outside and compression on the inside of the bend
/// (Pa), E Young's modulus (Pa), κ curvature of the hole (rad/m), D outside diameter of the pipe
/// body (m), f stand-off factor of the couplings, 1 where the body lies along the wall (-).
///
/// Range: none stated by the source; elastic bending.
///
/// Where it breaks: take the outside diameter of the body, not of the coupling. Both signs of
/// the bending stress count in a triaxial check. With couplings holding the body off the wall
/// under tension the curvature peaks at the couplings: see `coupling_standoff` for f.
///
/// Source: lubinski1961.
///
/// ```
/// use physics::geometry::dogleg_bending_stress;
/// use quantity::{Curvature, Diameter, Pressure, Ratio};
/// let stress = dogleg_bending_stress(
///     Diameter::inch(4.5),
///     Curvature::deg_per_100ft(10.0),
///     Pressure::psi(30e6),
///     Ratio::of(1.0),
/// )?;
/// assert!((stress.in_psi() - 9817.5).abs() < 0.1);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn dogleg_bending_stress(
    outer: Diameter,
    severity: Curvature,
    modulus: Pressure,
    standoff: Ratio,
) -> Result<Pressure> {
    let name = DOGLEG_BENDING_STRESS.name;
    require_positive(name, "outer", outer)?;
    require_not_negative(name, "dogleg severity", severity)?;
    require_positive(name, "modulus", modulus)?;
    let hint = "Couplings never lower the bending stress; take 1 for pipe along the wall.";
    require(standoff.si() >= 1.0, name, "standoff_factor", standoff, "1 or more", hint)?;
    // sigma_b = f E kappa D/2
    Ok(modulus * (standoff.si() * severity.si() * 0.5 * outer.si()))
}

/// Axial load whose stress equals the bending stress of pipe in a dogleg.
///
/// Equation: `F = σb As`, `As = π (D² − d²)/4`; in the trade `F ≈ 64 D DLS w` lbf (63 is also
/// printed), w in lb/ft.
///
/// Symbols: σb bending stress (Pa), D, d outside and inside diameter of the body (m), As wall
/// area (m²), F equivalent axial load (N).
///
/// Range: none stated by the source; elastic bending.
///
/// Where it breaks: the load acts on one side only; it counts for the joint's axial rating, not
/// for the force along the string.
///
/// Source: lubinski1961.
///
/// ```
/// use physics::geometry::dogleg_bending_load;
/// use quantity::{Diameter, Pressure};
/// let load = dogleg_bending_load(Diameter::inch(4.5), Diameter::inch(4.0), Pressure::psi(9817.477))?;
/// assert!((load.in_lbf() - 32_770.0).abs() < 1.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn dogleg_bending_load(outer: Diameter, inner: Diameter, stress: Pressure) -> Result<Force> {
    let name = DOGLEG_BENDING_LOAD.name;
    require_not_negative(name, "inner", inner)?;
    let hint = "Check outside and inside diameter.";
    require(inner.si() < outer.si(), name, "inner", inner, "less than the outside diameter", hint)?;
    // F = sigma_b As
    Ok(stress * outer.ring(inner))
}

/// Register entry of [`dogleg_bending_stress`].
pub static DOGLEG_BENDING_STRESS: Relation = Relation {
    name: "dogleg_bending_stress",
    title: "Bending stress of pipe in a dogleg",
    equation: "σb = f E κ D/2 = f · 218.17 DLS D psi (E = 30e6 psi)",
    source: "lubinski1961",
    range: "none stated by the source; elastic bending",
    inputs: &[
        Input::new::<Diameter>("outer", "outside diameter of the pipe body"),
        Input::new::<Curvature>("dogleg_severity", "curvature of the hole"),
        Input::new::<Pressure>("modulus", "Young's modulus"),
        Input::new::<Ratio>("standoff_factor", "1 for pipe along the wall; see coupling_standoff").or("1"),
    ],
    outputs: &[Output::new::<Pressure>("stress", "bending stress, both signs")],
    evaluate: |a| {
        let stress = dogleg_bending_stress(
            a.get("outer")?,
            a.get("dogleg_severity")?,
            a.get("modulus")?,
            a.get("standoff_factor")?,
        )?;
        Ok(Outputs::new().put("stress", stress))
    },
};

/// Register entry of [`dogleg_bending_load`].
pub static DOGLEG_BENDING_LOAD: Relation = Relation {
    name: "dogleg_bending_load",
    title: "Axial load equivalent to the bending stress of pipe in a dogleg",
    equation: "F = f E κ D/2 · π (D² − d²)/4 ≈ 64 D DLS w lbf",
    source: "lubinski1961",
    range: "none stated by the source; elastic bending",
    inputs: &[
        Input::new::<Diameter>("outer", "outside diameter of the pipe body"),
        Input::new::<Diameter>("inner", "inside diameter of the pipe body"),
        Input::new::<Curvature>("dogleg_severity", "curvature of the hole"),
        Input::new::<Pressure>("modulus", "Young's modulus"),
        Input::new::<Ratio>("standoff_factor", "1 for pipe along the wall; see coupling_standoff").or("1"),
    ],
    outputs: &[
        Output::new::<Force>("load", "equivalent axial load"),
        Output::new::<Pressure>("stress", "bending stress, both signs"),
    ],
    evaluate: |a| {
        let (outer, factor) = (a.get("outer")?, a.get("standoff_factor")?);
        let stress = dogleg_bending_stress(outer, a.get("dogleg_severity")?, a.get("modulus")?, factor)?;
        let load = dogleg_bending_load(outer, a.get("inner")?, stress)?;
        Ok(Outputs::new().put("load", load).put("stress", stress))
    },
};
