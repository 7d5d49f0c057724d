//! The swell of fluid-activated packers: when each touches the hole, and when it has its rating.

mod chart;
mod checks;
mod draws;
mod element;
mod judge;
mod packer;
mod result;
mod together;
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
use together::Together;

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
    let together = Together::of(bench, samples, SEED)?;
    let slowest = together.slowest();
    let ready = together.band().filter(|_| !packers.is_empty());
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
        ready,
        earliest_frac: ready.map(|b| b.p90),
        expected_frac: together.middle().filter(|_| !packers.is_empty()),
        ready_at_wait: together.by(activation.planned_wait),
        all_reach: together.reaches(),
        last_packer: slowest.and_then(|(n, _)| packers.get(n)).map(|p| p.stage),
        last_share: slowest.map_or(Ratio::ZERO, |(_, share)| share),
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
        "For all packers together one activation energy holds in a sample, that of the rubber's lot in its fluid; \
         growth of the element, hole and the caliper's error there are each packer's own. Were growth or the \
         caliper's error common to all, the last packer would be ready earlier.",
    ]
    .map(String::from)
    .to_vec()
}
