//! A ball on its way: carried and settling through every piece of the string, through the seats it
//! passes, to the first it cannot.

use physics::ball::ball_velocity::{Fit, Place, Ride, Riding};
use physics::ball::carrying_factor::Position;
use physics::ball::terminal_velocity::{Ball, Liquid};
use plan::balls::way::liquid;
use quantity::*;
use well::Job;

use crate::column::{Column, Make};
use crate::fluids::Fluids;
use crate::route::Route;

/// Inclination from which a ball rides on the wall, as in the ball program.
const ON_THE_WALL: Angle = Angle::deg(0.1);

/// Where a ball is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Whereabouts {
    /// In the launcher still, though it is taken to be on its way.
    InLauncher,
    /// Between the launcher and the wellhead.
    SurfaceLines,
    /// On its way in the string.
    Travelling,
    /// On a seat.
    Seated {
        /// Stage of the seat.
        stage: usize,
    },
    /// Past the open sleeve, where nothing carries it on.
    AtRest,
    /// In pieces.
    Broken,
}

/// A ball on its way.
#[derive(Debug, Clone)]
pub struct Flight {
    /// Stage it is for.
    pub stage: usize,
    /// Diameter as launched.
    pub diameter: Diameter,
    /// Whether its landing has not been seen yet.
    pub awaited: bool,
    /// Where it is.
    pub place: Whereabouts,
    /// Time of its launch since the start of the job.
    pub launched: Time,
    /// Volume pumped since its launch.
    pub pumped: Volume,
    ride: Ride,
    knot: usize,
    /// Measured depth, m; volume from the meter while it is in the surface lines, m³.
    md: f64,
    volume: f64,
    fits: Vec<(usize, Position, Fit)>,
    riding: Option<(usize, Make, Riding)>,
}

/// A ball has come to a seat it cannot pass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arrival {
    /// Stage of the seat.
    pub seat: usize,
    /// How long after the beginning of the stretch of time.
    pub after: Time,
}

/// What a ball moves through during a stretch of time.
pub(crate) struct Stream<'a, 'j> {
    pub route: &'a Route,
    pub column: &'a Column,
    pub fluids: &'a Fluids<'j>,
    /// Rate, m³/s.
    pub rate: f64,
    /// Volume from the meter to the open sleeve, m³.
    pub end: f64,
}

impl Flight {
    /// A ball of a job at the launcher.
    pub fn new(job: &Job, stage: usize, diameter: Diameter, launched: Time, route: &Route) -> Self {
        let ball = Ball { diameter, density: job.file.ball.density };
        let ride = Ride {
            rolling: job.file.ball_program.rolling_resistance.si(),
            wall_from: ON_THE_WALL,
            ..Ride::new(ball)
        };
        Self {
            stage,
            diameter,
            awaited: true,
            place: Whereabouts::SurfaceLines,
            launched,
            pumped: Volume::ZERO,
            ride,
            knot: 0,
            md: 0.0,
            volume: route.to_launcher().si(),
            fits: Vec::new(),
            riding: None,
        }
    }

    /// Volume to the first seat ahead that it cannot pass, m³.
    pub(crate) fn to_seat(&self, route: &Route) -> Option<f64> {
        let ahead = |s: &&crate::route::Seat| s.volume >= self.volume && self.diameter >= s.bore;
        let seat = route.seats().iter().find(ahead).filter(|_| self.place == Whereabouts::Travelling)?;
        Some(seat.volume - self.volume)
    }

    /// Stage of the seat it is on.
    pub fn seat(&self) -> Option<usize> {
        match self.place {
            Whereabouts::Seated { stage } => Some(stage),
            _ => None,
        }
    }

    /// Measured depth.
    pub fn depth(&self) -> MeasuredDepth {
        MeasuredDepth::m(self.md)
    }

    /// Whether it is moving, or taken to be.
    pub fn moving(&self) -> bool {
        matches!(self.place, Whereabouts::SurfaceLines | Whereabouts::Travelling | Whereabouts::InLauncher)
    }

