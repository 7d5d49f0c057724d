//! The job file: one TOML table a subject, each in its own module, read into typed records.

mod balls;
mod checks;
mod completion;
mod ground;
mod judge;
mod packer;
mod pumping;
mod root;
mod setting;
mod simulated;
mod strings;

pub use balls::*;
pub use completion::*;
pub use ground::*;
pub use packer::*;
pub use pumping::*;
pub use root::*;
pub use setting::*;
pub use simulated::*;
pub use strings::*;

pub use checks::CHECKS;
pub use judge::judge;

use crate::finding::Read;
use crate::record::{Context, Document};

/// The job file's name in a job folder.
pub const JOB_FILE: &str = "job.toml";

/// Reads the text of a job file: the record, if it is complete, the document with its lines and
/// assumptions, and all findings.
pub fn read_job_file(text: &str) -> (Read<JobFile>, Document) {
    let mut cx = Context::new(JOB_FILE, text);
    let root = cx.parse(text);
    let value = JobFile::read_table(root.get_ref(), root.span(), &mut cx);
    let (mut document, findings) = cx.finish();
    if let Some(job) = &value {
        document.assumptions.retain(|a| applies(job, &a.field));
    }
    (Read { value, findings }, document)
}

/// Whether an assumption has any effect in this job.
fn applies(job: &JobFile, field: &str) -> bool {
    let method = job.ladder.method;
    match field {
        "ball.weak_plane" => job.ball.structure == BallStructure::Laminate,
        "ladder.least_interference" => method == LadderMethod::Search,
        "ladder.increment" => matches!(method, LadderMethod::Search | LadderMethod::EqualStress),
        _ => true,
    }
}
