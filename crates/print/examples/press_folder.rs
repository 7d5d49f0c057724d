//! Sets a folder of data and drawings with a typst text, to try a layout.
#![allow(clippy::print_stderr, reason = "a tool of the developers")]
use std::collections::BTreeMap;
fn main() -> Result<(), Box<dyn std::error::Error>> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let [folder, text, out] = words.as_slice() else { return Err("folder, text, out".into()) };
    let mut files = BTreeMap::new();
    for entry in std::fs::read_dir(folder)? {
        let entry = entry?;
        files.insert(entry.file_name().to_string_lossy().into_owned(), std::fs::read(entry.path())?);
    }
    let text = std::fs::read_to_string(text)?;
    std::fs::write(out, print::press(print::Manuscript { text: &text, files, identity: "try".into() })?)?;
    Ok(())
}
