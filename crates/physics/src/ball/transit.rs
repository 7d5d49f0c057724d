//! The march of a ball from the launcher to its seat, and the volume pumped behind it.

use super::ball_velocity::{Fit, Place, RIDE, ROLLING, Ride, Riding, ride};
use super::carrying_factor::Position;
use super::terminal_velocity::{Liquid, liquid};
use super::wall_factor::BORE;
use crate::error::{Error, Result, require, require_not_negative, require_positive};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Angle, Curvature, Diameter, FlowRate, Length, Quantity, Ratio, Time, Volume};

const NAME: &str = "ball_transit";

/// A stretch of the path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leg {
    /// Length along the hole.
    pub length: Length,
    /// Inclination at its upper end.
    pub from: Angle,
    /// Inclination at its lower end.
    pub to: Angle,
    /// Bore.
    pub bore: Diameter,
    /// What the ball rides in.
    pub liquid: Liquid,
}

/// One step of the pump schedule after the launch. The last step goes on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RateStep {
    /// Rate.
    pub rate: FlowRate,
    /// How long.
    pub lasting: Time,
}

/// Where a ball was at the end of a leg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mark {
    /// Time since the launch.
    pub time: Time,
    /// Volume pumped since the launch.
    pub pumped: Volume,
}

/// A finished march.
#[derive(Debug, Clone, PartialEq)]
pub struct Transit {
    /// Time since the launch.
    pub time: Time,
    /// Volume pumped since the launch.
    pub pumped: Volume,
    /// Volume of the path.
    pub swept: Volume,
    /// Time and volume at the end of every leg.
    pub marks: Vec<Mark>,
}

/// The pumps during the march.
struct Clock<'a> {
    schedule: &'a [RateStep],
    step: usize,
    left: f64,
    time: f64,
    pumped: f64,
}

impl<'a> Clock<'a> {
    fn new(schedule: &'a [RateStep]) -> Result<Self> {
        for s in schedule {
            require_not_negative(NAME, "rate", s.rate)?;
            require_not_negative(NAME, "lasting", s.lasting)?;
        }
        let first = schedule.first().ok_or_else(|| stands("no rate is given"))?;
        Ok(Self { schedule, step: 0, left: first.lasting.si(), time: 0.0, pumped: 0.0 })
    }

    fn rate(&self) -> f64 {
        self.schedule.get(self.step).map_or(0.0, |s| s.rate.si())
    }

    fn last(&self) -> bool {
        self.step + 1 >= self.schedule.len()
    }

    fn run(&mut self, seconds: f64) {
        self.time += seconds;
        self.pumped += seconds * self.rate();
        self.left -= seconds;
    }

    /// Runs out the step and takes up the next one.
    fn next(&mut self) {
        self.run(self.left.max(0.0));
        self.step += 1;
        self.left = self.schedule.get(self.step).map_or(0.0, |s| s.lasting.si());
    }
}

fn stands(what: &str) -> Error {
    Error::NoSolution {
        relation: NAME,
        what: format!("the ball does not reach its seat: {what}"),
        hint: "Raise the rate above the stall rate of the leg, or lower the rolling resistance.",
    }
}

/// Marches a ball along a path of legs under a pump schedule.
///
/// ```text
/// dx/dt = kappa U + v_slip(I),   V_pumped = integral of q dt until x = length of the path
/// ```
///
/// - `x` distance along the hole, m; `U` mean flow, `q` rate of the step, `I` inclination
/// - velocity as in [`Riding::motion`]; inclination taken in parts of half a degree
///
/// Range: none stated by the source; that of the ball's velocity.
///
/// Where it breaks: the liquid of a leg is that round the ball, slurry at the wellhead counts as
/// volume. A ball that would run back is kept where it is. Larger seats on the way cost nothing
/// unless the rate is below a few tenths of a barrel a minute.
///
/// Source: derived_carrying, flow plus slip along the path.
///
/// ```
/// use physics::ball::{ball_velocity::Ride, terminal_velocity::{Ball, Liquid}, transit::*};
/// use quantity::*;
/// let water = Liquid { density: Density::kg_per_m3(1000.0), viscosity: Viscosity::cp(1.0) };
/// let ball = Ball { diameter: Diameter::inch(2.5), density: Density::kg_per_m3(1800.0) };
/// let (bore, flat) = (Diameter::inch(4.0), Angle::deg(90.0));
/// let leg = Leg { length: Length::m(1000.0), from: flat, to: flat, bore, liquid: water };
/// let pump = RateStep { rate: FlowRate::bbl_per_min(10.0), lasting: Time::hours(1.0) };
/// let t = transit(&Ride::new(ball), &[leg], &[pump])?;
/// assert!(t.pumped / t.swept > 0.96 && t.pumped / t.swept < 0.98);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn transit(ride: &Ride, legs: &[Leg], schedule: &[RateStep]) -> Result<Transit> {
    Road::new(ride, legs)?.march(schedule)
}

