//! Workings of the swell's figures.

use physics::Evaluation;
use physics::packer::equivalent_time::EQUIVALENT_TIME;
use physics::packer::swell_curve::TIME_TO_CONTACT_CURVE;
use quantity::*;
use well::job::Swell;

use super::element::{rows, tested};
use super::packer::Samples;
use super::result::{SwellPacker, SwellPlan};
use crate::Ledger;

/// How the band of a time is made, for every note.
fn spread(plan: &SwellPlan) -> String {
    format!(
        "The steps show it with every figure at its middle. P10, P50 and P90 are of {} samples (seed {}, the same \
         draws for every packer, each with its mirror, scaled to unit spread): growth of the element, activation energy, hole size along \
         the element and the caliper's error, each normal; the hole with its own spread to either side.",
        plan.samples, plan.seed
    )
}

/// Records what every time opens to.
pub(super) fn open(table: &Swell, plan: &SwellPlan, samples: &[Samples<'_>], ledger: &mut Ledger) {
    let note = spread(plan);
    for (packer, s) in plan.packers.iter().zip(samples) {
        let stage = packer.stage;
        let what = format!("the workings of packer {stage}");
        if let (Some(band), Some(_)) = (packer.contact, packer.contact_middle) {
            let hole = packer.wanted - plan.interference;
            if let Some(step) = ledger.take(&what, contact(table, s, hole)) {
                let title = format!("Time to contact of packer {stage}");
                ledger.open(format!("swell.packer.{stage}.contact"), &title, band.p50, &[&step], &note);
            }
        }
        if let (Some(band), Some(_)) = (packer.rating, packer.rating_middle) {
            let steps = ledger.take(&what, rating(table, s, packer));
            if let Some(steps) = steps {
                let steps: Vec<&Evaluation> = steps.iter().collect();
                let title = format!("Time to the rating of packer {stage}");
                let note = format!(
                    "The free element is to be larger than the hole by the supplier's interference. {note} The second \
                     step is what the clock counts while the packer warms up."
                );
                ledger.open(format!("swell.packer.{stage}.rating"), &title, band.p50, &steps, &note);
                if plan.last_packer == Some(stage) {
                    open_frac(plan, &steps, ledger);
                }
            }
        }
    }
}

fn open_frac(plan: &SwellPlan, steps: &[&Evaluation], ledger: &mut Ledger) {
    if let Some(earliest) = plan.earliest_frac {
        let note = format!(
            "P90 of the time at which the last of {} packers has its rating, counted from the activation fluid in \
             place, of {} samples (seed {}): one activation energy in all packers of a sample, growth, hole and the \
             caliper's error of each packer its own. The steps are of the packer that is the last most often, with \
             every figure at its middle.",
            plan.packers.len(),
            plan.samples,
            plan.seed
        );
        ledger.open("swell.earliest_frac", "Earliest time for the first frac ball", earliest, steps, &note);
    }
}

fn contact(table: &Swell, s: &Samples<'_>, diameter: Diameter) -> physics::Result<Evaluation> {
    let (times, outers) = rows(table);
    let (coldest, hottest) = tested(table);
    let history = s.warm.history.rows();
    TIME_TO_CONTACT_CURVE
        .call()
        .list("lab_times", &times)
        .list("lab_outers", &outers)
        .with("lab_temperature", table.temperature)
        .with("activation_energy", table.activation_energy)
        .with("coldest_test", coldest)
        .with("hottest_test", hottest)
        .with("hole", diameter)
        .list("times", &history.iter().map(|r| r.0).collect::<Vec<_>>())
        .list("temperatures", &history.iter().map(|r| r.1).collect::<Vec<_>>())
        .run()
}

fn rating(table: &Swell, s: &Samples<'_>, packer: &SwellPacker) -> physics::Result<[Evaluation; 2]> {
    let history = s.warm.history.rows();
    let warming = EQUIVALENT_TIME
        .call()
        .list("times", &history.iter().map(|r| r.0).collect::<Vec<_>>())
        .list("temperatures", &history.iter().map(|r| r.1).collect::<Vec<_>>())
        .with("activation_energy", table.activation_energy)
        .with("reference_temperature", table.temperature)
        .with("to", s.warm.until)
        .run()?;
    Ok([contact(table, s, packer.wanted)?, warming])
}
