//! Layout and tally: where every packer and sleeve stands.

mod build;
mod checks;
mod ground;
mod judge;
mod place;
pub mod problem;
mod result;
pub mod score;
pub mod search;
mod space_out;

use quantity::*;
use well::Job;

pub use checks::CHECKS;
pub use result::*;

use crate::Ledger;
use ground::JobGround;
use search::{Search, Stuck};

/// Chooses a connection for every packer and sleeve, and spaces the liner out. None when a hard
/// limit leaves no place, with a finding that says which stage and why.
pub fn lay_out(job: &Job, ledger: &mut Ledger) -> Option<Layout> {
    let problem = build::problem(job, ledger);
    judge::before(job, &problem, ledger)?;
    let ground = JobGround::new(job);
    let found = match Search::new(&problem, &ground).run() {
        Ok(found) => found,
        Err(stuck) => {
            ledger.say(no_place(&stuck));
            return None;
        }
    };
    let end = match space_out::space_out(job, &problem, &found.choices) {
        Ok(end) => end,
        Err(missing) => {
            let message = said!("the rack is {} short of the casing packer", missing);
            ledger.say(checks::JOINTS_SHORT.found(message).field("tally").value(missing));
            return None;
        }
    };
    let tally = place::tally(job, &found.choices, &end);
    let stages = place::places(job, &problem, &tally);
    let layout = Layout {
        target: Length::m(problem.target),
        shoe: build::shoe(job),
        toe_tool: build::shoe(job) - build::toe_length(job),
        casing_packer_top: tally.last().map_or(MeasuredDepth::ZERO, |r| r.top),
        casing_packer_planned: job.file.casing_packer.depth,
        reconciliation: place::reconcile(job, &tally),
        penalty: Ratio::of(found.penalty),
        stages,
        tally,
    };
    judge::after(job, &problem, &layout, end.off, ledger);
    Some(layout)
}

/// What can be said of a layout before any search: pins, and whether survey, pipe and tools reach.
pub fn premises(job: &Job) -> Vec<well::Finding> {
    let mut ledger = Ledger::default();
    let problem = build::problem(job, &mut ledger);
    let _ = judge::before(job, &problem, &mut ledger);
    ledger.findings.into_iter().map(|f| job.document.locate(f)).collect()
}

fn no_place(stuck: &Stuck) -> well::Finding {
    let reasons = match stuck.looked {
        0 => "no connection of the tally falls into its reach".to_string(),
        n => {
            let list = stuck.reasons.iter().map(|(r, c)| format!("{c} {}", r.words())).collect::<Vec<_>>();
            let list = if list.is_empty() { "no sleeve fits before it".to_string() } else { list.join(", ") };
            format!("of {n} connections in its reach: {list}")
        }
    };
    let (from, to) = (MeasuredDepth::m(stuck.window.0), MeasuredDepth::m(stuck.window.1));
    let window = said!("between {from} and {to}");
    let message = said!("the packer of stage {} has no place {window}; {reasons}", stuck.stage);
    checks::NO_PLACE.found(message).stage(stuck.stage).depth(to)
}
