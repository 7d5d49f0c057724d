//! Judging a job file as a whole: rules that cross fields. Each rule looks at the record only;
//! rules that need the survey, the hole or the pipe's ratings are the plan's.

use quantity::{Diameter, Quantity, Ratio, Value, said};

use super::checks::*;
use super::*;
use crate::finding::{Check, Finding};

/// Findings of one judgement.
#[derive(Default)]
struct Bench {
    findings: Vec<Finding>,
}

impl Bench {
    fn say(&mut self, check: &'static Check, field: impl Into<String>, message: impl Into<quantity::Text>) {
        self.findings.push(check.found(message).field(field));
    }

    /// `low` must not be above `high`.
    fn ordered<Q: Quantity + PartialOrd>(
        &mut self,
        check: &'static Check,
        (low_name, low): (&str, Q),
        (high_name, high): (&str, Q),
    ) {
        if low > high {
            let message = said!("`{low_name}` is above `{high_name}`");
            self.findings
                .push(check.found(message).field(low_name).value(Value::of(low)).limit(Value::of(high)));
        }
    }

    fn above_zero<Q: Quantity>(&mut self, field: &str, value: Q) {
        if value.si() <= 0.0 {
            self.findings
                .push(SIZE.found(said!("`{field}` must be above zero")).field(field).value(Value::of(value)));
        }
    }

    fn share(&mut self, field: &str, value: Ratio, low: f64, high: f64) {
        if !(low..=high).contains(&value.si()) {
            let message = said!("`{field}` must be from {low} to {high}");
            self.findings.push(SHARE.found(message).field(field).value(Value::of(value)));
        }
    }

    /// The inner diameter must be smaller than the outer.
    fn wall(&mut self, table: &str, id: Diameter, od: Diameter) {
        self.above_zero(&format!("{table}.id"), id);
        if id >= od {
            let message = said!("the inner diameter of `{table}` is not smaller than the outer");
            self.findings.push(SIZE.found(message).field(format!("{table}.id")).value(id).limit(od));
        }
    }
}

/// All findings of the rules that need nothing but the job file, in no order of place.
pub fn judge(job: &JobFile) -> Vec<Finding> {
    let mut bench = Bench::default();
    hole(job, &mut bench);
    strings(job, &mut bench);
    system(job, &mut bench);
    tools(job, &mut bench);
    devices(job, &mut bench);
    ladder(job, &mut bench);
    fluids(job, &mut bench);
    limits(job, &mut bench);
    bench.findings
}

fn hole(job: &JobFile, bench: &mut Bench) {
    for (i, s) in job.hole.section.iter().enumerate() {
        let at = format!("hole.section[{}]", i + 1);
        bench.ordered(&DEPTHS, (&format!("{at}.top"), s.top), (&format!("{at}.bottom"), s.bottom));
        bench.above_zero(&format!("{at}.diameter"), s.diameter);
    }
    if job.hole.section.is_empty() {
        bench.say(&ROWS, "hole", "the hole has no [[hole.section]]");
    }
    bench.above_zero("hole.total_depth", job.hole.total_depth);
    bench.ordered(
        &DEPTHS,
        ("system.heel_limit", job.system.heel_limit),
        ("hole.total_depth", job.hole.total_depth),
    );
    if let Some(toe) = job.system.toe_limit {
        bench.ordered(&DEPTHS, ("system.heel_limit", job.system.heel_limit), ("system.toe_limit", toe));
        bench.ordered(&DEPTHS, ("system.toe_limit", toe), ("hole.total_depth", job.hole.total_depth));
    }
    for (i, z) in job.exclusion.iter().enumerate() {
        let at = format!("exclusion[{}]", i + 1);
        bench.ordered(&DEPTHS, (&format!("{at}.from"), z.from), (&format!("{at}.to"), z.to));
    }
    bench.above_zero("rock.fracture_gradient", job.rock.fracture_gradient);
    bench.ordered(
        &DEPTHS,
        ("rock.pore_gradient", job.rock.pore_gradient),
        ("rock.fracture_gradient", job.rock.fracture_gradient),
    );
    if let Some(fracture) = &job.rock.fracture {
        rock_fracture(job, fracture, bench);
    }
    bench.above_zero("limits.relief_bore", job.limits.relief_bore);
    bench.share("limits.relief_reseat", job.limits.relief_reseat, 0.3, 1.0);
    if let Some(crew) = &job.crew {
        bench.above_zero("crew.ramp", crew.ramp);
        bench.above_zero("crew.pressing", crew.pressing);
    }
}

