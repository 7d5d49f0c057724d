//! The late-time function of a line source as first used for wells.

use crate::error::require_positive;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::Ratio;

/// Time function of conduction round a well after a week or so, dimensionless.
///
/// Equation: `f(t) = −ln( r_w / (2 √(α t)) ) − 0.290`, that is `ln(2 √t_D) − 0.290`.
///
/// Symbols: r_w outside radius of the last conductor m, α thermal diffusivity m²/s, t time s,
/// `t_D = α t / r_w²`; f a pure number standing for T_D.
///
/// Range: the source gives it for times above about one week; against the exact cylinder the
/// error is below 1 % only above `t_D = 65`.
///
/// Where it breaks: negative below `t_D = 0.447`, half the exact value at 1; a treatment stage
/// lasts `t_D` of 0.3 to 2, so this form must not be used for one. The value is returned and
/// the input flagged.
///
/// Source: ramey1962, time function.
///
/// ```
/// let f = physics::heat::ramey_1962::ramey_1962(57.6576)?;
/// assert!((f - 2.4304).abs() < 1e-4);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn ramey_1962(t_d: f64) -> Result<f64> {
    require_positive("ramey_1962", "t_d", Ratio::of(t_d))?;
    // f(t) = −ln( r_w / (2 √(α t)) ) − 0.290
    Ok((2.0 * t_d.sqrt()).ln() - 0.290)
}

/// `ramey_1962` in the register.
pub static RAMEY_1962: Relation = Relation {
    name: "ramey_1962",
    title: "Time function of conduction round a well, late-time form, dimensionless",
    equation: "f(t) = −ln( r_w / (2 √(α t)) ) − 0.290",
    source: "ramey1962, time function",
    range: "late time; within 1 % of the exact cylinder above t_D = 65",
    inputs: &[Input::new::<Ratio>("t_d", "dimensionless time, α t / r_w²").within(65.0, 1e12)],
    outputs: &[Output::new::<Ratio>("temperature", "time function f(t)")],
    evaluate: |a| Ok(Outputs::new().put("temperature", Ratio::of(ramey_1962(a.number("t_d")?)?))),
};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::constant_flux::cylinder_constant_flux;

    #[test]
    fn late_it_meets_the_exact_cylinder_and_early_it_does_not() {
        let exact = |t| cylinder_constant_flux(t, 1.0).unwrap();
        assert!((ramey_1962(1000.0).unwrap() / exact(1000.0) - 1.0).abs() < 0.001);
        assert!(ramey_1962(1.0).unwrap() / exact(1.0) < 0.51);
        assert!(ramey_1962(0.4).unwrap() < 0.0);
        assert!(ramey_1962(0.0).is_err());
    }
}
