//! `pump`: the planned job run in time.

use ::pump::{Run, Settings};
use quantity::{Quantity, System, Time};
use report::sheets::{channels_csv, channels_las, events_csv};
use report::terminal::run as page;
use report::text::caution::STANDING;
use report::text::json;
use well::Severity;

use super::Outcome;
use super::check::sections;
use super::plan::{stamp_of, unread};
use crate::cli::Pump;
use crate::fault::{Ended, Fault};
use crate::input;
use crate::outputs::Outputs;
use crate::screen::Screen;

pub(crate) fn run(args: &Pump, screen: &mut Screen) -> Outcome {
    let settings = settings(args)?;
    let input = input::read(&args.job)?;
    let Some(job) = input.job else {
        screen.data(&unread(&input.findings, args.json, &screen.look))?;
        return Ok(Ended::Stopped);
    };
    screen.take_units(job.file.job.units);
    let planned = plan::plan(&job, input.findings);
    let run = ::pump::pump(&job, &planned, settings).map_err(|e| Fault::input(e.to_string()))?;
    let stops = planned.count(Severity::Stop);
    if stops > 0 {
        screen.talk(&format!(
            "{stops} findings of the plan stop this job; `heelward plan` shows them. What follows is for study only."
        ));
    }
    if let Some(folder) = &args.out {
        let written = documents(&run, screen.look.system)?.write(folder)?;
        screen.talk(&format!("{written} documents written to {}", folder.display()));
    }
    let text = match args.json {
        true => as_json(&run)?,
        false => {
            sections(&[page::page(&run, &screen.look), screen.look.wrap(0, STANDING), stamp_of(&run.header)])
        }
    };
    screen.data(&text)?;
    let stopped = planned.stopped() || run.findings.iter().any(|f| f.severity == Severity::Stop);
    Ok(if stopped { Ended::Stopped } else { Ended::Done })
}

fn settings(args: &Pump) -> Result<Settings, Fault> {
    let usual = Settings::default();
    let sample = Time::parse(&args.sample).map_err(|e| {
        Fault::input_next(format!("--sample: {e}"), "Give a time with its unit, such as `--sample \"1 s\"`.")
    })?;
    Ok(Settings { sample, seed: args.seed.unwrap_or(usual.seed), ..usual })
}

fn documents(run: &Run, system: System) -> Result<Outputs, Fault> {
    let mut out = Outputs::default();
    out.add("channels.csv", channels_csv(run, system))?;
    out.add("channels.las", channels_las(run, system))?;
    out.add("events.csv", events_csv(run))?;
    out.add("run.json", as_json(run)?)?;
    Ok(out)
}

fn as_json(run: &Run) -> Result<String, Fault> {
    let value = serde_json::to_value(run).map_err(|e| Fault::Own(format!("the run has no JSON: {e}")))?;
    Ok(json::text(&value))
}
