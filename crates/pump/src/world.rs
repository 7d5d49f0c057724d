//! The state of the job between two moments.

use physics::fluid::water_if97::{Water, water};
use physics::hydraulics::pipe_wall::{PipeWall, Restraint, WallTheory, wall_compliance};
use physics::hydraulics::sealed_pressure::SealedVolume;
use plan::Program;
use plan::balls::way::{POISSON, YOUNG};
use plan::stages::StageLine;
use quantity::*;
use rand_chacha::ChaCha12Rng;
use rand_chacha::rand_core::SeedableRng;
use well::Job;
use well::job::Reference;

use crate::column::{Amount, Column, Make, Parcel};
use crate::crew::{Crew, Rules};
use crate::error::PumpError;
use crate::flight::Flight;
use crate::fluids::Fluids;
use crate::heat::Heat;
use crate::log::Log;
use crate::orders::{Book, orders};
use crate::route::{Bore, Route};
use crate::sleeve::{Sleeve, SleeveState, sleeves};
use crate::surge::Surge;

/// What the simulator stands on.
pub(crate) struct World<'a> {
    pub job: &'a Job,
    pub route: Route,
    pub fluids: Fluids<'a>,
    pub column: Column,
    pub heat: Heat,
    pub sleeves: Vec<Sleeve>,
    pub lines: Vec<StageLine>,
    pub flights: Vec<Flight>,
    pub crew: Crew<'a>,
    pub book: Book,
    /// Rate the crew goes for.
    pub goal: FlowRate,
    /// Time since the start of the job, s.
    pub time: f64,
    /// The sleeve that takes fluid, by its place in `sleeves`; none while the string is closed.
    pub open: Option<usize>,
    /// Volume from the meter to the end of the moving column, m³.
    pub end: f64,
    /// Treating pressure, Pa.
    pub surface: f64,
    /// Pressure in the string at the open sleeve, Pa.
    pub below: f64,
    /// Volume packed into the closed string, m³.
    pub packed: f64,
    /// Pressure per volume packed into the closed string, Pa/m³.
    pub stiffness: f64,
    /// Volume that has come back into the string and goes out before anything else does, m³.
    pub owed: f64,
    /// What stands below a landed ball while its waves are followed.
    pub lower: Column,
    /// The waves of the landing that is going on.
    pub surge: Option<Surge>,
    /// Highest surface pressure of the last stretch, Pa.
    pub peak: f64,
    /// Top of the liner.
    pub liner_top: MeasuredDepth,
    /// Compliance of the wall of every bore.
    pub walls: Vec<Compressibility>,
    /// Bulk modulus of the fluid for waves.
    pub modulus: Pressure,
    /// Ball for which the rate was cut last.
    pub cut: usize,
    pub log: Log,
}

impl<'a> World<'a> {
    /// The job before its first moment: the string full of the first clean fluid, at rest.
    pub fn new(job: &'a Job, program: &'a Program, rules: Rules, seed: u64) -> Result<Self, PumpError> {
        let missing = |part| PumpError::NoPlan { part };
        let layout = program.layout.as_ref().ok_or(missing("layout"))?;
        let ladder = program.ladder.as_ref().ok_or(missing("ladder"))?;
        let stages = program.stages.as_ref().ok_or(missing("stage hydraulics"))?;
        program.balls.as_ref().ok_or(missing("ball program"))?;
        let route = Route::of(job, layout, ladder)?;
        let heat = Heat::of(job, layout, &route)?;
        let mut random = ChaCha12Rng::seed_from_u64(seed);
        let sleeves = sleeves(job, program, &route, &mut random);
        let list = orders(job, program);
        let fluid = list.first().map_or(0, |o| o.fluid);
        let open = sleeves.iter().position(|s| s.state == SleeveState::Open);
        let end = open.or(Some(0)).and_then(|i| sleeves.get(i)).map_or(0.0, |s| s.volume.si());
        let full = Volume::m3(end);
        let first = Parcel {
            make: Make { fluid, proppant: None, class: 0 },
            amount: Amount { slurry: full, clean: full, mass: Mass::ZERO },
        };
        let fluids = Fluids::of(job, route.bores());
        Ok(Self {
            job,
            fluids,
            column: Column::full_of(first),
            heat,
            lines: StageLine::all(job, layout, ladder)?,
            flights: Vec::new(),
            crew: Crew::new(program, rules),
            book: Book::new(list),
            goal: FlowRate::ZERO,
            time: 0.0,
            open,
            end,
            surface: 0.0,
            below: 0.0,
            packed: 0.0,
            stiffness: stiffness(job, &route, end)?,
            owed: 0.0,
            lower: Column::default(),
            surge: None,
            peak: 0.0,
            liner_top: layout.casing_packer_top,
            walls: walls(job, &route)?,
            modulus: middle(job)?.isentropic_modulus(),
            cut: 0,
            log: Log::new(stages.stages.len(), first.amount),
            sleeves,
            route,
        })
    }

