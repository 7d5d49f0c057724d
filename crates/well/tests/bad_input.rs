//! Faults a tired hand makes, one at a time in the example jobs: each is said with its line, its
//! field and what would mend it, and none ends the program.

#![allow(clippy::unwrap_used, clippy::panic)] // a test fails by panicking

mod bad_input_beside;

use bad_input_beside::{Told, edited, findings_of, folder_with, one_edit, whole_file};
use well::{Read, Severity, read_job};

const LONG: &str = "long-lateral";
const SHALLOW: &str = "shallow-oil";

/// One edit of a line of the job file: what is said, and words of it.
#[track_caller]
fn says(job: &str, (from, to): (&str, &str), id: &str, words: &[&str]) {
    let (told, line) = one_edit(job, from, to, id);
    assert_eq!(told.file.as_deref(), Some("job.toml"), "{told:#?}");
    assert_eq!(told.line, Some(line), "{told:#?}");
    told.holds(words);
}

#[test]
fn a_unit_that_does_not_fit_is_refused_with_those_that_do() {
    let edit = ("length = \"22 ft\"", "length = \"22 psi\"");
    says(LONG, edit, "job-unit", &["`packer.length`", "psi", "ft"]);
    says(
        SHALLOW,
        ("rate = \"1.6 m3/min\"", "rate = \"1.6 m3\""),
        "job-unit",
        &["`treatment.rate`", "bbl/min"],
    );
}

#[test]
fn a_bare_number_is_refused_with_the_units_that_fit() {
    says(
        LONG,
        ("total_depth = \"20600 ft\"", "total_depth = 20600"),
        "job-unit",
        &["bare number", "\"20600 ft\"", "m"],
    );
    says(
        LONG,
        ("total_depth = \"20600 ft\"", "total_depth = \"20600\""),
        "job-unit",
        &["`hole.total_depth`", "ft"],
    );
    says(LONG, ("nominal = \"2000 psi\"", "nominal = 2.0e3"), "job-unit", &["`sleeve.shear.nominal`", "psi"]);
}

#[test]
fn a_negative_length_is_refused() {
    says(LONG, ("length = \"22 ft\"", "length = \"-22 ft\""), "job-negative", &["`packer.length`", "-22 ft"]);
    says(LONG, ("rathole = \"10 ft\"", "rathole = \"-10 ft\""), "job-negative", &["`system.rathole`"]);
}

#[test]
fn what_is_no_number_is_refused() {
    let field = "total_depth = \"20600 ft\"";
    for odd in
        ["nan ft", "NaN ft", "inf ft", "-inf ft", "1e999 ft", "infinity ft", "ft", "", "0x10 ft", "2 0600 ft"]
    {
        let to = format!("total_depth = \"{odd}\"");
        says(LONG, (field, &to), "job-unit", &["`hole.total_depth`"]);
    }
    says(LONG, (field, "total_depth = nan"), "job-unit", &["`hole.total_depth`", "bare number"]);
    says(LONG, (field, "total_depth = inf"), "job-unit", &["`hole.total_depth`", "bare number"]);
    let share = "safety_factor = 1.15";
    for odd in ["nan", "inf", "-inf", "\"nan\""] {
        says(LONG, (share, &share.replace("1.15", odd)), "job-unit", &["`ball.safety_factor`"]);
    }
}

#[test]
fn a_number_no_well_has_is_refused() {
    for odd in ["1e300 ft", "1e-300 ft", "4e12 m", "2e6 m"] {
        let to = format!("total_depth = \"{odd}\"");
        says(LONG, ("total_depth = \"20600 ft\"", &to), "job-range", &["`hole.total_depth`", odd]);
    }
}

#[test]
fn a_decimal_comma_is_refused_and_not_guessed() {
    says(
        SHALLOW,
        ("length = \"3.6 m\"", "length = \"3,6 m\""),
        "job-unit",
        &["`casing_packer.length`", "3,6"],
    );
    says(LONG, ("pump_power = \"1600 hp\"", "pump_power = \"1,600 hp\""), "job-unit", &["1,600"]);
}

