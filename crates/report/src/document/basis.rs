//! The first pages: what is planned, on what basis, within which limits, and who stands for it.

use plan::program::Program;
use well::job::{StringRole, SystemKind};
use well::{Job, Severity};

use quantity::*;

use super::Desk;
use super::block::{Block, Column, Fact, Paper, Table, Tone, fact};
use super::units::{NONE, Units, span};
use crate::text::caution::{CAUTIONS, STANDING};
use crate::text::look::count;

/// The kind of system in words.
pub(super) fn system_words(job: &Job) -> String {
    match job.file.system.kind {
        SystemKind::FluidActivated => "fluid-activated packers".into(),
        SystemKind::HydraulicSet => "hydraulic-set packers".into(),
    }
}

/// What holds on every page.
const CONVENTIONS: &[(&str, &str)] = &[
    (
        "stages",
        "Stage 1 is at the toe; numbers grow toward the heel. Tables of stages have the heel on top, as the well lies.",
    ),
    ("depths", "Measured depth unless it says TVD, from the datum of the first page."),
    (
        "pressures",
        "Gauge, at the surface, unless the line says otherwise. A differential is what one side has over the other.",
    ),
    (
        "spread",
        "P10 / P50 / P90: one in ten is lower than P10, half are lower than P50, nine in ten are lower than P90.",
    ),
    (
        "frames",
        "A framed figure breaks a limit or is held down by one. The findings say which, and what to do.",
    ),
    ("blanks", "Empty boxes are written in on location; what is written there goes before what is printed."),
];

/// Title, key figures, signatures and contents; then cautions; then the basis.
pub(super) fn pages(desk: &Desk<'_>, paper: &mut Paper) {
    paper.blocks.push(Block::Title);
    verdict(desk, paper);
    paper.heading("Key figures");
    paper.facts(2, key_figures(desk));
    paper.heading("Signatures");
    paper.blocks.push(Block::Signatures { roles: ROLES.iter().map(|r| (*r).to_string()).collect() });
    paper.heading("Contents");
    paper.blocks.push(Block::Contents);
    paper.section("Cautions", "");
    paper.notice(Tone::Stop, "What this document is", vec![STANDING.to_string()]);
    paper.blocks.push(Block::Rules { rules: CAUTIONS.iter().map(|c| fact(c.subject, c.rule)).collect() });
    paper.heading("How to read it");
    paper
        .blocks
        .push(Block::Rules { rules: CONVENTIONS.iter().map(|(name, rule)| fact(*name, *rule)).collect() });
    paper.section("Basis", "What the program was given. Every figure that follows rests on these.");
    basis(desk, paper);
}

/// Roles that stand for the program; names are written by hand.
const ROLES: &[&str] = &[
    "Completions engineer",
    "Engineer who checked it",
    "Tool supplier's representative",
    "Pumping supervisor",
    "Wellsite supervisor",
];

/// Most findings that are named on the first page.
const NAMED: usize = 5;

fn verdict(desk: &Desk<'_>, paper: &mut Paper) {
    let program = desk.program;
    let (stops, warns) = (program.count(Severity::Stop), program.count(Severity::Warn));
    if stops > 0 {
        let title = format!("{} the job. Do not run this program as it stands.", count_stops(stops));
        paper.notice(Tone::Stop, title, named(desk, Severity::Stop));
    } else if warns > 0 {
        let title = format!("Nothing stops the job. {} to be decided on.", count(warns, "warning"));
        paper.notice(Tone::Warn, title, named(desk, Severity::Warn));
    } else {
        paper.notice(Tone::Clear, "Nothing stops the job and there are no warnings.", Vec::new());
    }
}

/// The first finding of every check, with how many more there are of it.
fn named(desk: &Desk<'_>, severity: Severity) -> Vec<String> {
    let mut kinds: Vec<(&well::Finding, usize)> = Vec::new();
    for f in desk.program.findings.iter().filter(|f| f.severity == severity) {
        match kinds.iter_mut().find(|(first, _)| first.id == f.id) {
            Some((_, more)) => *more += 1,
            None => kinds.push((f, 0)),
        }
    }
    let line = |(f, more): &(&well::Finding, usize)| {
        let more = if *more > 0 { format!(" (and {more} more of this kind)") } else { String::new() };
        super::findings::sentence(f, desk.units) + &more
    };
    let mut lines: Vec<String> = kinds.iter().take(NAMED).map(line).collect();
    if let Some(rest) = kinds.len().checked_sub(NAMED).filter(|n| *n > 0) {
        lines.push(format!("... and {rest} more kinds; see the findings."));
    }
    lines
}

