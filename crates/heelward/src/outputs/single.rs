//! One document by itself, written whole or not at all.

use std::path::Path;

use super::WriteError;
use super::disk::{Staging, put, settle};

/// Writes a file: in full beside its place and flushed to the disk, then moved to its name. A file that is
/// there already is replaced only where `ours` knows it as written by this program.
///
/// # Errors
/// Where the folder is not there, the file is another's, or the system refuses. Nothing is changed then.
pub(crate) fn write_file(path: &Path, bytes: &[u8], ours: impl Fn(&[u8]) -> bool) -> Result<(), WriteError> {
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let shown = folder.display().to_string();
    let name = path.file_name().ok_or_else(|| WriteError::NotAFile(path.display().to_string()))?;
    if !folder.is_dir() {
        return Err(WriteError::NoParent(shown));
    }
    if path.is_dir() {
        return Err(WriteError::NotAFile(path.display().to_string()));
    }
    if path.symlink_metadata().is_ok() && !std::fs::read(path).is_ok_and(|there| ours(&there)) {
        let names = name.to_string_lossy().into_owned();
        return Err(WriteError::Occupied { folder: shown, names });
    }
    let refused = |e: std::io::Error| WriteError::refused(path, &e);
    let staging = Staging::new(folder).map_err(refused)?;
    let beside = staging.path().join(name);
    put(&beside, bytes).map_err(refused)?;
    std::fs::rename(&beside, path).map_err(refused)?;
    settle(folder);
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_of_another_is_not_lost_and_our_own_is_replaced() {
        let folder = std::env::temp_dir().join(format!("heelward-single-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        let path = folder.join("one.html");
        let ours = |b: &[u8]| b.starts_with(b"ours");
        write_file(&path, b"ours 1", ours).unwrap();
        write_file(&path, b"ours 2", ours).unwrap();
        assert_eq!(std::fs::read(&path).unwrap(), b"ours 2");
        std::fs::write(&path, "theirs").unwrap();
        assert!(matches!(write_file(&path, b"ours 3", ours), Err(WriteError::Occupied { .. })));
        assert_eq!(std::fs::read(&path).unwrap(), b"theirs");
        assert!(matches!(write_file(&folder, b"ours", ours), Err(WriteError::NotAFile(_))));
        let lost = folder.join("no/one.html");
        assert!(matches!(write_file(&lost, b"ours", ours), Err(WriteError::NoParent(_))));
        assert_eq!(std::fs::read_dir(&folder).unwrap().count(), 1);
        std::fs::remove_dir_all(&folder).unwrap();
    }
}