#[test]
fn a_key_that_is_not_known_is_refused_with_the_nearest() {
    let edit = ("ports_from_top = \"1.6 ft\"", "port_from_top = \"1.6 ft\"");
    says(LONG, edit, "job-unknown-field", &["`port_from_top`", "`ports_from_top`"]);
    says(
        LONG,
        ("[casing_packer]\n", "[casing_paker]\n"),
        "job-unknown-field",
        &["`casing_paker`", "`casing_packer`"],
    );
    let read = edited(LONG, "ports_from_top = \"1.6 ft\"", "port_from_top = \"1.6 ft\"");
    findings_of(&read, "job-missing-field")[0].holds(&["`sleeve`", "`ports_from_top`", "\"1 ft\""]);
}

#[test]
fn a_word_that_may_not_stand_there_is_refused_with_those_that_may() {
    let edit = ("kind = \"fluid-activated\"", "kind = \"fluid-activatd\"");
    says(LONG, edit, "job-choice", &["`system.kind`", "nearest: \"fluid-activated\"", "\"hydraulic-set\""]);
    says(
        LONG,
        ("stages = 30", "stages = \"thirty\""),
        "job-wrong-type",
        &["`system.stages`", "a whole number"],
    );
    says(LONG, ("stages = 30", "stages = -30"), "job-range", &["`system.stages`", "-30"]);
    says(LONG, ("stages = 30", "stages = 9223372036854775807"), "job-range", &["`system.stages`"]);
    says(LONG, ("stages = 30", "stages = 30.0"), "job-wrong-type", &["`system.stages`"]);
    says(
        LONG,
        ("invented = true", "invented = \"yes\""),
        "job-wrong-type",
        &["`job.invented`", "true or false"],
    );
}

#[test]
fn every_fault_of_syntax_is_said_at_once() {
    let read = edited(LONG, "od = \"5.625 in\"", "od = 5.625 in");
    let first = findings_of(&read, "job-syntax");
    assert!(
        !first.is_empty() && first.iter().all(|f| f.shown.as_deref() == Some("od = 5.625 in")),
        "{first:#?}"
    );

    let (text, _) = whole_file(LONG, "od = \"5.625 in\"", "od = 5.625 in");
    let text = text.replacen("mass = \"190 lb\"", "mass = \"190 lb", 1).replacen("[limits]", "[limits", 1);
    let read = read_job(&folder_with(LONG, text.as_bytes()));
    let lines: Vec<String> = findings_of(&read, "job-syntax").into_iter().filter_map(|f| f.shown).collect();
    for wanted in ["od = 5.625 in", "mass = \"190 lb", "[limits"] {
        assert!(lines.iter().any(|l| l == wanted), "{wanted} is not among {lines:#?}");
    }
}

#[test]
fn a_key_given_twice_is_refused_where_it_stands_again() {
    let edit = ("largest_hole = \"6.5 in\"", "largest_hole = \"6.5 in\"\nlargest_hole = \"7 in\"");
    let read = edited(LONG, edit.0, edit.1);
    let told = findings_of(&read, "job-syntax");
    assert!(told.iter().any(|f| f.shown.as_deref() == Some("largest_hole = \"7 in\"")), "{told:#?}");
}

#[test]
fn an_empty_job_file_lacks_everything() {
    for text in ["", "\n\n\n", "# nothing\n", "\u{feff}"] {
        let read = read_job(&folder_with(LONG, text.as_bytes()));
        assert!(read.value.is_none());
        let lacking = findings_of(&read, "job-missing-field");
        assert!(lacking.len() > 15, "{text:?}: {lacking:#?}");
        assert!(lacking.iter().all(|f| f.line == Some(1) || text.starts_with('\n')), "{lacking:#?}");
    }
}