fn rock_fracture(job: &JobFile, f: &FractureTable, bench: &mut Bench) {
    bench.ordered(
        &DEPTHS,
        ("rock.fracture.closure_gradient", f.closure_gradient),
        ("rock.fracture_gradient", job.rock.fracture_gradient),
    );
    bench.above_zero("rock.fracture.youngs_modulus", f.youngs_modulus);
    bench.above_zero("rock.fracture.breakdown_decay", f.breakdown_decay);
    bench.share("rock.fracture.poisson", f.poisson, 0.0, 0.5);
    bench.share("rock.fracture.packed", f.packed, 0.3, 0.8);
    bench.share("rock.fracture.bridging", f.bridging, 1.0, 20.0);
    match f.height {
        Some(height) => bench.above_zero("rock.fracture.height", height),
        None if f.form != FractureForm::Radial => {
            bench.say(&PARTS, "rock.fracture.height", "a fracture that is not radial needs its `height`");
        }
        None => {}
    }
    for (i, p) in job.proppant.iter().enumerate() {
        if let Some(grain) = p.grain {
            bench.above_zero(&format!("proppant[{}].grain", i + 1), grain);
        }
    }
}

fn strings(job: &JobFile, bench: &mut Bench) {
    let count = |role| job.string.iter().filter(|s| s.role == role).count();
    if count(StringRole::Liner) != 1 {
        bench.say(
            &STRINGS,
            "string",
            format!("{} strings have the role \"liner\"; there must be one", count(StringRole::Liner)),
        );
    }
    for role in [StringRole::Casing, StringRole::Treating] {
        if count(role) == 0 {
            bench.say(&STRINGS, "string", format!("no string has the role \"{}\"", role.word()));
        }
    }
    for (i, s) in job.string.iter().enumerate() {
        let at = format!("string[{}]", i + 1);
        bench.ordered(&DEPTHS, (&format!("{at}.top"), s.top), (&format!("{at}.bottom"), s.bottom));
        bench.above_zero(&format!("{at}.od"), s.od);
        bench.share(&format!("{at}.yield_factor"), s.yield_factor, 0.3, 1.0);
        if let Some(id) = s.id {
            bench.wall(&at, id, s.od);
        }
        if let Some(tension) = s.connection_tension {
            bench.above_zero(&format!("{at}.connection_tension"), tension);
        }
        if let Some(internal) = s.connection_internal {
            bench.above_zero(&format!("{at}.connection_internal"), internal);
        }
        if let Some(compression) = s.connection_compression {
            bench.above_zero(&format!("{at}.connection_compression"), compression);
        }
        if s.connection == Connection::Rated && s.connection_tension.is_none() {
            bench.say(&PARTS, format!("{at}.connection"), "a rated connection needs `connection_tension`");
        }
    }
    if job.tally.file.is_some() == job.tally.simulated.is_some() {
        bench.say(&ONE_OF, "tally", "give either `tally.file` or `[tally.simulated]`");
    }
}

fn system(job: &JobFile, bench: &mut Bench) {
    match (job.system.stages, job.system.spacing) {
        (Some(0), _) => bench.say(&SIZE, "system.stages", "`system.stages` must be 1 or more"),
        (Some(n), None) if n > 400 => {
            bench.say(&SIZE, "system.stages", format!("`system.stages` is {n}; 400 is the most"));
        }
        (Some(_), None) => {}
        (None, Some(spacing)) => bench.above_zero("system.spacing", spacing),
        _ => bench.say(&ONE_OF, "system", "give either `system.stages` or `system.spacing`"),
    }
    let absent: Vec<&str> = match job.system.kind {
        SystemKind::FluidActivated => [
            ("packer.swell", job.packer.swell.is_none()),
            ("setting.activation", job.setting.activation.is_none()),
        ]
        .into_iter()
        .filter_map(|(name, absent)| absent.then_some(name))
        .collect(),
        SystemKind::HydraulicSet => [
            ("packer.start", job.packer.start.is_none()),
            ("packer.full_set", job.packer.full_set.is_none()),
            ("toe.isolation", job.toe.isolation.is_none()),
            ("toe.setting_ball", job.toe.setting_ball.is_none()),
            ("toe.setting_seat", job.toe.setting_seat.is_none()),
            ("toe.pressure_sleeve", job.toe.pressure_sleeve.is_none()),
        ]
        .into_iter()
        .filter_map(|(name, absent)| absent.then_some(name))
        .collect(),
    };
    for name in absent {
        bench.say(&PARTS, name, format!("a {} system needs `{name}`", job.system.kind.word()));
    }
}

