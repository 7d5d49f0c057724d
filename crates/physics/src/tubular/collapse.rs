//! Collapse pressure of the pipe body in the four regimes of the standard.

use super::collapse_coefficients::{CollapseCoefficients, ELASTIC, collapse_coefficients};
use super::collapse_yield::{CollapseLoad, CollapseMethod, collapse_yield};
use super::tube::Tube;
use crate::error::require;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, Pressure, Ratio};

const NAME: &str = "api_collapse";
const FORMULAS_NAME: &str = "collapse_formulas";

/// The regime that governs, by slenderness.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CollapseRegime {
    /// Thick wall: the bore yields.
    Yield,
    /// Empirical plastic collapse.
    Plastic,
    /// Between plastic and elastic.
    Transition,
    /// Thin wall: the tube buckles elastically.
    Elastic,
}

impl CollapseRegime {
    /// The regime of a slenderness D/t.
    pub fn of(slenderness: f64, k: &CollapseCoefficients) -> Self {
        if slenderness <= k.yield_limit {
            Self::Yield
        } else if slenderness <= k.plastic_limit {
            Self::Plastic
        } else if slenderness <= k.transition_limit {
            Self::Transition
        } else {
            Self::Elastic
        }
    }

    /// Name in plain words.
    pub fn word(self) -> &'static str {
        match self {
            Self::Yield => "yield",
            Self::Plastic => "plastic",
            Self::Transition => "transition",
            Self::Elastic => "elastic",
        }
    }

    /// Number in the register's output: 1 yield, 2 plastic, 3 transition, 4 elastic.
    pub fn number(self) -> f64 {
        match self {
            Self::Yield => 1.0,
            Self::Plastic => 2.0,
            Self::Transition => 3.0,
            Self::Elastic => 4.0,
        }
    }

    /// Collapse pressure of this regime's formula at slenderness `r`, with `yp` in psi.
    fn pressure(self, r: f64, yp: f64, k: &CollapseCoefficients) -> Pressure {
        Pressure::psi(match self {
            // Pyc = 2 Yp (r - 1) / r^2
            Self::Yield => 2.0 * yp * (r - 1.0) / (r * r),
            // Pp = Yp (A/r - B) - C
            Self::Plastic => yp * (k.a / r - k.b) - k.c.in_psi(),
            // Pt = Yp (F/r - G)
            Self::Transition => yp * (k.f / r - k.g),
            // Pe = 46.95e6 / (r (r - 1)^2)
            Self::Elastic => ELASTIC / (r * (r - 1.0).powi(2)),
        })
    }
}

/// Collapse of a pipe body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Collapse {
    /// The regime that governs.
    pub regime: CollapseRegime,
    /// Collapse rating: the allowed difference outside minus inside (combined stress), or the
    /// allowed equivalent external pressure.
    pub rating: Pressure,
    /// Allowed outside pressure with the given inside pressure.
    pub external_limit: Pressure,
    /// Yield strength left under the load.
    pub reduced_yield: Pressure,
    /// Slenderness D/t.
    pub slenderness: f64,
}

/// Collapse rating of a pipe body: yield, plastic, transition or elastic regime.
///
/// Equation, with `r = D/t` and `Yp` replaced by `Ypa`:
/// `Pyc = 2 Yp (r-1)/r^2` up to `(D/t)yp`; `Pp = Yp (A/r - B) - C` up to `(D/t)pt`;
/// `Pt = Yp (F/r - G)` up to `(D/t)te`; `Pe = 46.95e6 / [r (r-1)^2]` beyond (psi).
/// Allowed outside pressure: `Po = Pc + Pi` (combined stress) or
/// `Po = Pc + (1 - 2/r) Pi` (equivalent pressure)
///
/// - `D` nominal outer diameter, `t` nominal wall
/// - `A, B, C, F, G` and the limits: see `collapse_coefficients`
/// - `Ypa` yield strength left under axial stress and internal pressure: see `collapse_yield`
/// - `Pi` internal pressure
///
/// Range: the coefficients are fitted to 40 000 to 180 000 psi; D/t from about 7 to 60.
///
/// Where it breaks: it is a minimum for round, undamaged new pipe at room temperature; worn,
/// dented, bent or oval pipe collapses earlier. The regime is chosen by D/t, not as the least
/// of the four. No wall tolerance factor belongs in it. Where little yield strength is left
/// (below 20 000 psi) it refuses.
///
/// Source: api_5c3_1994, collapse; api_5c3_addendum_2015 clause 8.4.6 for the combined stress.
///
/// ```
/// use physics::tubular::collapse::{CollapseRegime, api_collapse};
/// use physics::tubular::collapse_yield::{CollapseLoad, CollapseMethod};
/// use physics::tubular::tube::Tube;
/// use quantity::{Diameter, Pressure};
/// let tube = Tube::new("example", Diameter::inch(9.625), Diameter::inch(0.472))?;
/// let load = CollapseLoad::default();
/// let c = api_collapse(tube, Pressure::psi(80_000.0), load, CollapseMethod::CombinedStress)?;
/// assert_eq!(c.regime, CollapseRegime::Plastic);
/// assert!((c.rating.in_psi() - 4_760.0).abs() < 10.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn api_collapse(
    tube: Tube,
    yield_strength: Pressure,
    load: CollapseLoad,
    method: CollapseMethod,
) -> Result<Collapse> {
    let reduced_yield = collapse_yield(yield_strength, load, method)?;
    let k = collapse_coefficients(reduced_yield)?;
    let slenderness = tube.slenderness();
    let regime = CollapseRegime::of(slenderness, &k);
    let rating = regime.pressure(slenderness, reduced_yield.in_psi(), &k);
    let inside_share = match method {
        // Po = Pc + Pi
        CollapseMethod::CombinedStress => 1.0,
        // Po = Pc + (1 - 2t/D) Pi
        CollapseMethod::EquivalentPressure => 1.0 - 2.0 / slenderness,
    };
    let external_limit = rating + load.internal_pressure * inside_share;
    Ok(Collapse { regime, rating, external_limit, reduced_yield, slenderness })
}

