//! A landing with its pressure waves: from the moment the ball is on its seat until the rings have
//! died, coupled to the slow column on both sides.
//!
//! The fluid stands in the cells of the waves as it stood when the ball landed; the slow column
//! moves on. What is recorded is the slow pressure with the deviation of the waves from their own
//! steady flow on top, so that both agree before and after.

use physics::hammer::{
    BallFate, CellFill, CellPlace, Fineness, FrictionLaw, Governor, Hammer, HammerString, Landing, Lower,
    LumpedLoss, Ramp, Reach, Sink, Sleeve as Shearing, Upper,
};
use physics::hydraulics::port::port_loss;
use physics::hydraulics::wave_speed::{slurry_modulus, wave_speed};
use quantity::*;

use crate::column::Parcel;
use crate::error::PumpError;
use crate::world::World;

/// Bulk modulus of quartz, for the proppant in a slurry.
const GRAINS: Pressure = Pressure::gpa(36.6);
/// Time in which a ball closes its seat.
const CLOSING: Time = Time::seconds(0.05);
/// Time in which a sleeve shifts once it has sheared.
const SHIFT: Time = Time::seconds(0.1);
/// The rings have died when the pressure moves by no more than this over a period.
const QUIET: Pressure = Pressure::psi(10.0);
/// Longest time for which waves are followed, s.
const LONGEST: f64 = 300.0;
/// Time over which the slow column takes over once the sleeve is open, s.
const TAKE_OVER: f64 = 10.0;

/// What a stretch of the waves did.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Passed {
    /// Volume out through the new sleeve, m³; below zero where the rock gave back.
    pub out: f64,
    /// Volume out through the sleeve before, m³.
    pub before: f64,
    /// Surface pressure of the waves, Pa.
    pub surface: f64,
    /// Pressure above the ball, Pa.
    pub above: f64,
    /// Highest surface pressure, Pa.
    pub highest: f64,
    /// Whether the sleeve is open.
    pub open: bool,
}

/// The waves of one landing.
#[derive(Debug, Clone)]
pub(crate) struct Surge {
    hammer: Hammer,
    /// Stage of the seat.
    pub stage: usize,
    /// Place of the sleeve before.
    pub before: Option<usize>,
    /// When the ball landed, s.
    pub start: f64,
    /// When the sleeve opened, s.
    pub opened: Option<f64>,
    /// Slow pressure less that of the waves at the landing, Pa.
    offset: f64,
    steady: Steady,
    /// Volumes counted so far: new sleeve, sleeve before.
    counted: (f64, f64),
    /// Highest surface pressure, Pa.
    pub highest: f64,
    /// Time since the landing to which the waves are due, s: their own step does not divide it.
    due: f64,
    /// Volume that the rock gave back and that has not come out again, m³.
    pub owed: f64,
}

/// The steady flow of the waves' string to the new sleeve.
#[derive(Debug, Clone, Copy, Default)]
struct Steady {
    /// Weight of the column, Pa.
    weight: f64,
    /// Friction at the reference rate, Pa.
    friction: f64,
    reference: f64,
    exponent: f64,
    /// Losses of seats and ports per rate squared.
    losses: f64,
    level: f64,
    slope: f64,
}

impl Steady {
    /// Surface pressure at a rate, Pa.
    fn at(&self, rate: f64) -> f64 {
        let q = rate.max(0.0);
        let friction = self.friction * (q / self.reference).powf(self.exponent);
        self.level + self.slope * q + self.losses * q * q + friction - self.weight
    }
}

