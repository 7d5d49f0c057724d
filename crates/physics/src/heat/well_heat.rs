//! Temperature of the fluid and of the hole wall along the well over a schedule of pumping and
//! waiting: plugs of fluid moved down the string, each against its own rings of rock.

use super::exchange::{Earth, Fluid, Wall};
use super::profile::{Place, Profile};
use super::radial_grid::{Inside, Mesh, RadialGrid};
use crate::error::{require, require_not_negative, require_positive};
use crate::{Error, Result};
use quantity::{Diameter, FlowRate, MeasuredDepth, Quantity, Ratio, Temperature, Time};

/// A stretch of the well with one bore, one hole size and one rock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// Measured depth of its end; it begins where the one above ends.
    pub end: MeasuredDepth,
    /// Bore of the string.
    pub bore: Diameter,
    /// The hole wall and the rock.
    pub wall: Wall,
}

/// One step of the schedule: a rate (zero while waiting) held for a time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// Rate down the string.
    pub rate: FlowRate,
    /// How long.
    pub duration: Time,
    /// Temperature of the fluid at the top.
    pub inlet: Temperature,
}

/// Temperatures of the fluid at one moment.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// Time since the start of the schedule.
    pub time: Time,
    /// Fluid temperature at each depth asked for, in their order.
    pub fluid: Vec<Temperature>,
}

/// How finely the well is divided.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Division {
    /// Plugs of equal volume along the string.
    pub plugs: usize,
    /// Rings of rock.
    pub mesh: Mesh,
}

impl Default for Division {
    /// A hundred and fifty plugs on the default rings.
    fn default() -> Self {
        Self { plugs: 150, mesh: Mesh::default() }
    }
}

/// The place along the string where a plug comes to rest.
#[derive(Debug, Clone)]
struct Station {
    /// Index of its grid.
    grid: usize,
    /// Undisturbed temperature, K.
    earth: f64,
    /// Heat capacity of the fluid per length, J/(m K).
    fluid_capacity: f64,
    /// Temperatures of the rings, K.
    rock: Vec<f64>,
    /// Temperature of the wall, K.
    wall: f64,
}

/// The well with its temperatures at one moment.
///
/// Method: fluid is moved in plugs of equal volume, so a front stays as sharp as one plug; each
/// plug exchanges heat with the rings of rock at its place by an implicit step. Left out: heat
/// stored in steel, annulus and cement, friction heat, conduction along the well.
///
/// Range: rates down the string only. Against [`super::transient_pumping`] the default division
/// stays within 0.4 °C of fluid 80 °C colder than the rock; see the cases.
///
/// Source: hasan_kabir1991 (heat balance of the pumped fluid), patankar1980 ch. 4 (rings).
#[derive(Debug, Clone)]
pub struct WellHeat {
    grids: Vec<RadialGrid>,
    stations: Vec<Station>,
    /// Fluid temperature of each plug, K.
    fluid: std::collections::VecDeque<f64>,
    /// Volume of a plug, m³.
    plug: f64,
    /// Volume by which the plugs are ahead of their stations' centres, m³.
    ahead: f64,
    /// Volume above a measured depth, m³ at m.
    volume_at: Profile<MeasuredDepth, Ratio>,
    /// Shortest time step, s.
    shortest: f64,
    /// Time since the rate or the inlet last changed, s.
    since_change: f64,
    last: Option<Step>,
    elapsed: f64,
}

/// Most plug moves in one step of a schedule.
const MOST_MOVES: f64 = 200_000.0;
/// Time step over time since the last change: sixty steps a decade.
const GROWTH: f64 = 0.0391;

