//! Drag reduction by polymers: the law without it, the most there can be, and what lies between.

use super::friction_factor::churchill;
use super::log_law::solve_log_law;
use crate::error::{Result, require, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::Ratio;

/// The pipe whose friction the drag reduction is a share of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DragBase {
    /// The pipe with its own roughness.
    RoughPipe,
    /// A smooth pipe of the same bore.
    SmoothPipe,
}

/// What held the drag reduction.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DragLimit {
    /// Nothing: it is as given.
    AsGiven,
    /// The asymptote of maximum drag reduction.
    Asymptote,
    /// The flow: there is no turbulence to reduce.
    NotTurbulent,
}

/// Friction with a drag reducer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReducedFriction {
    /// Darcy friction factor.
    pub darcy: f64,
    /// Darcy friction factor of the base pipe without the reducer.
    pub base: f64,
    /// Drag reduction after the limit, `1 - f/f_base`.
    pub drag_reduction: f64,
    /// What held it.
    pub limit: DragLimit,
}

/// Turbulent friction factor (Fanning) of a smooth pipe without polymer.
///
/// `1/sqrt(f) = 4.0 log10(Re sqrt(f)) - 0.4`
///
/// `f` Fanning friction factor, `Re = rho U D/mu`.
///
/// Range: `Re` above 4000.
///
/// Rough strings have 1.2 to 1.6 times as much at pumping rates.
///
/// Source: virk1975 p. 625 (law of Prandtl and Kármán).
///
/// ```
/// use physics::hydraulics::drag_reduction::prandtl_karman;
/// assert!((prandtl_karman(1e5)? - 0.004_500_4).abs() < 5e-8);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn prandtl_karman(reynolds: f64) -> Result<f64> {
    require_positive("prandtl_karman", "reynolds", Ratio::of(reynolds))?;
    // y + 4 log10 y = 4 log10 Re - 0.4, y = 1/sqrt(f)
    let start = (reynolds.powf(0.25) / 0.0791).sqrt();
    Ok(solve_log_law(4.0, 4.0 * reynolds.log10() - 0.4, start).powi(-2))
}

/// Friction factor (Fanning) at maximum drag reduction.
///
/// `1/sqrt(f) = 19.0 log10(Re sqrt(f)) - 32.4`
///
/// `f` Fanning friction factor, `Re = rho U D/mu` with the solvent's viscosity.
///
/// Range: `Re` 4000 to 40 000 measured; used above as the usual floor, flagged.
///
/// No polymer brings turbulent friction below it, in smooth or rough pipe. Below `Re` 3000 it
/// meets the laminar law and means nothing.
///
/// Source: virk1975 p. 625. A web copy prints `19 Re sqrt(f) - 3.24`: the logarithm and a
/// decimal are lost there.
///
/// ```
/// use physics::hydraulics::drag_reduction::virk_mdr;
/// assert!((virk_mdr(1e5)? - 0.000_885_79).abs() < 5e-9);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn virk_mdr(reynolds: f64) -> Result<f64> {
    require_positive("virk_mdr", "reynolds", Ratio::of(reynolds))?;
    Ok(asymptote(reynolds))
}

fn asymptote(re: f64) -> f64 {
    // y + 19 log10 y = 19 log10 Re - 32.4, y = 1/sqrt(f); start from f = 0.58 Re^-0.58
    solve_log_law(19.0, 19.0 * re.log10() - 32.4, (re.powf(0.58) / 0.58).sqrt()).powi(-2)
}

