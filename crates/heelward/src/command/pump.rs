//! `pump`: the planned job run in time.

use std::path::Path;

use ::pump::fault::{Fault as Broken, Scenario, read_scenario};
use ::pump::sensors::Noise;
use ::pump::{Run, Settings};
use quantity::{Quantity, System, Time};
use report::sheets::{channels_csv, channels_las, events_csv, labels_csv, states_csv};
use report::terminal::faults;
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
    if args.fault.iter().any(|f| f == "list") {
        screen.data(&faults::list(&screen.look))?;
        return Ok(Ended::Done);
    }
    let settings = settings(args)?;
    let input = input::read(&args.job)?;
    let Some(job) = input.job else {
        screen.data(&unread(&input.findings, args.json, &screen.look))?;
        return Ok(Ended::Stopped);
    };
    screen.take_units(job.file.job.units);
    let planned = plan::plan(&job, input.findings);
    let run = ::pump::pump(&job, &planned, &settings).map_err(|e| Fault::input(e.to_string()))?;
    let run = run.settled(screen.look.system);
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
    let time = |name: &str, text: &str| {
        Time::parse(text).map_err(|e| {
            Fault::input_next(
                format!("{name}: {e}"),
                format!("Give a time with its unit, such as `{name} \"1 s\"`."),
            )
        })
    };
    let scenario = args.scenario.as_deref().map(scenario).transpose()?.unwrap_or_default();
    let given =
        args.fault.iter().map(|text| Broken::parse(text).map_err(|e| Fault::input(format!("--fault {e}"))));
    let mut faults = scenario.faults;
    for fault in given {
        faults.push(fault?);
    }
    Ok(Settings {
        sample: time("--sample", &args.sample)?,
        fine: args.fine.as_deref().map(|t| time("--fine", t)).transpose()?,
        seed: args.seed.unwrap_or(usual.seed),
        noise: scenario.noise.or(args.noise.then(Noise::default)),
        faults,
        ..usual
    })
}

/// Longest scenario file that is read, bytes.
const LONGEST: u64 = 1 << 20;

fn scenario(path: &Path) -> Result<Scenario, Fault> {
    let name = path.display();
    let refused =
        |e: String| Fault::input_next(format!("--scenario `{name}`: {e}"), "See docs/simulator.md.");
    let length = std::fs::metadata(path).map_err(|e| refused(e.to_string()))?.len();
    if length > LONGEST {
        return Err(refused(format!("it has {length} bytes; {LONGEST} are the most")));
    }
    let text = std::fs::read_to_string(path).map_err(|e| refused(e.to_string()))?;
    read_scenario(&text).map_err(|e| refused(e.to_string()))
}

fn documents(run: &Run, system: System) -> Result<Outputs, Fault> {
    let mut out = Outputs::default();
    out.add("channels.csv", channels_csv(run, system))?;
    out.add("channels.las", channels_las(run, system))?;
    out.add("states.csv", states_csv(run, system))?;
    out.add("events.csv", events_csv(run))?;
    if !run.labels.is_empty() {
        out.add("labels.csv", labels_csv(run))?;
    }
    out.add("run.json", as_json(run)?)?;
    Ok(out)
}

fn as_json(run: &Run) -> Result<String, Fault> {
    let value = serde_json::to_value(run).map_err(|e| Fault::Own(format!("the run has no JSON: {e}")))?;
    Ok(json::text(&value))
}
