//! Cross-section of the steel of a pipe body.

use super::tube::Tube;
use crate::{Input, Output, Relation, Result};
use quantity::{Area, Diameter};

const NAME: &str = "steel_area";

/// Cross-section of the steel of a pipe body.
///
/// Equation: `As = pi/4 (D^2 - d^2)`
///
/// - `As` steel area, m2
/// - `D` outer diameter, m
/// - `d` inner diameter, m
///
/// Range: none stated by the source; any `0 < d < D`.
///
/// Where it breaks: `d >= D` is refused.
///
/// Source: geometry; api_5c3_1994, pipe body uses it with nominal dimensions.
///
/// ```
/// use physics::tubular::steel_area::steel_area;
/// use quantity::Diameter;
/// let area = steel_area(Diameter::inch(4.5), Diameter::inch(4.0))?;
/// assert!((area.in_in2() - 3.338).abs() < 5e-4);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn steel_area(outer: Diameter, inner: Diameter) -> Result<Area> {
    // As = pi/4 (D^2 - d^2)
    Ok(Tube::bored(NAME, outer, inner)?.steel_area())
}

/// Register entry of [`steel_area`].
pub static STEEL_AREA: Relation = Relation {
    name: NAME,
    title: "Steel area of a pipe body",
    equation: "As = pi/4 (D^2 - d^2)",
    source: "api_5c3_1994, pipe body; geometry",
    range: "none stated by the source",
    inputs: &[
        Input::new::<Diameter>("outer", "outer diameter D"),
        Input::new::<Diameter>("inner", "inner diameter d"),
    ],
    outputs: &[Output::new::<Area>("area", "steel area As")],
    evaluate: |a| {
        let area = steel_area(a.get("outer")?, a.get("inner")?)?;
        Ok(crate::Outputs::new().put("area", area))
    },
};
