//! Friction factors of Newtonian flow in a round pipe (all Darcy).

use crate::error::{Result, require, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::Ratio;

/// The state of the flow.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Regime {
    /// No flow.
    Still,
    /// Layered flow.
    Laminar,
    /// Between the two: the friction is not well defined and may jump.
    Transitional,
    /// Turbulent flow.
    Turbulent,
}

/// Reynolds numbers at which Newtonian pipe flow usually leaves the laminar state and is
/// surely turbulent.
pub const TRANSITION: (f64, f64) = (2100.0, 4000.0);

impl Regime {
    /// The regime of a Newtonian fluid in a pipe.
    pub fn of(reynolds: f64) -> Self {
        Self::between(reynolds, TRANSITION)
    }

    /// The regime for a given pair of limits.
    pub(crate) fn between(reynolds: f64, (laminar, turbulent): (f64, f64)) -> Self {
        if reynolds == 0.0 {
            Self::Still
        } else if reynolds < laminar {
            Self::Laminar
        } else if reynolds < turbulent {
            Self::Transitional
        } else {
            Self::Turbulent
        }
    }
}

/// Below this the logarithmic laws have no meaning and are refused.
const LAMINAR_ONLY: f64 = 2000.0;

fn check(relation: &'static str, reynolds: f64, relative_roughness: f64) -> Result<()> {
    require_positive(relation, "reynolds", Ratio::of(reynolds))?;
    let e = Ratio::of(relative_roughness);
    let inside = (0.0..0.5).contains(&relative_roughness);
    require(inside, relation, "relative_roughness", e, "from 0 to below 0.5", "Roughness over bore.")
}

fn check_turbulent(relation: &'static str, reynolds: f64, relative_roughness: f64) -> Result<()> {
    check(relation, reynolds, relative_roughness)?;
    let hint = "It has no laminar branch: use churchill_1977.";
    require(reynolds >= LAMINAR_ONLY, relation, "reynolds", Ratio::of(reynolds), "at least 2000", hint)
}

/// Laminar friction factor (Darcy) of a Newtonian fluid.
///
/// `f = 64/Re`
///
/// `f` Darcy friction factor, `Re = rho U D/mu`.
///
/// Range: `Re` below 2100.
///
/// Above that it is far too low: the flow is turbulent.
///
/// Source: white2011 ch. 6.
///
/// ```
/// use physics::hydraulics::friction_factor::laminar_friction;
/// assert_eq!(laminar_friction(640.0)?, 0.1);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn laminar_friction(reynolds: f64) -> Result<f64> {
    require_positive("laminar_friction", "reynolds", Ratio::of(reynolds))?;
    // f = 64/Re
    Ok(64.0 / reynolds)
}

/// Turbulent friction factor (Darcy) of Colebrook.
///
/// `1/sqrt(f) = -2 log10[e/(3.7 D) + 2.51/(Re sqrt(f))]`
///
/// `f` Darcy friction factor, `e/D` roughness over bore, `Re = rho U D/mu`.
///
/// Range: `Re` 4000 to 1e8, `e/D` 0 to 0.05; refused below `Re` 2000.
///
/// It follows commercial pipe within about 10 %; it has no laminar branch and no dip where
/// sand-grain roughness would have one.
///
/// Source: colebrook1939 p. 133. Solved by Newton's method from [`haaland_1983`].
///
/// ```
/// use physics::hydraulics::friction_factor::colebrook_1939;
/// let f = colebrook_1939(1e5, 1e-4)?;
/// assert!((f - 0.018_513_866_077_471).abs() < 1e-14);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn colebrook_1939(reynolds: f64, relative_roughness: f64) -> Result<f64> {
    check_turbulent("colebrook_1939", reynolds, relative_roughness)?;
    let (a, b) = (relative_roughness / 3.7, 2.51 / reynolds);
    let mut x = haaland_root(reynolds, relative_roughness);
    for _ in 0..8 {
        // F = x + 2 log10(a + b x), x = 1/sqrt(f)
        let inner = a + b * x;
        let f = x + 2.0 * inner.log10();
        let step = f / (1.0 + 2.0 * b / (inner * std::f64::consts::LN_10));
        x -= step;
        if step.abs() <= 1e-14 * x {
            break;
        }
    }
    Ok(1.0 / (x * x))
}

