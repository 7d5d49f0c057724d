//! The string of the waves as the column stands when they begin: its reaches, what fills the cells,
//! its seats, the ball, the rock behind the sleeves, and its steady flow.

use physics::hammer::{
    BallFate, CellFill, CellPlace, Fineness, FrictionLaw, Grid, HammerString, Landing, Lower, LumpedLoss,
    Reach, Sink, Sleeve as Shearing, Upper,
};
use physics::hydraulics::port::port_loss;
use physics::hydraulics::wave_speed::{slurry_modulus, wave_speed};
use quantity::*;

use crate::column::Parcel;
use crate::error::PumpError;
use crate::sleeve::Sleeve;
use crate::world::World;

/// Bulk modulus of quartz, for the proppant in a slurry.
const GRAINS: Pressure = Pressure::gpa(36.6);
/// Time in which a ball closes its seat.
const CLOSING: Time = Time::seconds(0.05);
/// Time in which a sleeve shifts once it has sheared.
const SHIFT: Time = Time::seconds(0.1);
/// How long after its opening the net pressure of a new fracture is taken for the waves: they do not
/// follow its growth.
const SOON: Time = Time::seconds(10.0);

/// What makes the waves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Cause {
    /// A ball on the seat of a stage.
    Landing {
        /// Stage of the seat.
        stage: usize,
        /// What the ball does there.
        fate: BallFate,
    },
    /// The pumps stop.
    Stop,
}

/// The steady flow of the waves' string to the sleeve that takes it, once it is open.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Steady {
    /// Weight of the column, Pa.
    weight: f64,
    /// Friction at the reference rate, Pa.
    friction: f64,
    reference: f64,
    exponent: f64,
    /// Losses of seats and ports per rate squared.
    losses: f64,
    rock: Behind,
}

/// Rock behind ports as the waves see it.
#[derive(Debug, Clone, Copy, Default)]
struct Behind {
    /// Loss of the ports per rate squared.
    ports: f64,
    /// Pressure at no rate, Pa, and its rise per rate.
    level: f64,
    slope: f64,
    /// Peak of the breakdown, Pa, and the time of its decay, s.
    peak: f64,
    decay: f64,
}

impl Steady {
    /// Surface pressure at a rate, a time after the opening, Pa.
    pub fn at(&self, rate: f64, since: f64) -> f64 {
        let q = rate.max(0.0);
        let friction = self.friction * (q / self.reference).powf(self.exponent);
        let rock = &self.rock;
        let peak = if rock.peak > 0.0 { rock.peak * (-since.max(0.0) / rock.decay).exp() } else { 0.0 };
        rock.level + peak + rock.slope * q + (self.losses + rock.ports) * q * q + friction - self.weight
    }
}

impl Behind {
    fn sink(&self) -> Result<Sink, PumpError> {
        let one = FlowRate::m3_per_s(1.0);
        let sink = Sink::line(GaugePressure::from_si(self.level), Pressure::pa(self.slope), one)?;
        if self.peak <= 0.0 {
            return Ok(sink);
        }
        Ok(sink.with_breakdown(Pressure::pa(self.peak), Time::seconds(self.decay))?)
    }
}

/// Share of the string below which a reach is joined to its neighbour.
const SHORT: f64 = 1.0 / 400.0;

/// Cells of a whole job's landings: a step of some hundredths of a second; more cells where the reaches do not
/// suit each other, and a larger change of their wave speeds where that does not help either.
fn cut(reaches: &[Reach]) -> physics::Result<(Grid, Fineness)> {
    let try_with = |cells, adjustment| {
        let fineness = Fineness { cells, adjustment };
        Grid::new(reaches, &fineness).map(|grid| (grid, fineness))
    };
    try_with(150..=400, 0.01).or_else(|_| try_with(400..=1000, 0.01)).or_else(|_| try_with(400..=1000, 0.1))
}

/// Lays the string at a rate.
pub(crate) fn lay(
    world: &mut World<'_>,
    cause: Cause,
    rate: f64,
) -> Result<(HammerString, Steady, Vec<CellFill>), PumpError> {
    let missing = PumpError::NoPlan { part: "sleeve at the seat of the ball" };
    let before = world.open.and_then(|i| world.sleeves.get(i)).cloned();
    let own = match cause {
        Cause::Landing { stage, .. } => world.sleeve_of(stage).and_then(|i| world.sleeves.get(i)).cloned(),
        Cause::Stop => before.clone(),
    };
    let own = own.ok_or(missing)?;
    let end = before.as_ref().map_or(own.depth, |s| s.depth.max(own.depth));
    let reaches = reaches(world, own.depth, end)?;
    let (grid, fineness) = cut(&reaches)?;
    let other = world.crew.planned(own.stage).si().max(rate * 1.5);
    let mut fills = Vec::with_capacity(grid.cells().len());
    let exponent = exponent(world, rate.max(1e-9), other)?;
    let mut steady = Steady { reference: rate.max(1e-9), exponent, ..Steady::default() };
    let at = own.depth.si();
    for cell in grid.cells() {
        let fill = fill(world, cell, rate.max(1e-9), exponent)?;
        if cell.bottom.si() <= at + 1e-6 {
            steady.weight += fill.density.si() * constant::GRAVITY * fill.drop.si();
            steady.friction += fill.friction.gradient.si() * cell.length().si();
        }
        fills.push(fill);
    }
    let losses = losses(world, own.stage);
    steady.losses = losses.iter().filter(|l| l.at.si() < at - 1e-6).map(|l| l.loss.si()).sum();
    steady.rock = rock_behind(world, own.stage, rate)?;
    let old = rock_behind(world, before.as_ref().map_or(0, |s| s.stage), rate)?;
    let landing = match cause {
        Cause::Landing { fate, .. } => Some(landing(world, &own, &steady.rock, fate)?),
        Cause::Stop => None,
    };
    let string = HammerString {
        reaches,
        fineness,
        losses: losses.into_iter().filter(|l| (l.at.si() - at).abs() > 1e-6).collect(),
        landing,
        upper: Upper::Constant(FlowRate::from_si(rate)),
        lower: Lower::Ports { loss: RateSquaredLoss::from_si(old.ports), sink: old.sink()? },
        unsteady_friction: None,
    };
    Ok((string, steady, fills))
}

