//! Temperature along the way while pumping and waiting, and what it and pressure do to the
//! density of the clean fluid.

use physics::fluid::water_if97::water;
use physics::heat::exchange::{Barrier, Fluid, Wall, earth_along};
use physics::heat::radial_grid::Mesh;
use physics::heat::rock::Rock;
use physics::heat::well_heat::{Division, Reach, Step, WellHeat};
use plan::layout::Layout;
use quantity::*;
use well::Job;

use crate::route::Route;

/// Highest pressure at which the density of water is described, Pa. Above it, where the pumps have long tripped,
/// it is taken as there: such a run must end with its finding, not without one.
const HIGHEST: f64 = 100e6;
/// Heat capacity of water per mass; that of other fluids differs by a few per cent.
const SPECIFIC_HEAT: SpecificHeat = SpecificHeat::kj_per_kgk(4.184);

/// Plugs along the string and rings of rock, to forty radii of the hole: heat gets a metre or two into the
/// rock in the days of a job. The fluid stays within 1 degC of a division five times as fine along the
/// string and several times as fine across it (see the test below).
const DIVISION: Division = Division { plugs: 40, mesh: Mesh { rings: 40, reach: 40.0 } };

/// Time between two readings of temperature and density.
const READ_EVERY: f64 = 60.0;

/// Depths at which the density is taken.
const NODES: usize = 24;

/// The heat of the well during the job.
#[derive(Debug, Clone)]
pub struct Heat {
    well: WellHeat,
    inlet: Temperature,
    /// Time and volume not yet given to the well.
    owed: (f64, f64),
    /// Vertical depth over the knots counted with the expansion of the clean fluid, m.
    heights: Vec<f64>,
    /// Depths of the readings.
    depths: Vec<MeasuredDepth>,
    /// Temperature at those depths.
    readings: Vec<Temperature>,
    /// Density of water at the surface, as pumped, kg/m³.
    surface: f64,
}

impl Heat {
    /// The well at rest at the rock's temperature.
    pub fn of(job: &Job, layout: &Layout, route: &Route) -> physics::Result<Self> {
        Self::divided(job, layout, route, DIVISION)
    }

    fn divided(job: &Job, layout: &Layout, route: &Route, division: Division) -> physics::Result<Self> {
        let end = layout.toe_tool;
        let count = 40;
        let depths: Vec<MeasuredDepth> = (0..=count).map(|i| end_share(end, i, count)).collect();
        let rock: Vec<Temperature> =
            depths.iter().map(|d| job.rock_temperature(job.trajectory.tvd_at(*d))).collect();
        let earth = earth_along("well_temperature", &depths, &rock)?;
        let stone = Rock::new(job.file.rock.conductivity, job.file.rock.heat_capacity)?;
        let hole = |d: Diameter| Wall { hole: d, rock: stone, barrier: Barrier::None };
        let mut reaches: Vec<Reach> = Vec::new();
        for section in &job.file.hole.section {
            let bottom = section.bottom.min(end);
            if reaches.last().is_none_or(|r| r.end < bottom) {
                let bore = bore_at(route, 0.5 * (section.top.si() + bottom.si()));
                reaches.push(Reach { end: bottom, bore, wall: hole(section.diameter.max(bore)) });
            }
        }
        let density = job.file.fluid.first().map_or(Density::kg_per_m3(1000.0), |f| f.density);
        let fluid = Fluid { density, specific_heat: SPECIFIC_HEAT };
        let well = WellHeat::new(&reaches, &earth, &fluid, division)?;
        let inlet = job.file.rock.pumped_temperature;
        let surface = water(inlet, AbsolutePressure::pa(constant::ATMOSPHERE))?.density.si();
        let nodes = (0..NODES).map(|i| end_share(end, i, NODES - 1)).collect();
        let mut heat = Self {
            well,
            inlet,
            owed: (0.0, 0.0),
            heights: route.knots().iter().map(|k| k.tvd).collect(),
            depths: nodes,
            readings: Vec::new(),
            surface,
        };
        heat.read(route, |tvd| density.si() * constant::GRAVITY * tvd)?;
        Ok(heat)
    }

    /// Vertical depth over the knots counted with the expansion of the clean fluid, m.
    pub(crate) fn heights(&self) -> &[f64] {
        &self.heights
    }

    /// Temperature of the fluid at a depth at the last reading.
    pub fn fluid_at(&self, depth: MeasuredDepth) -> Temperature {
        let at = |d: &MeasuredDepth| d.si();
        let i = self.depths.partition_point(|d| *d <= depth).clamp(1, NODES - 1);
        match (self.depths.get(i - 1), self.depths.get(i), self.readings.get(i - 1), self.readings.get(i)) {
            (Some(a), Some(b), Some(s), Some(t)) => {
                let share = ((depth.si() - at(a)) / (at(b) - at(a))).clamp(0.0, 1.0);
                *s + (*t - *s) * share
            }
            _ => self.inlet,
        }
    }

