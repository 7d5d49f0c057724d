//! Setting the packers: the pressure sheet, the windows of the devices, limits and forces, and the
//! activation fluid.

use plan::setting::*;
use quantity::*;

use super::Desk;
use super::block::{Cell, Column, Fact, Paper, Table, fact};
use super::units::{NONE, Units, percent, powers, runs, span};
use crate::draw::sequence::{Line, Row, RowKind, SequencePicture, sequence};
use crate::text::reading;

/// The pages.
pub(super) fn pages(desk: &Desk<'_>, paper: &mut Paper) {
    let lead = "Pressures are gauge, at the surface, with the fluids at rest. A step is not begun before the one above \
                it is signed.";
    paper.section("Setting the packers: pressure sheet", lead);
    let Some(plan) = &desk.program.setting else { return paper.absent("Setting the packers") };
    let u = desk.units;
    paper.table(sheet(plan, u));
    paper.heading("What decides each step, and when to stop");
    paper.table(reasons(plan, u));
    let lead = "Every device in the order it is to act. Where one window reaches into the next, the next may act too \
                early.";
    paper.section("Pressure sequence", lead);
    let picture = picture(plan, u);
    let width = desk.sheet.width;
    paper.drawing("sequence", sequence(&picture, width), "Where each device acts, in the order of the job.");
    let steps = steps_picture(plan, u);
    paper.drawing("steps", sequence(&steps, width), "Where the pressure of each step must stay.");
    paper.facts(2, summary(plan, u));
    paper.heading("Ceilings of the pressure in the string");
    paper.table(ceilings(plan, u));
    if let Some(activation) = &plan.activation {
        paper.heading("Activation fluid");
        paper.facts(2, activation_facts(activation, u));
    }
    let rows = plan.devices.len() + plan.thrusts.len();
    paper.section_of(rows, "Devices and forces", "");
    paper.table(devices(plan, u));
    if !plan.pistons.is_empty() {
        paper.heading("Forces of the setting pistons");
        paper.table(pistons(plan, u));
    }
    paper.heading("Thrust of a stage on its packer");
    paper.table(thrusts(plan, u));
}

fn sheet(plan: &SettingPlan, u: Units) -> Table {
    let (psi, vol) = (u.unit::<GaugePressure>(), u.unit::<Volume>());
    let mut table = Table::new(vec![
        Column::number("step", ""),
        Column::wide("what is done", 4.0),
        Column::words("on"),
        Column::number("watch from", &psi),
        Column::number("needs", &psi),
        Column::number("go to", &psi),
        Column::number("not above", &psi),
        Column::words("hold"),
        Column::number("pump", &vol),
        Column { unit: psi.clone(), ..Column::wide("read", 0.8) },
        Column { unit: vol.clone(), ..Column::wide("volume", 0.8) },
        Column::wide("time", 0.8),
        Column::wide("initials", 0.8),
    ])
    .sized(7.2)
    .tall()
    .note(
        "Watch from: the device may act from here on. Needs to not above: the window of the step. Framed: the step has \
         no room. Pump: into the closed string from the step before; below zero it comes back.",
    );
    for s in &plan.sheet {
        table.row(vec![
            Cell::strong(s.step.to_string()),
            s.text.clone().into(),
            side(s.side).into(),
            u.maybe(s.acts_from).into(),
            u.number(s.low).into(),
            s.target.map_or_else(|| Cell::judged("no room", true), |t| Cell::strong(u.number(t))),
            u.number(s.high).into(),
            if s.hold.si() > 0.0 { span(s.hold) } else { NONE.into() }.into(),
            s.volume_to_pump.map_or_else(|| NONE.into(), |v| u.either(v, 2, 3)).into(),
            Cell::blank(),
            Cell::blank(),
            Cell::blank(),
            Cell::blank(),
        ]);
    }
    table
}

/// Every fluid with its volume and tanks.
fn fluids(plan: &SettingPlan, u: Units) -> String {
    let one = |f: &SettingFluid| format!("{}: {}, tanks: {}", f.fluid, u.large(f.volume), f.tanks);
    plan.fluids.iter().map(one).collect::<Vec<_>>().join("; ")
}

