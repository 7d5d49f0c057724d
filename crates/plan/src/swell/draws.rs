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

/// `count` draws, each second one the mirror of the one before, scaled so that the spread of every
/// number is one: the middle and the spread of the samples are those of the figures.
pub(super) fn draws(seed: u64, count: usize) -> Vec<Draw> {
    let mut random = ChaCha12Rng::seed_from_u64(seed);
    let half = count.div_ceil(2);
    let mut column = || -> Vec<f64> {
        let list: Vec<f64> = (0..half).map(|_| StandardNormal.sample(&mut random)).collect();
        let spread = (list.iter().map(|z: &f64| z * z).sum::<f64>() / half.max(1) as f64).sqrt();
        let scale = if spread > 0.0 { 1.0 / spread } else { 1.0 };
        list.into_iter().flat_map(|z| [z * scale, -z * scale]).take(count).collect()
    };
    let (swell, energy, along, caliper) = (column(), column(), column(), column());
    let pairs = swell.into_iter().zip(energy).zip(along.into_iter().zip(caliper));
    pairs.map(|((swell, energy), (along, caliper))| Draw { swell, energy, along, caliper }).collect()
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
        let list = draws(1, 20_000);
        let columns: [fn(&Draw) -> f64; 4] = [|d| d.swell, |d| d.energy, |d| d.along, |d| d.caliper];
        let mean = |of: &dyn Fn(&Draw) -> f64| list.iter().map(of).sum::<f64>() / 20_000.0;
        for (i, a) in columns.iter().enumerate() {
            assert!(mean(a).abs() < 1e-12 && (mean(&|d| a(d).powi(2)) - 1.0).abs() < 1e-9);
            assert!((mean(&|d| a(d).powi(4)) - 3.0).abs() < 0.3);
            for b in columns.iter().skip(i + 1) {
                assert!(mean(&|d| a(d) * b(d)).abs() < 0.04);
            }
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
