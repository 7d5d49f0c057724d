//! `new`, `check`, `plan` and `workings` on a job folder.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]

mod common;
use common::{Scratch, command, finish, names, run};

const BROKEN: &str = r#"[job]
name = "Example 1"
well = "Example 1-H"
unts = "field"

[survey]
file = "survey.csv"
north = "true"
datum = 12

[system]
kind = "swelling"
heel_limit = 10700
rathole = "-3 ft"
"#;

#[test]
fn an_example_of_each_system_is_written_and_reads_without_a_stop() {
    for system in ["fluid-activated", "hydraulic-set"] {
        let scratch = Scratch::new(system);
        let folder = scratch.path("job");
        let new = run(&["new", &folder, "--system", system]);
        assert_eq!(new.code, 0, "{}", new.err);
        assert_eq!(names(&scratch.0), ["job"]);
        let text = std::fs::read_to_string(scratch.0.join("job/job.toml")).unwrap();
        assert!(text.contains(system) && text.contains('#'));
        let check = run(&["check", &folder]);
        assert_eq!(check.code, 0, "{}", check.out);
    }
}

#[test]
fn an_example_never_lands_on_something_else() {
    let scratch = Scratch::new("occupied");
    scratch.put("job/notes.txt", "mine");
    scratch.put("file", "mine");
    let refusals = [
        run(&["new", &scratch.path("job")]),
        run(&["new", &scratch.path("file")]),
        run(&["new", &scratch.path("no/such/folder")]),
    ];
    assert!(refusals.iter().all(|r| r.code == 1 && r.err.contains("next:")));
    assert_eq!(names(&scratch.0), ["file", "job"]);
    assert_eq!(names(&scratch.0.join("job")), ["notes.txt"]);
    std::fs::create_dir(scratch.0.join("empty")).unwrap();
    assert_eq!(run(&["new", &scratch.path("empty")]).code, 0);
}

/// A limit on the size of a file stands in for a disk that fills up half way.
#[cfg(target_os = "linux")]
#[test]
fn a_disk_that_fills_up_leaves_nothing_behind() {
    let scratch = Scratch::new("full");
    let script = "trap '' XFSZ; ulimit -f 1; exec \"$0\" new \"$1\"";
    let words = ["-c", script, env!("CARGO_BIN_EXE_heelward"), &scratch.path("job")];
    let run = finish(std::process::Command::new("bash").args(words).output().unwrap());
    assert_eq!(run.code, 1, "{}", run.all());
    assert!(run.err.contains("cannot be written"), "{}", run.err);
    assert!(names(&scratch.0).is_empty(), "{:?}", names(&scratch.0));
}

#[cfg(target_os = "linux")]
#[test]
fn a_place_that_cannot_be_written_is_said_plainly() {
    let run = run(&["new", "/proc/heelward-job"]);
    assert_eq!(run.code, 1);
    assert!(run.err.starts_with("error: `/proc/heelward-job` cannot be written: "), "{}", run.err);
}

#[test]
fn a_broken_job_file_gives_every_fault_with_its_line() {
    let scratch = Scratch::new("broken");
    scratch.put("job.toml", BROKEN);
    let check = run(&["check", &scratch.path("")]);
    assert_eq!(check.code, 1);
    let ids = [
        "job-unknown-field",
        "job-wrong-type",
        "job-choice",
        "job-unit",
        "job-negative",
        "job-missing-field",
    ];
    for id in ids {
        assert!(check.out.contains(&format!("stop  {id}  job.toml:")), "{id} is not in:\n{}", check.out);
    }
    let entries =
        check.out.split("\n\n").filter(|e| e.starts_with("stop  ") && !e.contains("job-missing-field"));
    insta::assert_snapshot!(entries.collect::<Vec<_>>().join("\n\n"));
    assert!(check.out.contains("Decision support, not a safety system."));
}

#[test]
fn findings_as_json_carry_place_and_cautions() {
    let scratch = Scratch::new("json");
    scratch.put("job.toml", BROKEN);
    let json = run(&["check", "--json", &scratch.path("")]).json();
    assert!(json["counts"]["stop"].as_u64().unwrap() > 5);
    let hash = json["input_hash"].as_str().unwrap();
    assert_eq!(hash.len(), 64, "what was read is named also when it is not enough to plan with");
    assert!(json["cautions"].as_array().unwrap().len() >= 7);
    assert!(json["findings"].as_array().unwrap().iter().all(|f| f["place"]["file"] == "job.toml"));
}

#[test]
fn what_is_no_job_is_refused() {
    let scratch = Scratch::new("none");
    let other = scratch.put("other.toml", "");
    scratch.put("bytes/job.toml", "");
    std::fs::write(scratch.0.join("bytes/job.toml"), b"[job]\nname = \"\xff\"\n").unwrap();
    let refusals = [
        run(&["check", &scratch.path("nowhere")]),
        run(&["check", &scratch.path("")]),
        run(&["check", &other]),
    ];
    assert!(refusals.iter().all(|r| r.code == 1 && r.out.is_empty()));
    let texts: Vec<String> = refusals.iter().map(|r| scratch.blank(&r.err)).collect();
    insta::assert_snapshot!(texts.join("\n"));
    let bytes = run(&["check", &scratch.path("bytes")]);
    assert!(bytes.code == 1 && bytes.out.contains("UTF-8"), "{}", bytes.all());
}

