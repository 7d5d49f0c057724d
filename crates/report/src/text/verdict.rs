//! Reference cases as they came out: what was expected, what was got, and how far apart.

use std::collections::BTreeMap;

use proof::{Basis, Case, Comparison, Verdict};
use quantity::round_significant;

use super::family::{Families, UNSORTED};
use super::reading;

/// A case with its verdict and the file it stands in.
#[derive(Debug, Clone)]
pub struct Judged {
    /// File, as it was named.
    pub file: String,
    /// The case.
    pub case: Case,
    /// What came of it.
    pub verdict: Verdict,
}

/// One line of a case: an output compared, or a refusal.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct Line {
    /// Output, or `error` for a refusal.
    pub output: String,
    /// What was expected, as the case writes it.
    pub expected: String,
    /// What was got, in the unit of the case.
    pub got: String,
    /// Got less expected.
    pub difference: String,
    /// The difference allowed.
    pub allowed: String,
    /// Whether it passes.
    pub passes: bool,
    /// The same in SI; none for a refusal.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub si: Option<Si>,
    /// Difference over what is allowed.
    #[serde(skip)]
    pub share: f64,
}

/// Expected, got and allowed in SI, to ten significant digits.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Si {
    /// Expected.
    pub expected: f64,
    /// Got.
    pub got: f64,
    /// The difference allowed.
    pub allowed: f64,
}

impl Judged {
    /// Runs a case.
    pub fn of(file: &str, case: Case) -> Self {
        let verdict = proof::run(&case);
        Self { file: file.to_string(), case, verdict }
    }

    /// Whether it passes.
    pub fn passes(&self) -> bool {
        self.verdict.passes()
    }

    /// All its lines.
    pub fn lines(&self) -> Vec<Line> {
        match &self.verdict {
            Verdict::Compared(list) if !list.is_empty() => list.iter().map(|c| self.compared(c)).collect(),
            Verdict::Compared(_) => vec![self.refusal("the case expects nothing", false)],
            Verdict::RefusedAsExpected(words) => vec![self.refusal(words, true)],
            Verdict::Failed(words) => vec![self.refusal(words, false)],
        }
    }

    /// The line furthest from its expected value, by what is allowed.
    pub fn worst(&self) -> Option<Line> {
        self.lines().into_iter().max_by(|a, b| a.share.total_cmp(&b.share))
    }

    fn compared(&self, c: &Comparison) -> Line {
        let written = self.case.expected.get(&c.output).map_or("", String::as_str);
        let unit = reading::unit_of(written, c.expected.kind());
        let off = c.got.si() - c.expected.si();
        let small = |si: f64| reading::in_unit(si / unit.factor, unit, 2);
        Line {
            output: c.output.clone(),
            expected: written.trim().to_string(),
            got: reading::in_unit(unit.from_si(c.got.si()), unit, 8),
            difference: small(off),
            allowed: small(c.allowed),
            passes: c.passes(),
            si: Some(Si {
                expected: round_significant(c.expected.si(), 10),
                got: round_significant(c.got.si(), 10),
                allowed: round_significant(c.allowed, 10),
            }),
            share: share(off.abs(), c.allowed),
        }
    }

    fn refusal(&self, got: &str, passes: bool) -> Line {
        let expected = match self.case.expected.get("error") {
            Some(words) => format!("refusal: {words}"),
            None => "an answer".to_string(),
        };
        Line {
            output: "error".to_string(),
            expected,
            got: got.split_whitespace().collect::<Vec<_>>().join(" "),
            difference: "-".to_string(),
            allowed: "-".to_string(),
            passes,
            si: None,
            share: if passes { 0.0 } else { f64::INFINITY },
        }
    }
}

fn share(off: f64, allowed: f64) -> f64 {
    match (off == 0.0, allowed > 0.0) {
        (true, _) => 0.0,
        (false, true) => off / allowed,
        (false, false) => f64::INFINITY,
    }
}

/// How many cases passed and how many missed.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, serde::Serialize)]
pub struct Tally {
    /// Passed.
    pub passed: usize,
    /// Missed.
    pub failed: usize,
}

impl Tally {
    /// Of all cases.
    pub fn of<'a>(cases: impl IntoIterator<Item = &'a Judged>) -> Self {
        cases.into_iter().fold(Self::default(), |mut tally, judged| {
            tally.count(judged);
            tally
        })
    }

    fn count(&mut self, judged: &Judged) {
        match judged.passes() {
            true => self.passed += 1,
            false => self.failed += 1,
        }
    }

    /// Passed and missed.
    pub fn cases(self) -> usize {
        self.passed + self.failed
    }
}

/// Tallies by the word of the basis, strongest evidence first.
pub fn by_basis(cases: &[Judged]) -> Vec<(&'static str, Tally)> {
    let mut out: BTreeMap<Basis, Tally> = BTreeMap::new();
    cases.iter().for_each(|j| out.entry(j.case.basis).or_default().count(j));
    out.into_iter().map(|(basis, tally)| (basis.word(), tally)).collect()
}

/// Tallies by family, in the order of the register; families without a case are left out.
pub fn by_family(cases: &[Judged], families: &Families) -> Vec<(&'static str, Tally)> {
    let mut out: BTreeMap<&'static str, Tally> = BTreeMap::new();
    cases.iter().for_each(|j| out.entry(families.of(&j.case.relation)).or_default().count(j));
    let order = families.0.iter().map(|f| f.name).filter(|n| *n != UNSORTED).chain([UNSORTED]);
    order.filter_map(|name| out.remove(name).map(|tally| (name, tally))).collect()
}