fn count_stops(stops: usize) -> String {
    if stops == 1 { "1 finding stops".into() } else { format!("{stops} findings stop") }
}

fn key_figures(desk: &Desk<'_>) -> Vec<Fact> {
    let mut facts = place_facts(desk.program, desk.units);
    facts.extend(ladder_facts(desk.program, desk.units));
    facts.extend(duty_facts(desk.program, desk.units));
    facts.extend(pump_facts(desk));
    facts
}

/// What strings and packers stand, and how long they take.
fn duty_facts(program: &Program, u: Units) -> Vec<Fact> {
    let mut facts = Vec::new();
    let factors =
        program.strings.iter().flat_map(|p| &p.strings).flat_map(|s| s.governing.iter().map(move |g| (s, g)));
    let spare = |g: &plan::strings::Governing| g.factor.si() / g.required.si();
    if let Some((s, g)) = factors.min_by(|a, b| spare(a.1).total_cmp(&spare(b.1))) {
        let text = format!(
            "{} of {}, {} of the {}",
            u.rounded(g.factor, 2),
            u.rounded(g.required, 2),
            g.criterion.words(),
            s.name
        );
        facts.push(fact("Nearest to its safety factor", text));
    }
    if let Some(case) = program.casing_packer.as_ref().and_then(|c| c.governing()) {
        let used = case.utilisation.map_or_else(|| "beyond it".to_string(), super::units::percent);
        facts.push(fact("Casing packer, of its envelope", format!("{used} ({})", case.case.words())));
    }
    let Some(setting) = &program.setting else { return facts };
    facts.push(fact("Highest pressure setting and testing", u.text(setting.highest)));
    if let Some(swell) = &setting.swell {
        let earliest = swell.earliest_frac.map_or_else(|| "not reached".to_string(), span);
        facts.push(fact(
            "Wait for the swell: planned, needed",
            format!("{}, {earliest}", span(swell.planned_wait)),
        ));
    }
    facts
}

fn place_facts(program: &Program, u: Units) -> Vec<Fact> {
    let Some(layout) = &program.layout else { return vec![fact("Layout", "not computed")] };
    let mut facts = vec![
        fact("Stages", layout.stages.len().to_string()),
        fact("Shoe of the liner", u.text(layout.shoe)),
        fact("Top of the casing packer", u.text(layout.casing_packer_top)),
        fact("Target length of a stage", u.text(layout.target)),
    ];
    let least = layout.stages.iter().min_by(|a, b| a.length.total_cmp(&b.length));
    let most = layout.stages.iter().max_by(|a, b| a.length.total_cmp(&b.length));
    if let (Some(a), Some(b)) = (least, most) {
        let text =
            format!("{} (stage {}) to {} (stage {})", u.text(a.length), a.stage, u.text(b.length), b.stage);
        facts.push(fact("Lengths of the stages", text));
    }
    let r = &layout.reconciliation;
    facts.push(fact("Joints in the hole, on the rack", format!("{}, {}", r.in_hole, r.on_rack)));
    facts
}

fn ladder_facts(program: &Program, u: Units) -> Vec<Fact> {
    let Some(ladder) = &program.ladder else { return vec![fact("Ladder", "not computed")] };
    let mut facts =
        vec![fact("Balls, of which open stages", format!("{}, {}", ladder.balls, ladder.frac_balls))];
    if let (Some(first), Some(last)) = (ladder.rungs.first(), ladder.rungs.last()) {
        facts
            .push(fact("Smallest ball on seat", format!("{} on {}", u.text(first.ball), u.text(first.seat))));
        facts.push(fact("Largest ball on seat", format!("{} on {}", u.text(last.ball), u.text(last.seat))));
    }
    let hardest = ladder.rungs.iter().max_by(|a, b| a.utilisation.total_cmp(&b.utilisation));
    if let Some(r) = hardest {
        let text = format!("{} % (stage {})", u.rounded(r.utilisation * 100.0, 0), r.stage);
        facts.push(fact("Highest use of a ball's rating", text));
    }
    facts
}

