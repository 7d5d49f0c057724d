//! The register of relations: name, inputs, outputs, source, range, and one way to call them.
//!
//! A relation's kernel is an ordinary typed function. Its [`Relation`] entry is what `calc`,
//! `verify` and the workings of a plan use: it reads the inputs by name, calls the kernel, and
//! returns the outputs by name, so a figure in a program can be opened to the very call that
//! made it.

use crate::error::{Error, Result};
use quantity::{Kind, Quantity, System, Value};

/// What an input may hold.
#[derive(Debug, Clone, Copy)]
pub enum InputKind {
    /// One quantity.
    Quantity(&'static Kind),
    /// A list of quantities, written with commas between.
    List(&'static Kind),
    /// One word of a list.
    Choice(&'static [&'static str]),
}

/// One input of a relation.
#[derive(Debug, Clone, Copy)]
pub struct Input {
    /// Name, as written in `calc NAME=value`.
    pub name: &'static str,
    /// What it may hold.
    pub kind: InputKind,
    /// What it is, in a few words.
    pub doc: &'static str,
    /// Text taken when it is not given.
    pub default: Option<&'static str>,
    /// Range of validity in SI, both ends inside; outside it the result is flagged, not refused.
    pub range: Option<(f64, f64)>,
}

impl Input {
    /// A quantity that must be given.
    pub const fn new<Q: Quantity>(name: &'static str, doc: &'static str) -> Self {
        Self { name, kind: InputKind::Quantity(Q::KIND), doc, default: None, range: None }
    }

    /// A list of quantities.
    pub const fn list<Q: Quantity>(name: &'static str, doc: &'static str) -> Self {
        Self { name, kind: InputKind::List(Q::KIND), doc, default: None, range: None }
    }

