//! One stretch of time: what the pumps send, where balls and fluid get to, and the pressure at its end.

use physics::hydraulics::port::port_loss;
use quantity::*;

use crate::checks;
use crate::column::{Amount, Make, Parcel};
use crate::crew::Mode;
use crate::error::PumpError;
use crate::flight::{Arrival, Flight, Stream, Whereabouts};
use crate::pressure::down;
use crate::record::{EventKind, Sample};
use crate::result::LandingRun;
use crate::sleeve::SleeveState;
use crate::world::World;

/// Share by which the crew comes down in a second while the treating pressure is above its limit.
const COME_DOWN: f64 = 0.01;

impl World<'_> {
    /// Carries the job through a stretch of time.
    pub(crate) fn step(&mut self, dt: f64) -> Result<(), PumpError> {
        let goal = self.crew.goal(self.open_stage(), self.ball());
        let rate = self.crew.ramp(goal, Time::seconds(dt)).si();
        let (pumped, launched) = self.send(rate, dt);
        let rate = pumped / dt;
        let landed = self.fly(rate, dt, &launched)?;
        let first = landed.map_or(dt, |a| a.after.si());
        self.flow(rate * first);
        if let Some(arrival) = landed {
            self.land(arrival, rate, dt);
            self.flow(rate * (dt - first));
        }
        self.time += dt;
        self.press(rate)?;
        let surface = self.surface;
        let depth = self.end_tvd();
        let below = self.below;
        let slope = if depth > 0.0 { (below - surface) / depth } else { 0.0 };
        self.heat.advance(&self.route, (rate, dt), |tvd| surface + slope * tvd)?;
        self.watch(rate);
        self.write(dt);
        Ok(())
    }

    /// Sends what the orders say; returns the volume and the balls that left, each with the time
    /// left after its launch.
    fn send(&mut self, rate: f64, dt: f64) -> (f64, Vec<(usize, f64)>) {
        let (mut left, mut launched) = (rate * dt, Vec::new());
        while left > 0.0 && self.book.current().is_some() {
            let Self { book, fluids, column, log, .. } = self;
            let mut ball = None;
            let rest = book.take(
                Volume::m3(left),
                |p| fluids.grain_density(p),
                |s| {
                    let make = Make::new(s.order.fluid, s.order.proppant, s.concentration);
                    let mass = Mass::kg(s.clean.si() * s.concentration.si());
                    let amount = Amount { slurry: s.slurry, clean: s.clean, mass };
                    column.push(Parcel { make, amount });
                    log.pumped(s.order.stage, amount);
                    ball = s.launch;
                },
            );
            left = rest.si();
            launched.extend(ball.map(|stage| (stage, left / rate)));
        }
        (rate * dt - left, launched)
    }

    /// Lets balls leave and move.
    fn fly(&mut self, rate: f64, dt: f64, launched: &[(usize, f64)]) -> Result<Option<Arrival>, PumpError> {
        let before = self.flights.len();
        for (stage, left) in launched {
            let Some(card) = self.crew.card(*stage) else { continue };
            let at = self.time + dt - left;
            self.flights.push(Flight::new(self.job, *stage, card.ball, Time::seconds(at), &self.route));
            let text = format!("ball {stage} left the launcher");
            self.log.event(at, EventKind::BallLaunched, *stage, text);
        }
        let Self { flights, route, column, fluids, end, .. } = self;
        let stream = Stream { route, column, fluids, rate, end: *end };
        let mut landed = None;
        for (i, flight) in flights.iter_mut().enumerate().filter(|(_, f)| f.moving()) {
            let time = i.checked_sub(before).and_then(|k| launched.get(k)).map_or(dt, |l| l.1);
            if let Some(mut arrival) = flight.advance(&stream, time)? {
                arrival.after += Time::seconds(dt - time);
                landed = Some(arrival);
            }
        }
        Ok(landed)
    }

    /// Moves a volume out through the open sleeve, or packs it into the closed string.
    fn flow(&mut self, volume: f64) {
        let Some(open) = self.open else {
            self.packed += volume;
            return;
        };
        let stage = self.sleeves.get(open).map_or(0, |s| s.stage);
        let time = self.time;
        let Self { column, log, .. } = self;
        let mut first = false;
        column.draw(Volume::m3(volume), |p| first |= log.placed(stage, p.amount));
        if first {
            let text = format!("the first proppant passes the sleeve of stage {stage}");
            log.event(time, EventKind::ProppantAtSleeve, stage, text);
        }
    }

    /// A ball has come to its seat: the sleeve opens and takes over.
    fn land(&mut self, arrival: Arrival, rate: f64, dt: f64) {
        let after = arrival.after.si();
        let at = self.time + after;
        let seat = arrival.seat;
        let Some(ball) = self.flights.iter().find(|f| f.place == Whereabouts::Seated { stage: seat }) else {
            return;
        };
        let swept = self.sleeve_of(seat).and_then(|i| self.sleeves.get(i)).map(|s| s.volume);
        let swept = swept.map_or(Volume::ZERO, |v| v - self.route.to_launcher());
        // The ball's volume was counted to the end of the stretch.
        let pumped = ball.pumped - Volume::m3(rate * (dt - after)).max(Volume::ZERO);
        self.log.landings.push(LandingRun {
            stage: seat,
            launched: ball.launched,
            landed: Time::seconds(at),
            opened: Some(Time::seconds(at)),
            pumped,
            ratio: Ratio::of(if swept.si() > 0.0 { pumped / swept } else { 0.0 }),
            rate: FlowRate::from_si(rate),
            highest: GaugePressure::from_si(self.surface),
        });
        let text = format!("ball {} is on the seat of stage {seat}", ball.stage);
        self.log.event(at, EventKind::BallLanded, seat, text);
        self.open_sleeve(seat, at);
    }

    /// Opens a sleeve, which then takes all fluid.
    pub(crate) fn open_sleeve(&mut self, stage: usize, at: f64) {
        let Some(new) = self.sleeve_of(stage) else { return };
        if let Some(old) = self.open.and_then(|i| self.sleeves.get_mut(i)) {
            old.state = SleeveState::Isolated;
        }
        if let Some(sleeve) = self.sleeves.get_mut(new) {
            sleeve.state = SleeveState::Open;
            self.end = sleeve.volume.si();
        }
        self.open = Some(new);
        // What is below the ball stays there.
        let excess = self.column.amount().slurry.si() - self.end - self.packed;
        let Self { column, log, .. } = self;
        column.draw(Volume::m3(excess.max(0.0)), |p| log.below_balls += p.amount);
        self.log.event(at, EventKind::SleeveOpened, stage, format!("the sleeve of stage {stage} is open"));
        // What had been packed into a closed string comes out.
        let packed = std::mem::take(&mut self.packed);
        self.flow(packed);
        let seen = at + self.travel_time(stage);
        self.crew.mode = Mode::Landed { stage, acts: Time::seconds(seen) + self.crew.rules().reaction };
    }

    /// Pressure at the surface and at the open sleeve.
    fn press(&mut self, rate: f64) -> Result<(), PumpError> {
        let Self { route, column, fluids, heat, end, .. } = self;
        let still = self.open.is_none();
        let flow = if still { 0.0 } else { rate };
        let d = down(route, column, fluids, heat.heights(), (flow, *end))?;
        if still {
            self.surface = self.packed * self.stiffness;
            self.below = self.surface + d.gain();
            return Ok(());
        }
        let stage = self.open_stage();
        let Some(line) = self.line(stage) else { return Ok(()) };
        let tvd = self.open.and_then(|i| self.sleeves.get(i)).map_or(0.0, |s| s.tvd.si());
        let fracture = line.fracture_gradient.si() * tvd;
        let near = line.near_wellbore.at(FlowRate::from_si(flow)).si();
        let area = self.open.and_then(|i| self.sleeves.get(i)).map_or(Area::ZERO, |s| s.ports);
        let density = Density::kg_per_m3(d.density_below.max(1.0));
        let ports = port_loss(area, line.port_coefficient, density)?.at(FlowRate::from_si(flow)).si();
        self.below = fracture + near + ports;
        // A column heavier than the fracture leaves the wellhead on vacuum, which a gauge shows as nothing.
        self.surface = (self.below - d.gain()).max(0.0);
        Ok(())
    }

    /// What the crew and the pumps do about what the gauges show.
    fn watch(&mut self, rate: f64) {
        let limits = &self.job.file.limits;
        if self.open.is_none() && self.below - self.outside() >= self.shear_of_first() {
            self.open_sleeve(1, self.time);
        }
        let running = !matches!(self.crew.mode, Mode::Stopped { .. } | Mode::ShutIn { .. });
        if running && self.surface >= limits.trip.si() {
            self.stop_because(EventKind::PumpsTripped, &checks::TRIPPED, "the pumps tripped");
        } else if running && self.surface > limits.treating_pressure.si() {
            self.come_down();
        } else if running && rate * self.surface > plan::stages::power_on_location(self.job).si() {
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
    fn stop_because(&mut self, kind: EventKind, check: &'static well::Check, what: &str) {
        let stage = self.open_stage();
        self.log.event(self.time, kind, stage, what.to_string());
        let surface = GaugePressure::from_si(self.surface);
        self.log.findings.push(check.found(format!("{what} while stage {stage} took fluid")).stage(stage).value(surface));
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
            self.stop_because(EventKind::BallMissing, check, &format!("ball {stage} has not landed, at {depth:?}"));
        }
    }

    /// Writes a sample.
    fn write(&mut self, dt: f64) {
        let since = std::mem::take(&mut self.log.since);
        let meter = self.log.stages.get(self.log.meter).copied().unwrap_or_default();
        let below = self.column.at(Volume::m3(self.end - 1e-9)).copied();
        let density = |p: &Parcel| Density::kg_per_m3(self.fluids.density(p));
        let open = self.open.and_then(|i| self.sleeves.get(i));
        let depth = open.or(self.sleeves.first()).map_or(MeasuredDepth::ZERO, |s| s.depth);
        let top = self.column.from_top().next();
        let ball = self.ball().or(self.flights.last());
        let sample = Sample {
            time: Time::seconds(self.time),
            stage: self.log.meter,
            treating_pressure: GaugePressure::from_si(self.surface),
            slurry_rate: since.slurry / Time::seconds(dt),
            clean_rate: since.clean / Time::seconds(dt),
            concentration: since.concentration(),
            concentration_below: below.map_or(Concentration::ZERO, |p| p.amount.concentration()),
            density: top.map_or(Density::ZERO, density),
            density_below: below.as_ref().map_or(Density::ZERO, density),
            stage_slurry: meter.pumped.slurry,
            stage_clean: meter.pumped.clean,
            stage_mass: meter.pumped.mass,
            job_slurry: self.log.pumped.slurry,
            job_clean: self.log.pumped.clean,
            job_mass: self.log.pumped.mass,
            bottomhole_pressure: GaugePressure::from_si(self.below),
            bottomhole_temperature: self.heat.fluid_at(depth),
            open_stage: self.open_stage(),
            ball: self.ball().map_or(0, |b| b.stage),
            ball_depth: ball.map_or(MeasuredDepth::ZERO, Flight::depth),
        };
        let stage = self.open_stage();
        if let Some(s) = self.log.stages.get_mut(stage) {
            s.highest = s.highest.max(sample.treating_pressure);
            s.fastest = s.fastest.max(sample.slurry_rate);
        }
        self.log.samples.push(sample);
    }
}
