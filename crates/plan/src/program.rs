//! The whole program of a job, as written to `program.json`.

use std::collections::BTreeMap;

use well::record::Assumption;
use well::{Finding, Severity};

use crate::Working;
use crate::layout::Layout;

/// What the program document says of itself.
#[derive(Debug, Clone, serde::Serialize, schemars::JsonSchema)]
pub struct Header {
    /// Version of the program that wrote it.
    pub version: String,
    /// Hash (SHA-256) of every input file, so that a document can be matched to its inputs.
    pub input_hash: String,
    /// Seed of all random numbers.
    pub seed: u64,
    /// Name of the job.
    pub job: String,
    /// Name of the well.
    pub well: String,
    /// Revision of the job file.
    pub revision: String,
    /// Role of whoever prepared it.
    pub prepared_by: String,
    /// Whether the data are invented.
    pub invented: bool,
    /// Note of the job file.
    pub note: String,
    /// Kind of system.
    pub system: String,
    /// What depths are measured from.
    pub datum: String,
    /// What azimuths are measured from.
    pub north: String,
}