impl Surge {
    /// Waves from the landing of a ball on the seat of a stage at a rate; `slow` is the surface
    /// pressure of the slow column at that moment.
    pub fn new(world: &mut World<'_>, stage: usize, at: f64, rate: f64) -> Result<Self, PumpError> {
        let (string, steady, cells) = lay(world, stage, rate)?;
        let mut fills = cells.into_iter();
        let fallback = CellFill {
            density: Density::kg_per_m3(1000.0),
            friction: FrictionLaw::none(),
            drop: Length::ZERO,
        };
        let hammer = Hammer::new(&string, FlowRate::from_si(rate), |_| fills.next().unwrap_or(fallback))?;
        let offset = world.surface - hammer.surface_pressure().si();
        Ok(Self {
            hammer,
            stage,
            before: world.open,
            start: at,
            opened: None,
            offset,
            steady,
            counted: (0.0, 0.0),
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
        self.hammer.set_upper(Upper::Governed(Governor { ramp, trip: None, relief: None }));
        let now = self.hammer.surface_pressure().si() + self.offset;
        let mut passed = Passed { highest: now, ..Passed::default() };
        while self.hammer.time().si() < self.due - 0.5 * self.hammer.time_step().si() {
            self.hammer.step();
            passed.highest = passed.highest.max(self.hammer.surface_pressure().si() + self.offset);
        }
        let balance = self.hammer.balance();
        let now = (balance.ports.si(), balance.end.si());
        passed.out = now.0 - self.counted.0;
        passed.before = now.1 - self.counted.1;
        self.counted = now;
        passed.surface = self.hammer.surface_pressure().si() + self.offset;
        passed.above = self.hammer.pressure_above().si() + self.offset;
        if self.opened.is_none() {
            self.opened = self.hammer.sheared().map(|t| self.start + t.si());
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
        let taken = slow - self.steady.at(rate);
        waves + self.offset + share * (taken - self.offset)
    }

    /// Whether the waves need not be followed any longer: they have died, or the time is up.
    pub fn over(&self, time: f64) -> bool {
        let since = self.opened.map_or(0.0, |o| time - o);
        (since > TAKE_OVER && self.hammer.quiet(QUIET)) || time - self.start > LONGEST
    }
}

/// The string of the waves as the column stands: its reaches, what fills the cells, and its steady
/// flow to the new sleeve.
fn lay(
    world: &mut World<'_>,
    stage: usize,
    rate: f64,
) -> Result<(HammerString, Steady, Vec<CellFill>), PumpError> {
    let seat = world.sleeve_of(stage).and_then(|i| world.sleeves.get(i)).cloned();
    let seat = seat.ok_or(PumpError::NoPlan { part: "sleeve at the seat of the ball" })?;
    let before = world.open.and_then(|i| world.sleeves.get(i)).cloned();
    let end = before.as_ref().map_or(seat.depth, |s| s.depth.max(seat.depth));
    let reaches = reaches(world, seat.depth, end)?;
    let fineness = Fineness::default();
    let grid = physics::hammer::Grid::new(&reaches, &fineness)?;
    let other = world.crew.planned(stage).si().max(rate * 1.5);
    let mut fills = Vec::with_capacity(grid.cells().len());
    let mut steady = Steady { reference: rate.max(1e-9), exponent: 1.8, ..Steady::default() };
    let exponent = exponent(world, rate.max(1e-9), other)?;
    steady.exponent = exponent;
    let at_seat = seat.depth.si();
    for cell in grid.cells() {
        let fill = fill(world, cell, rate.max(1e-9), exponent)?;
        if cell.bottom.si() <= at_seat + 1e-6 {
            steady.weight += fill.density.si() * constant::GRAVITY * fill.drop.si();
            steady.friction += fill.friction.gradient.si() * cell.length().si();
        }
        fills.push(fill);
    }
    let losses = losses(world, stage);
    let above: f64 = losses.iter().filter(|l| l.at.si() < at_seat - 1e-6).map(|l| l.loss.si()).sum();
    let (new_loss, new_sink, level, slope) = rock_behind(world, stage, rate)?;
    steady.losses = above + new_loss.si();
    (steady.level, steady.slope) = (level, slope);
    let (old_loss, old_sink, ..) = rock_behind(world, before.as_ref().map_or(0, |s| s.stage), rate)?;
    let own = world.route.seats().iter().find(|s| s.stage == stage).map_or(0.0, |s| s.loss);
    let density = world.column.at(seat.volume).map_or(1000.0, |p| world.fluids.density(p));
    let landing = Landing {
        at: Length::m(at_seat),
        seat: RateSquaredLoss::from_si(0.5 * density * own),
        time: Time::ZERO,
        closing: if own > 0.0 { CLOSING } else { Time::ZERO },
        fate: BallFate::Holds,
        sleeve: Some(Shearing { shear: seat.shear, opening: SHIFT, ports: new_loss, sink: new_sink }),
    };
    let losses = losses.into_iter().filter(|l| (l.at.si() - at_seat).abs() > 1e-6).collect();
    let string = HammerString {
        reaches,
        fineness,
        losses,
        landing: Some(landing),
        upper: Upper::Constant(FlowRate::from_si(rate)),
        lower: Lower::Ports { loss: old_loss, sink: old_sink },
        unsteady_friction: None,
    };
    Ok((string, steady, fills))
}

/// Reaches from the wellhead to the seat and on to the sleeve before, each of the mean area and
/// wave speed of its bores and fluids.
fn reaches(world: &World<'_>, seat: MeasuredDepth, end: MeasuredDepth) -> Result<Vec<Reach>, PumpError> {
    let liner = world.liner_top.si();
    let mut marks = vec![liner.min(seat.si()), seat.si(), end.si()];
    marks.dedup_by(|b, a| *b - *a < 1.0);
    let (mut out, mut top) = (Vec::new(), world.route.knots().first().map_or(0.0, |k| k.md));
    for bottom in marks {
        if bottom - top < 1.0 {
            continue;
        }
        let (mut time, mut volume) = (0.0, 0.0);
        for pair in world.route.knots().windows(2) {
            let [a, b] = pair else { continue };
            let length = b.md.min(bottom) - a.md.max(top);
            if length <= 0.0 {
                continue;
            }
            let middle = 0.5 * (a.volume + b.volume);
            time += length / wave(world, a.bore, middle)?.si();
            let bore = world.route.bores().get(a.bore).map_or(0.0, |x| x.bore.circle().si());
            volume += length * bore;
        }
        let length = bottom - top;
        out.push(Reach {
            length: Length::m(length),
            area: Area::m2(volume / length),
            wave_speed: Velocity::m_per_s(length / time),
        });
        top = bottom;
    }
    Ok(out)
}

/// Wave speed in a bore with what stands at a volume from the meter.
fn wave(world: &World<'_>, bore: usize, volume: f64) -> Result<Velocity, PumpError> {
    let wall = world.walls.get(bore).copied().unwrap_or(Compressibility::ZERO);
    let parcel = world.column.at(Volume::m3(volume));
    let density = parcel.map_or(1000.0, |p| world.fluids.density(p));
    let modulus = match parcel {
        Some(p) => slurry_modulus(world.modulus, GRAINS, proppant_fraction(p))?,
        None => world.modulus,
    };
    Ok(wave_speed(Density::kg_per_m3(density), modulus, wall)?)
}

fn proppant_fraction(parcel: &Parcel) -> f64 {
    let a = &parcel.amount;
    if a.slurry.si() > 0.0 { (1.0 - a.clean / a.slurry).clamp(0.0, 0.99) } else { 0.0 }
}

/// Exponent of pipe friction between two rates, with what stands at the wellhead.
fn exponent(world: &mut World<'_>, rate: f64, other: f64) -> Result<f64, PumpError> {
    let Some(parcel) = world.column.from_top().next().copied() else { return Ok(1.8) };
    let mut at = |q: f64| -> Result<f64, PumpError> {
        Ok(world.fluids.gradients(parcel.make, q)?.iter().sum::<f64>())
    };
    let (low, high) = (at(rate)?, at(other)?);
    let n = (high / low).ln() / (other / rate).ln();
    Ok(if n.is_finite() { n.clamp(1.0, 2.0) } else { 1.8 })
}

/// What fills a cell: the fluid at its middle, the friction of its bores, its vertical drop.
fn fill(world: &mut World<'_>, cell: &CellPlace, rate: f64, exponent: f64) -> Result<CellFill, PumpError> {
    let (top, bottom) = (world.route.volume_at(cell.top.si()), world.route.volume_at(cell.bottom.si()));
    let upper = world.route.above(top, 0);
    let lower = world.route.above(bottom, upper.knot);
    let parcel = world.column.at(Volume::m3(0.5 * (top + bottom))).copied();
    let World { route, fluids, heat, .. } = world;
    let (density, friction) = match parcel {
        Some(p) => {
            let gradients = fluids.gradients(p.make, rate)?;
            (
                fluids_density(route, heat.heights(), &p, (&upper, &lower)),
                route.friction(&upper, &lower, gradients),
            )
        }
        None => (1.0, 0.0),
    };
    let surface = parcel.map_or(1000.0, |p| fluids.density(&p));
    Ok(CellFill {
        density: Density::kg_per_m3(surface * density),
        friction: FrictionLaw {
            gradient: PressureGradient::from_si(friction / cell.length().si().max(1e-9)),
            rate: FlowRate::from_si(rate),
            exponent,
        },
        drop: Length::m(lower.tvd - upper.tvd),
    })
}

/// Density at depth over density at the surface of what stands between two places.
fn fluids_density(
    route: &crate::route::Route,
    heights: &[f64],
    parcel: &Parcel,
    (upper, lower): (&crate::route::Above, &crate::route::Above),
) -> f64 {
    let drop = lower.tvd - upper.tvd;
    if drop.abs() < 1e-6 {
        return 1.0;
    }
    let counted = route.of_profile(heights, lower) - route.of_profile(heights, upper);
    let phi = proppant_fraction(parcel);
    (1.0 - phi) * (counted / drop).clamp(0.8, 1.2) + phi
}

/// Losses of the seats on the way to the sleeve before, with the fluid at each.
fn losses(world: &World<'_>, stage: usize) -> Vec<LumpedLoss> {
    let one = |s: &crate::route::Seat| {
        let density = world.column.at(Volume::m3(s.volume)).map_or(1000.0, |p| world.fluids.density(p));
        LumpedLoss { at: Length::m(s.depth.si()), loss: RateSquaredLoss::from_si(0.5 * density * s.loss) }
    };
    world.route.seats().iter().filter(|s| s.stage >= stage && s.volume < world.end - 1e-9).map(one).collect()
}

/// Ports and rock of a stage as the waves see them at a rate: loss, sink, level and slope.
fn rock_behind(
    world: &World<'_>,
    stage: usize,
    rate: f64,
) -> Result<(RateSquaredLoss, Sink, f64, f64), PumpError> {
    let sleeve = world.sleeve_of(stage).and_then(|i| world.sleeves.get(i));
    let line = world.line(stage);
    let (Some(sleeve), Some(line)) = (sleeve, line) else {
        return Ok((RateSquaredLoss::ZERO, Sink::constant(GaugePressure::ZERO), 0.0, 0.0));
    };
    let density = world.column.at(sleeve.volume).map_or(1000.0, |p| world.fluids.density(p));
    let loss = port_loss(sleeve.ports, line.port_coefficient, Density::kg_per_m3(density))?;
    let level = world.fracture_pressure(stage);
    let rate = FlowRate::from_si(rate.max(1e-6));
    let near = line.near_wellbore.at(rate);
    let sink = Sink::line(GaugePressure::from_si(level), near, rate)?;
    Ok((loss, sink, level, near.si() / rate.si()))
}
