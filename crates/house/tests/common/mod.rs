//! Walking the repository.
#![allow(dead_code, reason = "each test file uses its own part")]

use std::path::{Path, PathBuf};

/// Root of the repository.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// Text of a file, by its path from the root.
pub fn read(path: &str) -> String {
    std::fs::read_to_string(root().join(path)).unwrap_or_else(|e| panic!("{path}: {e}"))
}

/// Names of the crates.
pub fn crates() -> Vec<String> {
    let mut out: Vec<String> = std::fs::read_dir(root().join("crates"))
        .unwrap()
        .map(|e| e.unwrap().path())
        .filter(|p| p.join("Cargo.toml").is_file())
        .map(|p| p.file_name().unwrap().to_string_lossy().into_owned())
        .collect();
    out.sort();
    out
}

/// Folders that hold nothing written by hand.
const SKIPPED: &[&str] =
    &["target", ".git", "node_modules", "dist", "out", ".venv", "__pycache__", "snapshots"];

/// Every file below a folder, in the order of their names.
pub fn files(folder: &Path) -> Vec<PathBuf> {
    let mut out = Vec::new();
    let Ok(entries) = std::fs::read_dir(folder) else { return out };
    let mut inside: Vec<PathBuf> = entries.map(|e| e.unwrap().path()).collect();
    inside.sort();
    for path in inside {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if path.is_dir() {
            if !SKIPPED.contains(&name.as_str()) {
                out.extend(files(&path));
            }
        } else {
            out.push(path);
        }
    }
    out
}

/// Every file below a folder with one of these extensions.
pub fn with_extension(folder: &Path, extensions: &[&str]) -> Vec<PathBuf> {
    let wanted =
        |p: &PathBuf| p.extension().and_then(|e| e.to_str()).is_some_and(|e| extensions.contains(&e));
    files(folder).into_iter().filter(wanted).collect()
}

/// Every Rust file below a folder.
pub fn sources(folder: &Path) -> Vec<PathBuf> {
    with_extension(folder, &["rs"])
}

/// Whether a file holds tests or examples only.
pub fn for_tests(path: &Path) -> bool {
    let name = path.file_name().and_then(|n| n.to_str()).unwrap_or_default();
    let folder = path.iter().any(|part| part == "tests" || part == "examples" || part == "benches");
    folder || name == "tests.rs" || name.ends_with("_tests.rs")
}

/// A path as it is named from the root.
pub fn named(path: &Path) -> String {
    path.strip_prefix(root()).unwrap_or(path).display().to_string()
}
