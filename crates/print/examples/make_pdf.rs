//! Makes the PDF of a job folder: `cargo run --release -p print --example make_pdf -- jobs/long-lateral program.pdf`.
#![allow(clippy::print_stderr, reason = "a tool of the developers")]

use std::path::{Path, PathBuf};

use quantity::System;
use report::document::{Subject, manuscript};
use report::text::bibliography::Bibliography;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut words = std::env::args().skip(1);
    let (Some(folder), Some(out)) = (words.next(), words.next()) else {
        return Err("give a job folder and the PDF to write".into());
    };
    let read = well::read_job(&well::Folder(PathBuf::from(&folder)));
    let job = read.value.ok_or_else(|| format!("{folder} is not complete: {:#?}", read.findings))?;
    let system = match job.file.job.units {
        well::job::Units::Field => System::Field,
        well::job::Units::Metric => System::Metric,
    };
    let program = plan::plan(&job, read.findings);
    let sources = bibliography()?;
    let document = manuscript(&Subject { job: &job, program: &program, sources: &sources, system });
    if let Some(kept) = words.next() {
        for (name, bytes) in &document.files {
            std::fs::write(Path::new(&kept).join(name), bytes)?;
        }
    }
    std::fs::write(&out, print::program_pdf(&document)?)?;
    Ok(())
}

fn bibliography() -> Result<Bibliography, Box<dyn std::error::Error>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../cases/bibliography");
    let mut paths: Vec<PathBuf> =
        std::fs::read_dir(folder)?.map(|e| e.map(|e| e.path())).collect::<Result<_, _>>()?;
    paths.sort();
    let mut all = Bibliography::default();
    for path in paths {
        all.add(&std::fs::read_to_string(path)?)?;
    }
    Ok(all)
}
