//! The corpus the fuzz targets left, replayed through the readers: nothing found once comes back.

#![allow(clippy::unwrap_used, reason = "tests")]

#[path = "../../../fuzz/claims.rs"]
mod claims;

use std::path::Path;

/// Runs a reader over every file of a target's corpus.
fn replay(target: &str, read: fn(&[u8])) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fuzz/corpus").join(target);
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    assert!(files.len() >= 20, "{target} has a corpus of {} files", files.len());
    for file in files {
        let bytes = std::fs::read(&file).unwrap();
        assert!(std::panic::catch_unwind(|| read(&bytes)).is_ok(), "{}", file.display());
    }
}

#[test]
fn the_job_file_reader_keeps_its_claims() {
    replay("job_file", claims::job_file);
}

#[test]
fn the_survey_reader_keeps_its_claims() {
    replay("survey_csv", claims::survey_csv);
}

#[test]
fn the_tally_reader_keeps_its_claims() {
    replay("tally_csv", claims::tally_csv);
}

#[test]
fn the_log_reader_keeps_its_claims() {
    replay("las", claims::las);
}

#[test]
fn the_trajectory_reader_keeps_its_claims() {
    replay("witsml", claims::witsml);
}
