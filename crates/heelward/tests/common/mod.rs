//! Running the built command as a person would.
#![allow(dead_code, reason = "each test file uses its own part")]

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// What a run gave.
pub struct Run {
    pub code: i32,
    pub out: String,
    pub err: String,
}

/// The command without colours of the caller's own.
pub fn command() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_heelward"));
    for name in ["NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE", "COLUMNS"] {
        command.env_remove(name);
    }
    command
}

/// Runs it with these words.
pub fn run(words: &[&str]) -> Run {
    finish(command().args(words).output().unwrap())
}

/// Text of a finished run, with the version blanked so that a release changes no snapshot.
pub fn finish(output: Output) -> Run {
    let text = |bytes| String::from_utf8(bytes).unwrap().replace(env!("CARGO_PKG_VERSION"), "VERSION");
    Run { code: output.status.code().unwrap_or(-1), out: text(output.stdout), err: text(output.stderr) }
}

impl Run {
    /// Both streams and the exit code, for a snapshot.
    pub fn all(&self) -> String {
        format!("exit {}\n--- output\n{}--- talk\n{}", self.code, self.out, self.err)
    }

    /// The output as JSON.
    pub fn json(&self) -> serde_json::Value {
        serde_json::from_str(&self.out).unwrap()
    }
}

/// A folder of its own for a test, gone afterwards.
pub struct Scratch(pub PathBuf);

impl Scratch {
    pub fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("heelward-{}-{name}", std::process::id()));
        let _ = std::fs::remove_dir_all(&path);
        std::fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    pub fn put(&self, name: &str, text: &str) -> String {
        let path = self.0.join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, text).unwrap();
        path.display().to_string()
    }

    pub fn path(&self, name: &str) -> String {
        self.0.join(name).display().to_string()
    }

    /// A run's text with this folder's path blanked.
    pub fn blank(&self, text: &str) -> String {
        text.replace(&self.0.display().to_string(), "SCRATCH")
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// Names of everything in a folder, hidden names too.
pub fn names(folder: &Path) -> Vec<String> {
    let entries = std::fs::read_dir(folder).unwrap();
    let mut out: Vec<String> =
        entries.map(|e| e.unwrap().file_name().to_string_lossy().into_owned()).collect();
    out.sort();
    out
}
