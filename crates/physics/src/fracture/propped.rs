//! Width left on proppant, and width per pressure.

use super::nolte_smith::Form;
use crate::error::{Result, require, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{ArealMass, Density, Diameter, Length, Mass, Pressure, Quantity, Ratio, WidthCompliance};
use std::f64::consts::PI;

/// Propped width of a fracture closed on its proppant, both wings.
///
/// Equation: `c = M/(2 x_f h)`, `w = c/[(1 − φ) ρ_p]`.
///
/// Symbols: `M` mass of proppant in both wings kg, `x_f` propped length of a wing m, `h` propped
/// height m, `φ` share of pores, `ρ_p` grain density kg/m³, `c` mass per area of one face kg/m².
///
/// Range: none stated; `0 <= φ < 1`.
///
/// Where it breaks: settling makes the bottom wider than this, embedment and crushing narrower.
/// Impossible inputs are refused.
///
/// Source: economides1992 E-8.
///
/// ```
/// use physics::fracture::propped::{Pack, propped_width};
/// use quantity::{Density, Length, Mass};
/// let pack = Pack {
///     mass: Mass::lb(2.38e6),
///     length: Length::ft(2500.0),
///     height: Length::ft(200.0),
///     grain: Density::lb_per_ft3(165.0),
///     porosity: 0.33,
/// };
/// let (area_mass, width) = propped_width(&pack)?;
/// assert!((area_mass.in_lb_per_ft2() - 2.38).abs() < 0.005);
/// assert!((width.in_inch() - 0.26).abs() < 0.005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn propped_width(pack: &Pack) -> Result<(ArealMass, Diameter)> {
    let name = "propped_width";
    require_positive(name, "mass", pack.mass)?;
    require_positive(name, "length", pack.length)?;
    require_positive(name, "height", pack.height)?;
    require_positive(name, "grain_density", pack.grain)?;
    let inside = (0.0..1.0).contains(&pack.porosity);
    let hint = "It is the share of pores between the grains.";
    require(inside, name, "porosity", Ratio::of(pack.porosity), "from 0 to below 1", hint)?;
    // c = M/(2 x_f h)
    let per_area = pack.mass.si() / (2.0 * pack.length.si() * pack.height.si());
    // w = c/[(1 − φ) ρ_p]
    let width = per_area / ((1.0 - pack.porosity) * pack.grain.si());
    Ok((ArealMass::kg_per_m2(per_area), Diameter::m(width)))
}

/// Proppant in a closed fracture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pack {
    /// Mass in both wings.
    pub mass: Mass,
    /// Propped length of a wing.
    pub length: Length,
    /// Propped height.
    pub height: Length,
    /// Grain density.
    pub grain: Density,
    /// Share of pores.
    pub porosity: f64,
}

/// Mean width of a fracture per net pressure at the well.
///
/// Equation: PKN `c_f = π β h/(2 E')`, KGD `c_f = π β x_f/E'`, radial `c_f = 16 β R/(3 π E')`.
///
/// Symbols: `c_f` m/Pa, `β` mean net pressure over that at the well, `h` height m, `x_f` length of
/// a wing m, `R` radius m, `E'` plane-strain modulus Pa.
///
/// Range: none stated; `0 < β <= 1`.
///
/// Where it breaks: while pumping `β` is about 4/5 in a long wing of thin fluid, after shut-in
/// near 1. Impossible inputs are refused.
///
/// Source: nolte1986; economides1992 D-9.
///
/// ```
/// use physics::fracture::{nolte_smith::Form, propped::fracture_compliance};
/// use quantity::{Length, Pressure};
/// let c = fracture_compliance(Form::Pkn, Pressure::psi(4.3e6), Length::ft(140.0), 0.74)?;
/// assert!((c.in_ft_per_psi() - 3.8e-5).abs() < 0.05e-5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn fracture_compliance(
    form: Form,
    modulus: Pressure,
    size: Length,
    beta: f64,
) -> Result<WidthCompliance> {
    let name = "fracture_compliance";
    require_positive(name, "modulus", modulus)?;
    require_positive(name, "size", size)?;
    let hint = "It is the mean net pressure over that at the well.";
    require(beta > 0.0 && beta <= 1.0, name, "beta", Ratio::of(beta), "above 0, at most 1", hint)?;
    let per = match form {
        Form::Pkn => PI / 2.0,
        Form::Kgd => PI,
        Form::Radial => 16.0 / (3.0 * PI),
    };
    // c_f = per · β size/E'
    Ok(WidthCompliance::m_per_pa(per * beta * size.si() / modulus.si()))
}

/// `propped_width` in the register.
pub static PROPPED_WIDTH: Relation = Relation {
    name: "propped_width",
    title: "Propped width of a fracture closed on its proppant, both wings",
    equation: "c = M/(2 x_f h), w = c/[(1 − φ) ρ_p]",
    source: "economides1992 E-8",
    range: "none stated by the source; 0 <= φ < 1",
    inputs: &[
        Input::new::<Mass>("mass", "mass of proppant in both wings"),
        Input::new::<Length>("length", "propped length of a wing"),
        Input::new::<Length>("height", "propped height"),
        Input::new::<Density>("grain_density", "grain density"),
        Input::new::<Ratio>("porosity", "share of pores"),
    ],
    outputs: &[
        Output::new::<ArealMass>("per_area", "mass per area of one face"),
        Output::new::<Diameter>("width", "propped width"),
    ],
    evaluate: |a| {
        let (per_area, width) = propped_width(&Pack {
            mass: a.get("mass")?,
            length: a.get("length")?,
            height: a.get("height")?,
            grain: a.get("grain_density")?,
            porosity: a.number("porosity")?,
        })?;
        Ok(Outputs::new().put("per_area", per_area).put("width", width))
    },
};

/// `fracture_compliance` in the register.
pub static FRACTURE_COMPLIANCE: Relation = Relation {
    name: "fracture_compliance",
    title: "Mean width of a fracture per net pressure at the well",
    equation: "PKN c_f = π β h/(2 E'), KGD c_f = π β x_f/E', radial c_f = 16 β R/(3 π E')",
    source: "nolte1986; economides1992 D-9",
    range: "none stated by the source; 0 < β <= 1",
    inputs: &[
        Input::choice("model", Form::WORDS, "pkn long, kgd short and high, radial a penny"),
        Input::new::<Pressure>("modulus", "plane-strain modulus E' = E/(1 - nu²)"),
        Input::new::<Length>("size", "height (pkn), length of a wing (kgd), radius (radial)"),
        Input::new::<Ratio>("beta", "mean net pressure over that at the well").or("1"),
    ],
    outputs: &[Output::new::<WidthCompliance>("compliance", "mean width per net pressure")],
    evaluate: |a| {
        let form = Form::of_word(a.word("model")?);
        let found = fracture_compliance(form, a.get("modulus")?, a.get("size")?, a.number("beta")?)?;
        Ok(Outputs::new().put("compliance", found))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn impossible_packs_are_refused() {
        let pack = Pack {
            mass: Mass::kg(1.0),
            length: Length::m(1.0),
            height: Length::m(1.0),
            grain: Density::kg_per_m3(2650.0),
            porosity: 1.0,
        };
        assert!(propped_width(&pack).is_err());
        assert!(propped_width(&Pack { porosity: 0.3, length: Length::ZERO, ..pack }).is_err());
        assert!(fracture_compliance(Form::Kgd, Pressure::gpa(20.0), Length::m(10.0), 1.2).is_err());
    }
}
