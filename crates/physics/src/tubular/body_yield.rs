//! Pipe body yield: the tension at which the body yields.

use super::tube::Tube;
use crate::error::require_positive;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, Force, Pressure};

const NAME: &str = "body_yield";

/// Pipe body yield strength in tension.
///
/// Equation: `Py = pi/4 [D^2 - (D - 2t)^2] Yp`
///
/// - `Py` pipe body yield strength, N
/// - `D` nominal outer diameter, m
/// - `t` nominal wall, m
/// - `Yp` specified minimum yield strength, Pa
///
/// Range: none stated by the source.
///
/// Where it breaks: the connection is often weaker than the body; compare with the joint
/// strength. Pressure and bending are not in it; see `triaxial`.
///
/// Source: api_5c3_1994, pipe body; iso_tr_10400.
///
/// ```
/// use physics::tubular::body_yield::body_yield;
/// use quantity::{Diameter, Pressure};
/// let strength = body_yield(Diameter::inch(4.5), Diameter::inch(0.25), Pressure::psi(80_000.0))?;
/// assert!((strength.in_klbf() - 267.0).abs() < 0.5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn body_yield(outer: Diameter, wall: Diameter, yield_strength: Pressure) -> Result<Force> {
    require_positive(NAME, "yield_strength", yield_strength)?;
    // Py = As Yp
    Ok(yield_strength * Tube::new(NAME, outer, wall)?.steel_area())
}

/// Register entry of [`body_yield`].
pub static BODY_YIELD: Relation = Relation {
    name: NAME,
    title: "Pipe body yield strength",
    equation: "Py = pi/4 [D^2 - (D - 2t)^2] Yp",
    source: "api_5c3_1994, pipe body",
    range: "none stated by the source",
    inputs: &[
        Input::new::<Diameter>("outer", "nominal outer diameter D"),
        Input::new::<Diameter>("wall", "nominal wall t"),
        Input::new::<Pressure>("yield_strength", "specified minimum yield strength Yp"),
    ],
    outputs: &[Output::new::<Force>("strength", "tension at body yield Py")],
    evaluate: |a| {
        let strength = body_yield(a.get("outer")?, a.get("wall")?, a.get("yield_strength")?)?;
        Ok(Outputs::new().put("strength", strength))
    },
};
