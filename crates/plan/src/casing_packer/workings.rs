//! What the figures of the casing packer open to.

use physics::Evaluation;
use physics::packer::hydraulic_set::SEAT_END_LOAD;
use physics::packer::load_envelope::{LOAD_ENVELOPE, LoadEnvelope};
use physics::practice::casing_packer_duty::CASING_PACKER_DUTY;
use physics::tubular::fixed_ends::{BALLOONING_FORCE, THERMAL_FORCE};
use quantity::*;
use well::PipeString;

use super::cases::{Change, Duty};
use super::result::*;
use crate::Ledger;
use crate::strings::hung::Hanging;

/// Records the hung load and every case.
pub(super) fn open(duty: &Duty<'_>, hanging: &Hanging, plan: &CasingPackerPlan, ledger: &mut Ledger) {
    let title = "Weight of the completion hung below the casing packer";
    if let Some(steps) = ledger.take(title, hanging.workings(duty.around.job)) {
        let steps: Vec<&Evaluation> = steps.iter().collect();
        let note = "Every row of the tally below the packer, tools with their own mass, inside full and outside \
                    wet with the setting fluids; rows of the same weight per length stand together. Friction is \
                    left out, so this is what pulls along the hole of a string at rest.";
        ledger.open("casing_packer.hung", title, plan.hung.along_hole, &steps, note);
    }
    for (i, case) in plan.cases.iter().enumerate() {
        let title = format!("Casing packer, {}, load {}", case.case.words(), bound(case.bound));
        let Some(steps) = ledger.take(&title, steps(duty, case)) else { continue };
        let steps: Vec<&Evaluation> = steps.iter().collect();
        let note = made_of(case);
        let load = format!("casing_packer.{}.load", i + 1);
        ledger.open(load, &format!("{title}: load"), case.load, &steps, &note);
        if let Some(utilisation) = case.utilisation {
            let name = format!("casing_packer.{}.utilisation", i + 1);
            ledger.open(name, &format!("{title}: share of the envelope"), utilisation, &steps, &note);
            if plan.governing == Some(i) {
                let title = "Highest share of the casing packer's envelope";
                ledger.open("casing_packer.utilisation", title, utilisation, &steps, &note);
            }
        }
    }
    temperature(duty, plan, ledger);
}

fn bound(bound: Bound) -> &'static str {
    match bound {
        Bound::Down => "bounded downward",
        Bound::Up => "bounded upward",
    }
}

fn steps(duty: &Duty<'_>, case: &PackerCase) -> physics::Result<Vec<Evaluation>> {
    let mut out = Vec::new();
    if case.below_is == Below::Annulus {
        if case.parts.end_load > Force::ZERO {
            let toe = duty.around.spot(duty.around.layout.toe_tool);
            let difference = duty.around.bore(case.case).at(toe) - duty.around.annulus(case.case).at(toe);
            let call = SEAT_END_LOAD.call().with("difference", difference);
            out.push(call.with("bore", duty.liner.bore()).run()?);
        }
    } else {
        out.extend(held(duty.liner, duty.liner_change(case.case, case.below_is))?);
        if let Some((string, change)) = duty.string_change(case.case) {
            out.extend(held(string, change)?);
        }
    }
    if let Some(envelope) = &duty.envelope {
        out.extend(place(envelope, case));
    }
    Ok(out)
}

/// Ballooning and temperature of a stretch held at both ends.
fn held(string: &PipeString, change: Change) -> physics::Result<[Evaluation; 2]> {
    let (outer, inner) = (string.pipe.outer(), string.pipe.inner());
    let balloon = BALLOONING_FORCE.call().with("outer", outer).with("inner", inner);
    let balloon = balloon.with("inside_change", change.pressures.inside);
    let thermal = THERMAL_FORCE.call().with("outer", outer).with("inner", inner);
    Ok([
        balloon.with("outside_change", change.pressures.outside).run()?,
        thermal.with("temperature_change", change.temperature).run()?,
    ])
}

fn place(envelope: &LoadEnvelope, case: &PackerCase) -> Option<Evaluation> {
    let rows = envelope.rows();
    let differentials: Vec<Pressure> = rows.iter().map(|r| r.differential).collect();
    let tensions: Vec<Force> = rows.iter().map(|r| r.tension).collect();
    let compressions: Vec<Force> = rows.iter().map(|r| r.compression).collect();
    let call = LOAD_ENVELOPE
        .call()
        .list("differentials", &differentials)
        .list("tensions", &tensions)
        .list("compressions", &compressions);
    call.with("differential", case.differential).with("load", case.load).run().ok()
}

fn made_of(case: &PackerCase) -> Text {
    let p = &case.parts;
    let parts = [
        ("hung weight", p.hung),
        ("end load of the closed toe", p.end_load),
        ("stretch locked in by setting", p.locked_in),
        ("ballooning of the liner", p.ballooning),
        ("temperature of the liner", p.thermal),
        ("string above", p.string_above),
        ("pressure on the change of bore and diameter", p.pressure_area),
    ];
    let named = parts.iter().filter(|(_, f)| f.abs() >= Force::lbf(1.0));
    let sum = Text::join(named.map(|(name, f)| said!("{name} {f}")), ", ");
    let rule = match case.bound {
        Bound::Down => "What helps against a downward load is left out.",
        Bound::Up => "What helps against an upward load is left out.",
    };
    let (below, above) = (case.below, case.above);
    said!("Load, down positive: {sum}. {rule} Differential: {below} below less {above} above.")
}

/// Temperature, pressure and weight against single limits, as the trade states the duty.
fn temperature(duty: &Duty<'_>, plan: &CasingPackerPlan, ledger: &mut Ledger) {
    let rows = duty.envelope.as_ref().map(|e| e.rows()).unwrap_or_default();
    let (Some(lowest), Some(highest)) = (rows.first(), rows.last()) else { return };
    let greatest = plan.cases.iter().map(|c| c.differential.abs()).fold(Pressure::ZERO, Pressure::max);
    let call = CASING_PACKER_DUTY
        .call()
        .with("temperature", plan.temperature)
        .with("pressure", greatest)
        .with("hung_load", plan.hung.along_hole.max(Force::ZERO))
        .with("rated_temperature", plan.max_temperature)
        .with("rated_pressure", highest.differential)
        .with("rated_load", lowest.tension)
        .with("design_factor", duty.around.job.file.limits.packer_factor);
    let title = "Temperature at the casing packer";
    if let Some(step) = ledger.take(title, call.run()) {
        let note = "Undisturbed rock at its lower end, on the straight line through the temperatures of the job \
                    file. The step holds temperature, greatest differential and hung weight against single limits; \
                    the envelope rules where pressure and load act together.";
        ledger.open("casing_packer.temperature", title, plan.temperature, &[&step], note);
    }
}
