//! The example jobs with one thing wrong.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use well::job::JOB_FILE;
use well::{Folder, Host, HostError, Job, Read, Severity, read_job};

fn folder(job: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs").join(job)
}

/// A file of an example job.
pub fn example(job: &str, file: &str) -> String {
    std::fs::read_to_string(folder(job).join(file)).unwrap()
}

/// An example's folder with some files in other words.
pub struct Changed {
    folder: Folder,
    files: BTreeMap<String, Vec<u8>>,
}

impl Changed {
    /// Puts a file in the place of the example's.
    pub fn put(&mut self, file: &str, bytes: &[u8]) {
        self.files.insert(file.to_string(), bytes.to_vec());
    }
}

impl Host for Changed {
    fn read(&self, name: &str) -> Result<Vec<u8>, HostError> {
        self.files.get(name).map_or_else(|| self.folder.read(name), |bytes| Ok(bytes.clone()))
    }
}

/// An example's folder with another job file.
pub fn folder_with(job: &str, text: &[u8]) -> Changed {
    let files = BTreeMap::from([(JOB_FILE.to_string(), text.to_vec())]);
    Changed { folder: Folder(folder(job)), files }
}

/// What a finding says, for tests.
#[derive(Debug, Clone)]
pub struct Told {
    pub file: Option<String>,
    pub line: Option<usize>,
    pub shown: Option<String>,
    text: String,
}

impl Told {
    /// Message, next action and shown line together hold these words.
    #[track_caller]
    pub fn holds(&self, words: &[&str]) {
        for word in words {
            assert!(self.text.contains(word), "`{word}` is not in: {}", self.text);
        }
    }
}

/// The findings of a check.
pub fn findings_of(read: &Read<Job>, id: &str) -> Vec<Told> {
    let told = read.findings.iter().filter(|f| f.id == id);
    told.map(|f| Told {
        file: f.place.file.clone(),
        line: f.place.line,
        shown: f.place.shown.clone(),
        text: format!("{}\n{}", f.message, f.next),
    })
    .collect()
}

/// The job file of an example with one edit, and the line where the edit begins to differ.
pub fn whole_file(job: &str, from: &str, to: &str) -> (String, usize) {
    let text = example(job, JOB_FILE);
    let text_lines = format!("\n{text}");
    let (from, to) = (format!("\n{from}"), format!("\n{to}"));
    assert_eq!(text_lines.matches(&from).count(), 1, "`{from}` must stand once in the job file of {job}");
    let at = text_lines.find(&from).unwrap();
    let same = from.lines().zip(to.lines()).take_while(|(a, b)| a == b).count();
    let line = text_lines[..at].matches('\n').count() + same;
    (text_lines.replacen(&from, &to, 1)[1..].to_string(), line)
}

/// Reads an example with one edit of its job file.
#[track_caller]
pub fn edited(job: &str, from: &str, to: &str) -> Read<Job> {
    let (text, _) = whole_file(job, from, to);
    read_job(&folder_with(job, text.as_bytes()))
}

/// The one finding of a check after one edit that stops the job, and the line of the edit.
#[track_caller]
pub fn one_edit(job: &str, from: &str, to: &str, id: &str) -> (Told, usize) {
    let (text, line) = whole_file(job, from, to);
    let read = read_job(&folder_with(job, text.as_bytes()));
    assert!(read.findings.iter().any(|f| f.severity == Severity::Stop), "{to}: nothing stops the job");
    let told = findings_of(&read, id);
    match told.as_slice() {
        [one] => (one.clone(), line),
        _ => panic!("{to}: {id} is not said once: {:#?}", read.findings),
    }
}