fn pump_facts(desk: &Desk<'_>) -> Vec<Fact> {
    let u = desk.units;
    let Some(plan) = &desk.program.stages else { return vec![fact("Treatment", "not computed")] };
    let t = &plan.totals;
    let mut facts = Vec::new();
    let hardest = plan.stages.iter().max_by(|a, b| a.pressure.surface.total_cmp(&b.pressure.surface));
    if let Some(s) = hardest {
        facts.push(fact(
            "Highest treating pressure",
            format!("{} (stage {})", u.text(s.pressure.surface), s.stage),
        ));
    }
    facts.push(fact("Limit, trip, relief", limits_text(desk.job, u)));
    let slowest = plan.stages.iter().min_by(|a, b| a.rate_ceiling.total_cmp(&b.rate_ceiling));
    if let Some(s) = slowest {
        let text = format!("{} (stage {}, {})", u.text(s.rate_ceiling), s.stage, s.bound_by.words());
        facts.push(fact("Lowest rate ceiling", text));
    }
    facts.push(fact("Clean fluid, in tanks", format!("{}, {}", u.large(t.clean), t.tanks)));
    let trucks: usize = t.proppants.iter().map(|p| p.trucks).sum();
    facts.push(fact("Proppant, in truck loads", format!("{}, {trucks}", u.heavy(t.mass))));
    facts.push(fact(
        "Pumps needed, on location",
        format!("{}, {}", t.pumps_needed, desk.job.file.equipment.pumps),
    ));
    facts.push(fact("Pumping time of the stages", span(t.pump_time)));
    if let Some(balls) = &desk.program.balls {
        facts.push(fact("Time of the whole treatment", span(balls.job_time)));
    }
    facts
}

fn limits_text(job: &Job, u: Units) -> String {
    let l = &job.file.limits;
    let unit = u.unit::<GaugePressure>();
    format!("{}, {}, {} {unit}", u.number(l.treating_pressure), u.number(l.trip), u.number(l.relief))
}

fn basis(desk: &Desk<'_>, paper: &mut Paper) {
    let (u, file) = (desk.units, &desk.job.file);
    if !desk.program.header.note.is_empty() {
        paper.notice(Tone::Note, "Note of the job file", vec![desk.program.header.note.clone()]);
    }
    paper.heading("Well");
    paper.facts(2, well_facts(desk));
    paper.heading("Strings");
    paper.table(strings(desk));
    paper.heading("Limits");
    paper.facts(2, limit_facts(desk));
    paper.heading("Tools");
    paper.facts(2, tool_facts(desk));
    paper.heading("Fluids and proppants");
    let mut table = Table::new(vec![
        Column::wide("fluid or proppant", 1.0),
        Column::number("density", u.unit::<Density>()),
        Column::wide("how it flows", 1.4),
        Column::wide("source", 2.0),
    ]);
    for f in &file.fluid {
        table.row(vec![
            f.name.clone().into(),
            u.number(f.density).into(),
            flow(f, u).into(),
            f.source.clone().into(),
        ]);
    }
    for p in &file.proppant {
        let bulk = format!("grains; bulk {}", u.text(p.bulk_density));
        table.row(vec![p.name.clone().into(), u.number(p.grain_density).into(), bulk.into(), NONE.into()]);
    }
    paper.table(table);
}

fn flow(fluid: &well::job::Fluid, u: Units) -> String {
    let mut words = match fluid.rheology {
        well::job::Rheology::Newtonian => format!("{} viscosity", u.maybe_text(fluid.viscosity)),
        well::job::Rheology::PowerLaw => {
            format!("n {}, K {}", u.maybe_text(fluid.flow_index), u.maybe_text(fluid.consistency))
        }
    };
    if fluid.drag_reduction.si() > 0.0 {
        words += &format!(", {} drag reduction", super::units::percent(fluid.drag_reduction));
    }
    words
}

fn well_facts(desk: &Desk<'_>) -> Vec<Fact> {
    let (u, file) = (desk.units, &desk.job.file);
    let rock = &file.rock;
    let caliper = file.hole.caliper.as_ref();
    vec![
        fact("Survey", format!("{}, azimuths from {} north", file.survey.file, file.survey.north.word())),
        fact("Depths from", datum(desk)),
        fact("Total depth", u.text(file.hole.total_depth)),
        fact("Vertical depth at total depth", u.text(desk.job.trajectory.tvd_at(file.hole.total_depth))),
        fact("Caliper", caliper.map_or_else(|| "none: bit size is taken".into(), |c| c.file.clone())),
        fact("Depth uncertainty at total depth, 1 sigma", u.text(file.hole.depth_sigma)),
        fact("Interval to be treated", interval(desk)),
        fact("Fracture gradient", u.text(rock.fracture_gradient)),
        fact("Pore pressure gradient", u.text(rock.pore_gradient)),
        fact(
            "Rock temperature",
            format!("{} at {} TVD", u.text(rock.bottom_temperature), u.text(rock.bottom_temperature_depth)),
        ),
        fact("Fluids are pumped at", u.text(rock.pumped_temperature)),
        fact("Rock figures from", rock.source.clone()),
    ]
}

