//! What is built into the binary: reference cases, bibliography and example jobs.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use proof::Case;
use report::text::bibliography::Bibliography;
use report::text::family::Families;

use crate::fault::Fault;

mod files {
    include!(concat!(env!("OUT_DIR"), "/embedded.rs"));
}

/// Folder of the bibliography among the cases.
const BIBLIOGRAPHY: &str = "bibliography";

/// Folders among the cases that hold no cases: the bibliography, and what writes case files.
pub(crate) const NO_CASES: [&str; 2] = [BIBLIOGRAPHY, "oracle"];

fn text(path: &str, bytes: &'static [u8]) -> Result<&'static str, Fault> {
    std::str::from_utf8(bytes).map_err(|_| Fault::Own(format!("the built-in file `{path}` is not text")))
}

/// A file with its name and text, or why it is none.
type Text = Result<(&'static str, &'static str), Fault>;

fn case_files() -> impl Iterator<Item = Text> {
    let holds = |path: &str| path.split('/').next().is_some_and(|folder| !NO_CASES.contains(&folder));
    files::CASES
        .iter()
        .filter(move |(path, _)| holds(path))
        .map(|(path, bytes)| text(path, bytes).map(|text| (*path, text)))
}

/// The built-in reference cases with the file each stands in.
pub(crate) fn cases() -> Result<&'static [(String, Case)], Fault> {
    static READ: OnceLock<Result<Vec<(String, Case)>, Fault>> = OnceLock::new();
    READ.get_or_init(read_cases).as_deref().map_err(Clone::clone)
}

fn read_cases() -> Result<Vec<(String, Case)>, Fault> {
    let mut out = Vec::new();
    for file in case_files() {
        let (path, text) = file?;
        let cases = proof::read_cases(text)
            .map_err(|e| Fault::Own(format!("the built-in cases `{path}` cannot be read: {e}")))?;
        out.extend(cases.into_iter().map(|case| (format!("cases/{path}"), case)));
    }
    Ok(out)
}

/// The families of relations, by the folders of the built-in cases.
pub(crate) fn families() -> Result<Families, Fault> {
    let mut folders = BTreeMap::new();
    for (file, case) in cases()? {
        if let Some(folder) = file.split('/').nth(1) {
            folders.entry(case.relation.as_str()).or_insert(folder);
        }
    }
    Ok(Families::sort(&folders))
}

/// The sources.
pub(crate) fn bibliography() -> Result<Bibliography, Fault> {
    let mut all = Bibliography::default();
    for (path, bytes) in files::CASES.iter().filter(|(path, _)| path.starts_with(BIBLIOGRAPHY)) {
        let text = text(path, bytes)?;
        all.add(text).map_err(|e| Fault::Own(format!("the built-in `{path}` cannot be read: {e}")))?;
    }
    Ok(all)
}

/// One example job: the name of its folder, and its files with their bytes.
#[derive(Debug, Clone)]
pub(crate) struct Example {
    /// Folder.
    pub(crate) name: &'static str,
    /// Files.
    pub(crate) files: Vec<(&'static str, &'static [u8])>,
}

/// The example jobs, by name.
pub(crate) fn examples() -> Vec<Example> {
    let mut out: BTreeMap<&'static str, Vec<(&'static str, &'static [u8])>> = BTreeMap::new();
    for (path, bytes) in files::JOBS {
        if let Some((folder, file)) = path.split_once('/') {
            out.entry(folder).or_default().push((file, bytes));
        }
    }
    out.into_iter().map(|(name, files)| Example { name, files }).collect()
}
