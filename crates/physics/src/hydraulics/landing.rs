//! A ball landing under a constant rate: the staircase of pressure until the sleeve opens.

use super::joukowsky::joukowsky;
use crate::error::{Error, Result, require_not_negative, require_positive};
use crate::{Arguments, Input, Output, Outputs, Relation};
use quantity::{
    Density, Diameter, FlowRate, GaugePressure, Length, Pressure, PressureRate, Ratio, Time, Velocity,
};

const NAME: &str = "landing_staircase";

/// The string a ball lands in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LandingString {
    /// Density of the fluid.
    pub density: Density,
    /// Wave speed.
    pub wave_speed: Velocity,
    /// Bore.
    pub bore: Diameter,
    /// Length from the pump to the seat.
    pub length: Length,
}

impl LandingString {
    /// Pressure step of a rate stopped at once, `J = rho a q/A`.
    pub fn step(&self, rate: FlowRate) -> Result<Pressure> {
        require_positive(NAME, "bore", self.bore)?;
        joukowsky(self.density, self.wave_speed, rate / self.bore.circle())
    }
}

/// The staircase between landing and opening.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Staircase {
    /// Step at the seat when the ball lands, `J`.
    pub step: Pressure,
    /// Round trips of the wave until the sleeve opens, `n`.
    pub round_trips: u32,
    /// Rise at the seat when it opens, `(2n + 1) J`.
    pub seat_rise: Pressure,
    /// Rise at surface before it opens, `2n J`.
    pub surface_rise: Pressure,
    /// Rise at surface if the sleeve opens late by any time, `2(n + 1) J`: a spike as long as
    /// the sleeve takes to shift.
    pub surface_spike: Pressure,
    /// Time from landing to opening, `n 2L/a`.
    pub opening: Time,
    /// Time from landing until surface sees it, `L/a`.
    pub arrival: Time,
    /// Round trip of the wave, `2L/a`.
    pub round_trip: Time,
    /// Mean slope of the staircase, `J a/L`.
    pub mean_slope: PressureRate,
}

/// Staircase of pressure after a ball lands, without friction, pump at constant rate.
///
/// `J = rho a q/A`; `n` the least whole number with `(2n + 1) J >= dp_open`; surface rise
/// `2n J`; opening after `n 2L/a`; mean slope `J a/L = rho a^2 q/(A L) = q/(V c)`
///
/// `rho` density (kg/m³), `a` wave speed (m/s), `q` rate (m³/s), `A` area of the bore (m²), `L`
/// length to the seat (m), `dp_open` rise at the seat that opens the sleeve (Pa), `V c` volume
/// times compressibility of [`super::sealed_pressure`].
///
/// Range: the ball seals within the round trip; no friction; the pump holds its rate.
///
/// Where `J` alone opens the sleeve the surface sees no plateau at all, only a spike of up to
/// `2J` as long as the sleeve takes to shift. The rise is not monotonic in the rate: slower is
/// not always gentler at surface. Friction rounds the steps and lets the line pack.
///
/// Source: joukowsky1904 with the reflections of a closed end and a constant rate
/// (wylie_streeter1993 ch. 3).
///
/// ```
/// use physics::hydraulics::landing::{LandingString, landing_staircase};
/// use quantity::{Density, Diameter, FlowRate, Length, Pressure, Velocity};
/// let string = LandingString {
///     density: Density::kg_per_m3(1000.0),
///     wave_speed: Velocity::m_per_s(1420.72),
///     bore: Diameter::inch(4.0),
///     length: Length::m(5000.0),
/// };
/// let stairs = landing_staircase(&string, FlowRate::bbl_per_min(15.0), Pressure::psi(2000.0))?;
/// assert_eq!(stairs.round_trips, 1);
/// assert!((stairs.surface_rise.in_psi() - 2020.4).abs() < 0.1);
/// assert!((stairs.opening.in_seconds() - 7.04).abs() < 0.005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn landing_staircase(string: &LandingString, rate: FlowRate, opening: Pressure) -> Result<Staircase> {
    require_positive(NAME, "rate", rate)?;
    require_positive(NAME, "opening_pressure", opening)?;
    require_positive(NAME, "length", string.length)?;
    // J = rho a q/A
    let step = string.step(rate)?;
    // n the least whole number with (2n + 1) J >= dp_open
    let n = ((opening / step - 1.0) / 2.0).ceil().max(0.0);
    if n > 1e6 {
        return Err(Error::NoSolution {
            relation: NAME,
            what: "the rate is too low to open the sleeve in a million round trips".to_string(),
            hint: "Give a higher rate or a lower opening pressure.",
        });
    }
    let arrival = string.length / string.wave_speed;
    Ok(Staircase {
        step,
        round_trips: n as u32,
        seat_rise: step * (2.0 * n + 1.0),
        surface_rise: step * (2.0 * n),
        surface_spike: step * (2.0 * (n + 1.0)),
        opening: arrival * (2.0 * n),
        arrival,
        round_trip: arrival * 2.0,
        // J a/L
        mean_slope: step / arrival,
    })
}

