//! The ledger of a plan: findings as they are made, and the workings of every headline figure.

use std::collections::BTreeMap;

use physics::{Evaluation, InputKind};
use quantity::{Kind, System, Text, Value, said};
use well::{Check, Finding, Severity};

use crate::checks::RELATION_REFUSED;

/// One named value of a step.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Named {
    /// Name in the relation.
    pub name: String,
    /// What it is.
    pub doc: String,
    /// Value; several for a list, none for a word.
    pub values: Vec<Value>,
    /// The word of a choice.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub word: Option<String>,
}

/// One call of a relation.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Step {
    /// Relation.
    pub relation: String,
    /// Its title.
    pub title: String,
    /// Its equation.
    pub equation: String,
    /// Its source: bibliography key and place.
    pub source: String,
    /// Its range of validity.
    pub range: String,
    /// Inputs.
    pub inputs: Vec<Named>,
    /// Outputs.
    pub outputs: Vec<Named>,
    /// Inputs outside their range of validity.
    pub outside: Vec<String>,
}

/// What a figure opens to.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Working {
    /// What the figure is.
    pub title: String,
    /// The figure.
    pub value: Value,
    /// The calls it was made of, in order.
    pub steps: Vec<Step>,
    /// How the steps make the figure, and anything a reader must know.
    pub note: Text,
}

impl Step {
    /// From a finished call.
    pub fn of(evaluation: &Evaluation) -> Self {
        let relation = evaluation.relation;
        let inputs = relation.inputs.iter().zip(&evaluation.inputs).map(|(input, (_, argument))| {
            let (values, word) = match argument {
                physics::Argument::Value(v) => (vec![*v], None),
                physics::Argument::List(l) => (l.clone(), None),
                physics::Argument::Word(w) => (Vec::new(), Some((*w).to_string())),
            };
            debug_assert!(word.is_none() || matches!(input.kind, InputKind::Choice(_)));
            Named { name: input.name.into(), doc: input.doc.into(), values, word }
        });
        let doc = |name: &str| {
            relation.outputs.iter().find(|o| o.name == name).map(|o| o.doc).unwrap_or_default().to_string()
        };
        let outputs = evaluation.outputs.iter().map(|(name, value)| Named {
            name: (*name).into(),
            doc: doc(name),
            values: vec![*value],
            word: None,
        });
        Self {
            relation: relation.name.into(),
            title: relation.title.into(),
            equation: relation.equation.into(),
            source: relation.source.into(),
            range: relation.range.into(),
            inputs: inputs.collect(),
            outputs: outputs.collect(),
            outside: evaluation.outside.iter().map(|s| (*s).into()).collect(),
        }
    }
}

impl Named {
    /// Value or word for a person.
    pub fn text(&self, system: System) -> String {
        match &self.word {
            Some(word) => word.clone(),
            None => list_text(&self.values, system),
        }
    }
}

/// Values of one kind in one unit, that of the largest.
fn list_text(values: &[Value], system: System) -> String {
    let largest = values.iter().max_by(|a, b| a.si().abs().total_cmp(&b.si().abs()));
    let Some(unit) = largest.map(|v| v.kind().shown_for(system, v.si())) else { return String::new() };
    values.iter().map(|v| v.exact_text_in(unit, 6)).collect::<Vec<_>>().join(", ")
}

/// Findings and workings, collected through the phases.
#[derive(Debug, Clone, Default)]
pub struct Ledger {
    /// Findings, in the order they were made.
    pub findings: Vec<Finding>,
    /// Workings by the figure's path in the program, such as `stage.3.rate_ceiling`.
    pub workings: BTreeMap<String, Working>,
}

impl Ledger {
    /// Adds a finding.
    pub fn say(&mut self, finding: Finding) {
        self.findings.push(finding);
    }

    /// Whether any finding stops the job.
    pub fn stopped(&self) -> bool {
        self.findings.iter().any(|f| f.severity == Severity::Stop)
    }

    /// Records the workings of a figure.
    pub fn open(
        &mut self,
        figure: impl Into<String>,
        title: &str,
        value: impl Into<Value>,
        steps: &[&Evaluation],
        note: impl Into<Text>,
    ) {
        let steps = steps.iter().map(|e| Step::of(e)).collect();
        let working = Working { title: title.into(), value: value.into(), steps, note: note.into() };
        self.workings.insert(figure.into(), working);
    }

    /// The value of a relation's call, or a finding that names the relation and what it refused.
    pub fn take<T>(&mut self, what: &str, result: physics::Result<T>) -> Option<T> {
        match result {
            Ok(value) => Some(value),
            Err(e) => {
                self.say(RELATION_REFUSED.found(said!("{what} could not be computed: {e}")));
                None
            }
        }
    }
}

/// A figure with its spread.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Band<Q> {
    /// Nine in ten are above it.
    pub p10: Q,
    /// Half are above it.
    pub p50: Q,
    /// One in ten is above it.
    pub p90: Q,
}

impl<Q: quantity::Quantity> Band<Q> {
    /// A band with no spread.
    pub fn sharp(value: Q) -> Self {
        Self { p10: value, p50: value, p90: value }
    }

    /// A normal spread of standard deviation `sigma` (SI number of `Q`) about `middle`.
    pub fn normal(middle: Q, sigma: f64) -> Self {
        /// Standard normal quantile of 0.9.
        const Z90: f64 = 1.281_551_565_544_600_4;
        let at = |z: f64| Q::from_si(middle.si() + z * sigma);
        Self { p10: at(-Z90), p50: middle, p90: at(Z90) }
    }

    /// The kind of the figure.
    pub fn kind(&self) -> &'static Kind {
        Q::KIND
    }
}

/// A check and a shorthand to make its finding, for modules that declare several.
pub type Checks = &'static [&'static Check];
