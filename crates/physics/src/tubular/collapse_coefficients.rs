//! The empirical coefficients of the collapse formulas and the slenderness limits between
//! their regimes.

use crate::error::require;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Pressure, Ratio};

const NAME: &str = "collapse_coefficients";

/// Elastic collapse constant of the standard, psi (api_5c3_1994, collapse).
pub(super) const ELASTIC: f64 = 46.95e6;

/// Polynomials in the yield strength (psi), lowest power first; source api_5c3_1994, collapse.
const A: [f64; 4] = [2.8762, 0.106_79e-5, 0.213_01e-10, -0.531_32e-16];
/// See [`A`].
const B: [f64; 2] = [0.026_233, 0.506_09e-6];
/// See [`A`]; psi.
const C: [f64; 4] = [-465.93, 0.030_867, -0.104_83e-7, 0.369_89e-13];

/// Yield strengths (psi) between which the four regimes follow one another.
const YIELDS: std::ops::RangeInclusive<f64> = 19_999.999..=250_000.001;

/// Coefficients of one yield strength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CollapseCoefficients {
    /// A of the plastic formula.
    pub a: f64,
    /// B of the plastic formula.
    pub b: f64,
    /// C of the plastic formula.
    pub c: Pressure,
    /// F of the transition formula.
    pub f: f64,
    /// G of the transition formula.
    pub g: f64,
    /// D/t up to which yield collapse governs.
    pub yield_limit: f64,
    /// D/t up to which plastic collapse governs.
    pub plastic_limit: f64,
    /// D/t up to which transition collapse governs; elastic beyond.
    pub transition_limit: f64,
}

fn polynomial<const N: usize>(coefficients: [f64; N], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

/// Coefficients of the collapse formulas and the D/t limits between the regimes.
///
/// Equation:
/// `A = 2.8762 + 0.10679e-5 Yp + 0.21301e-10 Yp^2 - 0.53132e-16 Yp^3`,
/// `B = 0.026233 + 0.50609e-6 Yp`,
/// `C = -465.93 + 0.030867 Yp - 0.10483e-7 Yp^2 + 0.36989e-13 Yp^3`,
/// `F = 46.95e6 x^3 / (Yp (x - B/A) (1 - x)^2)` with `x = 3(B/A) / (2 + B/A)`, `G = F B/A`;
/// `(D/t)yp = [sqrt((A-2)^2 + 8(B + C/Yp)) + (A-2)] / [2(B + C/Yp)]`,
/// `(D/t)pt = Yp (A-F) / [C + Yp (B-G)]`, `(D/t)te = (2 + B/A) / (3 B/A)`
///
/// - `Yp` yield strength, or the yield strength reduced for axial stress, psi
/// - `A, B, F, G` pure numbers, `C` psi
/// - `(D/t)yp, (D/t)pt, (D/t)te` limits between yield, plastic, transition and elastic collapse
///
/// Range: fitted to grades of 40 000 to 180 000 psi.
///
/// Where it breaks: below 20 000 psi the limits fall out of order; there and above 250 000 psi the
/// relation refuses.
/// Tables that round the coefficients to three or four digits differ by up to 10 psi.
///
/// Source: api_5c3_1994, collapse, five-digit coefficients; iso_tr_10400 clause 8.
///
/// ```
/// use physics::tubular::collapse_coefficients::collapse_coefficients;
/// use quantity::Pressure;
/// let n80 = collapse_coefficients(Pressure::psi(80_000.0))?;
/// assert!((n80.a - 3.071).abs() < 5e-4 && (n80.c.in_psi() - 1_955.0).abs() < 0.5);
/// assert!((n80.yield_limit - 13.38).abs() < 0.005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn collapse_coefficients(yield_strength: Pressure) -> Result<CollapseCoefficients> {
    let yp = yield_strength.in_psi();
    let hint = "With axial stress in play the pipe is close to body yield: reduce the tension.";
    let limit = "from 20 000 psi to 250 000 psi";
    require(YIELDS.contains(&yp), NAME, "yield_strength", yield_strength, limit, hint)?;
    // A, B, C: polynomials in Yp
    let (a, b, c) = (polynomial(A, yp), polynomial(B, yp), polynomial(C, yp));
    let r = b / a;
    // x = 3(B/A) / (2 + B/A)
    let x = 3.0 * r / (2.0 + r);
    // F = 46.95e6 x^3 / (Yp (x - B/A) (1 - x)^2)
    let f = ELASTIC * x.powi(3) / (yp * (x - r) * (1.0 - x).powi(2));
    // G = F B/A
    let g = f * r;
    // (D/t)yp = [sqrt((A-2)^2 + 8(B + C/Yp)) + (A-2)] / [2(B + C/Yp)]
    let s = b + c / yp;
    let yield_limit = (((a - 2.0).powi(2) + 8.0 * s).sqrt() + (a - 2.0)) / (2.0 * s);
    // (D/t)pt = Yp (A-F) / [C + Yp (B-G)]
    let plastic_limit = yp * (a - f) / (c + yp * (b - g));
    // (D/t)te = (2 + B/A) / (3 B/A)
    let transition_limit = (2.0 + r) / (3.0 * r);
    let c = Pressure::psi(c);
    Ok(CollapseCoefficients { a, b, c, f, g, yield_limit, plastic_limit, transition_limit })
}

