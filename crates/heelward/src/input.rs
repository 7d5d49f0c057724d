//! The input of a job: where its folder is, and the job as far as it could be read.

use std::path::{Path, PathBuf};

use quantity::System;
use well::assemble::stops;
use well::job::JOB_FILE;
use well::record::Assumption;
use well::{Finding, Folder, Job, read_folder};

use crate::fault::Fault;

/// The input of a job as far as it could be read.
pub(crate) struct Input {
    /// The job, if it is complete.
    pub(crate) job: Option<Job>,
    /// Assumptions taken where the job file gives no figure.
    pub(crate) assumptions: Vec<Assumption>,
    /// Everything there is to say of it.
    pub(crate) findings: Vec<Finding>,
    /// Hash of every file that was read.
    pub(crate) hash: String,
}

impl Input {
    /// Keeps its words as they read in a system of units.
    pub(crate) fn settle(&mut self, system: System) {
        self.findings.iter_mut().for_each(|f| f.settle(system));
        self.assumptions.iter_mut().for_each(|a| a.settle(system));
    }

    /// Whether a finding stops the job.
    pub(crate) fn stopped(&self) -> bool {
        self.job.is_none() || stops(&self.findings)
    }
}

/// Reads a job that was named by its folder or its job file, and judges its input.
pub(crate) fn read(job: &Path) -> Result<Input, Fault> {
    let reading = read_folder(&Folder(folder(job)?));
    Ok(Input {
        job: reading.job,
        assumptions: reading.document.assumptions,
        findings: reading.findings,
        hash: reading.input_hash,
    })
}

/// The folder of a job that was named by its folder or its job file.
pub(crate) fn folder(job: &Path) -> Result<PathBuf, Fault> {
    let named = job.display();
    let no_job = |what: String| {
        Fault::input_next(what, "Name the folder of a job, or write an example with `heelward new DIR`.")
    };
    if job.is_dir() {
        return match job.join(JOB_FILE).is_file() {
            true => Ok(job.to_path_buf()),
            false => Err(no_job(format!("`{named}` holds no {JOB_FILE}"))),
        };
    }
    match (job.file_name().is_some_and(|n| n == JOB_FILE), job.is_file()) {
        (true, true) => {
            Ok(job.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new(".")).into())
        }
        (false, true) => {
            Err(no_job(format!("`{named}` is not a {JOB_FILE}; a job is one folder with one in it")))
        }
        _ => Err(no_job(format!("there is no `{named}`"))),
    }
}
