//! Strings of pipe and the joints of the liner.

use quantity::*;

use super::{Desk, check};
use crate::finding::Finding;
use crate::job::{self, JobFile, StringTable};
use crate::tally::{Joint, JointKind, LengthRange, read_tally_csv, simulated_tally};
use crate::tubular::{Catalogue, Connection, Pipe, PipeSpec, RatedConnection};

/// A string of pipe with its place in the well.
#[derive(Debug, Clone, PartialEq)]
pub struct PipeString {
    /// Its table of the job file.
    pub table: StringTable,
    /// Its pipe.
    pub pipe: Pipe,
}

impl PipeString {
    /// Inner diameter.
    pub fn bore(&self) -> Diameter {
        self.pipe.inner()
    }

    /// Drift.
    pub fn drift(&self) -> Diameter {
        self.pipe.drift()
    }
}

impl Joint {
    /// Name in the running tally.
    pub fn name(&self) -> String {
        let kind =
            if self.kind == JointKind::Joint { String::new() } else { format!(" ({})", self.kind.word()) };
        format!("joint {}{kind}", self.number)
    }
}

impl Desk<'_> {
    /// All strings; none where one of them cannot be made up.
    pub(super) fn strings(&mut self, file: &JobFile) -> Option<Vec<PipeString>> {
        let catalogue = match Catalogue::standard() {
            Ok(catalogue) => catalogue,
            Err(e) => {
                self.findings.push(e.finding());
                return None;
            }
        };
        let mut out = Vec::with_capacity(file.string.len());
        for (i, table) in file.string.iter().enumerate() {
            match Pipe::new(spec(table), catalogue) {
                Ok(pipe) => {
                    let at = format!("string[{}]", i + 1);
                    self.findings.extend(pipe.doubts().into_iter().map(|f| f.field(at.clone())));
                    out.push(PipeString { table: table.clone(), pipe });
                }
                Err(e) => self.findings.push(e.finding().field(format!("string[{}]", i + 1))),
            }
        }
        (out.len() == file.string.len()).then_some(out)
    }

    /// The joints, each less its make-up loss.
    pub(super) fn joints(&mut self, file: &JobFile) -> Option<Vec<Joint>> {
        let loss = file.tally.make_up_loss;
        let joints = match (&file.tally.file, &file.tally.simulated) {
            (Some(name), _) => {
                let bytes = self.fetch(name, "tally.file")?;
                self.take(read_tally_csv(&bytes, name))?
            }
            (None, Some(table)) => self.simulated(table)?,
            (None, None) => return None,
        };
        let net = |j: Joint| Joint { length: j.length - loss, ..j };
        let joints: Vec<Joint> = joints.into_iter().filter(|j| j.kind != JointKind::Tool).map(net).collect();
        if let Some(short) = joints.iter().find(|j| j.length.si() <= 0.0) {
            let message = said!("the make-up loss takes all of joint {}", short.number);
            self.findings.push(check::TALLY.found(message).field("tally.make_up_loss").value(loss));
            return None;
        }
        if let Some(short) = file.tally.pup.iter().find(|pup| **pup <= loss) {
            let message = "the make-up loss takes all of a pup of the job file";
            self.findings.push(check::TALLY.found(message).field("tally.pup").value(*short).limit(loss));
            return None;
        }
        Some(joints)
    }

    fn simulated(&mut self, table: &job::SimulatedTally) -> Option<Vec<Joint>> {
        let range = match table.range {
            job::LengthRange::Two => LengthRange::Two,
            job::LengthRange::Three => LengthRange::Three,
        };
        let (mean, sd) = range.assumed();
        match simulated_tally(table.seed as u64, table.count, range, mean, sd) {
            Ok(joints) => {
                self.findings.push(simulated_note(&joints, mean));
                Some(joints)
            }
            Err(e) => {
                self.findings.push(check::TALLY.found(e.to_string()).field("tally.simulated"));
                None
            }
        }
    }
}

fn simulated_note(joints: &[Joint], mean: Length) -> Finding {
    let message = said!("{} joints are made up by the program about a mean of {mean}", joints.len());
    check::SIMULATED.found(message).field("tally.simulated")
}

fn spec(table: &StringTable) -> PipeSpec {
    let source = table.source.clone().unwrap_or_default();
    let connection = match table.connection {
        job::Connection::ShortRound => Connection::ShortRound,
        job::Connection::LongRound => Connection::LongRound,
        job::Connection::Buttress => Connection::Buttress,
        job::Connection::Rated => Connection::Rated(RatedConnection {
            outer: table.connection_od,
            tension: table.connection_tension,
            compression: table.connection_compression,
            internal: table.connection_internal,
            external: None,
            source: source.clone(),
        }),
    };
    PipeSpec {
        name: String::new(),
        inner: table.id,
        yield_strength: table.yield_strength,
        ultimate_strength: table.ultimate_strength,
        drift: table.drift,
        yield_factor: table.yield_factor,
        ..PipeSpec::standard(table.od, table.weight, &table.grade, connection)
    }
}
