//! The one-screen summary of a program: what is planned, what binds, and what must be looked at.

use plan::Program;
use plan::balls::BallPlan;
use plan::casing_packer::CasingPackerPlan;
use plan::ladder::LadderPlan;
use plan::layout::Layout;
use plan::setting::SettingPlan;
use plan::stages::{StagePlan, StagesPlan};
use plan::strings::{Governing, StringsPlan};
use quantity::{Quantity, System};
use well::{Finding, Severity};

use super::finding::summary;
use crate::text::look::{Look, Role};
use crate::text::table::{Table, left, right};

/// Findings shown one a line; the rest are counted.
const MOST_FINDINGS: usize = 10;

/// The summary of a program on one screen.
pub fn page(program: &Program, look: &Look) -> String {
    let mut out = head(program, look);
    let mut facts: Vec<(&str, String)> = Vec::new();
    let s = look.system;
    facts.extend(program.layout.iter().flat_map(|l| layout(l, s)));
    facts.extend(program.ladder.iter().flat_map(|l| ladder(l, s)));
    facts.extend(program.strings.iter().map(|p| ("strings", strings(p, s))));
    facts.extend(program.setting.iter().flat_map(|p| setting(p, s)));
    facts.extend(program.casing_packer.iter().map(|p| ("casing", casing_packer(p, s))));
    facts.extend(program.stages.iter().flat_map(|p| totals(p, s)));
    facts.extend(program.balls.iter().map(|b| ("landing", balls(b, s))));
    for (label, text) in &facts {
        out += &look.hang(&format!("  {label:<12}"), 14, text);
    }
    if let Some(stages) = &program.stages {
        out += "\n";
        out += &stage_table(stages, program.ladder.as_ref(), look);
    }
    out += "\n";
    out += &findings(&program.findings, look);
    let assumed = program.assumptions.len();
    out += &look.wrap(
        0,
        &format!(
            "{assumed} assumptions taken, {} figures open to their workings (`heelward workings JOB FIGURE`).",
            program.workings.len()
        ),
    );
    out
}

fn head(program: &Program, look: &Look) -> String {
    let h = &program.header;
    let invented = if h.invented { " INVENTED DATA." } else { "" };
    let title = format!("{}: {}", h.well, h.job);
    let mut out = format!("{}\n", look.paint(Role::Title, &title));
    out += &look.wrap(
        2,
        &format!(
            "{}, revision {}, depths from {}, {} north.{invented}",
            h.system, h.revision, h.datum, h.north
        ),
    );
    out += "\n";
    out
}

fn layout(l: &Layout, s: System) -> Vec<(&'static str, String)> {
    let shortest = l.stages.iter().map(|p| p.length).fold(l.target, quantity::Length::min);
    let longest = l.stages.iter().map(|p| p.length).fold(l.target, quantity::Length::max);
    let worst =
        l.stages.iter().map(|p| p.packer.hole.worst).fold(quantity::Diameter::ZERO, quantity::Diameter::max);
    let r = &l.reconciliation;
    vec![
        (
            "stages",
            format!(
                "{} from {} to {}; {} to {} long, target {}",
                l.stages.len(),
                l.stages.last().map_or(l.shoe, |p| p.heel_end).text(s),
                l.stages.first().map_or(l.shoe, |p| p.toe_end).text(s),
                shortest.text(s),
                longest.text(s),
                l.target.text(s)
            ),
        ),
        (
            "tally",
            format!(
                "{} joints in, {} left on the rack, {} pups in; casing packer at {} (planned {}); worst hole at a packer {}",
                r.in_hole,
                r.left,
                r.pups_in_hole,
                l.casing_packer_top.text(s),
                l.casing_packer_planned.text(s),
                worst.text(s)
            ),
        ),
    ]
}

fn ladder(l: &LadderPlan, s: System) -> Vec<(&'static str, String)> {
    let sizes = match (l.rungs.first(), l.rungs.last()) {
        (Some(a), Some(b)) => format!("{} to {}", a.ball.text(s), b.ball.text(s)),
        _ => "none".into(),
    };
    let setting = l.setting_ball.map(|b| format!(", setting ball {}", b.ball.text(s))).unwrap_or_default();
    vec![
        (
            "balls",
            format!(
                "{} in all{setting}; {sizes} ({}); {} stages fit",
                l.balls,
                l.method.word(),
                l.stages_that_fit
            ),
        ),
        ("ladder held", l.bound_by.clone()),
    ]
}

fn strings(p: &StringsPlan, s: System) -> String {
    let lowest = p.strings.iter().flat_map(|x| x.governing.iter().map(move |g| (x, g)));
    let margin = |g: &Governing| g.factor.in_one() / g.required.in_one();
    let least = lowest.min_by(|a, b| margin(a.1).total_cmp(&margin(b.1)));
    let tightest = least.map(|(x, g)| {
        let (have, want) = (g.factor.in_one(), g.required.in_one());
        format!("; tightest: {}, {}, factor {have:.2} of {want:.2} asked for", x.name, g.criterion.words())
    });
    format!(
        "lowest internal yield {} ({}){}",
        p.lowest_internal_yield.text(s),
        p.lowest_internal_yield_of,
        tightest.unwrap_or_default()
    )
}

