//! `plan`: from the input to the documents.

use plan::Program;
use report::Look;
use report::terminal::{caution, finding, program};
use report::text::caution::STANDING;
use report::text::json;

use super::Outcome;
use super::check::sections;
use crate::cli::Plan;
use crate::fault::{Ended, Fault};
use crate::input;
use crate::screen::Screen;
use crate::{VERSION, documents};

pub(crate) fn run(args: &Plan, screen: &mut Screen) -> Outcome {
    let input = input::read(&args.job)?;
    let Some(job) = input.job else {
        screen.data(&unread(&input.findings, args.json, &screen.look))?;
        return Ok(Ended::Stopped);
    };
    screen.take_units(job.file.job.units);
    let planned = plan::plan(&job, input.findings).settled(screen.look.system);
    if let Some(folder) = &args.out {
        let written =
            documents::all(&job, &planned, as_json(&planned)?, screen.look.system)?.write(folder)?;
        screen.talk(&format!("{written} documents written to {}", folder.display()));
    }
    let text = if args.json { as_json(&planned)? } else { one_screen(&planned, &screen.look) };
    screen.data(&text)?;
    Ok(if planned.stopped() { Ended::Stopped } else { Ended::Done })
}

/// What there is to say where the input is not complete.
pub(crate) fn unread(findings: &[well::Finding], as_json: bool, look: &Look) -> String {
    match as_json {
        true => json::text(&json::findings(findings, VERSION)),
        false => sections(&[finding::page(findings, look), caution::page(look)]),
    }
}

pub(super) fn as_json(planned: &Program) -> Result<String, Fault> {
    let value =
        serde_json::to_value(planned).map_err(|e| Fault::Own(format!("the program has no JSON: {e}")))?;
    Ok(json::lines(&value))
}

/// The summary on one screen, with its stamp.
fn one_screen(planned: &Program, look: &Look) -> String {
    sections(&[program::page(planned, look), look.wrap(0, STANDING), stamp(planned)])
}

/// Version, input and seed of a program.
pub(crate) fn stamp(planned: &Program) -> String {
    stamp_of(&planned.header)
}

/// Version, input and seed of a header.
pub(crate) fn stamp_of(head: &plan::Header) -> String {
    format!("heelward {}, input {}, seed {}\n", head.version, head.input_hash, head.seed)
}
