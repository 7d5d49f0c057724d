//! The job folder: the job file and what it describes, with readers for the data files beside
//! it. Reading never stops at the first fault: it returns what there is and all findings.

pub mod assemble;
pub mod finding;
pub mod form;
pub mod hole;
pub mod host;
pub mod job;
pub mod las;
pub mod record;
pub mod table;
pub mod tally;
pub mod trajectory;
pub mod tubular;

pub use assemble::{Job, PipeString, Reading, read_folder, read_job};
pub use finding::{Check, Finding, Place, Read, Severity};
pub use host::{Folder, Host, HostError, Memory};
