//! The invented example jobs: their data files are what the generator writes, and their job files
//! are read without a finding that stops the job.

#![allow(clippy::unwrap_used)] // helpers of tests

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use well::Severity;
use well::job::{JOB_FILE, JobFile, judge, read_job_file};
use well::las::{caliper_curve, read_las};
use well::record::{Document, Shape, TableDoc};

#[path = "../examples/make_jobs/files.rs"]
mod files;

const JOBS: [&str; 2] = ["long-lateral", "shallow-oil"];

fn jobs() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs")
}

fn text(job: &str) -> String {
    std::fs::read_to_string(jobs().join(job).join(JOB_FILE)).unwrap()
}

fn read(job: &str) -> (JobFile, Document) {
    let (read, document) = read_job_file(&text(job));
    assert!(read.findings.is_empty(), "{job}: {:#?}", read.findings);
    (read.value.unwrap(), document)
}

#[test]
fn data_files_are_what_the_generator_writes() {
    for file in files::all() {
        let committed = std::fs::read_to_string(jobs().join(&file.path)).unwrap();
        let line = file.text.lines().zip(committed.lines()).position(|(a, b)| a != b);
        let message = "differs from what `cargo run -p well --example make_jobs` writes";
        assert!(line.is_none(), "{} {message}, first in line {}", file.path, line.unwrap_or(0) + 1);
        assert_eq!(file.text.len(), committed.len(), "{} {message}", file.path);
    }
}

#[test]
fn every_data_file_a_job_names_is_there() {
    for job in JOBS {
        let (record, _) = read(job);
        let named = [
            Some(record.survey.file),
            record.hole.caliper.map(|c| c.file),
            record.rock.quality.map(|q| q.file),
            record.tally.file,
        ];
        let generated: BTreeSet<String> = files::all().into_iter().map(|f| f.path).collect();
        for name in named.into_iter().flatten() {
            assert!(generated.contains(&format!("{job}/{name}")), "{job} names `{name}`");
        }
    }
}

#[test]
fn job_files_are_read_and_judged_without_a_stop() {
    for job in JOBS {
        let (record, document) = read(job);
        let judged = judge(&record);
        let stops: Vec<_> = judged.iter().filter(|f| f.severity == Severity::Stop).collect();
        assert!(stops.is_empty(), "{job}: {stops:#?}");
        assert!(record.job.invented, "{job} must say that it is invented");
        assert!(document.text.lines().take(3).any(|l| l.contains("All data are invented")), "{job}");
        assert!(!document.assumptions.is_empty(), "{job} should leave something to be assumed");
    }
}

#[test]
fn logs_are_read_without_a_warning() {
    for file in files::all().into_iter().filter(|f| f.path.ends_with(".las")) {
        let read = read_las(file.text.as_bytes(), &file.path);
        assert!(read.findings.is_empty(), "{}: {:#?}", file.path, read.findings);
        let log = read.value.unwrap();
        if file.path.ends_with("caliper.las") {
            let caliper = caliper_curve(&log, None);
            let notes_only = caliper.findings.iter().all(|f| f.severity == Severity::Note);
            assert!(caliper.value.is_some() && notes_only, "{}: {:#?}", file.path, caliper.findings);
        }
    }
}

/// A template shows every field of every table it has: set, or as a comment.
#[test]
fn job_files_show_every_field_between_them() {
    let texts = JOBS.map(text);
    let mut tables = Vec::new();
    collect(JobFile::table(), &mut tables);
    for table in tables {
        for field in &table.fields {
            let shown = texts.iter().any(|t| shows(t, field.key));
            assert!(shown, "no example job shows `{}` of {}", field.key, table.name);
        }
    }
}

fn collect(table: TableDoc, into: &mut Vec<TableDoc>) {
    for field in &table.fields {
        let mut shape = field.shape;
        while let Shape::List(inner) = shape {
            shape = inner();
        }
        if let Shape::Table(inner) = shape {
            collect(inner(), into);
        }
    }
    into.push(table);
}

fn is_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

/// Whether the key stands in the text as a key, a table's name or a commented key.
fn shows(text: &str, key: &str) -> bool {
    text.match_indices(key).any(|(at, _)| {
        let before = text[..at].chars().next_back();
        let after = text[at + key.len()..].trim_start_matches(' ');
        before.is_none_or(|c| !is_word(c)) && after.starts_with(['=', ']', '.'])
    })
}

/// The pups of the tally file and of the job file are strapped alike, so both lose their make-up.
#[test]
fn every_pup_loses_its_make_up() {
    use quantity::{Length, Quantity};
    let job = well::read_job(&well::Folder(jobs().join("shallow-oil"))).value.unwrap();
    let pups: Vec<Length> = job.pups().collect();
    let listed = [3.728, 0.69, 0.70].map(|m| Length::m(m - 0.076));
    assert_eq!(pups.len(), 15);
    for (pup, listed) in pups.iter().zip(listed) {
        assert!((pup.si() - listed.si()).abs() < 1e-12, "{pup}");
    }
}
