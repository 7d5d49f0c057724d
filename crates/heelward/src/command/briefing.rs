//! `briefing`: one HTML file that plays the planned job without the program.

use ::serve::briefing::{BriefingError, MARK, briefing};
use well::Severity;

use super::Outcome;
use super::plan::unread;
use crate::cli::Briefing;
use crate::fault::{Ended, Fault};
use crate::input;
use crate::outputs::write_file;
use crate::screen::Screen;

pub(crate) fn run(args: &Briefing, screen: &mut Screen) -> Outcome {
    let input = input::read(&args.job)?;
    let Some(job) = input.job else {
        screen.data(&unread(&input.findings, false, &screen.look))?;
        return Ok(Ended::Stopped);
    };
    let planned = plan::plan(&job, input.findings);
    let bytes = briefing(&job, &planned).map_err(refused)?;
    let ours = |there: &[u8]| there.starts_with(MARK.as_bytes());
    write_file(&args.out, &bytes, ours)?;
    let stops = planned.count(Severity::Stop);
    if stops > 0 {
        screen.talk(&format!("{stops} findings stop this job; the briefing says so at its head."));
    }
    screen.talk(&format!("The briefing is written to {}. Any browser opens it.", args.out.display()));
    Ok(if planned.stopped() { Ended::Stopped } else { Ended::Done })
}

fn refused(error: BriefingError) -> Fault {
    match error {
        BriefingError::NoPage => Fault::input_next(
            error.to_string(),
            "Install Node 20 with npm and build the program again. Nothing was written.",
        ),
        BriefingError::Unwritten(_) => Fault::Own(error.to_string()),
    }
}