#[test]
fn ten_thousand_nested_tables_are_refused_without_a_crash() {
    let deep = |open: &str, close: &str| format!("a = {}{}\n", open.repeat(10_000), close.repeat(10_000));
    let path = format!("[{}]\n", vec!["a"; 10_000].join("."));
    let dotted = format!("{} = 1\n", vec!["a"; 10_000].join("."));
    let unclosed = format!("a = {}", "[".repeat(10_000));
    for text in [deep("[", "]"), deep("{ a = ", " }"), path, dotted, unclosed] {
        let read = read_job(&folder_with(LONG, text.as_bytes()));
        assert!(read.value.is_none());
        assert!(read.findings.iter().any(|f| f.severity == Severity::Stop && f.place.line.is_some()));
    }
}

#[test]
fn bytes_that_are_not_text_are_refused_by_name() {
    let (text, _) = whole_file(LONG, "datum = \"rotary table\"", "datum = \"caf\u{1}\"");
    let latin: Vec<u8> = text.bytes().map(|b| if b == 1 { 0xE9 } else { b }).collect();
    let wide: Vec<u8> = format!("\u{feff}{text}").encode_utf16().flat_map(u16::to_le_bytes).collect();
    for bytes in [latin, wide, vec![0xFF; 100], b"\x89PNG\r\n\x1a\n\0\0".to_vec()] {
        let read = read_job(&folder_with(LONG, &bytes));
        assert!(read.value.is_none());
        findings_of(&read, "job-not-text")[0].holds(&["UTF-8"]);
    }
}

#[test]
fn a_file_that_is_not_there_is_named_with_the_field_that_names_it() {
    let edit = ("file = \"survey.csv\"", "file = \"surveys.csv\"");
    says(LONG, edit, "job-file-absent", &["`surveys.csv`"]);
    says(
        LONG,
        ("file = \"joints.csv\"", "file = \"joints.CSV.bak\""),
        "job-file-absent",
        &["joints.CSV.bak"],
    );
    says(LONG, ("file = \"caliper.las\"", "file = \"\""), "job-file-unreadable", &["cannot be read"]);
    for out in ["../shallow-oil/survey.csv", "/etc/hostname", "a/../../b"] {
        let to = format!("file = \"{out}\"");
        says(LONG, ("file = \"survey.csv\"", &to), "job-file-unreadable", &["leads out of the job folder"]);
    }
    let none: Read<_> = read_job(&well::host::Memory::default());
    assert!(none.value.is_none());
    findings_of(&none, "job-file-absent")[0].holds(&["`job.toml`"]);
}

#[test]
fn figures_that_contradict_each_other_are_said_at_the_field() {
    says(LONG, ("id = \"3.92 in\"", "id = \"5.92 in\""), "job-size", &["`packer`"]);
    says(
        LONG,
        ("trip = \"8800 psi\"", "trip = \"9800 psi\""),
        "job-limit-order",
        &["`limits.trip`", "`limits.relief`"],
    );
    let rated = "connection_internal = \"12410 psi\"";
    says(
        LONG,
        (rated, "connection_internal = \"0 psi\""),
        "job-size",
        &["`string[2].connection_internal`", "above zero"],
    );
    says(LONG, ("burst_factor = 1.25", "burst_factor = 0.9"), "job-share", &["`limits.burst_factor`"]);
    says(
        LONG,
        ("element_length = \"16.5 ft\"", "element_length = \"26.5 ft\""),
        "job-size",
        &["beyond the packer"],
    );
    let fluid = "name = \"pad\"\nfluid = \"slickwater\"";
    says(
        LONG,
        (fluid, &fluid.replace("slickwater", "slickwatr")),
        "job-unknown-name",
        &["slickwatr", "\"slickwater\""],
    );
    let curve = "curve = \"RQI\"";
    let (told, line) = one_edit(LONG, curve, "curve = \"RQ\"", "job-curve-absent");
    assert_eq!(told.line, Some(line));
    told.holds(&["`RQ`", "GR, RQI"]);
}

