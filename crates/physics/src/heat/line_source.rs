//! Heating by a line: the late form of every source in a hole.

use crate::error::require_positive;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::Ratio;

/// Euler's constant.
const EULER: f64 = 0.577_215_664_901_532_9;

/// Temperature round a line that gives heat at a constant rate, dimensionless.
///
/// Equation: `T_D = ½ E1(r_D² / 4 t_D)`.
///
/// Symbols: `T_D = 2π k (T − T_e) / q'`, `r_D = r / r_w`, `t_D = α t / r_w²`; E1 the
/// exponential integral; pure numbers.
///
/// Range: `t_D > 0`, `r_D > 0`. As a stand-in for a hole of radius r_w at its wall it is within
/// 1 % only above `t_D = 55`.
///
/// Where it breaks: at early time it falls far below the cylinder (zero at `t_D = 0.01`).
///
/// Source: carslaw_jaeger1959 sec. 10.4 eq. 5.
///
/// ```
/// let t_d = physics::heat::line_source::line_source(100.0, 1.0)?;
/// assert!((t_d - 2.7084).abs() < 5e-5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn line_source(t_d: f64, r_d: f64) -> Result<f64> {
    require_positive("line_source", "t_d", Ratio::of(t_d))?;
    require_positive("line_source", "r_d", Ratio::of(r_d))?;
    // T_D = ½ E1(r_D² / 4 t_D)
    Ok(0.5 * exponential_integral(r_d * r_d / (4.0 * t_d)))
}

/// The exponential integral `E1(x)` for `x > 0`: series up to 2, continued fraction beyond.
///
/// Source: dlmf 6.6.2; 6.9.1, its even part.
fn exponential_integral(x: f64) -> f64 {
    if x <= 2.0 {
        // E1(x) = −γ − ln x − Σ (−x)^k / (k k!)
        let (mut term, mut sum) = (1.0, 0.0);
        for k in 1..40 {
            let n = f64::from(k);
            term *= -x / n;
            sum += term / n;
        }
        return -EULER - x.ln() - sum;
    }
    // E1(x) = e^−x / (x + 1 − 1²/(x + 3 − 2²/(x + 5 − ...))), summed from its tail
    let mut tail = 0.0;
    for k in (1..=60).rev() {
        let n = f64::from(k);
        tail = n * n / (x + 2.0 * n + 1.0 - tail);
    }
    (-x).exp() / (x + 1.0 - tail)
}

/// `line_source` in the register.
pub static LINE_SOURCE: Relation = Relation {
    name: "line_source",
    title: "Temperature round a line giving heat at a constant rate, dimensionless",
    equation: "T_D = ½ E1(r_D² / 4 t_D)",
    source: "carslaw_jaeger1959 sec. 10.4 eq. 5",
    range: "t_D > 0; for the wall of a hole within 1 % above t_D = 55",
    inputs: &[
        Input::new::<Ratio>("t_d", "dimensionless time, α t / r_w²").within(55.0, 1e12),
        Input::new::<Ratio>("r_d", "radius over hole radius").or("1"),
    ],
    outputs: &[Output::new::<Ratio>("temperature", "dimensionless temperature T_D")],
    evaluate: |a| {
        let value = line_source(a.number("t_d")?, a.number("r_d")?)?;
        Ok(Outputs::new().put("temperature", Ratio::of(value)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn series_and_fraction_meet() {
        // E1(2) = 0.048900510708061 (Abramowitz and Stegun, table 5.1).
        for x in [2.0, 2.0 + 1e-13] {
            assert!((exponential_integral(x) - 0.048_900_510_708_061_1).abs() < 1e-14, "{x}");
        }
        assert!(exponential_integral(800.0) >= 0.0);
    }
}
