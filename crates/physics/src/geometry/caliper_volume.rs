//! Hole and annulus volume from a caliper: the frusta between its readings, summed.

use super::frustum::frustum_volume;
use crate::error::{Error, Result, require, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Diameter, MeasuredDepth, Quantity, Volume};

/// Volume of a hole from caliper readings, and of the annulus around a body in it.
///
/// Equation: `V = Σ π ΔM/12 (D1² + D1 D2 + D2²)`, `Va = V − π Db²/4 · ΣΔM`.
///
/// Symbols: D diameters of the hole at two readings (m), ΔM depth between them (m), Db outside
/// diameter of the body in the hole (m), V hole volume, Va annulus volume (m³).
///
/// Range: none stated by the source; depths rising, two readings or more.
///
/// Where it breaks: a reading smaller than the body is refused. One caliper arm pair in an oval
/// hole reads one axis: the volume is then only as good as that axis.
///
/// Source: derived_geometry.
///
/// ```
/// use physics::geometry::caliper_volume;
/// use quantity::{Diameter, MeasuredDepth};
/// let md = [MeasuredDepth::ft(10_000.0), MeasuredDepth::ft(10_100.0)];
/// let hole = [Diameter::inch(6.125), Diameter::inch(6.125)];
/// let (hole, annulus) = caliper_volume(&md, &hole, Diameter::inch(4.5))?;
/// assert!((hole.in_bbl() - 3.6444).abs() < 1e-4);
/// assert!((annulus.in_bbl() - 1.6772).abs() < 1e-4);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn caliper_volume(md: &[MeasuredDepth], hole: &[Diameter], body: Diameter) -> Result<(Volume, Volume)> {
    let name = CALIPER_VOLUME.name;
    if md.len() != hole.len() || md.len() < 2 {
        return Err(Error::NoSolution {
            relation: name,
            what: format!("there are {} depths and {} diameters", md.len(), hole.len()),
            hint: "Give two readings or more, each with depth and diameter.",
        });
    }
    let (mut bore, mut annulus) = (Volume::ZERO, Volume::ZERO);
    for (depth, diameter) in md.windows(2).zip(hole.windows(2)) {
        let ([top, bottom], [d1, d2]) = (depth, diameter) else { continue };
        let length = *bottom - *top;
        require_positive(name, "depth step", length)?;
        let hint = "The body does not go into the hole there; check the caliper reading.";
        require(body.si() <= d1.si().min(d2.si()), name, "body", body, "no larger than the hole", hint)?;
        let part = frustum_volume(*d1, *d2, length)?;
        bore += part;
        annulus = annulus + part - body.circle().capacity() * length;
    }
    Ok((bore, annulus))
}

/// Register entry of [`caliper_volume`].
pub static CALIPER_VOLUME: Relation = Relation {
    name: "caliper_volume",
    title: "Hole and annulus volume from caliper readings",
    equation: "V = Σ π ΔM/12 (D1² + D1 D2 + D2²); Va = V − π Db²/4 · ΣΔM",
    source: "derived_geometry",
    range: "none stated by the source; depths rising",
    inputs: &[
        Input::list::<MeasuredDepth>("md", "depths of the readings"),
        Input::list::<Diameter>("hole", "hole diameters read"),
        Input::new::<Diameter>("body", "outside diameter of the body in the hole").or("0 in"),
    ],
    outputs: &[
        Output::new::<Volume>("hole_volume", "volume of the open hole"),
        Output::new::<Volume>("annulus_volume", "volume around the body"),
    ],
    evaluate: |a| {
        let (hole, annulus) = caliper_volume(&a.list("md")?, &a.list("hole")?, a.get("body")?)?;
        Ok(Outputs::new().put("hole_volume", hole).put("annulus_volume", annulus))
    },
};
