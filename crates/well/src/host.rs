//! The one door to the outside: files of the job folder, and the seed. Tests and the web page
//! use their own.

use std::path::{Component, Path, PathBuf};

/// Why the host gives no file.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum HostError {
    /// No such file.
    #[error("there is no file `{0}` in the job folder")]
    Absent(String),
    /// The name leads out of the job folder.
    #[error("`{0}` leads out of the job folder; data files stand beside the job file")]
    Outside(String),
    /// Too large to read.
    #[error("`{name}` is {size} bytes; {limit} is the most")]
    TooLarge {
        /// File.
        name: String,
        /// Its size.
        size: u64,
        /// The limit.
        limit: u64,
    },
    /// The system refuses it.
    #[error("`{name}` cannot be read: {reason}")]
    Refused {
        /// File.
        name: String,
        /// The system's words.
        reason: String,
    },
}

/// What the program asks of the outside.
pub trait Host {
    /// The bytes of a file of the job folder.
    fn read(&self, name: &str) -> Result<Vec<u8>, HostError>;
}

/// The largest file that is read.
pub const LARGEST_FILE: u64 = 256 * 1024 * 1024;

/// The largest job file that is read.
pub const LARGEST_JOB_FILE: usize = 2 * 1024 * 1024;

/// A folder on disk.
#[derive(Debug, Clone)]
pub struct Folder(pub PathBuf);

impl Host for Folder {
    fn read(&self, name: &str) -> Result<Vec<u8>, HostError> {
        let relative = Path::new(name);
        if !relative.components().all(|c| matches!(c, Component::Normal(_) | Component::CurDir)) {
            return Err(HostError::Outside(name.to_string()));
        }
        let path = self.0.join(relative);
        let refused = |e: std::io::Error| match e.kind() {
            std::io::ErrorKind::NotFound => HostError::Absent(name.to_string()),
            _ => HostError::Refused { name: name.to_string(), reason: e.to_string() },
        };
        let about = std::fs::metadata(&path).map_err(refused)?;
        if !about.is_file() {
            return Err(HostError::Refused { name: name.to_string(), reason: "it is not a file".into() });
        }
        if about.len() > LARGEST_FILE {
            return Err(HostError::TooLarge {
                name: name.to_string(),
                size: about.len(),
                limit: LARGEST_FILE,
            });
        }
        std::fs::read(&path).map_err(refused)
    }
}

/// Files held in memory.
#[derive(Debug, Clone, Default)]
pub struct Memory(pub std::collections::BTreeMap<String, Vec<u8>>);

impl Host for Memory {
    fn read(&self, name: &str) -> Result<Vec<u8>, HostError> {
        self.0.get(name).cloned().ok_or_else(|| HostError::Absent(name.to_string()))
    }
}
