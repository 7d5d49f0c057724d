//! Reference cases: each names a relation, where its numbers come from, and how close the
//! program must come. The same register serves `calc`, `verify` and the workings of a plan.
//!
//! ```toml
//! [[case]]
//! name = "two stations of a formula page"
//! relation = "minimum_curvature"
//! source = "taylor1972 (page), table 1"
//! basis = "printed"
//! inputs = { md_1 = "3500 ft", md_2 = "3600 ft" }
//! expected = { north = "27.22 ft" }
//! tolerance = { north = "0.005 ft" }
//! reason = "printed to two decimals"
//! ```

use std::collections::BTreeMap;

use physics::{Evaluation, registry};
use quantity::{Kind, Quantity, Value};

/// Where a case's expected numbers come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Basis {
    /// Printed in a publication.
    Printed,
    /// Given by a standard.
    Standard,
    /// Computed by a general-purpose reference library.
    Library,
    /// A closed form, identity or limit.
    ClosedForm,
    /// A fact of the trade with no source.
    Practice,
    /// A value nobody has checked against print.
    Memory,
}

impl Basis {
    /// Word as written in a case file.
    pub fn word(self) -> &'static str {
        match self {
            Basis::Printed => "printed",
            Basis::Standard => "standard",
            Basis::Library => "library",
            Basis::ClosedForm => "closed-form",
            Basis::Practice => "practice",
            Basis::Memory => "memory",
        }
    }
}

/// One reference case.
#[derive(Debug, Clone, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Case {
    /// Short name.
    pub name: String,
    /// The relation it calls.
    pub relation: String,
    /// Where the expected numbers stand.
    pub source: String,
    /// What kind of evidence that is.
    pub basis: Basis,
    /// Inputs by name, as text.
    #[serde(default)]
    pub inputs: BTreeMap<String, String>,
    /// Expected outputs by name, as text; or `error = "words the refusal must hold"`.
    pub expected: BTreeMap<String, String>,
    /// Allowed difference by output: a quantity, or a percentage of the expected value.
    #[serde(default)]
    pub tolerance: BTreeMap<String, String>,
    /// Why that difference is allowed.
    #[serde(default)]
    pub reason: String,
}

#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct CaseFile {
    #[serde(rename = "case", default)]
    cases: Vec<Case>,
}

/// One compared output.
#[derive(Debug, Clone)]
pub struct Comparison {
    /// Output name.
    pub output: String,
    /// Expected value.
    pub expected: Value,
    /// Value the program got.
    pub got: Value,
    /// Allowed difference, SI.
    pub allowed: f64,
}

impl Comparison {
    /// Whether the difference is allowed.
    pub fn passes(&self) -> bool {
        (self.got.si() - self.expected.si()).abs() <= self.allowed
    }
}

/// What came of a case.
#[derive(Debug, Clone)]
pub enum Verdict {
    /// Outputs compared.
    Compared(Vec<Comparison>),
    /// Refused with the words the case expects.
    RefusedAsExpected(String),
    /// The case could not be run or was refused unexpectedly.
    Failed(String),
}

impl Verdict {
    /// Whether the case passes.
    pub fn passes(&self) -> bool {
        match self {
            Verdict::Compared(list) => !list.is_empty() && list.iter().all(Comparison::passes),
            Verdict::RefusedAsExpected(_) => true,
            Verdict::Failed(_) => false,
        }
    }
}

/// Reads the cases of one file.
pub fn read_cases(text: &str) -> Result<Vec<Case>, String> {
    toml::from_str::<CaseFile>(text).map(|f| f.cases).map_err(|e| e.to_string())
}

/// Runs one case.
pub fn run(case: &Case) -> Verdict {
    let outcome = evaluate(case);
    match (case.expected.get("error"), outcome) {
        (Some(words), Err(e)) if e.contains(words.as_str()) => Verdict::RefusedAsExpected(e),
        (Some(words), Err(e)) => Verdict::Failed(format!("refused with `{e}`, expected `{words}`")),
        (Some(words), Ok(_)) => Verdict::Failed(format!("accepted, expected a refusal with `{words}`")),
        (None, Err(e)) => Verdict::Failed(e),
        (None, Ok(evaluation)) => match compare(case, &evaluation) {
            Ok(list) => Verdict::Compared(list),
            Err(e) => Verdict::Failed(e),
        },
    }
}

fn evaluate(case: &Case) -> Result<Evaluation, String> {
    let relation = registry::find(&case.relation).map_err(|e| e.to_string())?;
    let call = case.inputs.iter().fold(relation.call(), |call, (name, text)| call.text(name, text));
    call.run().map_err(|e| e.to_string())
}

fn compare(case: &Case, evaluation: &Evaluation) -> Result<Vec<Comparison>, String> {
    case.expected
        .iter()
        .map(|(output, text)| {
            let got = evaluation.outputs.iter().find(|(n, _)| n == output).map(|(_, v)| *v);
            let got = got.ok_or_else(|| format!("{} has no output `{output}`", case.relation))?;
            let expected = Value::parse(text, got.kind()).map_err(|e| e.to_string())?;
            let tolerance = case.tolerance.get(output).or_else(|| case.tolerance.get("*"));
            let tolerance = tolerance.ok_or_else(|| format!("no tolerance is given for `{output}`"))?;
            let allowed = allowed(tolerance, expected)?;
            Ok(Comparison { output: output.clone(), expected, got, allowed })
        })
        .collect()
}

/// A tolerance in SI: `"0.01 ft"`, or `"0.2 %"` of the expected value. For a pure number a
/// bare number is absolute.
fn allowed(text: &str, expected: Value) -> Result<f64, String> {
    let difference = difference_kind(expected.kind());
    if text.trim().ends_with('%') {
        let share: quantity::Ratio = text.parse().map_err(|e: quantity::UnitError| e.to_string())?;
        return Ok(share.si() * expected.si().abs());
    }
    Value::parse(text, difference).map(|v| v.si().abs()).map_err(|e| e.to_string())
}

/// The kind in which a difference of `kind` is stated: temperatures differ without the offset.
fn difference_kind(kind: &'static Kind) -> &'static Kind {
    if kind == quantity::Temperature::KIND { quantity::TemperatureDifference::KIND } else { kind }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_case_that_names_nothing_fails() {
        let text = "[[case]]\nname='x'\nrelation='none_such'\nsource='s'\nbasis='memory'\nexpected={a='1'}\n";
        let cases = read_cases(text).unwrap();
        assert!(!run(&cases[0]).passes());
        assert!(read_cases("[[case]]\nnome='x'").is_err());
    }
}