fn side(side: Side) -> &'static str {
    match side {
        Side::String => "string",
        Side::Annulus => "annulus",
    }
}

fn reasons(plan: &SettingPlan, u: Units) -> Table {
    let mut table = Table::new(vec![
        Column::number("step", ""),
        Column::wide("device that decides", 1.0),
        Column::number("depth", u.unit::<MeasuredDepth>()),
        Column::number("across it", u.unit::<Pressure>()),
        Column::wide("bounded above by", 1.5),
        Column::wide("stop when", 4.0),
    ])
    .sized(7.2);
    for s in &plan.sheet {
        table.row(vec![
            Cell::strong(s.step.to_string()),
            s.device.clone().unwrap_or_else(|| NONE.into()).into(),
            u.maybe(s.depth).into(),
            u.maybe(s.differential).into(),
            s.bound_by.words().into(),
            s.abort.clone().into(),
        ]);
    }
    table
}

fn summary(plan: &SettingPlan, u: Units) -> Vec<Fact> {
    let mut facts = vec![
        fact("Highest while setting and testing", u.text(plan.highest)),
        fact("Highest while circulating", u.text(plan.circulating_limit)),
        fact("String down to the toe tool", u.text(plan.string_volume)),
        fact("Fluids to have for it", fluids(plan, u)),
        fact("Compressibility, fluid and string", figure(plan.compressibility, u)),
        fact("End load on the closed toe", u.text(plan.end_load)),
        fact("Across the casing packer in the annulus test", u.text(plan.casing_packer_differential)),
    ];
    if let Some(rate) = plan.landing_rate {
        facts.push(fact("Ball or plug lands at no more than", u.text(rate)));
    }
    if let Some(s) = &plan.setting_seat {
        facts.push(fact("Setting ball on seat", format!("{} on {}", u.text(s.ball), u.text(s.seat))));
        facts.push(fact(
            "It holds",
            format!("{} at {}, {}", u.text(s.rating), u.text(s.temperature), s.basis),
        ));
        facts.push(fact("Used, with the safety factor", percent(s.utilisation)));
    }
    facts
}

/// A small figure to three digits, with an exponent.
fn figure(c: Compressibility, u: Units) -> String {
    let unit = Compressibility::KIND.shown(u.0);
    powers(&reading::in_unit(unit.from_si(c.si()), unit, 3))
}

/// Devices that act alike: packers go together, from the lowest to the highest.
struct Span {
    name: String,
    low: GaugePressure,
    nominal: GaugePressure,
    high: GaugePressure,
    full: Option<GaugePressure>,
}

fn spans(plan: &SettingPlan) -> Vec<Span> {
    let mut spans: Vec<(DeviceKind, Span)> = Vec::new();
    for d in &plan.devices {
        let name = d.device.word().to_string();
        match spans.iter_mut().find(|(kind, _)| *kind == d.device) {
            Some((_, s)) => {
                s.low = s.low.min(d.low);
                s.high = s.high.max(d.high);
                s.full = s.full.into_iter().chain(d.full_set_at).reduce(GaugePressure::max);
                s.name = format!("{}s", d.device.word());
            }
            None => spans.push((
                d.device,
                Span { name, low: d.low, nominal: d.nominal, high: d.high, full: d.full_set_at },
            )),
        }
    }
    spans.into_iter().map(|(_, s)| s).collect()
}

