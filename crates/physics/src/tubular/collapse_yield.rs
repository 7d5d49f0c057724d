//! Yield strength left for collapse under axial stress and internal pressure.

use crate::error::{require, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Pressure, Ratio};

const NAME: &str = "collapse_yield";

/// How axial stress and internal pressure enter collapse.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum CollapseMethod {
    /// Axial stress plus internal pressure reduces the yield strength; the rating is the
    /// allowed difference between outside and inside. The standard since 2015.
    #[default]
    CombinedStress,
    /// Axial stress alone reduces the yield strength; internal pressure enters through an
    /// equivalent external pressure. The standard before 2015; more cautious.
    EquivalentPressure,
}

impl CollapseMethod {
    /// All words, in the order of the register's choice.
    pub const WORDS: &'static [&'static str] = &["combined-stress", "equivalent-pressure"];

    /// The method of that word.
    pub fn of(word: &str) -> Self {
        if word == "equivalent-pressure" { Self::EquivalentPressure } else { Self::CombinedStress }
    }

    /// Word as written in files.
    pub fn word(self) -> &'static str {
        match self {
            Self::CombinedStress => "combined-stress",
            Self::EquivalentPressure => "equivalent-pressure",
        }
    }

    /// The stress that reduces the yield strength; never below zero, so that compression
    /// gives no credit.
    fn combined(self, axial_stress: Pressure, internal_pressure: Pressure) -> Pressure {
        match self {
            Self::CombinedStress => (axial_stress + internal_pressure).max(Pressure::ZERO),
            Self::EquivalentPressure => axial_stress.max(Pressure::ZERO),
        }
    }
}

/// Loads on the pipe besides the outside pressure.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct CollapseLoad {
    /// Axial stress Sa, tension positive.
    pub axial_stress: Pressure,
    /// Internal pressure Pi.
    pub internal_pressure: Pressure,
}

/// Yield strength left for collapse under axial stress and internal pressure.
///
/// Equation: `Ypa = Yp [sqrt(1 - 0.75 (S/Yp)^2) - 0.5 S/Yp]`, `S = Sa + Pi` (combined stress)
/// or `S = Sa` (equivalent pressure)
///
/// - `Ypa` yield strength left for collapse, Pa
/// - `Yp` specified minimum yield strength, Pa
/// - `Sa` axial stress, tension positive, Pa
/// - `Pi` internal pressure, Pa
///
/// Range: `0 <= S < Yp`.
///
/// Where it breaks: a negative `S` is taken as zero (no credit for compression); at `S = Yp`
/// nothing is left and the relation refuses.
///
/// Source: api_5c3_addendum_2015 clause 8.4.6 (combined stress: the form also follows from
/// superposing the hydrostatic pressure Pi, which leaves the von Mises stress unchanged);
/// api_5c3_1994, collapse (equivalent pressure). api_tr_5c3_2018 keeps the clause; combined_collapse_2021
/// names it as giving a differential pressure.
///
/// ```
/// use physics::tubular::collapse_yield::{CollapseLoad, CollapseMethod, collapse_yield};
/// use quantity::Pressure;
/// let load = CollapseLoad { axial_stress: Pressure::psi(11_000.0), ..Default::default() };
/// let left = collapse_yield(Pressure::psi(110_000.0), load, CollapseMethod::CombinedStress)?;
/// assert!((left.in_psi() - 104_087.0).abs() < 1.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn collapse_yield(
    yield_strength: Pressure,
    load: CollapseLoad,
    method: CollapseMethod,
) -> Result<Pressure> {
    require_positive(NAME, "yield_strength", yield_strength)?;
    require_not_negative(NAME, "internal_pressure", load.internal_pressure)?;
    let combined = method.combined(load.axial_stress, load.internal_pressure);
    let s = combined / yield_strength;
    let hint = "The body yields under the axial load alone; reduce the tension.";
    require(s < 1.0, NAME, "axial_stress", combined, "below the yield strength", hint)?;
    // Ypa = Yp [sqrt(1 - 0.75 (S/Yp)^2) - 0.5 S/Yp]
    Ok(yield_strength * ((1.0 - 0.75 * s * s).sqrt() - 0.5 * s))
}

/// Register entry of [`collapse_yield`].
pub static COLLAPSE_YIELD: Relation = Relation {
    name: NAME,
    title: "Yield strength left for collapse under axial stress and internal pressure",
    equation: "Ypa = Yp [sqrt(1 - 0.75 (S/Yp)^2) - 0.5 S/Yp], S = Sa + Pi (combined) or Sa",
    source: "api_5c3_addendum_2015 clause 8.4.6 (combined stress); api_5c3_1994, collapse (equivalent pressure)",
    range: "0 <= S < Yp; negative S is taken as zero",
    inputs: &[
        Input::new::<Pressure>("yield_strength", "specified minimum yield strength Yp"),
        Input::new::<Pressure>("axial_stress", "axial stress Sa, tension positive").or("0 psi"),
        Input::new::<Pressure>("internal_pressure", "internal pressure Pi").or("0 psi"),
        Input::choice("method", CollapseMethod::WORDS, "how axial stress and internal pressure enter")
            .or("combined-stress"),
    ],
    outputs: &[
        Output::new::<Pressure>("reduced_yield", "yield strength left for collapse Ypa"),
        Output::new::<Ratio>("share", "Ypa over Yp"),
    ],
    evaluate: |a| {
        let yield_strength: Pressure = a.get("yield_strength")?;
        let load = CollapseLoad {
            axial_stress: a.get("axial_stress")?,
            internal_pressure: a.get("internal_pressure")?,
        };
        let left = collapse_yield(yield_strength, load, CollapseMethod::of(a.word("method")?))?;
        Ok(Outputs::new().put("reduced_yield", left).put("share", Ratio::of(left / yield_strength)))
    },
};
