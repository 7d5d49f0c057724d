//! Workings of the closed string, the setting ball, the forces and the activation fluid.

use physics::geometry::{ANNULAR_VOLUME, BORE_VOLUME};
use physics::hydraulics::joukowsky::JOUKOWSKY;
use physics::hydraulics::wave_speed::WAVE_SPEED;
use physics::packer::hydraulic_set::{HYDRAULIC_SET, RING_PISTON_FORCE, SEAT_END_LOAD};
use physics::packer::packer_thrust::{PACKER_CONTACT_REQUIRED, PACKER_THRUST};
use physics::{Evaluation, Result};
use quantity::*;

use super::forces::FRICTION;
use super::result::*;
use super::volume::{POISSON, Part, YOUNG};
use super::workings::{Figure, path, say, sealed};
use super::{Made, forces, seat};
use crate::Ledger;

pub(super) fn open_string(made: &Made<'_>, plan: &SettingPlan, ledger: &mut Ledger) {
    let figure = |path: &str, title: &str, note: &'static str| Figure {
        path: path.into(),
        title: title.into(),
        note: note.into(),
    };
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

pub(super) fn open_seat(made: &Made<'_>, plan: &SettingPlan, ledger: &mut Ledger) {
    let (Some(held), Some(rating)) = (&plan.setting_seat, &made.ball) else { return };
    let figure = |name: &str, title: &str, note: Text| Figure {
        path: format!("setting.seat.{name}"),
        title: title.into(),
        note,
    };
    let title = "Differential the setting ball holds";
    say(
        ledger,
        figure("rating", title, (&held.basis).into()),
        held.rating,
        seat::rating_steps(made.job, rating),
    );
    let note = said!(
        "Highest differential of setting and test at the toe, {}, with the safety factor {}, over the rating.",
        held.differential,
        made.job.file.ball.safety_factor.si()
    );
    let title = "Share of the setting ball's rating that is used";
    let steps = seat::rating_steps(made.job, rating);
    say(ledger, figure("utilisation", title, note), held.utilisation, steps);
}

pub(super) fn open_forces(made: &Made<'_>, plan: &SettingPlan, ledger: &mut Ledger) {
    let (job, packer) = (made.job, &made.job.file.packer);
    let difference = forces::toe_differential(job, made.layout, plan.highest);
    let bore = job.liner().map_or(job.file.sleeve.id, |l| l.bore());
    let steps = SEAT_END_LOAD.call().with("difference", difference).with("bore", bore).run().map(|e| vec![e]);
    let note =
        "At the highest pressure of setting and test; the lower of annulus and later pressure below the toe.";
    let title = "Force down the string at the closed toe".into();
    say(ledger, Figure { path: "setting.end_load".into(), title, note: note.into() }, plan.end_load, steps);
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
            note: "At the highest pressure of setting and test, the annulus outside.".into(),
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
        note: note.into(),
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
    let figure = |name: &str, title: &str, note: &str| Figure {
        path: format!("setting.activation.{name}"),
        title: title.into(),
        note: note.into(),
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
