//! Workings: what a figure was made of, from the relation and its source to the inputs and
//! whether they lie inside the range of validity.

use std::collections::BTreeMap;

use physics::Input;
use plan::{Named, Step, Working};

use super::relation::head;
use crate::text::bibliography::Bibliography;
use crate::text::look::{Look, Role};
use crate::text::reading;
use crate::text::table::{Table, left};

/// The page of one call of a relation.
pub fn step(step: &Step, sources: &Bibliography, look: &Look) -> String {
    let inputs = register_inputs(&step.relation);
    let mut out = head(&step.relation, &step.title, look);
    out += &look.hang("  equation", 12, &step.equation);
    out += &look.hang("  source", 12, &step.source);
    for (key, source) in sources.named(&step.source) {
        out += &look.wrap(12, &format!("{key}: {}", source.line()));
    }
    out += &look.hang("  range", 12, &step.range);
    out += &format!("\n  inputs\n{}", input_table(step, inputs, look).render(look, 4));
    out += &format!("\n  outputs\n{}", output_table(step, look).render(look, 4));
    out += "\n";
    out += &verdict(step, inputs, look);
    out
}

/// The page of a figure: the figure, how it was made, and each call in turn.
pub fn page(figure: &str, working: &Working, sources: &Bibliography, look: &Look) -> String {
    let value = working.value.text(look.system);
    let mut out = format!("{}\n", look.paint(Role::Name, figure));
    out += &look.paint(Role::Title, &look.wrap(0, &format!("{}: {value}", working.title)));
    if !working.note.trim().is_empty() {
        out += &look.wrap(2, &working.note.text(look.system));
    }
    for (i, one) in working.steps.iter().enumerate() {
        out += &format!("\nstep {} of {}: ", i + 1, working.steps.len());
        out += &step(one, sources, look);
    }
    out
}

/// All figures that can be opened, one a row, stage by stage.
pub fn list(workings: &BTreeMap<String, Working>, look: &Look) -> String {
    let mut table = Table::new(&[left("figure"), left("value"), left("what it is"), left("relations")]);
    let mut figures: Vec<(&String, &Working)> = workings.iter().collect();
    figures.sort_by_cached_key(|(figure, _)| by_number(figure));
    for (figure, working) in figures {
        let relations: Vec<&str> = working.steps.iter().map(|s| s.relation.as_str()).collect();
        table.row([figure, &working.value.text(look.system), &working.title, &unique(&relations).join(", ")]);
    }
    table.render(look, 0)
}

/// Parts of a path with their numbers as numbers, so that `ball.2` stands before `ball.10`.
fn by_number(figure: &str) -> Vec<(u64, String)> {
    figure.split('.').map(|part| (part.parse().unwrap_or(0), part.to_string())).collect()
}

fn unique<'a>(names: &[&'a str]) -> Vec<&'a str> {
    let mut out: Vec<&str> = Vec::new();
    names.iter().for_each(|n| {
        if !out.contains(n) {
            out.push(n);
        }
    });
    out
}

fn register_inputs(relation: &str) -> &'static [Input] {
    physics::registry::find(relation).map(|r| r.inputs).unwrap_or_default()
}

fn text(named: &Named, look: &Look) -> String {
    named.word.clone().unwrap_or_else(|| reading::list(&named.values, look.system))
}

fn input_table(step: &Step, inputs: &[Input], look: &Look) -> Table {
    let mut table =
        Table::new(&[left("name"), left("value"), left("what it is"), left("valid"), left("judged")]);
    for named in &step.inputs {
        let range = inputs.iter().find(|i| i.name == named.name).map(|i| reading::range(i, look.system));
        let range = range.unwrap_or_default();
        let place = match (range.is_empty(), step.outside.contains(&named.name)) {
            (_, true) => "OUTSIDE",
            (true, false) => "",
            (false, false) => "inside",
        };
        table.row([&named.name, &text(named, look), &named.doc, &range, place]);
    }
    table
}

fn output_table(step: &Step, look: &Look) -> Table {
    let mut table = Table::new(&[left("name"), left("value"), left("what it is")]);
    for named in &step.outputs {
        table.row([&named.name, &text(named, look), &named.doc]);
    }
    table
}

/// What a relation says whose source states no range.
const NO_RANGE: &str = "none stated by the source";

/// Whether the inputs lie inside the range, in a sentence.
fn verdict(step: &Step, inputs: &[Input], look: &Look) -> String {
    if !step.outside.is_empty() {
        let names = step.outside.join(", ");
        let text = format!("OUTSIDE the range of validity: {names}. The result is an extrapolation.");
        return look.paint(Role::Warn, &look.wrap(2, &text));
    }
    let limited = inputs.iter().any(|i| i.range.is_some());
    let text = match (limited, step.range == NO_RANGE) {
        (true, _) => "All inputs with a limit lie inside the range of validity.",
        (false, true) => "The source states no range; nothing to judge the inputs against.",
        (false, false) => "No input has a limit in numbers; judge the range in words above.",
    };
    look.wrap(2, text)
}