impl WellHeat {
    /// The well at the earth's temperature, filled with `fluid`.
    ///
    /// `earth` must cover the well from its first row to the end of the last reach.
    pub fn new(reaches: &[Reach], earth: &Earth, fluid: &Fluid, division: Division) -> Result<Self> {
        fluid.check(NAME)?;
        let plugs = Ratio::of(division.plugs as f64);
        let sensible = (10..=2000).contains(&division.plugs);
        require(sensible, NAME, "plugs", plugs, "10 to 2000", "A hundred and fifty is enough.")?;
        let volume_at = volumes(reaches, earth)?;
        let total = volume_at.rows().last().map_or(0.0, |(_, v)| v.si());
        let plug = total / division.plugs as f64;
        let grids =
            reaches.iter().map(|r| RadialGrid::new(&r.wall, division.mesh)).collect::<Result<Vec<_>>>()?;
        let stations = stations(reaches, earth, &inverted(&volume_at)?, fluid, division);
        let shortest = reaches
            .iter()
            .map(|r| 0.002 * r.wall.hole.si().powi(2) / 4.0 / r.wall.rock.diffusivity().si())
            .fold(f64::INFINITY, f64::min);
        let fluid = stations.iter().map(|p| p.earth).collect();
        let (ahead, since_change, elapsed) = (0.0, 0.0, 0.0);
        Ok(Self {
            grids,
            stations,
            fluid,
            plug,
            ahead,
            volume_at,
            shortest,
            since_change,
            last: None,
            elapsed,
        })
    }

    /// Carries the well through one step of the schedule.
    pub fn advance(&mut self, step: Step) -> Result<()> {
        require_not_negative(NAME, "rate", step.rate)?;
        require_not_negative(NAME, "duration", step.duration)?;
        require_positive(NAME, "inlet", step.inlet)?;
        let moves = Ratio::of(step.rate.si() * step.duration.si() / self.plug);
        let hint = "Divide the well into fewer plugs, or use `pumping_temperature` for long injection.";
        require(moves.si() <= MOST_MOVES, NAME, "plug moves", moves, "200000 or fewer", hint)?;
        if self.last.is_none_or(|last| last.rate != step.rate || last.inlet != step.inlet) {
            self.since_change = 0.0;
        }
        self.last = Some(step);
        let rate = step.rate.si();
        let mut left = step.duration.si();
        while left > 0.0 {
            let longest = (GROWTH * self.since_change).max(self.shortest);
            let to_move =
                if rate > 0.0 { (0.5 * self.plug - self.ahead).max(0.0) / rate } else { f64::INFINITY };
            let moves = to_move <= longest.min(left);
            let dt = to_move.min(longest).min(left);
            self.exchange(dt);
            self.ahead += rate * dt;
            self.since_change += dt;
            self.elapsed += dt;
            left = if left - dt < 1e-9 { 0.0 } else { left - dt };
            if moves {
                self.fluid.pop_back();
                self.fluid.push_front(step.inlet.si());
                self.ahead -= self.plug;
            }
        }
        Ok(())
    }

    /// Heat exchange of every plug with its rock during `dt` seconds.
    fn exchange(&mut self, dt: f64) {
        if dt <= 0.0 {
            return;
        }
        let sweeps: Vec<_> = self.grids.iter().map(|g| g.sweep(dt)).collect();
        for (station, fluid) in self.stations.iter_mut().zip(self.fluid.iter_mut()) {
            let (Some(grid), Some(sweep)) = (self.grids.get(station.grid), sweeps.get(station.grid)) else {
                continue;
            };
            let inside = Inside::Fluid(*fluid, station.fluid_capacity);
            *fluid = grid.step(sweep, inside, &mut station.rock, station.earth);
            station.wall = grid.wall(*fluid, station.rock.first().copied().unwrap_or(station.earth));
        }
    }

    /// Time since the start of the schedule.
    pub fn elapsed(&self) -> Time {
        Time::seconds(self.elapsed)
    }

