//! Effective tension: the force that decides buckling and that a buoyed string carries.

use super::tube::Tube;
use crate::error::require_not_negative;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, Force, Pressure};

const NAME: &str = "effective_tension";

/// Pressures inside and outside at one point, or their change.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Pressures {
    /// Inside.
    pub inside: Pressure,
    /// Outside.
    pub outside: Pressure,
}

/// Effective tension at a point of the string.
///
/// Equation: `Te = T - Pi Ai + Po Ao`
///
/// - `Te` effective tension, N; the string buckles where it is negative
/// - `T` true tension in the steel, N
/// - `Pi, Po` pressure inside and outside at the point, Pa
/// - `Ai, Ao` area of the bore and of the outer circle, m2
///
/// Range: none stated by the source.
///
/// Where it breaks: stress comes from the true force, not from this one; never put `Te` into a
/// stress formula.
///
/// Source: lubinski1962 (fictitious force `Ff = -Te`).
///
/// ```
/// use physics::tubular::{effective_tension::{Pressures, effective_tension}, tube::Tube};
/// use quantity::{Diameter, Force, Pressure};
/// let tube = Tube::bored("example", Diameter::inch(2.875), Diameter::inch(2.441))?;
/// let p = Pressures { inside: Pressure::psi(1_000.0), outside: Pressure::ZERO };
/// let te = effective_tension(tube, Force::ZERO, p)?;
/// assert!((te.in_lbf() + 4_679.8).abs() < 0.1);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn effective_tension(tube: Tube, true_tension: Force, pressures: Pressures) -> Result<Force> {
    require_not_negative(NAME, "internal_pressure", pressures.inside)?;
    require_not_negative(NAME, "external_pressure", pressures.outside)?;
    // Te = T - Pi Ai + Po Ao
    Ok(true_tension - tube.end_force(pressures.inside, pressures.outside))
}

/// Register entry of [`effective_tension`].
pub static EFFECTIVE_TENSION: Relation = Relation {
    name: NAME,
    title: "Effective tension (tension positive)",
    equation: "Te = T - Pi Ai + Po Ao",
    source: "lubinski1962",
    range: "none stated by the source",
    inputs: &[
        Input::new::<Force>("true_tension", "true tension in the steel T"),
        Input::new::<Diameter>("outer", "outer diameter"),
        Input::new::<Diameter>("inner", "inner diameter"),
        Input::new::<Pressure>("internal_pressure", "pressure inside Pi"),
        Input::new::<Pressure>("external_pressure", "pressure outside Po"),
    ],
    outputs: &[Output::new::<Force>("effective_tension", "effective tension Te")],
    evaluate: |a| {
        let tube = Tube::bored(NAME, a.get("outer")?, a.get("inner")?)?;
        let pressures =
            Pressures { inside: a.get("internal_pressure")?, outside: a.get("external_pressure")? };
        let te = effective_tension(tube, a.get("true_tension")?, pressures)?;
        Ok(Outputs::new().put("effective_tension", te))
    },
};
