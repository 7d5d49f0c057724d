//! `check`: reads a job and judges its input.

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
    let input = input::read(&args.job)?;
    let text = if args.json { as_json(&input) } else { page(&input, screen) };
    screen.data(&text)?;
    Ok(if input.stopped() { Ended::Stopped } else { Ended::Done })
}

fn page(input: &Input, screen: &Screen) -> String {
    let look = &screen.look;
    let assumptions = assumption::page(&input.assumptions, look);
    let parts = [finding::page(&input.findings, look), assumptions, caution::page(look), stamp(input)];
    parts.into_iter().filter(|p| !p.is_empty()).collect::<Vec<_>>().join("\n")
}

fn stamp(input: &Input) -> String {
    format!("heelward {VERSION}, input {}\n", input.hash)
}

fn as_json(input: &Input) -> String {
    let mut out = json::findings(&input.findings, VERSION);
    if let Some(map) = out.as_object_mut() {
        map.insert("input_hash".into(), json!(input.hash));
        map.insert("assumptions".into(), json!(input.assumptions));
    }
    json::text(&out)
}
