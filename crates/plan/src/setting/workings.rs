//! Workings of the figures of setting.

use physics::geometry::{ANNULAR_VOLUME, BORE_VOLUME};
use physics::hydraulics::joukowsky::JOUKOWSKY;
use physics::hydraulics::sealed_pressure::SEALED_PRESSURE;
use physics::hydraulics::wave_speed::WAVE_SPEED;
use physics::packer::actuation_chain::ACTUATION_CHAIN;
use physics::packer::hydraulic_set::{HYDRAULIC_SET, RING_PISTON_FORCE, SEAT_END_LOAD};
use physics::packer::packer_thrust::{PACKER_CONTACT_REQUIRED, PACKER_THRUST};
use physics::packer::rupture_disc::RUPTURE_DISC;
use physics::packer::surface_pressure::{
    SURFACE_PRESSURE_AFTER_SETTING, SURFACE_PRESSURE_FOR_ABSOLUTE, SURFACE_PRESSURE_FOR_DIFFERENTIAL,
};
use physics::{Evaluation, Result};
use quantity::*;

use super::chain::Group;
use super::forces::FRICTION;
use super::result::*;
use super::volume::{POISSON, Part, YOUNG};
use super::{Made, forces, seat};
use crate::Ledger;

/// A figure's path, title and note.
struct Figure<'a> {
    path: String,
    title: String,
    note: &'a str,
}

/// Records a figure; a relation that refuses becomes a finding.
fn say(ledger: &mut Ledger, figure: Figure<'_>, value: impl Into<Value>, steps: Result<Vec<Evaluation>>) {
    if let Some(steps) = ledger.take("the workings of setting", steps) {
        let steps: Vec<&Evaluation> = steps.iter().collect();
        ledger.open(figure.path, &figure.title, value, &steps, figure.note);
    }
}

/// Records what every figure opens to, the activation fluid's apart.
pub(super) fn open(made: &Made<'_>, plan: &SettingPlan, ledger: &mut Ledger) {
    for device in &plan.devices {
        open_device(made, device, ledger);
    }
    open_order(made, plan, ledger);
    for row in &plan.sheet {
        open_row(made, plan, row, ledger);
    }
    open_limits(made, plan, ledger);
    open_string(made, plan, ledger);
    open_seat(made, plan, ledger);
    open_forces(made, plan, ledger);
}

/// Path of a device's figures.
fn path(device: &DeviceWindow) -> String {
    match (device.device, device.stage) {
        (DeviceKind::Isolation, _) => "setting.isolation".into(),
        (DeviceKind::CasingPacker, _) => "setting.casing_packer".into(),
        (DeviceKind::Packer, stage) => format!("setting.packer.{}", stage.unwrap_or_default()),
        (DeviceKind::PressureSleeve, _) => "setting.pressure_sleeve".into(),
    }
}

/// The range of a device at the device.
fn range(device: &DeviceWindow) -> Result<Evaluation> {
    let r = &device.range;
    let tolerance = if r.nominal.si() > 0.0 { (r.high - r.nominal) / r.nominal } else { 0.0 };
    RUPTURE_DISC.call().with("rated", r.nominal).number("tolerance", tolerance).run()
}

/// The pressure at the surface that gives a device a difference.
fn at_surface(made: &Made<'_>, device: &DeviceWindow, difference: Pressure) -> Result<Evaluation> {
    let setting = &made.job.file.setting;
    let call = match device.outside {
        Outside::Absolute => SURFACE_PRESSURE_FOR_ABSOLUTE.call().with("chamber", AbsolutePressure::ZERO),
        Outside::Annulus => SURFACE_PRESSURE_FOR_DIFFERENTIAL
            .call()
            .with("annulus_density", setting.outside_density)
            .with("annulus", setting.annulus_pressure),
        Outside::Trapped | Outside::Formation => {
            SURFACE_PRESSURE_AFTER_SETTING.call().with("outside", device.outside_pressure)
        }
    };
    call.with("difference", difference)
        .with("tubing_density", setting.inside_density)
        .with("depth", device.tvd)
        .run()
}

