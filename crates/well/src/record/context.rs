//! The state of reading one document: text, path, findings, assumptions and the line of every
//! field.

use std::collections::BTreeMap;
use std::ops::Range;

use quantity::{System, Text};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::checks;
use crate::finding::{Check, Finding};

/// A value in the document with its span.
pub type Node<'i> = Spanned<DeValue<'i>>;

/// A value the program took because the job file gives none.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Assumption {
    /// Field of the job file that would replace it.
    pub field: String,
    /// What was taken.
    pub value: Text,
    /// What kind of figure it is and where it comes from.
    pub basis: String,
}

impl Assumption {
    /// Keeps its figure as it reads in a system of units.
    pub fn settle(&mut self, system: System) {
        self.value.settle(system);
    }
}

/// What was read of a document beside its value.
#[derive(Debug, Clone, Default)]
pub struct Document {
    /// Name of the file.
    pub file: String,
    /// The text.
    pub text: String,
    /// Line of every field that is present, by path.
    pub lines: BTreeMap<String, usize>,
    /// Assumptions taken.
    pub assumptions: Vec<Assumption>,
}

impl Document {
    /// The text of a line, counted from 1.
    pub fn line(&self, number: usize) -> &str {
        self.text.lines().nth(number.saturating_sub(1)).unwrap_or("")
    }

    /// Sets file, line and shown text of a finding whose field is in this document; for a field
    /// that is absent, those of the nearest table above it. A finding that has its line keeps it.
    pub fn locate(&self, mut finding: Finding) -> Finding {
        if finding.place.line.is_some() {
            return finding;
        }
        let Some(field) = finding.place.field.clone() else { return finding };
        let mut path = field.as_str();
        loop {
            if let Some(&line) = self.lines.get(path) {
                finding = finding.line(self.file.clone(), line, self.line(line));
                return finding;
            }
            match path.rfind(['.', '[']) {
                Some(cut) => path = &path[..cut],
                None => return finding.file(self.file.clone()),
            }
        }
    }
}

/// The most findings of one document that are listed one by one.
const MOST_FINDINGS: usize = 500;

/// The state of reading.
pub struct Context {
    document: Document,
    starts: Vec<usize>,
    path: Vec<String>,
    findings: Vec<Finding>,
    /// How many findings went unlisted, and one that stands for them all.
    unlisted: (usize, Option<Finding>),
}

impl Context {
    /// For the text of a file.
    pub fn new(file: &str, text: &str) -> Self {
        let starts = std::iter::once(0).chain(text.match_indices('\n').map(|(i, _)| i + 1)).collect();
        let document = Document { file: file.to_string(), text: text.to_string(), ..Default::default() };
        Self { document, starts, path: Vec::new(), findings: Vec::new(), unlisted: (0, None) }
    }

    /// Path of the field being read.
    pub fn path(&self) -> String {
        let mut out = String::new();
        for part in &self.path {
            if !out.is_empty() && !part.starts_with('[') {
                out.push('.');
            }
            out.push_str(part);
        }
        out
    }

    /// Goes into a field or list item, runs `f`, and comes back.
    pub fn within<T>(&mut self, part: String, span: Range<usize>, f: impl FnOnce(&mut Self) -> T) -> T {
        self.path.push(part);
        let line = self.line_at(span.start);
        self.document.lines.insert(self.path(), line);
        let out = f(self);
        self.path.pop();
        out
    }

    /// Notes the line of the table being read, for findings on fields it lacks.
    pub fn mark(&mut self, span: Range<usize>) {
        let line = self.line_at(span.start);
        self.document.lines.entry(self.path()).or_insert(line);
    }

    fn line_at(&self, offset: usize) -> usize {
        self.starts.partition_point(|s| *s <= offset)
    }

    /// Adds a finding at a span.
    pub fn say(&mut self, check: &'static Check, message: String, span: Range<usize>, next: Option<String>) {
        if self.findings.len() >= MOST_FINDINGS && self.unlisted.1.is_some() {
            self.unlisted.0 += 1;
            return;
        }
        let line = self.line_at(span.start);
        let shown = self.line_from(line);
        let mut finding = check.found(message).line(self.document.file.clone(), line, shown);
        if !self.path.is_empty() {
            finding = finding.field(self.path());
        }
        if let Some(next) = next {
            finding = finding.next(next);
        }
        if self.findings.len() < MOST_FINDINGS {
            self.findings.push(finding);
        } else {
            self.unlisted = (1, Some(finding));
        }
    }

    /// The text of a line, found without reading those above it.
    fn line_from(&self, number: usize) -> String {
        let from = self.starts.get(number.saturating_sub(1)).copied().unwrap_or(0);
        self.document.text.get(from..).and_then(|rest| rest.lines().next()).unwrap_or("").to_string()
    }

    /// Records an assumption for the field `key` of the table being read.
    pub fn assume(&mut self, key: &str, value: Text, basis: &str) {
        let table = self.path();
        let field = if table.is_empty() { key.to_string() } else { format!("{table}.{key}") };
        let assumption = Assumption { field, value, basis: basis.to_string() };
        self.document.assumptions.push(assumption);
    }

    /// Parses the text: the root table, with a finding for every fault of syntax.
    pub fn parse<'i>(&mut self, text: &'i str) -> Spanned<DeTable<'i>> {
        let (root, faults) = DeTable::parse_recoverable(text);
        for fault in faults {
            let span = fault.span().unwrap_or(0..0);
            self.say(
                &checks::SYNTAX,
                format!("the job file is not TOML here: {}", fault.message()),
                span,
                None,
            );
        }
        root
    }

    /// The document and all findings, by line. Fields that are absent are told only where the text
    /// is TOML throughout: below a fault of syntax they may well be there.
    pub fn finish(self) -> (Document, Vec<Finding>) {
        let mut findings = self.findings;
        if let (more, Some(like)) = self.unlisted {
            let message = format!("{more} more faults of the job file, this one the first, are not listed");
            findings.push(Finding { message: message.into(), ..like });
        }
        if findings.iter().any(|f| f.id == checks::SYNTAX.id) {
            findings.retain(|f| f.id != checks::MISSING.id);
        }
        findings.sort_by_key(|f| f.place.line);
        (self.document, findings)
    }
}
