//! The casing packer: what hangs on it, what pulls and pushes at it, and its rated envelope.

mod cases;
mod checks;
mod judge;
mod result;
mod workings;

use physics::packer::load_envelope::{EnvelopeRow, LoadEnvelope};
use quantity::*;
use well::Job;
use well::job::StringRole;

pub use checks::CHECKS;
pub use result::*;

use crate::Ledger;
use crate::layout::Layout;
use crate::strings::hung::Hanging;
use crate::strings::places::hanger;
use crate::strings::surroundings::Surroundings;
use cases::{Duty, governing};

/// Friction factor of the hung load after lowering and picking up.
const FRICTION: Ratio = Ratio::of(0.30);

/// Rates the casing packer in every case.
pub fn rate_casing_packer(job: &Job, layout: &Layout, ledger: &mut Ledger) -> Option<CasingPackerPlan> {
    let around = ledger.take("the pressures at the casing packer", Surroundings::new(job, layout))?;
    let hanging = ledger.take("the weight below the casing packer", Hanging::of(job, layout))?;
    let hung = ledger.take("the weight below the casing packer", hung_load(job, layout, &hanging))?;
    let envelope = envelope(job, ledger);
    let duty = Duty::of(&around, hung, envelope)?;
    let cases = ledger.take("the load of the casing packer", duty.cases())?;
    let table = &job.file.casing_packer;
    let bottom = hanger(job, layout);
    let casing_drift = casing_drift(job, bottom);
    let plan = CasingPackerPlan {
        top: layout.casing_packer_top,
        tvd: job.trajectory.tvd_at(layout.casing_packer_top),
        temperature: job.rock_temperature(job.trajectory.tvd_at(bottom)),
        max_temperature: table.max_temperature,
        od: table.od,
        casing_drift,
        clearance: casing_drift.map(|d| d - table.od),
        hung,
        governing: governing(&cases),
        cases,
        envelope: duty.envelope.as_ref().map(corners).unwrap_or_default(),
        assumptions: assumptions(),
    };
    judge::judge(job, &plan, ledger);
    workings::open(&duty, &hanging, &plan, ledger);
    Some(plan)
}

/// Weight below it: all of it, along the hole, and with friction after lowering and picking up.
fn hung_load(job: &Job, layout: &Layout, hanging: &Hanging) -> physics::Result<HungLoad> {
    let along_hole = hanging.liner_below(job, hanger(job, layout))?;
    // dF = w (cos I -+ mu sin I) ds, bends left out
    let friction = hanging.on_the_wall() * FRICTION.si();
    Ok(HungLoad {
        mass: hanging.mass(),
        buoyed: hanging.buoyed(),
        along_hole,
        lowered: along_hole - friction,
        picked_up: along_hole + friction,
        friction: FRICTION,
    })
}

/// The envelope of the job file; a bad one is a finding.
fn envelope(job: &Job, ledger: &mut Ledger) -> Option<LoadEnvelope> {
    let rows = job.file.casing_packer.envelope.iter().map(|r| EnvelopeRow {
        differential: r.differential,
        tension: r.tension,
        compression: r.compression,
    });
    match LoadEnvelope::new(&rows.collect::<Vec<_>>()) {
        Ok(envelope) => Some(envelope),
        Err(e) => {
            let message = said!("the envelope of the casing packer cannot be used: {e}");
            ledger.say(checks::RATING.found(message).field("casing_packer.envelope"));
            None
        }
    }
}

/// Least drift of the casing from the surface to a depth; none where no casing reaches it.
fn casing_drift(job: &Job, depth: MeasuredDepth) -> Option<Diameter> {
    let casing = || job.strings.iter().filter(|s| s.table.role == StringRole::Casing && s.table.top < depth);
    let reaches = casing().any(|s| s.table.bottom >= depth);
    casing().map(|s| s.drift()).reduce(Diameter::min).filter(|_| reaches)
}

/// The outline, from the greatest push up at the lowest differential round to the greatest pull down.
fn corners(envelope: &LoadEnvelope) -> Vec<EnvelopeCorner> {
    let up = envelope.rows().iter().map(|r| (r.differential, -r.compression));
    let down = envelope.rows().iter().rev().map(|r| (r.differential, r.tension));
    up.chain(down).map(|(differential, load)| EnvelopeCorner { differential, load }).collect()
}

fn assumptions() -> Vec<String> {
    [
        "the envelope's load is the pull of liner and string on the packer; the pressure on its element is the \
         envelope's differential, in either direction",
        "the weight is that of the tally below it, the packer's own left out; friction 0.30 after lowering and \
         picking up is the middle of published factors, bends left out, and no part of any case but to lift \
         weight off an upward load",
        "setting and test pressure pull on it over the whole bore of the closed toe, with no help from open-hole \
         packers, friction or the string above",
        "after setting the liner is held between it and the first open-hole packer, and the treating string is \
         latched into it and held at the wellhead; a sliding seal would put other loads on it",
        "liner and string may be cold or warm one without the other; the less favourable is taken",
        "the annulus below it is at formation (or trapped) pressure, or at the bore's pressure past the first \
         open-hole packer, with no credit for rock that breaks down; the less favourable is taken",
        "flowing back, bore and annulus below may be empty and the annulus above at its limit",
    ]
    .map(String::from)
    .into()
}
