//! The PDF of the example jobs: it is made, it is the same every time, and it says what the
//! program says. What needs the tools of poppler is left out, with a word, where they are absent.
#![allow(clippy::unwrap_used, clippy::panic, clippy::print_stderr, reason = "tests")]

use std::path::{Path, PathBuf};
use std::process::Command;

use plan::Program;
use print::program_pdf;
use quantity::{Quantity, System};
use report::document::{Document, Subject, manuscript};
use report::text::bibliography::Bibliography;
use well::{Folder, Host, HostError, read_job};

fn jobs() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs")
}

fn made(host: &dyn Host, system: System) -> (Program, Document) {
    let read = read_job(host);
    let job = read.value.unwrap_or_else(|| panic!("{:#?}", read.findings));
    let program = plan::plan(&job, read.findings);
    let sources = Bibliography::default();
    let document = manuscript(&Subject { job: &job, program: &program, sources: &sources, system });
    (program, document)
}

fn example(name: &str, system: System) -> (Program, Document) {
    made(&Folder(jobs().join(name)), system)
}

/// What a tool of poppler says of a PDF; none where the tool is absent.
fn ask(tool: &str, pdf: &[u8], name: &str, words: &[&str]) -> Option<String> {
    let path = std::env::temp_dir().join(format!("{name}-{}-{tool}.pdf", std::process::id()));
    std::fs::write(&path, pdf).unwrap();
    let said = Command::new(tool).args(words.iter().take(1)).arg(&path).args(words.iter().skip(1)).output();
    std::fs::remove_file(&path).unwrap();
    match said {
        Ok(out) => Some(String::from_utf8_lossy(&out.stdout).into_owned()),
        Err(e) => {
            eprintln!("left out: {tool} cannot be run ({e})");
            None
        }
    }
}

fn pages(pdf: &[u8], name: &str) -> Option<usize> {
    let said = ask("pdfinfo", pdf, name, &[])?;
    let line = said.lines().find(|l| l.starts_with("Pages:")).unwrap_or_else(|| panic!("{said}"));
    line.split_whitespace().nth(1)?.parse().ok()
}

fn judge_pages(pdf: &[u8], name: &str, between: (usize, usize)) {
    if let Some(pages) = pages(pdf, name) {
        assert!(pages >= between.0 && pages <= between.1, "{name} has {pages} pages");
    }
    if let Some(fonts) = ask("pdffonts", pdf, name, &[]) {
        let rows: Vec<&str> = fonts.lines().skip(2).collect();
        assert!(!rows.is_empty());
        for row in rows {
            assert!(row.contains("DejaVuSans"), "{row}");
            // Columns from the right: object number and generation, unicode, subset, embedded.
            let words: Vec<&str> = row.split_whitespace().rev().collect();
            assert_eq!(words[4], "yes", "not embedded: {row}");
        }
    }
}

#[test]
fn the_long_lateral_is_printed_with_the_figures_of_the_program() {
    let (program, document) = example("long-lateral", System::Field);
    let pdf = program_pdf(&document).unwrap();
    assert!(pdf.starts_with(b"%PDF"));
    judge_pages(&pdf, "long-lateral", (40, 60));
    let Some(text) = ask("pdftotext", &pdf, "long-lateral", &["-layout", "-"]) else { return };
    let (layout, stages, balls) = (program.layout.unwrap(), program.stages.unwrap(), program.balls.unwrap());
    let highest = stages.stages.iter().map(|s| s.pressure.surface).reduce(|a, b| a.max(b)).unwrap();
    let lowest = stages.stages.iter().map(|s| s.rate_ceiling).reduce(|a, b| a.min(b)).unwrap();
    let first = balls.cards.first().unwrap();
    let figures = [
        layout.shoe.text(System::Field),
        layout.casing_packer_top.text(System::Field),
        highest.text(System::Field),
        lowest.text(System::Field),
        first.ball.text(System::Field),
        quantity::number(first.landing.p50.in_bbl(), 1),
        program.header.input_hash[..12].to_string(),
        program.header.revision.clone(),
        "INVENTED DATA".to_string(),
        "decision support, not a safety system".to_string(),
    ];
    for figure in figures {
        assert!(text.contains(&figure), "{figure} is not in the PDF");
    }
    for row in layout.tally.iter().filter(|r| !r.serial.is_empty()) {
        assert!(text.contains(&row.serial), "{} is not in the PDF", row.serial);
    }
}

#[test]
fn the_shallow_well_is_printed_in_metric_units_and_the_same_every_time() {
    let (program, document) = example("shallow-oil", System::Metric);
    let pdf = program_pdf(&document).unwrap();
    assert_eq!(pdf, program_pdf(&document).unwrap());
    judge_pages(&pdf, "shallow-oil", (25, 45));
    let Some(text) = ask("pdftotext", &pdf, "shallow-oil", &["-layout", "-"]) else { return };
    let setting = program.setting.unwrap();
    let mut figures = vec![setting.highest.text(System::Metric), setting.end_load.text(System::Metric)];
    figures.extend(setting.sheet.iter().filter_map(|s| s.target).map(|t| quantity::number(t.in_mpa(), 3)));
    for figure in figures {
        assert!(text.contains(&figure), "{figure} is not in the PDF");
    }
    assert!(text.contains("Setting ball"));
}

/// A job folder with another job file.
struct Changed {
    folder: Folder,
    job: String,
}

impl Host for Changed {
    fn read(&self, name: &str) -> Result<Vec<u8>, HostError> {
        if name == "job.toml" { Ok(self.job.clone().into_bytes()) } else { self.folder.read(name) }
    }
}

#[test]
fn signs_of_typst_and_xml_in_a_job_are_printed_as_they_stand() {
    let folder = jobs().join("shallow-oil");
    let text = std::fs::read_to_string(folder.join("job.toml")).unwrap();
    let wild = "#panic() *a* _b_ $c$ <d> & @e [f] `g` // h";
    let job = text.replace("Shallow Oil 15-4 (invented)", wild).replace("linear gel", "gel <1> & #2");
    let (_, document) = made(&Changed { folder: Folder(folder), job }, System::Metric);
    let pdf = program_pdf(&document).unwrap();
    let Some(text) = ask("pdftotext", &pdf, "wild", &["-layout", "-"]) else { return };
    assert!(text.contains(wild) && text.contains("gel <1> & #2"));
}

#[test]
fn a_job_that_has_no_layout_is_printed_with_what_stops_it() {
    let folder = jobs().join("shallow-oil");
    let text = std::fs::read_to_string(folder.join("job.toml")).unwrap();
    let job = text.replace("\nstages = 15", "\nstages = 150");
    assert_ne!(job, text);
    let (program, document) = made(&Changed { folder: Folder(folder), job }, System::Metric);
    assert!(program.layout.is_none() && program.stopped());
    let pdf = program_pdf(&document).unwrap();
    let Some(text) = ask("pdftotext", &pdf, "stopped", &["-layout", "-"]) else { return };
    assert!(text.contains("Do not run this program as it stands"));
    assert!(text.contains("not computed, see the findings"));
}
