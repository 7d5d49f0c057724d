//! Findings: what a check has to say, with its place, value, limit and the next action.

use quantity::{MeasuredDepth, System, Text, Value};

/// How much a finding weighs.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, schemars::JsonSchema,
)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The job must not go on with this.
    Stop,
    /// Someone must look at it and decide.
    Warn,
    /// Worth knowing.
    Note,
}

impl Severity {
    /// Plain word.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Stop => "stop",
            Severity::Warn => "warn",
            Severity::Note => "note",
        }
    }
}

/// The standing description of a check: what `explain ID` prints.
#[derive(Debug)]
pub struct Check {
    /// Stable identity, `area-what`, such as `survey-depth-order`.
    pub id: &'static str,
    /// How much it weighs unless the finding says otherwise.
    pub severity: Severity,
    /// One line.
    pub title: &'static str,
    /// What is checked.
    pub checks: &'static str,
    /// Why it matters on the job.
    pub why: &'static str,
    /// What to do about it.
    pub next: &'static str,
    /// An example, with numbers.
    pub example: &'static str,
    /// Where to read more; "practice" where it is a fact of the trade.
    pub references: &'static str,
}

/// Declares the checks of a module as statics, and their list `CHECKS`.
///
/// Each line is: name, id, severity, title, what is checked, why it matters, what to do next, an
/// example, and the references unless one `references:` at the head serves all.
#[macro_export]
macro_rules! checks {
    (references: $all:literal; $($name:ident $id:literal $severity:ident $title:literal, $checks:literal,
      $why:literal, $next:literal, $example:literal;)+) => {
        $crate::checks! { $($name $id $severity $title, $checks, $why, $next, $example, $all;)+ }
    };
    ($($name:ident $id:literal $severity:ident $title:literal, $checks:literal,
      $why:literal, $next:literal, $example:literal, $references:literal;)+) => {
        $(pub(super) static $name: $crate::Check = $crate::Check {
            id: $id,
            severity: $crate::Severity::$severity,
            title: $title,
            checks: $checks,
            why: $why,
            next: $next,
            example: $example,
            references: $references,
        };)+
        /// The checks of this module.
        pub static CHECKS: &[&$crate::Check] = &[$(&$name),+];
    };
}

/// Where a finding is.
#[derive(Debug, Clone, Default, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Place {
    /// File in the job folder.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub file: Option<String>,
    /// Line in that file, from 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub line: Option<usize>,
    /// The line as it stands in the file.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub shown: Option<String>,
    /// Field of the job file, such as `ladder.step`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub field: Option<String>,
    /// Stage, 1 at the toe.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stage: Option<usize>,
    /// Measured depth.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub depth: Option<MeasuredDepth>,
}

/// One thing a check has to say.
#[derive(Debug, Clone, serde::Serialize, schemars::JsonSchema)]
pub struct Finding {
    /// Identity of the check.
    pub id: &'static str,
    /// Weight.
    pub severity: Severity,
    /// What is so, in one sentence.
    pub message: Text,
    /// Where.
    pub place: Place,
    /// The value found.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub value: Option<Value>,
    /// The limit it breaks or nears.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub limit: Option<Value>,
    /// What to do next.
    pub next: Text,
}

impl Check {
    /// A finding of this check.
    pub fn found(&'static self, message: impl Into<Text>) -> Finding {
        Finding {
            id: self.id,
            severity: self.severity,
            message: message.into(),
            place: Place::default(),
            value: None,
            limit: None,
            next: self.next.into(),
        }
    }
}

impl Finding {
    /// With the value found.
    pub fn value(mut self, value: impl Into<Value>) -> Self {
        self.value = Some(value.into());
        self
    }

    /// With the limit.
    pub fn limit(mut self, limit: impl Into<Value>) -> Self {
        self.limit = Some(limit.into());
        self
    }

    /// At a line of a file.
    pub fn line(mut self, file: impl Into<String>, line: usize, shown: impl Into<String>) -> Self {
        self.place.file = Some(file.into());
        self.place.line = Some(line);
        self.place.shown = Some(clip(&shown.into()));
        self
    }

    /// In a file as a whole.
    pub fn file(mut self, file: impl Into<String>) -> Self {
        self.place.file = Some(file.into());
        self
    }

    /// At a field of the job file.
    pub fn field(mut self, field: impl Into<String>) -> Self {
        self.place.field = Some(field.into());
        self
    }

    /// At a stage, 1 at the toe.
    pub fn stage(mut self, stage: usize) -> Self {
        self.place.stage = Some(stage);
        self
    }

    /// At a depth.
    pub fn depth(mut self, depth: MeasuredDepth) -> Self {
        self.place.depth = Some(depth);
        self
    }

    /// With a next action of its own.
    pub fn next(mut self, next: impl Into<Text>) -> Self {
        self.next = next.into();
        self
    }

    /// With a weight of its own.
    pub fn severity(mut self, severity: Severity) -> Self {
        self.severity = severity;
        self
    }

    /// Keeps its words as they read in a system of units.
    pub fn settle(&mut self, system: System) {
        self.message.settle(system);
        self.next.settle(system);
    }

    /// Message with value and limit, for a line of text.
    pub fn sentence(&self, system: System) -> String {
        let mut out = self.message.text(system);
        match (self.value, self.limit) {
            (Some(v), Some(l)) => out += &format!(" [{} against {}]", v.text(system), l.text(system)),
            (Some(v), None) => out += &format!(" [{}]", v.text(system)),
            (None, Some(l)) => out += &format!(" [limit {}]", l.text(system)),
            (None, None) => {}
        }
        out
    }
}

/// A shown line is cut to what a terminal holds.
fn clip(line: &str) -> String {
    let clean: String = line.chars().map(|c| if c.is_control() { ' ' } else { c }).take(161).collect();
    if clean.chars().count() > 160 { clean.chars().take(157).chain("...".chars()).collect() } else { clean }
}

/// What reading gives: a value where there is enough for one, and all findings.
#[derive(Debug, Clone)]
pub struct Read<T> {
    /// The value, if there is enough for one.
    pub value: Option<T>,
    /// Everything there is to say, in file order.
    pub findings: Vec<Finding>,
}

impl<T> Read<T> {
    /// A value with what was found on the way.
    pub fn some(value: T, findings: Vec<Finding>) -> Self {
        Self { value: Some(value), findings }
    }

    /// No value.
    pub fn none(findings: Vec<Finding>) -> Self {
        Self { value: None, findings }
    }
}