/// Range at the device and the surface pressure of a difference.
fn brought_up(made: &Made<'_>, device: &DeviceWindow, difference: Pressure) -> Result<Vec<Evaluation>> {
    Ok(vec![range(device)?, at_surface(made, device, difference)?])
}

fn open_device(made: &Made<'_>, device: &DeviceWindow, ledger: &mut Ledger) {
    let note = format!(
        "Ends of the range: the bias of the lot and two standard deviations of the mean of the pins, the nominal \
         pressure at temperature; then brought to the surface at the device's own vertical depth. Outside: {}.",
        device.outside.word()
    );
    let figures = [
        ("low", "Lowest pressure at the surface at which", device.low, device.range.low),
        ("high", "Highest pressure at the surface that is needed for", device.high, device.range.high),
    ];
    for (name, what, value, difference) in figures {
        let figure = Figure {
            path: format!("{}.{name}", path(device)),
            title: format!("{what} the {} to act", device.name()).replace("at which the", "for the"),
            note: &note,
        };
        say(ledger, figure, value, brought_up(made, device, difference));
    }
    if let (Some(full), Some(value)) = (device.full_set, device.full_set_at) {
        let figure = Figure {
            path: format!("{}.full_set", path(device)),
            title: format!("Pressure at the surface that sets the {} fully", device.name()),
            note: "The supplier's differential for a full set, brought to the surface at the device's depth.",
        };
        let open = DeviceWindow { outside: Outside::Annulus, ..*device };
        say(ledger, figure, value, at_surface(made, &open, full).map(|e| vec![e]));
    }
}

fn open_order(made: &Made<'_>, plan: &SettingPlan, ledger: &mut Ledger) {
    let groups = Group::all(&plan.devices);
    let windows: Vec<_> = groups.iter().filter_map(Group::window).collect();
    if let Some(room) = plan.least_room {
        let nominals: Vec<Pressure> = windows.iter().map(|w| w.nominal).collect();
        let share = |low: Pressure, high: Pressure| Ratio::of((high - low) / (high + low));
        let tolerances: Vec<Ratio> = windows.iter().map(|w| share(w.low, w.high)).collect();
        let call = ACTUATION_CHAIN.call().list("nominals", &nominals).list("tolerances", &tolerances);
        let steps = call.with("margin", made.job.file.setting.margin).run().map(|e| vec![e]);
        let note = "Each group of devices from the first that may act to the last that has done all it is to do, as \
                    its middle and half its width, all at the surface and in the order they are to act.";
        let title = "Least room between devices in their order".into();
        say(ledger, Figure { path: "setting.least_room".into(), title, note }, room, steps);
    }
    let c = &made.circulating;
    let note = format!(
        "{} of the lowest at which the {} may act, brought to the surface; friction while circulating leaves the \
         device less than that.",
        made.job.file.setting.circulating_share.text(System::Field),
        c.device.name()
    );
    let title = "Highest pressure while circulating".into();
    let figure = Figure { path: "setting.circulating_limit".into(), title, note: &note };
    say(ledger, figure, plan.circulating_limit, brought_up(made, c.device, c.difference));
}