fn tools(job: &JobFile, bench: &mut Bench) {
    bench.wall("packer", job.packer.id, job.packer.od);
    bench.wall("sleeve", job.sleeve.id, job.sleeve.od);
    bench.wall("casing_packer", job.casing_packer.id, job.casing_packer.od);
    for (field, length) in [
        ("packer.length", job.packer.length),
        ("packer.element_length", job.packer.element_length),
        ("sleeve.length", job.sleeve.length),
        ("casing_packer.length", job.casing_packer.length),
    ] {
        bench.above_zero(field, length);
    }
    let p = &job.packer;
    if p.element_from_top + p.element_length > p.length {
        let message = "the element reaches beyond the packer's own length";
        let end = p.element_from_top + p.element_length;
        bench.findings.push(SIZE.found(message).field("packer.element_length").value(end).limit(p.length));
    }
    if job.sleeve.ports_from_top > job.sleeve.length {
        bench.say(&SIZE, "sleeve.ports_from_top", "the ports are beyond the sleeve's own length");
    }
    bench.ordered(&SIZE, ("packer.mandrel_od", p.mandrel_od), ("packer.od", p.od));
    bench.ordered(&SIZE, ("packer.smallest_hole", p.smallest_hole), ("packer.largest_hole", p.largest_hole));
    bench.ordered(&SIZE, ("packer.od", p.od), ("packer.smallest_hole", p.smallest_hole));
    bench.ordered(
        &SIZE,
        ("sleeve.smallest_seat", job.sleeve.smallest_seat),
        ("sleeve.largest_seat", job.sleeve.largest_seat),
    );
    bench.ordered(&SIZE, ("sleeve.largest_seat", job.sleeve.largest_seat), ("sleeve.id", job.sleeve.id));
    if job.sleeve.ports == 0 {
        bench.say(&SIZE, "sleeve.ports", "`sleeve.ports` must be 1 or more");
    }
    if p.rating.is_empty() {
        bench.say(&RATING_MISSING, "packer.rating", "the packer has no [[packer.rating]]");
    }
    if job.casing_packer.envelope.is_empty() {
        bench.say(
            &RATING_MISSING,
            "casing_packer.envelope",
            "the casing packer has no [[casing_packer.envelope]]",
        );
    }
    if let Some(swell) = &p.swell {
        swell_rows(swell, p.od, bench);
    }
}

fn swell_rows(swell: &Swell, od: Diameter, bench: &mut Bench) {
    if swell.row.len() < 3 {
        bench.say(&ROWS, "packer.swell.row", "a swell curve needs at least three readings");
    }
    for (i, pair) in swell.row.windows(2).enumerate() {
        if pair[1].time <= pair[0].time || pair[1].od < pair[0].od {
            let field = format!("packer.swell.row[{}]", i + 2);
            bench.say(&ROWS, field, "times must rise and diameters must not fall along the swell curve");
        }
    }
    if swell.row.first().is_some_and(|r| r.od < od) {
        bench.say(&ROWS, "packer.swell.row[1].od", "the swell curve starts below the packer's own diameter");
    }
}

