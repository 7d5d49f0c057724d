//! The documents of a plan, by name.

use plan::Program;
use quantity::System;
use report::Look;
use report::sheets::{ball_card_csv, pressure_sheet_csv, tally_csv};
use report::terminal::{assumption, caution, finding};
use well::Job;

use crate::command::{sections, stamp};
use crate::fault::Fault;
use crate::outputs::Outputs;

/// All documents of a plan: the program as JSON and as PDF, the crew's sheets, the findings.
pub(crate) fn all(job: &Job, planned: &Program, json: String, system: System) -> Result<Outputs, Fault> {
    let mut out = Outputs::default();
    let header = &planned.header;
    out.add("program.json", json)?;
    if let Some(layout) = &planned.layout {
        out.add("tally.csv", tally_csv(layout, header, system))?;
    }
    if let Some(balls) = &planned.balls {
        let setting = planned.ladder.as_ref().and_then(|l| l.setting_ball.as_ref());
        let sheet = ball_card_csv(balls, setting, header, job.file.limits.trip, system);
        out.add("ball-card.csv", sheet)?;
    }
    if let Some(setting) = &planned.setting {
        out.add("pressure-sheet.csv", pressure_sheet_csv(setting, header, system))?;
    }
    out.add("findings.txt", in_full(planned, system))?;
    #[cfg(feature = "pdf")]
    out.add("program.pdf", pdf(job, planned, system)?)?;
    Ok(out)
}

/// All findings, assumptions and cautions in full.
fn in_full(planned: &Program, system: System) -> String {
    let look = Look { system, ..Look::default() };
    sections(&[
        finding::page(&planned.findings, &look),
        assumption::page(&planned.assumptions, &look),
        caution::page(&look),
        stamp(planned),
    ])
}

#[cfg(feature = "pdf")]
fn pdf(job: &Job, program: &Program, system: System) -> Result<Vec<u8>, Fault> {
    let sources = crate::embedded::bibliography()?;
    let subject = report::document::Subject { job, program, sources: &sources, system };
    let document = report::document::manuscript(&subject);
    print::program_pdf(&document).map_err(|e| Fault::Own(e.to_string()))
}