/// The ball on its seat, and the sleeve it is to open.
fn landing(world: &World<'_>, own: &Sleeve, rock: &Behind, fate: BallFate) -> Result<Landing, PumpError> {
    let loss = world.route.seats().iter().find(|s| s.stage == own.stage).map_or(0.0, |s| s.loss);
    let density = world.column.at(own.volume).map_or(1000.0, |p| world.fluids.density(p));
    Ok(Landing {
        at: Length::m(own.depth.si()),
        seat: RateSquaredLoss::from_si(0.5 * density * loss),
        time: Time::ZERO,
        closing: if loss > 0.0 { CLOSING } else { Time::ZERO },
        fate,
        sleeve: Some(Shearing {
            shear: own.shear,
            opening: SHIFT,
            ports: RateSquaredLoss::from_si(rock.ports),
            sink: rock.sink()?,
        }),
    })
}

/// Ends of the reaches: the liner's top, the seat, and the sleeve before, those that are far enough from the seat.
fn marks(liner: f64, seat: f64, end: f64) -> Vec<f64> {
    let near = (SHORT * end).max(1.0);
    let above = (seat - liner >= near).then_some(liner);
    let below = (end - seat >= near).then_some(end);
    above.into_iter().chain([seat]).chain(below).collect()
}

/// Reaches from the wellhead to the seat and on to the sleeve before, each of the mean area and
/// wave speed of its bores and fluids.
fn reaches(world: &World<'_>, seat: MeasuredDepth, end: MeasuredDepth) -> Result<Vec<Reach>, PumpError> {
    let marks = marks(world.liner_top.si(), seat.si(), end.si());
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

/// Ports and rock of a stage as the waves see them at a rate.
fn rock_behind(world: &World<'_>, stage: usize, rate: f64) -> Result<Behind, PumpError> {
    let sleeve = world.sleeve_of(stage).and_then(|i| world.sleeves.get(i));
    let (Some(sleeve), Some(line)) = (sleeve, world.line(stage)) else { return Ok(Behind::default()) };
    let parcel = world.column.at(sleeve.volume);
    let density = parcel.map_or(1000.0, |p| world.fluids.density(p));
    let viscosity = parcel.map_or(Viscosity::cp(1.0), |p| world.fluids.viscosity(p.make));
    let ports = port_loss(sleeve.ports, line.port_coefficient, Density::kg_per_m3(density))?;
    let rate = FlowRate::from_si(rate.max(1e-6));
    let slope = line.near_wellbore.at(rate).si() / rate.si();
    let broken = world.rock.broken(stage);
    let fresh = if broken { 0.0 } else { world.rock.soon(stage, rate.si(), viscosity, SOON)? };
    let (peak, decay) = world.rock.peak().filter(|_| !broken).unwrap_or((Pressure::ZERO, Time::seconds(1.0)));
    let level = world.rock.level(stage) + fresh;
    Ok(Behind { ports: ports.si(), level, slope, peak: peak.si(), decay: decay.si() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_is_near_the_seat_is_joined_to_it() {
        assert_eq!(marks(2000.0, 4000.0, 4100.0), [2000.0, 4000.0, 4100.0]);
        assert_eq!(marks(3995.0, 4000.0, 4000.0), [4000.0]);
        assert_eq!(marks(4500.0, 4000.0, 4005.0), [4000.0]);
    }

    proptest! {
        /// Whatever the bores and places, the string can be cut.
        #[test]
        fn every_string_can_be_cut(
            liner in 100.0..6000.0f64, seat in 600.0..7000.0f64, on in 0.0..3000.0f64,
            speeds in prop::array::uniform3(900.0..1600.0f64)
        ) {
            let mut top = 0.0;
            let reach = |(bottom, speed): (f64, f64)| {
                let length = bottom - top;
                top = bottom;
                Reach { length: Length::m(length), area: Diameter::inch(4.0).circle(), wave_speed: Velocity::m_per_s(speed) }
            };
            let reaches: Vec<Reach> = marks(liner.min(seat), seat, seat + on).into_iter().zip(speeds).map(reach).collect();
            let (grid, fineness) = cut(&reaches)?;
            prop_assert!(grid.adjustment() <= fineness.adjustment && grid.cells().len() <= 1010);
        }
    }
}