fn datum(desk: &Desk<'_>) -> String {
    let survey = &desk.job.file.survey;
    match survey.datum_elevation {
        Some(e) => format!("{}, {} above sea level", survey.datum, desk.units.text(e)),
        None => survey.datum.clone(),
    }
}

fn interval(desk: &Desk<'_>) -> String {
    let system = &desk.job.file.system;
    let toe = system.toe_limit.map_or_else(|| "the shoe".into(), |t| desk.units.text(t));
    format!("{} to {toe}", desk.units.text(system.heel_limit))
}

fn limit_facts(desk: &Desk<'_>) -> Vec<Fact> {
    let (u, l) = (desk.units, &desk.job.file.limits);
    vec![
        fact("Treating pressure at the surface", u.text(l.treating_pressure)),
        fact("Pump trips", u.text(l.trip)),
        fact("Relief valve", u.text(l.relief)),
        fact("Wellhead and tree", u.text(l.wellhead)),
        fact(
            "Annulus pressure, held and highest",
            format!("{}, {}", u.text(l.annulus_pressure), u.text(l.annulus_limit)),
        ),
        fact("Highest rate of iron, meters, pumps", u.text(l.rate)),
        fact(
            "Factors: internal yield, collapse, tension",
            format!(
                "{}, {}, {}",
                u.rounded(l.burst_factor, 2),
                u.rounded(l.collapse_factor, 2),
                u.rounded(l.tension_factor, 2)
            ),
        ),
        fact(
            "Factors: combined stress, packers",
            format!("{}, {}", u.rounded(l.triaxial_factor, 2), u.rounded(l.packer_factor, 2)),
        ),
        fact("Limits from", l.source.clone()),
    ]
}

fn tool_facts(desk: &Desk<'_>) -> Vec<Fact> {
    let (u, file) = (desk.units, &desk.job.file);
    let (p, s, c) = (&file.packer, &file.sleeve, &file.casing_packer);
    vec![
        fact("Packer: OD, element", format!("{}, {}", u.text(p.od), u.text(p.element_length))),
        fact(
            "Packer: hole it may stand in",
            format!("{} to {}", u.text(p.smallest_hole), u.text(p.largest_hole)),
        ),
        fact("Packer: figures from", p.source.clone()),
        fact("Sleeve: OD, bore", format!("{}, {}", u.text(s.od), u.text(s.id))),
        fact("Sleeve: ports", format!("{} of {}", s.ports, u.text(s.port_diameter))),
        fact("Sleeve: figures from", s.source.clone()),
        fact("Casing packer: OD, bore", format!("{}, {}", u.text(c.od), u.text(c.id))),
        fact("Casing packer: figures from", c.source.clone()),
        fact("Balls", format!("{}, {}", file.ball.material, u.text(file.ball.density))),
        fact("Balls: figures from", file.ball.source.clone()),
    ]
}

fn strings(desk: &Desk<'_>) -> Table {
    let u = desk.units;
    let mut table = Table::new(vec![
        Column::wide("string", 1.0),
        Column::words("for"),
        Column::number("top", u.unit::<MeasuredDepth>()),
        Column::number("bottom", u.unit::<MeasuredDepth>()),
        Column::number("OD", u.unit::<Diameter>()),
        Column::number("bore", u.unit::<Diameter>()),
        Column::number("drift", u.unit::<Diameter>()),
        Column::number("weight", u.unit::<MassPerLength>()),
        Column::words("grade"),
        Column::words("connection"),
    ]);
    for s in &desk.job.strings {
        let t = &s.table;
        table.row(vec![
            t.name.clone().into(),
            role(t.role).into(),
            u.number(t.top).into(),
            u.number(t.bottom).into(),
            u.number(t.od).into(),
            u.number(s.bore()).into(),
            u.number(s.drift()).into(),
            u.number(t.weight).into(),
            t.grade.clone().into(),
            t.connection.word().into(),
        ]);
    }
    table
}

fn role(role: StringRole) -> &'static str {
    match role {
        StringRole::Casing => "casing",
        StringRole::Treating => "treating",
        StringRole::Liner => "liner",
    }
}
