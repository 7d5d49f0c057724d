//! Findings while a file is read: the first few of each check, and a count of the rest.

use quantity::said;

use crate::finding::{Check, Finding, Place, Severity};

/// A collector that keeps a bounded number of findings.
#[derive(Debug)]
pub struct Notes {
    file: String,
    most: usize,
    kept: Vec<Finding>,
    counts: Vec<Count>,
}

/// How often a check spoke, and where it first went unlisted.
#[derive(Debug)]
struct Count {
    id: &'static str,
    times: usize,
    severity: Severity,
    unlisted: Option<Place>,
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
        let Some(count) = self.counts.iter_mut().find(|c| c.id == finding.id) else {
            let Finding { id, severity, .. } = finding;
            self.counts.push(Count { id, times: 1, severity, unlisted: None });
            self.kept.push(finding);
            return;
        };
        count.times += 1;
        count.severity = count.severity.min(finding.severity);
        if count.times <= self.most {
            self.kept.push(finding);
        } else if count.unlisted.is_none() {
            count.unlisted = Some(Place { depth: None, ..finding.place });
        }
    }

    /// Adds a finding at a line.
    pub fn at(
        &mut self,
        check: &'static Check,
        line: usize,
        shown: &str,
        message: impl Into<quantity::Text>,
    ) {
        let finding = check.found(message).line(self.file.clone(), line, shown);
        self.add(finding);
    }

    /// Adds a finding about the file as a whole.
    pub fn whole(&mut self, check: &'static Check, message: impl Into<quantity::Text>) {
        let finding = check.found(message).file(self.file.clone());
        self.add(finding);
    }

    /// Whether a finding of that check was added.
    pub fn has(&self, check: &Check) -> bool {
        self.counts.iter().any(|c| c.id == check.id)
    }

    /// All kept findings in file order, with a closing one for each check that was cut.
    pub fn finish(self) -> Vec<Finding> {
        let Self { most, mut kept, counts, .. } = self;
        for Count { id, times, severity, unlisted } in counts {
            let Some(place) = unlisted else { continue };
            let Some(like) = kept.iter().find(|f| f.id == id) else { continue };
            let more = times - most;
            let message = said!("{more} more lines from here on have the same fault and are not listed");
            let next = like.next.clone();
            kept.push(Finding { id, severity, message, place, value: None, limit: None, next });
        }
        kept.sort_by_key(|f| f.place.line.unwrap_or(0));
        kept
    }
}

/// Two lists of findings as one, by line; findings without a line come first.
pub fn in_file_order(mut first: Vec<Finding>, second: Vec<Finding>) -> Vec<Finding> {
    first.extend(second);
    first.sort_by_key(|f| f.place.line.unwrap_or(0));
    first
}