    /// Stage whose sleeve takes fluid; 0 for the path at the toe and for a closed string.
    pub fn open_stage(&self) -> usize {
        self.open.and_then(|i| self.sleeves.get(i)).map_or(0, |s| s.stage)
    }

    /// The sleeve of a stage.
    pub fn sleeve_of(&self, stage: usize) -> Option<usize> {
        self.sleeves.iter().position(|s| s.stage == stage)
    }

    /// The ball on its way.
    pub fn ball(&self) -> Option<&Flight> {
        self.flights.iter().find(|f| f.moving())
    }

    /// Time a pressure wave takes from a sleeve to the surface, s.
    pub fn travel_time(&self, stage: usize) -> f64 {
        let signature = self.crew.card(stage).map(|c| c.chosen.signature.delay.si());
        signature.unwrap_or_else(|| {
            let depth = self.sleeve_of(stage).and_then(|i| self.sleeves.get(i)).map_or(0.0, |s| s.depth.si());
            depth / WAVE
        })
    }

    /// Differential at which the first sleeve opens, Pa.
    pub fn shear_of_first(&self) -> f64 {
        self.sleeve_of(1).and_then(|i| self.sleeves.get(i)).map_or(f64::INFINITY, |s| s.shear.si())
    }

    /// Gauge pressure that the first sleeve's device works against, Pa: the pores of the rock, or a
    /// sealed chamber.
    pub fn outside(&self) -> f64 {
        let sleeve = self.job.file.toe.pressure_sleeve.as_ref();
        if sleeve.is_some_and(|s| s.opening.reference == Reference::Absolute) {
            return -constant::ATMOSPHERE;
        }
        let tvd = self.sleeve_of(1).and_then(|i| self.sleeves.get(i)).map_or(0.0, |s| s.tvd.si());
        self.job.file.rock.pore_gradient.si() * tvd
    }

    /// Pressure in the rock at the sleeve of a stage, Pa; the path at the toe has the rock of stage 1.
    pub fn fracture_pressure(&self, stage: usize) -> f64 {
        let tvd = self.sleeve_of(stage).and_then(|i| self.sleeves.get(i)).map_or(0.0, |s| s.tvd.si());
        self.line(stage).map_or(0.0, |l| l.fracture_gradient.si() * tvd)
    }

    /// Vertical depth of the end of the moving column, m.
    pub fn end_tvd(&self) -> f64 {
        self.route.above(self.end, 0).tvd
    }

    /// The line whose rock a stage has; the path at the toe has that of stage 1.
    pub fn line(&self, stage: usize) -> Option<&StageLine> {
        self.lines.get(stage.max(1) - 1)
    }
}

/// Speed of a pressure wave where no ball card gives its travel time, m/s.
const WAVE: f64 = 1400.0;

/// Water at the temperature it is pumped at and half the treating limit.
fn middle(job: &Job) -> physics::Result<Water> {
    let middle = AbsolutePressure::pa(0.5 * job.file.limits.treating_pressure.si() + constant::ATMOSPHERE);
    water(job.file.rock.pumped_temperature, middle)
}

/// Compliance of the wall of every bore: that of the string of that bore, else of the liner.
fn walls(job: &Job, route: &Route) -> physics::Result<Vec<Compressibility>> {
    let liner = job.liner().map(|l| l.pipe.outer());
    let outside = |bore: Diameter| {
        let string = job.strings.iter().filter(|s| s.bore() == bore).map(|s| s.pipe.outer());
        string.min_by(Diameter::total_cmp).or(liner).unwrap_or(Diameter::inch(4.5)).max(bore * 1.05)
    };
    let one = |b: &Bore| {
        let wall = PipeWall { bore: b.bore, outside: outside(b.bore), young: YOUNG, poisson: POISSON };
        wall_compliance(&wall, WallTheory::Thick, Restraint::AnchoredThroughout)
    };
    route.bores().iter().map(one).collect()
}

/// Pressure per volume packed into the closed string: fluid and steel give together.
fn stiffness(job: &Job, route: &Route, volume: f64) -> Result<f64, PumpError> {
    let wall = walls(job, route)?.first().copied().unwrap_or(Compressibility::ZERO);
    let sealed = SealedVolume::liquid(Volume::m3(volume), middle(job)?.isothermal_modulus(), wall);
    Ok(1.0 / (volume.max(1e-6) * sealed.compressibility()?.si()))
}
