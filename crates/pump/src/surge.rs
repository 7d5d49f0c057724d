//! Pressure waves: from the moment a ball is on its seat, or the pumps stop, until the rings have
//! died, coupled to the slow column on both sides.
//!
//! The fluid stands in the cells of the waves as it stood when the ball landed; the slow column
//! moves on. What is recorded is the slow pressure with the deviation of the waves from their own
//! steady flow on top, so that both agree before and after.

use physics::hammer::{BallFate, CellFill, FrictionLaw, Governor, Hammer, Ramp, Relief, Trip, Upper};
use physics::hydraulics::port::port_loss;
use quantity::*;

use crate::error::PumpError;
use crate::string::{Cause, Steady, lay};
use crate::world::World;

/// The rings have died when the pressure moves by no more than this over a period.
const QUIET: Pressure = Pressure::psi(10.0);
/// Longest time for which waves are followed, s.
const LONGEST: f64 = 300.0;
/// Time over which the slow column takes over once the sleeve is open, s.
const TAKE_OVER: f64 = 10.0;

/// Discharge coefficient of the open relief valve, as of a sharp hole.
const VALVE: f64 = 0.6;

/// What a stretch of the waves did.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Passed {
    /// Volume out through the new sleeve, m³; below zero where the rock gave back.
    pub out: f64,
    /// Volume out through the sleeve before, m³.
    pub before: f64,
    /// Volume let off by the relief valve, m³.
    pub relieved: f64,
    /// Surface pressure of the waves, Pa.
    pub surface: f64,
    /// Pressure above the ball, Pa.
    pub above: f64,
    /// Highest surface pressure, Pa.
    pub highest: f64,
    /// Whether the sleeve is open.
    pub open: bool,
}

/// The waves of one landing, or of one stop.
#[derive(Debug, Clone)]
pub(crate) struct Surge {
    hammer: Hammer,
    /// Stage of the seat, or of the open sleeve.
    pub stage: usize,
    /// Whether it is the pumps' stop that made them, not a ball.
    pub stop: bool,
    /// Place of the sleeve before.
    pub before: Option<usize>,
    /// When the ball landed, s.
    pub start: f64,
    /// When the sleeve opened, s.
    pub opened: Option<f64>,
    /// Whether the ball lets fluid by.
    pub leaks: bool,
    /// When the ball broke, s.
    pub shattered: Option<f64>,
    /// Slow pressure less that of the waves at the landing, Pa.
    offset: f64,
    steady: Steady,
    /// Volumes counted so far: new sleeve, sleeve before, relief valve.
    counted: (f64, f64, f64),
    /// Trip and relief valve, as the waves feel them.
    trip: Trip,
    relief: Relief,
    /// Highest surface pressure, Pa.
    pub highest: f64,
    /// Time since the landing to which the waves are due, s: their own step does not divide it.
    due: f64,
    /// Volume that the rock gave back and that has not come out again, m³.
    pub owed: f64,
}

impl Surge {
    /// Waves from a moment on at which a rate is pumped.
    pub fn new(world: &mut World<'_>, cause: Cause, at: f64, rate: f64) -> Result<Self, PumpError> {
        let (string, steady, cells) = lay(world, cause, rate)?;
        let (stage, opened) = match cause {
            Cause::Landing { stage, .. } => (stage, None),
            Cause::Stop => (world.open_stage(), Some(at)),
        };
        let mut fills = cells.into_iter();
        let fallback = CellFill {
            density: Density::kg_per_m3(1000.0),
            friction: FrictionLaw::none(),
            drop: Length::ZERO,
        };
        let hammer = Hammer::new(&string, FlowRate::from_si(rate), |_| fills.next().unwrap_or(fallback))?;
        let offset = world.surface - hammer.surface_pressure().si();
        let (trip, relief) = guards(world, offset)?;
        Ok(Self {
            hammer,
            stage,
            stop: cause == Cause::Stop,
            before: world.open,
            start: at,
            opened,
            leaks: matches!(cause, Cause::Landing { fate: BallFate::Leaks { .. }, .. }),
            shattered: None,
            offset,
            steady,
            counted: (0.0, 0.0, 0.0),
            trip,
            relief,
            highest: world.surface,
            due: 0.0,
            owed: 0.0,
        })
    }

