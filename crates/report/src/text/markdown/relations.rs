//! The register of relations, family by family.

use std::collections::BTreeMap;

use physics::{InputKind, Relation};
use quantity::Kind;

use super::head;
use crate::terminal::relation::call;
use crate::text::family::{Families, Family};
use crate::text::look::Look;
use crate::text::reading;
use crate::text::table::{Table, left};

/// The document.
pub fn document(families: &Families) -> String {
    let about = "Every relation the program computes with. `heelward calc NAME key=value...` calls one, \
                 `heelward calc --list` prints this register, and [accuracy.md](accuracy.md) shows how each \
                 compares with its reference cases. Ranges are in field units.";
    let pages: String = families.0.iter().map(family).collect();
    head("Relations", about) + &index(families) + &pages + &units()
}

fn index(families: &Families) -> String {
    let mut table = Table::new(&[left("family"), left("relation"), left("title")]);
    for family in &families.0 {
        for relation in &family.relations {
            table.row([family.title, relation.name, relation.title]);
        }
    }
    table.markdown()
}

fn family(family: &Family) -> String {
    let relations: String = family.relations.iter().map(|r| entry(r)).collect();
    format!("\n## {}\n{relations}", family.title)
}

fn entry(relation: &Relation) -> String {
    let look = Look::default();
    format!(
        "\n### {}\n\n{}\n\n```text\n{}\n```\n\n- source: {}\n- range: {}\n- call: `{}`\n\n{}\n{}",
        relation.name,
        relation.title,
        relation.equation,
        relation.source,
        relation.range,
        call(relation, &look),
        inputs(relation, &look).markdown(),
        outputs(relation).markdown(),
    )
}

fn inputs(relation: &Relation, look: &Look) -> Table {
    let columns = [left("input"), left("what it is"), left("kind"), left("default"), left("valid")];
    let mut table = Table::new(&columns);
    for input in relation.inputs {
        table.row([
            input.name.to_string(),
            input.doc.to_string(),
            reading::kind_words(input),
            reading::default(input).to_string(),
            reading::range(input, look.system),
        ]);
    }
    table
}

fn outputs(relation: &Relation) -> Table {
    let mut table = Table::new(&[left("output"), left("what it is"), left("kind")]);
    for output in relation.outputs {
        table.row([output.name, output.doc, output.kind.name]);
    }
    table
}

/// The units of every kind that a relation takes or gives.
fn units() -> String {
    let kinds = physics::relations().flat_map(kinds);
    let kinds: BTreeMap<&str, &Kind> = kinds.map(|k| (k.name, k)).collect();
    let mut table =
        Table::new(&[left("kind"), left("units"), left("shown in field units"), left("in metric")]);
    for (name, kind) in kinds {
        let units = kind.unit_list();
        table.row([name, units.trim_start_matches(", "), kind.field, kind.metric]);
    }
    let about = "A value is written with any unit of its kind; the first is the SI unit.";
    format!("\n## Units\n\n{about}\n\n{}", table.markdown())
}

fn kinds(relation: &'static Relation) -> impl Iterator<Item = &'static Kind> {
    let of_inputs = relation.inputs.iter().filter_map(|i| match i.kind {
        InputKind::Quantity(kind) | InputKind::List(kind) => Some(kind),
        InputKind::Choice(_) => None,
    });
    of_inputs.chain(relation.outputs.iter().map(|o| o.kind))
}
