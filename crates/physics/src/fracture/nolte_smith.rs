//! Slope of net pressure against time on double-logarithmic paper, by the form of the fracture.

use crate::error::{Result, require};
use crate::{Input, Output, Outputs, Relation};
use quantity::Ratio;

/// Form of a fracture, as far as exponents go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// Long, of constant height.
    Pkn,
    /// Short and high.
    Kgd,
    /// A penny.
    Radial,
}

impl Form {
    /// Words of the register.
    pub const WORDS: &'static [&'static str] = &["pkn", "kgd", "radial"];

    /// The form of a word.
    pub fn of_word(word: &str) -> Self {
        match word {
            "kgd" => Self::Kgd,
            "radial" => Self::Radial,
            _ => Self::Pkn,
        }
    }
}

/// Exponent of time of the net pressure while a fracture grows at a constant rate.
///
/// Equation: PKN `1/(2n + 3)` without leak-off, `1/(4(n + 1))` when nearly all leaks off; KGD
/// `−n/(n + 2)` and `−n/(2(n + 1))`; radial `−n/(n + 2)` and `−3n/(8(n + 1))`.
///
/// Symbols: `n` flow behaviour index of the fluid, 1 for a Newtonian.
///
/// Range: `0 < n <= 1`.
///
/// Where it breaks: the slope needs the time since THIS fracture began and the net pressure:
/// friction and the weight of a proppant ramp drift more than such a slope. Other indices are
/// refused.
///
/// Source: nolte_smith1981 (long fracture); the others by the same scaling of width, volume and
/// length.
///
/// ```
/// use physics::fracture::nolte_smith::{Form, nolte_smith_exponents};
/// assert_eq!(nolte_smith_exponents(Form::Pkn, 1.0)?, (0.2, 0.125));
/// # Ok::<(), physics::Error>(())
/// ```
pub fn nolte_smith_exponents(form: Form, n: f64) -> Result<(f64, f64)> {
    let hint = "It is 1 for water, below 1 for a gel.";
    require(n > 0.0 && n <= 1.0, NAME, "flow_index", Ratio::of(n), "above 0, at most 1", hint)?;
    Ok(match form {
        // w^(2n+2) ~ L; w L ~ t or L ~ t^½; p ~ w
        Form::Pkn => (1.0 / (2.0 * n + 3.0), 1.0 / (4.0 * (n + 1.0))),
        // w^(2n+2) ~ L²; p ~ w/L
        Form::Kgd => (-n / (n + 2.0), -n / (2.0 * (n + 1.0))),
        // w^(2n+2) ~ R^(2−n); w R² ~ t or R² ~ t^½; p ~ w/R
        Form::Radial => (-n / (n + 2.0), -3.0 * n / (8.0 * (n + 1.0))),
    })
}

const NAME: &str = "nolte_smith_exponents";

/// `nolte_smith_exponents` in the register.
pub static NOLTE_SMITH_EXPONENTS: Relation = Relation {
    name: NAME,
    title: "Exponent of time of the net pressure at a constant rate",
    equation: "PKN 1/(2n+3), 1/(4(n+1)); KGD −n/(n+2), −n/(2(n+1)); radial −n/(n+2), −3n/(8(n+1))",
    source: "nolte_smith1981",
    range: "0 < n <= 1",
    inputs: &[
        Input::choice("model", Form::WORDS, "pkn long, kgd short and high, radial a penny"),
        Input::new::<Ratio>("flow_index", "flow behaviour index of the fluid").or("1"),
    ],
    outputs: &[
        Output::new::<Ratio>("no_leakoff", "exponent while nothing leaks off"),
        Output::new::<Ratio>("high_leakoff", "exponent while nearly all leaks off"),
    ],
    evaluate: |a| {
        let (none, high) = nolte_smith_exponents(Form::of_word(a.word("model")?), a.number("flow_index")?)?;
        Ok(Outputs::new().put("no_leakoff", Ratio::of(none)).put("high_leakoff", Ratio::of(high)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_long_fracture_climbs() {
        for n in [0.2, 0.6, 1.0] {
            let (a, b) = nolte_smith_exponents(Form::Pkn, n).unwrap();
            assert!(a > b && b > 0.0);
            for form in [Form::Kgd, Form::Radial] {
                let (a, b) = nolte_smith_exponents(form, n).unwrap();
                assert!(a < b && b < 0.0);
            }
        }
        assert!(nolte_smith_exponents(Form::Pkn, 0.0).is_err());
    }
}
