//! Area and efficiency of a fracture of constant width that leaks off (Carter's second form).

use crate::error::{Result, require_not_negative, require_positive};
use crate::{Arguments, Input, Output, Outputs, Relation};
use quantity::{Area, Diameter, FlowRate, Leakoff, Quantity, Ratio, Spurt, Time};
use std::f64::consts::PI;

/// One wing of a fracture of constant width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wing {
    /// Width averaged over the face.
    pub mean_width: Diameter,
    /// Spurt loss.
    pub spurt: Spurt,
    /// Leak-off coefficient.
    pub leakoff: Leakoff,
    /// Rate into one wing.
    pub rate: FlowRate,
}

impl Wing {
    pub(crate) fn read(a: &Arguments) -> Result<Self> {
        Ok(Self {
            mean_width: a.get("mean_width")?,
            spurt: a.get("spurt")?,
            leakoff: a.get("leakoff")?,
            rate: a.get("wing_rate")?,
        })
    }
}

/// What Carter's form gives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leaking {
    /// Area of one face of one wing.
    pub area: Area,
    /// Dimensionless root of time `b`.
    pub beta: f64,
    /// Volume in the fracture over volume pumped.
    pub efficiency: f64,
}

/// `e^(x²) erfc(x)` for `x >= 0`, without overflow.
pub fn scaled_erfc(x: f64) -> f64 {
    if x < 3.0 {
        return (x * x).exp() * libm::erfc(x);
    }
    // continued fraction: √π e^(x²) erfc x = 1/(x + (1/2)/(x + (2/2)/(x + (3/2)/(x + …))))
    let mut tail = x;
    for k in (1..=60).rev() {
        tail = x + 0.5 * f64::from(k) / tail;
    }
    1.0 / (PI.sqrt() * tail)
}

/// `e^(b²) erfc(b) + 2 b/√π − 1`.
fn bracket(b: f64) -> f64 {
    if b >= 0.5 {
        return scaled_erfc(b) + 2.0 * b / PI.sqrt() - 1.0;
    }
    // Σ_{k>=2} (−b)^k/Γ(k/2 + 1): no cancellation while b is small
    let (mut even, mut odd) = (b * b, -4.0 * b * b * b / (3.0 * PI.sqrt()));
    let mut sum = even + odd;
    for k in 2..16 {
        let k = f64::from(k);
        even *= b * b / k;
        odd *= b * b / (k + 0.5);
        sum += even + odd;
    }
    sum
}

/// The same in plain SI numbers: area of one face.
pub(crate) fn area_si(mean_width: f64, spurt: f64, c: f64, rate: f64, time: f64) -> (f64, f64) {
    let holds = mean_width + 2.0 * spurt;
    // b = 2 C √(π t)/(w̄ + 2 S)
    let b = 2.0 * c * (PI * time).sqrt() / holds;
    // A = (w̄ + 2 S) i/(4 π C²) [..] = i t/(w̄ + 2 S) [..]/b²
    let share = if b > 0.0 { bracket(b) / (b * b) } else { 1.0 };
    (rate * time / holds * share, b)
}

