//! A stiff body through a dogleg: how long it may be, how sharp the hole, how wide the gap.

use super::radius_of_curvature::radius_of_curvature;
use crate::error::{Result, require, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Curvature, Diameter, Length, Quantity};

/// What a stiff body meets in a dogleg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StiffPassage {
    /// Greatest length that passes without bending.
    pub length: Length,
    /// The same by the approximation for a radius much larger than the hole.
    pub approximate_length: Length,
    /// Diameter of the hole less that of the body.
    pub clearance: Diameter,
    /// Radius of the hole axis.
    pub radius: Length,
}

/// Longest straight rigid cylinder that passes through a dogleg without bending.
///
/// Equation: `L = 2 √(2c (R + H/2) − c²) ≈ √(8 R c)`, `c = H − d`, `R = 1/κ`.
///
/// Symbols: L length of the body (m), H hole diameter, d body diameter, c clearance, R radius
/// of the hole axis (m), κ dogleg severity (rad/m). The two end corners touch the outside of the
/// bend and the middle touches the inside.
///
/// Range: none stated by the source; a round, smooth hole bent in one plane, R > H/2, d < H.
///
/// Where it breaks: spirals, ledges, cuttings and an oval hole leave less. Use the smallest
/// caliper reading or the drift for H, and a safety factor.
///
/// Source: derived_geometry.
///
/// ```
/// use physics::geometry::stiff_passage;
/// use quantity::{Curvature, Diameter};
/// let hole = Diameter::inch(6.125);
/// let passage = stiff_passage(hole, Diameter::inch(5.75), Curvature::deg_per_100ft(10.0))?;
/// assert!((passage.length.in_inch() - 143.65).abs() < 0.005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn stiff_passage(hole: Diameter, body: Diameter, severity: Curvature) -> Result<StiffPassage> {
    let name = STIFF_PASSAGE.name;
    let radius = radius_of_curvature(severity)?;
    let clearance = gap(name, hole, body)?;
    let outside = outer_radius(name, hole, radius)?;
    let c = clearance.si();
    // L = 2 sqrt(2c (R + H/2) - c^2)
    let length = Length::m(2.0 * (2.0 * c * outside - c * c).sqrt());
    // L ~ sqrt(8 R c)
    let approximate_length = Length::m((8.0 * radius.si() * c).sqrt());
    Ok(StiffPassage { length, approximate_length, clearance, radius })
}

/// Sharpest dogleg that a straight rigid cylinder of a given length passes: the inverse of
/// [`stiff_passage`].
///
/// Equation: `κ = 1/R`, `R = (L²/4 + c²)/(2c) − H/2`, `c = H − d`.
///
/// Symbols: as in [`stiff_passage`].
///
/// Range: none stated by the source; a round, smooth hole bent in one plane, d < H.
///
/// Where it breaks: a body shorter than the hole is wide turns freely; where R comes out below
/// H/2 the relation is refused, since any bend will pass it.
///
/// Source: derived_geometry.
///
/// ```
/// use physics::geometry::stiff_passage_severity;
/// use quantity::{Diameter, Length};
/// let severity = stiff_passage_severity(Diameter::inch(6.125), Diameter::inch(5.75), Length::inch(143.649))?;
/// assert!((severity.in_deg_per_100ft() - 10.0).abs() < 0.001);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn stiff_passage_severity(hole: Diameter, body: Diameter, length: Length) -> Result<Curvature> {
    let name = STIFF_PASSAGE_SEVERITY.name;
    let c = gap(name, hole, body)?.si();
    require_positive(name, "length", length)?;
    // R = (L^2/4 + c^2) / (2c) - H/2
    let radius = Length::m((0.25 * length.si() * length.si() + c * c) / (2.0 * c) - 0.5 * hole.si());
    outer_radius(name, hole, radius)?;
    // kappa = 1/R
    Ok(Curvature::rad_per_m(1.0 / radius.si()))
}

/// Clearance a straight rigid cylinder needs to pass through a dogleg: the inverse of
/// [`stiff_passage`].
///
/// Equation: `c = R + H/2 − √((R + H/2)² − L²/4) ≈ L²/(8R)`.
///
/// Symbols: as in [`stiff_passage`].
///
/// Range: none stated by the source; a round, smooth hole bent in one plane, L < 2R + H.
///
/// Where it breaks: the clearance may come out larger than the hole: then no straight body of
/// that length passes.
///
/// Source: derived_geometry.
///
/// ```
/// use physics::geometry::stiff_passage_clearance;
/// use quantity::{Curvature, Diameter, Length};
/// let hole = Diameter::inch(6.125);
/// let clearance = stiff_passage_clearance(hole, Length::inch(143.649), Curvature::deg_per_100ft(10.0))?;
/// assert!((clearance.in_inch() - 0.375).abs() < 1e-4);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn stiff_passage_clearance(hole: Diameter, length: Length, severity: Curvature) -> Result<Diameter> {
    let name = STIFF_PASSAGE_CLEARANCE.name;
    require_positive(name, "length", length)?;
    let outside = outer_radius(name, hole, radius_of_curvature(severity)?)?;
    let quarter = 0.25 * length.si() * length.si();
    let hint = "The body is longer than the bend is wide; check the length and the dogleg severity.";
    require(quarter < outside * outside, name, "length", length, "less than 2R + H", hint)?;
    // c = R + H/2 - sqrt((R + H/2)^2 - L^2/4), written so that it keeps its digits
    Ok(Diameter::m(quarter / (outside + (outside * outside - quarter).sqrt())))
}

