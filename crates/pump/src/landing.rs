//! A ball on its seat: its waves, the opening of its sleeve, and what becomes of the column.

use quantity::*;

use crate::checks;
use crate::column::Column;
use crate::crew::Mode;
use crate::error::PumpError;
use crate::fault::FaultKind;
use crate::flight::{Arrival, Whereabouts};
use crate::record::EventKind;
use crate::result::LandingRun;
use crate::sleeve::SleeveState;
use crate::step::Part;
use crate::string::Cause;
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
        self.settle()?;
        if self.open == self.sleeve_of(seat) {
            return self.land_on_open(seat, at);
        }
        let fate = self.fate(seat, at);
        let surge = Surge::new(self, Cause::Landing { stage: seat, fate }, at, rate)?;
        // What was pumped after the landing stands above the seat already.
        let above = volume + Volume::m3(rate * (dt - after));
        self.lower = self.column.cut_below(above);
        self.end = volume.si();
        self.surge = Some(surge);
        Ok(())
    }

    /// A ball on the seat of a sleeve that is open already: what lies below takes no more.
    fn land_on_open(&mut self, stage: usize, at: f64) -> Result<(), PumpError> {
        self.drop_branch();
        if let Some(last) = self.log.landings.last_mut() {
            last.opened = Some(Time::seconds(at));
        }
        self.crew_sees(stage, at);
        Ok(())
    }

    /// A second way takes no more: what stands in it stays there.
    fn drop_branch(&mut self) {
        let Some(branch) = self.branch.take() else { return };
        self.log.below_balls += branch.column.amount();
        if branch.reach.1 > branch.reach.0 {
            self.mark(branch.stage, SleeveState::Isolated);
        }
        let over: Vec<_> =
            self.faults.labels.iter().filter(|l| l.until.is_none()).map(|l| (l.kind, l.stage)).collect();
        for (kind, stage) in over.into_iter().filter(|(kind, _)| kind.makes_a_way()) {
            self.faults.end(kind, stage, self.time);
        }
    }

    /// The crew sees a landing when its wave is at the surface, and acts a while later.
    fn crew_sees(&mut self, stage: usize, at: f64) {
        for ball in self.flights.iter_mut().filter(|f| f.seat() == Some(stage)) {
            ball.awaited = false;
        }
        if matches!(self.crew.mode, Mode::Stopped { .. } | Mode::ShutIn { .. }) {
            return;
        }
        let seen = at + self.travel_time(stage);
        self.crew.mode = Mode::Landed { stage, acts: Time::seconds(seen) + self.crew.rules().reaction };
    }

    /// The ball broke before its sleeve opened: the column is whole again down to the sleeve before.
    fn rejoin(&mut self, surge: &Surge) {
        let Some(before) = surge.before else { return };
        let lower = std::mem::take(&mut self.lower);
        self.column.join_below(lower);
        self.end = self.sleeves.get(before).map_or(self.end, |s| s.volume.si());
        let stage = surge.stage;
        if let Some(ball) = self.flights.iter_mut().find(|f| f.seat() == Some(stage)) {
            ball.place = Whereabouts::Broken;
            self.log.ball_is(ball, self.time);
        }
        self.faults.end(FaultKind::BallShatters, stage, surge.shattered.unwrap_or(self.time));
    }

    /// Follows the waves of a landing through a stretch of time, to the moment `until`.
    pub(crate) fn ride_waves(&mut self, dt: f64, rates: (f64, f64), until: f64) -> Result<(), PumpError> {
        let Some(mut surge) = self.surge.take() else { return Ok(()) };
        let was_open = surge.opened.is_some();
        let was_whole = surge.shattered.is_none();
        let mut passed = surge.advance(dt, rates);
        if surge.shattered.is_some() && was_whole && surge.opened.is_none() {
            self.rejoin(&surge);
        }
        self.let_off(passed.relieved);
        let whole = surge.stop || (surge.shattered.is_some() && surge.opened.is_none());
        if whole {
            passed.out += std::mem::take(&mut passed.before);
        }
        if surge.leaks {
            // What goes out below comes past the ball.
            let Self { column, lower, .. } = self;
            let mut past = Column::default();
            column.draw(Volume::m3(passed.before.max(0.0)), |p| past.push(p));
            past.join_below(std::mem::take(lower));
            *lower = past;
        }
        let before = surge.before.and_then(|i| self.sleeves.get(i)).map_or(0, |s| s.stage);
        self.place(before, passed.before.max(0.0), Part::Lower);
        let out = passed.out - surge.owed;
        surge.owed = (-out).max(0.0);
        let into = if whole { self.open_stage() } else { surge.stage };
        self.place(into, out.max(0.0), Part::Upper);
        if let (Some(opened), false) = (surge.opened, was_open) {
            self.take_over(surge.stage, opened);
        }
        if passed.open {
            self.press(rates.1)?;
            self.note_shut_in(rates.1);
            self.surface = surge.joined(until, rates.1, self.surface).max(0.0);
        } else if let Some(share) = surge.back_to_slow(until) {
            self.press(rates.1)?;
            self.surface = (passed.surface + share * (self.surface - passed.surface)).max(0.0);
        } else {
            self.surface = passed.surface.max(0.0);
        }
        self.below = passed.above;
        self.peak = passed.highest;
        if let Some(last) = self.log.landings.last_mut().filter(|_| !surge.stop) {
            last.highest = last.highest.max(GaugePressure::from_si(surge.highest));
            last.opened = surge.opened.map(Time::seconds);
        }
        if surge.over(until) {
            return self.leave_waves(&surge);
        }
        self.surge = Some(surge);
        Ok(())
    }

    /// Fluid that the relief valve let off comes from the top of the column.
    fn let_off(&mut self, volume: f64) {
        if volume <= 0.0 {
            return;
        }
        let Self { column, log, .. } = self;
        column.draw_top(Volume::m3(volume), |p| log.relieved += p.amount);
        let known = self.log.findings.iter().any(|f| f.id == checks::RELIEF.id);
        if known {
            return;
        }
        let stage = self.open_stage();
        let text = format!("the relief valve opened while stage {stage} took fluid");
        self.log.event(self.time, EventKind::ReliefOpened, stage, text.clone());
        self.log.findings.push(checks::RELIEF.found(text).stage(stage).limit(self.job.file.limits.relief));
    }

    /// The pumps begin to stop: waves run up and down the string.
    pub(crate) fn stop_with_waves(&mut self) -> Result<(), PumpError> {
        let rate = self.crew.rate.si();
        if self.surge.is_none() && self.open.is_some() && rate > 0.0 {
            self.surge = Some(Surge::new(self, Cause::Stop, self.time, rate)?);
        }
        Ok(())
    }

    /// Waves of a stop that still run give way to those of a landing.
    fn settle(&mut self) -> Result<(), PumpError> {
        match self.surge.take() {
            Some(surge) => self.leave_waves(&surge),
            None => Ok(()),
        }
    }

    /// Keeps the pressure of the slow column once the pumps stand still: no wave is in it.
    fn note_shut_in(&mut self, rate: f64) {
        let (stage, surface) = (self.open_stage(), GaugePressure::from_si(self.surface));
        let still = rate <= 0.0 && matches!(self.crew.mode, Mode::ShutIn { .. } | Mode::Stopped { .. });
        if let Some(s) = self.log.stages.get_mut(stage).filter(|_| still) {
            s.shut_in.get_or_insert(surface);
        }
    }

    /// The sleeve of a stage has opened and takes all fluid from here.
    fn take_over(&mut self, stage: usize, at: f64) {
        let Some(new) = self.sleeve_of(stage) else { return };
        self.drop_branch();
        self.choke = None;
        self.log.below_balls += std::mem::take(&mut self.under).amount();
        self.under_reach = None;
        if let Some(old) = self.open.and_then(|i| self.sleeves.get(i)).map(|s| s.stage) {
            self.mark(old, SleeveState::Isolated);
        }
        self.mark(stage, SleeveState::Open);
        self.end = self.sleeves.get(new).map_or(self.end, |s| s.volume.si());
        self.open = Some(new);
        if let Some(opened) = self.opened.get_mut(stage) {
            *opened = Some(at);
        }
        self.log.event(at, EventKind::SleeveOpened, stage, format!("the sleeve of stage {stage} is open"));
        self.crew_sees(stage, at);
    }

    /// The waves have died: what is below the ball stays there, and what is packed above it goes
    /// out with the flow.
    fn leave_waves(&mut self, surge: &Surge) -> Result<(), PumpError> {
        let lower = std::mem::take(&mut self.lower);
        let before = surge.before.and_then(|i| self.sleeves.get(i));
        if let (Some(old), true) = (before, surge.opened.is_some() && !surge.stop) {
            self.under_reach = Some((old.stage, self.end, old.volume.si()));
            self.under = lower;
        } else if surge.leaks && surge.opened.is_none() {
            self.lower = lower;
        } else {
            self.log.below_balls += lower.amount();
        }
        if self.open.is_none() {
            return Ok(());
        }
        let excess = self.column.amount().slurry.si() - self.end;
        if surge.opened.is_some() || surge.shattered.is_some() {
            self.place(self.open_stage(), excess.max(0.0), Part::Upper);
            self.owed = (-excess).max(0.0);
            if !surge.stop && surge.opened.is_some() {
                self.leak_on(surge.stage);
            }
            return Ok(());
        }
        if surge.leaks {
            return self.hold_badly(surge);
        }
        // The ball holds and the sleeve is shut: the string stays closed at its pressure.
        let old = self.open_stage();
        self.drop_branch();
        self.mark(old, SleeveState::Isolated);
        self.open = None;
        self.packed = excess.max(0.0);
        self.stop_at(
            surge.stage,
            EventKind::PumpsStopped,
            &checks::SHUT,
            "the sleeve did not open under its ball",
        )
    }

    /// The ball leaks too much to open its sleeve: the stage before goes on taking fluid past it.
    fn hold_badly(&mut self, surge: &Surge) -> Result<(), PumpError> {
        let stage = surge.stage;
        let lower = std::mem::take(&mut self.lower);
        self.column.join_below(lower);
        self.end = surge.before.and_then(|i| self.sleeves.get(i)).map_or(self.end, |s| s.volume.si());
        self.narrow_seat(stage);
        let excess = self.column.amount().slurry.si() - self.end;
        self.place(self.open_stage(), excess.max(0.0), Part::Upper);
        self.owed = (-excess).max(0.0);
        Ok(())
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
