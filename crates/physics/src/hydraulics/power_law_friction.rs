//! Friction factors of power-law fluids (all Fanning).

use super::friction_factor::Regime;
use super::log_law::solve_log_law;
use crate::error::{Result, require, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::Ratio;

fn check(relation: &'static str, reynolds: f64, n: f64) -> Result<()> {
    require_positive(relation, "reynolds", Ratio::of(reynolds))?;
    let hint = "The relation was fitted to shear-thinning fluids.";
    require(n > 0.1 && n <= 1.5, relation, "n", Ratio::of(n), "above 0.1, at most 1.5", hint)
}

/// Turbulent friction factor (Fanning) of a power-law fluid in a smooth pipe.
///
/// `1/sqrt(f) = 4/n^0.75 log10[Re f^(1 - n/2)] - 0.4/n^1.2`
///
/// `f` Fanning friction factor, `Re` Reynolds number of Metzner and Reed, `n` flow behaviour
/// index.
///
/// Range: `n` 0.36 to 1, `Re` 2900 to 36 000; flagged outside.
///
/// Smooth pipe and fluids without elasticity: a gel that also reduces drag has less friction.
/// At `n` 1 it is the law of Prandtl and Kármán.
///
/// Source: dodge_metzner1959 p. 189.
///
/// ```
/// use physics::hydraulics::power_law_friction::dodge_metzner_1959;
/// let f = dodge_metzner_1959(1e4, 0.8)?;
/// assert!((f - 0.006_693).abs() < 5e-7);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn dodge_metzner_1959(reynolds: f64, n: f64) -> Result<f64> {
    check("dodge_metzner_1959", reynolds, n)?;
    Ok(dodge_metzner(reynolds, n))
}

/// [`dodge_metzner_1959`] for inner loops: the caller has checked the input.
fn dodge_metzner(re: f64, n: f64) -> f64 {
    let a = 4.0 / n.powf(0.75);
    // y = a log10 Re - a (2 - n) log10 y - 0.4/n^1.2, y = 1/sqrt(f)
    let k = a * re.log10() - 0.4 / n.powf(1.2);
    // start from f = 0.0791/Re^0.25
    solve_log_law(a * (2.0 - n), k, (re.powf(0.25) / 0.0791).sqrt()).powi(-2)
}

/// Reynolds numbers at which a power-law fluid leaves the laminar state and is turbulent:
/// `3470 - 1370 n` and `4270 - 1370 n`.
fn power_law_transition(n: f64) -> (f64, f64) {
    (3470.0 - 1370.0 * n, 4270.0 - 1370.0 * n)
}

/// Friction factor (Fanning) of a power-law fluid in all regimes, smooth pipe.
///
/// `f = 16/Re` below `3470 - 1370n`, [`dodge_metzner_1959`] above `4270 - 1370n`, a straight
/// line in the logarithms between.
///
/// Symbols as in [`dodge_metzner_1959`].
///
/// Range: as [`dodge_metzner_1959`].
///
/// The line between the regimes is this program's: it keeps the pressure free of jumps.
///
/// Source: ryan_johnson1959 (limits of transition); metzner_reed1955; dodge_metzner1959.
///
/// ```
/// use physics::hydraulics::power_law_friction::power_law_friction;
/// assert_eq!(power_law_friction(1000.0, 0.7)?.0, 0.016);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn power_law_friction(reynolds: f64, n: f64) -> Result<(f64, Regime)> {
    check("power_law_friction", reynolds, n)?;
    Ok(power_law_all_regimes(reynolds, n))
}

/// [`power_law_friction`] for inner loops: the caller has checked the input.
pub(crate) fn power_law_all_regimes(re: f64, n: f64) -> (f64, Regime) {
    all_regimes(re, n, |re| dodge_metzner(re, n))
}

/// Laminar law, the turbulent law given, and between them a straight line in the logarithms.
pub(crate) fn all_regimes(re: f64, n: f64, turbulent: impl Fn(f64) -> f64) -> (f64, Regime) {
    let limits = power_law_transition(n);
    let regime = Regime::between(re, limits);
    let f = match regime {
        Regime::Still => 0.0,
        // f = 16/Re
        Regime::Laminar => 16.0 / re,
        Regime::Turbulent => turbulent(re),
        Regime::Transitional => {
            let (low, high) = limits;
            let share = (re / low).ln() / (high / low).ln();
            let start = 16.0 / low;
            start * (turbulent(high) / start).powf(share)
        }
    };
    (f, regime)
}

const RE: Input = Input::new::<Ratio>("reynolds", "Reynolds number of Metzner and Reed");
const N: Input = Input::new::<Ratio>("n", "flow behaviour index").within(0.36, 1.0);
const FANNING: Output = Output::new::<Ratio>("fanning", "Fanning friction factor");

/// Register entry of [`dodge_metzner_1959`].
pub static DODGE_METZNER_1959: Relation = Relation {
    name: "dodge_metzner_1959",
    title: "Turbulent friction factor of a power-law fluid, smooth pipe (Fanning)",
    equation: "1/sqrt(f) = 4/n^0.75 log10[Re f^(1 - n/2)] - 0.4/n^1.2",
    source: "dodge_metzner1959 p. 189",
    range: "n 0.36 to 1, Re 2900 to 36 000",
    inputs: &[RE.within(2900.0, 36_000.0), N],
    outputs: &[FANNING],
    evaluate: |a| {
        let f = dodge_metzner_1959(a.number("reynolds")?, a.number("n")?)?;
        Ok(Outputs::new().put("fanning", Ratio::of(f)))
    },
};

/// Register entry of [`power_law_friction`].
pub static POWER_LAW_FRICTION: Relation = Relation {
    name: "power_law_friction",
    title: "Friction factor of a power-law fluid in all regimes, smooth pipe (Fanning)",
    equation: "f = 16/Re below 3470 - 1370n; dodge_metzner_1959 above 4270 - 1370n; log-log line between",
    source: "ryan_johnson1959; metzner_reed1955; dodge_metzner1959 p. 189",
    range: "n 0.36 to 1, Re to 36 000",
    inputs: &[RE.within(0.0, 36_000.0), N],
    outputs: &[FANNING],
    evaluate: |a| {
        let (f, _) = power_law_friction(a.number("reynolds")?, a.number("n")?)?;
        Ok(Outputs::new().put("fanning", Ratio::of(f)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_implicit_equation_is_met(re in 2500.0..1e6f64, n in 0.3..1.2f64) {
            let f = dodge_metzner_1959(re, n).unwrap();
            let right = 4.0 / n.powf(0.75) * (re * f.powf(1.0 - n / 2.0)).log10() - 0.4 / n.powf(1.2);
            prop_assert!((1.0 / f.sqrt() / right - 1.0).abs() < 1e-12);
        }

        #[test]
        fn no_jump_at_either_end_of_the_transition(n in 0.36..1.0f64) {
            let (low, high) = power_law_transition(n);
            for edge in [low, high] {
                let below = power_law_friction(edge * (1.0 - 1e-10), n).unwrap().0;
                let above = power_law_friction(edge * (1.0 + 1e-10), n).unwrap().0;
                prop_assert!((below / above - 1.0).abs() < 1e-8);
            }
        }
    }

    #[test]
    fn nonsense_is_refused() {
        assert!(dodge_metzner_1959(0.0, 0.5).is_err());
        assert!(power_law_friction(1e4, 0.0).is_err());
        assert!(power_law_friction(f64::NAN, 0.5).is_err());
    }
}