/// The clearance, if the body goes into the hole at all.
fn gap(relation: &'static str, hole: Diameter, body: Diameter) -> Result<Diameter> {
    require_positive(relation, "body", body)?;
    let hint = "The body does not go into the hole; check both diameters.";
    require(body.si() < hole.si(), relation, "body", body, "smaller than the hole", hint)?;
    Ok(hole - body)
}

/// Radius to the outside of the bend, m.
fn outer_radius(relation: &'static str, hole: Diameter, radius: Length) -> Result<f64> {
    require_positive(relation, "hole", hole)?;
    let hint = "That is no bend of a drilled hole; check the dogleg severity and its unit.";
    let wide = radius.si() > 0.5 * hole.si();
    require(wide, relation, "radius", radius, "larger than half the hole diameter", hint)?;
    Ok(radius.si() + 0.5 * hole.si())
}

/// Register entry of [`stiff_passage`].
pub static STIFF_PASSAGE: Relation = Relation {
    name: "stiff_passage",
    title: "Longest rigid cylinder through a dogleg",
    equation: "L = 2 √(2c (R + H/2) − c²) ≈ √(8Rc); c = H − d; R = 1/κ",
    source: "derived_geometry",
    range: "round smooth hole bent in one plane; R > H/2",
    inputs: &[
        Input::new::<Diameter>("hole", "hole diameter: the smallest caliper reading or the drift"),
        Input::new::<Diameter>("body", "outside diameter of the stiff body"),
        Input::new::<Curvature>("dogleg_severity", "curvature of the hole"),
    ],
    outputs: &[
        Output::new::<Length>("length", "greatest length that passes"),
        Output::new::<Length>("approximate_length", "the same by √(8Rc)"),
        Output::new::<Diameter>("clearance", "hole less body"),
        Output::new::<Length>("radius", "radius of the hole axis"),
    ],
    evaluate: |a| {
        let p = stiff_passage(a.get("hole")?, a.get("body")?, a.get("dogleg_severity")?)?;
        Ok(Outputs::new()
            .put("length", p.length)
            .put("approximate_length", p.approximate_length)
            .put("clearance", p.clearance)
            .put("radius", p.radius))
    },
};

/// Register entry of [`stiff_passage_severity`].
pub static STIFF_PASSAGE_SEVERITY: Relation = Relation {
    name: "stiff_passage_severity",
    title: "Sharpest dogleg that a rigid cylinder passes",
    equation: "κ = 1/R; R = (L²/4 + c²)/(2c) − H/2; c = H − d",
    source: "derived_geometry",
    range: "round smooth hole bent in one plane; R > H/2",
    inputs: &[
        Input::new::<Diameter>("hole", "hole diameter"),
        Input::new::<Diameter>("body", "outside diameter of the stiff body"),
        Input::new::<Length>("length", "length of the stiff body"),
    ],
    outputs: &[Output::new::<Curvature>("dogleg_severity", "sharpest dogleg that passes")],
    evaluate: |a| {
        let severity = stiff_passage_severity(a.get("hole")?, a.get("body")?, a.get("length")?)?;
        Ok(Outputs::new().put("dogleg_severity", severity))
    },
};

/// Register entry of [`stiff_passage_clearance`].
pub static STIFF_PASSAGE_CLEARANCE: Relation = Relation {
    name: "stiff_passage_clearance",
    title: "Clearance a rigid cylinder needs in a dogleg",
    equation: "c = R + H/2 − √((R + H/2)² − L²/4) ≈ L²/(8R)",
    source: "derived_geometry",
    range: "round smooth hole bent in one plane; L < 2R + H",
    inputs: &[
        Input::new::<Diameter>("hole", "hole diameter"),
        Input::new::<Length>("length", "length of the stiff body"),
        Input::new::<Curvature>("dogleg_severity", "curvature of the hole"),
    ],
    outputs: &[Output::new::<Diameter>("clearance", "hole less body that is needed")],
    evaluate: |a| {
        let clearance = stiff_passage_clearance(a.get("hole")?, a.get("length")?, a.get("dogleg_severity")?)?;
        Ok(Outputs::new().put("clearance", clearance))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_straight_hole_and_a_body_too_large_are_refused() {
        let (hole, body) = (Diameter::inch(6.125), Diameter::inch(5.75));
        assert!(stiff_passage(hole, body, Curvature::ZERO).is_err());
        assert!(stiff_passage(body, hole, Curvature::deg_per_100ft(10.0)).is_err());
        assert!(stiff_passage_severity(hole, body, Length::inch(1.0)).is_err());
    }

    proptest! {
        #[test]
        fn the_three_are_inverses(dls in 0.5..60.0f64, hole in 4.0..14.0f64, gap in 0.01..1.5f64) {
            let (h, d) = (Diameter::inch(hole), Diameter::inch(hole - gap));
            let severity = Curvature::deg_per_100ft(dls);
            let p = stiff_passage(h, d, severity).unwrap();
            let back = stiff_passage_severity(h, d, p.length).unwrap();
            prop_assert!((back.si() / severity.si() - 1.0).abs() < 1e-9);
            let needed = stiff_passage_clearance(h, p.length, severity).unwrap();
            prop_assert!((needed.si() / p.clearance.si() - 1.0).abs() < 1e-9);
            prop_assert!((p.approximate_length.si() / p.length.si() - 1.0).abs() < 0.01);
        }
    }
}
