//! Capacity and volume of a bore and of an annulus.

use crate::error::{Result, require, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Capacity, Diameter, Length, Quantity, Volume};

/// Capacity of a round bore: volume per length.
///
/// Equation: `C = π D²/4`, in field units `C = D²/1029.4 bbl/ft` with D in inches.
///
/// Symbols: D diameter of the bore (m), C capacity (m³/m).
///
/// Range: none stated by the source; diameter above zero.
///
/// Where it breaks: the nominal inside diameter is not the drift, and neither is the bore as
/// made; internal upsets and tool bores count with their own lengths.
///
/// Source: derived_geometry.
///
/// ```
/// use physics::geometry::bore_capacity;
/// use quantity::Diameter;
/// let capacity = bore_capacity(Diameter::inch(4.0))?;
/// assert!((capacity.in_bbl_per_ft() - 0.01554).abs() < 5e-6);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn bore_capacity(bore: Diameter) -> Result<Capacity> {
    require_positive(BORE_CAPACITY.name, "bore", bore)?;
    // C = pi D^2 / 4
    Ok(bore.circle().capacity())
}

/// Capacity of the annulus between a round bore and a round body in it.
///
/// Equation: `C = π (Do² − Di²)/4`, in field units `C = (Do² − Di²)/1029.4 bbl/ft`.
///
/// Symbols: Do diameter of the bore (m), Di outside diameter of the body (m), C capacity
/// (m³/m). With Do the outside and Di the inside diameter of a pipe it is the volume of its wall.
///
/// Range: none stated by the source; 0 ≤ Di ≤ Do. It does not matter whether the body is central.
///
/// Where it breaks: couplings and tools larger than the pipe body count with their own lengths.
///
/// Source: derived_geometry.
///
/// ```
/// use physics::geometry::annular_capacity;
/// use quantity::Diameter;
/// let capacity = annular_capacity(Diameter::inch(6.125), Diameter::inch(4.5))?;
/// assert!((capacity.in_bbl_per_ft() - 0.016772).abs() < 1e-6);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn annular_capacity(bore: Diameter, body: Diameter) -> Result<Capacity> {
    let name = ANNULAR_CAPACITY.name;
    require_positive(name, "bore", bore)?;
    require_not_negative(name, "body", body)?;
    let hint = "The body does not go into that bore; check both diameters.";
    require(body.si() <= bore.si(), name, "body", body, "no larger than the bore", hint)?;
    // C = pi (Do^2 - Di^2) / 4
    Ok(bore.ring(body).capacity())
}

/// Register entry of [`bore_capacity`].
pub static BORE_CAPACITY: Relation = Relation {
    name: "bore_capacity",
    title: "Capacity of a round bore",
    equation: "C = π D²/4 = D²/1029.4 bbl/ft (D in in)",
    source: "derived_geometry",
    range: "none stated by the source; diameter above zero",
    inputs: &[Input::new::<Diameter>("bore", "inside diameter")],
    outputs: &[Output::new::<Capacity>("capacity", "volume per length")],
    evaluate: |a| Ok(Outputs::new().put("capacity", bore_capacity(a.get("bore")?)?)),
};

/// Register entry of [`annular_capacity`].
pub static ANNULAR_CAPACITY: Relation = Relation {
    name: "annular_capacity",
    title: "Capacity of the annulus between a bore and a body in it",
    equation: "C = π (Do² − Di²)/4 = (Do² − Di²)/1029.4 bbl/ft (D in in)",
    source: "derived_geometry",
    range: "none stated by the source; body no larger than the bore",
    inputs: &[
        Input::new::<Diameter>("bore", "diameter of the bore"),
        Input::new::<Diameter>("body", "outside diameter of the body"),
    ],
    outputs: &[Output::new::<Capacity>("capacity", "volume per length")],
    evaluate: |a| Ok(Outputs::new().put("capacity", annular_capacity(a.get("bore")?, a.get("body")?)?)),
};

/// Register entry of [`bore_capacity`] times a length.
pub static BORE_VOLUME: Relation = Relation {
    name: "bore_volume",
    title: "Volume of a round bore over a length",
    equation: "V = π D²/4 · L",
    source: "derived_geometry",
    range: "none stated by the source; diameter above zero",
    inputs: &[
        Input::new::<Diameter>("bore", "inside diameter"),
        Input::new::<Length>("length", "length along the bore"),
    ],
    outputs: &[
        Output::new::<Volume>("volume", "volume over the length"),
        Output::new::<Capacity>("capacity", "volume per length"),
    ],
    evaluate: |a| {
        let capacity = bore_capacity(a.get("bore")?)?;
        over_length(BORE_VOLUME.name, capacity, a.get("length")?)
    },
};

/// Register entry of [`annular_capacity`] times a length.
pub static ANNULAR_VOLUME: Relation = Relation {
    name: "annular_volume",
    title: "Volume of an annulus over a length",
    equation: "V = π (Do² − Di²)/4 · L",
    source: "derived_geometry",
    range: "none stated by the source; body no larger than the bore",
    inputs: &[
        Input::new::<Diameter>("bore", "diameter of the bore"),
        Input::new::<Diameter>("body", "outside diameter of the body"),
        Input::new::<Length>("length", "length along the annulus"),
    ],
    outputs: &[
        Output::new::<Volume>("volume", "volume over the length"),
        Output::new::<Capacity>("capacity", "volume per length"),
    ],
    evaluate: |a| {
        let capacity = annular_capacity(a.get("bore")?, a.get("body")?)?;
        over_length(ANNULAR_VOLUME.name, capacity, a.get("length")?)
    },
};

fn over_length(relation: &'static str, capacity: Capacity, length: Length) -> Result<Outputs> {
    require_not_negative(relation, "length", length)?;
    // V = C L
    Ok(Outputs::new().put("volume", capacity * length).put("capacity", capacity))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_body_fills_the_bore_or_is_refused() {
        let d = Diameter::inch(6.0);
        assert_eq!(annular_capacity(d, d).unwrap().si(), 0.0);
        assert_eq!(annular_capacity(d, Diameter::ZERO).unwrap(), bore_capacity(d).unwrap());
        assert!(annular_capacity(d, Diameter::inch(6.01)).is_err());
        assert!(bore_capacity(Diameter::ZERO).is_err());
    }
}
