//! Drift: the diameter a test mandrel must pass through a joint.

use super::tube::Tube;
use crate::error::require;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, Quantity};

const NAME: &str = "drift";

/// The rule a pipe is drifted by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DriftRule {
    /// Casing and liner.
    Casing,
    /// Tubing.
    Tubing,
}

impl DriftRule {
    /// All words, in the order of the register's choice.
    pub const WORDS: &'static [&'static str] = &["casing", "tubing"];

    /// The rule of that word.
    pub fn of(word: &str) -> Self {
        if word == "tubing" { DriftRule::Tubing } else { DriftRule::Casing }
    }

    /// Word as written in files.
    pub fn word(self) -> &'static str {
        match self {
            DriftRule::Casing => "casing",
            DriftRule::Tubing => "tubing",
        }
    }

    /// Largest outer diameter (inches) and allowance (inches), size class by size class.
    fn classes(self) -> &'static [(f64, f64)] {
        match self {
            DriftRule::Casing => &[(8.625, 1.0 / 8.0), (13.375, 5.0 / 32.0), (f64::INFINITY, 3.0 / 16.0)],
            DriftRule::Tubing => &[(2.875, 3.0 / 32.0), (f64::INFINITY, 1.0 / 8.0)],
        }
    }
}

/// Standard drift diameter of a joint.
///
/// Equation: `drift = d - a`, `a` by rule and outer diameter
///
/// - `d` nominal inner diameter
/// - `a` casing up to 8-5/8 in: 1/8 in; 9-5/8 to 13-3/8 in: 5/32 in; larger: 3/16 in
/// - `a` tubing up to 2-7/8 in: 3/32 in; larger: 1/8 in
///
/// Range: standard sizes. Between 8-5/8 and 9-5/8 in the larger allowance is taken.
///
/// Where it breaks: pipe ordered to a special drift passes more than this; give the special
/// drift then. An inner diameter no larger than the allowance is refused.
///
/// Source: api_5ct_2018, standard drift size.
///
/// ```
/// use physics::tubular::drift::{DriftRule, drift};
/// use quantity::Diameter;
/// let through = drift(Diameter::inch(9.625), Diameter::inch(8.681), DriftRule::Casing)?;
/// assert!((through.in_inch() - 8.525).abs() < 5e-4);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn drift(outer: Diameter, inner: Diameter, rule: DriftRule) -> Result<Diameter> {
    let tube = Tube::bored(NAME, outer, inner)?;
    let in_class = |c: &&(f64, f64)| outer.in_inch() <= c.0 + 1e-6;
    let allowance = rule.classes().iter().find(in_class).map_or(3.0 / 16.0, |c| c.1);
    // drift = d - a
    let through = tube.inner() - Diameter::inch(allowance);
    let hint = "No test mandrel fits such a bore; give the drift by hand.";
    require(through.si() > 0.0, NAME, "inner", inner, "larger than the drift allowance", hint)?;
    Ok(through)
}

/// Register entry of [`drift`].
pub static DRIFT: Relation = Relation {
    name: NAME,
    title: "Standard drift diameter",
    equation: "drift = d - a; a by rule and size",
    source: "api_5ct_2018, standard drift size",
    range: "standard sizes of casing, liner and tubing",
    inputs: &[
        Input::new::<Diameter>("outer", "outer diameter D"),
        Input::new::<Diameter>("inner", "nominal inner diameter d"),
        Input::choice("rule", DriftRule::WORDS, "the rule the pipe is drifted by").or("casing"),
    ],
    outputs: &[Output::new::<Diameter>("drift", "drift diameter")],
    evaluate: |a| {
        let through = drift(a.get("outer")?, a.get("inner")?, DriftRule::of(a.word("rule")?))?;
        Ok(Outputs::new().put("drift", through))
    },
};
