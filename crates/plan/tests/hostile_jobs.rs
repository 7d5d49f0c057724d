//! Jobs that cannot be: each is stopped with a finding at its field, and none ends the program or
//! lets a figure that is no number out.

#![allow(clippy::unwrap_used, clippy::panic)] // a test fails by panicking

mod support;

use std::panic::{AssertUnwindSafe, catch_unwind};

use plan::Program;
use support::folder::{JobFolder, example_file};
use support::made::Made;
use support::noise::Noise;
use toml::Value;
use well::{Finding, Severity, read_job};

const LONG: &str = "long-lateral";

/// The program of a folder whose job can be read.
fn planned(folder: &JobFolder) -> Program {
    let (job, found) = folder.job();
    plan::plan(&job, found)
}

/// The finding of a check that stops the program; it must be there, with a line of the job file
/// where it has a field.
#[track_caller]
fn stop<'p>(program: &'p Program, id: &str) -> &'p Finding {
    let found = program.findings.iter().find(|f| f.id == id && f.severity == Severity::Stop);
    let found = found.unwrap_or_else(|| {
        panic!(
            "{id} does not stop it: {:?}",
            program.findings.iter().map(|f| (f.id, &f.message)).collect::<Vec<_>>()
        )
    });
    assert!(found.place.field.is_none() || found.place.line.is_some(), "{found:#?}");
    assert!(!found.next.is_empty());
    found
}

#[track_caller]
fn holds(finding: &Finding, words: &[&str]) {
    for word in words {
        assert!(finding.message.contains(word), "`{word}` is not in: {}", finding.message);
    }
}

#[test]
fn a_ball_that_does_not_pass_a_bore_is_stopped() {
    // The largest ball of the made-up ladder is 3.55 in.
    let folder = Made { step: 0.5, ..Made::stages(3) }.folder();
    let program = planned(&folder.clone().set("launcher.bore", "3.5 in"));
    holds(stop(&program, "ladder-bore"), &["launcher"]);
    let program = planned(&folder.set("string.1.drift", "3.5 in"));
    holds(stop(&program, "ladder-bore"), &["4-1/2 in treating string"]);
}

#[test]
fn a_packer_longer_than_a_stage_is_stopped() {
    let folder = JobFolder::whole_example(LONG).set("packer.length", "900 ft");
    let program = planned(&folder);
    let gap = stop(&program, "layout-tool-gap");
    assert_eq!(gap.place.field.as_deref(), Some("packer.length"));
    assert!(gap.value.is_some() && gap.limit.is_some() && program.layout.is_none());
}

#[test]
fn more_stages_than_fit_are_stopped_with_the_reason() {
    let program = planned(&JobFolder::whole_example(LONG).set("system.stages", 400).without("pin"));
    assert!(program.layout.is_none());
    let reasons = ["layout-no-place", "layout-tool-gap", "layout-joints-short"];
    assert!(program.findings.iter().any(|f| reasons.contains(&f.id) && f.severity == Severity::Stop));
}

#[test]
fn a_survey_that_ends_above_the_shoe_is_stopped() {
    let whole = example_file(LONG, "survey.csv");
    let short: Vec<&str> = whole.lines().take_while(|l| !l.starts_with("19")).collect();
    let folder = JobFolder::whole_example(LONG).file("survey.csv", short.join("\n"));
    let program = planned(&folder);
    let found = stop(&program, "layout-survey-short");
    assert_eq!(found.place.field.as_deref(), Some("survey.file"));
    assert!(program.layout.is_none());
}

#[test]
fn too_few_joints_are_stopped_with_what_is_wanted() {
    let whole = example_file(LONG, "joints.csv");
    let few: Vec<&str> = whole.lines().take(100).collect();
    let program = planned(&JobFolder::whole_example(LONG).file("joints.csv", few.join("\n")));
    let found = stop(&program, "layout-joints-short");
    assert!(found.value.is_some() && found.limit.is_some());
}

