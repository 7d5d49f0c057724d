//! Velocity of a ball in a flowing pipe of any inclination, and the rate at which it stands still.

use super::carrying_factor::{EXPONENT, Position, carrying_factor};
use super::contact::BALL;
use super::count::flag;
use super::drag::{DRAG_LAW, DragLaw};
use super::terminal_velocity::{
    BALL_DENSITY, Ball, FLUID_DENSITY, Liquid, VISCOSITY, ball, liquid, settling,
};
use super::wall_factor::{BORE, WALL_LAW, WallLaw, wall_factor};
use crate::error::{Result, require, require_not_negative};
use crate::registry::{Arguments, Input, Output, Outputs, Relation};
use quantity::constant::GRAVITY;
use quantity::{Acceleration, Angle, Diameter, FlowRate, Quantity, Ratio, Velocity};

const NAME: &str = "ball_velocity";

/// A ball and how its ride is modelled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ride {
    /// The ball.
    pub ball: Ball,
    /// Rolling or sliding resistance over the normal force.
    pub rolling: f64,
    /// Exponent of the velocity profile.
    pub exponent: f64,
    /// Inclination from which the ball touches the wall.
    pub wall_from: Angle,
    /// Correction for the wall.
    pub wall_law: WallLaw,
    /// Correlation of the drag.
    pub drag_law: DragLaw,
}

impl Ride {
    /// The usual model: rolling resistance 0.05, 1/7-power profile, on the low side from 1 degree.
    pub fn new(ball: Ball) -> Self {
        Self {
            ball,
            rolling: 0.05,
            exponent: 7.0,
            wall_from: Angle::deg(1.0),
            wall_law: WallLaw::default(),
            drag_law: DragLaw::default(),
        }
    }
}

/// What a bore does to a ball at any inclination and rate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// Carrying factor.
    pub carrying: f64,
    /// Wall factor.
    pub wall: f64,
}

impl Fit {
    /// Of a ball in a bore.
    pub fn of(ride: &Ride, bore: Diameter, position: Position) -> Result<Self> {
        Ok(Self {
            carrying: carrying_factor(ride.ball.diameter, bore, position, ride.exponent)?,
            wall: wall_factor(ride.wall_law, ride.ball.diameter, bore)?,
        })
    }
}

impl Ride {
    /// Where the ball is in the bore: on the low side from `wall_from`.
    pub fn position(&self, inclination: Angle) -> Position {
        if inclination < self.wall_from { Position::Centred } else { Position::Wall }
    }
}

/// A place in the pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Bore.
    pub bore: Diameter,
    /// Inclination from the vertical; above 90 deg the hole rises toward the toe.
    pub inclination: Angle,
    /// What fills it.
    pub liquid: Liquid,
}

/// Which way the ball goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// Toward the toe.
    DownHole,
    /// Toward the surface.
    UpHole,
    /// Held by its rolling resistance.
    Held,
}

/// Velocity of a ball: positive toward the toe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Motion {
    /// Velocity.
    pub velocity: Velocity,
    /// Part of it that is not the flow's carrying.
    pub slip: Velocity,
    /// Which way.
    pub way: Way,
}

/// What a place does to a ball, before any rate is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Riding {
    /// Carrying factor.
    pub carrying: f64,
    /// Slip while the ball goes toward the toe.
    pub slip_down: Velocity,
    /// Slip while the ball goes toward the surface.
    pub slip_up: Velocity,
}