/// Register entry of [`collapse_coefficients`].
pub static COLLAPSE_COEFFICIENTS: Relation = Relation {
    name: NAME,
    title: "Coefficients of the collapse formulas and the limits between regimes",
    equation: "A, B, C polynomials in Yp (psi); F = 46.95e6 x^3 / (Yp (x - B/A)(1 - x)^2), x = 3(B/A)/(2 + B/A); G = F B/A",
    source: "api_5c3_1994, collapse",
    range: "yield strength 40 000 to 180 000 psi",
    inputs: &[Input::new::<Pressure>("yield_strength", "yield strength Yp, reduced for axial stress if any")
        .within(275.790e6, 1_241.1e6)],
    outputs: &[
        Output::new::<Ratio>("a", "A of the plastic formula"),
        Output::new::<Ratio>("b", "B of the plastic formula"),
        Output::new::<Pressure>("c", "C of the plastic formula"),
        Output::new::<Ratio>("f", "F of the transition formula"),
        Output::new::<Ratio>("g", "G of the transition formula"),
        Output::new::<Ratio>("yield_limit", "D/t up to which yield collapse governs"),
        Output::new::<Ratio>("plastic_limit", "D/t up to which plastic collapse governs"),
        Output::new::<Ratio>("transition_limit", "D/t up to which transition collapse governs"),
    ],
    evaluate: |x| {
        let k = collapse_coefficients(x.get("yield_strength")?)?;
        Ok(Outputs::new()
            .put("a", Ratio::of(k.a))
            .put("b", Ratio::of(k.b))
            .put("c", k.c)
            .put("f", Ratio::of(k.f))
            .put("g", Ratio::of(k.g))
            .put("yield_limit", Ratio::of(k.yield_limit))
            .put("plastic_limit", Ratio::of(k.plastic_limit))
            .put("transition_limit", Ratio::of(k.transition_limit)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::Quantity;

    #[test]
    fn limits_follow_one_another_over_the_whole_domain() {
        for ksi in 20..=250 {
            let k = collapse_coefficients(Pressure::ksi(f64::from(ksi))).unwrap();
            assert!(2.0 < k.yield_limit && k.yield_limit < k.plastic_limit, "{ksi}");
            assert!(k.plastic_limit < k.transition_limit, "{ksi}");
        }
        assert!(collapse_coefficients(Pressure::ksi(19.9)).is_err());
        assert!(collapse_coefficients(Pressure::from_si(f64::NAN)).is_err());
    }
}
