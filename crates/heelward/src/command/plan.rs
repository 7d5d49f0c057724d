//! `plan`: from the input to the documents.

use plan::Ledger;
use report::Look;
use report::terminal::{assumption, caution, finding};
use report::text::json;
use well::record::Assumption;

use super::Outcome;
use crate::cli::Plan;
use crate::fault::Ended;
use crate::input::{self, Input};
use crate::outputs::Outputs;
use crate::screen::Screen;
use crate::{VERSION, fault::Fault};

pub(crate) fn run(args: &Plan, screen: &mut Screen) -> Outcome {
    let input = input::read(&args.job)?;
    let (assumptions, hash) = (input.assumptions.clone(), input.hash.clone());
    let ledger = ledger(input);
    let json = json::text(&json::findings(&ledger.findings, VERSION));
    let text =
        summary(&ledger, &assumptions, &screen.look) + &format!("\nheelward {VERSION}, input {hash}\n");
    if let Some(folder) = &args.out {
        let plain = Look { system: screen.look.system, ..Look::default() };
        let mut outputs = Outputs::default();
        outputs.add("findings.json", json.clone())?;
        outputs.add("findings.txt", summary(&ledger, &assumptions, &plain))?;
        let written = outputs.write(folder).map_err(Fault::from)?;
        screen.talk(&format!("{written} files written to {}", folder.display()));
    }
    screen.data(if args.json { &json } else { &text })?;
    Ok(if ledger.stopped() { Ended::Stopped } else { Ended::Done })
}

/// The ledger of a job: what reading it found, then every phase.
pub(super) fn ledger(input: Input) -> Ledger {
    let mut ledger = Ledger::default();
    input.findings.into_iter().for_each(|f| ledger.say(f));
    ledger
}

fn summary(ledger: &Ledger, assumptions: &[Assumption], look: &Look) -> String {
    let parts =
        [finding::page(&ledger.findings, look), assumption::page(assumptions, look), caution::page(look)];
    parts.into_iter().filter(|p| !p.is_empty()).collect::<Vec<_>>().join("\n")
}
