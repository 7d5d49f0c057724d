//! The job folder on the desk: read with the text of its job file as it is being edited, and saved
//! whole or not at all.

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::sync::Mutex;

use plan::Program;
use quantity::System;
use sha2::{Digest as _, Sha256};
use well::job::JOB_FILE;
use well::{Folder, Host, HostError, Job};

use crate::guard::Token;

/// What the server needs of the program round it.
pub trait Printer: Send + Sync {
    /// The printed documents of a plan: names and bytes, or what is wrong.
    fn documents(&self, job: &Job, program: &Program) -> Result<Vec<(String, Vec<u8>)>, String>;

    /// The workings of a figure as text; none where the plan has no such figure.
    fn working(&self, program: &Program, figure: &str, system: System) -> Option<String>;
}

/// A job folder with what the server needs beside it.
pub struct Desk {
    folder: PathBuf,
    pub(crate) printer: Box<dyn Printer>,
    pub(crate) token: Option<Token>,
    /// Held while the job file is written.
    writing: Mutex<()>,
}

/// Why a job file was not saved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Unsaved {
    /// It was changed since it was read: its hash now.
    Changed(String),
    /// It could not be written.
    Refused(String),
}

impl Desk {
    /// A desk for a job folder; with a token it may be shared.
    pub fn new(folder: &Path, printer: Box<dyn Printer>, token: Option<Token>) -> Self {
        Self { folder: folder.into(), printer, token, writing: Mutex::new(()) }
    }

    /// The job file as it stands, and its hash.
    pub(crate) fn text(&self) -> Result<(String, String), String> {
        let bytes = self.with(None).read(JOB_FILE).map_err(|e| e.to_string())?;
        let text = String::from_utf8(bytes).map_err(|_| "the job file is not UTF-8 text".to_string())?;
        let hash = hash(&text);
        Ok((text, hash))
    }

    /// A text, or the job file as it stands.
    pub(crate) fn text_or(&self, text: Option<String>) -> Result<String, String> {
        text.map_or_else(|| self.text().map(|t| t.0), Ok)
    }

    /// The folder as it would be with another job file.
    pub(crate) fn with(&self, text: Option<String>) -> Overlay {
        Overlay { folder: Folder(self.folder.clone()), text: text.map(String::into_bytes) }
    }

    /// Saves the job file if it still is what it was when it was read.
    ///
    /// The new text is written beside it, made durable and renamed over it: a stop at any moment leaves
    /// the old file or the new one.
    pub(crate) fn save(&self, text: &str, base: &str) -> Result<String, Unsaved> {
        // A holder that panicked wrote nothing half: the lock guards order only.
        let _held = self.writing.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        let (_, now) = self.text().map_err(Unsaved::Refused)?;
        if now != base {
            return Err(Unsaved::Changed(now));
        }
        let beside = self.folder.join(format!(".{JOB_FILE}.new"));
        let write = || -> std::io::Result<()> {
            // What an attempt that was cut off has left is made anew, and no link is followed.
            match std::fs::remove_file(&beside) {
                Err(e) if e.kind() != std::io::ErrorKind::NotFound => return Err(e),
                _ => {}
            }
            let mut file = std::fs::OpenOptions::new().write(true).create_new(true).open(&beside)?;
            file.write_all(text.as_bytes())?;
            file.sync_all()?;
            std::fs::rename(&beside, self.folder.join(JOB_FILE))
        };
        if let Err(e) = write() {
            // What is left of the attempt is no job file; that it cannot be removed changes nothing.
            let _ = std::fs::remove_file(&beside);
            return Err(Unsaved::Refused(e.to_string()));
        }
        Ok(hash(text))
    }
}

/// A job folder whose job file has another text.
pub(crate) struct Overlay {
    folder: Folder,
    text: Option<Vec<u8>>,
}

impl Overlay {
    /// Whether a name is a link that leads out of the job folder: whoever sees the page may have been given
    /// the job, not the machine.
    fn leads_out(&self, name: &str) -> bool {
        let root = std::fs::canonicalize(&self.folder.0);
        let file = std::fs::canonicalize(self.folder.0.join(name));
        root.ok().zip(file.ok()).is_some_and(|(root, file)| !file.starts_with(root))
    }
}

impl Host for Overlay {
    fn read(&self, name: &str) -> Result<Vec<u8>, HostError> {
        match (&self.text, name == JOB_FILE) {
            (Some(text), true) => Ok(text.clone()),
            _ if self.leads_out(name) => Err(HostError::Outside(name.to_string())),
            _ => self.folder.read(name),
        }
    }
}

fn hash(text: &str) -> String {
    Sha256::digest(text.as_bytes()).iter().map(|b| format!("{b:02x}")).collect()
}
