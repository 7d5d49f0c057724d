//! A body too long to pass a dogleg straight: how far it must bend and the force on the wall.

use super::stiff_passage::{stiff_passage, stiff_passage_clearance};
use crate::error::{Result, require, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Curvature, Diameter, Force, Length, Pressure, Quantity};

/// A round stiff body, such as a packer mandrel or a sleeve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StiffBody {
    /// Outside diameter that touches the hole.
    pub outer: Diameter,
    /// Outside diameter of the part that bends; no larger than `outer`.
    pub mandrel: Diameter,
    /// Inside diameter.
    pub bore: Diameter,
    /// Length.
    pub length: Length,
    /// Young's modulus.
    pub modulus: Pressure,
}

/// What it takes to bend a body through a dogleg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ForcedBend {
    /// How far the middle must bend; zero where the body passes straight.
    pub sag: Length,
    /// Force of the wall on the middle.
    pub centre_force: Force,
    /// Force of the wall on each end.
    pub end_force: Force,
    /// All wall forces added, which friction acts on.
    pub total_force: Force,
}

/// Sag and wall forces of a body longer than passes a dogleg straight, as a beam on three points.
///
/// Equation: `δ = R + H/2 − √((R + H/2)² − L²/4) − c ≈ L²/(8R) − c`, `F = 48 E I δ/L³`,
/// `I = π (Dm⁴ − Di⁴)/64`, wall forces F in the middle and F/2 at each end, 2F in all.
///
/// Symbols: δ sag the body must take (m), L length, H hole diameter, c = H − d clearance, R
/// radius of the hole axis (m), E Young's modulus (Pa), I second moment of area (m⁴), Dm and Di
/// outside and inside diameter of the part that bends (m), F force (N).
///
/// Range: none stated by the source; elastic bending, sag small against the length.
///
/// Where it breaks: a body much longer than fits lies along the wall instead of on three
/// points, and the forces are then overstated. A body with joints or thin necks bends there
/// first. Below the greatest straight length all three outputs are zero.
///
/// Source: derived_geometry; timoshenko1955_beams (beam with a central load).
///
/// ```
/// use physics::geometry::{StiffBody, forced_bend};
/// use quantity::{Curvature, Diameter, Length, Pressure};
/// let body = StiffBody {
///     outer: Diameter::inch(5.75),
///     mandrel: Diameter::inch(4.5),
///     bore: Diameter::inch(4.0),
///     length: Length::ft(10.0),
///     modulus: Pressure::psi(30e6),
/// };
/// let bend = forced_bend(Diameter::inch(6.125), body, Curvature::deg_per_100ft(10.0))?;
/// assert_eq!(bend.total_force.in_lbf(), 0.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn forced_bend(hole: Diameter, body: StiffBody, severity: Curvature) -> Result<ForcedBend> {
    let name = FORCED_BEND.name;
    require_positive(name, "modulus", body.modulus)?;
    require_not_negative(name, "bore", body.bore)?;
    let hint = "Check outside, mandrel and inside diameter.";
    require(body.bore.si() < body.mandrel.si(), name, "bore", body.bore, "less than the mandrel", hint)?;
    require(
        body.mandrel.si() <= body.outer.si(),
        name,
        "mandrel",
        body.mandrel,
        "no larger than the body",
        hint,
    )?;
    let gap = stiff_passage(hole, body.outer, severity)?.clearance;
    let needed = stiff_passage_clearance(hole, body.length, severity)?;
    // delta = R + H/2 - sqrt((R + H/2)^2 - L^2/4) - c
    let sag = (needed.si() - gap.si()).max(0.0);
    let length = body.length.si();
    // F = 48 E I delta / L^3
    let force = 48.0 * body.modulus.si() * second_moment(body.mandrel, body.bore) * sag / length.powi(3);
    Ok(ForcedBend {
        sag: Length::m(sag),
        centre_force: Force::n(force),
        end_force: Force::n(0.5 * force),
        total_force: Force::n(2.0 * force),
    })
}

/// Second moment of area of a round tube, m⁴.
pub(super) fn second_moment(outer: Diameter, inner: Diameter) -> f64 {
    // I = pi (Do^4 - Di^4) / 64
    std::f64::consts::PI / 64.0 * (outer.si().powi(4) - inner.si().powi(4))
}

/// Register entry of [`forced_bend`].
pub static FORCED_BEND: Relation = Relation {
    name: "forced_bend",
    title: "Sag and wall force of a body forced through a dogleg",
    equation: "δ = R + H/2 − √((R + H/2)² − L²/4) − c ≈ L²/(8R) − c; F = 48 E I δ/L³; wall forces F, F/2, F/2",
    source: "derived_geometry; timoshenko1955_beams",
    range: "elastic bending, sag small against the length; overstates the force of a body much longer than fits",
    inputs: &[
        Input::new::<Diameter>("hole", "hole diameter"),
        Input::new::<Diameter>("body", "outside diameter that touches the hole"),
        Input::new::<Diameter>("mandrel", "outside diameter of the part that bends"),
        Input::new::<Diameter>("bore", "inside diameter"),
        Input::new::<Length>("length", "length of the body"),
        Input::new::<Pressure>("modulus", "Young's modulus"),
        Input::new::<Curvature>("dogleg_severity", "curvature of the hole"),
    ],
    outputs: &[
        Output::new::<Length>("sag", "how far the middle must bend"),
        Output::new::<Force>("centre_force", "wall force on the middle"),
        Output::new::<Force>("end_force", "wall force on each end"),
        Output::new::<Force>("total_force", "all wall forces added"),
    ],
    evaluate: |a| {
        let body = StiffBody {
            outer: a.get("body")?,
            mandrel: a.get("mandrel")?,
            bore: a.get("bore")?,
            length: a.get("length")?,
            modulus: a.get("modulus")?,
        };
        let bend = forced_bend(a.get("hole")?, body, a.get("dogleg_severity")?)?;
        Ok(Outputs::new()
            .put("sag", bend.sag)
            .put("centre_force", bend.centre_force)
            .put("end_force", bend.end_force)
            .put("total_force", bend.total_force))
    },
};