/// What a row needs, what bounds it, its target and its volume.
fn open_row(made: &Made<'_>, plan: &SettingPlan, row: &PressureStep, ledger: &mut Ledger) {
    let steps = || row_steps(made, plan, row);
    let at = |name: &str| format!("setting.step.{}.{name}", row.step);
    let note = format!(
        "Needed: what the last device of the step needs (first steps); it must not pass: {}. The target is the first \
         practical step of the gauge between them.",
        row.bound_by
    );
    let of = |what: &str| format!("{what} of step {}: {}", row.step, row.text);
    let mut figure = |name: &str, what: &str, value: GaugePressure| {
        say(ledger, Figure { path: at(name), title: of(what), note: &note }, value, steps());
    };
    figure("low", "Pressure needed", row.low);
    figure("high", "Upper bound", row.high);
    if let Some(target) = row.target {
        figure("target", "Target", target);
    }
    let (Some(target), Some(pump), Some(held)) = (row.target, row.volume_to_pump, row.volume_held) else {
        return;
    };
    let parts = || made.string.parts.iter().map(|p| sealed(made, p, target)).collect::<Result<Vec<_>>>();
    let note = "Sum over the parts of the closed string, each with its bore and wall, from no pressure to the target; \
                to pump is that less what is held at the step before.";
    let figures = [("volume_to_pump", "Volume to pump", pump), ("volume_held", "Volume held", held)];
    for (name, what, value) in figures {
        say(ledger, Figure { path: at(name), title: of(what), note }, value, parts());
    }
}

fn row_steps(made: &Made<'_>, plan: &SettingPlan, row: &PressureStep) -> Result<Vec<Evaluation>> {
    let mut out = Vec::new();
    let decides = plan.devices.iter().find(|d| Some(d.name()) == row.device);
    if let Some(device) = decides.filter(|_| row.acts_from.is_some()) {
        let full = matches!(row.action, StepAction::SetCasingPacker | StepAction::SetPackers);
        let difference = device.full_set.filter(|f| full && *f > device.range.high);
        out.extend(brought_up(made, device, difference.unwrap_or(device.range.high))?);
    }
    let bounds = plan.devices.iter().filter(|d| row.bound_by.starts_with(&format!("{} may act", d.name())));
    if let Some(device) = bounds.min_by(|a, b| a.low.total_cmp(&b.low)) {
        out.extend(brought_up(made, device, device.range.low)?);
    }
    if let Some(limit) = plan.limits.iter().find(|l| l.name == row.bound_by && l.depth.is_some()) {
        out.push(ceiling(made, limit)?);
    }
    Ok(out)
}

fn sealed(made: &Made<'_>, part: &Part, target: GaugePressure) -> Result<Evaluation> {
    SEALED_PRESSURE
        .call()
        .with("volume", part.volume)
        .with("modulus", made.string.water.isothermal_modulus())
        .with("pressure_rise", target.above_atmosphere().max(Pressure::ZERO))
        .with("bore", part.bore)
        .with("outside", part.outside)
        .with("young", YOUNG)
        .number("poisson", POISSON)
        .run()
}

/// A ceiling as the surface pressure of the difference the rating allows.
fn ceiling(made: &Made<'_>, limit: &PressureLimit) -> Result<Evaluation> {
    let depth = limit.depth.unwrap_or(MeasuredDepth::ZERO);
    SURFACE_PRESSURE_AFTER_SETTING
        .call()
        .with("difference", limit.rating / limit.factor.si().max(1.0))
        .with("outside", limit.outside)
        .with("tubing_density", made.job.file.setting.inside_density)
        .with("depth", made.job.trajectory.tvd_at(depth))
        .run()
}

fn open_limits(made: &Made<'_>, plan: &SettingPlan, ledger: &mut Ledger) {
    for (i, limit) in plan.limits.iter().enumerate() {
        let steps = match limit.depth {
            Some(_) => ceiling(made, limit).map(|e| vec![e]),
            None => Ok(Vec::new()),
        };
        let note = format!(
            "{}: rating {} ({}), over the factor {}, with the pressure outside at the depth where it binds.",
            limit.name,
            limit.rating,
            limit.source,
            limit.factor.si()
        );
        let title = format!("Highest pressure at the surface for the {}", limit.name);
        say(
            ledger,
            Figure { path: format!("setting.limit.{}.ceiling", i + 1), title, note: &note },
            limit.ceiling,
            steps,
        );
    }
}

