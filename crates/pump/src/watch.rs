//! What the crew and the pumps do about what the gauges show.

use quantity::*;

use crate::checks;
use crate::crew::Mode;
use crate::error::PumpError;
use crate::fault::FaultKind;
use crate::record::EventKind;
use crate::world::World;

/// Share by which the crew comes down in a second while the treating pressure is above its limit.
const COME_DOWN: f64 = 0.01;

/// Share of a stage's planned rate below which the crew gives up.
const LEAST_SHARE: f64 = 0.5;

impl World<'_> {
    /// What the crew and the pumps do about what the gauges show.
    pub(crate) fn watch(&mut self, rate: f64) -> Result<(), PumpError> {
        let limits = &self.job.file.limits;
        let running = !matches!(self.crew.mode, Mode::Stopped { .. } | Mode::ShutIn { .. });
        let power = plan::stages::power_on_location(self.job).si();
        let over = self.surface > limits.treating_pressure.si() || rate * self.surface > power;
        if running && self.open.is_none() && self.surface > limits.treating_pressure.si() {
            let what = "the first sleeve did not open below the pressure limit";
            return self.stop_at(1, EventKind::PumpsStopped, &checks::OPENING, what);
        }
        // The crew does not chase the waves of a landing.
        if running && over && self.surge.is_none() {
            self.come_down()?;
        }
        self.start_again();
        self.watch_landing();
        self.watch_ball(rate)?;
        // Half of the second until it is looked at again is pumped on average.
        let rest = self.crew.run_down() + Volume::m3(0.5 * rate);
        if running && self.book.left_of_job().map_or(self.book.current().is_none(), |left| left <= rest) {
            self.crew.mode = Mode::ShutIn { since: Time::seconds(self.time) };
            self.stop_with_waves()?;
            self.log.event(self.time, EventKind::PumpsStopped, self.open_stage(), "all is pumped".into());
        }
        Ok(())
    }

    /// The pumps trip at their setting, whatever the crew does.
    pub(crate) fn trip_if_over(&mut self) -> Result<(), PumpError> {
        let running = !matches!(self.crew.mode, Mode::Stopped { .. } | Mode::ShutIn { .. });
        if running && self.peak >= self.job.file.limits.trip.si() {
            self.stop_because(EventKind::PumpsTripped, &checks::TRIPPED, "the pumps tripped")?;
        }
        Ok(())
    }

    fn come_down(&mut self) -> Result<(), PumpError> {
        let stage = self.open_stage();
        let lower = self.crew.rate * (1.0 - COME_DOWN);
        if self.crew.held.is_none() {
            let text = format!("the crew comes down in rate at stage {stage}");
            self.log.event(self.time, EventKind::RateHeld, stage, text.clone());
            let finding = checks::HELD.found(text).stage(stage).value(self.crew.planned(stage));
            self.log.findings.push(finding.limit(self.job.file.limits.treating_pressure));
        }
        self.crew.held = Some(lower);
        if lower.si() < LEAST_SHARE * self.crew.planned(stage).si() {
            let what = "the rate cannot be held below the pressure limit and the pumps are stopped";
            return self.stop_because(EventKind::PumpsStopped, &checks::NO_RATE, what);
        }
        Ok(())
    }

    /// Stops the job with an event and a finding.
    pub(crate) fn stop_because(
        &mut self,
        kind: EventKind,
        check: &'static well::Check,
        what: impl Into<Text>,
    ) -> Result<(), PumpError> {
        self.stop_at(self.open_stage(), kind, check, what)
    }

    /// The same, told of a stage.
    pub(crate) fn stop_at(
        &mut self,
        stage: usize,
        kind: EventKind,
        check: &'static well::Check,
        what: impl Into<Text>,
    ) -> Result<(), PumpError> {
        let what = what.into();
        self.log.event(self.time, kind, stage, what.text(self.job.file.job.units.system()));
        let surface = GaugePressure::from_si(self.surface);
        self.log
            .findings
            .push(check.found(said!("{what} while stage {stage} took fluid")).stage(stage).value(surface));
        self.crew.mode = Mode::Stopped { since: Time::seconds(self.time), resumes: None };
        self.stop_with_waves()
    }

    /// The pumps start again after a trip that may be reset.
    fn start_again(&mut self) {
        let Mode::Stopped { resumes: Some(at), .. } = self.crew.mode else { return };
        if self.time < at.si() {
            return;
        }
        self.crew.mode = Mode::Pumping;
        let stage = self.open_stage();
        self.log.event(self.time, EventKind::PumpsStarted, stage, "the pumps are started again".into());
        self.faults.end(FaultKind::PumpTrip, stage, self.time);
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

    /// Proppant of a stage that reaches its sleeve before its ball has landed goes into the stage before.
    fn watch_pad(&mut self, stage: usize) {
        let Some(sent) = self.log.first_proppant(stage) else { return };
        let volume = self.sleeve_of(stage).and_then(|i| self.sleeves.get(i)).map(|s| s.volume);
        let known =
            self.log.findings.iter().any(|f| f.id == checks::SHORT_PAD.id && f.place.stage == Some(stage));
        if known || volume.is_none_or(|v| self.log.pumped.slurry - sent < v) {
            return;
        }
        let text = format!("proppant of stage {stage} passes its sleeve before ball {stage} has landed");
        self.log.findings.push(checks::SHORT_PAD.found(text).stage(stage));
    }

    fn watch_ball(&mut self, rate: f64) -> Result<(), PumpError> {
        let Some(ball) = self.awaited() else { return Ok(()) };
        let (stage, pumped, depth) = (ball.stage, ball.pumped, ball.depth());
        let Some(card) = self.crew.card(stage) else { return Ok(()) };
        if pumped >= card.rate_cut_at && self.cut != stage && card.landing_rate < card.rate_before {
            self.cut = stage;
            let text = format!("the rate is cut for the landing of ball {stage}");
            self.log.event(self.time, EventKind::RateCut, stage, text);
        }
        self.watch_pad(stage);
        let stopped = matches!(self.crew.mode, Mode::Stopped { .. });
        if !stopped && pumped > card.missing_at {
            let check = if rate > 0.0 { &checks::MISSING } else { &checks::STALLED };
            self.stop_because(
                EventKind::BallMissing,
                check,
                said!("ball {stage} has not landed, at {depth}"),
            )?;
        }
        Ok(())
    }
}
