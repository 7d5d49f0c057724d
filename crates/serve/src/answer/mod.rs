//! What the page is told: figures of the engine, none made here.

mod file;
mod plan;
mod run;

pub(crate) use file::{Edited, Form, edit, form};
pub(crate) use plan::{Explained, PlanAnswer, Worked, document, explain, plan, plan_of, working};
pub(crate) use run::{FaultAnswer, faults, packed, run};

use ::plan::Program;
use quantity::System;
use schemars::JsonSchema;
use serde::Serialize;
use well::{Job, Place, Severity, read_folder};

use crate::desk::Desk;

/// A job read and planned, with what was said of it.
struct Planned {
    job: Option<Job>,
    program: Option<Program>,
    findings: Vec<well::Finding>,
}

fn planned(desk: &Desk, text: Option<String>) -> Planned {
    let reading = read_folder(&desk.with(text));
    let Some(job) = reading.job else {
        return Planned { job: None, program: None, findings: reading.findings };
    };
    let program = ::plan::plan(&job, reading.findings);
    let findings = program.findings.clone();
    Planned { job: Some(job), program: Some(program), findings }
}

const INCOMPLETE: &str = "the job is not complete; see its findings";

/// A finding as the page shows it.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct FindingAnswer {
    /// Identity of the check.
    id: &'static str,
    /// How much it weighs.
    severity: Severity,
    /// What is so.
    message: String,
    /// What to do next.
    next: String,
    /// Where.
    place: Place,
    /// The value found, with its unit.
    value: Option<String>,
    /// The limit, with its unit.
    limit: Option<String>,
}

fn findings(list: &[well::Finding], system: System) -> Vec<FindingAnswer> {
    let one = |f: &well::Finding| FindingAnswer {
        id: f.id,
        severity: f.severity,
        message: f.message.text(system),
        next: f.next.text(system),
        place: f.place.clone(),
        value: f.value.map(|v| v.text(system)),
        limit: f.limit.map(|v| v.text(system)),
    };
    list.iter().map(one).collect()
}
