//! `calc` and `explain` as they are typed.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]

mod common;
use common::{command, finish, run};

/// Two stations of the published example of the minimum curvature method.
const STATIONS: [&str; 8] = [
    "calc",
    "minimum_curvature",
    "md_1=3500 ft",
    "inclination_1=15 deg",
    "azimuth_1=20 deg",
    "md_2=3600 ft",
    "inclination_2=25 deg",
    "azimuth_2=45 deg",
];

fn with(words: &[&'static str]) -> Vec<&'static str> {
    STATIONS.iter().chain(words).copied().collect()
}

#[test]
fn a_relation_with_its_workings() {
    insta::assert_snapshot!(run(&STATIONS).all());
}

#[test]
fn metric_units_change_the_page_and_not_the_json() {
    insta::assert_snapshot!(run(&with(&["--units", "metric"])).out);
    let field = run(&with(&["--json"]));
    assert_eq!(field.out, run(&with(&["--json", "--units", "metric"])).out);
    let north = &field.json()["workings"]["outputs"][0];
    assert_eq!(north["name"], "north");
    assert_eq!(north["values"][0]["unit"], "m");
    assert!((north["values"][0]["value"].as_f64().unwrap() - 8.296).abs() < 2e-3);
}

#[test]
fn bad_inputs_are_refused_with_the_next_action() {
    let refusals = [
        run(&["calc", "minimum_curvatre"]),
        run(&["calc", "minimum_curvature"]),
        run(&["calc", "minimum_curvature", "md_1=3500"]),
        run(&["calc", "minimum_curvature", "md_1=3500 psi"]),
        run(&["calc", "minimum_curvature", "md_1=deep ft"]),
        run(&["calc", "minimum_curvature", "md_1=1e400 ft"]),
        run(&["calc", "minimum_curvature", "md_9=3500 ft"]),
        run(&["calc", "minimum_curvature", "3500 ft"]),
        run(&["calc", "minimum_curvature", "md_1=1 ft", "md_1=2 ft"]),
    ];
    let texts: Vec<String> = refusals.iter().map(|r| format!("{}{}", r.out, r.err)).collect();
    assert!(refusals.iter().all(|r| r.code == 1 && r.out.is_empty()));
    insta::assert_snapshot!(texts.join("\n"));
}

#[test]
fn the_register_names_every_relation() {
    let list = run(&["calc", "--list"]);
    assert_eq!(list.code, 0);
    for relation in physics::relations() {
        assert!(list.out.lines().any(|l| l == relation.name), "{} is not listed", relation.name);
    }
    let all = run(&["calc", "--list", "--json"]).json();
    assert_eq!(all["relations"].as_array().unwrap().len(), physics::relations().count());
    let family = run(&["calc", "--list", "--json", "--family", "geometry"]).json();
    let named = family["relations"].as_array().unwrap();
    assert!(named.iter().all(|r| r["family"] == "geometry") && !named.is_empty());
}

#[test]
fn one_relation_is_shown_in_full() {
    insta::assert_snapshot!(run(&["calc", "--list", "minimum_curvature"]).all());
    let unknown = run(&["calc", "--list", "--family", "geology"]);
    assert_eq!(unknown.code, 1);
    assert!(unknown.err.contains("geometry"), "{}", unknown.err);
}

#[test]
fn a_check_is_explained_and_a_slip_is_caught() {
    insta::assert_snapshot!(run(&["explain", "job-unit"]).all());
    insta::assert_snapshot!(run(&["explain", "job-unt"]).all());
    let list = run(&["explain", "--list"]);
    assert!(pump::checks::all().all(|c| list.out.contains(c.id)), "{}", list.out);
    assert_eq!(run(&["explain", "job-unit", "--json"]).json()["checks"][0]["severity"], "stop");
}

#[test]
fn colour_comes_only_when_it_is_asked_for() {
    let plain = run(&STATIONS);
    assert!(!plain.out.contains('\u{1b}'), "a pipe gets no colour");
    let forced = finish(command().args(STATIONS).env("CLICOLOR_FORCE", "1").output().unwrap());
    assert!(forced.out.contains('\u{1b}'));
    let none =
        finish(command().args(STATIONS).env("CLICOLOR_FORCE", "1").env("NO_COLOR", "1").output().unwrap());
    assert_eq!(none.out, plain.out);
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    assert_eq!(run(&STATIONS).all(), run(&STATIONS).all());
}
