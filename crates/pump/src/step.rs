//! One stretch of time: what the pumps send, where balls and fluid get to, and the pressure at its end.

use quantity::*;

use crate::checks;
use crate::column::{Amount, Make, Parcel};
use crate::error::PumpError;
use crate::flight::{Arrival, Flight, Stream, Whereabouts};
use crate::pressure::{Stretch, down};
use crate::record::{EventKind, Sample};
use crate::rock::{Stopped, words};
use crate::world::World;

/// A part of the column while a ball has parted it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Part {
    /// From the meter down to the ball, or to the open sleeve.
    Upper,
    /// Below the ball.
    Lower,
}

/// The crew reads its gauges and decides once in this time, s, however finely the job is followed.
const TICK: f64 = 1.0;

/// Whether a moment is one at which the crew decides.
fn whole_second(time: f64) -> bool {
    let rest = (time / TICK).fract();
    !(1e-6..=1.0 - 1e-6).contains(&rest)
}

impl World<'_> {
    /// Carries the job through a stretch of time.
    pub(crate) fn step(&mut self, dt: f64) -> Result<(), PumpError> {
        if whole_second(self.time) || dt > TICK {
            self.act_faults()?;
            self.goal = self.crew.goal(self.open_stage(), self.awaited());
        }
        let goal = self.goal;
        let begun = self.crew.rate.si();
        let wanted = self.crew.ramp(goal, Time::seconds(dt)).si();
        let (pumped, launched) = self.send(wanted, dt);
        let rate = pumped / dt;
        let landed = self.fly(rate, dt, &launched)?;
        let rates = (begun, self.crew.rate.si());
        match landed {
            Some(arrival) => {
                let first = arrival.after.si();
                self.flow(rate * first);
                self.press(rate)?;
                self.land(arrival, rate, dt)?;
                self.ride_waves(dt - first, (rate, rates.1), self.time + dt)?;
            }
            None if self.surge.is_some() => self.ride_waves(dt, rates, self.time + dt)?,
            None => {
                self.flow(pumped);
                self.press(rate)?;
            }
        }
        self.pack(dt);
        self.time += dt;
        let (surface, below, depth) = (self.surface, self.below, self.end_tvd());
        let slope = if depth > 0.0 { (below - surface) / depth } else { 0.0 };
        self.heat.advance(&self.route, (rate, dt), |tvd| surface + slope * tvd)?;
        self.open_if_pressed(rate);
        self.follow_rock(dt)?;
        self.trip_if_over()?;
        if whole_second(self.time) || dt > TICK {
            self.watch(rate)?;
        }
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
            let (ball, leaves) = self.ball_that_leaves(*stage, card.ball);
            let mut flight = Flight::new(self.job, *stage, ball, Time::seconds(at), &self.route);
            if !leaves {
                flight.place = Whereabouts::InLauncher;
            }
            self.log.ball_is(&flight, at);
            self.flights.push(flight);
            let text = format!("ball {stage} left the launcher");
            self.log.event(at, EventKind::BallLaunched, *stage, text);
        }
        if !self.flights.iter().any(|f| f.moving() || f.awaited) {
            return Ok(None);
        }
        let taken: Vec<usize> = self.flights.iter().filter_map(Flight::seat).collect();
        let Self { flights, route, column, fluids, end, log, .. } = self;
        let stream = Stream { route, column, fluids, rate, end: *end };
        // The crew goes on counting for a ball that lies somewhere.
        for flight in flights.iter_mut().filter(|f| f.awaited && !f.moving()) {
            flight.pumped += Volume::m3(rate * dt);
        }
        let mut landed = None;
        for (i, flight) in flights.iter_mut().enumerate().filter(|(_, f)| f.moving()) {
            let time = i.checked_sub(before).and_then(|k| launched.get(k)).map_or(dt, |l| l.1);
            if let Some(mut arrival) = flight.advance(&stream, time)? {
                arrival.after += Time::seconds(dt - time);
                if taken.contains(&arrival.seat) {
                    flight.place = Whereabouts::AtRest;
                } else {
                    landed = Some(arrival);
                }
            }
            log.ball_is(flight, self.time + dt);
        }
        Ok(landed)
    }

    /// Moves a volume out through the open sleeve, or packs it into the closed string.
    pub(crate) fn flow(&mut self, volume: f64) {
        if self.open.is_none() {
            self.packed += volume;
            return;
        }
        let out = volume - self.owed;
        self.owed = (-out).max(0.0);
        self.place(self.open_stage(), out.max(0.0), Part::Upper);
    }

    /// Places a volume from the lower end of a part of the column in the rock of a stage.
    pub(crate) fn place(&mut self, stage: usize, volume: f64, part: Part) {
        let time = self.time;
        let Self { column, lower, log, rock, fluids, branch, .. } = self;
        let mut first = false;
        let mut put = |stage: usize, p: Parcel| {
            first |= log.placed(stage, p.amount);
            rock.take(stage, p.amount, fluids.viscosity(p.make), time);
        };
        match (part, branch) {
            (Part::Lower, _) => lower.draw(Volume::m3(volume), |p| put(stage, p)),
            (Part::Upper, None) => column.draw(Volume::m3(volume), |p| put(stage, p)),
            (Part::Upper, Some(b)) => {
                let share = b.share;
                column.draw(Volume::m3(volume), |p| {
                    let aside = p.amount.share(share);
                    b.column.push(Parcel { make: p.make, amount: aside });
                    put(stage, Parcel { make: p.make, amount: p.amount + aside.share(-1.0) });
                });
                let to = b.stage;
                b.column.draw(Volume::m3(volume * share), |p| put(to, p));
            }
        }
        if first {
            let text = format!("the first proppant passes the sleeve of stage {stage}");
            log.event(time, EventKind::ProppantAtSleeve, stage, text);
        }
    }

    /// Pressure at the surface and at the open sleeve.
    pub(crate) fn press(&mut self, rate: f64) -> Result<(), PumpError> {
        let Self { route, column, fluids, heat, end, .. } = self;
        let still = self.open.is_none();
        let flow = if still { 0.0 } else { rate };
        let d = down(route, column, fluids, heat.heights(), Stretch { from: 0.0, to: *end, rate: flow })?;
        if still {
            self.surface = self.packed * self.stiffness;
            self.below = self.surface + d.gain();
            self.peak = self.surface;
            return Ok(());
        }
        self.below = self.outlets(flow, d.density_below)?;
        // A column heavier than the fracture leaves the wellhead on vacuum, which a gauge shows as nothing.
        self.surface = (self.below - d.gain()).max(0.0);
        self.peak = self.surface;
        Ok(())
    }

    /// Lets the fractures that take fluid grow, or close.
    fn follow_rock(&mut self, dt: f64) -> Result<(), PumpError> {
        self.grow_past_packer();
        let mut stopped = self.rock.advance(self.open_stage(), dt)?;
        if let Some(second) = self.branch.as_ref().map(|b| b.stage) {
            stopped = stopped.or(self.rock.advance(second, dt)?);
        }
        let Some(stopped) = stopped else { return Ok(()) };
        let Stopped { stage, how } = stopped;
        let text = format!("the fracture of stage {stage} screens out: {}", words(how));
        self.log.event(self.time, EventKind::ScreenedOut, stage, text.clone());
        self.log.findings.push(checks::SCREENED_OUT.found(text).stage(stage));
        Ok(())
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
            annulus_pressure: GaugePressure::from_si(self.annulus),
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
            fracture_length: Length::m(self.rock.length(self.open_stage())),
            net_pressure: Pressure::pa(self.rock.net(self.open_stage())),
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
