//! When the last of all packers has its rating: one rubber and one fluid for all of them, an element
//! and a hole for each.

use quantity::*;

use super::draws::{Draw, draws, quantile};
use super::element::Kind;
use super::packer::{Bench, Samples, band};
use crate::Band;

/// The last of all packers, sample by sample.
pub(super) struct Together {
    /// Times at which the last packer has its rating, sorted; endless where one never has.
    times: Vec<f64>,
    /// How often each packer was the last, in the order of the packers.
    last: Vec<usize>,
}

impl Together {
    /// Samples of all packers at once. A sample has one activation energy, that of the lot, in all
    /// packers; the growth of the element, its hole and the caliper's error there are drawn for each
    /// packer on its own.
    pub fn of(bench: &Bench<'_>, samples: &[Samples<'_>], seed: u64) -> physics::Result<Self> {
        let count = bench.draws.len();
        let mut times = vec![0.0_f64; count];
        let mut who = vec![0_usize; count];
        for (n, s) in samples.iter().enumerate() {
            let own = draws(seed.wrapping_add(1 + s.place.stage as u64), count);
            let each = times.iter_mut().zip(who.iter_mut());
            for (i, (latest, who)) in each.enumerate() {
                let time = rating(bench, s, i, own.get(i))?;
                if time > *latest {
                    (*latest, *who) = (time, n);
                }
            }
        }
        times.sort_by(f64::total_cmp);
        let last = (0..samples.len()).map(|n| who.iter().filter(|w| **w == n).count()).collect();
        Ok(Self { times, last })
    }

    /// Time at which all packers have their rating; none where it is never seen in one sample of
    /// ten or more.
    pub fn band(&self) -> Option<Band<Time>> {
        band(&self.times)
    }

    /// Time at which all packers have their rating in half of the samples.
    pub fn middle(&self) -> Option<Time> {
        quantile(&self.times, 0.5).map(Time::from_si)
    }

    /// Share of the samples in which all packers have it at a time.
    pub fn by(&self, time: Time) -> Ratio {
        self.share(|t| t <= time.si())
    }

    /// Share of the samples in which all packers have it within the supplier's readings.
    pub fn reaches(&self) -> Ratio {
        self.share(f64::is_finite)
    }

    fn share(&self, holds: impl Fn(f64) -> bool) -> Ratio {
        let count = self.times.iter().filter(|t| holds(**t)).count();
        Ratio::of(count as f64 / self.times.len().max(1) as f64)
    }

    /// The packer that is the last most often, by its place in the list, and in which share of the
    /// samples.
    pub fn slowest(&self) -> Option<(usize, Ratio)> {
        let (n, count) = self.last.iter().enumerate().max_by_key(|(n, c)| (**c, usize::MAX - n))?;
        Some((n, Ratio::of(*count as f64 / self.times.len().max(1) as f64)))
    }
}

/// Time to the rating of a packer in one sample: the lot's clock, the packer's own element and hole.
fn rating(bench: &Bench<'_>, s: &Samples<'_>, i: usize, own: Option<&Draw>) -> physics::Result<f64> {
    let (Some(own), Some(lot), Some(counted)) = (own, bench.kinds.get(i), s.counted.get(i)) else {
        return Ok(f64::INFINITY);
    };
    let kind = Kind { growth: bench.element.growth(own), clock: lot.clock };
    let wanted = bench.hole(s.place, own) + bench.element.table.rating_interference;
    Ok(match bench.element.needs(kind, wanted) {
        Some(needed) => s.warm.time_at(&kind.clock, *counted, needed)?.si(),
        None => f64::INFINITY,
    })
}