fn devices(job: &JobFile, bench: &mut Bench) {
    let list = [
        ("sleeve.shear", Some(&job.sleeve.shear)),
        ("casing_packer.start", Some(&job.casing_packer.start)),
        ("packer.start", job.packer.start.as_ref()),
        ("toe.isolation", job.toe.isolation.as_ref()),
        ("toe.pressure_sleeve.opening", job.toe.pressure_sleeve.as_ref().map(|s| &s.opening)),
    ];
    for (name, device) in list.iter().filter_map(|(n, d)| d.map(|d| (n, d))) {
        bench.above_zero(&format!("{name}.nominal"), device.nominal);
        bench.share(&format!("{name}.lot_bias"), device.lot_bias, 0.0, 0.5);
        bench.share(&format!("{name}.pin_scatter"), device.pin_scatter, 0.0, 0.5);
        bench.share(&format!("{name}.temperature_factor"), device.temperature_factor, 0.3, 1.1);
        if device.pins == 0 {
            bench.say(&SIZE, format!("{name}.pins"), "a device needs at least one pin");
        }
    }
}

fn ladder(job: &JobFile, bench: &mut Bench) {
    let l = &job.ladder;
    let need = |name: &'static str, absent: bool| absent.then_some(name);
    let absent: Vec<&str> = match l.method {
        LadderMethod::Given => vec![need("rung", l.rung.is_empty())],
        LadderMethod::Step => vec![
            need("smallest_ball", l.smallest_ball.is_none()),
            need("step", l.step.is_none()),
            need("interference", l.interference.is_none()),
        ],
        LadderMethod::Fractions => {
            vec![need("fractions", l.fractions.is_empty()), need("interference", l.interference.is_none())]
        }
        LadderMethod::EqualStress => vec![
            need("smallest_ball", l.smallest_ball.is_none()),
            need("largest_ball", l.largest_ball.is_none()),
        ],
        LadderMethod::Search => vec![need("smallest_ball", l.smallest_ball.is_none())],
    }
    .into_iter()
    .flatten()
    .collect();
    for name in absent {
        let message = said!("the method \"{}\" needs `ladder.{name}`", l.method.word());
        bench.say(&LADDER, format!("ladder.{name}"), message);
    }
    for (i, rung) in l.rung.iter().enumerate() {
        if rung.seat >= rung.ball {
            let field = format!("ladder.rung[{}]", i + 1);
            let message = "the ball is not larger than its own seat";
            bench.findings.push(SIZE.found(message).field(field).value(rung.ball).limit(rung.seat));
        }
    }
    bench.share("ball.safety_factor", job.ball.safety_factor, 1.0, 10.0);
    bench.share("ball.weak_plane", job.ball.weak_plane, 0.05, 1.0);
    bench.share("ball.confinement", job.ball.confinement, 0.5, 3.0);
    if job.ball.strength.is_empty() && job.ball.rating.is_empty() {
        bench.say(&ROWS, "ball", "the balls have neither [[ball.strength]] nor [[ball.rating]]");
    }
    for (i, row) in job.ball.rating.iter().enumerate() {
        bench.above_zero(&format!("ball.rating[{}].pressure", i + 1), row.pressure);
    }
    for (i, pair) in job.ball.strength.windows(2).enumerate() {
        if pair[1].temperature <= pair[0].temperature {
            let field = format!("ball.strength[{}]", i + 2);
            bench.say(&ROWS, field, "temperatures must rise along the strength table");
        }
    }
}