#[test]
fn garbage_never_makes_the_program_fail() {
    let scratch = Scratch::new("garbage");
    let deep = "[".repeat(5000);
    let long = format!("job = \"{}\"", "x".repeat(100_000));
    for (i, text) in [
        "",
        "=",
        "[job",
        "[[string]]\n[[string]]",
        "job = 1",
        &deep,
        &long,
        "\u{feff}[job]\n",
        "[job]\nname = nan",
    ]
    .iter()
    .enumerate()
    {
        scratch.put(&format!("{i}/job.toml"), text);
        let check = run(&["check", &scratch.path(&i.to_string())]);
        assert_eq!(check.code, 1, "{i}: {}", check.all());
    }
}

#[test]
fn usage_slips_are_bad_input() {
    for words in [&["chekc"][..], &["calc"], &[], &["schema", "jobb"], &["calc", "x", "--units", "imperial"]]
    {
        let slip = run(words);
        assert_eq!(slip.code, 1, "{words:?}");
        assert!(slip.out.is_empty() && !slip.err.is_empty(), "{words:?}");
    }
    assert_eq!(run(&["--help"]).code, 0);
    assert_eq!(run(&["--version"]).out, "heelward VERSION\n");
}

#[test]
fn schema_and_completions_are_printed() {
    let schema = run(&["schema", "job"]).json();
    assert_eq!(schema["additionalProperties"], false);
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let out = run(&["completions", shell]);
        assert!(out.code == 0 && out.out.contains("heelward"), "{shell}");
    }
}

#[test]
fn upkeep_names_what_is_stale_and_writes_it() {
    let scratch = Scratch::new("upkeep");
    scratch.put("Cargo.toml", "");
    let root = scratch.path("");
    let stale = run(&["upkeep", "--root", &root]);
    assert!(stale.code == 1 && stale.out.contains("docs/relations.md"), "{}", stale.all());
    assert_eq!(run(&["upkeep", "--write", "--root", &root]).code, 0);
    assert_eq!(run(&["upkeep", "--root", &root]).out, "");
    let elsewhere = finish(command().args(["upkeep", "--root", &scratch.path("docs")]).output().unwrap());
    assert_eq!(elsewhere.code, 1);
}

/// What a plan leaves in its folder.
const DOCUMENTS: [&str; 7] = [
    "ball-card.csv",
    "findings.txt",
    "pressure-sheet.csv",
    "program.json",
    "program.pdf",
    "tally.csv",
    "written.json",
];

#[test]
fn an_example_is_planned_written_and_opened() {
    let scratch = Scratch::new("plan");
    let (folder, out) = (scratch.path("job"), scratch.path("out"));
    run(&["new", &folder]);
    let plan = run(&["plan", &folder, "--out", &out]);
    assert!(plan.code <= 1, "{}", plan.all());
    assert!(plan.out.contains("Decision support, not a safety system."));
    assert_eq!(names(&scratch.0.join("out")), DOCUMENTS);
    let json = run(&["plan", &folder, "--json"]);
    assert_eq!(
        std::fs::read_to_string(scratch.0.join("out/program.json")).unwrap(),
        run_raw(&["plan", &folder, "--json"])
    );
    let header = &json.json()["header"];
    assert_eq!(header["input_hash"].as_str().unwrap().len(), 64);
    let again = run(&["plan", &folder, "--out", &out]);
    assert!(again.err.contains("documents written"), "{}", again.err);

    let list = run(&["workings", &folder, "--json"]).json();
    let figure = list["workings"].as_object().unwrap().keys().next().unwrap().clone();
    let page = run(&["workings", &folder, &figure]);
    assert!(page.out.starts_with(&figure) && page.out.contains("  equation  "), "{}", page.out);
    let slip = run(&["workings", &folder, "no.such.figure"]);
    assert!(slip.code == 1 && slip.err.contains("no figure `no.such.figure`"), "{}", slip.err);
}

/// Output without the version blanked.
fn run_raw(words: &[&str]) -> String {
    String::from_utf8(command().args(words).output().unwrap().stdout).unwrap()
}

#[test]
fn check_says_where_the_survey_is_shorter_than_the_liner() {
    let scratch = Scratch::new("short-survey");
    assert_eq!(run(&["new", &scratch.path("job")]).code, 0);
    let whole = std::fs::read_to_string(scratch.path("job/survey.csv")).unwrap();
    let short: Vec<&str> = whole.lines().take(120).collect();
    std::fs::write(scratch.path("job/survey.csv"), short.join("\n")).unwrap();
    let check = run(&["check", &scratch.path("job")]);
    assert_eq!(check.code, 1);
    assert!(check.out.contains("stop  layout-survey-short  job.toml:"), "{}", check.out);
    let plan = run(&["plan", &scratch.path("job")]);
    assert_eq!(plan.code, 1);
    assert!(plan.out.contains("stop layout-survey-short (job.toml:"), "{}", plan.out);
}