/// Friction factor (Darcy) with a drag reduction given as a share of the friction without it.
///
/// `f = max[(1 - DR) f_base, f_MDR]`, never above `f_base`
///
/// `DR` drag reduction at the same rate, bore and fluid (0 to 1), `f_base` Darcy factor of the
/// clean fluid in the base pipe ([`super::friction_factor::churchill_1977`]), `f_MDR` the
/// asymptote of [`virk_mdr`], times 4 to be Darcy.
///
/// Range: `DR` 0 to 1; the result never passes the asymptote.
///
/// A share stated for a smooth pipe and used on a rough one, or the other way round, is 10 to
/// 30 % of the friction wrong: the base is part of the input. The share falls along the string
/// as the polymer is sheared, which is not in it.
///
/// Source: virk1975 p. 625 for the asymptote; the share is an input.
///
/// ```
/// use physics::hydraulics::drag_reduction::{DragBase, DragLimit, reduced_friction};
/// let f = reduced_friction(1e6, 4e-4, 0.70, DragBase::RoughPipe)?;
/// assert!((f.darcy / f.base - 0.30).abs() < 1e-12);
/// let f = reduced_friction(1e6, 4e-4, 0.99, DragBase::RoughPipe)?;
/// assert_eq!(f.limit, DragLimit::Asymptote);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn reduced_friction(
    reynolds: f64,
    relative_roughness: f64,
    drag_reduction: f64,
    base: DragBase,
) -> Result<ReducedFriction> {
    let name = "drag_reduced_friction";
    require_positive(name, "reynolds", Ratio::of(reynolds))?;
    let e = Ratio::of(relative_roughness);
    let inside = (0.0..0.5).contains(&relative_roughness);
    require(inside, name, "relative_roughness", e, "from 0 to below 0.5", "Roughness over bore.")?;
    check_share(name, drag_reduction)?;
    Ok(reduced(reynolds, relative_roughness, drag_reduction, base))
}

/// Refuses a share that is none.
pub(crate) fn check_share(relation: &'static str, drag_reduction: f64) -> Result<()> {
    let hint = "Drag reduction is 1 minus friction with polymer over friction without, such as 0.7.";
    let inside = (0.0..=1.0).contains(&drag_reduction);
    require(inside, relation, "drag_reduction", Ratio::of(drag_reduction), "from 0 to 1", hint)
}

/// [`reduced_friction`] for inner loops: the caller has checked the input.
pub(crate) fn reduced(re: f64, ed: f64, share: f64, base: DragBase) -> ReducedFriction {
    let f_base = churchill(re, if base == DragBase::SmoothPipe { 0.0 } else { ed });
    let floor = 4.0 * asymptote(re);
    let wanted = (1.0 - share) * f_base;
    let (darcy, limit) = if floor >= f_base {
        (f_base, DragLimit::NotTurbulent)
    } else if wanted < floor {
        (floor, DragLimit::Asymptote)
    } else {
        // f = (1 - DR) f_base
        (wanted, DragLimit::AsGiven)
    };
    ReducedFriction { darcy, base: f_base, drag_reduction: 1.0 - darcy / f_base, limit }
}

impl DragBase {
    /// Reads the choice by its word in the register.
    pub(crate) fn from_word(word: &str) -> Self {
        if word == "smooth" { Self::SmoothPipe } else { Self::RoughPipe }
    }
}

/// The words of [`DragBase`] in the register.
pub(crate) const DRAG_BASE_WORDS: &[&str] = &["rough", "smooth"];

const RE: Input = Input::new::<Ratio>("reynolds", "Reynolds number rho U D/mu");
const FANNING: Output = Output::new::<Ratio>("fanning", "Fanning friction factor");

/// Register entry of [`prandtl_karman`].
pub static PRANDTL_KARMAN: Relation = Relation {
    name: "prandtl_karman",
    title: "Turbulent friction factor of a smooth pipe (Fanning)",
    equation: "1/sqrt(f) = 4.0 log10(Re sqrt(f)) - 0.4",
    source: "virk1975 p. 625",
    range: "Re above 4000",
    inputs: &[RE.within(4000.0, 1e8)],
    outputs: &[FANNING],
    evaluate: |a| Ok(Outputs::new().put("fanning", Ratio::of(prandtl_karman(a.number("reynolds")?)?))),
};

/// Register entry of [`virk_mdr`].
pub static VIRK_MDR: Relation = Relation {
    name: "virk_mdr",
    title: "Friction factor at maximum drag reduction (Fanning)",
    equation: "1/sqrt(f) = 19.0 log10(Re sqrt(f)) - 32.4",
    source: "virk1975 p. 625",
    range: "Re 4000 to 40 000 measured",
    inputs: &[RE.within(4000.0, 40_000.0)],
    outputs: &[FANNING],
    evaluate: |a| Ok(Outputs::new().put("fanning", Ratio::of(virk_mdr(a.number("reynolds")?)?))),
};

