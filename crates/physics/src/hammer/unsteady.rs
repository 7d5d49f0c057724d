//! Friction that follows the change of the rate: its coefficient.

use crate::error::{Result, require, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::Ratio;

const NAME: &str = "unsteady_friction";

/// Shear decay coefficient of laminar flow.
const LAMINAR: f64 = 0.00476;

/// Reynolds number below which the flow is taken as laminar.
const TURBULENT_FROM: f64 = 2300.0;

/// Coefficient of the friction that follows the change of the rate.
///
/// `k = sqrt(C*)/2`; `C* = 7.41/Re^m`, `m = log10(14.3/Re^0.05)` turbulent; `C* = 0.00476`
/// laminar
///
/// `Re` Reynolds number before the change; `k` multiplies `rho/2 (dV/dt + a sign(V)|dV/dx|)` in
/// the pressure gradient. Returns `C*` and `k`.
///
/// Range: smooth pipe, `Re` up to 1e8; Newtonian fluid.
///
/// It makes the ring die sooner and hardly touches the first peak. Off by default in
/// [`super::HammerString`].
///
/// Source: vardy_brown2003 (shear decay), brunone1991 (form of the term).
///
/// ```
/// use physics::hammer::unsteady::unsteady_friction;
/// let (decay, k) = unsteady_friction(5600.0)?;
/// assert!((decay - 0.001745).abs() < 1e-6 && (k - 0.0209).abs() < 5e-5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn unsteady_friction(reynolds: f64) -> Result<(f64, f64)> {
    require_positive(NAME, "reynolds", Ratio::of(reynolds))?;
    let hint = "The coefficient is fitted up to 1e8.";
    require(reynolds <= 1e8, NAME, "reynolds", Ratio::of(reynolds), "at most 1e8", hint)?;
    let decay = if reynolds < TURBULENT_FROM {
        LAMINAR
    } else {
        // C* = 7.41/Re^m, m = log10(14.3/Re^0.05)
        7.41 / reynolds.powf((14.3 / reynolds.powf(0.05)).log10())
    };
    // k = sqrt(C*)/2
    Ok((decay, decay.sqrt() / 2.0))
}

/// Register entry of [`unsteady_friction`].
pub static UNSTEADY_FRICTION: Relation = Relation {
    name: NAME,
    title: "Coefficient of the friction that follows the change of the rate",
    equation: "k = sqrt(C*)/2; C* = 7.41/Re^m, m = log10(14.3/Re^0.05); laminar C* = 0.00476",
    source: "vardy_brown2003; brunone1991",
    range: "smooth pipe; Newtonian fluid; Re up to 1e8",
    inputs: &[Input::new::<Ratio>("reynolds", "Reynolds number before the change")],
    outputs: &[
        Output::new::<Ratio>("decay", "shear decay coefficient C*"),
        Output::new::<Ratio>("coefficient", "coefficient k"),
    ],
    evaluate: |a| {
        let (decay, k) = unsteady_friction(a.number("reynolds")?)?;
        Ok(Outputs::new().put("decay", Ratio::of(decay)).put("coefficient", Ratio::of(k)))
    },
};
