//! The random numbers of the samples: drawn once, the same for every packer.

use rand_chacha::ChaCha12Rng;
use rand_chacha::rand_core::SeedableRng;
use rand_distr::{Distribution, StandardNormal};

/// Standard normal numbers of one sample.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Draw {
    /// Of the growth of the element.
    pub swell: f64,
    /// Of the activation energy.
    pub energy: f64,
    /// Of the hole size along the element.
    pub along: f64,
    /// Of the caliper.
    pub caliper: f64,
}

impl Draw {
    fn mirrored(self) -> Self {
        Self { swell: -self.swell, energy: -self.energy, along: -self.along, caliper: -self.caliper }
    }
}

/// `count` draws, each second one the mirror of the one before, so that the middle of the samples
/// is the middle of the figures.
pub(super) fn draws(seed: u64, count: usize) -> Vec<Draw> {
    let mut random = ChaCha12Rng::seed_from_u64(seed);
    let mut next = || -> f64 { StandardNormal.sample(&mut random) };
    let mut out = Vec::with_capacity(count);
    while out.len() < count {
        let draw = Draw { swell: next(), energy: next(), along: next(), caliper: next() };
        out.push(draw);
        out.push(draw.mirrored());
    }
    out.truncate(count);
    out
}

/// Quantile of sorted numbers, straight between neighbours; none where it is not finite.
pub(super) fn quantile(sorted: &[f64], share: f64) -> Option<f64> {
    let last = sorted.len().checked_sub(1)?;
    let at = share * last as f64;
    let (low, high) = (*sorted.get(at.floor() as usize)?, *sorted.get((at.ceil() as usize).min(last))?);
    let value = if low == high { low } else { low + (high - low) * at.fract() };
    value.is_finite().then_some(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_seed_gives_the_same_draws() {
        assert_eq!(draws(7, 40), draws(7, 40));
        assert_ne!(draws(7, 40), draws(8, 40));
        assert_eq!(draws(7, 41).len(), 41);
    }

    #[test]
    fn draws_are_normal() {
        let list = draws(1, 4000);
        for pick in [|d: &Draw| d.swell, |d: &Draw| d.energy, |d: &Draw| d.along, |d: &Draw| d.caliper] {
            let mean = list.iter().map(pick).sum::<f64>() / 4000.0;
            let variance = list.iter().map(|d| pick(d).powi(2)).sum::<f64>() / 4000.0;
            assert!(mean.abs() < 1e-12 && (variance - 1.0).abs() < 0.06, "{mean} {variance}");
        }
    }

    #[test]
    fn quantiles_of_what_is_never_reached_are_none() {
        let list = [1.0, 2.0, 3.0, f64::INFINITY];
        assert_eq!(quantile(&list, 0.5), Some(2.5));
        assert_eq!(quantile(&list, 0.9), None);
        assert_eq!(quantile(&list, 0.0), Some(1.0));
        assert_eq!(quantile(&[], 0.5), None);
    }
}