    /// Temperature of the fluid in the string at a depth inside the well.
    pub fn fluid_at(&self, depth: MeasuredDepth) -> Result<Temperature> {
        let x = self.plugs_above(depth)? - self.ahead / self.plug;
        let inlet = self.last.filter(|s| s.rate.si() > 0.0).map(|s| s.inlet.si());
        let top = -self.ahead / self.plug;
        if let (Some(inlet), Some(first), true) = (inlet, self.fluid.front(), x < 0.5) {
            // between the inlet and the middle of the first plug
            let share = (x - top) / (0.5 - top).max(f64::EPSILON);
            return Ok(Temperature::kelvin(inlet + share.clamp(0.0, 1.0) * (first - inlet)));
        }
        Ok(Temperature::kelvin(between(x - 0.5, |i| self.fluid.get(i).copied(), self.fluid.len())))
    }

    /// Temperature of the hole wall at a depth inside the well.
    pub fn wall_at(&self, depth: MeasuredDepth) -> Result<Temperature> {
        let x = self.plugs_above(depth)?;
        let wall = |i: usize| self.stations.get(i).map(|p| p.wall);
        Ok(Temperature::kelvin(between(x - 0.5, wall, self.stations.len())))
    }

    /// Carries the well through a schedule and reads the fluid at `depths` at its start, at its
    /// end and at least every `every` in between.
    pub fn record(&mut self, steps: &[Step], depths: &[MeasuredDepth], every: Time) -> Result<Vec<Reading>> {
        require_positive(NAME, "every", every)?;
        let parts = |step: &Step| (step.duration / every).ceil().max(1.0);
        let readings = Ratio::of(steps.iter().map(parts).sum());
        let hint = "Read less often.";
        require(readings.si() <= 1e5, NAME, "readings", readings, "100000 or fewer", hint)?;
        let mut out = vec![self.read(depths)?];
        for step in steps {
            let count = parts(step);
            let part = Step { duration: step.duration / count, ..*step };
            for _ in 0..count as usize {
                self.advance(part)?;
                out.push(self.read(depths)?);
            }
        }
        Ok(out)
    }

    fn read(&self, depths: &[MeasuredDepth]) -> Result<Reading> {
        let fluid = depths.iter().map(|d| self.fluid_at(*d)).collect::<Result<_>>()?;
        Ok(Reading { time: self.elapsed(), fluid })
    }

    fn plugs_above(&self, depth: MeasuredDepth) -> Result<f64> {
        match self.volume_at.at(depth) {
            (volume, Place::Within) => Ok(volume.si() / self.plug),
            _ => Err(Error::Domain {
                relation: NAME,
                name: "depth",
                value: depth.into(),
                limit: "inside the well".into(),
                hint: "Ask between the top and the end of the last reach.",
            }),
        }
    }
}

/// Volume of the string above the end of each reach, from the earth's first row down.
fn volumes(reaches: &[Reach], earth: &Earth) -> Result<Profile<MeasuredDepth, Ratio>> {
    let mut depths: Vec<MeasuredDepth> = earth.rows().first().map(|(z, _)| *z).into_iter().collect();
    let mut volumes = vec![Ratio::of(0.0)];
    for reach in reaches {
        require_positive(NAME, "bore", reach.bore)?;
        reach.wall.check(NAME)?;
        let inside = earth.at(reach.end).1 == Place::Within;
        let hint = "The earth's rows must cover the well.";
        require(inside, NAME, "end", reach.end, "within the rows of the earth's temperature", hint)?;
        if let (Some(start), Some(volume)) = (depths.last().copied(), volumes.last().copied()) {
            let length = reach.end - start;
            volumes.push(volume + Ratio::of((length * reach.bore.circle()).si()));
        }
        depths.push(reach.end);
    }
    let count = Ratio::of(reaches.len() as f64);
    require(!reaches.is_empty(), NAME, "reaches", count, "one or more", "Describe the well.")?;
    Profile::new(NAME, &depths, &volumes)
}