    /// One word of `choices`.
    pub const fn choice(name: &'static str, choices: &'static [&'static str], doc: &'static str) -> Self {
        Self { name, kind: InputKind::Choice(choices), doc, default: None, range: None }
    }

    /// The same with a default text.
    pub const fn or(mut self, text: &'static str) -> Self {
        self.default = Some(text);
        self
    }

    /// The same with a range of validity in SI numbers.
    pub const fn within(mut self, low: f64, high: f64) -> Self {
        self.range = Some((low, high));
        self
    }
}

/// One output of a relation.
#[derive(Debug, Clone, Copy)]
pub struct Output {
    /// Name.
    pub name: &'static str,
    /// Kind.
    pub kind: &'static Kind,
    /// What it is, in a few words.
    pub doc: &'static str,
}

impl Output {
    /// An output of type `Q`.
    pub const fn new<Q: Quantity>(name: &'static str, doc: &'static str) -> Self {
        Self { name, kind: Q::KIND, doc }
    }
}

/// A registered relation.
#[derive(Debug)]
pub struct Relation {
    /// Name, `snake_case`, unique.
    pub name: &'static str,
    /// Title with its convention (Darcy or Fanning, gauge or absolute).
    pub title: &'static str,
    /// The equation in the source's symbols.
    pub equation: &'static str,
    /// Bibliography key and place, such as `taylor1972 eq. 3`.
    pub source: &'static str,
    /// Range of validity, or "none stated by the source".
    pub range: &'static str,
    /// The inputs.
    pub inputs: &'static [Input],
    /// The outputs.
    pub outputs: &'static [Output],
    /// Reads the inputs, calls the kernel, names the outputs.
    pub evaluate: fn(&Arguments) -> Result<Outputs>,
}

/// One argument as held during a call.
#[derive(Debug, Clone, PartialEq)]
pub enum Argument {
    /// One quantity.
    Value(Value),
    /// A list of quantities.
    List(Vec<Value>),
    /// A word.
    Word(&'static str),
}

impl Argument {
    /// Text for a person.
    pub fn text(&self, system: System) -> String {
        match self {
            Argument::Value(v) => v.exact_text(system, 8),
            Argument::List(l) => l.iter().map(|v| v.exact_text(system, 6)).collect::<Vec<_>>().join(", "),
            Argument::Word(w) => (*w).to_string(),
        }
    }
}

/// The arguments of a call, by name.
#[derive(Debug, Clone)]
pub struct Arguments {
    relation: &'static Relation,
    held: Vec<(&'static str, Argument)>,
}

/// The outputs of a call, by name.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Outputs(pub Vec<(&'static str, Value)>);

impl Outputs {
    /// No outputs yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds one.
    pub fn put(mut self, name: &'static str, value: impl Into<Value>) -> Self {
        self.0.push((name, value.into()));
        self
    }
}

/// A finished call: what a figure opens to.
#[derive(Debug, Clone)]
pub struct Evaluation {
    /// The relation called.
    pub relation: &'static Relation,
    /// All inputs, defaults included.
    pub inputs: Vec<(&'static str, Argument)>,
    /// All outputs.
    pub outputs: Vec<(&'static str, Value)>,
    /// Names of inputs outside their range of validity.
    pub outside: Vec<&'static str>,
}

impl Evaluation {
    /// An output as its type.
    pub fn get<Q: Quantity>(&self, name: &str) -> Result<Q> {
        let found = self.outputs.iter().find(|(n, _)| *n == name).and_then(|(_, v)| v.typed::<Q>());
        found.ok_or_else(|| Error::NoSolution {
            relation: self.relation.name,
            what: format!("it has no output `{name}` of kind {}", Q::KIND.name),
            hint: "See `calc --list` for its outputs.",
        })
    }
}

impl Arguments {
    /// An input as its type.
    pub fn get<Q: Quantity>(&self, name: &'static str) -> Result<Q> {
        match self.find(name)? {
            Argument::Value(v) => v.typed::<Q>().ok_or_else(|| self.wrong(name)),
            _ => Err(self.wrong(name)),
        }
    }

    /// An input as a plain number, for pure ratios, counts and exponents.
    pub fn number(&self, name: &'static str) -> Result<f64> {
        self.get::<quantity::Ratio>(name).map(|r| r.si())
    }

    /// A list input as its type.
    pub fn list<Q: Quantity>(&self, name: &'static str) -> Result<Vec<Q>> {
        match self.find(name)? {
            Argument::List(l) => l.iter().map(|v| v.typed::<Q>().ok_or_else(|| self.wrong(name))).collect(),
            _ => Err(self.wrong(name)),
        }
    }

    /// A choice input.
    pub fn word(&self, name: &'static str) -> Result<&'static str> {
        match self.find(name)? {
            Argument::Word(w) => Ok(w),
            _ => Err(self.wrong(name)),
        }
    }

    fn find(&self, name: &'static str) -> Result<&Argument> {
        self.held.iter().find(|(n, _)| *n == name).map(|(_, a)| a).ok_or_else(|| self.wrong(name))
    }

    fn wrong(&self, name: &'static str) -> Error {
        Error::NoSolution {
            relation: self.relation.name,
            what: format!("its registration does not declare `{name}` as it reads it"),
            hint: "This is a fault of the program; please report it.",
        }
    }
}

/// A call being put together.
#[derive(Debug, Clone)]
pub struct Call {
    arguments: Arguments,
    fault: Option<Error>,
}

impl Relation {
    /// Starts a call.
    pub fn call(&'static self) -> Call {
        Call { arguments: Arguments { relation: self, held: Vec::new() }, fault: None }
    }

    fn input(&'static self, name: &str) -> Result<&'static Input> {
        self.inputs.iter().find(|i| i.name == name).ok_or_else(|| Error::UnknownInput {
            relation: self.name,
            input: name.to_string(),
            nearest: nearest(name, self.inputs.iter().map(|i| i.name)),
            inputs: self.inputs.iter().map(|i| i.name).collect::<Vec<_>>().join(", "),
        })
    }
}

impl Call {
    /// Gives a quantity.
    pub fn with<Q: Quantity>(self, name: &'static str, quantity: Q) -> Self {
        self.hold(name, Argument::Value(Value::of(quantity)))
    }

    /// Gives a pure number.
    pub fn number(self, name: &'static str, value: f64) -> Self {
        self.with(name, quantity::Ratio::of(value))
    }

    /// Gives a list.
    pub fn list<Q: Quantity>(self, name: &'static str, list: &[Q]) -> Self {
        self.hold(name, Argument::List(list.iter().map(|q| Value::of(*q)).collect()))
    }

    /// Gives a word.
    pub fn word(self, name: &'static str, word: &'static str) -> Self {
        self.hold(name, Argument::Word(word))
    }

    fn hold(mut self, name: &'static str, argument: Argument) -> Self {
        self.arguments.held.push((name, argument));
        self
    }

    /// Gives an input as text.
    pub fn text(mut self, name: &str, text: &str) -> Self {
        match self.arguments.relation.input(name).and_then(|i| read(self.arguments.relation.name, i, text)) {
            Ok((name, argument)) => self.hold(name, argument),
            Err(e) => {
                self.fault.get_or_insert(e);
                self
            }
        }
    }

    /// Fills the defaults, evaluates, and checks that every output is finite.
    pub fn run(mut self) -> Result<Evaluation> {
        if let Some(fault) = self.fault {
            return Err(fault);
        }
        let relation = self.arguments.relation;
        let mut held = Vec::with_capacity(relation.inputs.len());
        for input in relation.inputs {
            let given = self.arguments.held.iter().rposition(|(n, _)| *n == input.name);
            held.push(match (given, input.default) {
                (Some(i), _) => self.arguments.held.swap_remove(i),
                (None, Some(text)) => read(relation.name, input, text)?,
                (None, None) => return Err(missing(relation.name, input)),
            });
        }
        if let Some((name, _)) = self.arguments.held.first() {
            relation.input(name)?;
        }
        let arguments = Arguments { relation, held };
        let outputs = (relation.evaluate)(&arguments)?.0;
        if let Some((output, _)) = outputs.iter().find(|(_, v)| !v.si().is_finite()) {
            return Err(Error::NotFinite { relation: relation.name, output });
        }
        let outside = outside(relation, &arguments.held);
        Ok(Evaluation { relation, inputs: arguments.held, outputs, outside })
    }
}

fn outside(relation: &'static Relation, held: &[(&'static str, Argument)]) -> Vec<&'static str> {
    let breaks = |v: &Value, (low, high): (f64, f64)| v.si() < low || v.si() > high;
    relation
        .inputs
        .iter()
        .zip(held)
        .filter(|(input, (_, argument))| match (input.range, argument) {
            (Some(range), Argument::Value(v)) => breaks(v, range),
            (Some(range), Argument::List(l)) => l.iter().any(|v| breaks(v, range)),
            _ => false,
        })
        .map(|(input, _)| input.name)
        .collect()
}

fn read(relation: &'static str, input: &'static Input, text: &str) -> Result<(&'static str, Argument)> {
    let value = |kind, t: &str| {
        Value::parse(t, kind).map_err(|source| Error::Text { relation, input: input.name, source })
    };
    let argument = match input.kind {
        InputKind::Quantity(kind) => Argument::Value(value(kind, text)?),
        InputKind::List(kind) if text.trim().is_empty() => {
            let _ = kind;
            Argument::List(Vec::new())
        }
        InputKind::List(kind) => {
            Argument::List(text.split(',').map(|t| value(kind, t)).collect::<Result<_>>()?)
        }
        InputKind::Choice(words) => match words.iter().find(|w| **w == text.trim()) {
            Some(word) => Argument::Word(word),
            None => {
                return Err(Error::Choice {
                    relation,
                    input: input.name,
                    found: text.trim().to_string(),
                    choices: words.join(", "),
                });
            }
        },
    };
    Ok((input.name, argument))
}

fn missing(relation: &'static str, input: &'static Input) -> Error {
    let example = match input.kind {
        InputKind::Quantity(kind) => format!("{}=\"1 {}\"", input.name, kind.field),
        InputKind::List(kind) => format!("{}=\"1 {u}, 2 {u}\"", input.name, u = kind.field),
        InputKind::Choice(words) => format!("{}={}", input.name, words.first().unwrap_or(&"")),
    };
    Error::Missing { relation, input: input.name, doc: input.doc, example }
}

/// The candidate closest to `word` by edit distance, if any is close enough to be a slip.
pub fn nearest<'a>(word: &str, candidates: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    candidates
        .map(|c| (distance(word, c), c))
        .filter(|(d, c)| *d <= 2 + c.len() / 4)
        .min_by_key(|(d, _)| *d)
        .map(|(_, c)| c)
}

fn distance(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, ca) in a.chars().enumerate() {
        let mut diagonal = row[0];
        row[0] = i + 1;
        for (j, cb) in b.iter().enumerate() {
            let substituted = diagonal + usize::from(ca != *cb);
            diagonal = row[j + 1];
            row[j + 1] = substituted.min(row[j] + 1).min(diagonal + 1);
        }
    }
    row[b.len()]
}

/// The relation of that name.
pub fn find(name: &str) -> Result<&'static Relation> {
    crate::relations().find(|r| r.name == name).ok_or_else(|| Error::UnknownRelation {
        name: name.to_string(),
        nearest: nearest(name, crate::relations().map(|r| r.name)),
    })
}
