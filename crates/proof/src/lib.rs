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

/// What is wrong with a case itself: one that could not miss, or that says nothing of its source.
fn flaw(case: &Case) -> Option<&'static str> {
    if case.source.trim().is_empty() {
        return Some("the case names no source; write where its numbers stand");
    }
    match case.expected.get("error") {
        Some(words) if words.trim().is_empty() => {
            Some("the case expects any refusal; write words the refusal must hold")
        }
        Some(_) if case.expected.len() > 1 => {
            Some("the case expects both a refusal and an output; write two")
        }
        _ => None,
    }
}

/// Runs one case.
pub fn run(case: &Case) -> Verdict {
    if let Some(flaw) = flaw(case) {
        return Verdict::Failed(flaw.to_string());
    }
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
/// bare number is absolute. A negative one allows nothing, and the whole of the expected value
/// would allow zero, so neither is a tolerance.
fn allowed(text: &str, expected: Value) -> Result<f64, String> {
    let refused = |why: &str| Err(format!("the tolerance `{text}` {why}"));
    let difference = difference_kind(expected.kind());
    let allowed = if text.trim().ends_with('%') {
        let share: quantity::Ratio = text.parse().map_err(|e: quantity::UnitError| e.to_string())?;
        if share.si() >= 1.0 {
            return refused("allows anything down to zero; it must be below 100 %");
        }
        share.si() * expected.si().abs()
    } else {
        Value::parse(text, difference).map_err(|e| e.to_string())?.si()
    };
    if allowed < 0.0 || text.trim().starts_with('-') {
        return refused("is negative; it must be zero or more");
    }
    Ok(allowed)
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

    fn bore(source: &str, expected: &str, tolerance: &str) -> Verdict {
        let text = format!(
            "[[case]]\nname='x'\nrelation='bore_capacity'\nsource='{source}'\nbasis='memory'\n\
             inputs={{bore='4 in'}}\nexpected={{{expected}}}\ntolerance={{capacity='{tolerance}'}}\n"
        );
        run(&read_cases(&text).unwrap()[0])
    }

    #[test]
    fn a_case_that_could_not_miss_fails() {
        let near = "capacity='0.01554 bbl/ft'";
        assert!(bore("s", near, "0.00001 bbl/ft").passes() && bore("s", near, "0.1 %").passes());
        assert!(!bore("s", near, "0 bbl/ft").passes(), "a tolerance of zero asks for the very number");
        for tolerance in ["-1 bbl/ft", "-1 %", "-0 bbl/ft", "100 %", "inf bbl/ft", "NaN %"] {
            assert!(matches!(bore("s", near, tolerance), Verdict::Failed(_)), "{tolerance}");
        }
        assert!(matches!(bore("s", "capacity='NaN bbl/ft'", "1 %"), Verdict::Failed(_)));
        assert!(matches!(bore(" ", near, "1 %"), Verdict::Failed(w) if w.contains("source")));
    }

    #[test]
    fn a_refusal_is_expected_in_words_and_alone() {
        let refused = |expected: &str| {
            let text = format!(
                "[[case]]\nname='x'\nrelation='bore_capacity'\nsource='s'\nbasis='memory'\n\
                 inputs={{bore='4 psi'}}\nexpected={{{expected}}}\n"
            );
            run(&read_cases(&text).unwrap()[0])
        };
        assert!(refused("error='not a unit of diameter'").passes());
        assert!(!refused("error=''").passes());
        assert!(!refused("error='not a unit of diameter', capacity='1 bbl/ft'").passes());
    }
}
