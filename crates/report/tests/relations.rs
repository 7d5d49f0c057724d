//! Relations and workings as a terminal, JSON and Markdown show them.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]

use std::collections::BTreeMap;

use physics::{Input, Output, Outputs, Relation};
use plan::{Step, Working};
use quantity::{Diameter, FlowRate, Length, Quantity, Ratio, Velocity};
use report::Look;
use report::terminal::{relation, working};
use report::text::bibliography::Bibliography;
use report::text::family::Family;
use report::text::{json, table};

static SPEED: Relation = Relation {
    name: "mean_speed",
    title: "Mean speed of flow in a round bore",
    equation: "v = Q / (pi d^2 / 4)",
    source: "continuity, eq. 1",
    range: "none stated by the source",
    inputs: &[
        Input::new::<FlowRate>("rate", "volumetric rate"),
        Input::new::<Diameter>("bore", "inner diameter").within(0.01, 1.0),
        Input::new::<Ratio>("share", "share of the rate that is taken").or("1"),
        Input::choice("way", &["up", "down"], "direction of flow").or("down"),
        Input::list::<Length>("stations", "distances, for the listing only").or(""),
    ],
    outputs: &[Output::new::<Velocity>("speed", "mean speed")],
    evaluate: |a| {
        let speed = a.get::<FlowRate>("rate")? / a.get::<Diameter>("bore")?.circle();
        let sign = if a.word("way")? == "up" { -1.0 } else { 1.0 };
        Ok(Outputs::new().put("speed", speed * a.number("share")? * sign))
    },
};

fn sources() -> Bibliography {
    let mut all = Bibliography::default();
    all.add(
        "[continuity]\ntitle = \"Conservation of mass\"\nauthors = \"textbook\"\nyear = 1900\n\
         where = \"chapter 1\"\nchecked = \"memory\"\n",
    )
    .unwrap();
    all
}

fn family() -> Family {
    Family { name: "hydraulics", title: "Flow and pressure", relations: vec![&SPEED] }
}

fn call(bore: &str) -> physics::Evaluation {
    let call = SPEED.call().text("rate", "15 bbl/min").text("bore", bore);
    call.text("stations", "1 ft, 2 ft, 3 ft, 4 ft, 5 ft, 6 ft, 7 ft").run().unwrap()
}

#[test]
fn the_workings_of_a_call() {
    let step = Step::of(&call("3.920 in"));
    insta::assert_snapshot!(working::step(&step, &sources(), &Look::default()));
}

#[test]
fn an_input_outside_its_range_is_said_in_capitals() {
    let step = Step::of(&call("2 m"));
    let page = working::step(&step, &Bibliography::default(), &Look::default());
    assert!(page.contains("OUTSIDE the range of validity: bore"), "{page}");
}

#[test]
fn a_figure_opens_to_its_steps() {
    let evaluation = call("3.920 in");
    let working = Working {
        title: "Speed in the treating string".into(),
        value: evaluation.get::<Velocity>("speed").unwrap().into(),
        steps: vec![Step::of(&evaluation), Step::of(&evaluation)],
        note: "The greater of the two is taken.".into(),
    };
    let page = working::page("stage.3.speed", &working, &sources(), &Look::default());
    insta::assert_snapshot!(page);
    let other = |name: &str| (name.to_string(), working.clone());
    let all = BTreeMap::from([other("stage.10.speed"), other("stage.3.speed"), other("ladder")]);
    insta::assert_snapshot!(working::list(&all, &Look::default()));
}

#[test]
fn the_register_is_listed_and_one_relation_shown() {
    insta::assert_snapshot!(relation::list([&family()].into_iter(), &Look::default()));
    insta::assert_snapshot!(relation::page(&SPEED, "hydraulics", &Look::default()));
}

#[test]
fn the_register_as_json() {
    insta::assert_snapshot!(json::text(&json::relations([&family()].into_iter(), "0.0.0")));
    let step = json::step(&Step::of(&call("2 m")), "0.0.0");
    assert_eq!(step["workings"]["outside"][0], "bore");
    assert_eq!(step["workings"]["inputs"][3]["word"], "down");
}

#[test]
fn the_call_shown_can_be_typed() {
    let line = relation::call(&SPEED, &Look::default());
    assert_eq!(line, "heelward calc mean_speed rate=\"1 bbl/min\" bore=\"1 in\"");
    assert!(SPEED.call().text("rate", "1 bbl/min").text("bore", "1 in").run().is_ok());
}

#[test]
fn every_relation_shows_every_input_it_needs() {
    for relation in physics::relations() {
        let line = relation::call(relation, &Look::default());
        let mut needed = relation.inputs.iter().filter(|i| i.default.is_none());
        assert!(needed.all(|i| line.contains(&format!(" {}=", i.name))), "{line}");
    }
}

#[test]
fn an_empty_table_still_shows_its_heads() {
    let table = table::Table::new(&[table::left("a"), table::right("b")]);
    assert!(table.is_empty());
    assert!(table.render(&Look::default(), 0).starts_with("a"));
    assert_eq!(Ratio::of(0.5).text(quantity::System::Field), "0.5000");
}
