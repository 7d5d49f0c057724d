//! The rock along the lateral: how shaly it is, and what gamma ray and quality logs read of it.

use super::noise::{Noise, plateau};

/// What the bit went through.
pub struct Plan {
    /// Stretches in shale: from, to, how shaly (0 to 1).
    pub shale: &'static [(f64, f64, f64)],
    /// Mean distance of thin shaly streaks.
    pub streak_gap: f64,
    /// Gamma ray of clean rock.
    pub clean: f64,
    /// What shale adds to it.
    pub shale_adds: f64,
}

/// The rock at depths `step` apart, from `top` down.
pub struct Rock {
    /// Shaliness, 0 to 1.
    pub shale: Vec<f64>,
    /// Gamma ray, API units.
    pub gamma: Vec<f64>,
    /// Quality, 0 to 1.
    pub quality: Vec<f64>,
}

/// Lays the rock down.
pub fn lay(plan: &Plan, depths: &[f64], step: f64, noise: &mut Noise) -> Rock {
    let (top, bottom) = (depths.first().copied().unwrap_or(0.0), depths.last().copied().unwrap_or(0.0));
    let streaks: Vec<(f64, f64, f64)> = noise
        .places(top, bottom, plan.streak_gap)
        .into_iter()
        .map(|at| (at, at + noise.between(0.8, 5.0), noise.between(0.20, 0.60)))
        .collect();
    let slow = noise.along(depths.len(), 5.0, step, 18.0);
    let fast = noise.along(depths.len(), 2.2, step, 0.5);
    let trend = noise.along(depths.len(), 0.15, step, 55.0);
    let shale: Vec<f64> = depths
        .iter()
        .map(|d| {
            let thick = plan.shale.iter().map(|(a, b, s)| s * plateau(*d, *a, *b, 9.0));
            let thin = streaks.iter().map(|(a, b, s)| s * plateau(*d, *a, *b, 1.0));
            thick.chain(thin).fold(0.0, f64::max)
        })
        .collect();
    let gamma = (0..depths.len()).map(|i| plan.clean + plan.shale_adds * shale[i] + slow[i] + fast[i]);
    let quality =
        (0..depths.len()).map(|i| (0.60 + trend[i] - 0.012 * slow[i] - 0.70 * shale[i]).clamp(0.02, 0.98));
    let (gamma, quality) = (gamma.collect(), quality.collect());
    Rock { shale, gamma, quality }
}
