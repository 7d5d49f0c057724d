//! A ball that dissolves: its diameter with time and the time until it passes its seat.

use super::contact::{BALL, SEAT};
use super::recession::Arrhenius;
use crate::error::{Result, require, require_not_negative, require_positive};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Diameter, Quantity, Ratio, RecessionRate, Temperature, Time};

/// Time at one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exposure {
    /// How long.
    pub lasting: Time,
    /// Temperature of the fluid.
    pub temperature: Temperature,
}

/// Diameter of a ball that dissolves evenly from all sides.
///
/// ```text
/// d(t) = d0 - 2 k t,  not below zero
/// ```
///
/// - `d0` diameter at the start, `d` after the time, m; `k` recession per side, m/s; `t` time, s
///
/// Range: none stated by the source.
///
/// Where it breaks: a ball on its seat is wet on one cap only, a still fluid saturates, oil and fresh
/// water stop most alloys; rates are measured in stirred, plentiful brine. So the loss is an upper
/// and a time a lower bound. When nothing is left the diameter stays zero.
///
/// Source: derived_dissolution, uniform recession.
///
/// ```
/// use physics::ball::dissolution::dissolving_ball;
/// use quantity::*;
/// let d = dissolving_ball(Diameter::mm(70.0), RecessionRate::mm_per_h(0.1331), Time::hours(100.0))?;
/// assert!((d.in_mm() - 43.38).abs() < 1e-9);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn dissolving_ball(start: Diameter, recession: RecessionRate, time: Time) -> Result<Diameter> {
    require_positive("dissolving_ball", "ball", start)?;
    require_not_negative("dissolving_ball", "recession", recession)?;
    require_not_negative("dissolving_ball", "time", time)?;
    // d(t) = d0 - 2 k t
    Ok((start - recession * time * 2.0).max(Diameter::ZERO))
}

/// Diameter after a history of temperatures, each for its time.
pub fn dissolve(start: Diameter, law: Arrhenius, history: &[Exposure]) -> Result<Diameter> {
    history.iter().try_fold(start, |d, e| match d > Diameter::ZERO {
        true => dissolving_ball(d, law.at(e.temperature)?, e.lasting),
        false => Ok(d),
    })
}

/// Time until a dissolving ball is as small as its seat and passes.
///
/// ```text
/// t = (d0 - ds) / (2 k)
/// ```
///
/// - `d0` ball diameter at the start, `ds` seat bore, m; `k` recession per side, m/s; `t` time, s
///
/// Range: none stated by the source.
///
/// Where it breaks: a lower bound of the time, see [`dissolving_ball`]; under pressure the ball goes
/// through before the overlap is used up.
///
/// Source: derived_dissolution, uniform recession.
///
/// ```
/// use physics::ball::dissolution::dissolution_time;
/// use quantity::*;
/// let t = dissolution_time(Diameter::mm(60.0), Diameter::mm(59.0), RecessionRate::mm_per_h(0.1896))?;
/// assert!((t.in_hours() - 2.64).abs() < 0.005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn dissolution_time(start: Diameter, seat: Diameter, recession: RecessionRate) -> Result<Time> {
    require_positive("dissolution_time", "recession", recession)?;
    require_not_negative("dissolution_time", "seat", seat)?;
    require(
        start > seat,
        "dissolution_time",
        "ball",
        start,
        format!("larger than the seat bore, {seat}"),
        "This ball passes this seat already.",
    )?;
    // t = (d0 - ds) / (2 k)
    Ok((start - seat) / 2.0 / recession)
}

const RECESSION: Input = Input::new::<RecessionRate>(
    "recession",
    "loss of surface per side and time, in the fluid and temperature",
);

/// Register entry of [`dissolving_ball`].
pub static DISSOLVING_BALL: Relation = Relation {
    name: "dissolving_ball",
    title: "Diameter of a dissolving ball after a time, uniform recession",
    equation: "d(t) = d0 - 2 k t",
    source: "derived_dissolution, uniform recession",
    range: "none stated by the source; an upper bound of the loss",
    inputs: &[BALL, RECESSION, Input::new::<Time>("time", "time in the fluid")],
    outputs: &[
        Output::new::<Diameter>("diameter", "diameter left"),
        Output::new::<Diameter>("loss", "diameter lost"),
        Output::new::<Ratio>("mass_left", "mass left over mass at the start"),
    ],
    evaluate: |a| {
        let start: Diameter = a.get("ball")?;
        let left = dissolving_ball(start, a.get("recession")?, a.get("time")?)?;
        Ok(Outputs::new()
            .put("diameter", left)
            .put("loss", start - left)
            .put("mass_left", Ratio::from_si((left / start).powi(3))))
    },
};

/// Register entry of [`dissolution_time`].
pub static DISSOLUTION_TIME: Relation = Relation {
    name: "dissolution_time",
    title: "Time until a dissolving ball passes its seat, uniform recession",
    equation: "t = (d0 - ds) / (2 k)",
    source: "derived_dissolution, uniform recession",
    range: "none stated by the source; a lower bound of the time",
    inputs: &[BALL, SEAT, RECESSION],
    outputs: &[Output::new::<Time>("time", "time until the ball is as small as the seat")],
    evaluate: |a| {
        let t = dissolution_time(a.get("ball")?, a.get("seat")?, a.get("recession")?)?;
        Ok(Outputs::new().put("time", t))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::MolarEnergy;

    #[test]
    fn time_and_diameter_agree() {
        let (ball, seat, k) = (Diameter::inch(2.5), Diameter::inch(2.4), RecessionRate::mm_per_h(0.2));
        let t = dissolution_time(ball, seat, k).unwrap();
        assert!((dissolving_ball(ball, k, t).unwrap() - seat).si().abs() < 1e-15);
        assert_eq!(dissolving_ball(ball, k, t * 1e3).unwrap(), Diameter::ZERO);
        assert!(dissolution_time(seat, ball, k).is_err());
        assert!(dissolution_time(ball, seat, RecessionRate::ZERO).is_err());
    }

    #[test]
    fn a_history_at_one_temperature_is_one_exposure() {
        let law = Arrhenius {
            recession: RecessionRate::mm_per_h(0.19),
            reference: Temperature::deg_c(93.0),
            activation: MolarEnergy::kj_per_mol(50.0),
        };
        let at = |c: f64, h: f64| Exposure { lasting: Time::hours(h), temperature: Temperature::deg_c(c) };
        let ball = Diameter::inch(2.5);
        let one = dissolve(ball, law, &[at(93.0, 6.0)]).unwrap();
        let two = dissolve(ball, law, &[at(93.0, 2.0), at(93.0, 4.0)]).unwrap();
        assert!((one - two).si().abs() < 1e-15);
        assert!(dissolve(ball, law, &[at(40.0, 6.0)]).unwrap() > one);
        assert_eq!(dissolve(ball, law, &[at(93.0, 1e6), at(93.0, 1.0)]).unwrap(), Diameter::ZERO);
    }
}