/// The places where the plugs come to rest, at the earth's temperature. One more than there are
/// plugs: a copy beyond the end, so that the end lies between two.
fn stations(
    reaches: &[Reach],
    earth: &Earth,
    depth_at: &Profile<Ratio, MeasuredDepth>,
    fluid: &Fluid,
    division: Division,
) -> Vec<Station> {
    let total = depth_at.rows().last().map_or(0.0, |(v, _)| v.si());
    let plug = total / division.plugs as f64;
    let depth = |plugs: f64| depth_at.at(Ratio::of(plugs * plug)).0;
    (0..=division.plugs)
        .map(|i| i.min(division.plugs.saturating_sub(1)) as f64)
        .map(|i| {
            let middle = depth(i + 0.5);
            let length = (depth(i + 1.0) - depth(i)).si();
            let grid = reaches.iter().position(|r| r.end.si() >= middle.si()).unwrap_or(0);
            let temperature = earth.at(middle).0.si();
            let rock = vec![temperature; division.mesh.rings];
            let fluid_capacity = fluid.volumetric() * plug / length;
            Station { grid, earth: temperature, fluid_capacity, rock, wall: temperature }
        })
        .collect()
}

/// Measured depth at a volume.
fn inverted(volume_at: &Profile<MeasuredDepth, Ratio>) -> Result<Profile<Ratio, MeasuredDepth>> {
    let (depths, volumes): (Vec<_>, Vec<_>) = volume_at.rows().iter().copied().unzip();
    Profile::new(NAME, &volumes, &depths)
}

/// Value at a fractional index, straight between neighbours and held at the ends.
fn between(x: f64, get: impl Fn(usize) -> Option<f64>, count: usize) -> f64 {
    let x = x.clamp(0.0, count.saturating_sub(1) as f64);
    let i = x.floor() as usize;
    let (low, high) = (get(i), get(i + 1).or_else(|| get(i)));
    let share = x - i as f64;
    match (low, high) {
        (Some(low), Some(high)) => low + share * (high - low),
        _ => f64::NAN,
    }
}