/// Area and efficiency of a fracture of constant width that leaks off (one wing).
///
/// Equation: `A = (w̄ + 2 S) i/(4 π C²) [e^(b²) erfc b + 2 b/√π − 1]`, `b = 2 C √(π t)/(w̄ + 2 S)`,
/// `η = w̄ A/(i t)`.
///
/// Symbols: `A` area of one face m², `w̄` mean width m, `S` spurt m³/m², `C` leak-off coefficient
/// m/√s, `i` rate into one wing m³/s, `t` time s, `η` efficiency.
///
/// Range: none stated; constant width, constant rate, Carter's law.
///
/// Where it breaks: the width of a real fracture grows, see [`super::coupled::coupled_leakoff`];
/// `e^(b²)` overflows above b = 26, so the product is computed in one. Arguments not above zero
/// are refused (spurt and coefficient may be zero).
///
/// Source: howard_fast1957 (Carter's appendix).
///
/// ```
/// use physics::fracture::carter::{Wing, carter_area};
/// use quantity::{Diameter, FlowRate, Leakoff, Spurt, Time};
/// let wing = Wing {
///     mean_width: Diameter::mm(5.0),
///     spurt: Spurt::ZERO,
///     leakoff: Leakoff::m_per_root_s(5e-5),
///     rate: FlowRate::m3_per_s(0.053),
/// };
/// let leaking = carter_area(&wing, Time::hours(1.0))?;
/// assert!((leaking.area.in_m2() - 13854.68).abs() < 0.01);
/// assert!((leaking.efficiency - 0.363068).abs() < 1e-6);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn carter_area(wing: &Wing, time: Time) -> Result<Leaking> {
    require_positive(NAME, "mean_width", wing.mean_width)?;
    require_not_negative(NAME, "spurt", wing.spurt)?;
    require_not_negative(NAME, "leakoff", wing.leakoff)?;
    require_positive(NAME, "wing_rate", wing.rate)?;
    require_positive(NAME, "time", time)?;
    let (w, i, t) = (wing.mean_width.si(), wing.rate.si(), time.si());
    let (area, beta) = area_si(w, wing.spurt.si(), wing.leakoff.si(), i, t);
    // η = w̄ A/(i t)
    Ok(Leaking { area: Area::m2(area), beta, efficiency: w * area / (i * t) })
}

const NAME: &str = "carter_area";

/// The inputs of a wing that leaks off, as [`Wing::read`] takes them, and the time.
pub(super) const WING: [Input; 5] = [
    Input::new::<Diameter>("mean_width", "width averaged over the face"),
    Input::new::<Spurt>("spurt", "spurt loss").or("0 L/m2"),
    Input::new::<Leakoff>("leakoff", "leak-off coefficient"),
    Input::new::<FlowRate>("wing_rate", "rate into ONE wing, half the pumped rate"),
    Input::new::<Time>("time", "time since the fracture began"),
];

/// `carter_area` in the register.
pub static CARTER_AREA: Relation = Relation {
    name: NAME,
    title: "Area and efficiency of a fracture of constant width that leaks off (one wing's rate)",
    equation: "A = (w̄ + 2 S) i/(4 π C²) [e^(b²) erfc b + 2 b/√π − 1], b = 2 C √(π t)/(w̄ + 2 S), η = w̄ A/(i t)",
    source: "howard_fast1957 appendix",
    range: "none stated by the source; constant width and rate",
    inputs: &WING,
    outputs: &[
        Output::new::<Area>("area", "area of one face of one wing"),
        Output::new::<Ratio>("beta", "dimensionless root of time, b"),
        Output::new::<Ratio>("efficiency", "volume in the fracture over volume pumped"),
    ],
    evaluate: |a| {
        let found = carter_area(&Wing::read(a)?, a.get("time")?)?;
        Ok(Outputs::new()
            .put("area", found.area)
            .put("beta", Ratio::of(found.beta))
            .put("efficiency", Ratio::of(found.efficiency)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_branches_meet() {
        for x in [0.5f64, 3.0] {
            let (below, above) = (bracket(x * (1.0 - 1e-12)), bracket(x * (1.0 + 1e-12)));
            assert!((below / above - 1.0).abs() < 1e-10, "{x}");
        }
        let direct = (9.0f64).exp() * libm::erfc(3.0);
        assert!((scaled_erfc(3.0) / direct - 1.0).abs() < 1e-12);
    }

    #[test]
    fn large_arguments_do_not_overflow() {
        // e^(x²) erfc x → 1/(x √π)
        assert!((scaled_erfc(1e4) * 1e4 * PI.sqrt() - 1.0).abs() < 1e-8);
        // η → 2/(b √π) for large b
        let (area, b) = area_si(1e-6, 0.0, 1e-3, 0.05, 3600.0);
        assert!(b > 1e5 && (area * 1e-6 / 180.0 * b * PI.sqrt() / 2.0 - 1.0).abs() < 1e-5);
    }

    #[test]
    fn without_leakoff_all_is_in_the_fracture() {
        assert_eq!(area_si(0.005, 0.0, 0.0, 0.05, 100.0).0, 0.05 * 100.0 / 0.005);
        let (area, _) = area_si(0.005, 0.0, 1e-12, 0.05, 100.0);
        assert!((area * 0.005 / 5.0 - 1.0).abs() < 1e-7);
    }
}
