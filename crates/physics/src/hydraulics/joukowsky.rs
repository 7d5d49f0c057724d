//! Pressure step of a stopped flow, and what a ball bears when it lands.

use crate::error::{Result, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Density, Diameter, FlowRate, Force, Length, Pressure, Quantity, Time, Velocity};

/// Pressure step where a flow is changed at once.
///
/// `dp = rho a dU`
///
/// `rho` density (kg/m³), `a` wave speed (m/s), `dU` change of the mean velocity (m/s).
///
/// Range: a change quicker than `2L/a`, the time a wave needs to the other end and back.
///
/// Slower changes give less; at a pump that keeps its rate the step doubles when it arrives.
///
/// Source: joukowsky1904.
///
/// ```
/// use physics::hydraulics::joukowsky::joukowsky;
/// use quantity::{Density, Velocity};
/// let dp = joukowsky(Density::kg_per_m3(1000.0), Velocity::m_per_s(1420.0), Velocity::m_per_s(2.0))?;
/// assert!((dp.in_mpa() - 2.84).abs() < 1e-12);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn joukowsky(density: Density, wave_speed: Velocity, change: Velocity) -> Result<Pressure> {
    require_positive("joukowsky", "density", density)?;
    require_positive("joukowsky", "wave_speed", wave_speed)?;
    // dp = rho a dU
    Ok(Pressure::pa(density.si() * wave_speed.si() * change.si()))
}

/// A ball landing in full flow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Landing {
    /// Density of the fluid.
    pub density: Density,
    /// Rate when the ball lands.
    pub rate: FlowRate,
    /// Bore above the seat.
    pub bore_above: Diameter,
    /// Bore below the seat.
    pub bore_below: Diameter,
    /// Wave speed above and below.
    pub wave_speed: Velocity,
    /// Length of pipe below the seat down to the open ports.
    pub length_below: Length,
    /// Bore of the seat.
    pub seat: Diameter,
}

/// What the ball and its seat bear at the first moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BallImpact {
    /// Step up above the seat.
    pub above: Pressure,
    /// Step down below the seat.
    pub below: Pressure,
    /// Difference across the ball.
    pub across: Pressure,
    /// Force on ball and seat, on the bore of the seat.
    pub force: Force,
    /// How long the step below lasts.
    pub below_lasts: Time,
}

/// Pressure difference across a ball that stops the flow at once.
///
/// `dp = rho a q/A_above + rho a q/A_below`, `F = dp pi d^2/4`, lower part for `2 L_below/a`
///
/// `rho` density (kg/m³), `a` wave speed (m/s), `q` rate (m³/s), `A` area of the pipe above and
/// below the seat (m²), `L_below` length down to the open ports (m), `d` bore of the seat (m).
///
/// Range: the flow stops quicker than `2 L_below/a`, about 0.14 s per 100 m.
///
/// An upper bound: a ball that seals in steps, or leaks, bears less. The step below cannot bring
/// the pressure under that of vapour; with high formation pressure it does not come near.
///
/// Source: joukowsky1904, applied to both sides.
///
/// ```
/// use physics::hydraulics::joukowsky::{Landing, ball_impact};
/// use quantity::{Density, Diameter, FlowRate, Length, Velocity};
/// let impact = ball_impact(&Landing {
///     density: Density::kg_per_m3(1000.0),
///     rate: FlowRate::bbl_per_min(15.0),
///     bore_above: Diameter::inch(4.0),
///     bore_below: Diameter::inch(4.0),
///     wave_speed: Velocity::m_per_s(1420.72),
///     length_below: Length::m(100.0),
///     seat: Diameter::inch(2.375),
/// })?;
/// assert!((impact.above.in_psi() - 1010.2).abs() < 0.05);
/// assert!((impact.below_lasts.in_seconds() - 0.141).abs() < 0.001);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn ball_impact(landing: &Landing) -> Result<BallImpact> {
    let name = "ball_impact";
    require_not_negative(name, "rate", landing.rate)?;
    for (part, diameter) in
        [("bore_above", landing.bore_above), ("bore_below", landing.bore_below), ("seat", landing.seat)]
    {
        require_positive(name, part, diameter)?;
    }
    require_not_negative(name, "length_below", landing.length_below)?;
    // dp = rho a U on either side
    let step = |bore: Diameter| joukowsky(landing.density, landing.wave_speed, landing.rate / bore.circle());
    let (above, below) = (step(landing.bore_above)?, step(landing.bore_below)?);
    let across = above + below;
    Ok(BallImpact {
        above,
        below,
        across,
        // F = dp pi d^2/4
        force: across * landing.seat.circle(),
        below_lasts: landing.length_below * 2.0 / landing.wave_speed,
    })
}

