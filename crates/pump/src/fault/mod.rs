//! Faults of a run: given one by one as text or in a scenario, acted out in the well or on the
//! instruments, and labelled beside the channels.

pub(crate) mod armed;
pub mod kind;
mod scenario;

pub use kind::{Begins, Channels, FAULTS, FaultDoc, FaultKind};
pub use scenario::{Scenario, read_scenario};

use quantity::*;

use crate::error::PumpError;

/// One fault that a run is to have.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Fault {
    /// Which.
    pub kind: FaultKind,
    /// Stage it belongs to.
    pub stage: usize,
    /// Time from its beginning mark (see [`Begins`]).
    pub after: Time,
    /// Time in which it grows, or for which it lasts.
    pub over: Time,
    /// Its size; what that means is in [`FaultDoc::size`].
    pub size: Ratio,
}

/// What really happened, beside the channels.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Label {
    /// Which fault.
    pub kind: FaultKind,
    /// Stage it belongs to.
    pub stage: usize,
    /// When it began.
    pub from: Time,
    /// When it was over; none where it lasted to the end.
    pub until: Option<Time>,
    /// In words.
    pub text: String,
}

impl Fault {
    /// A fault with what is usual for its kind.
    pub fn usual(kind: FaultKind, stage: usize) -> Self {
        let doc = kind.doc();
        Self {
            kind,
            stage,
            after: Time::seconds(doc.after),
            over: Time::seconds(doc.over),
            size: Ratio::of(doc.size.1),
        }
    }

    /// Its size as a whole number of stages.
    pub(crate) fn steps(&self) -> usize {
        self.size.si().round().clamp(1.0, 100.0) as usize
    }

    /// Stages whose balls it takes; none where it takes no ball.
    pub fn balls(&self) -> Vec<usize> {
        match (self.kind, self.kind.doc().begins) {
            (FaultKind::BallsSwapped, _) => vec![self.stage, self.stage + 1],
            (FaultKind::BallTooLarge, _) => vec![self.stage, self.stage + self.steps()],
            (_, Begins::Launch | Begins::Landing) => vec![self.stage],
            _ => Vec::new(),
        }
    }

    /// Reads `name@stage,after=5 min,over=30 s,size=0.5`; only the name must be there.
    ///
    /// # Errors
    /// A name, key or value that is none, with those that are.
    pub fn parse(text: &str) -> Result<Self, PumpError> {
        let mut parts = text.split(',').map(str::trim);
        let head = parts.next().unwrap_or_default();
        let (name, stage) = match head.split_once('@') {
            Some((name, stage)) => (name.trim(), Some(stage.trim())),
            None => (head, None),
        };
        let mut fault = Self::usual(kind_of(name)?, DEFAULT_STAGE);
        if let Some(stage) = stage {
            fault.set("stage", stage)?;
        }
        for part in parts {
            let (key, value) = part
                .split_once('=')
                .ok_or_else(|| refused(text, format!("`{part}` is no `key=value`"), "write `after=5 min`"))?;
            fault.set(key.trim(), value.trim())?;
        }
        Ok(fault)
    }

    /// Sets one of its figures from text.
    pub(crate) fn set(&mut self, key: &str, value: &str) -> Result<(), PumpError> {
        let wrong = |e: UnitError| refused(value, e.to_string(), "give the value with its unit");
        match key {
            "stage" => {
                let number = value.parse().ok().filter(|n| (1..=1000).contains(n));
                self.stage = number.ok_or_else(|| {
                    refused(value, "a stage is a whole number from 1 on".into(), "stage 1 is at the toe")
                })?;
            }
            "after" => self.after = positive(Time::parse(value).map_err(wrong)?, value)?,
            "over" => self.over = positive(Time::parse(value).map_err(wrong)?, value)?,
            "size" => {
                let size = Ratio::parse(value).map_err(wrong)?;
                if !(0.0..=1000.0).contains(&size.si()) {
                    return Err(refused(
                        value,
                        "a size is from 0 to 1000".into(),
                        "see `--fault list` for what it means",
                    ));
                }
                self.size = size;
            }
            other => {
                let text = format!("`{other}` is no figure of a fault");
                return Err(refused(other, text, "take stage, after, over or size"));
            }
        }
        Ok(())
    }
}

/// Stage of a fault that names none.
const DEFAULT_STAGE: usize = 2;

fn positive(time: Time, text: &str) -> Result<Time, PumpError> {
    if (0.0..=1e7).contains(&time.si()) {
        return Ok(time);
    }
    Err(refused(text, "a time is from 0 to 1e7 s".into(), "count it from the mark that `--fault list` names"))
}

/// The kind of a name.
pub(crate) fn kind_of(name: &str) -> Result<FaultKind, PumpError> {
    FAULTS.iter().find(|d| d.name == name).map(|d| d.kind).ok_or_else(|| {
        let names: Vec<&str> = FAULTS.iter().map(|d| d.name).collect();
        refused(name, format!("there is no fault `{name}`"), &format!("take one of {}", names.join(", ")))
    })
}

fn refused(value: &str, reason: String, hint: &str) -> PumpError {
    PumpError::Fault { value: value.into(), reason, hint: hint.into() }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests")]
mod tests {
    use super::*;

    #[test]
    fn a_fault_is_read_from_its_text() {
        let fault = Fault::parse("packer-leak@7, after=5 min, size=0.5").unwrap();
        assert_eq!((fault.kind, fault.stage), (FaultKind::PackerLeak, 7));
        assert_eq!(
            (fault.after, fault.over, fault.size.si()),
            (Time::minutes(5.0), Time::seconds(30.0), 0.5)
        );
        assert_eq!(Fault::parse("pump-trip").unwrap(), Fault::usual(FaultKind::PumpTrip, DEFAULT_STAGE));
    }

    #[test]
    fn what_is_no_fault_is_refused_with_what_is_one() {
        for (text, word) in [
            ("pump-tripp", "pump-trip"),
            ("pump-trip@0", "whole number"),
            ("pump-trip@-1", "whole number"),
            ("pump-trip@2,after=5", "unit"),
            ("pump-trip@2,after=-5 s", "from 0"),
            ("pump-trip@2,size=1e9", "from 0 to 1000"),
            ("pump-trip@2,depth=5 m", "stage, after, over or size"),
            ("pump-trip@2,after", "key=value"),
            ("", "take one of"),
        ] {
            let said = Fault::parse(text).unwrap_err().to_string();
            assert!(said.contains(word), "{text}: {said}");
        }
    }

    #[test]
    fn every_fault_is_documented_once() {
        for doc in FAULTS {
            assert_eq!(FAULTS.iter().filter(|d| d.name == doc.name || d.kind == doc.kind).count(), 1);
            for text in [doc.title, doc.signature, doc.telling, doc.response] {
                assert!(text.len() > 20 || text == doc.title, "{}: {text}", doc.name);
            }
            assert_eq!(serde_name(doc.kind), doc.name);
        }
    }

    fn serde_name(kind: FaultKind) -> String {
        let mut out = String::new();
        for c in format!("{kind:?}").chars() {
            if c.is_uppercase() && !out.is_empty() {
                out.push('-');
            }
            out.push(c.to_ascii_lowercase());
        }
        out
    }
}
