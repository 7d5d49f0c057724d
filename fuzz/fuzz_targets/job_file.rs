//! The job file, and the job made from it with small data files beside it.

#![no_main]

use libfuzzer_sys::fuzz_target;
use std::collections::BTreeMap;
use std::sync::LazyLock;
use well::host::Memory;
use well::job::{JOB_FILE, judge, read_job_file};
use well::read_job;

/// Data files a job of the corpus names, cut short.
static BESIDE: LazyLock<Memory> = LazyLock::new(|| {
    let files: [(&str, &[u8]); 4] = [
        ("survey.csv", include_bytes!("../beside/survey.csv")),
        ("joints.csv", include_bytes!("../beside/joints.csv")),
        ("caliper.las", include_bytes!("../beside/caliper.las")),
        ("rock.las", include_bytes!("../beside/rock.las")),
    ];
    Memory(files.into_iter().map(|(name, bytes)| (name.to_string(), bytes.to_vec())).collect::<BTreeMap<_, _>>())
});

fuzz_target!(|bytes: &[u8]| {
    if let Ok(text) = std::str::from_utf8(bytes) {
        let (read, document) = read_job_file(text);
        claims::said(&read, bytes);
        if let Some(file) = &read.value {
            let judged = judge(file).into_iter().map(|f| document.locate(f)).collect::<Vec<_>>();
            claims::lines(&judged, bytes);
        }
    }
    let mut host = BESIDE.clone();
    host.0.insert(JOB_FILE.to_string(), bytes.to_vec());
    let job = read_job(&host);
    let own = |f: &well::Finding| f.place.file.as_deref() == Some(JOB_FILE);
    claims::lines(&job.findings.iter().filter(|f| own(f)).cloned().collect::<Vec<_>>(), bytes);
    assert!(job.value.is_some() || !job.findings.is_empty(), "refused without a word");
});
