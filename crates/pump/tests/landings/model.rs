//! The waves of a landing on a plug, and of a shut well, in the casing of the real stages.

use physics::fluid::water_if97::{Water, water};
use physics::fluid::water_viscosity::viscosity_from_density;
use physics::hammer::{
    BallFate, CellFill, Fineness, FrictionLaw, Governor, Hammer, HammerString, Landing, Lower, Ramp, Reach,
    Sink, Sleeve, Upper,
};
use physics::hydraulics::drag_reduction::{DragBase, reduced_friction};
use physics::hydraulics::pipe_wall::{PipeWall, Restraint, WallTheory, wall_compliance};
use physics::hydraulics::wave_speed::wave_speed;
use quantity::*;

use super::records::Stage;

/// Casing of the label: 5.5 in 20 lb/ft.
const BORE: Diameter = Diameter::inch(4.778);
const OUTSIDE: Diameter = Diameter::inch(5.5);
/// What the job file assumes where it is told nothing: steel, and its roughness.
const YOUNG: Pressure = Pressure::ksi(30_000.0);
const POISSON: f64 = 0.3;
const ROUGHNESS: Diameter = Diameter::inch(0.0018);
/// Temperature of pumped water in the example jobs. The records hold none.
pub const PUMPED: Temperature = Temperature::deg_f(60.0);
/// Exponent of friction in the band of rates of a landing.
const EXPONENT: f64 = 1.8;
/// The onset is the first high sample of one a second: the wave came up to a second before it.
const LATE: f64 = 0.5;
/// Seconds of steady flow before the onset.
const LEAD: f64 = 20.0;

/// Casing full of water from the wellhead to an end.
#[derive(Debug, Clone, Copy)]
pub struct Casing {
    pub length: Length,
    pub vertical: Length,
    pub water: Water,
    pub speed: Velocity,
    /// Share of the friction that a reducer takes away.
    pub reduction: f64,
}

/// What takes the fluid above the plug once the ball is on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Rock {
    /// Nothing does.
    Tight,
    /// Perforations that take nothing at the pressure before the landing, the whole rate at a rise
    /// above it (psi), and in between in proportion.
    Perforations(f64),
    /// Nothing until that rise, then all at that rise.
    Threshold(f64),
}

impl Casing {
    /// From the wellhead to a depth (ft) with a surface pressure (psi).
    pub fn new(stage: &Stage, depth: f64, surface: f64, warm: Temperature, reduction: f64) -> Self {
        let vertical = Length::ft(stage.vertical);
        // pressure in the middle of the column
        let fresh = Density::kg_per_m3(1000.0).si() * constant::GRAVITY;
        let middle = Pressure::psi(surface).si() + 0.5 * fresh * vertical.si() + constant::ATMOSPHERE;
        let water = water(warm, AbsolutePressure::pa(middle)).unwrap();
        let wall = PipeWall { bore: BORE, outside: OUTSIDE, young: YOUNG, poisson: POISSON };
        let wall = wall_compliance(&wall, WallTheory::Thick, Restraint::AnchoredThroughout).unwrap();
        let speed = wave_speed(water.density, water.isentropic_modulus(), wall).unwrap();
        Self { length: Length::ft(depth), vertical, water, speed, reduction }
    }

    /// To the plug of a stage at the pressure before its landing, water as pumped.
    pub fn to_plug(stage: &Stage, reduction: f64) -> Self {
        Self::new(stage, stage.depth, stage.before().0, PUMPED, reduction)
    }

    /// Step of a rate (bbl/min) stopped at once, psi.
    pub fn step(&self, rate: f64) -> f64 {
        // J = rho a q/A
        let speed = FlowRate::bbl_per_min(rate) / BORE.circle();
        Pressure::pa(self.water.density.si() * self.speed.si() * speed.si()).in_psi()
    }

    /// Time of a wave from end to end, s.
    pub fn transit(&self) -> f64 {
        self.length.si() / self.speed.si()
    }

    /// Slope of the sealed casing at a rate (bbl/min), psi/s.
    pub fn sealed_slope(&self, rate: f64) -> f64 {
        // q/(V c) = J a/L
        self.step(rate) / self.transit()
    }

    /// Friction of the whole length at a rate (bbl/min), psi.
    pub fn friction(&self, rate: f64) -> f64 {
        Pressure::pa(self.law(rate).gradient.si() * self.length.si()).in_psi()
    }

    fn law(&self, rate: f64) -> FrictionLaw {
        let rate = FlowRate::bbl_per_min(rate);
        let density = self.water.density;
        let viscosity = viscosity_from_density(PUMPED, density).unwrap();
        let speed = (rate / BORE.circle()).si();
        let reynolds = density.si() * speed * BORE.si() / viscosity.si();
        let base = DragBase::RoughPipe;
        let f = reduced_friction(reynolds, ROUGHNESS / BORE, self.reduction, base).unwrap().darcy;
        // f rho U^2/(2 D)
        let gradient = f * density.si() * speed * speed / (2.0 * BORE.si());
        FrictionLaw { gradient: PressureGradient::pa_per_m(gradient), rate, exponent: EXPONENT }
    }

