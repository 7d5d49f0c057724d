//! What stands at the ends of the string: pumps above, rock below.

use crate::error::{Result, require_not_negative, require_positive};
use quantity::{FlowRate, GaugePressure, Pressure, Quantity, RateSquaredLoss, Time};

use super::NAME;

/// The upper end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Upper {
    /// Pumps that hold their rate whatever the pressure.
    Constant(FlowRate),
    /// Pumps that follow a set rate, with a trip and a relief valve if there are.
    Governed(Governor),
    /// A closed valve.
    Closed,
    /// A reservoir that keeps the pressure the steady flow began with.
    Reservoir,
}

/// Pumps that follow a set rate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Governor {
    /// The set rate.
    pub ramp: Ramp,
    /// Trip, if any.
    pub trip: Option<Trip>,
    /// Relief valve, if any.
    pub relief: Option<Relief>,
}

/// A rate that goes from one value to another in a straight line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ramp {
    /// Rate until `start`.
    pub from: FlowRate,
    /// Rate after `end`.
    pub to: FlowRate,
    /// When the change begins.
    pub start: Time,
    /// When it is done.
    pub end: Time,
}

impl Ramp {
    /// A rate that stays.
    pub fn steady(rate: FlowRate) -> Self {
        Self { from: rate, to: rate, start: Time::ZERO, end: Time::ZERO }
    }

    /// The rate at a time.
    pub(super) fn at(&self, time: f64) -> f64 {
        let share = share_of(time, self.start.si(), self.end.si() - self.start.si());
        self.from.si() + (self.to.si() - self.from.si()) * share
    }
}

/// Part of a change that begins at `start` and takes `span`, from 0 to 1.
pub(super) fn share_of(time: f64, start: f64, span: f64) -> f64 {
    if time < start {
        0.0
    } else if time >= start + span {
        1.0
    } else {
        (time - start) / span
    }
}

/// Pumps that stop at a pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trip {
    /// Surface pressure that trips them.
    pub pressure: GaugePressure,
    /// Time in which the rate then runs down to zero.
    pub run_down: Time,
}

/// A valve at surface that opens at a pressure and closes again at a lower one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Relief {
    /// Pressure that opens it.
    pub set: GaugePressure,
    /// Pressure at which it closes again.
    pub reseat: GaugePressure,
    /// Loss of its orifice to the open air, per rate squared.
    pub orifice: RateSquaredLoss,
}

/// What takes the fluid: the pressure behind a port for a rate and a time.
///
/// `p = p_0 + (dp/dq) q + p_b exp(-t/tau)`, `t` since the port opened.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sink {
    level: f64,
    slope: f64,
    peak: f64,
    decay: f64,
}

impl Sink {
    /// A pressure that stays.
    pub fn constant(level: GaugePressure) -> Self {
        Self { level: level.si(), slope: 0.0, peak: 0.0, decay: 1.0 }
    }

    /// A pressure that rises with the rate by `rise` at `rate`.
    pub fn line(level: GaugePressure, rise: Pressure, rate: FlowRate) -> Result<Self> {
        require_not_negative(NAME, "sink_rise", rise)?;
        require_positive(NAME, "sink_rate", rate)?;
        Ok(Self { slope: rise.si() / rate.si(), ..Self::constant(level) })
    }

    /// The same with a breakdown that stands above it at first and decays.
    pub fn with_breakdown(self, peak: Pressure, decay: Time) -> Result<Self> {
        require_not_negative(NAME, "breakdown", peak)?;
        require_positive(NAME, "breakdown_decay", decay)?;
        Ok(Self { peak: peak.si(), decay: decay.si(), ..self })
    }

    /// The pressure at no rate, `since` the port opened (s).
    pub(super) fn base(&self, since: f64) -> f64 {
        if self.peak == 0.0 {
            return self.level;
        }
        // p_0 + p_b exp(-t/tau)
        self.level + self.peak * (-since.max(0.0) / self.decay).exp()
    }

    /// Rise per rate, Pa/(m³/s).
    pub(super) fn slope(&self) -> f64 {
        self.slope
    }
}

/// The lower end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Lower {
    /// A dead end at this pressure; only for a string at rest.
    Closed(GaugePressure),
    /// Open ports into rock.
    Ports {
        /// Loss of the ports, per rate squared.
        loss: RateSquaredLoss,
        /// The rock behind them.
        sink: Sink,
    },
}
