//! `check`: reads a job and judges its input.

use report::Look;
use report::terminal::{assumption, caution, finding};
use report::text::json;
use serde_json::json;

use super::Outcome;
use crate::VERSION;
use crate::cli::Check;
use crate::fault::Ended;
use crate::input::{self, Input};
use crate::screen::Screen;

pub(crate) fn run(args: &Check, screen: &mut Screen) -> Outcome {
    let mut input = input::read(&args.job)?;
    if let Some(job) = &input.job {
        screen.take_units(job.file.job.units);
        input.findings.extend(plan::layout::premises(job));
    }
    input.settle(screen.look.system);
    let text = if args.json { as_json(&input) } else { page(&input, &screen.look) };
    screen.data(&text)?;
    Ok(if input.stopped() { Ended::Stopped } else { Ended::Done })
}

fn page(input: &Input, look: &Look) -> String {
    let complete = if input.job.is_some() {
        ""
    } else {
        "; the input is not complete, so nothing can be planned from it"
    };
    let stamp = format!("heelward {VERSION}, input {}{complete}\n", input.hash);
    let parts = [
        finding::page(&input.findings, look),
        assumption::page(&input.assumptions, look),
        caution::page(look),
        stamp,
    ];
    sections(&parts)
}

/// The parts of a page that are there, with an empty line between.
pub(crate) fn sections(parts: &[String]) -> String {
    parts.iter().filter(|p| !p.is_empty()).map(String::as_str).collect::<Vec<_>>().join("\n")
}

fn as_json(input: &Input) -> String {
    let mut out = json::findings(&input.findings, VERSION);
    if let Some(map) = out.as_object_mut() {
        map.insert("input_hash".into(), json!(input.hash));
        map.insert("assumptions".into(), json!(input.assumptions));
    }
    json::text(&out)
}
