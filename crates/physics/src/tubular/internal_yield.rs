//! Internal yield pressure (burst) of the pipe body.

use super::tube::Tube;
use crate::error::{require, require_positive};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, Pressure, Quantity, Ratio};

const NAME: &str = "internal_yield";

/// Internal yield pressure of the pipe body (Barlow, thin wall).
///
/// Equation: `P = k (2 Yp t / D)`
///
/// - `P` internal yield pressure with no pressure outside, Pa
/// - `k` wall tolerance factor: 0.875 for the 12.5 % a wall may be thinner than nominal
/// - `Yp` specified minimum yield strength, Pa
/// - `t` nominal wall, m
/// - `D` nominal outer diameter, m
///
/// Range: none stated by the source.
///
/// Where it breaks: it takes no credit for outside pressure and no charge for tension,
/// bending or torque; use `triaxial` for those. On thick walls it is below the yield at the
/// bore given by Lame with closed ends. The coupling may leak or burst earlier.
///
/// Source: api_5c3_1994, internal yield; barlow factor 0.875 there.
///
/// ```
/// use physics::tubular::internal_yield::internal_yield;
/// use quantity::{Diameter, Pressure, Ratio};
/// let (d, t) = (Diameter::inch(4.5), Diameter::inch(0.25));
/// let burst = internal_yield(d, t, Pressure::psi(80_000.0), Ratio::of(0.875))?;
/// assert!((burst.in_psi() - 7_780.0).abs() < 5.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn internal_yield(
    outer: Diameter,
    wall: Diameter,
    yield_strength: Pressure,
    wall_tolerance: Ratio,
) -> Result<Pressure> {
    let tube = Tube::new(NAME, outer, wall)?;
    require_positive(NAME, "yield_strength", yield_strength)?;
    require_wall_tolerance(NAME, wall_tolerance)?;
    // P = k (2 Yp t / D)
    Ok(yield_strength * (wall_tolerance.si() * 2.0 / tube.slenderness()))
}

/// A wall tolerance factor lies above zero and does not exceed one.
pub(super) fn require_wall_tolerance(relation: &'static str, factor: Ratio) -> Result<()> {
    let hint = "It is the thinnest wall allowed over the nominal wall, such as 0.875.";
    let inside = factor.si() > 0.0 && factor.si() <= 1.0;
    require(inside, relation, "wall_tolerance", factor, "above zero and at most one", hint)
}

/// Register entry of [`internal_yield`].
pub static INTERNAL_YIELD: Relation = Relation {
    name: NAME,
    title: "Internal yield pressure of the pipe body (Barlow, nothing outside)",
    equation: "P = k (2 Yp t / D)",
    source: "api_5c3_1994, internal yield",
    range: "none stated by the source",
    inputs: &[
        Input::new::<Diameter>("outer", "nominal outer diameter D"),
        Input::new::<Diameter>("wall", "nominal wall t"),
        Input::new::<Pressure>("yield_strength", "specified minimum yield strength Yp"),
        Input::new::<Ratio>("wall_tolerance", "thinnest wall over nominal wall k").or("0.875"),
    ],
    outputs: &[Output::new::<Pressure>("rating", "internal yield pressure P")],
    evaluate: |a| {
        let (outer, wall) = (a.get("outer")?, a.get("wall")?);
        let rating = internal_yield(outer, wall, a.get("yield_strength")?, a.get("wall_tolerance")?)?;
        Ok(Outputs::new().put("rating", rating))
    },
};