/// The four collapse formulas side by side, whatever the regime.
///
/// Equation: `Pyc = 2 Yp (r-1)/r^2`, `Pp = Yp (A/r - B) - C`, `Pt = Yp (F/r - G)`,
/// `Pe = 46.95e6 / [r (r-1)^2]`
///
/// - `r` slenderness D/t
/// - `Yp` yield strength, psi
/// - `A, B, C, F, G`: see `collapse_coefficients`
///
/// Range: each formula holds in its own band of D/t only.
///
/// Where it breaks: outside its band a formula is no rating; this relation is for teaching and
/// for checking. Slenderness of two or less is refused.
///
/// Source: api_5c3_1994, collapse.
///
/// ```
/// use physics::tubular::collapse::collapse_formulas;
/// use quantity::{Pressure, Ratio};
/// let [y, p, t, e] = collapse_formulas(Ratio::of(20.392), Pressure::psi(80_000.0))?;
/// assert!((y.in_psi() - 7_461.0).abs() < 1.0 && (e.in_psi() - 6_123.0).abs() < 1.0);
/// assert!((p.in_psi() - 4_754.0).abs() < 5.0 && (t.in_psi() - 4_366.0).abs() < 5.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn collapse_formulas(slenderness: Ratio, yield_strength: Pressure) -> Result<[Pressure; 4]> {
    let r = slenderness.in_one();
    let hint = "It is the outer diameter over the wall.";
    require(r > 2.0 && r < 1e6, FORMULAS_NAME, "slenderness", slenderness, "above two", hint)?;
    let k = collapse_coefficients(yield_strength)?;
    let regimes =
        [CollapseRegime::Yield, CollapseRegime::Plastic, CollapseRegime::Transition, CollapseRegime::Elastic];
    Ok(regimes.map(|regime| regime.pressure(r, yield_strength.in_psi(), &k)))
}

/// Register entry of [`api_collapse`].
pub static API_COLLAPSE: Relation = Relation {
    name: NAME,
    title: "Collapse rating of the pipe body (difference outside minus inside)",
    equation: "yield: 2 Yp (r-1)/r^2; plastic: Yp (A/r - B) - C; transition: Yp (F/r - G); elastic: 46.95e6/[r (r-1)^2]; r = D/t",
    source: "api_5c3_1994, collapse; api_5c3_addendum_2015 clause 8.4.6 (combined stress)",
    range: "yield strength 40 000 to 180 000 psi; round, undamaged pipe at room temperature",
    inputs: &[
        Input::new::<Diameter>("outer", "nominal outer diameter D"),
        Input::new::<Diameter>("wall", "nominal wall t"),
        Input::new::<Pressure>("yield_strength", "specified minimum yield strength Yp")
            .within(275.790e6, 1_241.1e6),
        Input::new::<Pressure>("axial_stress", "axial stress Sa, tension positive").or("0 psi"),
        Input::new::<Pressure>("internal_pressure", "internal pressure Pi").or("0 psi"),
        Input::choice("method", CollapseMethod::WORDS, "how axial stress and internal pressure enter")
            .or("combined-stress"),
    ],
    outputs: &[
        Output::new::<Pressure>("rating", "collapse rating Pc"),
        Output::new::<Pressure>("external_limit", "allowed outside pressure Po with this inside pressure"),
        Output::new::<Pressure>("reduced_yield", "yield strength left Ypa"),
        Output::new::<Ratio>("slenderness", "D/t"),
        Output::new::<Ratio>("regime", "1 yield, 2 plastic, 3 transition, 4 elastic"),
    ],
    evaluate: |a| {
        let tube = Tube::new(NAME, a.get("outer")?, a.get("wall")?)?;
        let load = CollapseLoad {
            axial_stress: a.get("axial_stress")?,
            internal_pressure: a.get("internal_pressure")?,
        };
        let c = api_collapse(tube, a.get("yield_strength")?, load, CollapseMethod::of(a.word("method")?))?;
        Ok(Outputs::new()
            .put("rating", c.rating)
            .put("external_limit", c.external_limit)
            .put("reduced_yield", c.reduced_yield)
            .put("slenderness", Ratio::of(c.slenderness))
            .put("regime", Ratio::of(c.regime.number())))
    },
};