/// Register entry of [`reduced_friction`].
pub static DRAG_REDUCED_FRICTION: Relation = Relation {
    name: "drag_reduced_friction",
    title: "Friction factor with a drag reducer (Darcy)",
    equation: "f = max[(1 - DR) f_base, 4 f_MDR], never above f_base",
    source: "virk1975 p. 625; churchill1977 p. 91",
    range: "DR 0 to 1; held at the asymptote of maximum drag reduction",
    inputs: &[
        RE,
        Input::new::<Ratio>("relative_roughness", "wall roughness over bore").within(0.0, 0.05),
        Input::new::<Ratio>("drag_reduction", "drag reduction, share of the base friction").within(0.0, 0.85),
        Input::choice("base", DRAG_BASE_WORDS, "the pipe whose friction it is a share of").or("rough"),
    ],
    outputs: &[
        Output::new::<Ratio>("darcy", "Darcy friction factor"),
        Output::new::<Ratio>("base_darcy", "Darcy friction factor without the reducer"),
        Output::new::<Ratio>("drag_reduction", "drag reduction after the limit"),
    ],
    evaluate: |a| {
        let f = reduced_friction(
            a.number("reynolds")?,
            a.number("relative_roughness")?,
            a.number("drag_reduction")?,
            DragBase::from_word(a.word("base")?),
        )?;
        Ok(Outputs::new()
            .put("darcy", Ratio::of(f.darcy))
            .put("base_darcy", Ratio::of(f.base))
            .put("drag_reduction", Ratio::of(f.drag_reduction)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn both_laws_meet_their_equations(re in 4e3..1e8f64) {
            let f = virk_mdr(re).unwrap();
            prop_assert!((1.0 / f.sqrt() - 19.0 * (re * f.sqrt()).log10() + 32.4).abs() < 1e-10);
            let f = prandtl_karman(re).unwrap();
            prop_assert!((1.0 / f.sqrt() - 4.0 * (re * f.sqrt()).log10() + 0.4).abs() < 1e-11);
        }

        #[test]
        fn reduced_friction_stays_between_floor_and_base(
            log_re in 0.0..8.0f64, ed in 0.0..0.01f64, share in 0.0..=1.0f64, smooth: bool,
        ) {
            let re = 10f64.powf(log_re);
            let base = if smooth { DragBase::SmoothPipe } else { DragBase::RoughPipe };
            let f = reduced_friction(re, ed, share, base).unwrap();
            prop_assert!(f.darcy <= f.base);
            prop_assert!(f.darcy >= 64.0 / re * (1.0 - 1e-9));
            prop_assert!((0.0..=share + 1e-12).contains(&f.drag_reduction));
            prop_assert_eq!(f.darcy < (1.0 - share) * f.base * (1.0 - 1e-12), false);
        }
    }

    #[test]
    fn no_reduction_is_the_base_and_laminar_flow_is_left_alone() {
        let f = reduced_friction(1e6, 4e-4, 0.0, DragBase::RoughPipe).unwrap();
        assert_eq!((f.darcy, f.drag_reduction), (churchill(1e6, 4e-4), 0.0));
        let f = reduced_friction(1000.0, 4e-4, 0.7, DragBase::RoughPipe).unwrap();
        assert_eq!((f.darcy, f.limit), (f.base, DragLimit::NotTurbulent));
    }

    #[test]
    fn nonsense_is_refused() {
        assert!(reduced_friction(1e6, 4e-4, 1.1, DragBase::RoughPipe).is_err());
        assert!(reduced_friction(1e6, 4e-4, f64::NAN, DragBase::RoughPipe).is_err());
        assert!(reduced_friction(-1.0, 4e-4, 0.7, DragBase::RoughPipe).is_err());
        assert!(virk_mdr(0.0).is_err() && prandtl_karman(f64::NAN).is_err());
    }
}
