//! `explain`: the page of a check, or all checks.

use report::terminal::explain;
use report::text::json;

use super::Outcome;
use crate::VERSION;
use crate::cli::Explain;
use crate::fault::{Ended, Fault};
use crate::screen::Screen;

pub(crate) fn run(args: &Explain, screen: &mut Screen) -> Outcome {
    let text = match (&args.check, args.json) {
        (Some(id), as_json) => {
            let check = find(id)?;
            match as_json {
                true => json::text(&json::checks([check].into_iter(), VERSION)),
                false => explain::page(check, &screen.look),
            }
        }
        (None, true) => json::text(&json::checks(::pump::checks::all(), VERSION)),
        (None, false) => explain::list(::pump::checks::all(), &screen.look),
    };
    screen.data(&text)?;
    Ok(Ended::Done)
}

fn find(id: &str) -> Result<&'static well::Check, Fault> {
    ::pump::checks::all().find(|c| c.id == id).ok_or_else(|| {
        let near = physics::registry::nearest(id, ::pump::checks::all().map(|c| c.id));
        let near = near.map(|n| format!(" (nearest: `{n}`)")).unwrap_or_default();
        let what = format!("no check is called `{id}`{near}");
        Fault::input_next(what, "`heelward explain --list` names them all.")
    })
}
