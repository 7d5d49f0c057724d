//! The printed document of the example jobs: whole, in order, and with the program's figures.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

use std::path::{Path, PathBuf};

use plan::Program;
use quantity::{Quantity, System};
use report::document::{Document, Subject, manuscript};
use report::text::bibliography::Bibliography;
use serde_json::Value;
use well::{Folder, Host, HostError, Job, read_job};

fn jobs() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs")
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

fn planned(host: &dyn Host) -> (Job, Program) {
    let read = read_job(host);
    let job = read.value.unwrap_or_else(|| panic!("{:#?}", read.findings));
    let program = plan::plan(&job, read.findings);
    (job, program)
}

fn example(name: &str) -> (Job, Program) {
    planned(&Folder(jobs().join(name)))
}

fn document(job: &Job, program: &Program, system: System) -> Document {
    let sources = Bibliography::default();
    manuscript(&Subject { job, program, sources: &sources, system })
}

fn data(document: &Document) -> Value {
    serde_json::from_slice(&document.files["data.json"]).unwrap()
}

fn blocks(data: &Value) -> Vec<&Value> {
    data["blocks"].as_array().unwrap().iter().collect()
}

fn sections(data: &Value) -> Vec<&str> {
    blocks(data)
        .into_iter()
        .filter(|b| b["kind"] == "section")
        .map(|b| b["title"].as_str().unwrap())
        .collect()
}

/// Every text of the data, wherever it stands.
fn texts(value: &Value, out: &mut Vec<String>) {
    match value {
        Value::String(text) => out.push(text.clone()),
        Value::Array(list) => list.iter().for_each(|v| texts(v, out)),
        Value::Object(map) => map.values().for_each(|v| texts(v, out)),
        _ => {}
    }
}

fn all_texts(data: &Value) -> Vec<String> {
    let mut out = Vec::new();
    texts(data, &mut out);
    out
}

const IN_JOB_ORDER: &[&str] = &[
    "Cautions",
    "Basis",
    "Well sketch",
    "The lateral, tool by tool",
    "Stage map",
    "Running tally",
    "Ball and seat ladder",
    "Balls on their seats",
    "Bores and drifts",
    "Strings",
    "Casing packer",
    "Setting the packers: pressure sheet",
    "Pressure sequence",
    "Devices and forces",
    "Swell of the packers",
    "Swell, packer by packer",
    "Rate ceiling and treating pressure",
    "Rates and pressures by stage",
    "Parts of the highest treating pressure",
    "Pump schedule",
    "Totals",
    "Ball program",
    "Balls to have on location",
    "Ball cards",
    "Findings",
    "Assumptions",
    "Workings of the headline figures",
    "Sources",
];

/// What must hold of the document of any program.
fn sound(document: &Document) {
    let data = data(document);
    for block in blocks(&data) {
        let named = [block["file"].as_str()].into_iter().chain(
            block["cards"]
                .as_array()
                .into_iter()
                .flatten()
                .map(|c| c["drawing"].as_str().filter(|d| !d.is_empty())),
        );
        for file in named.flatten() {
            assert!(document.files.contains_key(file), "{file} is named but not there");
        }
        if block["kind"] == "table" {
            let columns = block["columns"].as_array().unwrap().len();
            for row in block["rows"].as_array().unwrap() {
                assert_eq!(row.as_array().unwrap().len(), columns, "{row}");
            }
        }
    }
    for (name, bytes) in document.files.iter().filter(|(n, _)| n.ends_with(".svg")) {
        let text = std::str::from_utf8(bytes).unwrap();
        let mut reader = quick_xml::Reader::from_str(text);
        loop {
            match reader.read_event() {
                Ok(quick_xml::events::Event::Eof) => break,
                Ok(_) => {}
                Err(e) => panic!("{name}: {e}"),
            }
        }
    }
    for text in all_texts(&data) {
        let word = |w: &str| text.split(|c: char| !c.is_alphanumeric()).any(|part| part == w);
        assert!(!word("NaN") && !word("inf"), "{text}");
    }
}

#[test]
fn the_long_lateral_is_whole_in_field_units() {
    let (job, program) = example("long-lateral");
    let document = document(&job, &program, System::Field);
    sound(&document);
    let data = data(&document);
    assert_eq!(sections(&data), IN_JOB_ORDER);
    assert_eq!(data["sheet"]["paper"], "us-letter");
    let cards = blocks(&data).into_iter().find(|b| b["kind"] == "cards").unwrap();
    let cards = cards["cards"].as_array().unwrap();
    assert_eq!(cards.len(), 30);
    let balls = program.balls.as_ref().unwrap();
    for (card, ball) in cards.iter().zip(&balls.cards) {
        assert_eq!(card["title"], format!("Stage {}", ball.stage));
        assert_eq!(card["ball"], ball.ball.text(System::Field));
        assert_eq!(card["measurers"].as_array().unwrap().len(), 2, "two people measure");
        assert_eq!(card["measure"].as_array().unwrap().len(), 3, "two diameters and initials");
        let facts = card["facts"].to_string();
        let drawing = &document.files[card["drawing"].as_str().unwrap()];
        let drawing = String::from_utf8_lossy(drawing);
        for (figure, place) in [(ball.landing.p50, facts.as_str()), (ball.missing_at, &drawing)] {
            let text = quantity::number(figure.shown(System::Field), 1);
            assert!(place.contains(&text), "{text} in {place}");
        }
    }
}

