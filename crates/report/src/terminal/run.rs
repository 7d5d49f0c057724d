//! The one-screen summary of a simulated job.

use pump::{LandingRun, RockRun, Run, StageRun};
use quantity::{FlowRate, GaugePressure, Length, Quantity, Ratio, System, Time, Volume, number};

use super::finding::{entry, summary};
use crate::text::look::{Look, Role};
use crate::text::table::{Table, left, right};

/// Stages shown, spread over the job.
const MOST_STAGES: usize = 12;

/// The summary of a run on one screen.
pub fn page(run: &Run, look: &Look) -> String {
    let s = look.system;
    let h = &run.header;
    let invented = if h.invented { " INVENTED DATA." } else { "" };
    let mut out =
        format!("{}\n", look.paint(Role::Title, &format!("{}: {}, pumped in the simulator", h.well, h.job)));
    out += &look.wrap(
        2,
        &format!("revision {}, a sample every {} s.{invented}", h.revision, run.sample.in_seconds()),
    );
    out += "\n";
    for (label, text) in facts(run, s) {
        out += &look.hang(&format!("  {label:<12}"), 14, &text);
    }
    out += "\n";
    out += &stages(run, look);
    out += "\n";
    for finding in &run.findings {
        out += &entry(finding, look);
    }
    out += &look.wrap(0, &format!("{}; {} events.", summary(&run.findings), run.events.len()));
    out
}

fn facts(run: &Run, s: System) -> Vec<(&'static str, String)> {
    let last = run.samples.last();
    let end = last.map_or(Time::ZERO, |x| x.time);
    let highest = run.samples.iter().max_by(|a, b| a.treating_pressure.total_cmp(&b.treating_pressure));
    let how = if run.finished { "to the end of the flush" } else { "STOPPED before its end" };
    let mut out = vec![("job", format!("{:.1} h {how}", end.in_hours()))];
    out.push((
        "pumped",
        format!(
            "{} slurry, {} clean, {} of proppant",
            run.pumped.slurry.text(s),
            run.pumped.clean.text(s),
            run.pumped.mass.text(s)
        ),
    ));
    if let Some(x) = highest {
        let time = number(x.time.in_minutes(), 1);
        out.push((
            "highest",
            format!("{} at {time} min while stage {} took fluid", x.treating_pressure.text(s), x.open_stage),
        ));
    }
    out.push((
        "left",
        format!(
            "{} of slurry with {} of proppant in the string",
            run.in_string.slurry.text(s),
            run.in_string.mass.text(s)
        ),
    ));
    out.extend(rock(run, s).map(|text| ("fractures", text)));
    out.extend(shut_in(run, s).map(|text| ("shut in", text)));
    for label in &run.labels {
        let from = number(label.from.in_minutes(), 1);
        out.push((
            "fault",
            format!("{}, stage {}, from {from} min: {}", label.kind.name(), label.stage, label.text),
        ));
    }
    out
}

/// Size of the fractures, and the stage whose pad is shortest against what it needs.
fn rock(run: &Run, s: System) -> Option<String> {
    let all = || run.stages.iter().filter_map(|x| Some((x.stage, x.rock?)));
    let lengths = || all().map(|(_, r)| r.length);
    let (low, high) = (lengths().min_by(Length::total_cmp)?, lengths().max_by(Length::total_cmp)?);
    let spare = |r: &RockRun| (r.pad - r.pad_needed).si();
    let (stage, r) = all().min_by(|a, b| spare(&a.1).total_cmp(&spare(&b.1)))?;
    let screened = all().filter(|(_, r)| r.screened_out).count();
    let percent = |r: Ratio| number(r.in_percent(), 0);
    Some(format!(
        "wings or radii of {} to {}; shortest pad against its need at stage {stage}: {} % of {} %; {screened} screened out",
        low.text(s),
        high.text(s),
        percent(r.pad),
        percent(r.pad_needed)
    ))
}

/// The last pressure just after the pumps stopped.
fn shut_in(run: &Run, s: System) -> Option<String> {
    let (stage, p) = run.stages.iter().filter_map(|x| Some((x.stage, x.shut_in?))).next_back()?;
    Some(format!("{} at the surface on stage {stage}, the waves taken off", p.text(s)))
}

fn stages(run: &Run, look: &Look) -> String {
    let s = look.system;
    let mut table = Table::new(&[
        right("stage"),
        right("placed"),
        right("proppant"),
        right("behind it"),
        right("fastest"),
        right("highest"),
        right("ball after"),
        left("of swept"),
    ]);
    let count = run.stages.len().saturating_sub(1).max(1);
    let every = count.div_ceil(MOST_STAGES).max(1);
    let shown = run
        .stages
        .iter()
        .filter(|x| x.stage == 1 || x.stage == count || (x.stage > 0 && x.stage % every == 0));
    for stage in shown {
        let landing = run.landings.iter().find(|l| l.stage == stage.stage);
        table.row(row(stage, landing, s));
    }
    table.render(look, 2)
}

fn row(stage: &StageRun, landing: Option<&LandingRun>, s: System) -> [String; 8] {
    let text = |v: Volume| v.text(s);
    [
        stage.stage.to_string(),
        text(stage.placed.slurry),
        stage.placed.mass.text(s),
        text(stage.behind),
        FlowRate::text(stage.fastest, s),
        GaugePressure::text(stage.highest, s),
        landing.map_or("-".into(), |l| text(l.pumped)),
        landing.map_or("-".into(), |l| format!("{:.3}", l.ratio.in_one())),
    ]
}
