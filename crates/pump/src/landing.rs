//! A ball on its seat: its waves, the opening of its sleeve, and what becomes of the column.

use quantity::*;

use crate::checks;
use crate::crew::Mode;
use crate::error::PumpError;
use crate::flight::{Arrival, Whereabouts};
use crate::record::EventKind;
use crate::result::LandingRun;
use crate::sleeve::SleeveState;
use crate::step::Part;
use crate::surge::Surge;
use crate::world::World;

impl World<'_> {
    /// A ball has come to its seat: the column parts there, and waves run.
    pub(crate) fn land(&mut self, arrival: Arrival, rate: f64, dt: f64) -> Result<(), PumpError> {
        let (seat, after) = (arrival.seat, arrival.after.si());
        let at = self.time + after;
        let on_it = |f: &&crate::flight::Flight| f.place == Whereabouts::Seated { stage: seat };
        let Some(ball) = self.flights.iter().find(on_it) else { return Ok(()) };
        let volume =
            self.sleeve_of(seat).and_then(|i| self.sleeves.get(i)).map_or(Volume::ZERO, |s| s.volume);
        let swept = volume - self.route.to_launcher();
        // The ball's volume was counted to the end of the stretch.
        let pumped = ball.pumped - Volume::m3(rate * (dt - after)).max(Volume::ZERO);
        self.log.landings.push(LandingRun {
            stage: seat,
            launched: ball.launched,
            landed: Time::seconds(at),
            opened: None,
            pumped,
            ratio: Ratio::of(if swept.si() > 0.0 { pumped / swept } else { 0.0 }),
            rate: FlowRate::from_si(rate),
            highest: GaugePressure::from_si(self.surface),
        });
        let text = format!("ball {} is on the seat of stage {seat}", ball.stage);
        self.log.event(at, EventKind::BallLanded, seat, text);
        let surge = Surge::new(self, seat, at, rate)?;
        // What was pumped after the landing stands above the seat already.
        let above = volume + Volume::m3(rate * (dt - after));
        self.lower = self.column.cut_below(above);
        self.end = volume.si();
        self.surge = Some(surge);
        Ok(())
    }

    /// Follows the waves of a landing through a stretch of time, to the moment `until`.
    pub(crate) fn ride_waves(&mut self, dt: f64, rates: (f64, f64), until: f64) -> Result<(), PumpError> {
        let Some(mut surge) = self.surge.take() else { return Ok(()) };
        let was_open = surge.opened.is_some();
        let passed = surge.advance(dt, rates);
        let before = surge.before.and_then(|i| self.sleeves.get(i)).map_or(0, |s| s.stage);
        self.place(before, passed.before.max(0.0), Part::Lower);
        let out = passed.out - surge.owed;
        surge.owed = (-out).max(0.0);
        self.place(surge.stage, out.max(0.0), Part::Upper);
        if let (Some(opened), false) = (surge.opened, was_open) {
            self.take_over(surge.stage, opened);
        }
        if passed.open {
            self.press(rates.1)?;
            self.surface = surge.joined(until, rates.1, self.surface).max(0.0);
        } else {
            self.surface = passed.surface.max(0.0);
        }
        self.below = passed.above;
        self.peak = passed.highest;
        if let Some(last) = self.log.landings.last_mut() {
            last.highest = last.highest.max(GaugePressure::from_si(surge.highest));
            last.opened = surge.opened.map(Time::seconds);
        }
        if surge.over(until) {
            self.leave_waves(&surge)
        } else {
            self.surge = Some(surge)
        }
        Ok(())
    }

    /// The sleeve of a stage has opened and takes all fluid from here.
    fn take_over(&mut self, stage: usize, at: f64) {
        let Some(new) = self.sleeve_of(stage) else { return };
        if let Some(old) = self.open.and_then(|i| self.sleeves.get_mut(i)) {
            old.state = SleeveState::Isolated;
        }
        if let Some(sleeve) = self.sleeves.get_mut(new) {
            sleeve.state = SleeveState::Open;
            self.end = sleeve.volume.si();
        }
        self.open = Some(new);
        self.log.event(at, EventKind::SleeveOpened, stage, format!("the sleeve of stage {stage} is open"));
        if matches!(self.crew.mode, Mode::Stopped { .. } | Mode::ShutIn { .. }) {
            return;
        }
        let seen = at + self.travel_time(stage);
        self.crew.mode = Mode::Landed { stage, acts: Time::seconds(seen) + self.crew.rules().reaction };
    }

    /// The waves have died: what is below the ball stays there, and what is packed above it goes
    /// out with the flow.
    fn leave_waves(&mut self, surge: &Surge) {
        self.log.below_balls += self.lower.amount();
        self.lower = Default::default();
        let excess = self.column.amount().slurry.si() - self.end;
        if surge.opened.is_some() {
            self.place(surge.stage, excess.max(0.0), Part::Upper);
            self.owed = (-excess).max(0.0);
            return;
        }
        // The ball holds and the sleeve is shut: the string stays closed at its pressure.
        if let Some(old) = self.open.and_then(|i| self.sleeves.get_mut(i)) {
            old.state = SleeveState::Isolated;
        }
        self.open = None;
        self.packed = excess.max(0.0);
        self.stop_because(EventKind::PumpsStopped, &checks::SHUT, "the sleeve did not open under its ball");
    }

    /// Opens the first sleeve where the closed string has been pressed past its value, at the moment
    /// it was reached.
    pub(crate) fn open_if_pressed(&mut self, rate: f64) {
        if self.open.is_some() || self.crew.mode != Mode::Opening {
            return;
        }
        let over = self.below - self.outside() - self.shear_of_first();
        let slope = rate * self.stiffness;
        if over >= 0.0 && slope > 0.0 {
            self.open_by_pressure(self.time - over / slope);
        }
    }

    /// Opens the first sleeve by pressure: what was packed into the closed string comes out.
    fn open_by_pressure(&mut self, at: f64) {
        self.take_over(1, at);
        let packed = std::mem::take(&mut self.packed);
        self.flow(packed);
    }
}
