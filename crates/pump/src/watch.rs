//! What the crew and the pumps do about what the gauges show.

use quantity::*;

use crate::checks;
use crate::crew::Mode;
use crate::record::EventKind;
use crate::world::World;

/// Share by which the crew comes down in a second while the treating pressure is above its limit.
const COME_DOWN: f64 = 0.01;

impl World<'_> {
    /// What the crew and the pumps do about what the gauges show.
    pub(crate) fn watch(&mut self, rate: f64) {
        let limits = &self.job.file.limits;
        let running = !matches!(self.crew.mode, Mode::Stopped { .. } | Mode::ShutIn { .. });
        let power = plan::stages::power_on_location(self.job).si();
        let over = self.surface > limits.treating_pressure.si() || rate * self.surface > power;
        // The crew does not chase the waves of a landing.
        if running && over && self.surge.is_none() {
            self.come_down();
        }
        self.watch_landing();
        self.watch_ball(rate);
        if running && self.book.current().is_none() {
            self.crew.mode = Mode::ShutIn { since: Time::seconds(self.time) };
            self.crew.rate = FlowRate::ZERO;
            self.log.event(self.time, EventKind::PumpsStopped, self.open_stage(), "all is pumped".into());
        }
    }

    /// The pumps trip at their setting, whatever the crew does.
    pub(crate) fn trip_if_over(&mut self) {
        let running = !matches!(self.crew.mode, Mode::Stopped { .. } | Mode::ShutIn { .. });
        if running && self.peak >= self.job.file.limits.trip.si() {
            self.stop_because(EventKind::PumpsTripped, &checks::TRIPPED, "the pumps tripped");
        }
    }

    fn come_down(&mut self) {
        let stage = self.open_stage();
        let lower = self.crew.rate * (1.0 - COME_DOWN);
        if self.crew.held.is_none() {
            let text = format!("the crew comes down in rate at stage {stage}");
            self.log.event(self.time, EventKind::RateHeld, stage, text.clone());
            let finding = checks::HELD.found(text).stage(stage).value(self.crew.planned(stage));
            self.log.findings.push(finding.limit(self.job.file.limits.treating_pressure));
        }
        self.crew.held = Some(lower);
    }

    /// Stops the job with an event and a finding.
    pub(crate) fn stop_because(&mut self, kind: EventKind, check: &'static well::Check, what: &str) {
        let stage = self.open_stage();
        self.log.event(self.time, kind, stage, what.to_string());
        let surface = GaugePressure::from_si(self.surface);
        self.log
            .findings
            .push(check.found(format!("{what} while stage {stage} took fluid")).stage(stage).value(surface));
        self.crew.mode = Mode::Stopped { since: Time::seconds(self.time) };
    }

    fn watch_landing(&mut self) {
        let Mode::Landed { stage, acts } = self.crew.mode else { return };
        if self.time < acts.si() {
            return;
        }
        self.log.event(self.time, EventKind::LandingSeen, stage, format!("the crew sees stage {stage} open"));
        self.crew.mode = Mode::Pumping;
        self.crew.held = None;
        if self.book.current().is_some_and(|o| o.purpose == crate::orders::Purpose::Opening) {
            self.book.next();
        }
    }

    fn watch_ball(&mut self, rate: f64) {
        let Some(ball) = self.ball() else { return };
        let (stage, pumped, depth) = (ball.stage, ball.pumped, ball.depth());
        let Some(card) = self.crew.card(stage) else { return };
        if pumped >= card.rate_cut_at && self.cut != stage && card.landing_rate < card.rate_before {
            self.cut = stage;
            let text = format!("the rate is cut for the landing of ball {stage}");
            self.log.event(self.time, EventKind::RateCut, stage, text);
        }
        let stopped = matches!(self.crew.mode, Mode::Stopped { .. });
        if !stopped && pumped > card.missing_at {
            let check = if rate > 0.0 { &checks::MISSING } else { &checks::STALLED };
            self.stop_because(
                EventKind::BallMissing,
                check,
                &format!("ball {stage} has not landed, at {depth:?}"),
            );
        }
    }
}
