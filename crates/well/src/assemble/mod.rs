//! From the job folder to the job: the job file, its data files, and everything there is to say
//! of them. Reading goes on past faults; the job is complete only when every part of it is.

mod check;
mod parts;
mod pipes;
mod quality;

use quantity::*;

pub use check::CHECKS;
pub use pipes::PipeString;
pub use quality::Quality;

use crate::finding::{Finding, Read, Severity};
use crate::hole::Hole;
use crate::host::{Host, HostError, LARGEST_JOB_FILE};
use crate::job::{JOB_FILE, JobFile, StringRole, judge, read_job_file};
use crate::record::Document;
use crate::tally::{Joint, JointKind};
use crate::trajectory::Trajectory;

/// A job, complete: what every phase of the plan works on.
#[derive(Debug, Clone)]
pub struct Job {
    /// The job file.
    pub file: JobFile,
    /// Its text, lines and assumptions.
    pub document: Document,
    /// The path of the hole.
    pub trajectory: Trajectory,
    /// The hole as drilled.
    pub hole: Hole,
    /// The strings of pipe, in the order of the job file.
    pub strings: Vec<PipeString>,
    /// Joints of the rack, in running order, toe first.
    pub joints: Vec<Joint>,
    /// The log of rock quality, if there is one.
    pub quality: Option<Quality>,
    /// SHA-256 of every input file with its name, in hexadecimal.
    pub input_hash: String,
}

impl Job {
    /// The liner.
    pub fn liner(&self) -> Option<&PipeString> {
        self.strings.iter().find(|s| s.table.role == StringRole::Liner)
    }

    /// Joints that are run one on the other, toe first: all of the tally but its pups.
    pub fn running_joints(&self) -> impl Iterator<Item = &Joint> {
        self.joints.iter().filter(|j| j.kind != JointKind::Pup)
    }

    /// Pups on location, each less its make-up loss: those of the tally file, then those of the job
    /// file.
    pub fn pups(&self) -> impl Iterator<Item = Length> + '_ {
        let filed = self.joints.iter().filter(|j| j.kind == JointKind::Pup).map(|j| j.length);
        filed.chain(self.file.tally.pup.iter().map(|length| *length - self.file.tally.make_up_loss))
    }

    /// Undisturbed temperature of the rock at a vertical depth, on the straight line through
    /// surface and reference depth.
    pub fn rock_temperature(&self, tvd: TrueVerticalDepth) -> Temperature {
        let rock = &self.file.rock;
        let share = tvd.si() / rock.bottom_temperature_depth.si().max(1.0);
        rock.surface_temperature + (rock.bottom_temperature - rock.surface_temperature) * share
    }

    /// One standard deviation of a pipe depth: it grows linearly from zero at the surface.
    pub fn depth_sigma(&self, depth: MeasuredDepth) -> Length {
        self.file.hole.depth_sigma * (depth.si() / self.file.hole.total_depth.si().max(1.0)).clamp(0.0, 1.5)
    }
}

/// A job folder as far as it could be read.
#[derive(Debug, Clone)]
pub struct Reading {
    /// The job, if every part of it is complete.
    pub job: Option<Job>,
    /// Everything there is to say, in reading order.
    pub findings: Vec<Finding>,
    /// The job file: its text, lines and assumptions.
    pub document: Document,
    /// SHA-256 of every file read with its name, in hexadecimal.
    pub input_hash: String,
}

/// Reads a job from its folder.
pub fn read_job(host: &dyn Host) -> Read<Job> {
    let reading = read_folder(host);
    Read { value: reading.job, findings: reading.findings }
}

/// Reads a job folder, and gives the job file and the hash even where the job is not complete.
pub fn read_folder(host: &dyn Host) -> Reading {
    let mut desk = Desk { host, findings: Vec::new(), hash: sha2::Sha256::default() };
    let (document, parts) = desk.job_file().unwrap_or_default();
    let input_hash = desk.digest();
    let findings = desk.findings.into_iter().map(|f| document.locate(f)).collect();
    let job = parts.map(|parts| parts.job(document.clone(), input_hash.clone()));
    Reading { job, findings, document, input_hash }
}