/// Register entry of [`joukowsky`].
pub static JOUKOWSKY: Relation = Relation {
    name: "joukowsky",
    title: "Pressure step of a flow changed at once",
    equation: "dp = rho a dU",
    source: "joukowsky1904",
    range: "a change quicker than 2L/a",
    inputs: &[
        Input::new::<Density>("density", "density of the fluid or slurry"),
        Input::new::<Velocity>("wave_speed", "wave speed"),
        Input::new::<FlowRate>("rate", "change of the rate"),
        Input::new::<Diameter>("bore", "bore"),
    ],
    outputs: &[
        Output::new::<Pressure>("step", "pressure step"),
        Output::new::<Velocity>("velocity", "change of the mean velocity"),
    ],
    evaluate: |a| {
        let bore: Diameter = a.get("bore")?;
        require_positive("joukowsky", "bore", bore)?;
        let velocity = a.get::<FlowRate>("rate")? / bore.circle();
        let step = joukowsky(a.get("density")?, a.get("wave_speed")?, velocity)?;
        Ok(Outputs::new().put("step", step).put("velocity", velocity))
    },
};

/// Register entry of [`ball_impact`].
pub static BALL_IMPACT: Relation = Relation {
    name: "ball_impact",
    title: "Pressure difference and force on a ball that stops the flow at once",
    equation: "dp = rho a q/A_above + rho a q/A_below; F = dp pi d^2/4",
    source: "joukowsky1904, applied to both sides",
    range: "the flow stops quicker than 2 L_below/a",
    inputs: &[
        Input::new::<Density>("density", "density of the fluid"),
        Input::new::<FlowRate>("rate", "rate when the ball lands"),
        Input::new::<Diameter>("bore_above", "bore above the seat"),
        Input::new::<Diameter>("bore_below", "bore below the seat"),
        Input::new::<Velocity>("wave_speed", "wave speed"),
        Input::new::<Length>("length_below", "pipe below the seat down to the open ports").or("100 m"),
        Input::new::<Diameter>("seat", "bore of the seat"),
    ],
    outputs: &[
        Output::new::<Pressure>("above", "step up above the seat"),
        Output::new::<Pressure>("below", "step down below the seat"),
        Output::new::<Pressure>("across", "difference across the ball"),
        Output::new::<Force>("force", "force on the bore of the seat"),
        Output::new::<Time>("below_lasts", "how long the step below lasts"),
    ],
    evaluate: |a| {
        let impact = ball_impact(&Landing {
            density: a.get("density")?,
            rate: a.get("rate")?,
            bore_above: a.get("bore_above")?,
            bore_below: a.get("bore_below")?,
            wave_speed: a.get("wave_speed")?,
            length_below: a.get("length_below")?,
            seat: a.get("seat")?,
        })?;
        Ok(Outputs::new()
            .put("above", impact.above)
            .put("below", impact.below)
            .put("across", impact.across)
            .put("force", impact.force)
            .put("below_lasts", impact.below_lasts))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_pipes_share_the_impact_equally() {
        let bore = Diameter::inch(4.0);
        let mut landing = Landing {
            density: Density::kg_per_m3(1000.0),
            rate: FlowRate::bbl_per_min(10.0),
            bore_above: bore,
            bore_below: bore,
            wave_speed: Velocity::m_per_s(1400.0),
            length_below: Length::m(50.0),
            seat: Diameter::inch(2.0),
        };
        let impact = ball_impact(&landing).unwrap();
        assert_eq!(impact.above, impact.below);
        assert!((impact.across / impact.above - 2.0).abs() < 1e-15);
        landing.seat = Diameter::ZERO;
        assert!(ball_impact(&landing).is_err());
        landing.seat = bore;
        landing.rate = FlowRate::bbl_per_min(-1.0);
        assert!(ball_impact(&landing).is_err());
    }

    #[test]
    fn the_step_has_the_sign_of_the_change() {
        let (rho, a) = (Density::kg_per_m3(1000.0), Velocity::m_per_s(1400.0));
        assert!(joukowsky(rho, a, Velocity::m_per_s(-1.0)).unwrap().si() < 0.0);
        assert!(joukowsky(rho, Velocity::ZERO, Velocity::m_per_s(1.0)).is_err());
    }
}
