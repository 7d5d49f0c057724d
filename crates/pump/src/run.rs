//! The run: from a standstill to the end of the record.

use plan::{Header, Program};
use quantity::*;
use well::Job;
use well::record::Assumption;

use crate::crew::{Mode, Rules};
use crate::error::PumpError;
use crate::fault::Fault;
use crate::result::Run;
use crate::sensors::{Noise, recorded};
use crate::world::World;

/// How a job is run.
#[derive(Debug, Clone, PartialEq)]
pub struct Settings {
    /// Time between samples.
    pub sample: Time,
    /// Time between samples while waves run, from shortly before each landing; none where the same.
    pub fine: Option<Time>,
    /// Seed of what is drawn: where each sleeve shears.
    pub seed: u64,
    /// The crew's rules; those of the job file where none.
    pub rules: Option<Rules>,
    /// Faults.
    pub faults: Vec<Fault>,
    /// Noise of the instruments; none where none.
    pub noise: Option<Noise>,
}

impl Default for Settings {
    /// A sample a second, the plan's seed, the usual crew.
    fn default() -> Self {
        Self {
            sample: Time::seconds(1.0),
            fine: None,
            seed: plan::program::SEED,
            rules: None,
            faults: Vec::new(),
            noise: None,
        }
    }
}

/// Times the planned duration after which a run that has not ended is ended.
const PATIENCE: f64 = 3.0;

/// Runs the whole job of a plan.
///
/// # Errors
/// Where the plan lacks what there is to pump, where a setting is out of its range, and where a
/// relation refuses what the job leads to.
pub fn pump(job: &Job, program: &Program, settings: &Settings) -> Result<Run, PumpError> {
    let dt = step_of(settings.sample)?;
    let fine = settings.fine.map(step_of).transpose()?.unwrap_or(dt).min(dt);
    let rules = settings.rules.unwrap_or_else(|| Rules::of(job));
    let mut world = World::new(job, program, rules, settings.seed, &settings.faults)?;
    let planned = program.balls.as_ref().map_or(0.0, |b| b.job_time.si());
    let longest = PATIENCE * planned + 86_400.0;
    check_faults(&world, &settings.faults)?;
    while world.time < longest && !ended(&world) {
        let quick = fine < dt && world.lively();
        let step = until_next(world.time, dt);
        world.step(if quick { fine.min(step) } else { step })?;
    }
    Ok(finish(world, program, settings))
}

/// A time between samples, where it can be one.
fn step_of(time: Time) -> Result<f64, PumpError> {
    let dt = time.si();
    if (0.01..=10.0).contains(&dt) {
        return Ok(dt);
    }
    Err(PumpError::Setting {
        name: "the time between samples",
        value: time.into(),
        limit: "0.01 s to 10 s",
        hint: "take 1 s, as a recorder does",
    })
}

/// Time from a moment to the next sample of those that are `dt` apart.
fn until_next(time: f64, dt: f64) -> f64 {
    let done = (time / dt + 1e-6).floor();
    (done + 1.0) * dt - time
}

/// Refuses faults that this job cannot have.
fn check_faults(world: &World<'_>, faults: &[Fault]) -> Result<(), PumpError> {
    let stages = world.lines.len();
    for fault in faults {
        let name = fault.kind.name();
        let wrong =
            |reason: String, hint: &str| PumpError::Fault { value: name.into(), reason, hint: hint.into() };
        if fault.stage > stages {
            return Err(wrong(format!("stage {} of {stages} stages", fault.stage), "stage 1 is at the toe"));
        }
        if let Some(reason) = without_ball(world, fault) {
            return Err(wrong(reason, "take a stage that has one"));
        }
        if fault.kind.needs_rock() && !world.rock.followed() {
            let hint = "describe the rock in the job file";
            return Err(wrong("a tip can only bridge where the job has `[rock.fracture]`".into(), hint));
        }
    }
    Ok(())
}

/// Why a fault of balls has none to act on.
fn without_ball(world: &World<'_>, fault: &Fault) -> Option<String> {
    let lacking = fault.balls().into_iter().find(|s| world.crew.card(*s).is_none())?;
    Some(format!("stage {lacking} has no ball"))
}

fn ended(world: &World<'_>) -> bool {
    match world.crew.mode {
        Mode::ShutIn { since } | Mode::Stopped { since, resumes: None } => {
            world.time - since.si() >= world.crew.rules().shut_in.si()
        }
        _ => false,
    }
}

fn finish(mut world: World<'_>, program: &Program, settings: &Settings) -> Run {
    recorded(&mut world.log.samples, &mut world.faults, settings.noise, settings.seed);
    let finished = matches!(world.crew.mode, Mode::ShutIn { .. });
    let given = settings.rules.is_some() || world.job.file.crew.is_some();
    let mut assumptions = if given { Vec::new() } else { assumptions(world.crew.rules()) };
    assumptions.extend(rock_assumptions(&world));
    let in_string = world.inside();
    let mut stages = world.log.stages;
    for s in stages.iter_mut().filter(|s| s.stage > 0) {
        s.rock = world.rock.run(s.stage);
    }
    Run {
        header: Header { seed: settings.seed, ..Header::of(world.job) },
        sample: settings.sample,
        in_string,
        labels: world.faults.labels,
        sleeves: world.log.sleeves,
        balls: world.log.balls,
        relieved: world.log.relieved,
        at_start: world.log.at_start,
        pumped: world.log.pumped,
        samples: world.log.samples,
        events: world.log.events,
        landings: world.log.landings,
        stages,
        finished,
        findings: world.log.findings,
        assumptions: program.assumptions.iter().cloned().chain(assumptions).collect(),
    }
}

/// What a run takes of the rock beyond the job file.
fn rock_assumptions(world: &World<'_>) -> Vec<Assumption> {
    let one = |value: &str, basis: &str| Assumption {
        field: "rock.fracture".into(),
        value: value.into(),
        basis: format!("assumed: {basis}"),
    };
    if world.rock.followed() {
        return vec![one(
            "one fracture a stage, one height",
            "two equal wings; no height growth, no stress round older fractures; below closure the pressure stays at the closure stress",
        )];
    }
    vec![one(
        "the fracture gradient",
        "without `[rock.fracture]` a stage takes fluid at one pressure, whatever went in",
    )]
}

fn assumptions(rules: &Rules) -> Vec<Assumption> {
    let one = |field: &str, value: Text, basis: &str| Assumption {
        field: field.into(),
        value,
        basis: format!("memory: {basis}"),
    };
    vec![
        one("crew ramp", said!("{}", rules.ramp), "time from a standstill to the highest rate"),
        one(
            "crew reaction",
            said!("{}", rules.reaction),
            "time from a landing at the surface until the crew acts",
        ),
        one(
            "crew pressing",
            said!("{}", rules.pressing),
            "rate at which a closed string is pressed to open its first sleeve",
        ),
        one(
            "crew shut-in",
            said!("{}", rules.shut_in),
            "time for which the pressure is watched after the pumps stop",
        ),
        one(
            "crew restart",
            said!("{}", rules.restart),
            "wait after a trip before the job goes on, where it may",
        ),
        one("pump trip time", said!("{}", rules.trip_time), "time in which a trip stops the pumps"),
    ]
}
