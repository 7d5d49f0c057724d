//! The register of relations, family by family.

use physics::Relation;

use super::head;
use crate::terminal::relation::{call, inputs, outputs};
use crate::text::family::{Families, Family};
use crate::text::look::Look;
use crate::text::table::{Table, left};

/// The document.
pub fn document(families: &Families) -> String {
    let about = "Every relation the program computes with. `heelward calc NAME key=value...` calls one, \
                 `heelward calc --list` prints this register, and [accuracy.md](accuracy.md) shows how each \
                 compares with its reference cases. Ranges are in field units.";
    let pages: String = families.0.iter().map(family).collect();
    head("Relations", about) + &index(families) + &pages
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
        outputs(relation, &look).markdown(),
    )
}