/// A stretch of one riding.
#[derive(Debug, Clone, Copy)]
struct Piece {
    riding: Riding,
    length: f64,
    area: f64,
}

/// A path prepared for one ball, ready to be marched under any number of schedules.
#[derive(Debug, Clone)]
pub struct Road {
    pieces: Vec<Piece>,
    /// Number of pieces up to and with every leg.
    ends: Vec<usize>,
    swept: Volume,
}

impl Road {
    /// Prepares a path: what every part of it does to the ball.
    pub fn new(ride: &Ride, legs: &[Leg]) -> Result<Self> {
        let mut road = Self { pieces: Vec::new(), ends: Vec::with_capacity(legs.len()), swept: Volume::ZERO };
        let mut fits: Vec<(Diameter, Position, Fit)> = Vec::new();
        for leg in legs {
            require_not_negative(NAME, "length", leg.length)?;
            road.swept += leg.length * leg.bore.circle();
            let parts = parts(leg)?;
            let (length, area) = (leg.length.si() / f64::from(parts), leg.bore.circle().si());
            for i in 0..parts {
                let share = (f64::from(i) + 0.5) / f64::from(parts);
                let inclination = leg.from + (leg.to - leg.from) * share;
                let fit = fit_of(ride, leg.bore, ride.position(inclination), &mut fits)?;
                let place = Place { bore: leg.bore, inclination, liquid: leg.liquid };
                road.pieces.push(Piece { riding: Riding::fitted(ride, &place, fit)?, length, area });
            }
            road.ends.push(road.pieces.len());
        }
        Ok(road)
    }

    /// Marches the ball under a pump schedule.
    pub fn march(&self, schedule: &[RateStep]) -> Result<Transit> {
        let mut clock = Clock::new(schedule)?;
        let mut marks = Vec::with_capacity(self.ends.len());
        let mut from = 0;
        for end in &self.ends {
            for piece in self.pieces.get(from..*end).unwrap_or_default() {
                cross(piece, &mut clock)?;
            }
            from = *end;
            marks.push(Mark { time: Time::from_si(clock.time), pumped: Volume::from_si(clock.pumped) });
        }
        Ok(Transit {
            time: Time::from_si(clock.time),
            pumped: Volume::from_si(clock.pumped),
            swept: self.swept,
            marks,
        })
    }
}

/// The fit of a bore, looked up or made.
fn fit_of(
    ride: &Ride,
    bore: Diameter,
    position: Position,
    made: &mut Vec<(Diameter, Position, Fit)>,
) -> Result<Fit> {
    if let Some((_, _, fit)) = made.iter().find(|(b, p, _)| *b == bore && *p == position) {
        return Ok(*fit);
    }
    let fit = Fit::of(ride, bore, position)?;
    made.push((bore, position, fit));
    Ok(fit)
}

/// Parts of half a degree at the most.
fn parts(leg: &Leg) -> Result<u16> {
    for angle in [leg.from, leg.to] {
        require(
            angle.si() >= 0.0 && angle.si() <= std::f64::consts::PI,
            NAME,
            "inclination",
            angle,
            "from 0 to 180 deg",
            "Give the inclination from the vertical.",
        )?;
    }
    let turn = (leg.to - leg.from).in_deg().abs();
    Ok(((turn / 0.5).ceil() as u16).max(1))
}

