//! Piston force at a seal bore: pressure on the end of tubing that can slide in a packer.

use super::steel::Steel;
use super::tube::Tube;
use crate::error::require_positive;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, Force, Length, Pressure, Quantity};

const NAME: &str = "piston_force";

/// What closes the lower end of the tubing.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum LowerEnd {
    /// Nothing: the pressure inside acts below the packer too.
    #[default]
    Open,
    /// A plug or a ball on its seat; the pressure below the packer changes by this much.
    Plugged(Pressure),
}

impl LowerEnd {
    /// All words, in the order of the register's choice.
    pub const WORDS: &'static [&'static str] = &["open", "plugged"];
}

/// Changes of pressure at the packer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PackerPressures {
    /// Change inside the tubing dPi.
    pub inside: Pressure,
    /// Change in the annulus dPo.
    pub outside: Pressure,
    /// What closes the lower end.
    pub end: LowerEnd,
}

/// Change of the force on the end of tubing that slides in a seal bore; compression positive.
///
/// Equation: `dFa = Ap dPb - Ai dPi - (Ap - Ao) dPo`; with an open end `dPb = dPi`, which gives
/// `dFa = (Ap - Ai) dPi - (Ap - Ao) dPo`. Free length change `dL = -L dFa / (E As)`
///
/// - `dFa` change of the actual force at the packer, compression positive, N
/// - `Ap` area of the seal bore, `Ai` bore area and `Ao` outer area of the tubing, m2
/// - `dPi, dPo, dPb` pressure change inside, in the annulus, and below the packer, Pa
/// - `L` length, m; `E` Young's modulus, Pa; `As` steel area, m2
///
/// Range: elastic; a free seal, no friction.
///
/// Where it breaks: changes of diameter above the packer add forces of their own; see
/// `string_length_change`. With a ball on its seat the end is plugged: the open formula then
/// has the wrong sign and size. Take pressures at the packer, not at the surface.
///
/// Source: lubinski1962 (piston effect); statics for the plugged end.
///
/// ```
/// use physics::tubular::piston_force::{LowerEnd, PackerPressures, piston_force};
/// use physics::tubular::tube::Tube;
/// use quantity::{Diameter, Pressure};
/// let tube = Tube::bored("example", Diameter::inch(4.5), Diameter::inch(3.826))?;
/// let (inside, outside) = (Pressure::psi(1_500.0), Pressure::psi(-1_040.0));
/// let change = PackerPressures { inside, outside, end: LowerEnd::Open };
/// let force = piston_force(tube, Diameter::inch(5.0), change)?;
/// assert!((force.in_lbf() - 16_087.0).abs() < 1.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn piston_force(tube: Tube, packer_bore: Diameter, change: PackerPressures) -> Result<Force> {
    require_positive(NAME, "packer_bore", packer_bore)?;
    let below = match change.end {
        LowerEnd::Open => change.inside,
        LowerEnd::Plugged(below) => below,
    };
    let bore = packer_bore.circle();
    // dFa = Ap dPb - Ai dPi - (Ap - Ao) dPo
    Ok(below * bore - change.inside * tube.inside_area() - change.outside * (bore - tube.outside_area()))
}

/// Free change of length under a force change, compression positive: `dL = -L dFa / (E As)`.
pub(super) fn free_length(tube: Tube, modulus: Pressure, length: Length, force: Force) -> Length {
    Length::m(-length.si() * force.si() / tube.stiffness(modulus))
}

/// Register entry of [`piston_force`].
pub static PISTON_FORCE: Relation = Relation {
    name: NAME,
    title: "Piston force at a seal bore (compression positive) and the free length change it makes",
    equation: "dFa = Ap dPb - Ai dPi - (Ap - Ao) dPo; dL = -L dFa/(E As)",
    source: "lubinski1962",
    range: "elastic, free seal",
    inputs: &[
        Input::new::<Diameter>("outer", "tubing outer diameter"),
        Input::new::<Diameter>("inner", "tubing inner diameter"),
        Input::new::<Diameter>("packer_bore", "seal bore of the packer"),
        Input::new::<Pressure>("inside_change", "pressure change inside at the packer dPi"),
        Input::new::<Pressure>("outside_change", "pressure change in the annulus at the packer dPo")
            .or("0 psi"),
        Input::choice("end", LowerEnd::WORDS, "lower end of the tubing").or("open"),
        Input::new::<Pressure>("below_change", "pressure change below the packer dPb, plugged end only")
            .or("0 psi"),
        Input::new::<Length>("length", "length of tubing above the packer L"),
        Steel::MODULUS,
    ],
    outputs: &[
        Output::new::<Force>("force", "force change dFa, compression positive"),
        Output::new::<Length>("length_change", "free length change dL, shortening negative"),
    ],
    evaluate: |a| {
        let tube = Tube::bored(NAME, a.get("outer")?, a.get("inner")?)?;
        let end = match a.word("end")? {
            "plugged" => LowerEnd::Plugged(a.get("below_change")?),
            _ => LowerEnd::Open,
        };
        let change =
            PackerPressures { inside: a.get("inside_change")?, outside: a.get("outside_change")?, end };
        let force = piston_force(tube, a.get("packer_bore")?, change)?;
        let modulus: Pressure = a.get("modulus")?;
        require_positive(NAME, "modulus", modulus)?;
        let length_change = free_length(tube, modulus, a.get("length")?, force);
        Ok(Outputs::new().put("force", force).put("length_change", length_change))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pressing_a_ball_onto_its_seat_stretches_the_tubing() {
        let tube = Tube::bored("test", Diameter::inch(4.5), Diameter::inch(4.0)).unwrap();
        let inside = Pressure::psi(3_000.0);
        let end = LowerEnd::Plugged(Pressure::ZERO);
        let change = PackerPressures { inside, outside: Pressure::ZERO, end };
        let force = piston_force(tube, Diameter::inch(4.5), change).unwrap();
        // seal bore equal to the tubing: only the pressure on the ball acts, downward
        assert!((force.in_lbf() + 3_000.0 * tube.inside_area().in_in2()).abs() < 1e-6);
    }
}
