//! Two fits of the constant-flux cylinder in use for wells.

use crate::error::require_positive;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::Ratio;

/// Wall temperature of a well giving constant heat flow, fitted in two pieces, dimensionless.
///
/// Equation: `T_D = 1.1281 √t_D (1 − 0.3 √t_D)` up to `t_D = 1.5`;
/// `T_D = (0.4063 + ½ ln t_D)(1 + 0.6 / t_D)` above.
///
/// Symbols: `t_D = α t / r_w²`, `T_D = 2π k (T_w − T_e) / q'`; pure numbers.
///
/// Range: 1e-10 to 1.5 and above 1.5 (the source's two pieces).
///
/// Where it breaks: against the exact cylinder +3.0 % near `t_D = 0.15`, −5.7 % just below 1.5
/// and −8.0 % just above, a step of 2.4 %; −0.5 % at 5, under 0.1 % above 10. The value is
/// returned.
///
/// Source: hasan_kabir1991, two-piece fit.
///
/// ```
/// let t_d = physics::heat::hasan_kabir_1991::hasan_kabir_1991(10.0)?;
/// assert!((t_d - 1.6510).abs() < 1e-4);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn hasan_kabir_1991(t_d: f64) -> Result<f64> {
    require_positive("hasan_kabir_1991", "t_d", Ratio::of(t_d))?;
    let root = t_d.sqrt();
    Ok(if t_d <= 1.5 {
        // T_D = 1.1281 √t_D (1 − 0.3 √t_D)
        1.1281 * root * (1.0 - 0.3 * root)
    } else {
        // T_D = (0.4063 + ½ ln t_D)(1 + 0.6 / t_D)
        (0.4063 + 0.5 * t_d.ln()) * (1.0 + 0.6 / t_d)
    })
}

/// Wall temperature of a well giving constant heat flow, fitted in one piece, dimensionless.
///
/// Equation: `T_D = ln[ e^(−0.2 t_D) + (1.5 − 0.3719 e^(−t_D)) √t_D ]`.
///
/// Symbols: `t_D = α t / r_w²`, `T_D = 2π k (T_w − T_e) / q'`; pure numbers.
///
/// Range: none stated by the source.
///
/// Where it breaks: no step, but low against the exact cylinder by 5.1 % near `t_D = 0.2`, 2.7 %
/// at 1, 4.1 % near 8 and 0.5 % at 100. The value is returned.
///
/// Source: hasan_kabir2002, single form.
///
/// ```
/// let t_d = physics::heat::hasan_kabir_1991::hasan_kabir_single(10.0)?;
/// assert!((t_d - 1.5849).abs() < 1e-4);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn hasan_kabir_single(t_d: f64) -> Result<f64> {
    require_positive("hasan_kabir_single", "t_d", Ratio::of(t_d))?;
    // T_D = ln[ e^(−0.2 t_D) + (1.5 − 0.3719 e^(−t_D)) √t_D ]
    Ok(((-0.2 * t_d).exp() + (1.5 - 0.3719 * (-t_d).exp()) * t_d.sqrt()).ln())
}

/// `hasan_kabir_1991` in the register.
pub static HASAN_KABIR_1991: Relation = Relation {
    name: "hasan_kabir_1991",
    title: "Wall temperature of a well giving constant heat flow, fit in two pieces, dimensionless",
    equation: "T_D = 1.1281 √t_D (1 − 0.3 √t_D) for t_D <= 1.5; (0.4063 + ½ ln t_D)(1 + 0.6/t_D) above",
    source: "hasan_kabir1991, two-piece fit",
    range: "t_D >= 1e-10; up to 8 % low near t_D = 1.5",
    inputs: &[Input::new::<Ratio>("t_d", "dimensionless time, α t / r_w²").within(1e-10, 1e12)],
    outputs: &[Output::new::<Ratio>("temperature", "dimensionless temperature T_D")],
    evaluate: |a| Ok(Outputs::new().put("temperature", Ratio::of(hasan_kabir_1991(a.number("t_d")?)?))),
};

/// `hasan_kabir_single` in the register.
pub static HASAN_KABIR_SINGLE: Relation = Relation {
    name: "hasan_kabir_single",
    title: "Wall temperature of a well giving constant heat flow, fit in one piece, dimensionless",
    equation: "T_D = ln[ e^(−0.2 t_D) + (1.5 − 0.3719 e^(−t_D)) √t_D ]",
    source: "hasan_kabir2002, single form",
    range: "none stated by the source; up to 5 % low, near t_D = 0.2 and 8",
    inputs: &[Input::new::<Ratio>("t_d", "dimensionless time, α t / r_w²")],
    outputs: &[Output::new::<Ratio>("temperature", "dimensionless temperature T_D")],
    evaluate: |a| Ok(Outputs::new().put("temperature", Ratio::of(hasan_kabir_single(a.number("t_d")?)?))),
};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::constant_flux::cylinder_constant_flux;

    #[test]
    fn both_stay_within_their_stated_error_of_the_exact_cylinder() {
        for k in -20..=40 {
            let t = 10f64.powf(f64::from(k) / 10.0);
            let exact = cylinder_constant_flux(t, 1.0).unwrap();
            let pieces = hasan_kabir_1991(t).unwrap() / exact - 1.0;
            let single = hasan_kabir_single(t).unwrap() / exact - 1.0;
            assert!((-0.081..0.0301).contains(&pieces), "{t}: {pieces}");
            assert!((-0.052..0.002).contains(&single), "{t}: {single}");
        }
    }
}
