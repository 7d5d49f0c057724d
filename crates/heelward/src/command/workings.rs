//! `workings`: the figures of a plan, and what one was made of.

use plan::Program;
use report::terminal::working;
use report::text::json;
use serde_json::json;

use super::Outcome;
use crate::cli::Workings;
use crate::fault::{Ended, Fault};
use crate::screen::Screen;
use crate::{VERSION, embedded, input};

pub(crate) fn run(args: &Workings, screen: &mut Screen) -> Outcome {
    let input = input::read(&args.job)?;
    let job = input.job.ok_or_else(|| {
        Fault::input_next(
            "the input is not complete, so there is no plan",
            "`heelward check JOB` says what is missing.",
        )
    })?;
    screen.take_units(job.file.job.units);
    let program = plan::plan(&job, input.findings).settled(screen.look.system);
    let text = match &args.figure {
        Some(figure) => open(&program, figure, args.json, screen)?,
        None if args.json => json::lines(&json!({ "version": VERSION, "workings": program.workings })),
        None => working::list(&program.workings, &screen.look),
    };
    screen.data(&text)?;
    Ok(if program.stopped() { Ended::Stopped } else { Ended::Done })
}

fn open(program: &Program, figure: &str, as_json: bool, screen: &Screen) -> Result<String, Fault> {
    let working = program.workings.get(figure).ok_or_else(|| {
        let near = physics::registry::nearest(figure, program.workings.keys().map(String::as_str));
        let near = near.map(|n| format!(" (nearest: `{n}`)")).unwrap_or_default();
        let what = format!("this plan has no figure `{figure}`{near}");
        Fault::input_next(what, "`heelward workings JOB` lists them all.")
    })?;
    Ok(match as_json {
        true => json::text(&json!({ "version": VERSION, "figure": figure, "working": working })),
        false => working::page(figure, working, &embedded::bibliography()?, &screen.look),
    })
}