fn open_string(made: &Made<'_>, plan: &SettingPlan, ledger: &mut Ledger) {
    let figure =
        |path: &str, title: &str, note: &'static str| Figure { path: path.into(), title: title.into(), note };
    let note = "Sum over the bores down to the toe tool.";
    say(
        ledger,
        figure("setting.string_volume", "Capacity of the string", note),
        plan.string_volume,
        bores(made),
    );
    let unit = GaugePressure::mpa(1.0);
    let parts = made.string.parts.iter().map(|p| sealed(made, p, unit)).collect();
    let note = "Volumes of all parts for one unit of pressure, over the whole volume.";
    let title = "Compressibility of the closed string";
    say(ledger, figure("setting.compressibility", title, note), plan.compressibility, parts);
    if let (Some(landing), Some(rate)) = (made.landing, plan.landing_rate) {
        let density = made.job.file.setting.inside_density;
        let wave = WAVE_SPEED.call().with("density", density).with("bore", landing.bore);
        let wave =
            wave.with("modulus", made.string.water.isentropic_modulus()).with("outside", landing.outside);
        let wave = wave.with("young", YOUNG).number("poisson", POISSON).run();
        let step = JOUKOWSKY.call().with("density", density).with("wave_speed", landing.wave_speed);
        let step = step.with("rate", rate).with("bore", landing.bore).run();
        let steps = wave.and_then(|w| Ok(vec![w, step?]));
        let note = "The rate whose step of pressure, doubled by a pump that keeps its rate, reaches the lowest at \
                    which the first device may act, less the margin.";
        say(ledger, figure("setting.landing_rate", "Highest rate of landing at the toe", note), rate, steps);
    }
}

fn bores(made: &Made<'_>) -> Result<Vec<Evaluation>> {
    let length = |p: &Part| p.volume / p.bore.circle();
    made.string
        .parts
        .iter()
        .map(|p| BORE_VOLUME.call().with("bore", p.bore).with("length", length(p)).run())
        .collect()
}

fn open_seat(made: &Made<'_>, plan: &SettingPlan, ledger: &mut Ledger) {
    let (Some(held), Some(rating)) = (&plan.setting_seat, &made.ball) else { return };
    let figure = |name: &str, title: &str, note| Figure {
        path: format!("setting.seat.{name}"),
        title: title.into(),
        note,
    };
    let title = "Differential the setting ball holds";
    say(ledger, figure("rating", title, &held.basis), held.rating, seat::rating_steps(made.job, rating));
    let note = format!(
        "Highest differential of setting and test at the toe, {}, with the safety factor {}, over the rating.",
        held.differential,
        made.job.file.ball.safety_factor.si()
    );
    let title = "Share of the setting ball's rating that is used";
    let steps = seat::rating_steps(made.job, rating);
    say(ledger, figure("utilisation", title, &note), held.utilisation, steps);
}

fn open_forces(made: &Made<'_>, plan: &SettingPlan, ledger: &mut Ledger) {
    let (job, packer) = (made.job, &made.job.file.packer);
    let difference = forces::toe_differential(job, made.layout, plan.highest);
    let bore = job.liner().map_or(job.file.sleeve.id, |l| l.bore());
    let steps = SEAT_END_LOAD.call().with("difference", difference).with("bore", bore).run().map(|e| vec![e]);
    let note =
        "At the highest pressure of setting and test; the lower of annulus and later pressure below the toe.";
    let title = "Force down the string at the closed toe".into();
    say(ledger, Figure { path: "setting.end_load".into(), title, note }, plan.end_load, steps);
    for piston in &plan.pistons {
        let device = plan.window(piston.device, piston.stage);
        let Some(device) = device else { continue };
        let at_highest = device.differential(plan.highest);
        let steps = match (piston.device, packer.piston_od, packer.piston_id) {
            (DeviceKind::Packer, Some(outer), Some(inner)) => RING_PISTON_FORCE
                .call()
                .with("difference", at_highest)
                .with("outer", outer)
                .with("inner", inner)
                .run(),
            _ => {
                let tolerance = (device.range.high - device.range.nominal) / device.range.nominal;
                let call =
                    HYDRAULIC_SET.call().with("difference", at_highest).with("piston_area", piston.area);
                call.with("shear_force", piston.at_start).number("tolerance", tolerance).run()
            }
        };
        let figure = Figure {
            path: format!("{}.piston_force", path(device)),
            title: format!("Force of the piston of the {}", device.name()),
            note: "At the highest pressure of setting and test, the annulus outside.",
        };
        say(ledger, figure, piston.at_highest, steps.map(|e| vec![e]));
    }
    for thrust in &plan.thrusts {
        open_thrust(made, thrust, ledger);
    }
}

