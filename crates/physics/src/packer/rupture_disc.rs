//! The pressures between which a rupture disc bursts, and any device rated with a tolerance.

use crate::error::{require, require_positive};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Pressure, Ratio};

/// The pressures between which a device acts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// Lowest.
    pub low: Pressure,
    /// Nominal.
    pub nominal: Pressure,
    /// Highest.
    pub high: Pressure,
}

/// Window of a device rated with a tolerance, at temperature.
///
/// Equation: `P = f_T P_rated`, ends `P (1 ± tol)`.
///
/// Symbols: P_rated rated pressure difference Pa, f_T factor at temperature (pure number), tol
/// tolerance as a share.
///
/// Range: none stated by the source.
///
/// Where it breaks: a disc fatigues under repeated tests near its rating and then bursts below
/// its low end; a tolerance of one or more is refused.
///
/// Source: asme_viii UG-127 (a burst tolerance about a marked pressure at a stated temperature).
///
/// ```
/// use physics::packer::rupture_disc::rupture_disc;
/// use quantity::Pressure;
/// let disc = rupture_disc(Pressure::psi(10_000.0), 0.03, 1.0)?;
/// assert!((disc.low.in_psi() - 9700.0).abs() < 1e-6 && (disc.high.in_psi() - 10_300.0).abs() < 1e-6);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn rupture_disc(rated: Pressure, tolerance: f64, temperature_factor: f64) -> Result<Window> {
    require_positive(NAME, "rated", rated)?;
    require_positive(NAME, "temperature_factor", Ratio::of(temperature_factor))?;
    let inside = (0.0..1.0).contains(&tolerance);
    let hint = "Write 3 % as `3 %` or 0.03.";
    require(inside, NAME, "tolerance", Ratio::of(tolerance), "0 or more and below 1", hint)?;
    // P = f_T P_rated;  ends P (1 ± tol)
    let nominal = rated * temperature_factor;
    Ok(Window { low: nominal * (1.0 - tolerance), nominal, high: nominal * (1.0 + tolerance) })
}

const NAME: &str = "rupture_disc";

/// `rupture_disc` in the register.
pub static RUPTURE_DISC: Relation = Relation {
    name: NAME,
    title: "Pressures between which a rupture disc bursts",
    equation: "P = f_T P_rated;  ends P (1 ± tol)",
    source: "asme_viii UG-127",
    range: "none stated by the source; tolerance below 1",
    inputs: &[
        Input::new::<Pressure>("rated", "rated pressure difference"),
        Input::new::<Ratio>("tolerance", "tolerance"),
        Input::new::<Ratio>("temperature_factor", "factor on the rating at temperature").or("1"),
    ],
    outputs: &[
        Output::new::<Pressure>("low", "lowest bursting difference"),
        Output::new::<Pressure>("nominal", "nominal bursting difference"),
        Output::new::<Pressure>("high", "highest bursting difference"),
    ],
    evaluate: |a| {
        let w = rupture_disc(a.get("rated")?, a.number("tolerance")?, a.number("temperature_factor")?)?;
        Ok(Outputs::new().put("low", w.low).put("nominal", w.nominal).put("high", w.high))
    },
};
