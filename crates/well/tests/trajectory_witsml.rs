//! WITSML trajectories, good and bad.

#![allow(clippy::expect_used, clippy::panic)] // a test fails by panicking

use proptest::prelude::*;
use quantity::{Length, MeasuredDepth, Quantity};
use well::Severity;
use well::job::North;
use well::trajectory::{RowKind, SurveyOptions, read_survey, read_witsml_trajectory};

fn station(uid: &str, md: &str, incl: &str, azi: &str, more: &str) -> String {
    format!("<trajectoryStation uid=\"{uid}\">{md}{incl}{azi}{more}</trajectoryStation>")
}

fn simple(uid: &str, md: f64, incl: f64) -> String {
    let q = |name: &str, uom: &str, v: f64| format!("<{name} uom=\"{uom}\">{v}</{name}>");
    station(uid, &q("md", "m", md), &q("incl", "dega", incl), &q("azi", "dega", incl * 90.0), "")
}

fn trajectory(name: &str, body: &str) -> String {
    format!(
        "<trajectory uid=\"u-{name}\"><nameWell>W</nameWell><name>{name}</name><aziRef>true north</aziRef>{body}</trajectory>"
    )
}

fn file(body: &str) -> String {
    format!(
        "<?xml version=\"1.0\"?>\n<trajectorys xmlns=\"http://www.witsml.org/schemas/1series\" version=\"1.4.1.1\">\n{body}\n</trajectorys>\n"
    )
}

fn two(name: &str) -> String {
    trajectory(name, &(simple("1", 0.0, 0.0) + &simple("2", 30.0, 1.0)))
}

fn options() -> SurveyOptions {
    SurveyOptions::for_file("t.xml")
}

fn ids(text: &str, options: &SurveyOptions) -> Vec<(&'static str, Severity)> {
    read_survey(text.as_bytes(), options).findings.iter().map(|f| (f.id, f.severity)).collect()
}

#[test]
fn units_datum_north_and_tie_in() {
    let tie = station(
        "1",
        "<md uom=\"ft\" datum=\"RT\">1000</md>",
        "<incl uom=\"rad\">0.5</incl>",
        "<azi uom=\"dega\">45</azi>",
        "<tvd uom=\"m\">300</tvd><dispNs uom=\"m\">10</dispNs><dispEw uom=\"ft\">-10</dispEw><typeTrajStation>tie in point</typeTrajStation>",
    );
    let last = station(
        "2",
        "<md uom=\"m\">334.8</md>",
        "<incl uom=\"dega\">30</incl>",
        "<azi uom=\"rad\">0.785398</azi>",
        "<typeTrajStation>extrapolated</typeTrajStation><location><latitude uom=\"dega\">1</latitude></location>",
    );
    let head = "<gridCorUsed uom=\"dega\">-0.64</gridCorUsed><magDeclUsed uom=\"rad\">0.01</magDeclUsed><aziVertSect uom=\"dega\">341.288</aziVertSect>";
    let text = file(&trajectory("definitive", &format!("{head}{tie}{last}")));
    let read = read_survey(text.as_bytes(), &options());
    let survey = read.value.unwrap_or_else(|| panic!("{:?}", read.findings));
    let top = survey.trajectory.position_at(MeasuredDepth::ft(1000.0));
    assert_eq!((top.tvd.in_m(), top.north.in_m()), (300.0, 10.0));
    assert!((top.east.in_ft() + 10.0).abs() < 1e-9);
    assert!((top.inclination.in_rad() - 0.5).abs() < 1e-9);
    let frame = survey.trajectory.frame();
    assert_eq!(frame.north, Some(North::True));
    assert_eq!(frame.north_text.as_deref(), Some("true north"));
    assert!(frame.convergence.is_some_and(|a| (a.in_deg() + 0.64).abs() < 1e-9));
    assert!(frame.declination.is_some_and(|a| (a.in_rad() - 0.01).abs() < 1e-12));
    assert!(frame.section_azimuth.is_some_and(|a| (a.in_deg() - 341.288).abs() < 1e-9));
    assert_eq!(frame.datum.as_ref().map(|d| d.name.as_str()), Some("RT"));
    let kinds: Vec<RowKind> = survey.rows().map(|r| r.kind).collect();
    assert_eq!(kinds, [RowKind::TieIn, RowKind::Projected]);
    assert!((survey.trajectory.last_md() - MeasuredDepth::m(334.8)).si().abs() < 1e-9);
}

#[test]
fn namespaces_with_a_prefix_are_read() {
    let text = file(&two("a")).replace("<t", "<w:t").replace("</t", "</w:t").replace("xmlns=", "xmlns:w=");
    assert!(read_survey(text.as_bytes(), &options()).value.is_some());
}

