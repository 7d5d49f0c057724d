//! The input of a job: where its folder is, what its file says, and the hash of every file read.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use sha2::{Digest as _, Sha256};
use well::job::{JOB_FILE, JobFile, judge, read_job_file};
use well::record::Assumption;
use well::{Finding, Folder, Host, HostError, Severity};

use crate::fault::Fault;

/// A host that notes the hash of every file it hands out.
pub(crate) struct Recorder<H> {
    inner: H,
    read: Mutex<BTreeMap<String, [u8; 32]>>,
}

impl<H: Host> Recorder<H> {
    pub(crate) fn new(inner: H) -> Self {
        Self { inner, read: Mutex::default() }
    }

    /// SHA-256 over the names and hashes of all files read, in the order of their names.
    pub(crate) fn hash(&self) -> String {
        let mut all = Sha256::new();
        for (name, digest) in self.read.lock().unwrap_or_else(PoisonError::into_inner).iter() {
            all.update(u64::try_from(name.len()).unwrap_or(u64::MAX).to_le_bytes());
            all.update(name.as_bytes());
            all.update(digest);
        }
        all.finalize().iter().map(|byte| format!("{byte:02x}")).collect()
    }
}

impl<H: Host> Host for Recorder<H> {
    fn read(&self, name: &str) -> Result<Vec<u8>, HostError> {
        let bytes = self.inner.read(name)?;
        let digest = Sha256::digest(&bytes).into();
        self.read.lock().unwrap_or_else(PoisonError::into_inner).insert(name.to_string(), digest);
        Ok(bytes)
    }
}

/// The input of a job as far as it could be read.
pub(crate) struct Input {
    /// The job file, if it is complete.
    pub(crate) job: Option<JobFile>,
    /// Assumptions taken where it gives no figure.
    pub(crate) assumptions: Vec<Assumption>,
    /// Everything there is to say of it.
    pub(crate) findings: Vec<Finding>,
    /// Hash of every file read.
    pub(crate) hash: String,
}

impl Input {
    /// Whether a finding stops the job.
    pub(crate) fn stopped(&self) -> bool {
        self.job.is_none() || self.findings.iter().any(|f| f.severity == Severity::Stop)
    }
}

/// The folder of a job that was named by its folder or its job file.
pub(crate) fn folder(job: &Path) -> Result<PathBuf, Fault> {
    let named = job.display();
    if job.is_dir() {
        return match job.join(JOB_FILE).is_file() {
            true => Ok(job.to_path_buf()),
            false => Err(Fault::input_next(
                format!("`{named}` holds no {JOB_FILE}"),
                "Name the folder of a job, or write an example with `heelward new DIR`.",
            )),
        };
    }
    match (job.file_name().is_some_and(|n| n == JOB_FILE), job.is_file()) {
        (true, true) => {
            Ok(job.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new(".")).into())
        }
        (false, true) => Err(Fault::input_next(
            format!("`{named}` is not a {JOB_FILE}"),
            format!("A job is one folder with a {JOB_FILE} in it."),
        )),
        _ => Err(Fault::input_next(
            format!("there is no `{named}`"),
            "Name the folder of a job, or write an example with `heelward new DIR`.",
        )),
    }
}

/// Reads a job and judges its input.
pub(crate) fn read(job: &Path) -> Result<Input, Fault> {
    let host = Recorder::new(Folder(folder(job)?));
    let bytes = host.read(JOB_FILE).map_err(|e| Fault::input(e.to_string()))?;
    let text = String::from_utf8(bytes).map_err(|e| {
        let at = e.utf8_error().valid_up_to();
        let line = e.as_bytes().iter().take(at).filter(|b| **b == b'\n').count() + 1;
        Fault::input_next(format!("{JOB_FILE}:{line} is not UTF-8 text"), "Save the file as UTF-8.")
    })?;
    let (read, document) = read_job_file(text.trim_start_matches('\u{feff}'));
    let mut findings = read.findings;
    if let Some(job) = &read.value {
        findings.extend(judge(job).into_iter().map(|f| document.locate(f)));
    }
    Ok(Input { job: read.value, assumptions: document.assumptions, findings, hash: host.hash() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use well::host::Memory;

    fn hash(files: &[(&str, &str)], order: &[&str]) -> String {
        let files = files.iter().map(|(n, t)| ((*n).to_string(), t.as_bytes().to_vec())).collect();
        let host = Recorder::new(Memory(files));
        for name in order {
            host.read(name).unwrap();
        }
        host.hash()
    }

    #[test]
    fn the_hash_is_of_names_and_bytes_and_not_of_the_order() {
        let files = [("job.toml", "a"), ("survey.csv", "b")];
        let both = hash(&files, &["job.toml", "survey.csv"]);
        assert_eq!(both, hash(&files, &["survey.csv", "job.toml", "job.toml"]));
        assert_ne!(both, hash(&files, &["job.toml"]));
        assert_ne!(both, hash(&[("job.toml", "a"), ("survey.csv", "c")], &["job.toml", "survey.csv"]));
        assert_eq!(both.len(), 64);
    }
}
