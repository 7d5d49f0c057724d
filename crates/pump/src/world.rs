//! The state of the job between two moments.

use physics::fluid::water_if97::{Water, water};
use physics::hydraulics::pipe_wall::{PipeWall, Restraint, WallTheory, wall_compliance};
use physics::hydraulics::sealed_pressure::SealedVolume;
use plan::Program;
use plan::balls::way::{POISSON, YOUNG};
use plan::layout::{Layout, StagePlace};
use plan::stages::StageLine;
use quantity::*;
use rand_chacha::ChaCha12Rng;
use rand_chacha::rand_core::SeedableRng;
use well::Job;
use well::job::{Initiation, Reference};

use crate::branch::Branch;
use crate::column::{Amount, Column, Make, Parcel};
use crate::crew::{Crew, Rules};
use crate::error::PumpError;
use crate::fault::armed::Faults;
use crate::fault::{Fault, FaultKind};
use crate::flight::Flight;
use crate::fluids::Fluids;
use crate::heat::Heat;
use crate::log::Log;
use crate::mishap::{Choke, Restriction, with_sand};
use crate::orders::{Book, orders};
use crate::rock::Rock;
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
    pub rock: Rock<'a>,
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
    /// What stands below the ball of the open stage, and what it reaches: the stage before, and the
    /// volumes from the meter at its ends.
    pub under: Column,
    pub under_reach: Option<(usize, f64, f64)>,
    /// A second way into rock.
    pub branch: Option<Branch>,
    /// Faults of the run.
    pub faults: Faults,
    pub choke: Option<Choke>,
    pub restriction: Option<Restriction>,
    /// Pressure of the annulus, Pa.
    pub annulus: f64,
    /// How far a fracture along the hole must grow from the sleeve of each stage to be past the packer
    /// on its toe side, m; stage 1 first. Empty where fractures start across the hole.
    pub past_packer: Vec<f64>,
    /// When the sleeve of each stage opened, s; the path at the toe first.
    pub opened: Vec<Option<f64>>,
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
    pub fn new(
        job: &'a Job,
        program: &'a Program,
        rules: Rules,
        seed: u64,
        faults: &[Fault],
    ) -> Result<Self, PumpError> {
        let missing = |part| PumpError::NoPlan { part };
        let layout = program.layout.as_ref().ok_or(missing("layout"))?;
        let ladder = program.ladder.as_ref().ok_or(missing("ladder"))?;
        let stages = program.stages.as_ref().ok_or(missing("stage hydraulics"))?;
        program.balls.as_ref().ok_or(missing("ball program"))?;
        let route = Route::of(job, layout, ladder)?;
        let heat = Heat::of(job, layout, &route)?;
        let mut random = ChaCha12Rng::seed_from_u64(seed);
        let sleeves = sleeves(job, program, &route, &mut random);
        let sandy = faults.iter().filter(|f| f.kind == FaultKind::BallInSand);
        let list = sandy.fold(orders(job, program), |list, f| with_sand(list, f.stage));
        let mut opened = vec![None; sleeves.len() + 1];
        if let Some(path) = opened.first_mut() {
            *path = Some(0.0);
        }
        let fluid = list.first().map_or(0, |o| o.fluid);
        let open = sleeves.iter().position(|s| s.state == SleeveState::Open);
        let end = open.or(Some(0)).and_then(|i| sleeves.get(i)).map_or(0.0, |s| s.volume.si());
        let full = Volume::m3(end);
        let first = Parcel {
            make: Make { fluid, proppant: None, class: 0 },
            amount: Amount { slurry: full, clean: full, mass: Mass::ZERO },
        };
        let fluids = Fluids::of(job, route.bores());
        let lines = StageLine::all(job, layout, ladder)?;
        let places: Vec<_> = sleeves
            .iter()
            .filter(|s| s.stage > 0)
            .zip(&lines)
            .map(|(s, l)| (s.tvd, l.fracture_gradient))
            .collect();
        Ok(Self {
            job,
            fluids,
            column: Column::full_of(first),
            heat,
            rock: Rock::of(job, &places)?,
            lines,
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
            under: Column::default(),
            under_reach: None,
            branch: None,
            faults: Faults::new(faults),
            choke: None,
            restriction: None,
            annulus: job.file.limits.annulus_pressure.si(),
            past_packer: past_packers(job, layout),
            opened,
            peak: 0.0,
            liner_top: layout.casing_packer_top,
            walls: walls(job, &route)?,
            modulus: middle(job)?.isentropic_modulus(),
            cut: 0,
            log: Log::new(stages.stages.len().max(layout.stages.len()), first.amount, &sleeves),
            sleeves,
            route,
        })
    }

    /// Whether waves run, or a ball is within a few seconds of a seat it cannot pass.
    pub fn lively(&self) -> bool {
        let near = SHORTLY * self.crew.rate.si();
        self.surge.is_some() || self.flights.iter().any(|f| f.to_seat(&self.route).is_some_and(|v| v < near))
    }

    /// Sets the state of the sleeve of a stage.
    pub fn mark(&mut self, stage: usize, state: SleeveState) {
        let time = self.time;
        if let Some(sleeve) = self.sleeves.iter_mut().find(|s| s.stage == stage) {
            sleeve.state = state;
            self.log.sleeve_is(stage, state, time);
        }
    }

    /// What is in the string.
    pub fn inside(&self) -> Amount {
        let branch = self.branch.as_ref().map_or(Amount::default(), |b| b.column.amount());
        self.column.amount() + self.lower.amount() + self.under.amount() + branch + self.log.below_balls
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

    /// The ball whose landing the crew waits for, wherever it really is.
    pub fn awaited(&self) -> Option<&Flight> {
        self.flights.iter().find(|f| f.awaited)
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
        self.rock.pressure(stage, self.time)
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

/// Distance from every sleeve past the packer on its toe side, where fractures start along the hole.
fn past_packers(job: &Job, layout: &Layout) -> Vec<f64> {
    let axial = |t: &well::job::FractureTable| t.initiation == Initiation::Axial;
    if !job.file.rock.fracture.as_ref().is_some_and(axial) {
        return Vec::new();
    }
    let below = std::iter::once(None).chain(layout.stages.iter().map(Some));
    let one = |(s, below): (&StagePlace, Option<&StagePlace>)| {
        below.map_or(f64::INFINITY, |b| (b.heel_end - s.sleeve.ports).si())
    };
    layout.stages.iter().zip(below).map(one).collect()
}

/// How long before a landing the job is followed closely, s.
const SHORTLY: f64 = 3.0;

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