/// One edit of a data file: what is said of it, at which line.
#[track_caller]
fn data(job: &str, file: &str, (from, to): (&str, &str), id: &str, words: &[&str]) -> Told {
    let text = bad_input_beside::example(job, file);
    assert_eq!(text.matches(from).count(), 1, "`{from}` in {file}");
    let line = text[..text.find(from).unwrap()].lines().count() + usize::from(!from.starts_with('\n'));
    let mut host = folder_with(job, bad_input_beside::example(job, "job.toml").as_bytes());
    host.put(file, text.replacen(from, to, 1).as_bytes());
    let read = read_job(&host);
    let told = findings_of(&read, id);
    let here = told
        .iter()
        .find(|f| f.file.as_deref() == Some(file) && f.line.is_some_and(|l| l.abs_diff(line) <= 1));
    let here = here.unwrap_or_else(|| panic!("{file}:{line}: {:#?}", read.findings)).clone();
    here.holds(words);
    here
}

#[test]
fn faults_of_a_survey_are_said_at_their_line() {
    let at = |to| ("\n300,0.38,80.68,", to);
    data(LONG, "survey.csv", at("\n300,0.38x,80.68,"), "table-cell", &["0.38x"]);
    data(LONG, "survey.csv", at("\n300,,80.68,"), "survey-row-incomplete", &["no inclination"]);
    data(LONG, "survey.csv", at("\n30,0.38,80.68,"), "survey-depth-order", &["does not rise"]);
    data(LONG, "survey.csv", at("\n300,190,80.68,"), "survey-inclination-range", &["0 to 180 deg"]);
    data(LONG, "survey.csv", at("\n3e9,0.38,80.68,"), "survey-depth-range", &["outside what is drilled"]);
    data(LONG, "survey.csv", at("\n300,NaN,80.68,"), "survey-row-incomplete", &["no inclination"]);
}

#[test]
fn faults_of_a_tally_are_said_at_their_line() {
    let joint = "3,LL-4210-0003,joint,4.500 in 13.50 lb/ft P110 BTC,42.16,";
    let with = |length: &str| joint.replace("42.16", length);
    data(LONG, "joints.csv", (joint, &with("-42.16")), "tally-length-sign", &["-42.16"]);
    data(LONG, "joints.csv", (joint, &with("42.l6")), "table-cell", &["42.l6"]);
    data(LONG, "joints.csv", (joint, &with("421.6")), "tally-length-implausible", &[]);
    data(LONG, "joints.csv", (joint, &with("")), "table-cell-missing", &[]);
    data(LONG, "joints.csv", (joint, &joint.replacen("3,", "2,", 1)), "tally-number-twice", &["2"]);
    data(
        LONG,
        "joints.csv",
        (joint, &joint.replace("0003", "0002")),
        "tally-serial-twice",
        &["LL-4210-0002"],
    );
}

#[test]
fn a_log_that_is_none_is_refused_by_name() {
    let bytes: [(&[u8], &str); 5] = [
        (b"<!DOCTYPE html><html><body>Sign in</body></html>", "las-html"),
        (b"%PDF-1.7\n", "las-pdf"),
        (b"PK\x03\x04zzzz", "las-archive"),
        (b"", "las-empty"),
        (b"depth,caliper\n1,6\n2,6\n", "las-no-sections"),
    ];
    for (bytes, id) in bytes {
        let mut host = folder_with(LONG, bad_input_beside::example(LONG, "job.toml").as_bytes());
        host.put("caliper.las", bytes);
        let read = read_job(&host);
        assert!(read.value.is_none());
        let told = findings_of(&read, id);
        assert!(told.iter().any(|f| f.file.as_deref() == Some("caliper.las")), "{id}: {:#?}", read.findings);
    }
}