    /// Carries the well through a stretch of time at a rate; reads temperature and density when it
    /// is time. `pressure` gives the gauge pressure at a vertical depth, Pa at m.
    pub(crate) fn advance(
        &mut self,
        route: &Route,
        (rate, dt): (f64, f64),
        pressure: impl Fn(f64) -> f64,
    ) -> physics::Result<()> {
        self.owed.0 += dt;
        self.owed.1 += rate * dt;
        if self.owed.0 < READ_EVERY {
            return Ok(());
        }
        let (time, volume) = std::mem::take(&mut self.owed);
        // Rates that differ by rounding are one rate to the well, which steps finely after a change.
        let rate = FlowRate::from_si(round(volume / time));
        self.well.advance(Step { rate, duration: Time::seconds(time), inlet: self.inlet })?;
        self.read(route, pressure)
    }

    /// Reads temperature, and counts the heights anew with the density of water at temperature and
    /// pressure over its density as pumped.
    fn read(&mut self, route: &Route, pressure: impl Fn(f64) -> f64) -> physics::Result<()> {
        self.readings = self.depths.iter().map(|d| self.well.fluid_at(*d)).collect::<physics::Result<_>>()?;
        let mut factors = Vec::with_capacity(NODES);
        for (depth, temperature) in self.depths.iter().zip(&self.readings) {
            let at = route.above(route.volume_at(depth.si()), 0);
            let absolute = (pressure(at.tvd).max(0.0) + constant::ATMOSPHERE).min(HIGHEST);
            factors.push(water(*temperature, AbsolutePressure::pa(absolute))?.density.si() / self.surface);
        }
        let (mut height, mut last, mut i) = (0.0, 0.0, 0);
        let knots = route.knots();
        for (k, knot) in knots.iter().enumerate() {
            while i + 2 < NODES && self.depths.get(i + 1).is_some_and(|d| d.si() < knot.md) {
                i += 1;
            }
            let factor =
                match (self.depths.get(i), self.depths.get(i + 1), factors.get(i), factors.get(i + 1)) {
                    (Some(a), Some(b), Some(s), Some(t)) => {
                        s + (t - s) * ((knot.md - a.si()) / (b.si() - a.si())).clamp(0.0, 1.0)
                    }
                    _ => 1.0,
                };
            if k == 0 {
                (height, last) = (knot.tvd, knot.tvd);
            }
            height += factor * (knot.tvd - last);
            last = knot.tvd;
            if let Some(place) = self.heights.get_mut(k) {
                *place = height;
            }
        }
        Ok(())
    }
}

fn end_share(end: MeasuredDepth, i: usize, count: usize) -> MeasuredDepth {
    MeasuredDepth::m(end.si() * (i as f64 / count as f64).min(1.0)).min(end)
}

fn bore_at(route: &Route, md: f64) -> Diameter {
    let at = route.above(route.volume_at(md), 0);
    let bore = route.knots().get(at.knot).and_then(|k| route.bores().get(k.bore));
    bore.map_or(Diameter::inch(4.0), |b| b.bore)
}

/// A rate to six digits.
fn round(rate: f64) -> f64 {
    if rate <= 0.0 { 0.0 } else { round_significant(rate, 6) }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests")]
mod tests {
    use super::*;

    /// The coarse division against one of four times the plugs and twice the rings, over pumping at
    /// full and low rate and waits between.
    #[test]
    fn the_fluid_is_as_warm_as_with_a_finer_division() {
        for name in ["long-lateral", "shallow-oil"] {
            let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs").join(name);
            let read = well::read_job(&well::Folder(folder));
            let job = read.value.unwrap();
            let program = plan::plan(&job, read.findings);
            let (layout, ladder) = (program.layout.as_ref().unwrap(), program.ladder.as_ref().unwrap());
            let route = Route::of(&job, layout, ladder).unwrap();
            let fine = Division { plugs: 200, mesh: Mesh { rings: 72, reach: 200.0 } };
            let mut wells = [DIVISION, fine].map(|d| Heat::divided(&job, layout, &route, d).unwrap());
            let mut most: f64 = 0.0;
            let most_rate = job.file.treatment.rate.si();
            for (minutes, share) in [(90, 1.0), (20, 0.3), (30, 0.0), (120, 0.8), (240, 0.0), (60, 1.0)] {
                for _ in 0..minutes {
                    for w in &mut wells {
                        w.advance(&route, (share * most_rate, 60.0), |tvd| 1e4 * tvd).unwrap();
                    }
                    for i in 1..10 {
                        let depth = end_share(layout.toe_tool, i, 10);
                        let [a, b] = [0, 1].map(|k| wells[k].fluid_at(depth).si());
                        most = most.max((a - b).abs());
                    }
                }
            }
            println!("{name}: {most} degC");
            assert!(most < 1.0, "{name}: {most} degC");
        }
    }
}
