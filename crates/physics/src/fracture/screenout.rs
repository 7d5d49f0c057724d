//! When proppant stops: narrow width, narrow hole, slurry that has lost its fluid.

use super::nolte_smith::Form;
use crate::error::{Result, require, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Concentration, Density, Diameter, Quantity, Ratio};
use std::f64::consts::FRAC_PI_4;

/// Concentration of a slurry that has lost fluid through the walls and kept its grains.
///
/// Equation: `c = c_0/f`, `φ = c/(c + ρ_p)`.
///
/// Symbols: `c_0` concentration as pumped and `c` afterwards, mass per clean volume kg/m³, `f` share
/// of the clean fluid that is left, `ρ_p` grain density kg/m³, `φ` solid share of the slurry. A
/// parcel of Nolte's ramp has `f = [(t − t_pad)/(t_i − t_pad)]^ε` left at the end.
///
/// Range: `0 < f <= 1`.
///
/// Where it breaks: grains that settle or bank leave the slurry; near `φ` 0.6 it flows no more.
/// Impossible inputs are refused.
///
/// Source: nolte1986 (mass balance).
///
/// ```
/// use physics::fracture::screenout::leaked_concentration;
/// use quantity::{Concentration, Density};
/// let grain = Density::kg_per_m3(2650.0);
/// let (c, solid) = leaked_concentration(Concentration::ppa(3.0), 0.5, grain)?;
/// assert!((c.in_ppa() - 6.0).abs() < 1e-12 && (solid - 0.2134).abs() < 1e-4);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn leaked_concentration(
    pumped: Concentration,
    left: f64,
    grain: Density,
) -> Result<(Concentration, f64)> {
    let name = "leaked_concentration";
    require_not_negative(name, "concentration", pumped)?;
    require_positive(name, "grain_density", grain)?;
    let hint = "It is the clean fluid still in the slurry over that pumped with it.";
    require(left > 0.0 && left <= 1.0, name, "fluid_left", Ratio::of(left), "above 0, at most 1", hint)?;
    // c = c_0/f
    let c = pumped / left;
    // φ = c/(c + ρ_p)
    Ok((c, c.si() / (c.si() + grain.si())))
}

/// Width of a growing fracture at a place, averaged over its height.
///
/// Equation: PKN `w = (5/4) w̄ (1 − ξ)^¼`; KGD `w = (4/π) w̄ (1 − ξ²)^½`; radial
/// `w = (3/2) w̄ (1 − ξ)^½`.
///
/// Symbols: `w̄` mean width m, `ξ` share of the face between the well and the place: of the
/// length for a wing, of the area for a penny.
///
/// Range: `0 <= ξ <= 1`.
///
/// Where it breaks: the constant-rate profile ends more bluntly than a wing that leaks off near
/// its tip; within a height of the tip a long wing is no longer plane. Impossible inputs are
/// refused.
///
/// Source: perkins_kern1961; geertsma_deklerk1969; sneddon1946.
///
/// ```
/// use physics::fracture::{nolte_smith::Form, screenout::width_at};
/// use quantity::Diameter;
/// let w = width_at(Form::Pkn, Diameter::mm(4.0), 0.9375)?;
/// assert!((w.in_mm() - 2.5).abs() < 1e-12);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn width_at(form: Form, mean: Diameter, share: f64) -> Result<Diameter> {
    let name = "fracture_width_at";
    require_not_negative(name, "mean_width", mean)?;
    let hint = "It is 0 at the well and 1 at the tip.";
    require((0.0..=1.0).contains(&share), name, "share", Ratio::of(share), "from 0 to 1", hint)?;
    Ok(mean * profile(form, share))
}

/// Width at a share of the face over mean width.
pub(super) fn profile(form: Form, share: f64) -> f64 {
    match form {
        Form::Pkn => 1.25 * (1.0 - share).sqrt().sqrt(),
        Form::Kgd => (1.0 - share * share).sqrt() / FRAC_PI_4,
        Form::Radial => 1.5 * (1.0 - share).sqrt(),
    }
}