/// Explicit turbulent friction factor (Darcy) of Haaland.
///
/// `1/sqrt(f) = -1.8 log10[(e/(3.7 D))^1.11 + 6.9/Re]`
///
/// Symbols as in [`colebrook_1939`].
///
/// Range: `Re` 4000 to 1e8, `e/D` to 0.05; refused below `Re` 2000.
///
/// Within 2 % of Colebrook there.
///
/// Source: haaland1983 p. 89.
///
/// ```
/// use physics::hydraulics::friction_factor::haaland_1983;
/// let f = haaland_1983(1e5, 1e-4)?;
/// assert!((f - 0.018_265_053_014_794).abs() < 1e-14);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn haaland_1983(reynolds: f64, relative_roughness: f64) -> Result<f64> {
    check_turbulent("haaland_1983", reynolds, relative_roughness)?;
    Ok(haaland_root(reynolds, relative_roughness).powi(-2))
}

/// `1/sqrt(f)` of Haaland.
fn haaland_root(reynolds: f64, relative_roughness: f64) -> f64 {
    // 1/sqrt(f) = -1.8 log10[(e/(3.7 D))^1.11 + 6.9/Re]
    -1.8 * ((relative_roughness / 3.7).powf(1.11) + 6.9 / reynolds).log10()
}

/// Friction factor (Darcy) of Churchill for all regimes: the default of this program.
///
/// `f = 8[(8/Re)^12 + (A + B)^-1.5]^(1/12)`, `A = {2.457 ln[1/((7/Re)^0.9 + 0.27 e/D)]}^16`,
/// `B = (37530/Re)^16`
///
/// Symbols as in [`colebrook_1939`].
///
/// Range: none stated by the source.
///
/// Laminar below about `Re` 2000, within 1 % of Colebrook in rough and 2 % in smooth turbulent
/// flow, and one smooth curve between: the jump of real transition is not in it.
///
/// Source: churchill1977 p. 91.
///
/// ```
/// use physics::hydraulics::friction_factor::churchill_1977;
/// let f = churchill_1977(1e5, 1e-4)?;
/// assert!((f - 0.018_462_624_566_280).abs() < 1e-14);
/// assert!((churchill_1977(500.0, 0.0)? / (64.0 / 500.0) - 1.0).abs() < 1e-4);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn churchill_1977(reynolds: f64, relative_roughness: f64) -> Result<f64> {
    check("churchill_1977", reynolds, relative_roughness)?;
    Ok(churchill(reynolds, relative_roughness))
}

/// [`churchill_1977`] for inner loops: the caller has checked the input.
pub(crate) fn churchill(re: f64, ed: f64) -> f64 {
    if re < 10.0 {
        // the turbulent term is below 1e-16 of the laminar one, and its powers would overflow
        return 64.0 / re;
    }
    // A = {2.457 ln[1/((7/Re)^0.9 + 0.27 e/D)]}^16
    let a = (-2.457 * ((7.0 / re).powf(0.9) + 0.27 * ed).ln()).powi(16);
    // B = (37530/Re)^16
    let b = (37_530.0 / re).powi(16);
    let turbulent = 1.0 / (a + b);
    // f = 8[(8/Re)^12 + (A + B)^-1.5]^(1/12)
    8.0 * ((8.0 / re).powi(12) + turbulent * turbulent.sqrt()).powf(1.0 / 12.0)
}

const RE: Input = Input::new::<Ratio>("reynolds", "Reynolds number rho U D/mu");
const ROUGHNESS: Input = Input::new::<Ratio>("relative_roughness", "wall roughness over bore");
const DARCY: Output = Output::new::<Ratio>("darcy", "Darcy friction factor");

/// Register entry of [`laminar_friction`].
pub static LAMINAR_FRICTION: Relation = Relation {
    name: "laminar_friction",
    title: "Laminar friction factor (Darcy)",
    equation: "f = 64/Re",
    source: "white2011 ch. 6",
    range: "Re below 2100",
    inputs: &[RE.within(0.0, 2100.0)],
    outputs: &[DARCY],
    evaluate: |a| Ok(Outputs::new().put("darcy", Ratio::of(laminar_friction(a.number("reynolds")?)?))),
};

