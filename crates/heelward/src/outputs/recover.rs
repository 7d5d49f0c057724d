//! A run that was killed while it moved its documents into place, taken back by the next one.
//!
//! The moves stand in a list inside the hidden folder of the run. As long as that list is there
//! the documents are not all in place: what was moved is moved back. Without it either nothing was
//! moved or everything was, and the hidden folder only takes room.

use std::fs::{File, TryLockError, rename};
use std::io::Error;
use std::path::{Path, PathBuf};

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

/// A hidden folder of a run.
struct Left {
    path: PathBuf,
    /// The run is still at work.
    busy: bool,
    /// The run moves documents of the folder it stands in.
    moves: Option<Moves>,
}

/// The hidden folders in `folder`, in no order.
fn left(folder: &Path) -> Result<Vec<Left>, Error> {
    let mut found = Vec::new();
    let Ok(entries) = std::fs::read_dir(folder) else { return Ok(found) };
    for entry in entries {
        let entry = entry?;
        if !entry.file_name().to_string_lossy().starts_with(STAGING) || !entry.file_type()?.is_dir() {
            continue;
        }
        let path = entry.path();
        let lock = File::open(path.join(LOCK));
        let busy = lock.is_ok_and(|l| matches!(l.try_lock(), Err(TryLockError::WouldBlock)));
        let moves = std::fs::read(path.join(MOVES)).ok().map(|bytes| {
            // A list that was not written to its end is of a run that moved nothing.
            let (placed, gone) = serde_json::from_slice(&bytes).unwrap_or_default();
            Moves { placed, gone }
        });
        found.push(Left { path, busy, moves });
    }
    Ok(found)
}

/// Takes back what killed runs left half done in `folder`. Refuses while another run is at work
/// there.
pub(super) fn recover(folder: &Path) -> Result<(), WriteError> {
    let refused = |e: Error| WriteError::refused(folder, &e);
    for run in left(folder).map_err(refused)? {
        if run.busy {
            return Err(WriteError::Busy(folder.display().to_string()));
        }
        if let Some(moves) = run.moves {
            moves.undo(folder, &run.path).map_err(refused)?;
        }
        std::fs::remove_dir_all(&run.path).map_err(refused)?;
    }
    Ok(())
}

/// Removes what killed runs left beside a folder they were to make; it moved nothing. What cannot
/// be removed only takes room.
pub(super) fn sweep(parent: &Path) {
    let idle = |run: &Left| !run.busy && run.moves.is_none();
    for run in left(parent).unwrap_or_default().into_iter().filter(idle) {
        let _ = std::fs::remove_dir_all(&run.path);
    }
}