/// Least opening that grains pass: width of a fracture, or diameter of a hole.
///
/// Equation: `w_least = k d`.
///
/// Symbols: `d` grain diameter m, `k` bridging ratio, a pure number.
///
/// Range: `k >= 1`.
///
/// Where it breaks: `k` depends on concentration and shape; for widths 2 to 3 is customary, for
/// holes up to about 6 at high concentration. It is an input, with its source in the job. Impossible
/// inputs are refused.
///
/// Source: gruesbeck_collins1982 (holes).
///
/// ```
/// use physics::fracture::screenout::bridging_opening;
/// use quantity::Diameter;
/// let least = bridging_opening(Diameter::mm(0.6), 2.5)?;
/// assert!((least.in_mm() - 1.5).abs() < 1e-12);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn bridging_opening(grain: Diameter, ratio: f64) -> Result<Diameter> {
    let name = "bridging_opening";
    require_positive(name, "grain", grain)?;
    let hint = "No opening passes grains larger than itself.";
    require(ratio >= 1.0, name, "ratio", Ratio::of(ratio), "1 or more", hint)?;
    Ok(grain * ratio)
}

/// `leaked_concentration` in the register.
pub static LEAKED_CONCENTRATION: Relation = Relation {
    name: "leaked_concentration",
    title: "Concentration of a slurry that has lost fluid through the walls",
    equation: "c = c_0/f, φ = c/(c + ρ_p)",
    source: "nolte1986 (mass balance)",
    range: "0 < f <= 1",
    inputs: &[
        Input::new::<Concentration>("concentration", "as pumped, mass per clean volume"),
        Input::new::<Ratio>("fluid_left", "share of the clean fluid that is left"),
        Input::new::<Density>("grain_density", "grain density"),
    ],
    outputs: &[
        Output::new::<Concentration>("concentration", "afterwards, mass per clean volume"),
        Output::new::<Ratio>("solid_share", "solid share of the slurry"),
    ],
    evaluate: |a| {
        let (c, solid) =
            leaked_concentration(a.get("concentration")?, a.number("fluid_left")?, a.get("grain_density")?)?;
        Ok(Outputs::new().put("concentration", c).put("solid_share", Ratio::of(solid)))
    },
};

/// `fracture_width_at` in the register.
pub static WIDTH_AT: Relation = Relation {
    name: "fracture_width_at",
    title: "Width of a growing fracture at a place, averaged over its height",
    equation: "PKN (5/4) w̄ (1 − ξ)^(1/4); KGD (4/π) w̄ (1 − ξ²)^(1/2); radial (3/2) w̄ (1 − ξ)^(1/2)",
    source: "perkins_kern1961; geertsma_deklerk1969; sneddon1946",
    range: "0 <= ξ <= 1",
    inputs: &[
        Input::choice("model", Form::WORDS, "pkn long, kgd short and high, radial a penny"),
        Input::new::<Diameter>("mean_width", "width averaged over the face"),
        Input::new::<Ratio>("share", "share of the face between the well and the place"),
    ],
    outputs: &[Output::new::<Diameter>("width", "width there")],
    evaluate: |a| {
        let form = Form::of_word(a.word("model")?);
        Ok(Outputs::new().put("width", width_at(form, a.get("mean_width")?, a.number("share")?)?))
    },
};

/// `bridging_opening` in the register.
pub static BRIDGING: Relation = Relation {
    name: "bridging_opening",
    title: "Least width or hole that grains pass",
    equation: "w_least = k d",
    source: "gruesbeck_collins1982",
    range: "k 1 or more; it is an input",
    inputs: &[
        Input::new::<Diameter>("grain", "grain diameter"),
        Input::new::<Ratio>("ratio", "bridging ratio: opening over grain diameter"),
    ],
    outputs: &[Output::new::<Diameter>("least", "least opening that passes them")],
    evaluate: |a| Ok(Outputs::new().put("least", bridging_opening(a.get("grain")?, a.number("ratio")?)?)),
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_profiles_keep_their_mean() {
        for form in [Form::Pkn, Form::Kgd, Form::Radial] {
            let n = 200_000;
            let sum: f64 = (0..n).map(|j| profile(form, (f64::from(j) + 0.5) / f64::from(n))).sum();
            assert!((sum / f64::from(n) - 1.0).abs() < 1e-5, "{form:?}");
            assert_eq!(profile(form, 1.0), 0.0);
        }
    }

    #[test]
    fn nonsense_is_refused() {
        let (c, grain) = (Concentration::ppa(2.0), Density::kg_per_m3(2650.0));
        assert!(leaked_concentration(c, 0.0, grain).is_err());
        assert!(width_at(Form::Kgd, Diameter::mm(3.0), 1.01).is_err());
        assert!(bridging_opening(Diameter::mm(0.6), 0.5).is_err());
        assert!(bridging_opening(Diameter::ZERO, 3.0).is_err());
    }
}