#[test]
fn the_shallow_well_is_whole_in_metric_units() {
    let (job, program) = example("shallow-oil");
    let document = document(&job, &program, System::Metric);
    sound(&document);
    let data = data(&document);
    let without_swell: Vec<&str> = IN_JOB_ORDER.iter().copied().filter(|s| !s.starts_with("Swell")).collect();
    assert_eq!(sections(&data), without_swell);
    assert_eq!(data["sheet"]["paper"], "a4");
    let cards = blocks(&data).into_iter().find(|b| b["kind"] == "cards").unwrap();
    let cards = cards["cards"].as_array().unwrap();
    assert_eq!(cards.len(), 15, "one setting ball and fourteen frac balls");
    assert_eq!(cards[0]["title"], "Setting ball");
    let columns = blocks(&data).into_iter().filter_map(|b| b["columns"].as_array()).flatten();
    let units: Vec<&str> = columns.filter_map(|c| c["unit"].as_str()).collect();
    assert!(units.contains(&"MPa") && units.contains(&"m\u{b3}"));
    let field = ["ft", "in", "psi", "bbl", "lb", "lbf", "\u{b0}F", "bbl/min", "hp"];
    assert!(units.iter().all(|u| !field.contains(u)), "field units in a metric document: {units:?}");
    let texts = all_texts(&data);
    let stages = program.stages.as_ref().unwrap();
    let highest = stages.stages.iter().map(|s| s.pressure.surface).reduce(|a, b| a.max(b)).unwrap();
    let text = highest.text(System::Metric);
    assert!(texts.iter().any(|t| t.starts_with(&text)), "{text} is not on the first page");
}

#[test]
fn the_same_program_gives_the_same_document() {
    let (job, program) = example("shallow-oil");
    let (a, b) = (document(&job, &program, System::Metric), document(&job, &program, System::Metric));
    assert_eq!((a.files, a.identity), (b.files, b.identity));
}

#[test]
fn a_program_whose_words_are_settled_gives_the_same_document() {
    for name in ["long-lateral", "shallow-oil"] {
        let (job, program) = example(name);
        for system in [System::Field, System::Metric] {
            let settled = program.clone().settled(system);
            let [own, settled] = [&program, &settled].map(|p| data(&document(&job, p, system)));
            assert_eq!(own["blocks"].as_array().map(Vec::len), settled["blocks"].as_array().map(Vec::len));
            let words = |data: &Value| all_texts(data).into_iter().collect::<std::collections::BTreeSet<_>>();
            let differing: Vec<String> =
                words(&own).symmetric_difference(&words(&settled)).cloned().collect();
            assert!(own == settled, "{name} in {system:?}: {differing:#?}");
        }
    }
}

#[test]
fn what_could_not_be_computed_is_said_to_be_missing() {
    let (job, program) = example("shallow-oil");
    let bare = Program {
        layout: None,
        ladder: None,
        strings: None,
        setting: None,
        casing_packer: None,
        stages: None,
        balls: None,
        ..program
    };
    let document = document(&job, &bare, System::Metric);
    sound(&document);
    let data = data(&document);
    let missing: Vec<&str> = blocks(&data)
        .into_iter()
        .filter_map(|b| b["title"].as_str().filter(|t| t.contains("not computed")))
        .collect();
    let parts = [
        "Layout",
        "Ladder",
        "Strings",
        "Casing packer",
        "Setting",
        "Stages",
        "Pump schedule",
        "Ball program",
    ];
    for part in parts {
        assert!(missing.iter().any(|m| m.starts_with(part)), "{part} in {missing:?}");
    }
}

#[test]
fn cautions_and_standing_are_in_every_document() {
    let (job, program) = example("shallow-oil");
    let document = document(&job, &program, System::Metric);
    let texts = all_texts(&data(&document));
    for caution in report::text::caution::CAUTIONS {
        assert!(texts.iter().any(|t| t == caution.rule), "{}", caution.subject);
    }
    assert!(texts.iter().any(|t| t == report::text::caution::STANDING));
    assert!(document.text.contains("decision support, not a safety system"));
}

#[test]
fn words_of_a_job_never_reach_the_typst_text() {
    let folder = jobs().join("shallow-oil");
    let text = std::fs::read_to_string(folder.join("job.toml")).unwrap();
    let name = "Shallow Oil 15-4 (invented)";
    let wild = "#panic() *a* _b_ $c$ <d> & @e [f] \\\\ `g`";
    assert!(text.contains(name));
    let changed = Changed { folder: Folder(folder), job: text.replace(name, wild) };
    let (job, program) = planned(&changed);
    let wild_document = document(&job, &program, System::Metric);
    sound(&wild_document);
    assert!(!wild_document.text.contains("#panic"));
    let data = data(&wild_document);
    assert_eq!(data["header"]["well"], wild.replace("\\\\", "\\"));
}
