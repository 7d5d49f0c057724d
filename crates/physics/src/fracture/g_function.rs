//! Pressure decline after shut-in: Nolte's dimensionless time.

use crate::error::{Result, require, require_not_negative};
use crate::{Input, Output, Outputs, Relation};
use quantity::Ratio;
use std::f64::consts::PI;

/// Nolte's functions at one time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Decline {
    /// Loss function `g`.
    pub g: f64,
    /// Its value at shut-in.
    pub at_shut_in: f64,
    /// Dimensionless time `G = (4/π)(g − g at shut-in)`.
    pub big: f64,
}

fn check_growth(relation: &'static str, growth: f64) -> Result<()> {
    let hint = "1 is little leak-off, 1/2 much.";
    require((0.5..=1.0).contains(&growth), relation, "growth", Ratio::of(growth), "from 1/2 to 1", hint)
}

/// Loss function of a fracture whose area grew as a power of time and then stood.
///
/// Equation: `g = (4/3)[(1 + δ)^1.5 − δ^1.5]` at α = 1, `g = (1 + δ) asin (1 + δ)^(−½) + δ^½` at
/// α = ½, straight in α between; `G = (4/π)(g(δ) − g(0))`.
///
/// Symbols: `δ` time since shut-in over time of pumping, `α` power of time by which the area
/// grew, pure numbers.
///
/// Range: `δ >= 0`, `½ <= α <= 1`.
///
/// Where it breaks: at α between the ends the straight line is up to 1 % off (see
/// [`nolte_g_zero`]); growth after shut-in, leak-off that depends on pressure or a fracture that
/// loses height bend the plot. Other arguments are refused.
///
/// Source: nolte1979; nolte1986.
///
/// ```
/// let decline = physics::fracture::g_function::nolte_g(1.0, 1.0)?;
/// assert!((decline.big - 1.406382).abs() < 1e-6);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn nolte_g(delta: f64, growth: f64) -> Result<Decline> {
    require_not_negative("nolte_g", "delta", Ratio::of(delta))?;
    check_growth("nolte_g", growth)?;
    let g = |d: f64| {
        // little leak-off, α = 1; much, α = ½
        let little = 4.0 / 3.0 * ((1.0 + d).powf(1.5) - d.powf(1.5));
        let much = (1.0 + d) * (1.0 + d).sqrt().recip().asin() + d.sqrt();
        much + (growth - 0.5) / 0.5 * (little - much)
    };
    let (now, start) = (g(delta), g(0.0));
    // G = (4/π)(g − g_0)
    Ok(Decline { g: now, at_shut_in: start, big: 4.0 / PI * (now - start) })
}

/// Loss function at shut-in, exact at any growth.
///
/// Equation: `g_0 = √π Γ(α + 1)/Γ(α + 3/2)`.
///
/// Symbols: `α` power of time by which the area grew.
///
/// Range: `½ <= α <= 1`.
///
/// Where it breaks: not at the ends of the range; outside it the call is refused.
///
/// Source: nolte1986; it is the beta function that Carter's law makes of such a growth.
///
/// ```
/// let g = physics::fracture::g_function::nolte_g_zero(0.8)?;
/// assert!((g - 1.414946).abs() < 1e-6);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn nolte_g_zero(growth: f64) -> Result<f64> {
    check_growth("nolte_g_zero", growth)?;
    // g_0 = √π Γ(α + 1)/Γ(α + 3/2)
    Ok(PI.sqrt() * libm::tgamma(growth + 1.0) / libm::tgamma(growth + 1.5))
}

/// Efficiency at the end of pumping, from Nolte's time at closure.
///
/// Equation: `η = G_c/(2 + G_c)`.
///
/// Symbols: `G_c` Nolte's dimensionless time at closure, of [`nolte_g`].
///
/// Range: `G_c >= 0`, no spurt.
///
/// Where it breaks: spurt makes it too large; growth after shut-in makes it too small. A negative
/// time is refused.
///
/// Source: nolte1986.
///
/// ```
/// let efficiency = physics::fracture::g_function::efficiency_from_closure(1.406382)?;
/// assert!((efficiency - 0.4129).abs() < 5e-5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn efficiency_from_closure(closure: f64) -> Result<f64> {
    require_not_negative("efficiency_from_closure", "closure_g", Ratio::of(closure))?;
    // η = G_c/(2 + G_c)
    Ok(closure / (2.0 + closure))
}

