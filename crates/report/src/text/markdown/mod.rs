//! The committed documents that are generated, as Markdown.

pub mod accuracy;
pub mod bibliography;
pub mod checks;
pub mod faults;
pub mod job_file;
pub mod relations;

/// The head of a generated document.
pub fn head(title: &str, about: &str) -> String {
    format!("# {title}\n\n<!-- written by `heelward upkeep --write`; do not edit -->\n\n{about}\n\n")
}