fn picture(plan: &SettingPlan, u: Units) -> SequencePicture {
    let n = |p: GaugePressure| p.shown(u.0);
    let mut rows = Vec::new();
    for s in spans(plan) {
        let kind = RowKind::Window { low: n(s.low), nominal: n(s.nominal), high: n(s.high) };
        rows.push(Row { name: s.name.clone(), kind });
        if let Some(full) = s.full {
            rows.push(Row { name: format!("{}, fully set", s.name), kind: RowKind::Held(n(full)) });
        }
    }
    let mut lines = vec![Line {
        name: format!("circulating, at most {}", u.text(plan.circulating_limit)),
        at: n(plan.circulating_limit),
        limit: false,
    }];
    let test = plan.row(StepAction::TestString).and_then(|s| s.target);
    lines.extend(test.map(|t| Line { name: format!("string test {}", u.text(t)), at: n(t), limit: false }));
    lines.extend(plan.limits.first().map(|l| Line {
        name: format!("lowest ceiling: {} {}", l.name, u.text(l.ceiling)),
        at: n(l.ceiling),
        limit: true,
    }));
    // The highest goes on top, so that no line runs through the name of another.
    lines.sort_by(|a, b| b.at.total_cmp(&a.at));
    SequencePicture { label: format!("pressure at the surface, {}", u.unit::<GaugePressure>()), rows, lines }
}

/// The window of every step of the sheet that puts pressure on the string.
fn steps_picture(plan: &SettingPlan, u: Units) -> SequencePicture {
    let n = |p: GaugePressure| p.shown(u.0);
    let pressed = plan.sheet.iter().filter(|s| s.side == Side::String && s.high.si() > 0.0);
    let rows = pressed.map(|s| Row {
        name: format!("{}. {}", s.step, action(s.action)),
        kind: RowKind::Room { low: n(s.low), target: s.target.map(n), high: n(s.high) },
    });
    SequencePicture {
        label: format!("pressure at the surface, {}", u.unit::<GaugePressure>()),
        rows: rows.collect(),
        lines: Vec::new(),
    }
}

fn action(action: StepAction) -> &'static str {
    match action {
        StepAction::Circulate => "circulate",
        StepAction::LandBall => "land the setting ball",
        StepAction::LandPlug => "displace, land the plug",
        StepAction::CloseIsolation => "close the isolation tool",
        StepAction::StartCasingPacker => "start the casing packer",
        StepAction::SetCasingPacker => "set the casing packer",
        StepAction::StartPackers => "start the packers",
        StepAction::SetPackers => "set the packers",
        StepAction::TestString => "test the string",
        StepAction::Bleed => "bleed",
        StepAction::TestAnnulus => "test the annulus",
        StepAction::RigOff => "rig off",
        StepAction::Wait => "wait",
        StepAction::OpenPressureSleeve => "open the pressure sleeve",
    }
}

fn ceilings(plan: &SettingPlan, u: Units) -> Table {
    let psi = u.unit::<Pressure>();
    let mut table = Table::new(vec![
        Column::wide("what", 1.6),
        Column::number("where it binds", u.unit::<MeasuredDepth>()),
        Column::number("rating", &psi),
        Column::number("factor", ""),
        Column::number("outside", &psi),
        Column::number("column", &psi),
        Column::number("ceiling", &psi),
        Column::number("used", ""),
        Column::wide("from", 1.6),
    ])
    .sized(7.0);
    for l in &plan.limits {
        table.row(vec![
            l.name.clone().into(),
            l.depth.map_or_else(|| "surface".into(), |d| u.number(d)).into(),
            u.number(l.rating).into(),
            u.rounded(l.factor, 2).into(),
            u.number(l.outside).into(),
            u.number(l.column).into(),
            Cell::strong(u.number(l.ceiling)),
            Cell::judged(percent(l.used), l.used.si() > 1.0),
            l.source.clone().into(),
        ]);
    }
    table
}

fn activation_facts(a: &ActivationPlan, u: Units) -> Vec<Fact> {
    vec![
        fact("Fluid", format!("{}, {}", a.fluid, u.text(a.density))),
        fact("Open-hole annulus", format!("{} \u{b1} {}", u.text(a.open_hole), u.text(a.open_hole_doubt))),
        fact("Annulus up to the casing packer", u.text(a.overlap)),
        fact("Beyond the open-hole annulus", u.text(a.excess)),
        fact("Activation fluid to pump", u.text(a.volume)),
        fact("Displaced by", u.text(a.displacement)),
        fact("Its top when in place", u.text(a.top)),
        fact("Rate, time to pump both", format!("{}, {}", u.text(a.rate), span(a.pump_time))),
        fact("First of it outside the shoe until in place", span(a.exposed_while_pumping)),
    ]
}

