//! Workings of the headline figures, and the sources they name.

use std::collections::BTreeSet;

use plan::{Named, Step, Working};
use quantity::Time;

use super::Desk;
use super::block::{Block, Column, NamedValue, Paper, StepEntry, Table, WorkingEntry};
use super::units::{Units, powers, pretty, sentence, span};
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

/// The figures that are printed with their workings, in job order, those that are there.
fn chosen<'a>(desk: &Desk<'a>) -> Vec<(&'a str, &'a Working)> {
    let wanted = wanted(desk);
    let there = wanted.iter().filter_map(|w| desk.program.workings.get_key_value(w.as_str()));
    there.map(|(figure, working)| (figure.as_str(), working)).collect()
}

fn wanted(desk: &Desk<'_>) -> Vec<String> {
    let program = desk.program;
    let mut wanted = Vec::new();
    if let Some(ladder) = &program.ladder {
        let hardest = ladder.rungs.iter().max_by(|a, b| a.utilisation.total_cmp(&b.utilisation));
        let of = |stage: usize| ["least_interference", "utilisation"].map(|w| format!("ladder.{stage}.{w}"));
        wanted.extend(hardest.into_iter().flat_map(|r| of(r.stage)));
        wanted.push("ladder.toe_loss".into());
    }
    let lasting = ["strings.lowest_internal_yield", "casing_packer.utilisation", "setting.limit.1.ceiling"];
    wanted.extend(lasting.map(String::from));
    let swell = program.setting.as_ref().and_then(|s| s.swell.as_ref());
    wanted.extend(swell.and_then(|s| s.last_packer).map(|stage| format!("swell.packer.{stage}.rating")));
    wanted.extend(["rate_ceiling", "treating_pressure"].map(|w| format!("stage.1.{w}")));
    if let Some(cards) = program.balls.as_ref().map(|b| &b.cards) {
        let ends = cards.first().into_iter().chain(cards.last().filter(|_| cards.len() > 1));
        wanted.extend(ends.map(|c| format!("ball.{}.landing", c.stage)));
    }
    wanted
}

fn entry(figure: &str, working: &Working, u: Units) -> WorkingEntry {
    let steps = working.steps.iter().enumerate().map(|(i, s)| {
        let before = working.steps.get(..i).unwrap_or_default();
        step(
            s,
            before.iter().rposition(|b| b.relation == s.relation).and_then(|at| Some((at, before.get(at)?))),
            u,
        )
    });
    WorkingEntry {
        figure: figure.into(),
        title: working.title.clone(),
        value: figure_text(working.value, u),
        note: sentence(&working.note.text(u.0)),
        steps: steps.collect(),
    }
}

/// The figure; a long time also in the unit a person would say it in.
fn figure_text(value: quantity::Value, u: Units) -> String {
    match value.typed::<Time>() {
        Some(time) if time.in_hours() > 2.0 => format!("{} ({})", u.value(value), span(time)),
        _ => u.value(value),
    }
}

/// A step; where the same relation was called before, only the inputs that differ from that call.
fn step(step: &Step, before: Option<(usize, &Step)>, u: Units) -> StepEntry {
    let value = |named: &Named| NamedValue {
        name: named.name.clone(),
        doc: named.doc.clone(),
        value: powers(&named.word.clone().unwrap_or_else(|| pretty(&reading::list(&named.values, u.0)))),
        outside: step.outside.contains(&named.name),
    };
    let differs = |named: &&Named| before.is_none_or(|(_, b)| !b.inputs.contains(named));
    StepEntry {
        title: step.title.clone(),
        relation: step.relation.clone(),
        equation: step.equation.clone(),
        source: step.source.clone(),
        range: step.range.clone(),
        like: before.map(|(at, _)| at + 1),
        inputs: step.inputs.iter().filter(differs).map(value).collect(),
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
