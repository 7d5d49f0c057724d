//! Faults waiting for their moment.

use quantity::*;

use super::{Begins, Fault, FaultKind, Label};

/// The faults of a run, with those that have begun.
#[derive(Debug, Clone, Default)]
pub(crate) struct Faults {
    list: Vec<(Fault, Option<f64>)>,
    pub labels: Vec<Label>,
}

impl Faults {
    pub fn new(faults: &[Fault]) -> Self {
        Self { list: faults.iter().map(|f| (*f, None)).collect(), labels: Vec::new() }
    }

    /// All faults, with when they began.
    pub fn all(&self) -> impl Iterator<Item = (&Fault, Option<f64>)> {
        self.list.iter().map(|(f, begun)| (f, *begun))
    }

    /// A fault of a stage, if there is one.
    pub fn of(&self, kind: FaultKind, stage: usize) -> Option<Fault> {
        self.list.iter().find(|(f, _)| f.kind == kind && f.stage == stage).map(|(f, _)| *f)
    }

    /// Writes down that a fault has begun.
    pub fn begin(&mut self, fault: Fault, time: f64, text: String) {
        for (f, begun) in &mut self.list {
            if *f == fault {
                begun.get_or_insert(time);
            }
        }
        self.labels.push(Label {
            kind: fault.kind,
            stage: fault.stage,
            from: Time::seconds(time),
            until: None,
            text,
        });
    }

    /// Writes down that a fault is over.
    pub fn end(&mut self, kind: FaultKind, stage: usize, time: f64) {
        let mine = |l: &&mut Label| l.kind == kind && l.stage == stage && l.until.is_none();
        if let Some(label) = self.labels.iter_mut().find(mine) {
            label.until = Some(Time::seconds(time));
        }
    }

    /// Faults in the well whose time has come: `opened` says when the sleeve of a stage opened.
    pub fn due(&self, time: f64, opened: impl Fn(usize) -> Option<f64>) -> Vec<Fault> {
        let ready = |(f, begun): &(Fault, Option<f64>)| {
            let mark = match f.kind.doc().begins {
                Begins::AfterOpening => opened(f.stage),
                Begins::AfterOpeningBefore => opened(f.stage.saturating_sub(1)),
                Begins::Launch | Begins::Landing => None,
            };
            begun.is_none() && mark.is_some_and(|m| time >= m + f.after.si())
        };
        self.list.iter().filter(|f| ready(f)).map(|(f, _)| *f).collect()
    }
}
