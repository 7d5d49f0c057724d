//! Writing one file safely, a folder to write in, and what the system's refusals mean.

use std::fs::File;
use std::io::{Error, ErrorKind, Write};
use std::path::{Path, PathBuf};

/// Writes a new file and flushes it to the disk.
pub(crate) fn put(path: &Path, bytes: &[u8]) -> Result<(), Error> {
    let mut file = std::fs::OpenOptions::new().write(true).create_new(true).open(path)?;
    file.write_all(bytes)?;
    file.sync_all()
}

/// Flushes a folder's own list of names to the disk, where the system can.
pub(crate) fn settle(folder: &Path) {
    if let Ok(open) = File::open(folder) {
        let _ = open.sync_all();
    }
}

/// A refusal in plain words.
pub(crate) fn words(error: &Error) -> String {
    match error.kind() {
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => "the disk is full".into(),
        ErrorKind::FileTooLarge => "the file is larger than the disk allows".into(),
        ErrorKind::ReadOnlyFilesystem => "the disk is read-only".into(),
        ErrorKind::PermissionDenied => "you have no right to write there".into(),
        _ => error.to_string(),
    }
}

/// A hidden folder that goes away with what is left in it. A file in it is locked as long as the
/// run lives, so that another run can tell it from what a killed one left.
pub(crate) struct Staging {
    path: PathBuf,
    _lock: Option<File>,
}

/// How the names of hidden folders begin.
pub(super) const STAGING: &str = ".heelward-";
/// The file that is locked.
pub(super) const LOCK: &str = "lock";

/// How many names are tried for it.
const NAMES: u32 = 100;

impl Staging {
    /// Makes one in `folder`.
    pub(crate) fn new(folder: &Path) -> Result<Self, Error> {
        let mut last = None;
        for i in 0..NAMES {
            let path = folder.join(format!("{STAGING}{}-{i}", std::process::id()));
            match std::fs::create_dir(&path) {
                Ok(()) => {
                    // Where the system has no locks, a run is not told from a killed one.
                    let lock = File::create(path.join(LOCK)).ok().filter(|l| l.try_lock().is_ok());
                    return Ok(Self { path, _lock: lock });
                }
                Err(e) if e.kind() == ErrorKind::AlreadyExists => last = Some(e),
                Err(e) => return Err(e),
            }
        }
        Err(last.unwrap_or_else(|| ErrorKind::AlreadyExists.into()))
    }

    /// Where it is.
    pub(crate) fn path(&self) -> &Path {
        &self.path
    }
}

impl Drop for Staging {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.path);
    }
}
