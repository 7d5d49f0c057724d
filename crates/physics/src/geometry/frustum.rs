//! Volume of a bore whose diameter changes evenly along it.

use crate::error::{Result, require_not_negative};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Diameter, Length, Quantity, Volume};

/// Volume of a bore whose diameter changes linearly from one end to the other.
///
/// Equation: `V = π L/12 (D1² + D1 D2 + D2²)`.
///
/// Symbols: D1, D2 diameters at the two ends (m), L length (m), V volume (m³).
///
/// Range: none stated by the source; diameters and length zero or more.
///
/// Where it breaks: the mean diameter would give less: `π L (D2 − D1)²/48` is missing there.
///
/// Source: derived_geometry.
///
/// ```
/// use physics::geometry::frustum_volume;
/// use quantity::{Diameter, Length};
/// // A cone of 3 m diameter and 4 m length: a third of its cylinder.
/// let cone = frustum_volume(Diameter::m(3.0), Diameter::m(0.0), Length::m(4.0))?;
/// assert!((cone.in_m3() - 3.0 * std::f64::consts::PI).abs() < 1e-12);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn frustum_volume(upper: Diameter, lower: Diameter, length: Length) -> Result<Volume> {
    let name = FRUSTUM_VOLUME.name;
    require_not_negative(name, "upper diameter", upper)?;
    require_not_negative(name, "lower diameter", lower)?;
    require_not_negative(name, "length", length)?;
    let (d1, d2) = (upper.si(), lower.si());
    // V = pi L/12 (D1^2 + D1 D2 + D2^2)
    Ok(Volume::m3(std::f64::consts::PI * length.si() / 12.0 * (d1 * d1 + d1 * d2 + d2 * d2)))
}

/// Register entry of [`frustum_volume`].
pub static FRUSTUM_VOLUME: Relation = Relation {
    name: "frustum_volume",
    title: "Volume of a bore whose diameter changes linearly with depth",
    equation: "V = π L/12 (D1² + D1 D2 + D2²)",
    source: "derived_geometry",
    range: "none stated by the source",
    inputs: &[
        Input::new::<Diameter>("upper", "diameter at the upper end"),
        Input::new::<Diameter>("lower", "diameter at the lower end"),
        Input::new::<Length>("length", "length along the bore"),
    ],
    outputs: &[Output::new::<Volume>("volume", "volume of the bore")],
    evaluate: |a| {
        let volume = frustum_volume(a.get("upper")?, a.get("lower")?, a.get("length")?)?;
        Ok(Outputs::new().put("volume", volume))
    },
};