    /// Moves the ball through a stretch of time.
    pub(crate) fn advance(&mut self, stream: &Stream<'_, '_>, dt: f64) -> physics::Result<Option<Arrival>> {
        self.pumped += Volume::m3(stream.rate * dt);
        let mut left = dt;
        if self.place == Whereabouts::SurfaceLines {
            left = self.through_lines(stream, left);
        }
        while left > 0.0 && self.place == Whereabouts::Travelling {
            let knots = stream.route.knots();
            let (Some(here), Some(below)) = (knots.get(self.knot), knots.get(self.knot + 1)) else {
                self.place = Whereabouts::AtRest;
                break;
            };
            let (end, area) =
                (below.md, stream.route.bores().get(here.bore).map_or(0.0, |b| b.bore.circle().si()));
            let riding = self.riding_here(stream)?;
            let flow = if self.volume < stream.end { stream.rate / area } else { 0.0 };
            let velocity = riding.motion(Velocity::from_si(flow)).velocity.si().max(0.0);
            let need = (end - self.md) / velocity;
            if !(velocity > 0.0 && need <= left) {
                self.md += velocity * left;
                left = 0.0;
            } else {
                left -= need;
                self.md = end;
                self.knot += 1;
            }
            self.volume = stream.route.volume_at(self.md);
            if let Some(seat) = self.stopped_by(stream.route) {
                self.place = Whereabouts::Seated { stage: seat };
                return Ok(Some(Arrival { seat, after: Time::seconds(dt - left) }));
            }
            if self.volume >= stream.end && velocity <= 0.0 {
                self.place = Whereabouts::AtRest;
            }
        }
        Ok(None)
    }

    /// From the launcher to the wellhead with the fluid; returns the time that is left.
    fn through_lines(&mut self, stream: &Stream<'_, '_>, dt: f64) -> f64 {
        let rest = stream.route.wellhead() - self.volume;
        if rest <= 0.0 || stream.rate * dt >= rest {
            self.volume = stream.route.wellhead();
            self.place = Whereabouts::Travelling;
            return if stream.rate > 0.0 { dt - rest.max(0.0) / stream.rate } else { dt };
        }
        self.volume += stream.rate * dt;
        0.0
    }

    /// The seat at the ball's depth, if it is one it cannot pass.
    fn stopped_by(&self, route: &Route) -> Option<usize> {
        let here = route.seats().iter().find(|s| (s.depth.si() - self.md).abs() < 1e-6)?;
        (self.diameter >= here.bore).then_some(here.stage)
    }

    fn riding_here(&mut self, stream: &Stream<'_, '_>) -> physics::Result<Riding> {
        let parcel = stream.column.at(Volume::m3(self.volume));
        let make = parcel.map_or(Make { fluid: 0, proppant: None, class: 0 }, |p| p.make);
        if let Some((knot, known, riding)) = self.riding
            && knot == self.knot
            && known == make
        {
            return Ok(riding);
        }
        let (route, knot) = (stream.route, self.knot);
        let Some(here) = route.knots().get(knot) else {
            return Ok(Riding { carrying: 1.0, slip_down: Velocity::ZERO, slip_up: Velocity::ZERO });
        };
        let bore = route.bores().get(here.bore).map_or(Diameter::ZERO, |b| b.bore);
        let inclination = Angle::from_si(here.inclination);
        let around = match stream.fluids.mixture(make) {
            Some(m) => Liquid {
                density: parcel.map_or(m.fluid.density, |p| Density::kg_per_m3(stream.fluids.density(p))),
                ..liquid(m.fluid, FlowRate::from_si(stream.rate.max(1e-6)), bore)?
            },
            None => Liquid { density: Density::kg_per_m3(1000.0), viscosity: Viscosity::cp(1.0) },
        };
        let fit = self.fit(here.bore, bore, inclination)?;
        let riding = Riding::fitted(&self.ride, &Place { bore, inclination, liquid: around }, fit)?;
        self.riding = Some((knot, make, riding));
        Ok(riding)
    }

    fn fit(&mut self, index: usize, bore: Diameter, inclination: Angle) -> physics::Result<Fit> {
        let position = self.ride.position(inclination);
        if let Some((_, _, fit)) = self.fits.iter().find(|(b, p, _)| *b == index && *p == position) {
            return Ok(*fit);
        }
        let fit = Fit::of(&self.ride, bore, position)?;
        self.fits.push((index, position, fit));
        Ok(fit)
    }
}
