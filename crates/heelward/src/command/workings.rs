//! `workings`: the figures of a plan, and what one was made of.

use plan::Ledger;
use report::terminal::working;
use report::text::json;
use serde_json::json;

use super::Outcome;
use crate::cli::Workings;
use crate::fault::{Ended, Fault};
use crate::screen::Screen;
use crate::{VERSION, embedded, input};

pub(crate) fn run(args: &Workings, screen: &mut Screen) -> Outcome {
    let ledger = super::plan::ledger(input::read(&args.job)?);
    let text = match &args.figure {
        Some(figure) => open(&ledger, figure, args.json, screen)?,
        None if args.json => json::text(&json!({ "version": VERSION, "workings": ledger.workings })),
        None => working::list(&ledger.workings, &screen.look),
    };
    screen.data(&text)?;
    Ok(if ledger.stopped() { Ended::Stopped } else { Ended::Done })
}

fn open(ledger: &Ledger, figure: &str, as_json: bool, screen: &Screen) -> Result<String, Fault> {
    let working = ledger.workings.get(figure).ok_or_else(|| {
        let near = physics::registry::nearest(figure, ledger.workings.keys().map(String::as_str));
        let near = near.map(|n| format!(" (nearest: `{n}`)")).unwrap_or_default();
        let what = format!("this plan has no figure `{figure}`{near}");
        Fault::input_next(what, "`heelward workings JOB` lists them all.")
    })?;
    Ok(match as_json {
        true => json::text(&json!({ "version": VERSION, "figure": figure, "working": working })),
        false => working::page(figure, working, &embedded::bibliography()?, &screen.look),
    })
}
