//! Swell over time of the first, the middle and the last packer to have its rating.

use quantity::*;

use super::packer::{Bench, Samples};
use super::result::{Showing, SwellChart, SwellPacker, SwellPoint};

/// Points of a chart, the start counted.
const POINTS: usize = 33;
/// How far past the wait or the rating a chart goes.
const BEYOND: f64 = 1.1;

/// Charts of up to three packers; of fewer where there are fewer.
pub(super) fn charts(
    bench: &Bench<'_>,
    samples: &[Samples<'_>],
    packers: &[SwellPacker],
) -> physics::Result<Vec<SwellChart>> {
    let mut order: Vec<usize> = (0..packers.len()).collect();
    order.sort_by(|a, b| key(packers.get(*a)).total_cmp(&key(packers.get(*b))));
    let end = end(bench, packers);
    let places = [
        (Showing::Best, 0),
        (Showing::Median, order.len() / 2),
        (Showing::Worst, order.len().saturating_sub(1)),
    ];
    let mut out: Vec<SwellChart> = Vec::new();
    for (showing, at) in places {
        let Some(i) = order.get(at) else { continue };
        let (Some(s), Some(packer)) = (samples.get(*i), packers.get(*i)) else { continue };
        if out.iter().any(|c| c.stage == packer.stage) {
            continue;
        }
        out.push(SwellChart {
            showing,
            stage: packer.stage,
            hole: packer.hole,
            wanted: packer.wanted,
            points: points(bench, s, end)?,
        });
    }
    Ok(out)
}

/// What packers are ordered by: the time to the rating in half of the samples, then the share that
/// reaches it.
fn key(packer: Option<&SwellPacker>) -> f64 {
    let Some(p) = packer else { return f64::INFINITY };
    match (p.rating, p.rating_middle) {
        (Some(band), _) => band.p50.si(),
        (None, Some(middle)) => 1e12 + middle.si(),
        (None, None) => 1e15 * (2.0 - p.reaches.si()),
    }
}

/// End of all charts: past the planned wait and past the last rating.
fn end(bench: &Bench<'_>, packers: &[SwellPacker]) -> Time {
    let ratings = packers.iter().filter_map(|p| p.rating.map(|b| b.p90));
    ratings.fold(bench.wait, Time::max) * BEYOND
}

fn points(bench: &Bench<'_>, s: &Samples<'_>, end: Time) -> physics::Result<Vec<SwellPoint>> {
    let at = |i: usize| {
        let time = end * (i as f64 / (POINTS - 1) as f64);
        let diameter = bench.diameters(s, time)?;
        Ok(SwellPoint { time, temperature: s.warm.history.at(time).0, diameter })
    };
    (0..POINTS).map(at).collect()
}