fn fluids(job: &JobFile, bench: &mut Bench) {
    for (i, fluid) in job.fluid.iter().enumerate() {
        let at = format!("fluid[{}]", i + 1);
        bench.above_zero(&format!("{at}.density"), fluid.density);
        bench.share(&format!("{at}.drag_reduction"), fluid.drag_reduction, 0.0, 0.95);
        if fluid.rheology == Rheology::PowerLaw && fluid.drag_reduction.si() > 0.0 {
            let message =
                said!("the drag reduction of \"{}\" is not used: its n and K say how it flows", fluid.name);
            bench.say(&DRAG, format!("{at}.drag_reduction"), message);
        }
        let lacks = match fluid.rheology {
            Rheology::Newtonian => fluid.viscosity.is_none(),
            Rheology::PowerLaw => fluid.flow_index.is_none() || fluid.consistency.is_none(),
        };
        if let Some(viscosity) = fluid.viscosity {
            bench.above_zero(&format!("{at}.viscosity"), viscosity);
        }
        if let Some(index) = fluid.flow_index {
            bench.share(&format!("{at}.flow_index"), index, 0.05, 2.0);
        }
        if let Some(consistency) = fluid.consistency {
            bench.above_zero(&format!("{at}.consistency"), consistency);
        }
        if lacks {
            let what = match fluid.rheology {
                Rheology::Newtonian => "`viscosity`",
                Rheology::PowerLaw => "`flow_index` and `consistency`",
            };
            bench.say(&RHEOLOGY, at, format!("the fluid \"{}\" needs {what}", fluid.name));
        }
    }
    if job.treatment.step.is_empty() {
        bench.say(&ROWS, "treatment", "the treatment has no [[treatment.step]]");
    }
    for (i, step) in job.treatment.step.iter().enumerate() {
        let at = format!("treatment.step[{}]", i + 1);
        if !job.fluid.iter().any(|f| f.name == step.fluid) {
            let near = physics::registry::nearest(&step.fluid, job.fluid.iter().map(|f| f.name.as_str()));
            let near = near.map(|n| format!("; the nearest is \"{n}\"")).unwrap_or_default();
            bench.say(&NAME, format!("{at}.fluid"), format!("no fluid is called \"{}\"{near}", step.fluid));
        }
        let carries = step.from.si() > 0.0 || step.to.si() > 0.0;
        match &step.proppant {
            Some(name) if !job.proppant.iter().any(|p| p.name == *name) => {
                bench.say(&NAME, format!("{at}.proppant"), format!("no proppant is called \"{name}\""));
            }
            None if carries => bench.say(&NAME, at, "a step with proppant must name it"),
            _ => {}
        }
    }
    if let (Some(swell), Some(activation)) = (&job.packer.swell, &job.setting.activation)
        && swell.fluid != activation.fluid
    {
        let message = said!(
            "the activation fluid \"{}\" is not the fluid of the swell curve, \"{}\"",
            activation.fluid,
            swell.fluid
        );
        bench.say(&NAME, "setting.activation.fluid", message);
    }
}

fn limits(job: &JobFile, bench: &mut Bench) {
    let l = &job.limits;
    let wellhead = l.wellhead.gauge();
    bench.ordered(&LIMITS, ("limits.treating_pressure", l.treating_pressure), ("limits.trip", l.trip));
    bench.ordered(&LIMITS, ("limits.trip", l.trip), ("limits.relief", l.relief));
    bench.ordered(&LIMITS, ("limits.relief", l.relief), ("limits.wellhead", wellhead));
    bench.ordered(
        &LIMITS,
        ("limits.annulus_pressure", l.annulus_pressure),
        ("limits.annulus_limit", l.annulus_limit),
    );
    for (name, factor) in [
        ("limits.burst_factor", l.burst_factor),
        ("limits.collapse_factor", l.collapse_factor),
        ("limits.tension_factor", l.tension_factor),
        ("limits.triaxial_factor", l.triaxial_factor),
        ("limits.packer_factor", l.packer_factor),
    ] {
        bench.share(name, factor, 1.0, 5.0);
    }
    bench.above_zero("treatment.rate", job.treatment.rate);
    bench.above_zero("limits.rate", l.rate);
    bench.above_zero("equipment.truck_load", job.equipment.truck_load);
    bench.above_zero("equipment.tank_volume", job.equipment.tank_volume);
    bench.above_zero("equipment.pump_power", job.equipment.pump_power);
    if job.ball_program.landing_rate.is_empty() {
        bench.say(&ROWS, "ball_program.landing_rate", "give at least one landing rate the crew may use");
    }
    if job.setting.test_pressure < l.treating_pressure {
        let message = "the string is tested below the pressure it may be treated at";
        let finding = TEST_LOW.found(message).field("setting.test_pressure");
        bench.findings.push(finding.value(job.setting.test_pressure).limit(l.treating_pressure));
    }
    for (name, share) in [
        ("ball_program.meter_sigma", job.ball_program.meter_sigma),
        ("ball_program.bore_sigma", job.ball_program.bore_sigma),
        ("ball_program.carry_sigma", job.ball_program.carry_sigma),
        ("setting.test_loss", job.setting.test_loss),
        ("setting.circulating_share", job.setting.circulating_share),
    ] {
        bench.share(name, share, 0.0, 1.0);
    }
}
