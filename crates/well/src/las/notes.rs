//! Findings as they are gathered: a fault that repeats is told once, with its count and the
//! first line that has it.

use crate::{Check, Finding};
use quantity::MeasuredDepth;

/// Why a file, or a curve, is refused.
pub(super) type Refusal = Box<Finding>;

/// The findings of one reading.
pub(super) struct Notes<'a> {
    file: &'a str,
    entries: Vec<Entry>,
}

enum Entry {
    Once(Box<Finding>),
    Counted { check: &'static Check, what: &'static str, count: usize, line: usize, shown: String },
}

impl<'a> Notes<'a> {
    /// None yet, for this file.
    pub(super) fn new(file: &'a str) -> Self {
        Self { file, entries: Vec::new() }
    }

    fn once(&mut self, finding: Finding) {
        self.entries.push(Entry::Once(Box::new(finding)));
    }

    /// A finding about the file as a whole.
    pub(super) fn file(&mut self, check: &'static Check, message: impl Into<quantity::Text>) {
        self.once(self.finding(check, message));
    }

    /// A finding about one line.
    pub(super) fn line(
        &mut self,
        check: &'static Check,
        message: impl Into<quantity::Text>,
        line: usize,
        shown: &str,
    ) {
        self.once(check.found(message).line(self.file, line, head(shown)));
    }

    /// A finding at a depth.
    pub(super) fn at(
        &mut self,
        check: &'static Check,
        message: impl Into<quantity::Text>,
        depth: MeasuredDepth,
    ) {
        self.once(self.finding(check, message).depth(depth));
    }

    /// One more of a fault that may repeat. `what` names the fault in the plural.
    pub(super) fn count(&mut self, check: &'static Check, what: &'static str, line: usize, shown: &str) {
        for entry in &mut self.entries {
            if let Entry::Counted { what: known, count, .. } = entry
                && *known == what
            {
                *count += 1;
                return;
            }
        }
        let shown = head(shown).to_string();
        self.entries.push(Entry::Counted { check, what, count: 1, line, shown });
    }

    /// Why the file is refused.
    pub(super) fn refuse(&self, check: &'static Check, message: impl Into<quantity::Text>) -> Refusal {
        Box::new(self.finding(check, message))
    }

    fn finding(&self, check: &'static Check, message: impl Into<quantity::Text>) -> Finding {
        check.found(message).file(self.file)
    }

    /// All findings, in the order of the file.
    pub(super) fn finish(self) -> Vec<Finding> {
        let file = self.file;
        let told = |entry| match entry {
            Entry::Once(finding) => *finding,
            Entry::Counted { check, what, count, line, shown } => {
                let first = if count == 1 { "on" } else { "the first on" };
                check.found(format!("{what}: {count}, {first} line {line}")).line(file, line, shown)
            }
        };
        self.entries.into_iter().map(told).collect()
    }
}

/// The beginning of a line, enough to show.
fn head(line: &str) -> &str {
    line.char_indices().nth(200).map_or(line, |(end, _)| line.get(..end).unwrap_or(line))
}
