//! The run: from a standstill to the end of the record.

use plan::{Header, Program};
use quantity::*;
use well::Job;
use well::record::Assumption;

use crate::crew::{Mode, Rules};
use crate::error::PumpError;
use crate::result::Run;
use crate::world::World;

/// How a job is run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settings {
    /// Time between samples.
    pub sample: Time,
    /// Seed of what is drawn: where each sleeve shears.
    pub seed: u64,
    /// The crew's rules.
    pub rules: Rules,
}

impl Default for Settings {
    /// A sample a second, the plan's seed, the usual crew.
    fn default() -> Self {
        Self { sample: Time::seconds(1.0), seed: plan::program::SEED, rules: Rules::default() }
    }
}

/// Times the planned duration after which a run that has not ended is ended.
const PATIENCE: f64 = 3.0;

/// Runs the whole job of a plan.
///
/// # Errors
/// Where the plan lacks what there is to pump, where a setting is out of its range, and where a
/// relation refuses what the job leads to.
pub fn pump(job: &Job, program: &Program, settings: Settings) -> Result<Run, PumpError> {
    let dt = settings.sample.si();
    if !(0.01..=10.0).contains(&dt) {
        return Err(PumpError::Setting {
            name: "the time between samples",
            value: settings.sample.into(),
            limit: "0.01 s to 10 s",
            hint: "take 1 s, as a recorder does",
        });
    }
    let mut world = World::new(job, program, settings.rules, settings.seed)?;
    let planned = program.balls.as_ref().map_or(0.0, |b| b.job_time.si());
    let longest = PATIENCE * planned + 86_400.0;
    while world.time < longest && !ended(&world) {
        world.step(dt)?;
    }
    Ok(finish(world, program, settings))
}

fn ended(world: &World<'_>) -> bool {
    match world.crew.mode {
        Mode::ShutIn { since } | Mode::Stopped { since } => {
            world.time - since.si() >= world.crew.rules().shut_in.si()
        }
        _ => false,
    }
}

fn finish(world: World<'_>, program: &Program, settings: Settings) -> Run {
    let finished = matches!(world.crew.mode, Mode::ShutIn { .. });
    let assumptions = assumptions(world.crew.rules());
    Run {
        header: Header { seed: settings.seed, ..Header::of(world.job) },
        sample: settings.sample,
        in_string: world.column.amount() + world.log.below_balls,
        at_start: world.log.at_start,
        pumped: world.log.pumped,
        samples: world.log.samples,
        events: world.log.events,
        landings: world.log.landings,
        stages: world.log.stages,
        finished,
        findings: world.log.findings,
        assumptions: program.assumptions.iter().cloned().chain(assumptions).collect(),
    }
}

fn assumptions(rules: &Rules) -> Vec<Assumption> {
    let one = |field: &str, value: String, basis: &str| Assumption {
        field: field.into(),
        value,
        basis: format!("memory: {basis}"),
    };
    let field = System::Field;
    vec![
        one("crew ramp", rules.ramp.text(field), "time from a standstill to the highest rate"),
        one(
            "crew reaction",
            rules.reaction.text(field),
            "time from a landing at the surface until the crew acts",
        ),
        one(
            "crew pressing",
            rules.pressing.text(field),
            "rate at which a closed string is pressed to open its first sleeve",
        ),
        one("pump trip time", rules.trip_time.text(field), "time in which a trip stops the pumps"),
    ]
}