const NAME: &str = "well_temperature";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::heat::exchange::{Barrier, earth_along};
    use crate::heat::rock::Rock;
    use crate::heat::transient_pumping::{SteadyPumping, transient_pumping};
    use quantity::{Conductivity, Density, SpecificHeat, VolumetricHeat};

    fn earth() -> Earth {
        let depths = [0.0, 2800.0, 5000.0].map(MeasuredDepth::m);
        earth_along("t", &depths, &[5.0, 89.0, 89.0].map(Temperature::deg_c)).unwrap()
    }

    fn steady(rate: f64) -> SteadyPumping {
        let rock = Rock::new(Conductivity::w_per_mk(2.5), VolumetricHeat::mj_per_m3k(2.2)).unwrap();
        SteadyPumping {
            fluid: Fluid {
                density: Density::kg_per_m3(1000.0),
                specific_heat: SpecificHeat::kj_per_kgk(4.184),
            },
            wall: Wall { hole: Diameter::m(0.1556), rock, barrier: Barrier::None },
            bore: Diameter::inch(4.0),
            rate: FlowRate::bbl_per_min(rate),
            inlet: Temperature::deg_c(10.0),
        }
    }

    fn well(plugs: usize) -> WellHeat {
        let s = steady(1.0);
        let end = |m| Reach { end: MeasuredDepth::m(m), bore: s.bore, wall: s.wall };
        let division = Division { plugs, ..Division::default() };
        WellHeat::new(&[end(1700.0), end(5000.0)], &earth(), &s.fluid, division).unwrap()
    }

    fn step(rate: f64, hours: f64) -> Step {
        let (rate, duration) = (FlowRate::bbl_per_min(rate), Time::hours(hours));
        Step { rate, duration, inlet: Temperature::deg_c(10.0) }
    }

    #[test]
    fn stays_close_to_the_exact_transient() {
        for (rate, hours) in [(5.0, 1.0), (5.0, 3.0), (15.0, 0.5), (15.0, 1.0)] {
            let mut w = well(100);
            w.advance(step(rate, hours)).unwrap();
            for z in [500.0, 1500.0, 2800.0, 4000.0, 5000.0].map(MeasuredDepth::m) {
                let exact = transient_pumping(&steady(rate), &earth(), Time::hours(hours), z).unwrap();
                let got = w.fluid_at(z).unwrap();
                assert!((got - exact).si().abs() < 0.5, "{rate} {hours} {z:?}: {got:?} {exact:?}");
            }
        }
    }

    #[test]
    fn heat_balance_closes() {
        let mut w = well(60);
        let heat = |w: &WellHeat| -> f64 {
            w.stations
                .iter()
                .zip(&w.fluid)
                .map(|(s, f)| {
                    let per_length = s.fluid_capacity * f + w.grids[s.grid].held(&s.rock, s.earth);
                    per_length * 4184e3 * w.plug / s.fluid_capacity
                })
                .sum()
        };
        let before = heat(&w);
        // Whole plugs, so that what came in and went out is counted in plugs.
        let mut out = 0.0;
        let rate = FlowRate::bbl_per_min(5.0);
        let time = Time::seconds(0.5 * w.plug / rate.si());
        for _ in 0..120 {
            let last = *w.fluid.back().unwrap();
            let moved = w.ahead > -1e-12;
            w.advance(Step { rate, duration: time, inlet: Temperature::deg_c(10.0) }).unwrap();
            if moved {
                // the plug that left had exchanged heat during this step too
                out += last;
            }
        }
        let through = 4184e3 * w.plug * (60.0 * Temperature::deg_c(10.0).si() - out);
        let gained = heat(&w) - before;
        assert!((gained / through - 1.0).abs() < 0.01, "{gained} {through}");
    }

    #[test]
    fn waiting_warms_back_to_the_earth() {
        let mut w = well(60);
        w.advance(step(15.0, 1.0)).unwrap();
        let z = MeasuredDepth::m(4500.0);
        let mut last = w.fluid_at(z).unwrap();
        for _ in 0..5 {
            w.advance(step(0.0, 10.0)).unwrap();
            let now = w.fluid_at(z).unwrap();
            assert!(now > last && now < Temperature::deg_c(89.0));
            last = now;
        }
        w.advance(step(0.0, 24.0 * 365.0)).unwrap();
        assert!((w.fluid_at(z).unwrap().in_deg_c() - 89.0).abs() < 0.1);
        assert!((w.wall_at(z).unwrap().in_deg_c() - 89.0).abs() < 0.1);
    }

    #[test]
    fn a_well_pumped_with_its_own_temperature_stays() {
        let depths = [0.0, 3000.0].map(MeasuredDepth::m);
        let earth = earth_along("t", &depths, &[40.0, 40.0].map(Temperature::deg_c)).unwrap();
        let s = steady(1.0);
        let reach = Reach { end: MeasuredDepth::m(3000.0), bore: s.bore, wall: s.wall };
        let mut w = WellHeat::new(&[reach], &earth, &s.fluid, Division::default()).unwrap();
        let inlet = Temperature::deg_c(40.0);
        let steps = [Step { inlet, ..step(10.0, 1.0) }, Step { inlet, ..step(0.0, 1.0) }];
        let readings = w.record(&steps, &[MeasuredDepth::m(2000.0)], Time::minutes(20.0)).unwrap();
        assert_eq!(readings.len(), 7);
        assert!((readings[6].time.in_hours() - 2.0).abs() < 1e-9);
        assert!(readings.iter().all(|r| (r.fluid[0] - inlet).si().abs() < 1e-9));
    }

    #[test]
    fn refuses_what_has_no_meaning() {
        let mut w = well(60);
        assert!(w.advance(step(-1.0, 1.0)).is_err());
        assert!(w.advance(step(1.0, f64::NAN)).is_err());
        assert!(w.advance(step(1.0, 1e9)).is_err());
        assert!(w.fluid_at(MeasuredDepth::m(5001.0)).is_err());
        let s = steady(1.0);
        assert!(WellHeat::new(&[], &earth(), &s.fluid, Division::default()).is_err());
        let deep = Reach { end: MeasuredDepth::m(6000.0), bore: s.bore, wall: s.wall };
        assert!(WellHeat::new(&[deep], &earth(), &s.fluid, Division::default()).is_err());
    }
}
