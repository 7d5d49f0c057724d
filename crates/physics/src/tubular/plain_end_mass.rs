//! Mass per length of pipe without ends or couplings.

use super::tube::Tube;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, MassPerLength};

const NAME: &str = "plain_end_mass";

/// Mass factor of the standard, kg/m per mm2; it stands for steel of 7850 kg/m3 (10.69 in
/// pounds per foot and inches).
const MASS_FACTOR: f64 = 0.024_661_5;

/// Mass per length of pipe without ends or couplings.
///
/// Equation: `wpe = 0.0246615 (D - t) t`
///
/// - `wpe` plain-end mass, kg/m
/// - `D` outer diameter, mm
/// - `t` wall, mm
///
/// Range: carbon steel; the factor stands for 7850 kg/m3. High-chromium steels are about 1 %
/// lighter.
///
/// Where it breaks: it leaves out threads, upsets and couplings, so it is below the nominal
/// weight of the pipe, by 1 to 3 % as a rule. `2 t >= D` is refused.
///
/// Source: api_5ct_2018, plain-end mass (factor 10.69 in lb/ft and in.).
///
/// ```
/// use physics::tubular::plain_end_mass::plain_end_mass;
/// use quantity::Diameter;
/// let mass = plain_end_mass(Diameter::inch(5.5), Diameter::inch(0.304))?;
/// assert!((mass.in_lb_per_ft() - 16.89).abs() < 0.005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn plain_end_mass(outer: Diameter, wall: Diameter) -> Result<MassPerLength> {
    let tube = Tube::new(NAME, outer, wall)?;
    let (d, t) = (tube.outer().in_mm(), tube.wall().in_mm());
    // wpe = 0.0246615 (D - t) t
    Ok(MassPerLength::kg_per_m(MASS_FACTOR * (d - t) * t))
}

/// Register entry of [`plain_end_mass`].
pub static PLAIN_END_MASS: Relation = Relation {
    name: NAME,
    title: "Plain-end mass per length of steel pipe",
    equation: "wpe = 0.0246615 (D - t) t, kg/m and mm",
    source: "api_5ct_2018, plain-end mass",
    range: "carbon steel of 7850 kg/m3",
    inputs: &[
        Input::new::<Diameter>("outer", "outer diameter D"),
        Input::new::<Diameter>("wall", "nominal wall t"),
    ],
    outputs: &[Output::new::<MassPerLength>("mass", "plain-end mass wpe")],
    evaluate: |a| {
        let mass = plain_end_mass(a.get("outer")?, a.get("wall")?)?;
        Ok(Outputs::new().put("mass", mass))
    },
};
