//! Flowback that brings a ball up a pipe.

use super::ball_velocity::{INCLINATION, Place, ROLLING, Ride, Riding};
use super::contact::BALL;
use super::drag::{DRAG_LAW, DragLaw};
use super::terminal_velocity::{BALL_DENSITY, Ball, FLUID_DENSITY, Liquid, VISCOSITY, ball, liquid};
use super::wall_factor::{BORE, WALL_LAW, WallLaw, blocked_share};
use crate::error::{Result, require_not_negative};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::constant::GRAVITY;
use quantity::{Diameter, FlowRate, Quantity, Ratio, Velocity};

const NAME: &str = "ball_lift";

/// Mean liquid velocity that just holds a heavy ball up in a pipe, when all the flow is taken at its
/// mean: the safe side of the carrying profile.
///
/// ```text
/// U = f_w v_t(a),   a = (s - 1) g [cos(I) + mu_r sin(I)]
/// ```
///
/// - `U` mean velocity toward the surface, m/s; `f_w` wall factor; `v_t(a)` terminal velocity, m/s
/// - `s` ball over liquid density; `I` inclination, rad; `mu_r` rolling resistance
///
/// Range: none stated by the source; that of the drag and wall models.
///
/// Where it breaks: in two-phase flow the liquid slugs lift, not the mean mixture; in gas the drag
/// correlation is left. A ball that is nearly the bore needs less: [`gap_lift`]. The hardest
/// section is the vertical one of largest bore.
///
/// Source: derived_carrying, flow plus slip with a flat profile.
///
/// ```
/// use physics::ball::{ball_lift::plug_lift, ball_velocity::*, terminal_velocity::{Ball, Liquid}};
/// use quantity::*;
/// let ball = Ball { diameter: Diameter::inch(2.5), density: Density::kg_per_m3(1850.0) };
/// let water = Liquid { density: Density::kg_per_m3(1000.0), viscosity: Viscosity::cp(1.0) };
/// let string = Place { bore: Diameter::inch(3.958), inclination: Angle::ZERO, liquid: water };
/// let u = plug_lift(&Ride::new(ball), &string)?;
/// assert!((u.in_m_per_s() - 0.663).abs() < 0.003);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn plug_lift(ride: &Ride, place: &Place) -> Result<Velocity> {
    // U = f_w v_t(a)
    Ok(Riding::at(ride, place)?.slip_up.max(Velocity::ZERO))
}

/// Mean liquid velocity that holds a ball up when the gap round it works as an orifice: for balls
/// nearly as large as the bore.
///
/// ```text
/// dp = (2/3) d g (rho_b - rho),   U = C (1 - l^2) sqrt(2 dp / rho)
/// ```
///
/// - `d` ball diameter, m; `l` ball over bore; `rho_b`, `rho` density of ball and liquid, kg/m3
/// - `C` discharge coefficient of the gap, 0.7 to 1; `U` mean velocity in the pipe, m/s
///
/// Range: none stated by the source; `l` above 0.85.
///
/// Where it breaks: at smaller `l` it falls below the measured fall of balls; take it as the lower
/// bound. A ball that floats needs no flow: zero.
///
/// Source: derived_ball_statics, buoyed weight on the blocked bore.
///
/// ```
/// use physics::ball::{ball_lift::gap_lift, terminal_velocity::{Ball, Liquid}};
/// use quantity::*;
/// let ball = Ball { diameter: Diameter::inch(3.5), density: Density::kg_per_m3(1850.0) };
/// let water = Liquid { density: Density::kg_per_m3(1000.0), viscosity: Viscosity::cp(1.0) };
/// let u = gap_lift(ball, Diameter::inch(3.958), water, 0.7)?;
/// assert!((u.in_m_per_s() - 0.152).abs() < 0.003);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn gap_lift(ball: Ball, bore: Diameter, liquid: Liquid, discharge: f64) -> Result<Velocity> {
    let l = blocked_share(NAME, ball.diameter, bore)?;
    require_not_negative(NAME, "discharge", Ratio::of(discharge))?;
    let excess = ball.excess(liquid).max(0.0);
    // dp / rho = (2/3) d g (s - 1)
    let head = 2.0 / 3.0 * ball.diameter.si() * GRAVITY * excess;
    // U = C (1 - l^2) sqrt(2 dp / rho)
    Ok(Velocity::from_si(discharge * (1.0 - l * l) * libm::sqrt(2.0 * head)))
}

/// Register entry of [`plug_lift`] and [`gap_lift`].
pub static BALL_LIFT: Relation = Relation {
    name: NAME,
    title: "Flowback that lifts a ball in a pipe: mean flow, flat profile, with the gap as lower bound",
    equation: "U = f_w v_t(a), a = (s - 1) g [cos(I) + mu_r sin(I)]; gap: U = C (1 - l^2) sqrt(4 d g (s - 1)/3)",
    source: "derived_carrying, flow plus slip with a flat profile",
    range: "none stated by the source; liquid-full pipe; the gap form for ball over bore above 0.85",
    inputs: &[
        BALL,
        BALL_DENSITY,
        FLUID_DENSITY,
        VISCOSITY,
        BORE,
        INCLINATION.or("0 deg"),
        ROLLING,
        WALL_LAW,
        DRAG_LAW,
        Input::new::<Ratio>("discharge", "discharge coefficient of the gap round the ball")
            .or("0.7")
            .within(0.7, 1.0),
    ],
    outputs: &[
        Output::new::<Velocity>("velocity", "mean liquid velocity that lifts the ball"),
        Output::new::<FlowRate>("rate", "liquid rate that lifts the ball"),
        Output::new::<Velocity>("gap_velocity", "lower bound, the gap taken as an orifice"),
    ],
    evaluate: |a| {
        let ride = Ride {
            rolling: a.number("rolling")?,
            wall_law: WallLaw::of(a.word("wall_law")?),
            drag_law: DragLaw::of(a.word("drag_law")?),
            ..Ride::new(ball(a)?)
        };
        let place = Place { bore: a.get("bore")?, inclination: a.get("inclination")?, liquid: liquid(a)? };
        let up = plug_lift(&ride, &place)?;
        let gap = gap_lift(ride.ball, place.bore, place.liquid, a.number("discharge")?)?;
        Ok(Outputs::new().put("velocity", up).put("rate", up * place.bore.circle()).put("gap_velocity", gap))
    },
};
