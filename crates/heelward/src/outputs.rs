//! The documents of a run, written whole or not at all.
//!
//! Every file is written in full into a folder of its own beside its place and flushed to the
//! disk; only then are all of them moved to their names: a new folder in one step, the documents of
//! an old one by moves that are written down. If anything fails, what was moved is moved back, and
//! where the run was killed the next one moves it back. A list
//! of what was written is kept with the hash of every file, so that the next run replaces its own
//! documents and nothing else.

mod commit;
mod disk;
mod recover;
mod single;

use std::collections::BTreeMap;
use std::path::{Component, Path};

use sha2::{Digest as _, Sha256};

use crate::VERSION;
use crate::fault::Fault;

pub(crate) use disk::{Staging, put, words};
pub(crate) use single::write_file;

/// The list of what was written, beside the documents.
const LIST: &str = "written.json";

/// Why documents could not be written. Nothing new is left behind.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum WriteError {
    /// A document's name is no plain path below the folder.
    #[error("`{0}` is not a name a document can have")]
    Name(String),
    /// The folder above the one to be made does not exist.
    #[error("there is no folder `{0}` to write into")]
    NoParent(String),
    /// The path is a file.
    #[error("`{0}` is a file, not a folder")]
    NotAFolder(String),
    /// The path is a folder, or names nothing.
    #[error("`{0}` is not the name of a file")]
    NotAFile(String),
    /// The folder holds files of these names that this program did not write, or that were changed since.
    #[error("`{folder}` holds files that would be lost: {names}")]
    Occupied {
        /// Folder.
        folder: String,
        /// Their names.
        names: String,
    },
    /// Another run is writing there.
    #[error("another run is writing into `{0}`")]
    Busy(String),
    /// The system refuses.
    #[error("`{path}` cannot be written: {reason}")]
    Refused {
        /// Path.
        path: String,
        /// Why, in plain words.
        reason: String,
    },
}

impl WriteError {
    pub(crate) fn refused(path: &Path, error: &std::io::Error) -> Self {
        WriteError::Refused { path: path.display().to_string(), reason: words(error) }
    }
}

impl From<WriteError> for Fault {
    fn from(error: WriteError) -> Self {
        let next = match &error {
            WriteError::Name(_) => return Fault::Own(error.to_string()),
            WriteError::NoParent(_) => "Make that folder first, or name another.",
            WriteError::NotAFolder(_) => "Name a folder.",
            WriteError::NotAFile(_) => "Name a file.",
            WriteError::Occupied { .. } => "Name another place, or move those files away.",
            WriteError::Busy(_) => "Wait for it to end, or name another folder.",
            WriteError::Refused { .. } => "Nothing was written. Free the place or name another folder.",
        };
        Fault::input_next(error.to_string(), next)
    }
}

/// Documents by name, held in memory until all of them are there.
#[derive(Debug, Clone, Default)]
pub struct Outputs(BTreeMap<String, Vec<u8>>);

impl Outputs {
    /// Adds a document; `name` may hold folders, as in `drawings/well.svg`. A second document
    /// of the same name takes the place of the first.
    pub fn add(&mut self, name: &str, bytes: impl Into<Vec<u8>>) -> Result<(), WriteError> {
        let plain = Path::new(name).components().all(|c| matches!(c, Component::Normal(_)));
        let hidden = name.split('/').any(|part| part.is_empty() || part.starts_with('.'));
        if !plain || hidden || name == LIST || name.contains('\\') {
            return Err(WriteError::Name(name.to_string()));
        }
        self.0.insert(name.to_string(), bytes.into());
        Ok(())
    }

    /// Names and bytes, by name.
    pub fn files(&self) -> impl Iterator<Item = (&str, &[u8])> {
        self.0.iter().map(|(name, bytes)| (name.as_str(), bytes.as_slice()))
    }

    /// Writes all documents into `folder`, making it if it does not exist. Returns how many.
    pub fn write(&self, folder: &Path) -> Result<usize, WriteError> {
        recover::recover(folder)?;
        let before = Written::read(folder)?;
        self.refuse_to_lose(folder, &before)?;
        let mut all = self.0.clone();
        all.insert(LIST.to_string(), Written::of(&self.0).text().into_bytes());
        let gone = before.0.keys().filter(|name| !all.contains_key(*name) && before.holds(folder, name));
        commit::all(folder, &all, &gone.cloned().collect::<Vec<_>>())?;
        Ok(self.0.len())
    }

    fn refuse_to_lose(&self, folder: &Path, before: &Written) -> Result<(), WriteError> {
        let there = |name: &&String| folder.join(name).symlink_metadata().is_ok();
        let lost: Vec<&str> =
            self.0.keys().filter(there).filter(|n| !before.holds(folder, n)).map(String::as_str).collect();
        if lost.is_empty() {
            return Ok(());
        }
        Err(WriteError::Occupied { folder: folder.display().to_string(), names: lost.join(", ") })
    }
}

/// What an earlier run wrote: the hash of every file by its name.
#[derive(Debug, Default)]
struct Written(BTreeMap<String, String>);

impl Written {
    fn of(files: &BTreeMap<String, Vec<u8>>) -> Self {
        Self(files.iter().map(|(name, bytes)| (name.clone(), hash(bytes))).collect())
    }

    /// The list in a folder; empty where there is none. A file of that name that is no such
    /// list is another's.
    fn read(folder: &Path) -> Result<Self, WriteError> {
        let path = folder.join(LIST);
        let bytes = match std::fs::read(&path) {
            Ok(bytes) => bytes,
            Err(e) if e.kind() == std::io::ErrorKind::NotFound => return Ok(Self::default()),
            Err(e) if e.kind() == std::io::ErrorKind::NotADirectory => {
                return Err(WriteError::NotAFolder(folder.display().to_string()));
            }
            Err(e) => return Err(WriteError::refused(&path, &e)),
        };
        let list = serde_json::from_slice::<serde_json::Value>(&bytes).ok();
        let files = list.as_ref().and_then(|l| l.get("files")).cloned();
        let files = files.and_then(|f| serde_json::from_value(f).ok());
        files.map(Self).ok_or_else(|| WriteError::Occupied {
            folder: folder.display().to_string(),
            names: LIST.to_string(),
        })
    }

    /// Whether `folder` still holds the file as it was written.
    fn holds(&self, folder: &Path, name: &str) -> bool {
        let bytes = std::fs::read(folder.join(name));
        self.0.get(name).is_some_and(|h| bytes.is_ok_and(|b| hash(&b) == *h))
    }

    fn text(&self) -> String {
        let list = serde_json::json!({ "program": format!("heelward {VERSION}"), "files": self.0 });
        report::text::json::text(&list)
    }
}

fn hash(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests;
