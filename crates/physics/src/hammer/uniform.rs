//! A ball landing in a uniform string with friction: opening, surface peak, undershoot.

use crate::error::{Result, require, require_not_negative, require_positive};
use crate::hydraulics::landing::{BORE, DENSITY, LENGTH, LandingString, OPENING, WAVE_SPEED, read_string};
use crate::{Input, Output, Outputs, Relation};
use quantity::{FlowRate, GaugePressure, Length, Pressure, RateSquaredLoss, Ratio, Time};

use super::{
    BallFate, CellFill, Fineness, FrictionLaw, Hammer, HammerString, Landing, Lower, Reach, Sink, Sleeve,
    Upper,
};

const NAME: &str = "hammer_landing";

/// A landing in a uniform string.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UniformLanding {
    /// The string.
    pub string: LandingString,
    /// Darcy friction factor.
    pub friction: f64,
    /// Rate the pumps hold.
    pub rate: FlowRate,
    /// Rise at the seat that shears the sleeve.
    pub shear: Pressure,
    /// How long the sleeve takes to open.
    pub opening: Time,
    /// Pressure behind the opened ports above that behind the old ones.
    pub new_level: Pressure,
    /// Pressure behind the old ports.
    pub level: GaugePressure,
    /// Number of cells.
    pub cells: usize,
    /// How long to look, from the landing.
    pub span: Time,
}

/// What the surface sees of a landing, against the treating pressure before it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LandingRecord {
    /// From landing to the shearing of the sleeve.
    pub sheared: Option<Time>,
    /// Highest rise at surface, and when it is first reached, from the landing.
    pub peak: (Pressure, Time),
    /// Lowest pressure at surface, below zero where it undershoots.
    pub undershoot: Pressure,
    /// How long the surface stands above the threshold, all in all.
    pub elevated: Time,
    /// Highest rise a record of the given interval shows that has a sample at the landing.
    pub logged: Pressure,
}

impl UniformLanding {
    /// The string, with the landing at its end one time step after the start.
    pub fn string(&self) -> Result<HammerString> {
        let s = &self.string;
        require_positive(NAME, "bore", s.bore)?;
        require_positive(NAME, "wave_speed", s.wave_speed)?;
        require_positive(NAME, "length", s.length)?;
        let hint = "Two hundred cells are enough for most uses.";
        let cells = Ratio::of(self.cells as f64);
        require((2..=5000).contains(&self.cells), NAME, "cells", cells, "from 2 to 5000", hint)?;
        let reach = Reach { length: s.length, area: s.bore.circle(), wave_speed: s.wave_speed };
        let sleeve = Sleeve {
            shear: self.shear,
            opening: self.opening,
            ports: RateSquaredLoss::ZERO,
            sink: Sink::constant(self.level + self.new_level),
        };
        Ok(HammerString {
            reaches: vec![reach],
            fineness: Fineness { cells: self.cells..=self.cells, adjustment: 1e-9 },
            losses: Vec::new(),
            landing: Some(Landing {
                at: s.length,
                seat: RateSquaredLoss::ZERO,
                time: s.length / s.wave_speed / self.cells as f64,
                closing: Time::ZERO,
                fate: BallFate::Holds,
                sleeve: Some(sleeve),
            }),
            upper: Upper::Constant(self.rate),
            lower: Lower::Ports { loss: RateSquaredLoss::ZERO, sink: Sink::constant(self.level) },
            unsteady_friction: None,
        })
    }

    /// The string in steady flow.
    pub fn start(&self) -> Result<Hammer> {
        let s = &self.string;
        require_not_negative(NAME, "friction", Ratio::of(self.friction))?;
        let friction = FrictionLaw::darcy(self.friction, s.density, s.bore);
        let fill = CellFill { density: s.density, friction, drop: Length::ZERO };
        Hammer::new(&self.string()?, self.rate, |_| fill)
    }

