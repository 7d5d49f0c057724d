//! `new`: an example job to start from.

use std::path::Path;

use well::job::{JOB_FILE, SystemKind, read_job_file};

use super::Outcome;
use crate::cli::New;
use crate::embedded::{self, Example};
use crate::fault::{Ended, Fault};
use crate::outputs::{Staging, WriteError, put};
use crate::screen::Screen;

pub(crate) fn run(args: &New, screen: &mut Screen) -> Outcome {
    let example = example(args.system.into())?;
    write(&example, &args.folder)?;
    let folder = args.folder.display();
    let names: Vec<&str> = example.files.iter().map(|(name, _)| *name).collect();
    screen.data(&format!("{folder}: {}\n", names.join(", ")))?;
    screen.talk(&format!(
        "This is the example `{}`; its data are invented. Put your well's own in, then run:",
        example.name
    ));
    screen.talk(&format!("heelward check {folder}"));
    Ok(Ended::Done)
}

/// The first example whose job file has that kind of system.
fn example(kind: SystemKind) -> Result<Example, Fault> {
    let of_kind = |example: &Example| {
        let bytes = example.files.iter().find(|(name, _)| *name == JOB_FILE).map(|(_, bytes)| *bytes);
        let text = bytes.and_then(|b| std::str::from_utf8(b).ok()).unwrap_or("");
        read_job_file(text).0.value.is_some_and(|job| job.system.kind == kind)
    };
    let none = || Fault::Own(format!("no example of a {} system is built in", kind.word()));
    embedded::examples().into_iter().find(of_kind).ok_or_else(none)
}

/// Writes all files of an example into a new or empty folder, or none.
fn write(example: &Example, folder: &Path) -> Result<(), Fault> {
    let refused = |e: std::io::Error| WriteError::refused(folder, &e);
    if folder.symlink_metadata().is_ok() {
        if !folder.is_dir() {
            return Err(WriteError::NotAFolder(folder.display().to_string()).into());
        }
        if std::fs::read_dir(folder).map_err(refused)?.next().is_some() {
            let what = format!("`{}` is not empty", folder.display());
            return Err(Fault::input_next(what, "Name a folder that does not exist yet."));
        }
    }
    let parent = match folder.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    if !parent.is_dir() {
        return Err(WriteError::NoParent(parent.display().to_string()).into());
    }
    let staging = Staging::new(parent).map_err(refused)?;
    let whole = staging.path().join("job");
    std::fs::create_dir(&whole).map_err(refused)?;
    for (name, bytes) in &example.files {
        if let Some(above) = Path::new(name).parent() {
            std::fs::create_dir_all(whole.join(above)).map_err(refused)?;
        }
        put(&whole.join(name), bytes).map_err(refused)?;
    }
    take_place(&whole, folder).map_err(refused)?;
    Ok(())
}

/// Moves the finished folder to its name; an empty folder of that name gives way.
fn take_place(whole: &Path, folder: &Path) -> std::io::Result<()> {
    if folder.is_dir() && !folder.is_symlink() {
        std::fs::remove_dir(folder)?;
    }
    std::fs::rename(whole, folder)
}
