//! Seeded random numbers, and noise that is correlated along the hole.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;
use rand_distr::{Distribution, Exp1, StandardNormal, StandardUniform};

/// A named generator: the same seed gives the same numbers on every machine.
pub struct Noise(ChaCha8Rng);

impl Noise {
    /// From a seed.
    pub fn seeded(seed: u64) -> Self {
        Self(ChaCha8Rng::seed_from_u64(seed))
    }

    /// Normal, mean 0, standard deviation 1.
    pub fn normal(&mut self) -> f64 {
        StandardNormal.sample(&mut self.0)
    }

    /// Evenly from `low` to `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        let share: f64 = StandardUniform.sample(&mut self.0);
        low + (high - low) * share
    }

    /// Distance to the next of randomly placed things, `mean` apart.
    pub fn gap(&mut self, mean: f64) -> f64 {
        let one: f64 = Exp1.sample(&mut self.0);
        mean * one
    }

    /// Noise with standard deviation `sigma` that is forgotten over `length`, at points `step` apart.
    pub fn along(&mut self, count: usize, sigma: f64, step: f64, length: f64) -> Vec<f64> {
        let keep = libm::exp(-step / length);
        let fresh = sigma * (1.0 - keep * keep).sqrt();
        let mut value = sigma * self.normal();
        (0..count)
            .map(|_| {
                value = keep * value + fresh * self.normal();
                value
            })
            .collect()
    }

    /// Depths of randomly placed things from `top` to `bottom`, `mean` apart.
    pub fn places(&mut self, top: f64, bottom: f64, mean: f64) -> Vec<f64> {
        let mut depths = Vec::new();
        let mut at = top + self.gap(mean);
        while at < bottom {
            depths.push(at);
            at += self.gap(mean);
        }
        depths
    }
}

/// A bump of height 1 at `centre`, `half` wide at about 0.6 of its height.
pub fn bump(at: f64, centre: f64, half: f64) -> f64 {
    let x = (at - centre) / half;
    if x.abs() > 5.0 { 0.0 } else { libm::exp(-0.5 * x * x) }
}

/// 1 between `from` and `to`, falling to 0 over `ramp` outside.
pub fn plateau(at: f64, from: f64, to: f64, ramp: f64) -> f64 {
    let outside = (from - at).max(at - to).max(0.0);
    let x = (1.0 - outside / ramp).clamp(0.0, 1.0);
    x * x * (3.0 - 2.0 * x)
}