/// The parts of a job, all there.
struct Parts {
    file: JobFile,
    trajectory: Trajectory,
    hole: Hole,
    strings: Vec<PipeString>,
    joints: Vec<Joint>,
    quality: Option<Quality>,
}

impl Parts {
    fn job(self, document: Document, input_hash: String) -> Job {
        let Self { file, trajectory, hole, strings, joints, quality } = self;
        Job { file, document, trajectory, hole, strings, joints, quality, input_hash }
    }
}

/// Reading in progress: the host, the findings so far, the hash of what was read.
struct Desk<'a> {
    host: &'a dyn Host,
    findings: Vec<Finding>,
    hash: sha2::Sha256,
}

impl Desk<'_> {
    /// The job file with its document, and the parts where every one could be read; none where
    /// there is no text.
    fn job_file(&mut self) -> Option<(Document, Option<Parts>)> {
        let bytes = self.fetch(JOB_FILE, "")?;
        if bytes.len() > LARGEST_JOB_FILE {
            let message = said!("{JOB_FILE} is {} bytes; {LARGEST_JOB_FILE} is the most", bytes.len());
            let next = "Keep tables of data in files of their own beside the job file.";
            self.findings.push(check::UNREADABLE.found(message).file(JOB_FILE).next(next));
            return None;
        }
        let text = match String::from_utf8(bytes) {
            Ok(text) => text,
            Err(e) => {
                self.findings.push(not_text(&e));
                return None;
            }
        };
        let (read, document) = read_job_file(text.trim_start_matches('\u{feff}'));
        self.findings.extend(read.findings);
        Some((document, read.value.and_then(|file| self.parts(file))))
    }

    fn parts(&mut self, file: JobFile) -> Option<Parts> {
        self.findings.extend(judge(&file));
        let trajectory = self.survey(&file);
        let hole = self.hole(&file);
        let strings = self.strings(&file);
        let joints = self.joints(&file);
        let quality = self.quality(&file);
        Some(Parts {
            trajectory: trajectory?,
            hole: hole?,
            strings: strings?,
            joints: joints?,
            quality: quality?,
            file,
        })
    }

    /// The bytes of a file that a field names.
    fn fetch(&mut self, name: &str, field: &str) -> Option<Vec<u8>> {
        use sha2::Digest;
        match self.host.read(name) {
            Ok(bytes) => {
                self.hash.update((name.len() as u64).to_le_bytes());
                self.hash.update(name.as_bytes());
                self.hash.update((bytes.len() as u64).to_le_bytes());
                self.hash.update(&bytes);
                Some(bytes)
            }
            Err(e) => {
                let check = match e {
                    HostError::Absent(_) => &check::ABSENT,
                    _ => &check::UNREADABLE,
                };
                let mut finding = check.found(e.to_string());
                if let HostError::TooLarge { .. } = e {
                    finding = finding.next("Give only the part of the file that belongs to this job.");
                }
                if !field.is_empty() {
                    finding = finding.field(field);
                }
                self.findings.push(finding);
                None
            }
        }
    }

    /// Takes a reader's findings and its value.
    fn take<T>(&mut self, read: Read<T>) -> Option<T> {
        self.findings.extend(read.findings);
        read.value
    }

    fn digest(&self) -> String {
        use sha2::Digest;
        self.hash.clone().finalize().iter().map(|b| format!("{b:02x}")).collect()
    }
}

/// The finding for a job file that is not UTF-8, at the line where it stops being so.
fn not_text(error: &std::string::FromUtf8Error) -> Finding {
    let valid = error.as_bytes().get(..error.utf8_error().valid_up_to()).unwrap_or_default();
    let line = valid.iter().filter(|b| **b == b'\n').count() + 1;
    let start = valid.iter().rposition(|b| *b == b'\n').map_or(0, |i| i + 1);
    let shown = String::from_utf8_lossy(valid.get(start..).unwrap_or_default()).into_owned();
    check::NOT_TEXT.found("the job file is not UTF-8 text here").line(JOB_FILE, line, shown)
}

/// Whether any finding stops the job.
pub fn stops(findings: &[Finding]) -> bool {
    findings.iter().any(|f| f.severity == Severity::Stop)
}
