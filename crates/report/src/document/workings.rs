//! Workings of the headline figures, and the sources they name.

use std::collections::{BTreeMap, BTreeSet};

use plan::{Named, Step, Working};

use super::Desk;
use super::block::{Block, Column, NamedValue, Paper, StepEntry, Table, WorkingEntry};
use super::units::{Units, pretty};
use crate::text::bibliography::key;
use crate::text::reading;

/// The pages.
pub(super) fn pages(desk: &Desk<'_>, paper: &mut Paper) {
    let chosen = chosen(desk);
    let all = desk.program.workings.len();
    let lead = format!(
        "What the figures on the first page rest on, {} of {all}. All {all} are in program.json, and every one can be \
         opened by its name.",
        chosen.len()
    );
    paper.section("Workings of the headline figures", &lead);
    let workings = chosen.iter().map(|(figure, working)| entry(figure, working, desk.units)).collect();
    paper.blocks.push(Block::Workings { workings });
    paper.next_section("Sources", "What the keys of the workings stand for, and how far each was read.");
    paper.table(sources(desk));
}

/// The figures that are printed with their workings, those that are there.
fn chosen<'a>(desk: &Desk<'a>) -> BTreeMap<&'a str, &'a Working> {
    let program = desk.program;
    let stages = program.layout.as_ref().map_or(0, |l| l.stages.len());
    let hardest = program
        .ladder
        .as_ref()
        .and_then(|l| l.rungs.iter().max_by(|a, b| a.utilisation.total_cmp(&b.utilisation)).map(|r| r.stage));
    let first_ball = program.balls.as_ref().and_then(|b| b.cards.first()).map_or(0, |c| c.stage);
    let mut wanted: Vec<String> =
        ["treating_pressure", "rate_ceiling"].iter().map(|w| format!("stage.1.{w}")).collect();
    for ball in [first_ball, stages] {
        wanted.push(format!("ball.{ball}.landing"));
    }
    if let Some(stage) = hardest {
        wanted.extend(["least_interference", "utilisation"].iter().map(|w| format!("ladder.{stage}.{w}")));
    }
    wanted.push("ladder.toe_loss".into());
    let there = wanted.iter().filter_map(|w| program.workings.get_key_value(w.as_str()));
    there.map(|(figure, working)| (figure.as_str(), working)).collect()
}

fn entry(figure: &str, working: &Working, u: Units) -> WorkingEntry {
    WorkingEntry {
        figure: figure.into(),
        title: working.title.clone(),
        value: u.value(working.value),
        note: working.note.clone(),
        steps: working.steps.iter().map(|s| step(s, u)).collect(),
    }
}

fn step(step: &Step, u: Units) -> StepEntry {
    let value = |named: &Named| NamedValue {
        name: named.name.clone(),
        doc: named.doc.clone(),
        value: pretty(&named.word.clone().unwrap_or_else(|| reading::list(&named.values, u.0))),
        outside: step.outside.contains(&named.name),
    };
    StepEntry {
        title: step.title.clone(),
        relation: step.relation.clone(),
        equation: step.equation.clone(),
        source: step.source.clone(),
        range: step.range.clone(),
        inputs: step.inputs.iter().map(value).collect(),
        outputs: step.outputs.iter().map(value).collect(),
    }
}

/// The sources named by any working of the program.
fn sources(desk: &Desk<'_>) -> Table {
    let steps = desk.program.workings.values().flat_map(|w| &w.steps);
    let keys: BTreeSet<&str> =
        steps.flat_map(|s| s.source.split(';')).map(key).filter(|k| !k.is_empty()).collect();
    let mut table = Table::new(vec![Column::words("key"), Column::wide("source", 1.0)]);
    for key in keys {
        if let Some(source) = desk.sources.0.get(key) {
            table.row(vec![key.into(), source.line().into()]);
        }
    }
    table
}
