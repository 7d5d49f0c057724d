//! The pressure, of fluid or of a packer element, that cracks the wall of the hole lengthwise.

use crate::error::require_not_negative;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::Pressure;

/// The rock round a hole along one principal stress.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoleStress {
    /// One total stress normal to the hole, compression above zero.
    pub first: Pressure,
    /// The other total stress normal to the hole.
    pub second: Pressure,
    /// Pore pressure.
    pub pore: Pressure,
    /// Tensile strength of the rock.
    pub tensile: Pressure,
}

/// Pressure on the wall at which a crack along the hole opens, in impermeable rock.
///
/// Equation: `P_b = 3 σ_min − σ_max − P_p + T0`.
///
/// Symbols: σ_min, σ_max lesser and greater total stress normal to the hole Pa, P_p pore pressure
/// Pa, T0 tensile strength Pa; all above the same datum.
///
/// Range: elastic, uniform rock; hole along a principal stress; no fluid enters the wall.
///
/// Where it breaks: a hole across the principal directions and fluid entering the wall both
/// lower it. The contact stress of a packer loads the wall as fluid does, so a stress above P_b
/// starts a crack under the element. A result below the pore pressure means the wall is
/// cracked already.
///
/// Source: kirsch1898; hubbert_willis1957 (breakdown of a hole).
///
/// ```
/// use physics::packer::wall_breakdown::{HoleStress, wall_breakdown};
/// use quantity::Pressure;
/// let p = Pressure::psi;
/// let stress = HoleStress { first: p(9000.0), second: p(8000.0), pore: p(4500.0), tensile: p(500.0) };
/// assert!((wall_breakdown(&stress)?.in_psi() - 11_000.0).abs() < 1e-6);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn wall_breakdown(stress: &HoleStress) -> Result<Pressure> {
    require_not_negative(NAME, "first", stress.first)?;
    require_not_negative(NAME, "second", stress.second)?;
    require_not_negative(NAME, "pore", stress.pore)?;
    require_not_negative(NAME, "tensile", stress.tensile)?;
    let (least, greatest) = (stress.first.min(stress.second), stress.first.max(stress.second));
    // P_b = 3 σ_min − σ_max − P_p + T0
    Ok(least * 3.0 - greatest - stress.pore + stress.tensile)
}

const NAME: &str = "wall_breakdown";

/// `wall_breakdown` in the register.
pub static WALL_BREAKDOWN: Relation = Relation {
    name: NAME,
    title: "Pressure at which a crack along the hole opens, in impermeable rock",
    equation: "P_b = 3 σ_min − σ_max − P_p + T0",
    source: "kirsch1898; hubbert_willis1957",
    range: "elastic rock, hole along a principal stress, no fluid entering the wall",
    inputs: &[
        Input::new::<Pressure>("first", "one total stress normal to the hole"),
        Input::new::<Pressure>("second", "the other total stress normal to the hole"),
        Input::new::<Pressure>("pore", "pore pressure"),
        Input::new::<Pressure>("tensile", "tensile strength of the rock").or("0 psi"),
    ],
    outputs: &[Output::new::<Pressure>("breakdown", "pressure on the wall that cracks it")],
    evaluate: |a| {
        let stress = HoleStress {
            first: a.get("first")?,
            second: a.get("second")?,
            pore: a.get("pore")?,
            tensile: a.get("tensile")?,
        };
        Ok(Outputs::new().put("breakdown", wall_breakdown(&stress)?))
    },
};
