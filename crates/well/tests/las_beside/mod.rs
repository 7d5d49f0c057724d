//! The folder of real logs beside the project, which not everyone has.

use std::path::PathBuf;

/// A file of it, or nothing with the reason printed.
pub fn file(name: &str) -> Option<Vec<u8>> {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../../shared/data/las").join(name);
    let bytes = std::fs::read(&path);
    if let Err(error) = &bytes {
        eprintln!("not run: {} is not here ({error})", path.display());
    }
    bytes.ok()
}
