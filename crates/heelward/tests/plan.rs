//! `plan` on the two example jobs: the whole output, and the documents beside it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]

mod common;
use common::{Scratch, names, run};

fn job(name: &str) -> String {
    format!("{}/../../jobs/{name}", env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn the_summary_of_each_example() {
    for name in ["long-lateral", "shallow-oil"] {
        let planned = run(&["plan", &job(name)]);
        assert_eq!(planned.code, 0, "{}", planned.out);
        insta::assert_snapshot!(format!("summary_{name}"), planned.out);
    }
}

#[test]
fn the_documents_are_all_there_and_the_same_every_time() {
    let scratch = Scratch::new("documents");
    let (once, again) = (scratch.path("once"), scratch.path("again"));
    for folder in [&once, &again] {
        let planned = run(&["plan", &job("shallow-oil"), "--out", folder]);
        assert_eq!(planned.code, 0, "{}", planned.err);
    }
    let mut expected = vec![
        "ball-card.csv",
        "findings.txt",
        "pressure-sheet.csv",
        "program.json",
        "tally.csv",
        "written.json",
    ];
    if cfg!(feature = "pdf") {
        expected.push("program.pdf");
    }
    expected.sort_unstable();
    assert_eq!(names(std::path::Path::new(&once)), expected);
    for file in expected {
        let read = |folder: &str| std::fs::read(std::path::Path::new(folder).join(file)).unwrap();
        assert!(read(&once) == read(&again), "{file} differs from run to run");
    }
    for sheet in ["ball-card.csv", "pressure-sheet.csv", "tally.csv"] {
        let text = std::fs::read_to_string(std::path::Path::new(&once).join(sheet)).unwrap();
        insta::assert_snapshot!(sheet, text.replace(env!("CARGO_PKG_VERSION"), "VERSION"));
    }
}

#[test]
fn every_sheet_row_has_as_many_cells_as_its_head() {
    let scratch = Scratch::new("sheets");
    let folder = scratch.path("out");
    assert_eq!(run(&["plan", &job("long-lateral"), "--out", &folder, "--quiet"]).code, 0);
    for sheet in ["ball-card.csv", "pressure-sheet.csv", "tally.csv"] {
        let text = std::fs::read_to_string(std::path::Path::new(&folder).join(sheet)).unwrap();
        let data: Vec<&str> = text.lines().filter(|l| !l.starts_with('#')).collect();
        // No cell of these sheets holds a comma inside quotes that would spoil the count.
        let cells = |line: &str| {
            let mut inside = false;
            line.chars()
                .filter(|c| {
                    inside ^= *c == '"';
                    *c == ',' && !inside
                })
                .count()
        };
        assert!(data.len() > 5 && data.iter().all(|l| cells(l) == cells(data[0])), "{sheet}");
    }
}

#[test]
fn the_program_as_json_is_in_si_and_names_its_input() {
    let planned = run(&["plan", &job("shallow-oil"), "--json"]);
    let json = planned.json();
    assert_eq!(json["header"]["input_hash"].as_str().map(str::len), Some(64));
    assert_eq!(json["layout"]["stages"].as_array().map(Vec::len), Some(15));
    assert_eq!(json["stages"]["stages"][0]["rate_ceiling"]["unit"], "m3/s");
    assert!(!planned.out.contains("\"value\": null"), "a figure is not a number");
    // Units change the words of the program, and nothing else.
    let field = run(&["plan", &job("shallow-oil"), "--json", "--units", "field"]).json();
    assert_ne!(field["findings"], json["findings"]);
    assert!(without_words(field) == without_words(json), "units change the data");
}

#[test]
fn a_figure_opens_to_its_workings() {
    let opened = run(&["workings", &job("long-lateral"), "stage.1.rate_ceiling"]);
    assert_eq!(opened.code, 0, "{}", opened.err);
    for part in ["pipe_friction", "seat_series", "idelchik1986", "21.3 bbl/min"] {
        assert!(opened.out.contains(part), "{part} is not in the workings");
    }
    let slip = run(&["workings", &job("long-lateral"), "stage.1.rate_cieling"]);
    assert_eq!(slip.code, 1);
    assert!(slip.err.contains("stage.1.rate_ceiling"), "{}", slip.err);
}

/// Every text of a JSON value, with its path.
fn texts<'a>(value: &'a serde_json::Value, path: &str, out: &mut Vec<(String, &'a str)>) {
    match value {
        serde_json::Value::String(text) => out.push((path.to_string(), text)),
        serde_json::Value::Array(list) => list.iter().for_each(|v| texts(v, path, out)),
        serde_json::Value::Object(fields) => {
            fields.iter().for_each(|(key, v)| texts(v, &format!("{path}.{key}"), out));
        }
        _ => {}
    }
}

/// The words of the program itself: not what someone wrote into the job file, nor the name of a tool.
fn own(path: &str) -> bool {
    let words = ["message", "next", "note", "worst_mixture", "value", "assumptions"]
        .iter()
        .any(|w| path.ends_with(w));
    words && !path.starts_with(".header")
}

/// A value with the program's own words taken out.
fn without_words(value: serde_json::Value) -> serde_json::Value {
    fn strip(value: &mut serde_json::Value, path: &str) {
        match value {
            serde_json::Value::String(text) if own(path) => text.clear(),
            serde_json::Value::Array(list) => list.iter_mut().for_each(|v| strip(v, path)),
            serde_json::Value::Object(fields) => {
                fields.iter_mut().for_each(|(key, v)| strip(v, &format!("{path}.{key}")));
            }
            _ => {}
        }
    }
    let mut value = value;
    strip(&mut value, "");
    value
}

#[test]
fn words_read_in_the_units_that_are_asked_for() {
    let of_field =
        ["in", "ft", "psi", "bbl", "ppa", "lb", "lbf", "bbl/min", "psi/ft", "lb/gal", "degF", "hp"];
    let of_metric =
        ["m", "mm", "MPa", "kPa", "m3", "kg", "N", "kN", "m3/min", "kg/m3", "degC", "kW", "MPa/m"];
    for name in ["long-lateral", "shallow-oil"] {
        for (system, others) in [("field", &of_metric[..]), ("metric", &of_field[..])] {
            for command in ["check", "plan"] {
                let told = run(&[command, &job(name), "--json", "--units", system]);
                let value: serde_json::Value = serde_json::from_str(&told.out).unwrap();
                let mut all = Vec::new();
                texts(&value, "", &mut all);
                all.retain(|(path, text)| own(path) && !text.starts_with("pup "));
                assert!(all.len() > 10, "{} texts of `{command}`", all.len());
                for (path, text) in all {
                    let words: Vec<&str> = text.split([' ', ',', ';', '(', ')', ':']).collect();
                    // Pipe is called by whole inches and fractions.
                    let called = |w: &[&str]| w[1].starts_with("in") && !w[0].contains('.');
                    let figure = |w: &[&str]| {
                        w[0].parse::<f64>().is_ok() && others.contains(&w[1].trim_end_matches('.'))
                    };
                    let strange = words.windows(2).find(|w| figure(w) && !called(w));
                    assert!(strange.is_none(), "{name} in {system} units, {path}: {text}");
                }
            }
        }
    }
}
