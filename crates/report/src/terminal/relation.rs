//! The register of relations: a listing, and the page of one.

use physics::{InputKind, Relation};

use crate::text::family::Family;
use crate::text::look::{Look, Role, count};
use crate::text::reading;
use crate::text::table::{Table, left};

/// All relations of some families: name, inputs with units, outputs, range and source.
pub fn list<'a>(families: impl Iterator<Item = &'a Family>, look: &Look) -> String {
    let mut out = String::new();
    for family in families {
        let title = format!("{} ({})", family.title, count(family.relations.len(), "relation"));
        out += &format!("{}\n\n", look.paint(Role::Title, &title));
        for relation in &family.relations {
            out += &entry(relation, look);
            out += "\n";
        }
    }
    out
}

fn entry(relation: &Relation, look: &Look) -> String {
    let inputs: Vec<String> = relation.inputs.iter().map(|i| short_input(i, look)).collect();
    let outputs: Vec<String> =
        relation.outputs.iter().map(|o| with_unit(o.name, o.kind.shown(look.system).symbol)).collect();
    let mut out = format!("{}\n", look.paint(Role::Name, relation.name));
    out += &look.wrap(2, relation.title);
    out += &look.hang("  inputs", 12, &inputs.join(", "));
    out += &look.hang("  outputs", 12, &outputs.join(", "));
    out += &look.hang("  range", 12, relation.range);
    out += &look.hang("  source", 12, relation.source);
    out
}

fn with_unit(name: &str, symbol: &str) -> String {
    if symbol.is_empty() { name.to_string() } else { format!("{name} [{symbol}]") }
}

fn short_input(input: &physics::Input, look: &Look) -> String {
    let text = match input.kind {
        InputKind::Quantity(kind) => with_unit(input.name, kind.shown(look.system).symbol),
        InputKind::List(kind) => with_unit(&format!("{}, ...", input.name), kind.shown(look.system).symbol),
        InputKind::Choice(words) => format!("{} ({})", input.name, words.join("|")),
    };
    match input.default {
        Some("") => format!("{text} = \"\""),
        Some(default) => format!("{text} = {default}"),
        None => text,
    }
}

/// The page of one relation, with a line that can be typed.
pub fn page(relation: &Relation, family: &str, look: &Look) -> String {
    let mut out = head(relation.name, relation.title, look);
    out += &look.hang("  equation", 12, relation.equation);
    out += &look.hang("  source", 12, relation.source);
    out += &look.hang("  range", 12, relation.range);
    out += &look.hang("  family", 12, family);
    out += &format!("\n  inputs\n{}", inputs(relation, look).render(look, 4));
    out += &format!("\n  outputs\n{}", outputs(relation, look).render(look, 4));
    out += "\n  call\n";
    out += &look.wrap(4, &call(relation, look));
    out
}

pub(super) fn head(name: &str, title: &str, look: &Look) -> String {
    format!("{}\n{}\n", look.paint(Role::Title, look.wrap(0, title).trim_end()), look.paint(Role::Name, name))
}

/// The inputs as a table.
pub fn inputs(relation: &Relation, look: &Look) -> Table {
    let mut table = Table::new(&[
        left("name"),
        left("what it is"),
        left("kind"),
        left("units"),
        left("default"),
        left("valid"),
    ]);
    for input in relation.inputs {
        table.row([
            input.name.to_string(),
            input.doc.to_string(),
            reading::kind_words(input),
            reading::units(input).join(", "),
            reading::default(input).to_string(),
            reading::range(input, look.system),
        ]);
    }
    table
}

/// The outputs as a table.
pub fn outputs(relation: &Relation, look: &Look) -> Table {
    let mut table = Table::new(&[left("name"), left("what it is"), left("kind"), left("unit")]);
    for output in relation.outputs {
        table.row([output.name, output.doc, output.kind.name, output.kind.shown(look.system).symbol]);
    }
    table
}

/// A call of the relation with every input that has no default, as it is typed.
pub fn call(relation: &Relation, look: &Look) -> String {
    let needed = relation.inputs.iter().filter(|i| i.default.is_none());
    let inputs: Vec<String> = needed.map(|i| reading::example(i, look.system)).collect();
    format!("heelward calc {} {}", relation.name, inputs.join(" ")).trim_end().to_string()
}