#[test]
fn a_fault_of_toml_hides_behind_nothing_that_follows_from_it() {
    for (from, to) in [
        ("[packer]\n", "[packer\n"),
        (
            "temperature_factor = 0.97\nsource = \"invented for this example: shear certificate\"\n\n# ---- the toe",
            "temper\n\n# ---- the toe",
        ),
    ] {
        let read = edited(LONG, from, to);
        assert!(!findings_of(&read, "job-syntax").is_empty(), "{to}");
        assert!(findings_of(&read, "job-missing-field").is_empty(), "{to}: {:#?}", read.findings);
    }
}

#[test]
fn a_faulty_item_of_a_list_is_the_only_thing_said_of_it() {
    let (told, line) = one_edit(LONG, "drag_reduction = 0.68", "drag_reduction = \"0,68\"", "job-unit");
    assert_eq!(told.line, Some(line));
    told.holds(&["write a point for the decimals", "\"5 %\""]);
    let read = edited(LONG, "drag_reduction = 0.68", "drag_reduction = \"0,68\"");
    assert!(findings_of(&read, "job-unknown-name").is_empty(), "the fluid is there: {:#?}", read.findings);
}

#[test]
fn temperatures_and_viscosities_that_cannot_be_are_refused() {
    let field = "bottom_temperature = \"239 degF\"";
    says(LONG, (field, "bottom_temperature = \"-500 degF\""), "job-range", &["no temperature"]);
    says(LONG, (field, "bottom_temperature = \"2390 degF\""), "job-range", &["no temperature"]);
    says(LONG, ("viscosity = \"1.1 cP\"", "viscosity = \"0 cP\""), "job-size", &["above zero"]);
}

#[test]
fn sections_that_leave_a_gap_are_said_at_their_line() {
    let section = "bottom = \"11047 ft\"\ndiameter";
    says(LONG, (section, "bottom = \"11000 ft\"\ndiameter"), "hole-section-gap", &["leave a gap"]);
    says(LONG, (section, "bottom = \"11100 ft\"\ndiameter"), "hole-section-overlap", &["overlap"]);
}

#[test]
fn a_web_page_is_no_survey_and_no_tally() {
    for file in ["survey.csv", "joints.csv"] {
        let mut host = folder_with(LONG, bad_input_beside::example(LONG, "job.toml").as_bytes());
        host.put(file, b"\r\n<!DOCTYPE html><html><body>Sign in</body></html>");
        let read = read_job(&host);
        assert!(read.value.is_none());
        findings_of(&read, "table-not-text")[0].holds(&["web page", "browser"]);
    }
}

#[test]
fn a_caliper_without_a_reading_leaves_the_job_whole() {
    let text = bad_input_beside::example(LONG, "caliper.las");
    let mut host = folder_with(LONG, bad_input_beside::example(LONG, "job.toml").as_bytes());
    host.put("caliper.las", text.split("~A").next().unwrap().as_bytes());
    let read = read_job(&host);
    assert!(read.value.is_some(), "{:#?}", read.findings);
    assert_eq!(findings_of(&read, "hole-no-caliper").len(), 1);
}

#[test]
fn a_job_file_without_end_is_refused_before_it_is_read() {
    let section = "[[hole.section]]\nname = \"a\"\nkind = \"open\"\ntop = \"1 ft\"\nbottom = \"2 ft\"\ndiameter = \"6 in\"\n";
    let read = read_job(&folder_with(LONG, section.repeat(1_000_000).as_bytes()));
    assert!(read.value.is_none());
    findings_of(&read, "job-file-unreadable")[0].holds(&["2097152 is the most"]);
}

#[test]
fn a_hundred_thousand_faults_are_counted_not_listed() {
    let keys: String = (0..100_000).map(|i| format!("k{i} = 1\n")).collect();
    let read = read_job(&folder_with(LONG, keys.as_bytes()));
    assert!(read.findings.len() <= 501, "{}", read.findings.len());
    assert!(
        read.findings
            .iter()
            .any(|f| f.message.starts_with("99500 more") || f.message.contains("more faults"))
    );
}