impl Riding {
    /// Velocity of a ball in a flowing pipe: carried by the flow, plus its slip under gravity less
    /// rolling resistance.
    ///
    /// ```text
    /// V = kappa U + v_slip,   v_slip = f_w v_t(a),   a = (s - 1) g cos(I) -/+ mu_r |s - 1| g sin(I)
    /// ```
    ///
    /// - `U` mean flow, m/s, positive toward the toe; `kappa` carrying factor; `f_w` wall factor
    /// - `v_t(a)` terminal velocity under the acceleration `a`, m/s; `s` ball over liquid density
    /// - `I` inclination, rad; `mu_r` rolling resistance, 0.02 to 0.1, up to 0.3 on sand
    ///
    /// Range: none stated by the source; that of the drag, wall and carrying models.
    ///
    /// Where it breaks: the resistance acts against the motion; when neither direction can move, the
    /// ball is held. The only measurement at hand is the band of ellis_1964, 4 to 8 % ahead of the flow
    /// in a level pipe: it is met with a resistance near zero, so 0.05 errs on the slow side, most at
    /// low rates. Calibrate on each landing. Proppant beds, couplings and seats are not in it.
    ///
    /// Source: derived_carrying, flow plus slip.
    ///
    /// ```
    /// use physics::ball::{ball_velocity::*, terminal_velocity::{Ball, Liquid}};
    /// use quantity::*;
    /// let ball = Ball { diameter: Diameter::inch(2.5), density: Density::kg_per_m3(1800.0) };
    /// let water = Liquid { density: Density::kg_per_m3(1000.0), viscosity: Viscosity::cp(1.0) };
    /// let lateral = Place { bore: Diameter::inch(4.0), inclination: Angle::deg(90.0), liquid: water };
    /// let riding = Riding::at(&Ride::new(ball), &lateral)?;
    /// let flow = FlowRate::bbl_per_min(10.0) / lateral.bore.circle();
    /// let motion = riding.motion(flow);
    /// assert!(motion.velocity / flow > 1.02 && motion.velocity / flow < 1.08);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn motion(&self, flow: Velocity) -> Motion {
        let carried = flow * self.carrying;
        // V = kappa U + v_slip, the resistance against the motion
        let (down, up) = (carried + self.slip_down, carried + self.slip_up);
        if down > Velocity::ZERO {
            Motion { velocity: down, slip: self.slip_down, way: Way::DownHole }
        } else if up < Velocity::ZERO {
            Motion { velocity: up, slip: self.slip_up, way: Way::UpHole }
        } else {
            Motion { velocity: Velocity::ZERO, slip: -carried, way: Way::Held }
        }
    }

    /// Prepares the ride of a ball at a place.
    pub fn at(ride: &Ride, place: &Place) -> Result<Self> {
        let inclination = place.inclination;
        require(
            inclination.si() >= 0.0 && inclination.si() <= std::f64::consts::PI,
            NAME,
            "inclination",
            inclination,
            "from 0 to 180 deg",
            "Give the inclination from the vertical.",
        )?;
        require_not_negative(NAME, "rolling", Ratio::of(ride.rolling))?;
        let position = ride.position(inclination);
        let fit = Fit::of(ride, place.bore, position)?;
        Self::fitted(ride, place, fit)
    }

    /// The ride at a place whose bore has been looked at before.
    pub fn fitted(ride: &Ride, place: &Place, fit: Fit) -> Result<Self> {
        let inclination = place.inclination;
        let excess = ride.ball.excess(place.liquid);
        // a = (s - 1) g cos(I) -/+ mu_r |s - 1| g sin(I)
        let along = excess * GRAVITY * libm::cos(inclination.si());
        let resistance = ride.rolling * excess.abs() * GRAVITY * libm::sin(inclination.si());
        let slip = |drive: f64| -> Result<Velocity> {
            let free = settling(ride.ball, place.liquid, Acceleration::from_si(drive), ride.drag_law)?;
            Ok(free.velocity * fit.wall)
        };
        Ok(Self {
            carrying: fit.carrying,
            slip_down: slip(along - resistance)?,
            slip_up: slip(along + resistance)?,
        })
    }

    /// Mean flow below which a ball on its way to the toe stands still; zero when it goes by itself.
    pub fn stall(&self) -> Velocity {
        // kappa U = -v_slip
        (-self.slip_down / self.carrying).max(Velocity::ZERO)
    }

    /// Mean flow toward the surface above which the ball comes up; zero when it comes by itself.
    pub fn lift(&self) -> Velocity {
        (self.slip_up / self.carrying).max(Velocity::ZERO)
    }
}

/// Rolling resistance of a call.
pub(crate) const ROLLING: Input =
    Input::new::<Ratio>("rolling", "rolling or sliding resistance over the normal force")
        .or("0.05")
        .within(0.0, 0.3);
/// Inclination of a call.
pub(crate) const INCLINATION: Input = Input::new::<Angle>("inclination", "inclination from the vertical");
const WALL_FROM: Input =
    Input::new::<Angle>("wall_from", "inclination from which the ball touches the wall").or("1 deg");

/// The ride of a call.
pub(crate) fn ride(a: &Arguments) -> Result<Ride> {
    Ok(Ride {
        ball: ball(a)?,
        rolling: a.number("rolling")?,
        exponent: a.number("exponent")?,
        wall_from: a.get("wall_from")?,
        wall_law: WallLaw::of(a.word("wall_law")?),
        drag_law: DragLaw::of(a.word("drag_law")?),
    })
}

fn place(a: &Arguments) -> Result<Place> {
    Ok(Place { bore: a.get("bore")?, inclination: a.get("inclination")?, liquid: liquid(a)? })
}

/// The inputs of a ride at one place, with one more at the end.
const fn with_place(last: Input) -> [Input; 12] {
    let [a, b, c, d, e, f, g, h, i] = RIDE;
    [a, b, c, d, e, f, g, h, i, BORE, INCLINATION, last]
}

/// The inputs every ride has.
pub(crate) const RIDE: [Input; 9] =
    [BALL, BALL_DENSITY, FLUID_DENSITY, VISCOSITY, ROLLING, EXPONENT, WALL_FROM, WALL_LAW, DRAG_LAW];

static VELOCITY_INPUTS: [Input; 12] =
    with_place(Input::new::<FlowRate>("rate", "rate, positive toward the toe, negative in flowback"));