#[test]
fn a_pin_no_stage_has_and_one_nothing_reaches_are_stopped() {
    let program = planned(&JobFolder::whole_example(LONG).set("pin.0.stage", 31));
    holds(stop(&program, "layout-pin-stage"), &["stage 31 of 30"]);
    let program = planned(&JobFolder::whole_example(LONG).set("pin.0.depth", "12000 ft"));
    holds(stop(&program, "layout-no-place"), &["pinned elsewhere"]);
}

#[test]
fn hole_too_large_everywhere_is_stopped() {
    let program = planned(&JobFolder::whole_example(LONG).set("packer.largest_hole", "5.9 in"));
    holds(stop(&program, "layout-no-place"), &["hole too large"]);
    assert!(program.layout.is_none() && program.stages.is_none() && program.balls.is_none());
}

/// Every field of a job file with a number in it.
fn fields(value: &Value, path: &str, out: &mut Vec<String>) {
    let join = |key: &str| if path.is_empty() { key.to_string() } else { format!("{path}.{key}") };
    match value {
        Value::Table(table) => table.iter().for_each(|(k, v)| fields(v, &join(k), out)),
        Value::Array(list) => {
            list.iter().enumerate().for_each(|(i, v)| fields(v, &join(&i.to_string()), out))
        }
        Value::String(text) if !text.starts_with(|c: char| c.is_ascii_digit()) => {}
        Value::Boolean(_) | Value::Datetime(_) => {}
        _ => out.push(path.to_string()),
    }
}

/// The value at a path times a factor, with its unit; whole numbers stay whole.
fn scaled(root: &Value, path: &str, factor: f64) -> Value {
    let at = path.split('.').fold(root, |at, key| match at {
        Value::Array(list) => &list[key.parse::<usize>().unwrap()],
        at => at.get(key).unwrap(),
    });
    match at {
        Value::String(text) => {
            let unit = text.split_whitespace().last().unwrap_or_default();
            let number = text.split(' ').next().and_then(|n| n.parse::<f64>().ok()).unwrap_or(1.0);
            format!("{} {unit}", number * factor).into()
        }
        Value::Integer(n) => ((*n as f64 * factor) as i64).into(),
        other => (other.as_float().unwrap_or(1.0) * factor).into(),
    }
}

#[test]
fn any_one_figure_far_off_is_planned_or_stopped() {
    const FACTORS: [f64; 9] = [0.0, 1e-9, 1e-3, 0.3, 0.9, 1.1, 3.0, 1e3, 1e6];
    let folder = Made { step: 0.5, ..Made::stages(2) }.folder();
    let text = String::from_utf8(folder.host().0["job.toml"].clone()).unwrap();
    let root = Value::Table(text.parse().unwrap());
    let mut paths = Vec::new();
    fields(&root, "", &mut paths);
    assert!(paths.len() > 200, "{}", paths.len());
    let mut noise = Noise(2026);
    let mut whole = 0;
    for _ in 0..60 {
        let path = &paths[noise.between(0.0, paths.len() as f64) as usize];
        let factor = FACTORS[noise.between(0.0, FACTORS.len() as f64) as usize];
        let host = folder.clone().set(path, scaled(&root, path, factor)).host();
        let ended = catch_unwind(AssertUnwindSafe(|| {
            let read = read_job(&host);
            let stopped = read.findings.iter().any(|f| f.severity == Severity::Stop);
            (read.value.map(|job| plan::plan(&job, read.findings)), stopped)
        }));
        let Ok((program, stopped)) = ended else { panic!("{path} times {factor} ends the program") };
        let Some(program) = program else {
            assert!(stopped, "{path} times {factor} is refused without a word");
            continue;
        };
        let parts = program.layout.is_some() && program.ladder.is_some() && program.balls.is_some();
        assert!(parts || program.stopped(), "{path} times {factor}: a part is absent without a word");
        let told = format!("{program:?}");
        assert!(!told.contains("(NaN)") && !told.contains("inf)"), "{path} times {factor} is not finite");
        whole += usize::from(parts);
    }
    assert!(whole > 20, "{whole} of 60 were planned");
}
