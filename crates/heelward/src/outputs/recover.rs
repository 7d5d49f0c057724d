//! A run that was killed while it moved its documents into place, taken back by the next one.
//!
//! The moves stand in a list inside the hidden folder of the run. As long as that list is there
//! the documents are not all in place: what was moved is moved back. Without it either nothing was
//! moved or everything was, and the hidden folder only takes room.

use std::fs::{File, TryLockError, rename};
use std::io::Error;
use std::path::Path;

use super::WriteError;
use super::disk::{LOCK, STAGING, put, settle};

/// File that holds the list.
const MOVES: &str = "moves.json";

/// What a run moves, by name; the place in the list numbers the files of its hidden folder.
#[derive(Debug, Default)]
pub(super) struct Moves {
    /// Documents put in place.
    pub placed: Vec<String>,
    /// Documents taken away.
    pub gone: Vec<String>,
}

impl Moves {
    /// Writes the list down, before the first move.
    pub(super) fn write(&self, staging: &Path) -> Result<(), Error> {
        put(&staging.join(MOVES), &serde_json::to_vec(&(&self.placed, &self.gone))?)?;
        settle(staging);
        Ok(())
    }

    /// All moves are made: from here on the new documents stand.
    pub(super) fn done(staging: &Path) -> Result<(), Error> {
        std::fs::remove_file(staging.join(MOVES))
    }

    /// Moves back what was moved. Can be repeated from any point at which it was broken off.
    fn undo(&self, folder: &Path, staging: &Path) -> Result<(), Error> {
        for (i, name) in self.placed.iter().enumerate() {
            let (new, old) = (staging.join(format!("new-{i}")), staging.join(format!("old-{i}")));
            let place = folder.join(name);
            if !new.exists() && place.exists() {
                rename(&place, &new)?;
            }
            if old.exists() {
                rename(&old, &place)?;
            }
        }
        for (i, name) in self.gone.iter().enumerate() {
            let gone = staging.join(format!("gone-{i}"));
            if gone.exists() {
                rename(&gone, folder.join(name))?;
            }
        }
        settle(folder);
        Ok(())
    }
}

/// Takes back what killed runs left half done in `folder`. Refuses while another run is at work
/// there.
pub(super) fn recover(folder: &Path) -> Result<(), WriteError> {
    let refused = |e: Error| WriteError::refused(folder, &e);
    let Ok(entries) = std::fs::read_dir(folder) else { return Ok(()) };
    for entry in entries {
        let entry = entry.map_err(refused)?;
        let staging = entry.path();
        let ours = entry.file_name().to_string_lossy().starts_with(STAGING);
        if !ours || !entry.file_type().map_err(refused)?.is_dir() {
            continue;
        }
        let lock = File::open(staging.join(LOCK));
        if lock.as_ref().is_ok_and(|l| matches!(l.try_lock(), Err(TryLockError::WouldBlock))) {
            return Err(WriteError::Busy(folder.display().to_string()));
        }
        if let Ok(bytes) = std::fs::read(staging.join(MOVES)) {
            // A list that was not written to its end is of a run that moved nothing.
            let (placed, gone) = serde_json::from_slice(&bytes).unwrap_or_default();
            Moves { placed, gone }.undo(folder, &staging).map_err(refused)?;
        }
        std::fs::remove_dir_all(&staging).map_err(refused)?;
    }
    Ok(())
}