/// Register entry of [`collapse_formulas`].
pub static COLLAPSE_FORMULAS: Relation = Relation {
    name: FORMULAS_NAME,
    title: "The four collapse formulas side by side",
    equation: "Pyc = 2 Yp (r-1)/r^2; Pp = Yp (A/r - B) - C; Pt = Yp (F/r - G); Pe = 46.95e6/[r (r-1)^2]",
    source: "api_5c3_1994, collapse",
    range: "each formula within its own band of D/t",
    inputs: &[
        Input::new::<Ratio>("slenderness", "outer diameter over wall D/t"),
        Input::new::<Pressure>("yield_strength", "yield strength Yp").within(275.790e6, 1_241.1e6),
    ],
    outputs: &[
        Output::new::<Pressure>("yield_collapse", "yield formula"),
        Output::new::<Pressure>("plastic_collapse", "plastic formula"),
        Output::new::<Pressure>("transition_collapse", "transition formula"),
        Output::new::<Pressure>("elastic_collapse", "elastic formula"),
    ],
    evaluate: |a| {
        let [y, p, t, e] = collapse_formulas(a.get("slenderness")?, a.get("yield_strength")?)?;
        Ok(Outputs::new()
            .put("yield_collapse", y)
            .put("plastic_collapse", p)
            .put("transition_collapse", t)
            .put("elastic_collapse", e))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn rated(d: f64, t: f64, ksi: f64, sa: f64, pi: f64, method: CollapseMethod) -> Option<Collapse> {
        let tube = Tube::new("test", Diameter::inch(d), Diameter::inch(t)).ok()?;
        let load = CollapseLoad { axial_stress: Pressure::psi(sa), internal_pressure: Pressure::psi(pi) };
        api_collapse(tube, Pressure::ksi(ksi), load, method).ok()
    }

    #[test]
    fn the_formulas_meet_at_the_limits() {
        for ksi in [40.0, 55.0, 80.0, 95.0, 110.0, 125.0, 180.0] {
            let yp = Pressure::ksi(ksi);
            let k = collapse_coefficients(yp).unwrap();
            for (limit, left, right) in
                [(k.yield_limit, 0, 1), (k.plastic_limit, 1, 2), (k.transition_limit, 2, 3)]
            {
                let all = collapse_formulas(Ratio::of(limit), yp).unwrap();
                let (a, b) = (all[left].in_psi(), all[right].in_psi());
                assert!((a - b).abs() < 1e-6 * a, "{ksi} {limit}: {a} {b}");
            }
        }
    }

    proptest! {
        #[test]
        fn tension_and_inside_pressure_never_raise_the_difference(
            t in 0.2f64..0.8, ksi in 55.0f64..140.0, sa in 0.0f64..30_000.0, pi in 0.0f64..10_000.0,
        ) {
            let m = CollapseMethod::CombinedStress;
            let free = rated(5.5, t, ksi, 0.0, 0.0, m).unwrap();
            let loaded = rated(5.5, t, ksi, sa, pi, m).unwrap();
            prop_assert!(loaded.rating.in_psi() <= free.rating.in_psi() * (1.0 + 1e-9));
            let older = rated(5.5, t, ksi, sa, pi, CollapseMethod::EquivalentPressure).unwrap();
            prop_assert!(older.rating.in_psi() >= loaded.rating.in_psi() * (1.0 - 1e-9));
        }

        #[test]
        fn compression_gives_no_credit(t in 0.2f64..0.8, sa in -80_000.0f64..0.0) {
            let m = CollapseMethod::CombinedStress;
            prop_assert_eq!(rated(5.5, t, 110.0, sa, 0.0, m), rated(5.5, t, 110.0, 0.0, 0.0, m));
        }

        #[test]
        fn a_thicker_wall_never_collapses_earlier(t in 0.15f64..0.9, ksi in 40.0f64..180.0) {
            let m = CollapseMethod::CombinedStress;
            let (thin, thick) = (rated(5.5, t, ksi, 0.0, 0.0, m).unwrap(), rated(5.5, t * 1.01, ksi, 0.0, 0.0, m).unwrap());
            prop_assert!(thick.rating.in_psi() >= thin.rating.in_psi());
        }
    }
}
