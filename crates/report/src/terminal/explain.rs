//! `explain`: what a check checks, why it matters, and what to do.

use well::{Check, Severity};

use crate::text::look::{Look, Role};
use crate::text::table::{Table, left};

/// The colour of a severity.
pub(super) fn role(severity: Severity) -> Role {
    match severity {
        Severity::Stop => Role::Stop,
        Severity::Warn => Role::Warn,
        Severity::Note => Role::Note,
    }
}

/// What a severity means.
pub fn meaning(severity: Severity) -> &'static str {
    match severity {
        Severity::Stop => "the job must not go on with this",
        Severity::Warn => "someone must look at it and decide",
        Severity::Note => "worth knowing",
    }
}

/// The page of one check.
pub fn page(check: &Check, look: &Look) -> String {
    let word = check.severity.word();
    let mut out = format!("{}\n", look.paint(Role::Name, check.id));
    out += &look.paint(Role::Title, &look.wrap(0, check.title));
    out += "\n";
    out += &look.hang("  severity", 14, &format!("{word}: {}", meaning(check.severity)));
    let parts = [
        ("  checks", check.checks),
        ("  why", check.why),
        ("  next", check.next),
        ("  example", check.example),
        ("  references", check.references),
    ];
    for (label, text) in parts {
        out += &look.hang(label, 14, text);
    }
    out
}

/// All checks, one a row.
pub fn list<'a>(checks: impl Iterator<Item = &'a Check>, look: &Look) -> String {
    let mut table = Table::new(&[left("check"), left("weight"), left("what it finds")]);
    for check in checks {
        table.row([check.id, check.severity.word(), check.title]);
    }
    table.render(look, 0)
}