/// Register entry of [`Riding::motion`].
pub static BALL_VELOCITY: Relation = Relation {
    name: NAME,
    title: "Velocity of a ball in a flowing pipe of any inclination; positive toward the toe",
    equation: "V = kappa U + f_w v_t(a), a = (s - 1) g cos(I) -/+ mu_r |s - 1| g sin(I)",
    source: "derived_carrying, flow plus slip",
    range: "none stated by the source; that of the drag, wall and carrying models",
    inputs: &VELOCITY_INPUTS,
    outputs: &[
        Output::new::<Velocity>("velocity", "velocity of the ball"),
        Output::new::<Velocity>("flow", "mean velocity of the liquid"),
        Output::new::<Velocity>("slip", "velocity of the ball beyond what the flow carries"),
        Output::new::<Ratio>("carrying_factor", "velocity of a weightless ball over the mean flow"),
        Output::new::<Ratio>("held", "1 when the rolling resistance holds the ball"),
    ],
    evaluate: |a| {
        let (ride, place) = (ride(a)?, place(a)?);
        let riding = Riding::at(&ride, &place)?;
        let flow = a.get::<FlowRate>("rate")? / place.bore.circle();
        let motion = riding.motion(flow);
        Ok(Outputs::new()
            .put("velocity", motion.velocity)
            .put("flow", flow)
            .put("slip", motion.slip)
            .put("carrying_factor", Ratio::from_si(riding.carrying))
            .put("held", flag(motion.way == Way::Held)))
    },
};

/// Register entry of [`Riding::stall`] and [`Riding::lift`].
///
/// ```text
/// kappa U = -v_slip
/// ```
pub static STALL_RATE: Relation = Relation {
    name: "stall_rate",
    title: "Rate below which a ball stands still on its way to the toe, and rate that brings it up",
    equation: "q = -v_slip A / kappa, no less than zero",
    source: "derived_carrying, flow plus slip",
    range: "none stated by the source; that of the drag, wall and carrying models",
    inputs: &STALL_INPUTS,
    outputs: &[
        Output::new::<FlowRate>("stall_rate", "rate below which the ball does not go to the toe"),
        Output::new::<FlowRate>("lift_rate", "flowback rate above which the ball comes up"),
    ],
    evaluate: |a| {
        let place = place(a)?;
        let riding = Riding::at(&ride(a)?, &place)?;
        let area = place.bore.circle();
        Ok(Outputs::new().put("stall_rate", riding.stall() * area).put("lift_rate", riding.lift() * area))
    },
};

static STALL_INPUTS: [Input; 11] = {
    let [a, b, c, d, e, f, g, h, i] = RIDE;
    [a, b, c, d, e, f, g, h, i, BORE, INCLINATION]
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use quantity::{Density, Viscosity};

    fn riding(d: f64, sg: f64, inclination: f64, rolling: f64) -> Riding {
        let ball = Ball { diameter: Diameter::inch(d), density: Density::kg_per_m3(1000.0 * sg) };
        let liquid = Liquid { density: Density::kg_per_m3(1000.0), viscosity: Viscosity::cp(1.0) };
        let place = Place { bore: Diameter::inch(4.0), inclination: Angle::deg(inclination), liquid };
        Riding::at(&Ride { rolling, ..Ride::new(ball) }, &place).unwrap()
    }

    proptest! {
        /// Turning well and flow upside down turns the motion.
        #[test]
        fn mirror(d in 1.0..3.8f64, sg in 0.8..2.7f64, i in 2.0..178.0f64, u in -3.0..3.0f64) {
            let down = riding(d, sg, i, 0.05).motion(Velocity::m_per_s(u)).velocity.si();
            let up = riding(d, sg, 180.0 - i, 0.05).motion(Velocity::m_per_s(-u)).velocity.si();
            prop_assert!((down + up).abs() < 1e-9);
        }

        /// The ball stands still at its stall rate and moves above it.
        #[test]
        fn stall_is_where_it_stops(d in 1.0..3.8f64, i in 85.0..120.0f64, mu in 0.02..0.3f64) {
            let r = riding(d, 1.8, i, mu);
            let stall = r.stall();
            prop_assume!(stall > Velocity::ZERO);
            prop_assert!(r.motion(stall * 0.999).velocity <= Velocity::ZERO);
            prop_assert!(r.motion(stall * 1.001).velocity > Velocity::ZERO);
        }
    }

    #[test]
    fn a_weightless_ball_goes_with_the_flow() {
        let r = riding(2.5, 1.0, 90.0, 0.3);
        let motion = r.motion(Velocity::m_per_s(2.0));
        assert!((motion.velocity.si() - 2.0 * r.carrying).abs() < 1e-12);
        assert_eq!(r.motion(Velocity::ZERO).way, Way::Held);
    }

    #[test]
    fn a_heavy_ball_rests_in_the_lateral_and_runs_in_the_vertical() {
        assert_eq!(riding(2.5, 1.8, 90.0, 0.05).motion(Velocity::ZERO).way, Way::Held);
        assert_eq!(riding(2.5, 1.8, 0.0, 0.05).motion(Velocity::ZERO).way, Way::DownHole);
        assert_eq!(riding(2.5, 0.8, 0.0, 0.05).motion(Velocity::ZERO).way, Way::UpHole);
        assert_eq!(riding(2.5, 1.8, 100.0, 0.05).motion(Velocity::ZERO).way, Way::UpHole);
    }
}