    /// Waves in steady flow at a rate (bbl/min) with a surface pressure (psi).
    fn waves(&self, rate: f64, surface: f64, landing: impl Fn(Pressure) -> Option<Landing>) -> Hammer {
        let law = self.law(rate);
        let weight = self.water.density.gradient().si() * self.vertical.si();
        let level = Pressure::psi(surface).si() + weight - law.gradient.si() * self.length.si();
        let lower =
            Lower::Ports { loss: RateSquaredLoss::ZERO, sink: Sink::constant(Pressure::pa(level).gauge()) };
        let string = HammerString {
            reaches: vec![Reach { length: self.length, area: BORE.circle(), wave_speed: self.speed }],
            fineness: Fineness::default(),
            losses: Vec::new(),
            landing: landing(Pressure::pa(level)),
            upper: Upper::Constant(FlowRate::bbl_per_min(rate)),
            lower,
            unsteady_friction: None,
        };
        let share = self.vertical.si() / self.length.si();
        Hammer::new(&string, FlowRate::bbl_per_min(rate), |cell| CellFill {
            density: self.water.density,
            friction: law,
            drop: cell.length() * share,
        })
        .unwrap()
    }
}

fn landing(casing: &Casing, rock: Rock, rate: f64, level: Pressure) -> Landing {
    let sleeve = |shear: f64, sink: Sink| Sleeve {
        shear: Pressure::psi(shear),
        opening: Time::ZERO,
        ports: RateSquaredLoss::ZERO,
        sink,
    };
    let full = FlowRate::bbl_per_min(rate);
    let sleeve = match rock {
        Rock::Tight => None,
        // open from the first touch
        Rock::Perforations(rise) => {
            Some(sleeve(0.01, Sink::line(level.gauge(), Pressure::psi(rise), full).unwrap()))
        }
        Rock::Threshold(rise) => Some(sleeve(rise, Sink::constant((level + Pressure::psi(rise)).gauge()))),
    };
    Landing {
        at: casing.length,
        seat: RateSquaredLoss::ZERO,
        time: Time::seconds(LEAD - LATE - casing.transit()),
        closing: Time::ZERO,
        fate: BallFate::Holds,
        sleeve,
    }
}

/// Surface pressure above that before the landing, (s from the onset, psi), at every step until a
/// time: the pumps follow the recorded rate.
pub fn land(stage: &Stage, casing: &Casing, rock: Rock, until: f64) -> Vec<(f64, f64)> {
    let rates: Vec<f64> = stage.between(-LEAD, until).map(|r| r.rate).collect();
    let (pressure, rate) = stage.before();
    let mut hammer = casing.waves(rates[0], pressure, |level| Some(landing(casing, rock, rate, level)));
    let mut out = Vec::new();
    for (second, pair) in rates.windows(2).enumerate() {
        let [start, end] = [second, second + 1].map(|s| Time::seconds(s as f64));
        let [from, to] = [pair[0], pair[1]].map(FlowRate::bbl_per_min);
        hammer.set_upper(Upper::Governed(Governor {
            ramp: Ramp { from, to, start, end },
            trip: None,
            relief: None,
        }));
        while hammer.time() < end {
            hammer.step();
            out.push((hammer.time().si() - LEAD, hammer.surface_pressure().above_atmosphere().in_psi()));
        }
    }
    let steady: Vec<f64> = out.iter().filter(|(t, _)| (-10.0..-1.0).contains(t)).map(|(_, p)| *p).collect();
    let level = steady.iter().sum::<f64>() / steady.len() as f64;
    out.into_iter().map(|(t, p)| (t, p - level)).collect()
}

/// The same once a second, as a recorder has it.
pub fn each_second(fine: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let last = fine.last().map_or(0.0, |(t, _)| t.floor());
    let at = |t: f64| fine.iter().find(|(time, _)| *time >= t).copied().map(|(_, p)| (t, p));
    (-5..=last as i32).filter_map(|t| at(f64::from(t))).collect()
}

/// Surface pressure of a well shut in from a small rate, psi at every step (s) for a time (s).
pub fn ring(casing: &Casing, surface: f64, step: f64, span: f64) -> Vec<f64> {
    let rate = 1.0;
    let mut hammer = casing.waves(rate, surface, |_| None);
    let (from, to) = (FlowRate::bbl_per_min(rate), FlowRate::ZERO);
    let ramp = Ramp { from, to, start: Time::ZERO, end: Time::seconds(0.5) };
    hammer.set_upper(Upper::Governed(Governor { ramp, trip: None, relief: None }));
    let mut out = Vec::new();
    for sample in 1..=((span / step).round() as u32) {
        while hammer.time() < Time::seconds(step * f64::from(sample)) {
            hammer.step();
        }
        out.push(hammer.surface_pressure().above_atmosphere().in_psi());
    }
    out
}
