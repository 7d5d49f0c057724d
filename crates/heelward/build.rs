//! Puts the reference cases, the bibliography and the example jobs into the binary, so that one
//! file is all a laptop at the wellsite needs.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

type Result<T> = std::result::Result<T, Box<dyn std::error::Error>>;

fn main() -> Result<()> {
    let root = PathBuf::from(std::env::var("CARGO_MANIFEST_DIR")?).join("../..").canonicalize()?;
    let mut code = String::new();
    embed(&root.join("cases"), "CASES", &["toml"], &mut code)?;
    embed(&root.join("jobs"), "JOBS", &["toml", "csv", "las", "xml", "md", "txt"], &mut code)?;
    std::fs::write(PathBuf::from(std::env::var("OUT_DIR")?).join("embedded.rs"), code)?;
    println!("cargo::rerun-if-changed=build.rs");
    Ok(())
}

/// Writes a list of path and bytes of every file below `folder` with one of the extensions.
fn embed(folder: &Path, name: &str, extensions: &[&str], code: &mut String) -> Result<()> {
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut files = Vec::new();
    collect(folder, &mut files)?;
    files.sort();
    writeln!(code, "pub(super) static {name}: &[(&str, &[u8])] = &[")?;
    for file in files {
        let wanted = file.extension().and_then(|e| e.to_str()).is_some_and(|e| extensions.contains(&e));
        if wanted {
            let parts: Vec<_> = file.strip_prefix(folder)?.iter().map(|p| p.to_string_lossy()).collect();
            writeln!(code, "    ({:?}, include_bytes!({:?})),", parts.join("/"), file.to_string_lossy())?;
        }
    }
    writeln!(code, "];")?;
    Ok(())
}

fn collect(folder: &Path, out: &mut Vec<PathBuf>) -> Result<()> {
    if !folder.is_dir() {
        return Ok(());
    }
    for entry in std::fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            collect(&path, out)?;
        } else {
            out.push(path);
        }
    }
    Ok(())
}
