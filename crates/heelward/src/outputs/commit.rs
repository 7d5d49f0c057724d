//! Moving a set of files into place, all of them or none.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use super::WriteError;
use super::disk::{Staging, put, settle};
use super::recover::{self, Moves};

/// What has been done and can be undone.
enum Done {
    Made(PathBuf),
    Moved { from: PathBuf, to: PathBuf },
}

/// The steps so far; undone in reverse unless they are kept.
#[derive(Default)]
struct Steps(Vec<Done>);

impl Steps {
    fn make(&mut self, folder: &Path) -> Result<(), WriteError> {
        std::fs::create_dir(folder).map_err(|e| WriteError::refused(folder, &e))?;
        self.0.push(Done::Made(folder.to_path_buf()));
        Ok(())
    }

    fn shift(&mut self, from: &Path, to: &Path) -> Result<(), WriteError> {
        std::fs::rename(from, to).map_err(|e| WriteError::refused(to, &e))?;
        self.0.push(Done::Moved { from: from.to_path_buf(), to: to.to_path_buf() });
        Ok(())
    }

    fn keep(mut self) {
        self.0.clear();
    }
}

impl Drop for Steps {
    fn drop(&mut self) {
        for step in self.0.drain(..).rev() {
            let _ = match step {
                Done::Made(folder) => std::fs::remove_dir(folder),
                Done::Moved { from, to } => std::fs::rename(to, from),
            };
        }
    }
}

/// Puts `files` into `folder` and takes the files named in `gone` away.
pub(super) fn all(
    folder: &Path,
    files: &BTreeMap<String, Vec<u8>>,
    gone: &[String],
) -> Result<(), WriteError> {
    if folder.is_dir() {
        return into_place(folder, files, gone);
    }
    if folder.symlink_metadata().is_ok() {
        return Err(WriteError::NotAFolder(folder.display().to_string()));
    }
    as_a_whole(folder, files)
}

/// Makes a folder that is not there yet: filled under another name, then named in one step.
fn as_a_whole(folder: &Path, files: &BTreeMap<String, Vec<u8>>) -> Result<(), WriteError> {
    let parent = match folder.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    if !parent.is_dir() {
        return Err(WriteError::NoParent(parent.display().to_string()));
    }
    let refused = |e: std::io::Error| WriteError::refused(folder, &e);
    recover::sweep(parent);
    let staging = Staging::new(parent).map_err(refused)?;
    let whole = staging.path().join("whole");
    std::fs::create_dir(&whole).map_err(refused)?;
    for (name, bytes) in files {
        if let Some(above) = Path::new(name).parent() {
            std::fs::create_dir_all(whole.join(above)).map_err(refused)?;
        }
        put(&whole.join(name), bytes).map_err(refused)?;
    }
    settle(&whole);
    std::fs::rename(&whole, folder).map_err(refused)?;
    settle(parent);
    Ok(())
}

/// Puts the files into a folder that is there. Every move is written down before the first is
/// made, so that a run that was killed can be taken back by the next one.
fn into_place(folder: &Path, files: &BTreeMap<String, Vec<u8>>, gone: &[String]) -> Result<(), WriteError> {
    let refused = |e| WriteError::refused(folder, &e);
    let staging = Staging::new(folder).map_err(refused)?;
    for (i, (name, bytes)) in files.iter().enumerate() {
        let refused = |e| WriteError::refused(&folder.join(name), &e);
        put(&staging.path().join(format!("new-{i}")), bytes).map_err(refused)?;
    }
    let moves = Moves { placed: files.keys().cloned().collect(), gone: gone.to_vec() };
    moves.write(staging.path()).map_err(refused)?;
    let mut steps = Steps::default();
    for (i, name) in gone.iter().enumerate() {
        steps.shift(&folder.join(name), &staging.path().join(format!("gone-{i}")))?;
    }
    for (i, name) in files.keys().enumerate() {
        let place = folder.join(name);
        make_between(folder, &place, &mut steps)?;
        if place.symlink_metadata().is_ok() {
            steps.shift(&place, &staging.path().join(format!("old-{i}")))?;
        }
        steps.shift(&staging.path().join(format!("new-{i}")), &place)?;
    }
    settle(folder);
    Moves::done(staging.path()).map_err(refused)?;
    steps.keep();
    Ok(())
}

/// Makes the folders between `folder` and the file `place`.
fn make_between(folder: &Path, place: &Path, steps: &mut Steps) -> Result<(), WriteError> {
    let mut missing = Vec::new();
    let mut above = place.parent();
    while let Some(path) = above.filter(|p| *p != folder && !p.is_dir()) {
        missing.push(path);
        above = path.parent();
    }
    missing.iter().rev().try_for_each(|path| steps.make(path))
}