fn open_thrust(made: &Made<'_>, thrust: &PackerThrust, ledger: &mut Ledger) {
    let packer = &made.job.file.packer;
    let force = || {
        let call = PACKER_THRUST.call().with("difference", thrust.differential).with("hole", thrust.hole);
        call.with("pipe", packer.mandrel_od).run()
    };
    let figure = |name: &str, what: &str, note: &'static str| Figure {
        path: format!("setting.packer.{}.{name}", thrust.stage),
        title: format!("{what} packer {}", thrust.stage),
        note,
    };
    let note = "The differential it must hold, with its factor, on the ring between mandrel and worst hole.";
    say(ledger, figure("thrust", "Thrust on", note), thrust.thrust, force().map(|e| vec![e]));
    let contact = PACKER_CONTACT_REQUIRED
        .call()
        .with("thrust", thrust.thrust)
        .number("friction", FRICTION)
        .with("hole", thrust.hole)
        .with("length", packer.element_length)
        .run();
    let steps = force().and_then(|f| Ok(vec![f, contact?]));
    let note = "If wall friction alone carried the thrust; the coefficient of friction is an assumption.";
    say(
        ledger,
        figure("contact_stress", "Mean contact stress needed under", note),
        thrust.contact_stress,
        steps,
    );
}

/// Records what the figures of the activation fluid open to.
pub(super) fn open_activation(made: &Made<'_>, plan: &SettingPlan, ledger: &mut Ledger) {
    let Some(a) = &plan.activation else { return };
    let shoe = super::activation::casing_shoe(made.job);
    let length = made.layout.shoe - shoe;
    let body = made.job.liner().map_or(Diameter::ZERO, |l| l.pipe.outer());
    let hole =
        Diameter::m(((a.open_hole / length + body.circle()).si() / std::f64::consts::FRAC_PI_4).sqrt());
    let annulus = || {
        let call = ANNULAR_VOLUME.call().with("bore", hole).with("body", body).with("length", length);
        call.run().map(|e| vec![e])
    };
    let figure = |name: &str, title: &str, note| Figure {
        path: format!("setting.activation.{name}"),
        title: title.into(),
        note,
    };
    let note = "Frusta between the caliper's readings round every part of the tally, shoe to casing shoe; the step \
                shows the hole of one size that has the same annulus round the liner.";
    say(ledger, figure("open_hole", "Annulus of the open hole", note), a.open_hole, annulus());
    let note = "The annulus of the open hole and the excess of the job file.";
    say(ledger, figure("volume", "Activation fluid to pump", note), a.volume, annulus());
    let note = "The capacity of the string down to the toe tool.";
    say(ledger, figure("displacement", "Displacement behind it", note), a.displacement, bores(made));
    let both = || {
        annulus().and_then(|mut list| {
            list.extend(bores(made)?);
            Ok(list)
        })
    };
    let note = "Activation fluid and displacement together, over the rate.";
    say(ledger, figure("pump_time", "Time to pump both", note), a.pump_time, both());
    let note =
        "From the shoe up: open hole, overlap in the casing, then round the string above, filled in turn.";
    say(ledger, figure("top", "Depth its top reaches", note), a.top, annulus());
}