#[test]
fn of_several_trajectories_one_is_chosen() {
    let plan = trajectory(
        "plan",
        &(simple("1", 0.0, 0.0)
            + "<trajectoryStation uid=\"x\"><md uom=\"cubit\">1</md></trajectoryStation>"
            + &simple("2", 90.0, 1.0)),
    );
    let text = file(&(plan + &two("definitive")));
    assert!(ids(&text, &options()).contains(&("survey-several", Severity::Warn)));
    let named = SurveyOptions { trajectory: Some("definitive".into()), ..options() };
    let read = read_survey(text.as_bytes(), &named);
    assert_eq!(read.value.map(|s| s.trajectory.last_md()), Some(MeasuredDepth::m(30.0)));
    assert!(read.findings.is_empty(), "{:?}", read.findings);
    let absent = SurveyOptions { trajectory: Some("interim".into()), ..options() };
    let read = read_witsml_trajectory(text.as_bytes(), &absent);
    assert!(read.value.is_none());
    assert!(read.findings[0].message.contains("plan, definitive"), "{:?}", read.findings);
}

#[test]
fn a_plan_is_pointed_out() {
    let body = simple("1", 0.0, 0.0) + &simple("2", 30.0, 1.0);
    let text = file(&trajectory("p", &format!("{body}<commonData><itemState>plan</itemState></commonData>")));
    assert_eq!(ids(&text, &options()), [("survey-planned", Severity::Warn)]);
}

#[test]
fn depths_out_of_order_are_a_finding() {
    let body =
        simple("1", 0.0, 0.0) + &simple("2", 60.0, 1.0) + &simple("3", 30.0, 1.0) + &simple("4", 90.0, 1.0);
    let text = file(&trajectory("a", &body));
    assert_eq!(ids(&text, &options()), [("survey-depth-order", Severity::Stop)]);
}

#[test]
fn entities_document_types_and_broken_files_are_refused() {
    let bomb = "<?xml version=\"1.0\"?>\n<!DOCTYPE t [<!ENTITY a \"aaaa\"><!ENTITY b \"&a;&a;\">]>\n<trajectorys>&b;</trajectorys>";
    assert_eq!(ids(bomb, &options()), [("survey-xml-entity", Severity::Stop)]);
    let entity = file(&two("&other;"));
    assert_eq!(ids(&entity, &options()), [("survey-xml-entity", Severity::Stop)]);
    let good = file(&two("a &amp; b &#65;"));
    assert_eq!(
        read_witsml_trajectory(good.as_bytes(), &options()).value.and_then(|t| t.name).as_deref(),
        Some("a & b A")
    );
    let cut = &good[..good.len() - 60];
    assert_eq!(ids(cut, &options()), [("survey-xml", Severity::Stop)]);
    assert_eq!(ids(&file(""), &options()), [("survey-xml", Severity::Stop)]);
    let deep = "<a>".repeat(100);
    assert_eq!(ids(&deep, &options()), [("survey-xml", Severity::Stop)]);
}

#[test]
fn huge_text_is_not_kept() {
    let name = "n".repeat(100_000);
    let read = read_witsml_trajectory(file(&two(&name)).as_bytes(), &options());
    assert!(read.value.and_then(|t| t.name).is_some_and(|n| n.len() <= 4096));
}

#[test]
fn findings_name_the_line() {
    let body = simple("1", 0.0, 0.0)
        + "\n"
        + &simple("2", 30.0, 1.0).replace("m\"", "yd\"")
        + "\n"
        + &simple("3", 60.0, 1.0);
    let read = read_survey(file(&trajectory("a", &body)).as_bytes(), &options());
    let found: Vec<_> = read.findings.iter().map(|f| (f.id, f.place.line)).collect();
    assert_eq!(found, [("survey-unit", Some(4))]);
    assert_eq!(read.value.map(|s| s.trajectory.stations().len()), Some(2));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn no_bytes_make_it_panic(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        let _ = read_witsml_trajectory(&bytes, &options());
    }

    #[test]
    fn no_damage_makes_it_panic(at in 0usize..2000, with in "[<>&;\"/a-z0-9!\\[\\]-]{0,8}", cut in 0usize..40) {
        let text = file(&(two("a") + &two("b")));
        let at = at.min(text.len());
        let end = (at + cut).min(text.len());
        let damaged = format!("{}{with}{}", &text[..at], &text[end..]);
        let read = read_survey(damaged.as_bytes(), &options());
        for p in read.value.iter().flat_map(|s| s.trajectory.samples(MeasuredDepth::m(0.0), MeasuredDepth::m(100.0), Length::m(10.0))) {
            prop_assert!(p.tvd.is_finite());
        }
    }
}