fn setting(p: &SettingPlan, s: System) -> Vec<(&'static str, String)> {
    let room =
        p.least_room.map(|r| format!("; least room between devices {}", r.text(s))).unwrap_or_default();
    let mut out = vec![(
        "setting",
        format!(
            "circulate below {}, highest pressure {}{room}; closed seat pulls {}",
            p.circulating_limit.text(s),
            p.highest.text(s),
            p.end_load.text(s)
        ),
    )];
    if let (Some(a), Some(w)) = (&p.activation, &p.swell) {
        let ready = w.earliest_frac.map_or("never".to_string(), |t| format!("{:.1} d", t.in_days()));
        let last = w.last_packer.map(|n| format!(" (most often last: packer {n})")).unwrap_or_default();
        let wait = w.planned_wait.in_days();
        out.push((
            "swell",
            format!(
                "{} of {}; all packers ready at P90 after {ready}{last}; planned wait {wait:.1} d",
                a.volume.text(s),
                a.fluid
            ),
        ));
    }
    out
}

fn casing_packer(p: &CasingPackerPlan, s: System) -> String {
    let used =
        p.governing().and_then(|c| c.utilisation).map(|u| format!("{:.0} % of its envelope", u.in_percent()));
    format!(
        "packer at {}: {}; rock {}, rated to {}; {} hang along the hole",
        p.top.text(s),
        used.unwrap_or("no envelope given".into()),
        p.temperature.text(s),
        p.max_temperature.text(s),
        p.hung.along_hole.text(s)
    )
}

fn totals(p: &StagesPlan, s: System) -> Vec<(&'static str, String)> {
    let t = &p.totals;
    let trucks: usize = t.proppants.iter().map(|x| x.trucks).sum();
    vec![
        (
            "toe",
            format!(
                "the seats cost stage 1 {} at its rate; without them it would take {}",
                p.toe_seat_loss.text(s),
                p.toe_rate_without_seats.text(s)
            ),
        ),
        (
            "totals",
            format!(
                "{:.0} {} clean, {} of proppant, {:.1} h pumping; {} tanks, {trucks} trucks, {} pumps needed for {}",
                t.clean.shown(s),
                quantity::Volume::KIND.shown(s).symbol,
                t.mass.text(s),
                t.pump_time.in_hours(),
                t.tanks,
                t.pumps_needed,
                t.power.text(s)
            ),
        ),
    ]
}

fn balls(b: &BallPlan, s: System) -> String {
    let rates = b.cards.iter().map(|c| c.landing_rate);
    let low = rates.clone().fold(None, |a: Option<quantity::FlowRate>, r| Some(a.map_or(r, |x| x.min(r))));
    let high = rates.fold(None, |a: Option<quantity::FlowRate>, r| Some(a.map_or(r, |x| x.max(r))));
    let (Some(low), Some(high)) = (low, high) else { return "no balls".into() };
    let seen = b.cards.iter().filter(|c| c.chosen.visible).count();
    format!(
        "at {} to {}; {seen} of {} seen at the surface; job {:.1} h with landings and flush",
        low.text(s),
        high.text(s),
        b.cards.len(),
        b.job_time.in_hours()
    )
}

/// The stages that say most: first, last, those held, and steps between.
fn stage_table(p: &StagesPlan, ladder: Option<&LadderPlan>, look: &Look) -> String {
    let s = look.system;
    let mut table = Table::new(&[
        right("stage"),
        right("depth"),
        right("ball"),
        right("seat"),
        right("ceiling"),
        right("planned"),
        right("pressure"),
        left("held by"),
    ]);
    let step = p.stages.len().div_ceil(8).max(1);
    let shown =
        |st: &&StagePlan| st.stage == 1 || st.stage == p.stages.len() || st.stage.is_multiple_of(step);
    for st in p.stages.iter().filter(shown) {
        let size = |d: Option<quantity::Diameter>| d.map_or("-".to_string(), |d| d.text(s));
        table.row([
            st.stage.to_string(),
            st.ports.text(s),
            size(ladder.and_then(|l| l.ball(st.stage))),
            size(ladder.and_then(|l| l.seat(st.stage))),
            st.rate_ceiling.text(s),
            st.planned_rate.text(s),
            st.pressure.surface.text(s),
            st.bound_by.words().to_string(),
        ]);
    }
    table.render(look, 2)
}

fn findings(findings: &[Finding], look: &Look) -> String {
    let grave: Vec<&Finding> = findings.iter().filter(|f| f.severity != Severity::Note).collect();
    let mut out = String::new();
    for f in grave.iter().take(MOST_FINDINGS) {
        let word = look.paint(super::explain::role(f.severity), f.severity.word());
        let stage = f.place.stage.map(|n| format!("stage {n}"));
        let line = f.place.file.as_ref().zip(f.place.line).map(|(file, line)| format!("{file}:{line}"));
        let at = stage.into_iter().chain(line).collect::<Vec<_>>().join(", ");
        let at = if at.is_empty() { at } else { format!(" ({at})") };
        out += &look.hang(&format!("{word} {}{at}: ", f.id), 6, &f.sentence(look.system));
    }
    if grave.len() > MOST_FINDINGS {
        out += &look.wrap(0, &format!("and {} more", grave.len() - MOST_FINDINGS));
    }
    out += &format!("{}\n", summary(findings));
    out
}