/// Register entry of [`colebrook_1939`].
pub static COLEBROOK_1939: Relation = Relation {
    name: "colebrook_1939",
    title: "Turbulent friction factor, implicit (Darcy)",
    equation: "1/sqrt(f) = -2 log10[e/(3.7 D) + 2.51/(Re sqrt(f))]",
    source: "colebrook1939 p. 133",
    range: "Re 4000 to 1e8, e/D to 0.05; refused below Re 2000",
    inputs: &[RE.within(4000.0, 1e8), ROUGHNESS.within(0.0, 0.05)],
    outputs: &[DARCY],
    evaluate: |a| {
        let f = colebrook_1939(a.number("reynolds")?, a.number("relative_roughness")?)?;
        Ok(Outputs::new().put("darcy", Ratio::of(f)))
    },
};

/// Register entry of [`haaland_1983`].
pub static HAALAND_1983: Relation = Relation {
    name: "haaland_1983",
    title: "Turbulent friction factor, explicit (Darcy)",
    equation: "1/sqrt(f) = -1.8 log10[(e/(3.7 D))^1.11 + 6.9/Re]",
    source: "haaland1983 p. 89",
    range: "Re 4000 to 1e8, e/D to 0.05; refused below Re 2000",
    inputs: &[RE.within(4000.0, 1e8), ROUGHNESS.within(0.0, 0.05)],
    outputs: &[DARCY],
    evaluate: |a| {
        let f = haaland_1983(a.number("reynolds")?, a.number("relative_roughness")?)?;
        Ok(Outputs::new().put("darcy", Ratio::of(f)))
    },
};

/// Register entry of [`churchill_1977`].
pub static CHURCHILL_1977: Relation = Relation {
    name: "churchill_1977",
    title: "Friction factor for all regimes (Darcy)",
    equation: "f = 8[(8/Re)^12 + (A + B)^-1.5]^(1/12); A = {2.457 ln[1/((7/Re)^0.9 + 0.27 e/D)]}^16; B = (37530/Re)^16",
    source: "churchill1977 p. 91",
    range: "none stated by the source",
    inputs: &[RE, ROUGHNESS.within(0.0, 0.05)],
    outputs: &[DARCY],
    evaluate: |a| {
        let f = churchill_1977(a.number("reynolds")?, a.number("relative_roughness")?)?;
        Ok(Outputs::new().put("darcy", Ratio::of(f)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn colebrook_satisfies_its_equation(re in 4e3..1e8f64, ed in 0.0..0.05f64) {
            let f = colebrook_1939(re, ed).unwrap();
            let right = -2.0 * (ed / 3.7 + 2.51 / (re * f.sqrt())).log10();
            prop_assert!((1.0 / f.sqrt() / right - 1.0).abs() < 1e-13);
            prop_assert!((haaland_1983(re, ed).unwrap() / f - 1.0).abs() < 0.02);
        }

        #[test]
        fn churchill_is_near_colebrook_when_turbulent(re in 1e4..1e8f64, ed in 0.0..0.05f64) {
            let ratio = churchill_1977(re, ed).unwrap() / colebrook_1939(re, ed).unwrap();
            prop_assert!((ratio - 1.0).abs() < 0.035, "{ratio}");
        }

        #[test]
        fn churchill_is_finite_and_never_below_laminar(log_re in -12.0..12.0f64, ed in 0.0..0.05f64) {
            let re = 10f64.powf(log_re);
            let f = churchill_1977(re, ed).unwrap();
            prop_assert!(f.is_finite() && f >= 64.0 / re * (1.0 - 1e-12));
        }
    }

    #[test]
    fn the_laminar_switch_is_seamless() {
        let (below, above) = (churchill(9.999_999_999, 0.01), churchill(10.0, 0.01));
        assert!((below / above - 1.0).abs() < 1e-9);
    }

    #[test]
    fn nonsense_is_refused() {
        assert!(laminar_friction(0.0).is_err());
        assert!(colebrook_1939(1500.0, 0.0).is_err());
        assert!(haaland_1983(1e5, -1e-4).is_err());
        assert!(churchill_1977(f64::NAN, 0.0).is_err());
        assert!(churchill_1977(1e5, 0.6).is_err());
    }

    #[test]
    fn regimes_by_reynolds_number() {
        use Regime::*;
        let names = [0.0, 100.0, 3000.0, 1e5].map(Regime::of);
        assert_eq!(names, [Still, Laminar, Transitional, Turbulent]);
    }
}
