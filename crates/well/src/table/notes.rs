//! Findings while a file is read: the first few of each check, and a count of the rest.

use crate::finding::{Check, Finding, Severity};

/// A collector that keeps a bounded number of findings.
#[derive(Debug)]
pub struct Notes {
    file: String,
    most: usize,
    kept: Vec<Finding>,
    counts: Vec<(&'static str, usize, Severity)>,
}

impl Notes {
    /// For one file; at most `most` findings of one check are kept.
    pub fn new(file: &str, most: usize) -> Self {
        Self { file: file.to_string(), most: most.max(1), kept: Vec::new(), counts: Vec::new() }
    }

    /// The file spoken of.
    pub fn file(&self) -> &str {
        &self.file
    }

    /// Adds a finding.
    pub fn add(&mut self, finding: Finding) {
        let count = match self.counts.iter_mut().find(|(id, ..)| *id == finding.id) {
            Some(entry) => entry,
            None => {
                self.counts.push((finding.id, 0, finding.severity));
                let last = self.counts.len() - 1;
                match self.counts.get_mut(last) {
                    Some(entry) => entry,
                    None => return,
                }
            }
        };
        count.1 += 1;
        count.2 = count.2.min(finding.severity);
        if count.1 <= self.most {
            self.kept.push(finding);
        }
    }

    /// Adds a finding at a line.
    pub fn at(&mut self, check: &'static Check, line: usize, shown: &str, message: impl Into<String>) {
        let finding = check.found(message).line(self.file.clone(), line, shown);
        self.add(finding);
    }

    /// Adds a finding about the file as a whole.
    pub fn whole(&mut self, check: &'static Check, message: impl Into<String>) {
        let finding = check.found(message).file(self.file.clone());
        self.add(finding);
    }

    /// Whether a finding of that check was added.
    pub fn has(&self, check: &Check) -> bool {
        self.counts.iter().any(|(id, ..)| *id == check.id)
    }

    /// All kept findings in file order, with a closing one for each check that was cut.
    pub fn finish(self) -> Vec<Finding> {
        let Self { file, most, mut kept, counts } = self;
        let place = |f: &Finding| f.place.line.unwrap_or(0);
        kept.sort_by_key(place);
        for (id, count, severity) in counts.into_iter().filter(|(_, count, _)| *count > most) {
            let Some(like) = kept.iter().find(|f| f.id == id) else { continue };
            let next = like.next.clone();
            kept.push(Finding {
                id,
                severity,
                message: format!("{} more lines have the same fault and are not listed", count - most),
                place: crate::finding::Place { file: Some(file.clone()), ..Default::default() },
                value: None,
                limit: None,
                next,
            });
        }
        kept
    }
}

/// Two lists of findings as one, by line; findings without a line come first.
pub fn in_file_order(mut first: Vec<Finding>, second: Vec<Finding>) -> Vec<Finding> {
    first.extend(second);
    first.sort_by_key(|f| f.place.line.unwrap_or(0));
    first
}
