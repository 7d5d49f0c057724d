//! Strings the proofs run.

use physics::hammer::uniform::UniformLanding;
use physics::hammer::{
    BallFate, CellFill, Fineness, FrictionLaw, Hammer, HammerString, Landing, Lower, LumpedLoss, Reach, Sink,
    Sleeve, Upper,
};
use physics::hydraulics::landing::LandingString;
use quantity::{
    Density, Diameter, FlowRate, GaugePressure, Length, Pressure, PressureGradient, RateSquaredLoss, Time,
    Velocity,
};

pub fn psi(x: f64) -> Pressure {
    Pressure::psi(x)
}

pub fn bpm(x: f64) -> FlowRate {
    FlowRate::bbl_per_min(x)
}

pub fn seconds(x: f64) -> Time {
    Time::seconds(x)
}

/// The landing of the closed form: 4 in, water, 1420.72 m/s.
pub fn uniform(length: f64, rate: f64, shear: f64, friction: f64) -> UniformLanding {
    UniformLanding {
        string: LandingString {
            density: Density::kg_per_m3(1000.0),
            wave_speed: Velocity::m_per_s(1420.72),
            bore: Diameter::inch(4.0),
            length: Length::m(length),
        },
        friction,
        rate: bpm(rate),
        shear: psi(shear),
        opening: Time::ZERO,
        new_level: Pressure::ZERO,
        level: GaugePressure::psi(8000.0),
        cells: 200,
        span: seconds(60.0),
    }
}

/// A pipe from a reservoir to a valve, as the textbooks have it.
pub struct Valve {
    pub length: f64,
    pub speed: f64,
    pub area: f64,
    pub density: f64,
    pub rate: f64,
    pub closing: f64,
    /// Loss of the open valve, Pa/(m³/s)².
    pub loss: f64,
    pub cells: usize,
}

impl Valve {
    pub fn start(&self) -> Hammer {
        let string = HammerString {
            reaches: vec![Reach {
                length: Length::m(self.length),
                area: quantity::Area::m2(self.area),
                wave_speed: Velocity::m_per_s(self.speed),
            }],
            fineness: Fineness { cells: self.cells..=self.cells, adjustment: 1e-9 },
            losses: Vec::new(),
            landing: Some(Landing {
                at: Length::m(self.length),
                seat: RateSquaredLoss::si(self.loss),
                time: Time::ZERO,
                closing: seconds(self.closing),
                fate: BallFate::Holds,
                sleeve: None,
            }),
            upper: Upper::Reservoir,
            lower: Lower::Ports { loss: RateSquaredLoss::ZERO, sink: Sink::constant(GaugePressure::ZERO) },
            unsteady_friction: None,
        };
        let fill = CellFill {
            density: Density::kg_per_m3(self.density),
            friction: FrictionLaw::none(),
            drop: Length::ZERO,
        };
        Hammer::new(&string, FlowRate::m3_per_s(self.rate), |_| fill).unwrap()
    }
}

/// A whole well: casing and liner, two fluids, friction with two exponents, seats, a ball with a
/// sleeve near the toe, and the ports of the stage before below it.
pub struct Well {
    pub string: HammerString,
    pub rate: FlowRate,
}

impl Well {
    pub fn new(rate: f64) -> Self {
        let reach = |length: f64, inch: f64, speed: f64| Reach {
            length: Length::m(length),
            area: Diameter::inch(inch).circle(),
            wave_speed: Velocity::m_per_s(speed),
        };
        let loss = |x: f64| RateSquaredLoss::psi_per_bpm2(x);
        let seat = |at: f64, x: f64| LumpedLoss { at: Length::m(at), loss: loss(x) };
        let sleeve = Sleeve {
            shear: psi(2000.0),
            opening: seconds(0.2),
            ports: loss(0.4),
            sink: Sink::line(GaugePressure::psi(6100.0), psi(150.0), bpm(15.0)).unwrap(),
        };
        let string = HammerString {
            reaches: vec![reach(2000.0, 6.18, 1380.0), reach(2500.0, 4.0, 1421.0), reach(150.0, 4.0, 1421.0)],
            fineness: Fineness::default(),
            losses: vec![seat(3100.0, 0.02), seat(3500.0, 0.05), seat(4000.0, 0.12)],
            landing: Some(Landing {
                at: Length::m(4500.0),
                seat: loss(0.3),
                time: seconds(1.0),
                closing: seconds(0.05),
                fate: BallFate::Holds,
                sleeve: Some(sleeve),
            }),
            upper: Upper::Constant(bpm(rate)),
            lower: Lower::Ports {
                loss: loss(0.5),
                sink: Sink::line(GaugePressure::psi(5900.0), psi(200.0), bpm(15.0)).unwrap(),
            },
            unsteady_friction: None,
        };
        Self { string, rate: bpm(rate) }
    }

    /// What fills a cell: heavy fluid above 1200 m, the bend from 2000 m on, then level.
    pub fn fill(cell: &physics::hammer::CellPlace) -> CellFill {
        let middle = cell.top + cell.length() * 0.5;
        let heavy = middle < Length::m(1200.0);
        CellFill {
            density: Density::kg_per_m3(if heavy { 1150.0 } else { 1010.0 }),
            friction: FrictionLaw {
                gradient: PressureGradient::psi_per_1000ft(if cell.reach == 0 { 12.0 } else { 45.0 }),
                rate: bpm(15.0),
                exponent: if heavy { 1.8 } else { 1.75 },
            },
            drop: cell.length() * if cell.bottom <= Length::m(2000.0) { 1.0 } else { 0.1 },
        }
    }

    pub fn landing(&mut self) -> &mut Landing {
        self.string.landing.as_mut().unwrap()
    }

    pub fn start(&self) -> Hammer {
        Hammer::new(&self.string, self.rate, Self::fill).unwrap()
    }
}

/// Steps until a time.
pub fn run_to(hammer: &mut Hammer, time: f64, mut each: impl FnMut(&Hammer)) {
    while hammer.time() < seconds(time) {
        hammer.step();
        each(hammer);
    }
}