/// Takes the ball across a stretch of one riding, through as many rate steps as it needs.
fn cross(piece: &Piece, clock: &mut Clock) -> Result<()> {
    let mut left = piece.length;
    while left > 0.0 {
        let flow = quantity::Velocity::from_si(clock.rate() / piece.area);
        let velocity = piece.riding.motion(flow).velocity.si().max(0.0);
        let need = left / velocity;
        if clock.last() || need <= clock.left {
            if !(velocity > 0.0 && need.is_finite()) {
                return Err(stands("it stands still at the rate of the last step"));
            }
            clock.run(need);
            return Ok(());
        }
        left -= velocity * clock.left.max(0.0);
        clock.next();
    }
    Ok(())
}

/// A well of three sections: vertical, build, straight to the end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Simple {
    /// Depth at which the build starts.
    pub kick_off: Length,
    /// Build rate.
    pub build: Curvature,
    /// Inclination at the end of the build.
    pub inclination: Angle,
    /// Measured depth of the seat.
    pub seat_depth: Length,
    /// Bore throughout.
    pub bore: Diameter,
    /// Liquid throughout.
    pub liquid: Liquid,
}

impl Simple {
    /// The legs down to the seat.
    pub fn legs(&self) -> Result<[Leg; 3]> {
        require_not_negative(NAME, "kick_off", self.kick_off)?;
        require_positive(NAME, "build", self.build)?;
        require_not_negative(NAME, "inclination", self.inclination)?;
        let arc = Length::from_si(self.inclination.si() / self.build.si());
        let straight = self.seat_depth - self.kick_off - arc;
        require(
            straight >= Length::ZERO,
            NAME,
            "seat_depth",
            self.seat_depth,
            format!("below the end of the build, {}", self.kick_off + arc),
            "This relation is for seats past the build; march a path of legs for others.",
        )?;
        let (down, flat) = (Angle::ZERO, self.inclination);
        let leg = |length, from, to| Leg { length, from, to, bore: self.bore, liquid: self.liquid };
        Ok([leg(self.kick_off, down, down), leg(arc, down, flat), leg(straight, flat, flat)])
    }
}

static INPUTS: [Input; 15] = {
    let [a, b, c, d, _, f, g, h, i] = RIDE;
    [
        a,
        b,
        c,
        d,
        ROLLING,
        f,
        g,
        h,
        i,
        BORE,
        Input::new::<FlowRate>("rate", "constant rate from launch to landing"),
        Input::new::<Length>("kick_off", "depth at which the build starts"),
        Input::new::<Curvature>("build", "build rate"),
        Input::new::<Angle>("inclination", "inclination of the lateral").or("90 deg"),
        Input::new::<Length>("seat_depth", "measured depth of the seat"),
    ]
};

/// Register entry of [`transit`] in a well of three sections at one rate.
pub static BALL_TRANSIT_UNIFORM: Relation = Relation {
    name: "ball_transit_uniform",
    title: "Time and volume from launch to landing: vertical, build and lateral of one bore at one rate",
    equation: "dx/dt = kappa U + f_w v_t(a(I)); V = q t",
    source: "derived_carrying, flow plus slip along the path",
    range: "none stated by the source; that of the ball's velocity",
    inputs: &INPUTS,
    outputs: &[
        Output::new::<Time>("time", "from launch to landing"),
        Output::new::<Volume>("pumped", "volume pumped from launch to landing"),
        Output::new::<Volume>("swept", "volume of the bore down to the seat"),
        Output::new::<Ratio>("ratio", "pumped over swept"),
    ],
    evaluate: |a| {
        let well = Simple {
            kick_off: a.get("kick_off")?,
            build: a.get("build")?,
            inclination: a.get("inclination")?,
            seat_depth: a.get("seat_depth")?,
            bore: a.get("bore")?,
            liquid: liquid(a)?,
        };
        require_positive(NAME, "seat_depth", well.seat_depth)?;
        let steady = RateStep { rate: a.get("rate")?, lasting: Time::ZERO };
        let t = transit(&ride(a)?, &well.legs()?, &[steady])?;
        Ok(Outputs::new()
            .put("time", t.time)
            .put("pumped", t.pumped)
            .put("swept", t.swept)
            .put("ratio", Ratio::from_si(t.pumped / t.swept)))
    },
};

#[cfg(test)]
#[path = "transit_tests.rs"]
mod tests;
