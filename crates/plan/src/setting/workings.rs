//! Workings of the figures of setting.

use physics::hydraulics::sealed_pressure::SEALED_PRESSURE;
use physics::packer::actuation_chain::ACTUATION_CHAIN;
use physics::packer::rupture_disc::RUPTURE_DISC;
use physics::packer::surface_pressure::{
    SURFACE_PRESSURE_AFTER_SETTING, SURFACE_PRESSURE_FOR_ABSOLUTE, SURFACE_PRESSURE_FOR_DIFFERENTIAL,
};
use physics::{Evaluation, Result};
use quantity::*;

use super::Made;
use super::chain::Group;
use super::devices::device_of;
use super::result::*;
use super::step::*;
use super::volume::{POISSON, Part, YOUNG};
use super::workings_forces::{open_forces, open_seat, open_string};
use crate::Ledger;

/// A figure's path, title and note.
pub(super) struct Figure {
    pub path: String,
    pub title: String,
    pub note: Text,
}

/// Records a figure; a relation that refuses becomes a finding.
pub(super) fn say(
    ledger: &mut Ledger,
    figure: Figure,
    value: impl Into<Value>,
    steps: Result<Vec<Evaluation>>,
) {
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
pub(super) fn path(device: &DeviceWindow) -> String {
    match (device.device, device.stage) {
        (DeviceKind::Isolation, _) => "setting.isolation".into(),
        (DeviceKind::CasingPacker, _) => "setting.casing_packer".into(),
        (DeviceKind::Packer, stage) => format!("setting.packer.{}", stage.unwrap_or_default()),
        (DeviceKind::PressureSleeve, _) => "setting.pressure_sleeve".into(),
    }
}

/// The range of a device at the device.
fn range(made: &Made<'_>, device: &DeviceWindow) -> Result<Evaluation> {
    let (r, given) = (&device.range, device_of(made.job, device.device));
    let tolerance = if r.nominal.si() > 0.0 { (r.high - r.nominal) / r.nominal } else { 0.0 };
    let call = RUPTURE_DISC.call().with("rated", given.map_or(r.nominal, |d| d.nominal));
    let factor = given.map_or(Ratio::of(1.0), |d| d.temperature_factor);
    call.number("tolerance", tolerance).with("temperature_factor", factor).run()
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
    Ok(vec![range(made, device)?, at_surface(made, device, difference)?])
}

fn open_device(made: &Made<'_>, device: &DeviceWindow, ledger: &mut Ledger) {
    let note = said!(
        "Ends of the range: the bias of the lot and two standard deviations of the mean of the pins, the nominal \
         pressure at temperature; then brought to the surface at the device's own vertical depth. Outside: {}.",
        device.outside.word()
    );
    let name = device.name();
    let low = format!("Lowest pressure at the surface at which the {name} may act");
    let high = format!("Pressure at the surface by which the {name} has acted");
    for (end, title, value, difference) in
        [("low", low, device.low, device.range.low), ("high", high, device.high, device.range.high)]
    {
        let figure = Figure { path: format!("{}.{end}", path(device)), title, note: note.clone() };
        say(ledger, figure, value, brought_up(made, device, difference));
    }
    if let (Some(full), Some(value)) = (device.full_set, device.full_set_at) {
        let figure = Figure {
            path: format!("{}.full_set", path(device)),
            title: format!("Pressure at the surface that sets the {} fully", device.name()),
            note: "The supplier's differential for a full set, brought to the surface at the device's depth."
                .into(),
        };
        let open = DeviceWindow { outside: Outside::Annulus, ..*device };
        say(ledger, figure, value, at_surface(made, &open, full).map(|e| vec![e]));
    }
}

fn open_order(made: &Made<'_>, plan: &SettingPlan, ledger: &mut Ledger) {
    let windows: Vec<_> = made.groups.iter().filter_map(Group::window).collect();
    if let Some(room) = plan.least_room {
        let nominals: Vec<Pressure> = windows.iter().map(|w| w.nominal).collect();
        let share = |low: Pressure, high: Pressure| Ratio::of((high - low) / (high + low));
        let tolerances: Vec<Ratio> = windows.iter().map(|w| share(w.low, w.high)).collect();
        let call = ACTUATION_CHAIN.call().list("nominals", &nominals).list("tolerances", &tolerances);
        let steps = call.with("margin", made.job.file.setting.margin).run().map(|e| vec![e]);
        let note = "Each group of devices from the first that may act to the last that has done all it is to do, as \
                    its middle and half its width, all at the surface and in the order they are to act.";
        let title = "Least room between devices in their order".into();
        say(ledger, Figure { path: "setting.least_room".into(), title, note: note.into() }, room, steps);
    }
    let c = &made.circulating;
    let note = said!(
        "{} of the lowest at which the {} may act, brought to the surface; friction while circulating leaves the \
         device less than that.",
        made.job.file.setting.circulating_share,
        c.device.name()
    );
    let title = "Highest pressure while circulating".into();
    let figure = Figure { path: "setting.circulating_limit".into(), title, note };
    say(ledger, figure, plan.circulating_limit, brought_up(made, c.device, c.difference));
}

/// What a row needs, what bounds it, its target and its volume.
fn open_row(made: &Made<'_>, plan: &SettingPlan, row: &PressureStep, ledger: &mut Ledger) {
    let steps = || row_steps(made, plan, row);
    let at = |name: &str| format!("setting.step.{}.{name}", row.step);
    let needed = match row.acts_from {
        Some(_) => "The first steps bring to the surface what the last device of the step needs.",
        None => "What the step needs is the job file's own figure, or nothing.",
    };
    let note = said!(
        "{needed} It must not pass: {}. The target is the first practical step of the gauge from what is needed on.",
        row.bound_by.words()
    );
    let of = |what: &str| format!("{what} of step {}: {}", row.step, row.text);
    let mut figure = |name: &str, what: &str, value: GaugePressure| {
        say(ledger, Figure { path: at(name), title: of(what), note: note.clone() }, value, steps());
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
        say(ledger, Figure { path: at(name), title: of(what), note: note.into() }, value, parts());
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
    match &row.bound_by {
        BoundBy::NextDevice(name) => {
            if let Some(device) = plan.devices.iter().find(|d| d.name() == *name) {
                out.extend(brought_up(made, device, device.range.low)?);
            }
        }
        BoundBy::Limit(name) => {
            if let Some(limit) = plan.limits.iter().find(|l| l.name == *name && l.depth.is_some()) {
                out.push(ceiling(made, limit)?);
            }
        }
        _ => {}
    }
    Ok(out)
}

pub(super) fn sealed(made: &Made<'_>, part: &Part, target: GaugePressure) -> Result<Evaluation> {
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
        let note = said!(
            "{}: rating {} ({}), over the factor {}, with the pressure outside at the depth where it binds.",
            limit.name,
            limit.rating,
            limit.source,
            limit.factor.si()
        );
        let title = format!("Highest pressure at the surface that the {} allows", limit.name);
        say(
            ledger,
            Figure { path: format!("setting.limit.{}.ceiling", i + 1), title, note },
            limit.ceiling,
            steps,
        );
    }
}