    /// Runs it and reads the surface.
    ///
    /// Waves of [`Hammer`]; the ball seals at once and the sleeve is sheared by the rise at the
    /// seat, `p_seat - p_0 >= dp_open`, `p_0` the pressure behind the old ports.
    ///
    /// Range: pumps hold their rate; the old ports keep their pressure; no loss in the ports.
    ///
    /// With the opening at once the surface never sees the last step. If the sleeve takes any
    /// time, that step runs up as a spike and doubles at the pumps. At a low pressure behind the
    /// ports the column parts under the pumps and the undershoot ends there.
    ///
    /// Source: wylie_streeter1993 ch. 3; joukowsky1904.
    ///
    /// ```
    /// use physics::hammer::uniform::UniformLanding;
    /// use physics::hydraulics::landing::LandingString;
    /// use quantity::{Density, Diameter, FlowRate, GaugePressure, Length, Pressure, Time, Velocity};
    /// let landing = UniformLanding {
    ///     string: LandingString {
    ///         density: Density::kg_per_m3(1000.0),
    ///         wave_speed: Velocity::m_per_s(1420.72),
    ///         bore: Diameter::inch(4.0),
    ///         length: Length::m(5000.0),
    ///     },
    ///     friction: 0.0,
    ///     rate: FlowRate::bbl_per_min(15.0),
    ///     shear: Pressure::psi(2000.0),
    ///     opening: Time::ZERO,
    ///     new_level: Pressure::ZERO,
    ///     level: GaugePressure::psi(8000.0),
    ///     cells: 200,
    ///     span: Time::seconds(60.0),
    /// };
    /// let record = landing.record(Pressure::psi(200.0), Time::seconds(1.0))?;
    /// assert!((record.peak.0.in_psi() - 2020.4).abs() < 0.1);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn record(&self, threshold: Pressure, interval: Time) -> Result<LandingRecord> {
        require_positive(NAME, "rate", self.rate)?;
        require_positive(NAME, "interval", interval)?;
        let mut hammer = self.start()?;
        let dt = hammer.time_step();
        let hint = "Look for some round trips, at most an hour.";
        let fits = self.span > dt && self.span <= Time::seconds(3600.0);
        require(fits, NAME, "span", self.span, "above a time step, at most an hour", hint)?;
        let before = hammer.surface_pressure();
        let mut record = LandingRecord {
            sheared: None,
            peak: (Pressure::ZERO, Time::ZERO),
            undershoot: Pressure::ZERO,
            elevated: Time::ZERO,
            logged: Pressure::ZERO,
        };
        let mut sample = Time::ZERO;
        while hammer.time() - dt < self.span {
            hammer.step();
            let (since, rise) = (hammer.time() - dt, hammer.surface_pressure() - before);
            // a rise by rounding alone is not a later peak
            if rise > record.peak.0 + self.shear * 1e-9 {
                record.peak = (rise, since);
            }
            record.undershoot = record.undershoot.min(rise);
            if rise > threshold {
                record.elevated += dt;
            }
            if since + dt * 1e-6 >= sample {
                record.logged = record.logged.max(rise);
                sample += interval;
            }
        }
        record.sheared = hammer.sheared().map(|at| at - dt);
        Ok(record)
    }
}

/// Register entry of [`UniformLanding`].
pub static HAMMER_LANDING: Relation = Relation {
    name: NAME,
    title: "A ball landing in a uniform string with friction, every wave (gauge, Darcy)",
    equation: "C+: p + b q = const - friction; C-: p - b q = const + friction; b = rho a/A; dp/dx = f rho q|q|/(2 D A^2)",
    source: "wylie_streeter1993 ch. 3; joukowsky1904",
    range: "constant rate; the ball seals at once; the old ports keep their pressure",
    inputs: &[
        DENSITY,
        WAVE_SPEED,
        BORE,
        LENGTH,
        Input::new::<Ratio>("friction", "Darcy friction factor").or("0"),
        Input::new::<FlowRate>("rate", "rate the pumps hold"),
        OPENING,
        Input::new::<Time>("opening_time", "how long the sleeve takes to open").or("0 s"),
        Input::new::<Pressure>("new_level", "pressure behind the new ports above the old").or("0 psi"),
        Input::new::<GaugePressure>("level", "pressure behind the old ports, less the column").or("8000 psi"),
        Input::new::<Pressure>("threshold", "rise that counts as seen").or("200 psi"),
        Input::new::<Time>("interval", "interval of the record").or("1 s"),
        Input::new::<Time>("span", "how long to look, from the landing").or("150 s"),
        Input::new::<Ratio>("cells", "number of cells").or("200"),
    ],
    outputs: &[
        Output::new::<Time>("opening", "from landing to the shearing of the sleeve"),
        Output::new::<Pressure>("surface_peak", "highest rise at surface"),
        Output::new::<Time>("peak_time", "when, from the landing"),
        Output::new::<Pressure>("undershoot", "lowest at surface against the pressure before"),
        Output::new::<Time>("elevated", "time at surface above the threshold"),
        Output::new::<Pressure>("logged_peak", "highest rise in a record of that interval"),
    ],
    evaluate: |a| {
        let cells = a.number("cells")?;
        let landing = UniformLanding {
            string: read_string(a)?,
            friction: a.number("friction")?,
            rate: a.get("rate")?,
            shear: a.get("opening_pressure")?,
            opening: a.get("opening_time")?,
            new_level: a.get("new_level")?,
            level: a.get("level")?,
            cells: if cells.fract() == 0.0 { cells as usize } else { 0 },
            span: a.get("span")?,
        };
        let record = landing.record(a.get("threshold")?, a.get("interval")?)?;
        let hint = "Look longer, or check whether the rate can open the sleeve at all.";
        let span: Time = a.get("span")?;
        require(record.sheared.is_some(), NAME, "span", span, "long enough for the sleeve to open", hint)?;
        Ok(Outputs::new()
            .put("opening", record.sheared.unwrap_or_default())
            .put("surface_peak", record.peak.0)
            .put("peak_time", record.peak.1)
            .put("undershoot", record.undershoot)
            .put("elevated", record.elevated)
            .put("logged_peak", record.logged))
    },
};