const GROWTH: Input = Input::new::<Ratio>("growth", "power of time by which the area grew, 1/2 to 1");

/// `nolte_g` in the register.
pub static NOLTE_G: Relation = Relation {
    name: "nolte_g",
    title: "Nolte's loss function and dimensionless time after shut-in",
    equation: "g(α=1) = (4/3)[(1+δ)^1.5 − δ^1.5], g(α=1/2) = (1+δ) asin (1+δ)^(−1/2) + δ^(1/2), G = (4/π)(g − g(0))",
    source: "nolte1979; nolte1986",
    range: "δ >= 0, 1/2 <= α <= 1",
    inputs: &[Input::new::<Ratio>("delta", "time since shut-in over time of pumping"), GROWTH.or("1")],
    outputs: &[
        Output::new::<Ratio>("g", "loss function"),
        Output::new::<Ratio>("g_shut_in", "loss function at shut-in"),
        Output::new::<Ratio>("big_g", "dimensionless time G"),
    ],
    evaluate: |a| {
        let found = nolte_g(a.number("delta")?, a.number("growth")?)?;
        Ok(Outputs::new()
            .put("g", Ratio::of(found.g))
            .put("g_shut_in", Ratio::of(found.at_shut_in))
            .put("big_g", Ratio::of(found.big)))
    },
};

/// `nolte_g_zero` in the register.
pub static NOLTE_G_ZERO: Relation = Relation {
    name: "nolte_g_zero",
    title: "Nolte's loss function at shut-in, exact at any growth",
    equation: "g_0 = √π Γ(α + 1)/Γ(α + 3/2)",
    source: "nolte1986",
    range: "1/2 <= α <= 1",
    inputs: &[GROWTH],
    outputs: &[Output::new::<Ratio>("g_shut_in", "loss function at shut-in")],
    evaluate: |a| Ok(Outputs::new().put("g_shut_in", Ratio::of(nolte_g_zero(a.number("growth")?)?))),
};

/// `efficiency_from_closure` in the register.
pub static EFFICIENCY_FROM_CLOSURE: Relation = Relation {
    name: "efficiency_from_closure",
    title: "Efficiency at the end of pumping, from Nolte's time at closure",
    equation: "η = G_c/(2 + G_c)",
    source: "nolte1986",
    range: "G_c >= 0, no spurt",
    inputs: &[Input::new::<Ratio>("closure_g", "Nolte's dimensionless time at closure")],
    outputs: &[Output::new::<Ratio>("efficiency", "volume in the fracture over volume pumped")],
    evaluate: |a| {
        let found = efficiency_from_closure(a.number("closure_g")?)?;
        Ok(Outputs::new().put("efficiency", Ratio::of(found)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_forms_agree_at_shut_in() {
        for growth in [0.5, 1.0] {
            let exact = nolte_g_zero(growth).unwrap();
            assert!((nolte_g(0.0, growth).unwrap().at_shut_in - exact).abs() < 1e-14);
        }
        let straight = nolte_g(0.0, 0.8).unwrap().at_shut_in;
        assert!((straight / nolte_g_zero(0.8).unwrap() - 1.0).abs() < 0.01);
    }

    #[test]
    fn time_runs_forward() {
        let mut last = -1.0;
        for d in [0.0, 0.01, 0.1, 1.0, 10.0, 100.0] {
            let big = nolte_g(d, 0.7).unwrap().big;
            assert!(big > last);
            last = big;
        }
        assert!(nolte_g(-0.1, 1.0).is_err() && nolte_g(1.0, 0.3).is_err() && nolte_g(f64::NAN, 1.0).is_err());
        assert!(efficiency_from_closure(-1.0).is_err());
    }
}
