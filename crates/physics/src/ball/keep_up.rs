//! Flow from which a ball in a horizontal pipe keeps up with the liquid.

use super::wall_factor::BORE;
use crate::error::{Result, require_positive};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Diameter, FlowRate, Ratio, Velocity};

const NAME: &str = "keep_up";

/// Mean velocity from which single dense spheres ran 4 to 8 % faster than the liquid.
pub const MEASURED_VELOCITY: Velocity = Velocity::ft_per_s(2.0);
/// Bore of the pipe that was measured.
pub const MEASURED_BORE: Diameter = Diameter::inch(1.25);

/// Mean velocity from which a ball keeps up in a horizontal pipe, scaled from a measurement at equal
/// Froude number.
///
/// ```text
/// U = U_m sqrt[ (D/D_m) (s - 1)/(s_m - 1) ]
/// ```
///
/// - `U` mean velocity, m/s; `D` bore, m; `s` ball over liquid density; index `m` as measured
/// - measured: 2 ft/s, ball over bore above 0.5; the bore, 1.25 in, is that of the series' other tests
///
/// Range: ball over bore above 0.5; spheres denser than the liquid.
///
/// Where it breaks: below it the ball lags and may stop. The density ratio of the measured spheres is
/// not printed in the abstract, so the ratio of the excesses is an input, 1 when not known.
///
/// Source: ellis_1964 abstract, scaled at equal Froude number.
///
/// ```
/// use physics::ball::keep_up::keep_up;
/// use quantity::*;
/// let u = keep_up(Diameter::inch(3.92), 1.0)?;
/// assert!((u.in_ft_per_s() - 3.5).abs() < 0.05);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn keep_up(bore: Diameter, excess_ratio: f64) -> Result<Velocity> {
    require_positive(NAME, "bore", bore)?;
    require_positive(NAME, "excess_ratio", Ratio::of(excess_ratio))?;
    // U = U_m sqrt[ (D/D_m) (s - 1)/(s_m - 1) ]
    Ok(MEASURED_VELOCITY * libm::sqrt(bore / MEASURED_BORE * excess_ratio))
}

/// Register entry of [`keep_up`].
pub static KEEP_UP: Relation = Relation {
    name: NAME,
    title: "Mean velocity from which a ball keeps up with the liquid in a horizontal pipe",
    equation: "U = U_m sqrt[(D/D_m)(s - 1)/(s_m - 1)], U_m = 2 ft/s, D_m = 1.25 in",
    source: "ellis_1964 abstract, scaled at equal Froude number",
    range: "ball over bore above 0.5; dense spheres",
    inputs: &[
        BORE,
        Input::new::<Ratio>("excess_ratio", "(s - 1) of the ball over that of the measured spheres").or("1"),
    ],
    outputs: &[
        Output::new::<Velocity>("velocity", "mean velocity from which the ball keeps up"),
        Output::new::<FlowRate>("rate", "rate from which the ball keeps up"),
    ],
    evaluate: |a| {
        let bore: Diameter = a.get("bore")?;
        let u = keep_up(bore, a.number("excess_ratio")?)?;
        Ok(Outputs::new().put("velocity", u).put("rate", u * bore.circle()))
    },
};
