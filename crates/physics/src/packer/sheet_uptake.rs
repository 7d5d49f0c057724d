//! Uptake of fluid by a sheet of rubber: a thin element on a pipe, or a laboratory coupon.

use crate::error::{require, require_not_negative, require_positive};
use crate::solve::brent;
use crate::{Error, Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, Diffusivity, Quantity, Ratio, Time};
use std::f64::consts::PI;

/// Below this `D t / h²` the short-time form is used; both agree there to 1e-14.
const HAND_OVER: f64 = 0.03;

/// Share of its final uptake a sheet has taken up after a time, constant diffusivity.
///
/// Equation: `φ = M_t/M_∞ = 1 − Σ 8/[(2n+1)² π²] exp[−(2n+1)² π² D t / (4h²)]`, n from 0;
/// at short time `φ = 2 √(D t / (π h²))`.
///
/// Symbols: D diffusivity m²/s, t time s, h thickness of a sheet wet on one side (half the
/// thickness of one wet on both) m; φ a pure number.
///
/// Range: none stated by the source; constant D and h.
///
/// Where it breaks: a swelling element thickens and its D may change with uptake, so a D
/// fitted over a test stands for the whole of that test only. On a pipe with an outer diameter
/// above 1.02 of the pipe's use [`super::cylinder_uptake`]. Negative times are refused.
///
/// Source: crank1975 sec. 4.3 (plane sheet, series and short-time form).
///
/// ```
/// use physics::packer::sheet_uptake::sheet_uptake;
/// use quantity::{Diameter, Diffusivity, Time};
/// let (h, d) = (Diameter::mm(10.0), Diffusivity::m2_per_s(1e-10));
/// assert!((sheet_uptake(h, d, Time::seconds(2e5))? - 0.504088).abs() < 1e-6);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn sheet_uptake(thickness: Diameter, diffusivity: Diffusivity, time: Time) -> Result<f64> {
    require_positive("sheet_uptake", "thickness", thickness)?;
    require_positive("sheet_uptake", "diffusivity", diffusivity)?;
    require_not_negative("sheet_uptake", "time", time)?;
    Ok(fraction(diffusivity.si() * time.si() / (thickness.si() * thickness.si())))
}

/// The uptake at `x = D t / h²`, x not negative.
pub(super) fn fraction(x: f64) -> f64 {
    if x <= HAND_OVER {
        // φ = 2 √(D t / (π h²))
        return 2.0 * (x / PI).sqrt();
    }
    // φ = 1 − Σ 8/[(2n+1)² π²] exp[−(2n+1)² π² D t / (4h²)]
    let unfilled: f64 = (0..14)
        .map(|n| {
            let m2 = f64::from(2 * n + 1).powi(2) * PI * PI;
            8.0 / m2 * (-m2 * x / 4.0).exp()
        })
        .sum();
    1.0 - unfilled
}

/// Time a sheet takes to reach a share of its final uptake: [`sheet_uptake`] solved for time.
///
/// Equation: as [`sheet_uptake`].
///
/// Symbols: as [`sheet_uptake`].
///
/// Range: uptake from 0 to below 1.
///
/// Where it breaks: full uptake takes for ever; 1 and above are refused.
///
/// Source: crank1975 sec. 4.3.
///
/// ```
/// use physics::packer::sheet_uptake::sheet_uptake_time;
/// use quantity::{Diameter, Diffusivity};
/// let t = sheet_uptake_time(Diameter::mm(10.0), Diffusivity::m2_per_s(1e-10), 0.5)?;
/// assert!((t.in_seconds() - 196_731.0).abs() < 1.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn sheet_uptake_time(thickness: Diameter, diffusivity: Diffusivity, uptake: f64) -> Result<Time> {
    require_positive("sheet_uptake_time", "thickness", thickness)?;
    require_positive("sheet_uptake_time", "diffusivity", diffusivity)?;
    let x = scaled_time("sheet_uptake_time", uptake, fraction)?;
    Ok(Time::seconds(x * thickness.si() * thickness.si() / diffusivity.si()))
}

/// `D t / h²` at which `fraction` reaches `uptake`.
pub(super) fn scaled_time(relation: &'static str, uptake: f64, fraction: impl Fn(f64) -> f64) -> Result<f64> {
    let inside = (0.0..1.0).contains(&uptake);
    let hint = "Full uptake takes for ever; ask for 0.99.";
    require(inside, relation, "uptake", Ratio::of(uptake), "0 or more and below 1", hint)?;
    if uptake == 0.0 {
        return Ok(0.0);
    }
    // The square root of time, in which uptake begins as a straight line. At x = 40 less than
    // 1e-40 is unfilled.
    let root = brent(|r| fraction(r * r) - uptake, 0.0, 40f64.sqrt(), 1e-13);
    root.map(|r| r * r).ok_or(Error::NoSolution {
        relation,
        what: "the uptake is not reached".into(),
        hint: "Check the uptake.",
    })
}

/// `sheet_uptake` in the register.
pub static SHEET_UPTAKE: Relation = Relation {
    name: "sheet_uptake",
    title: "Share of its final uptake a sheet of rubber has taken up after a time",
    equation: "φ = 1 − Σ 8/[(2n+1)² π²] exp[−(2n+1)² π² D t/(4h²)];  short time φ = 2 √(D t/(π h²))",
    source: "crank1975 sec. 4.3",
    range: "none stated by the source; constant diffusivity",
    inputs: &[
        Input::new::<Diameter>("thickness", "thickness of a sheet wet on one side, half of one wet on both"),
        Input::new::<Diffusivity>("diffusivity", "diffusivity of the fluid in the rubber"),
        Input::new::<Time>("time", "time wet"),
    ],
    outputs: &[Output::new::<Ratio>("uptake", "share of the final uptake")],
    evaluate: |a| {
        let uptake = sheet_uptake(a.get("thickness")?, a.get("diffusivity")?, a.get("time")?)?;
        Ok(Outputs::new().put("uptake", Ratio::of(uptake)))
    },
};

/// `sheet_uptake_time` in the register.
pub static SHEET_UPTAKE_TIME: Relation = Relation {
    name: "sheet_uptake_time",
    title: "Time a sheet of rubber takes to reach a share of its final uptake",
    equation: "sheet_uptake solved for t",
    source: "crank1975 sec. 4.3",
    range: "uptake from 0 to below 1",
    inputs: &[
        Input::new::<Diameter>("thickness", "thickness of a sheet wet on one side, half of one wet on both"),
        Input::new::<Diffusivity>("diffusivity", "diffusivity of the fluid in the rubber"),
        Input::new::<Ratio>("uptake", "share of the final uptake"),
    ],
    outputs: &[Output::new::<Time>("time", "time wet")],
    evaluate: |a| {
        let time = sheet_uptake_time(a.get("thickness")?, a.get("diffusivity")?, a.number("uptake")?)?;
        Ok(Outputs::new().put("time", time))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_two_forms_meet() {
        let below = fraction(HAND_OVER);
        let above = fraction(HAND_OVER * (1.0 + 1e-15));
        assert!((below - above).abs() < 1e-13, "{below} {above}");
    }

    proptest::proptest! {
        #[test]
        fn grows_and_inverts(x in 1e-8f64..5.0) {
            let phi = fraction(x);
            proptest::prop_assert!(phi > 0.0 && phi < 1.0 && fraction(x * 1.01) > phi);
            let back = scaled_time("t", phi, fraction).unwrap();
            proptest::prop_assert!((back / x - 1.0).abs() < 1e-6);
        }
    }
}
