//! Findings, explain pages and cautions as a terminal shows them.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]

use quantity::{MeasuredDepth, Pressure, System};
use report::terminal::{caution, explain, finding};
use report::{Colour, Look};
use well::{Check, Finding, Severity};

static UNIT: Check = Check {
    id: "job-unit",
    severity: Severity::Stop,
    title: "A quantity has no unit, or one that does not fit",
    checks: "Every quantity for a unit of the right dimension.",
    why: "A bare number hides whether it is feet or metres.",
    next: "Write the number and the unit as text.",
    example: "`depth = 10700` is refused; `depth = \"10700 ft\"` is taken.",
    references: "practice",
};

static MARGIN: Check = Check {
    id: "setting-margin",
    severity: Severity::Warn,
    title: "Two devices may act at the same pressure",
    checks: "The highest pressure one device may need against the lowest at which the next may act.",
    why: "A packer that sets while running cannot be moved again.",
    next: "Choose another shear value, or agree the overlap with the supplier.",
    example: "3 100 psi against 3 000 psi.",
    references: "practice",
};

fn findings() -> Vec<Finding> {
    vec![
        MARGIN
            .found("the margin between the casing packer and the first open-hole packer is below the limit")
            .value(Pressure::psi(180.0))
            .limit(Pressure::psi(300.0))
            .stage(4)
            .depth(MeasuredDepth::ft(12_345.6)),
        UNIT.found("`hole.section[0].bottom` is a bare number; a measured depth needs its unit")
            .line("job.toml", 12, "bottom = 10700 # the shoe")
            .field("hole.section[0].bottom"),
        UNIT.found("`shear_presure` is not a field of `packer`; the nearest is `shear_pressure`.")
            .line("job.toml", 113, "  shear_presure = \"2000 psi\"")
            .severity(Severity::Note),
        UNIT.found("the file has no rows").file("joints.csv").severity(Severity::Note),
    ]
}

#[test]
fn findings_are_sorted_placed_and_marked() {
    insta::assert_snapshot!(finding::page(&findings(), &Look::default()));
}

#[test]
fn metric_units_reach_value_limit_and_depth() {
    let metric = Look { system: System::Metric, ..Look::default() };
    insta::assert_snapshot!(finding::entry(&findings()[0], &metric));
}

#[test]
fn a_narrow_terminal_still_shows_every_word() {
    let narrow = Look { width: 48, ..Look::default() };
    insta::assert_snapshot!(finding::page(&findings(), &narrow));
}

#[test]
fn colour_only_decorates() {
    let colour = Look { colour: Colour::Ansi, ..Look::default() };
    let painted = finding::page(&findings(), &colour);
    assert!(painted.contains('\u{1b}'));
    assert_eq!(stripped(&painted), finding::page(&findings(), &Look::default()));
}

fn stripped(text: &str) -> String {
    let mut out = String::new();
    let mut inside = false;
    for c in text.chars() {
        match c {
            '\u{1b}' => inside = true,
            'm' if inside => inside = false,
            c if !inside => out.push(c),
            _ => {}
        }
    }
    out
}

#[test]
fn findings_of_one_check_at_one_place_stand_together() {
    let stage = |n: u32| {
        let finding = MARGIN.found(format!("stage {n} is held below the rate wanted by treating pressure"));
        let finding = finding.line("job.toml", 502, "rate = \"35 bbl/min\"").field("treatment.rate");
        finding.stage(n as usize).value(Pressure::psi(100.0 * f64::from(n))).limit(Pressure::psi(300.0))
    };
    let all = [stage(1), stage(2), stage(3), MARGIN.found("another place").field("limits.rate")];
    insta::assert_snapshot!(finding::page(&all, &Look::default()));
}

#[test]
fn no_findings_is_said_in_words() {
    assert_eq!(finding::page(&[], &Look::default()), "no findings\n");
}

#[test]
fn hostile_lines_do_not_break_the_mark() {
    let lines = [
        "",
        "   ",
        "=",
        "bottom",
        "bottom =",
        "bottom = \"",
        "é bottom = \"é",
        "bottom\u{301} = 1",
        "x.bottom=,",
    ];
    for shown in lines {
        let finding = UNIT.found("wrong `bottom`").line("job.toml", 1, shown).field("a.bottom");
        assert!(finding::entry(&finding, &Look::default()).contains("job-unit"));
    }
}

#[test]
fn a_check_is_explained() {
    insta::assert_snapshot!(explain::page(&MARGIN, &Look::default()));
    insta::assert_snapshot!(explain::list([&UNIT, &MARGIN].into_iter(), &Look::default()));
}

#[test]
fn the_cautions_name_every_danger() {
    let page = caution::page(&Look::default());
    for word in [
        "line of fire",
        "zero energy",
        "exclusion zone",
        "trip",
        "trapped",
        "H2S",
        "alone",
        "not a safety system",
    ] {
        assert!(page.contains(word), "{word} is not in:\n{page}");
    }
    insta::assert_snapshot!(page);
}

#[test]
fn findings_as_json() {
    let json = report::text::json::findings(&findings(), "0.0.0");
    assert_eq!(json["counts"]["stop"], 1);
    assert_eq!(json["findings"][0]["value"]["unit"], "Pa");
    assert_eq!(json["findings"][1]["place"]["line"], 12);
    insta::assert_snapshot!(report::text::json::text(&json["findings"][0]));
}
