//! Why a command could not do what was asked, and the exit code that follows.

use crate::{BAD_INPUT, OWN_FAULT, VERSION};

/// How a command ended that did what was asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ended {
    /// Done.
    Done,
    /// Done, and what was found stops the job: findings, or a case that missed.
    Stopped,
}

/// Why a command could not do what was asked.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Fault {
    /// What was given cannot be used.
    #[error("{what}")]
    Input {
        /// What is wrong.
        what: String,
        /// What to do next; empty where the message says it.
        next: String,
    },
    /// The program is at fault.
    #[error("{0}")]
    Own(String),
}

impl Fault {
    /// Bad input whose message says what to do.
    pub fn input(what: impl Into<String>) -> Self {
        Fault::Input { what: what.into(), next: String::new() }
    }

    /// Bad input with the next action.
    pub fn input_next(what: impl Into<String>, next: impl Into<String>) -> Self {
        Fault::Input { what: what.into(), next: next.into() }
    }

    /// The exit code.
    pub(crate) fn exit_code(&self) -> u8 {
        match self {
            Fault::Input { .. } => BAD_INPUT,
            Fault::Own(_) => OWN_FAULT,
        }
    }

    /// Lines for a person.
    pub(crate) fn text(&self) -> String {
        match self {
            Fault::Input { what, next } if next.is_empty() => format!("error: {what}"),
            Fault::Input { what, next } => format!("error: {what}\n  next: {next}"),
            Fault::Own(what) => format!("error: {what}\n  {}", please_report()),
        }
    }
}

fn please_report() -> String {
    format!(
        "This is a fault of the program (version {VERSION}), not of your input; please report it with the command you typed."
    )
}

/// What is said after a panic.
pub(crate) fn apology(info: &std::panic::PanicHookInfo<'_>) -> String {
    let words = info.payload_as_str().unwrap_or("no further words");
    let place = info.location().map(|l| format!(" at {}:{}", l.file(), l.line())).unwrap_or_default();
    format!(
        "error: heelward has failed{place}: {words}\n  {}\n  No result of this run may be used.",
        please_report()
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exit_codes_tell_whose_fault_it_is() {
        assert_eq!(Fault::input("no such file").exit_code(), 1);
        assert_eq!(Fault::Own("a slip".into()).exit_code(), 2);
        assert!(Fault::Own("a slip".into()).text().contains("fault of the program"));
        assert_eq!(Fault::input_next("no file", "give one").text(), "error: no file\n  next: give one");
    }
}