    /// Moves the waves through a stretch of time in which the pumps go from one rate to another.
    pub fn advance(&mut self, dt: f64, (from, to): (f64, f64)) -> Passed {
        let begun = self.due;
        self.due += dt;
        let ramp = Ramp {
            from: FlowRate::from_si(from),
            to: FlowRate::from_si(to),
            start: Time::seconds(begun),
            end: Time::seconds(self.due),
        };
        self.hammer.set_upper(Upper::Governed(Governor {
            ramp,
            trip: Some(self.trip),
            relief: Some(self.relief),
        }));
        let now = self.hammer.surface_pressure().si() + self.offset;
        let mut passed = Passed { highest: now, ..Passed::default() };
        while self.hammer.time().si() < self.due - 0.5 * self.hammer.time_step().si() {
            self.hammer.step();
            passed.highest = passed.highest.max(self.hammer.surface_pressure().si() + self.offset);
        }
        let balance = self.hammer.balance();
        let now = (balance.ports.si(), balance.end.si(), balance.relieved.si());
        passed.out = now.0 - self.counted.0;
        passed.before = now.1 - self.counted.1;
        passed.relieved = now.2 - self.counted.2;
        self.counted = now;
        passed.surface = self.hammer.surface_pressure().si() + self.offset;
        passed.above = self.hammer.pressure_above().si() + self.offset;
        if self.opened.is_none() {
            self.opened = self.hammer.sheared().map(|t| self.start + t.si());
        }
        if self.shattered.is_none() {
            self.shattered = self.hammer.shattered().map(|t| self.start + t.si());
        }
        passed.open = self.opened.is_some();
        self.highest = self.highest.max(passed.highest);
        passed
    }

    /// Surface pressure with the slow column under the waves, Pa: `slow` is that of the slow column
    /// at the rate, the sleeve open.
    pub fn joined(&self, time: f64, rate: f64, slow: f64) -> f64 {
        let waves = self.hammer.surface_pressure().si();
        let Some(opened) = self.opened else { return waves + self.offset };
        let share = ((time - opened) / TAKE_OVER).clamp(0.0, 1.0);
        let taken = slow - self.steady.at(rate, time - opened);
        waves + self.offset + share * (taken - self.offset)
    }

    /// After a ball has broken: the share of the slow column's pressure in what is recorded.
    pub fn back_to_slow(&self, time: f64) -> Option<f64> {
        let broke = self.shattered.filter(|_| self.opened.is_none())?;
        Some(((time - broke) / TAKE_OVER).clamp(0.0, 1.0))
    }

    /// Whether the waves need not be followed any longer: they have died, or the time is up.
    pub fn over(&self, time: f64) -> bool {
        let since = self.opened.or(self.shattered).map_or(0.0, |o| time - o);
        (since > TAKE_OVER && self.hammer.quiet(QUIET)) || time - self.start > LONGEST
    }
}

/// Trip and relief valve of the job in the pressures of the waves, which stand lower by `offset`.
fn guards(world: &World<'_>, offset: f64) -> Result<(Trip, Relief), PumpError> {
    let limits = &world.job.file.limits;
    let at = |p: GaugePressure| GaugePressure::from_si(p.si() - offset);
    let trip = Trip { pressure: at(limits.trip), run_down: world.crew.rules().trip_time };
    let top = world.column.from_top().next().map_or(1000.0, |p| world.fluids.density(p));
    let area = limits.relief_bore.circle();
    let relief = Relief {
        set: at(limits.relief),
        reseat: at(limits.relief * limits.relief_reseat.si()),
        orifice: port_loss(area, VALVE, Density::kg_per_m3(top))?,
    };
    Ok((trip, relief))
}
