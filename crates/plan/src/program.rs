//! The whole program of a job, as written to `program.json`.

use std::collections::BTreeMap;

use quantity::{System, Text};
use well::record::Assumption;
use well::{Finding, Job, Severity};

use crate::balls::{BallPlan, program_balls};
use crate::casing_packer::{CasingPackerPlan, rate_casing_packer};
use crate::ladder::{LadderPlan, choose_ladder};
use crate::layout::{Layout, lay_out};
use crate::setting::{SettingPlan, set_packers};
use crate::stages::{StagesPlan, judge_supply, treat_stages};
use crate::strings::{StringsPlan, rate_strings};
use crate::{Ledger, Working};

/// What the program document says of itself.
#[derive(Debug, Clone, serde::Serialize, schemars::JsonSchema)]
pub struct Header {
    /// Version of the program that wrote it.
    pub version: String,
    /// Hash (SHA-256) of every input file, so that a document can be matched to its inputs.
    pub input_hash: String,
    /// Seed of all random numbers.
    pub seed: u64,
    /// Name of the job.
    pub job: String,
    /// Name of the well.
    pub well: String,
    /// Revision of the job file.
    pub revision: String,
    /// Role of whoever prepared it.
    pub prepared_by: String,
    /// Whether the data are invented.
    pub invented: bool,
    /// Note of the job file.
    pub note: String,
    /// Kind of system.
    pub system: String,
    /// What depths are measured from.
    pub datum: String,
    /// What azimuths are measured from.
    pub north: String,
}

/// The whole program. A part is absent where a finding says why it could not be computed.
#[derive(Debug, Clone, serde::Serialize, schemars::JsonSchema)]
pub struct Program {
    /// What the document says of itself.
    pub header: Header,
    /// Where every packer and sleeve stands, and the running tally.
    pub layout: Option<Layout>,
    /// Balls and seats.
    pub ladder: Option<LadderPlan>,
    /// What the strings of pipe bear, case by case.
    pub strings: Option<StringsPlan>,
    /// Setting the packers: windows, pressure sheet, activation fluid, swell.
    pub setting: Option<SettingPlan>,
    /// What the casing packer stands.
    pub casing_packer: Option<CasingPackerPlan>,
    /// Pressure, rate ceiling and schedule of every stage, and totals.
    pub stages: Option<StagesPlan>,
    /// One card for every ball.
    pub balls: Option<BallPlan>,
    /// Everything the checks have to say, stops first.
    pub findings: Vec<Finding>,
    /// What was taken because the job file gives no figure.
    pub assumptions: Vec<Assumption>,
    /// What every headline figure opens to, by its path.
    pub workings: BTreeMap<String, Working>,
}

/// Seed of all random numbers of a plan; the same job gives the same program.
pub const SEED: u64 = 20_517;

impl Header {
    /// Of a job.
    pub fn of(job: &Job) -> Self {
        let head = &job.file.job;
        Self {
            version: env!("CARGO_PKG_VERSION").into(),
            input_hash: job.input_hash.clone(),
            seed: SEED,
            job: head.name.clone(),
            well: head.well.clone(),
            revision: head.revision.clone(),
            prepared_by: head.prepared_by.clone(),
            invented: head.invented,
            note: head.note.clone().unwrap_or_default().trim().to_string(),
            system: job.file.system.kind.word().into(),
            datum: job.file.survey.datum.clone(),
            north: job.file.survey.north.word().into(),
        }
    }
}

impl Program {
    /// Whether any finding stops the job.
    pub fn stopped(&self) -> bool {
        self.findings.iter().any(|f| f.severity == Severity::Stop)
    }

    /// What the phases took for granted beyond the job file, as assumptions.
    fn taken(&self) -> Vec<Assumption> {
        fn told<T: Into<Text> + Clone>(phase: &str, texts: Option<&Vec<T>>) -> Vec<Assumption> {
            let one = |text: &T| Assumption {
                field: phase.to_string(),
                value: text.clone().into(),
                basis: "taken by the program; no field replaces it".into(),
            };
            texts.into_iter().flatten().map(one).collect()
        }
        let swell = self.setting.as_ref().and_then(|p| p.swell.as_ref());
        [
            told("balls and seats", self.ladder.as_ref().map(|p| &p.assumptions)),
            told("strings", self.strings.as_ref().map(|p| &p.assumptions)),
            told("setting", self.setting.as_ref().map(|p| &p.assumptions)),
            told("swell", swell.map(|p| &p.assumptions)),
            told("casing packer", self.casing_packer.as_ref().map(|p| &p.assumptions)),
        ]
        .concat()
    }

    /// The program with its words in a system of units, as it is handed to a reader of figures in SI.
    pub fn settled(mut self, system: System) -> Self {
        self.findings.iter_mut().for_each(|f| f.settle(system));
        self.assumptions.iter_mut().for_each(|a| a.settle(system));
        self.workings.values_mut().for_each(|w| w.note.settle(system));
        let stages = self.stages.iter_mut().flat_map(|s| &mut s.stages);
        stages.for_each(|s| s.worst_mixture.settle(system));
        let strings = self.strings.iter_mut().flat_map(|p| &mut p.assumptions);
        strings.for_each(|t| t.settle(system));
        self
    }

    /// How many findings have a severity.
    pub fn count(&self, severity: Severity) -> usize {
        self.findings.iter().filter(|f| f.severity == severity).count()
    }
}

/// Plans a job: every phase in job order, with what reading found before. A phase whose inputs
/// are absent is left out; the finding that says why is there.
pub fn plan(job: &Job, read: Vec<Finding>) -> Program {
    let mut ledger = Ledger { findings: read, ..Ledger::default() };
    let layout = lay_out(job, &mut ledger);
    let ladder = layout.as_ref().and_then(|l| choose_ladder(job, l, &mut ledger));
    let strings = layout.as_ref().and_then(|l| rate_strings(job, l, &mut ledger));
    let both = layout.as_ref().zip(ladder.as_ref());
    let setting = both.and_then(|(l, d)| set_packers(job, l, d, &mut ledger));
    let casing_packer = layout.as_ref().and_then(|l| rate_casing_packer(job, l, &mut ledger));
    let mut stages = both.and_then(|(l, d)| treat_stages(job, l, d, &mut ledger));
    let balls = both.zip(stages.as_ref()).and_then(|((l, d), s)| program_balls(job, l, d, s, &mut ledger));
    if let Some((stages, balls)) = stages.as_mut().zip(balls.as_ref()) {
        stages.totals.lengthen_spacers(job, balls.spacers_lengthened);
    }
    if let Some(stages) = &stages {
        judge_supply(&stages.totals, job, &mut ledger);
    }
    let mut findings: Vec<Finding> = ledger.findings.into_iter().map(|f| job.document.locate(f)).collect();
    findings.sort_by_key(|f| f.severity);
    let mut program = Program {
        header: Header::of(job),
        layout,
        ladder,
        strings,
        setting,
        casing_packer,
        stages,
        balls,
        findings,
        assumptions: job.document.assumptions.clone(),
        workings: ledger.workings,
    };
    program.assumptions.extend(program.taken());
    program
}
