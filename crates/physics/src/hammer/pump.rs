//! The upper end in time: set rate, trip, relief valve, and the gap that opens under a stop.

use quantity::Quantity;

use super::boundary::{Governor, Upper, share_of};
use super::node::{Line, rate_through};

/// Pressure at which the column parts at surface, Pa gauge: no pressure but that of vapour.
const VAPOUR: f64 = -1.0e5;

/// What the upper end does in a step.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct TopFlow {
    /// Surface pressure.
    pub p: f64,
    /// Rate into the string.
    pub into: f64,
    /// Rate of the pumps.
    pub pump: f64,
    /// Rate through the relief valve.
    pub relief: f64,
}

/// The upper end with what has happened so far.
#[derive(Debug, Clone)]
pub(super) struct Top {
    pub upper: Upper,
    /// Pressure of the reservoir.
    level: f64,
    /// When the pumps tripped, and their rate then.
    pub tripped: Option<(f64, f64)>,
    /// Whether the relief valve is open.
    relieving: bool,
    /// Volume of the gap between the pumps and the parted column.
    pub gap: f64,
}

impl Top {
    pub fn new(upper: Upper, level: f64) -> Self {
        Self { upper, level, tripped: None, relieving: false, gap: 0.0 }
    }

    fn rate(&self, governor: &Governor, time: f64) -> f64 {
        match (self.tripped, governor.trip) {
            (Some((at, rate)), Some(trip)) => rate * (1.0 - share_of(time, at, trip.run_down.si())),
            _ => governor.ramp.at(time),
        }
    }

    /// Settles the upper end against the wave from below, `p = c + b q`.
    pub fn settle(&mut self, wave: Line, time: f64, dt: f64) -> TopFlow {
        let pump = match self.upper {
            Upper::Constant(rate) => rate.si(),
            Upper::Closed => 0.0,
            Upper::Reservoir => {
                let into = (self.level - wave.c) / wave.b;
                return TopFlow { p: self.level, into, pump: into, relief: 0.0 };
            }
            Upper::Governed(governor) => self.rate(&governor, time),
        };
        let mut flow = TopFlow { p: wave.c + wave.b * pump, into: pump, pump, relief: 0.0 };
        if let Upper::Governed(governor) = self.upper {
            self.relieve(&governor, wave, &mut flow);
            if governor.trip.is_some_and(|trip| flow.p >= trip.pressure.si()) && self.tripped.is_none() {
                self.tripped = Some((time, pump));
            }
        }
        self.part(wave, dt, &mut flow);
        flow
    }

    /// The relief valve: `p = k q_r^2`, `p = c + b (q - q_r)`.
    fn relieve(&mut self, governor: &Governor, wave: Line, flow: &mut TopFlow) {
        let Some(relief) = governor.relief else { return };
        if flow.p >= relief.set.si() {
            self.relieving = true;
        }
        if !self.relieving {
            return;
        }
        // k q_r^2 + b q_r = c + b q
        let out = rate_through(flow.p, wave.b, relief.orifice.si()).max(0.0);
        flow.p -= wave.b * out;
        flow.into -= out;
        flow.relief = out;
        if flow.p < relief.reseat.si() {
            self.relieving = false;
        }
    }

    /// Holds the pressure at that of vapour while there is a gap.
    fn part(&mut self, wave: Line, dt: f64, flow: &mut TopFlow) {
        if flow.p >= VAPOUR && self.gap == 0.0 {
            return;
        }
        let (fed, into) = (flow.into, (VAPOUR - wave.c) / wave.b);
        let gap = self.gap + dt * (into - fed);
        if gap > 0.0 {
            (flow.p, flow.into, self.gap) = (VAPOUR, into, gap);
        } else {
            // the gap closes within the step: what filled it is not in the string
            flow.into = fed - self.gap / dt;
            flow.p = wave.c + wave.b * flow.into;
            self.gap = 0.0;
        }
    }
}
