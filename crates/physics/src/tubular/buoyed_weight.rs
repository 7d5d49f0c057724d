//! Buoyed (effective) weight of pipe with fluids inside and outside, and the weight hung below.

use super::tube::Tube;
use crate::error::require_not_negative;
use crate::{Error, Input, Output, Outputs, Relation, Result};
use quantity::constant::GRAVITY;
use quantity::{Density, Diameter, Force, ForcePerLength, Length, MassPerLength, Quantity};

const NAME: &str = "buoyed_weight";
const HUNG: &str = "hung_weight";

/// Buoyed weight of pipe per length, with fluids of different density inside and outside.
///
/// Equation: `w = (m + rho_i Ai - rho_o Ao) g`
///
/// - `w` buoyed (effective) weight per length, N/m
/// - `m` mass per length of the pipe in air, kg/m
/// - `rho_i, rho_o` density inside and outside, kg/m3
/// - `Ai, Ao` area of the bore and of the outer circle, m2
/// - `g` standard gravity
///
/// Range: none stated by the source.
///
/// Where it breaks: couplings displace a little more than the body; take the mass with
/// couplings and accept the difference, or give the true displacement. A negative result is
/// right: pipe full of gas in heavy mud floats.
///
/// Source: lubinski1962 (w of the buckling effect).
///
/// ```
/// use physics::tubular::{buoyed_weight::buoyed_weight, tube::Tube};
/// use quantity::{Density, Diameter, MassPerLength};
/// let tube = Tube::bored("example", Diameter::inch(2.875), Diameter::inch(2.441))?;
/// let (inside, outside) = (Density::lb_per_gal(15.0), Density::lb_per_gal(7.31));
/// let w = buoyed_weight(tube, MassPerLength::lb_per_ft(6.5), inside, outside)?;
/// assert!((w.in_lbf_per_in() - 0.64012).abs() < 5e-5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn buoyed_weight(
    tube: Tube,
    mass: MassPerLength,
    inside: Density,
    outside: Density,
) -> Result<ForcePerLength> {
    require_not_negative(NAME, "mass", mass)?;
    require_not_negative(NAME, "inside_density", inside)?;
    require_not_negative(NAME, "outside_density", outside)?;
    // w = (m + rho_i Ai - rho_o Ao) g
    let fluids = inside.si() * tube.inside_area().si() - outside.si() * tube.outside_area().si();
    Ok(ForcePerLength::n_per_m((mass.si() + fluids) * GRAVITY))
}

/// One stretch of a string: its buoyed weight and its vertical extent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HungSection {
    /// Buoyed weight per length.
    pub weight: ForcePerLength,
    /// Vertical extent: length times the cosine of the inclination.
    pub vertical: Length,
}

/// Effective weight hung below a point, with no friction.
///
/// Equation: `F = sum w_k h_k`
///
/// - `F` effective weight below the point, N
/// - `w_k` buoyed weight per length of stretch k, N/m
/// - `h_k` vertical extent of stretch k, m
///
/// Range: none stated by the source.
///
/// Where it breaks: it leaves out wall friction, so it is the most the hook or the packer can
/// carry of a free string at rest; a lateral adds nothing. It is an effective force: add
/// `Pi Ai - Po Ao` at the point for the true tension.
///
/// Source: statics; lubinski1962.
///
/// ```
/// use physics::tubular::buoyed_weight::{HungSection, hung_weight};
/// use quantity::{ForcePerLength, Length};
/// let liner = HungSection { weight: ForcePerLength::lbf_per_ft(10.0), vertical: Length::ft(500.0) };
/// assert!((hung_weight(&[liner])?.in_lbf() - 5_000.0).abs() < 1e-6);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn hung_weight(sections: &[HungSection]) -> Result<Force> {
    // F = sum w_k h_k
    let sum: f64 = sections.iter().map(|s| s.weight.si() * s.vertical.si()).sum();
    if sum.is_finite() {
        Ok(Force::n(sum))
    } else {
        Err(Error::NotFinite { relation: HUNG, output: "force" })
    }
}

/// Register entry of [`buoyed_weight`].
pub static BUOYED_WEIGHT: Relation = Relation {
    name: NAME,
    title: "Buoyed (effective) weight of pipe per length",
    equation: "w = (m + rho_i Ai - rho_o Ao) g",
    source: "lubinski1962",
    range: "none stated by the source",
    inputs: &[
        Input::new::<MassPerLength>("mass", "mass per length in air m"),
        Input::new::<Diameter>("outer", "outer diameter"),
        Input::new::<Diameter>("inner", "inner diameter"),
        Input::new::<Density>("inside_density", "density inside rho_i"),
        Input::new::<Density>("outside_density", "density outside rho_o"),
    ],
    outputs: &[Output::new::<ForcePerLength>("weight", "buoyed weight per length w")],
    evaluate: |a| {
        let tube = Tube::bored(NAME, a.get("outer")?, a.get("inner")?)?;
        let weight =
            buoyed_weight(tube, a.get("mass")?, a.get("inside_density")?, a.get("outside_density")?)?;
        Ok(Outputs::new().put("weight", weight))
    },
};

/// Register entry of [`hung_weight`].
pub static HUNG_WEIGHT: Relation = Relation {
    name: HUNG,
    title: "Effective weight hung below a point, no friction",
    equation: "F = sum w_k h_k",
    source: "lubinski1962; statics",
    range: "none stated by the source",
    inputs: &[
        Input::list::<ForcePerLength>("weights", "buoyed weight per length of each stretch"),
        Input::list::<Length>("verticals", "vertical extent of each stretch"),
    ],
    outputs: &[Output::new::<Force>("force", "effective weight below the point F")],
    evaluate: |a| {
        let (weights, verticals) = (a.list("weights")?, a.list("verticals")?);
        if weights.len() != verticals.len() {
            return Err(Error::NoSolution {
                relation: HUNG,
                what: format!("{} weights stand against {} extents", weights.len(), verticals.len()),
                hint: "Give one vertical extent for each weight.",
            });
        }
        let pairs = weights.into_iter().zip(verticals);
        let sections: Vec<_> = pairs.map(|(weight, vertical)| HungSection { weight, vertical }).collect();
        Ok(Outputs::new().put("force", hung_weight(&sections)?))
    },
};
