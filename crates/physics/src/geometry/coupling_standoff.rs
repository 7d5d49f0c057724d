//! Couplings holding pipe off the wall: how much they raise the bending in a dogleg.

use super::forced_bend::second_moment;
use crate::error::{Result, require, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Diameter, Force, Length, Pressure, Quantity, Ratio};

/// Factor on the bending stress of pipe whose couplings hold the body off the wall.
///
/// Equation: `f = KL/tanh(KL)`, `K = √(T/(E I))`, `I = π (D⁴ − d⁴)/64`, L half the joint length.
///
/// Symbols: T effective tension (N), E Young's modulus (Pa), I second moment of area (m⁴), D, d
/// outside and inside diameter of the pipe body (m), L half the length between couplings (m).
///
/// Range: T ≥ 0; contact at the couplings only.
///
/// Where it breaks: under high tension the body touches the wall between the couplings and the
/// factor is then an upper bound. Under compression it does not hold and is refused.
///
/// Source: lubinski1961.
///
/// ```
/// use physics::geometry::coupling_standoff;
/// use quantity::{Diameter, Force, Length, Pressure};
/// let (body, bore) = (Diameter::inch(4.5), Diameter::inch(4.0));
/// let f = coupling_standoff(body, bore, Length::ft(40.0), Pressure::psi(30e6), Force::lbf(20_000.0))?;
/// assert!((f.in_one() - 2.304).abs() < 0.0005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn coupling_standoff(
    outer: Diameter,
    inner: Diameter,
    joint: Length,
    modulus: Pressure,
    tension: Force,
) -> Result<Ratio> {
    let name = COUPLING_STANDOFF.name;
    require_not_negative(name, "inner", inner)?;
    let hint = "Check outside and inside diameter.";
    require(inner.si() < outer.si(), name, "inner", inner, "less than the outside diameter", hint)?;
    require_positive(name, "joint", joint)?;
    require_positive(name, "modulus", modulus)?;
    let hint = "Pipe in compression lies on the wall or buckles; take a factor of 1 and check buckling.";
    require(tension.si() >= 0.0, name, "tension", tension, "zero or more", hint)?;
    // K = sqrt(T/(E I)), L half the joint
    let kl = (tension.si() / (modulus.si() * second_moment(outer, inner))).sqrt() * 0.5 * joint.si();
    // f = KL/tanh(KL)
    Ok(Ratio::of(if kl < 1e-4 { 1.0 + kl * kl / 3.0 } else { kl / kl.tanh() }))
}

/// Register entry of [`coupling_standoff`].
pub static COUPLING_STANDOFF: Relation = Relation {
    name: "coupling_standoff",
    title: "Factor on the dogleg bending stress of pipe held off the wall by its couplings",
    equation: "f = KL/tanh(KL); K = √(T/(E I)); L half the joint",
    source: "lubinski1961",
    range: "tension zero or more, contact at the couplings only; otherwise an upper bound",
    inputs: &[
        Input::new::<Diameter>("outer", "outside diameter of the pipe body"),
        Input::new::<Diameter>("inner", "inside diameter of the pipe body"),
        Input::new::<Length>("joint", "length between couplings"),
        Input::new::<Pressure>("modulus", "Young's modulus"),
        Input::new::<Force>("tension", "effective tension"),
    ],
    outputs: &[Output::new::<Ratio>("factor", "factor on the bending stress")],
    evaluate: |a| {
        let joint = a.get("joint")?;
        let factor =
            coupling_standoff(a.get("outer")?, a.get("inner")?, joint, a.get("modulus")?, a.get("tension")?)?;
        Ok(Outputs::new().put("factor", factor))
    },
};