/// Bounds of the first pressure step at surface when the flow had friction.
///
/// `2J - dp_f <= step <= 2J`
///
/// `J` step of the stopped rate (Pa), `dp_f` friction of pipe and seats from pump to seat before
/// the landing (Pa): it goes as the flow behind the ball stops.
///
/// Range: `dp_f` below `J`; the step then lies within 5 % of `J` above the lower bound.
///
/// After the step the pressure goes on rising as the line packs, at the mean slope of the
/// staircase.
///
/// Source: wylie_streeter1993 ch. 3 (line packing); checked against the method of
/// characteristics.
///
/// ```
/// use physics::hydraulics::landing::first_surface_step;
/// use quantity::Pressure;
/// let (low, high) = first_surface_step(Pressure::psi(1010.2), Pressure::psi(386.0))?;
/// assert!((low.in_psi() - 1634.4).abs() < 0.01 && (high.in_psi() - 2020.4).abs() < 0.01);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn first_surface_step(step: Pressure, friction: Pressure) -> Result<(Pressure, Pressure)> {
    let name = "landing_first_step";
    require_positive(name, "step", step)?;
    require_not_negative(name, "friction", friction)?;
    // 2J - dp_f <= step <= 2J
    let high = step * 2.0;
    Ok(((high - friction).max(Pressure::ZERO), high))
}

/// The inputs that describe the string in the register.
pub(crate) const DENSITY: Input = Input::new::<Density>("density", "density of the fluid");
pub(crate) const WAVE_SPEED: Input = Input::new::<Velocity>("wave_speed", "wave speed");
pub(crate) const BORE: Input = Input::new::<Diameter>("bore", "bore of the string");
pub(crate) const LENGTH: Input = Input::new::<Length>("length", "length from pump to seat");
pub(crate) const OPENING: Input =
    Input::new::<Pressure>("opening_pressure", "rise at the seat that opens the sleeve");

/// Reads the string from the inputs above.
pub(crate) fn read_string(a: &Arguments) -> Result<LandingString> {
    Ok(LandingString {
        density: a.get("density")?,
        wave_speed: a.get("wave_speed")?,
        bore: a.get("bore")?,
        length: a.get("length")?,
    })
}

/// Register entry of [`landing_staircase`].
pub static LANDING_STAIRCASE: Relation = Relation {
    name: NAME,
    title: "Pressure after a ball lands under constant rate, without friction (gauge)",
    equation: "J = rho a q/A; least n with (2n + 1) J >= dp_open; surface rise 2n J; opening after n 2L/a; mean slope J a/L",
    source: "joukowsky1904; wylie_streeter1993 ch. 3",
    range: "the ball seals within the round trip; no friction; constant rate",
    inputs: &[
        DENSITY,
        WAVE_SPEED,
        BORE,
        LENGTH,
        Input::new::<FlowRate>("rate", "rate when the ball lands"),
        OPENING,
        Input::new::<GaugePressure>("treating_pressure", "surface pressure before the landing").or("0 psi"),
        Input::new::<GaugePressure>("trip_pressure", "pressure at which the pumps trip").or("0 psi"),
    ],
    outputs: &[
        Output::new::<Pressure>("step", "step at the seat"),
        Output::new::<Ratio>("round_trips", "round trips until the sleeve opens"),
        Output::new::<Pressure>("seat_rise", "rise at the seat when it opens"),
        Output::new::<Pressure>("surface_rise", "rise at surface before it opens"),
        Output::new::<Pressure>("surface_spike", "rise at surface while the sleeve shifts"),
        Output::new::<Time>("opening", "time from landing to opening"),
        Output::new::<Time>("arrival", "time from landing until surface sees it"),
        Output::new::<Time>("round_trip", "round trip of the wave"),
        Output::new::<PressureRate>("mean_slope", "mean slope of the staircase"),
        Output::new::<Pressure>("headroom", "trip above the plateau at surface"),
        Output::new::<Pressure>("spike_headroom", "trip above the spike at surface"),
    ],
    evaluate: |a| {
        let s = landing_staircase(&read_string(a)?, a.get("rate")?, a.get("opening_pressure")?)?;
        let room = a.get::<GaugePressure>("trip_pressure")? - a.get::<GaugePressure>("treating_pressure")?;
        Ok(Outputs::new()
            .put("step", s.step)
            .put("round_trips", Ratio::of(f64::from(s.round_trips)))
            .put("seat_rise", s.seat_rise)
            .put("surface_rise", s.surface_rise)
            .put("surface_spike", s.surface_spike)
            .put("opening", s.opening)
            .put("arrival", s.arrival)
            .put("round_trip", s.round_trip)
            .put("mean_slope", s.mean_slope)
            .put("headroom", room - s.surface_rise)
            .put("spike_headroom", room - s.surface_spike))
    },
};

/// Register entry of [`first_surface_step`].
pub static LANDING_FIRST_STEP: Relation = Relation {
    name: "landing_first_step",
    title: "Bounds of the first surface step of a landing, with friction",
    equation: "2J - dp_f <= step <= 2J",
    source: "wylie_streeter1993 ch. 3",
    range: "friction below the step",
    inputs: &[
        Input::new::<Pressure>("step", "step at the seat, J"),
        Input::new::<Pressure>("friction", "friction from pump to seat before the landing"),
    ],
    outputs: &[
        Output::new::<Pressure>("low", "lower bound of the surface step"),
        Output::new::<Pressure>("high", "upper bound of the surface step"),
    ],
    evaluate: |a| {
        let (low, high) = first_surface_step(a.get("step")?, a.get("friction")?)?;
        Ok(Outputs::new().put("low", low).put("high", high))
    },
};