fn devices(plan: &SettingPlan, u: Units) -> Table {
    let psi = u.unit::<Pressure>();
    let mut table = Table::new(vec![
        Column::wide("device", 1.6),
        Column::number("depth", u.unit::<MeasuredDepth>()),
        Column::number("TVD", u.unit::<TrueVerticalDepth>()),
        Column::number("acts at, low", &psi),
        Column::number("nominal", &psi),
        Column::number("high", &psi),
        Column::number("outside", &psi),
        Column::number("at surface, low", &psi),
        Column::number("nominal", &psi),
        Column::number("high", &psi),
        Column::number("fully set", &psi),
        Column::wide("against", 4.2),
    ])
    .sized(7.0)
    .even()
    .note("Acts at: at the device itself, lot and scatter of its pins counted. At surface: gauge, with the column in the string.");
    for d in &plan.devices {
        table.row(vec![
            d.name().into(),
            u.number(d.depth).into(),
            u.number(d.tvd).into(),
            u.number(d.range.low).into(),
            u.number(d.range.nominal).into(),
            u.number(d.range.high).into(),
            u.number(d.outside_pressure).into(),
            u.number(d.low).into(),
            Cell::strong(u.number(d.nominal)),
            u.number(d.high).into(),
            u.maybe(d.full_set_at).into(),
            d.outside.word().into(),
        ]);
    }
    table
}

/// Pistons that are alike: the same device, area and forces but for the depth.
fn pistons(plan: &SettingPlan, u: Units) -> Table {
    let force = u.unit::<Force>();
    let mut table = Table::new(vec![
        Column::wide("device", 1.6),
        Column::number("area", u.unit::<Area>()),
        Column::number("at the nominal start", &force),
        Column::number("fully set", &force),
        Column::number("at the highest pressure, most", &force),
    ])
    .sized(7.0)
    .even();
    let mut groups: Vec<Vec<&PistonForce>> = Vec::new();
    for p in &plan.pistons {
        let alike = |g: &&mut Vec<&PistonForce>| {
            g.first()
                .is_some_and(|f| f.device == p.device && f.area == p.area && f.at_full_set == p.at_full_set)
        };
        match groups.iter_mut().find(alike) {
            Some(group) => group.push(p),
            None => groups.push(vec![p]),
        }
    }
    for group in groups {
        let Some(first) = group.first() else { continue };
        let stages: Vec<usize> = group.iter().filter_map(|p| p.stage).collect();
        let name = match stages.as_slice() {
            [] => first.device.word().to_string(),
            [one] => format!("{} {one}", first.device.word()),
            many => format!("{}s {}", first.device.word(), runs(many)),
        };
        let most = group.iter().map(|p| p.at_highest).fold(Force::ZERO, Force::max);
        table.row(vec![
            name.into(),
            u.number(first.area).into(),
            u.number(first.at_start).into(),
            u.number(first.at_full_set).into(),
            u.number(most).into(),
        ]);
    }
    table
}

fn thrusts(plan: &SettingPlan, u: Units) -> Table {
    let mut table = Table::new(vec![
        Column::number("packer of stage", ""),
        Column::number("differential", u.unit::<Pressure>()),
        Column::number("worst hole", u.unit::<Diameter>()),
        Column::number("thrust", u.unit::<Force>()),
        Column::number("contact stress to hold by friction alone", u.unit::<Pressure>()),
    ])
    .sized(7.0);
    for t in plan.thrusts.iter().rev() {
        table.row(vec![
            Cell::strong(t.stage.to_string()),
            u.number(t.differential).into(),
            u.either(t.hole, 3, 1).into(),
            u.number(t.thrust).into(),
            u.number(t.contact_stress).into(),
        ]);
    }
    table
}
