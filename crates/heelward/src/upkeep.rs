//! The committed documents that are generated from the program itself. A document is added by
//! one line of the table below.

use std::path::Path;

use clap::CommandFactory as _;
use report::text::{markdown, page_units};

use crate::cli::{Cli, SchemaFile};
use crate::command;
use crate::embedded;
use crate::fault::Fault;

/// Makes the text of a document.
type Generate = fn() -> Result<String, Fault>;

/// Every generated document, by its path from the root of the repository.
static DOCUMENTS: &[(&str, Generate)] = &[
    ("docs/relations.md", relations),
    ("docs/accuracy.md", accuracy),
    ("docs/checks.md", checks),
    ("docs/faults.md", || Ok(markdown::faults::document())),
    ("docs/bibliography.md", bibliography),
    ("docs/commands.md", commands),
    ("docs/job-file.md", || Ok(markdown::job_file::document(&well::job::JobFile::table()))),
    ("schema/job.schema.json", || Ok(command::schema_text(SchemaFile::Job))),
    ("schema/openapi.json", || Ok(report::text::json::text(&serve::openapi()))),
    ("web/src/lib/units.generated.json", || Ok(page_units::document())),
    ("schema/program.schema.json", || Ok(command::schema_text(SchemaFile::Program))),
];

/// A generated document with the text it should have.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Document {
    /// Path from the root of the repository.
    pub path: &'static str,
    /// Text.
    pub text: String,
}

impl Document {
    /// Writes it below `root`.
    pub fn write(&self, root: &Path) -> Result<(), Fault> {
        let path = root.join(self.path);
        let refused =
            |e: std::io::Error| Fault::input(format!("`{}` cannot be written: {e}", path.display()));
        if let Some(folder) = path.parent() {
            std::fs::create_dir_all(folder).map_err(refused)?;
        }
        std::fs::write(&path, &self.text).map_err(refused)
    }
}

/// The documents below `root` that are absent or not as the program would write them.
pub fn stale(root: &Path) -> Result<Vec<Document>, Fault> {
    if !root.join("Cargo.toml").is_file() {
        let what = format!("`{}` is not the root of the repository", root.display());
        return Err(Fault::input_next(what, "Give it with --root."));
    }
    let mut out = Vec::new();
    for (path, generate) in DOCUMENTS {
        let text = generate()?;
        if std::fs::read_to_string(root.join(path)).is_ok_and(|found| found == text) {
            continue;
        }
        out.push(Document { path, text });
    }
    Ok(out)
}

fn relations() -> Result<String, Fault> {
    Ok(markdown::relations::document(&embedded::families()?))
}

fn accuracy() -> Result<String, Fault> {
    Ok(markdown::accuracy::document(&command::built_in_cases()?, &embedded::families()?))
}

fn checks() -> Result<String, Fault> {
    Ok(markdown::checks::document(pump::checks::all().collect::<Vec<_>>().into_iter()))
}

fn bibliography() -> Result<String, Fault> {
    Ok(markdown::bibliography::document(&embedded::bibliography()?))
}

/// The help of the command and of every command under it.
fn commands() -> Result<String, Fault> {
    let about = "What can be typed, as `heelward --help` and `heelward COMMAND --help` print it.";
    let mut out = markdown::head("Commands", about);
    let mut root = Cli::command().term_width(100);
    root.build();
    let page = |command: &mut clap::Command| {
        let help = command.render_long_help().to_string();
        let lines: Vec<&str> = help.trim_end().lines().map(str::trim_end).collect();
        format!("```text\n{}\n```\n", lines.join("\n"))
    };
    out += &page(&mut root.clone());
    for under in root.get_subcommands().filter(|c| !c.is_hide_set() && c.get_name() != "help") {
        out += &format!("\n## {}\n\n{}", under.get_name(), page(&mut under.clone().term_width(100)));
    }
    Ok(out)
}
