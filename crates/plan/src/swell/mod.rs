//! The swell of fluid-activated packers: when each touches the hole, and when it has its rating.

mod chart;
mod checks;
mod draws;
mod element;
mod judge;
mod packer;
mod result;
mod warm_up;
mod workings;

use quantity::*;
use well::Job;
use well::job::{Activation, Swell};

pub use checks::CHECKS;
pub use result::*;

use crate::Ledger;
use crate::layout::Layout;
use crate::program::SEED;
use element::{Element, Kind};
use packer::{Bench, Samples};

/// Samples of every packer.
const SAMPLES: usize = 400;

/// Contact and rating of every packer, and the earliest time for the first frac ball. None where
/// the job has no swelling packers, or a relation refuses the supplier's rows.
pub fn swell_packers(job: &Job, layout: &Layout, ledger: &mut Ledger) -> Option<SwellPlan> {
    let (table, activation) = (job.file.packer.swell.as_ref()?, job.file.setting.activation.as_ref()?);
    let element = ledger.take("the swell curve", Element::of(table))?;
    let draws = draws::draws(SEED, SAMPLES);
    let kinds: physics::Result<Vec<Kind>> = draws.iter().map(|d| element.kind(d)).collect();
    let kinds = ledger.take("the swell of a sample", kinds)?;
    let bench = Bench {
        job,
        element: &element,
        draws: &draws,
        kinds: &kinds,
        start: job.file.rock.pumped_temperature,
        warm_up: activation.warm_up,
        wait: activation.planned_wait,
    };
    let samples: physics::Result<Vec<Samples<'_>>> = layout.stages.iter().map(|p| bench.samples(p)).collect();
    let samples = ledger.take("the swell of the packers", samples)?;
    let plan = ledger.take("the swell of the packers", plan(&bench, &samples, (table, activation)))?;
    judge::judge(job, &plan, ledger);
    workings::open(table, &plan, &samples, ledger);
    Some(plan)
}

fn plan(
    bench: &Bench<'_>,
    samples: &[Samples<'_>],
    (table, activation): (&Swell, &Activation),
) -> physics::Result<SwellPlan> {
    let packers: Vec<SwellPacker> =
        samples.iter().map(|s| bench.packer(s)).collect::<physics::Result<_>>()?;
    let all = packers.iter().all(|p| p.rating.is_some()) && !packers.is_empty();
    let last =
        packers.iter().filter_map(|p| Some((p.stage, p.rating?))).max_by(|a, b| a.1.p90.total_cmp(&b.1.p90));
    let middle = packers.iter().filter_map(|p| p.rating.map(|b| b.p50));
    let mut first_touch: Option<(usize, Time)> = None;
    for s in samples {
        if let Some(time) = bench.touches(s)?.filter(|t| first_touch.is_none_or(|(_, f)| *t < f)) {
            first_touch = Some((s.place.stage, time));
        }
    }
    Ok(SwellPlan {
        fluid: activation.fluid.clone(),
        samples: bench.draws.len(),
        seed: SEED,
        start_temperature: bench.start,
        warm_up: activation.warm_up,
        interference: table.rating_interference,
        earliest_frac: last.map(|(_, b)| b.p90).filter(|_| all),
        expected_frac: middle.max_by(Time::total_cmp).filter(|_| all),
        last_packer: last.map(|(stage, _)| stage).filter(|_| all),
        planned_wait: activation.planned_wait,
        first_touch: first_touch.map(|(_, t)| t),
        first_touch_packer: first_touch.map(|(stage, _)| stage),
        charts: chart::charts(bench, samples, &packers)?,
        assumptions: assumptions(),
        packers,
    })
}

fn assumptions() -> Vec<String> {
    [
        "Every packer starts at the temperature of the pumped fluid when the activation fluid is in place and warms \
         up evenly to its rock in the warm-up time: the coldest start there can be. The swelling before, while the \
         fluid is pumped past, is not counted.",
        "The supplier's curve of the full-section element is used as measured, on one clock for temperature; no \
         theory of diffusion is used, and nothing is read beyond the last reading.",
        "A packer has its rating when the element would be, free, larger than the hole by the supplier's \
         interference; the string stands in the middle of the hole. Lying on the low side, the gap above is up to \
         twice as wide.",
        "Spreads are normal and independent: growth and activation energy as the supplier states them, hole size \
         along the element, accuracy of the caliper.",
    ]
    .map(String::from)
    .to_vec()
}
