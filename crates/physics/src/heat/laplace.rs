//! Numerical inversion of a Laplace transform.

use num_complex::Complex64;
use std::f64::consts::PI;

/// Nodes on the contour: about 0.6 correct digits a node until rounding, near 1e-11, takes over.
const NODES: u32 = 22;

/// The function of time `t > 0` whose Laplace transform is `transform`, along Talbot's
/// contour. The transform must have no singularity off the negative real axis, as those of
/// conduction have none.
///
/// Source: abate_valko2004, fixed Talbot method.
pub fn invert(transform: impl Fn(Complex64) -> Complex64, t: f64) -> f64 {
    let m = f64::from(NODES);
    // r = 2M / 5t
    let r = 2.0 * m / (5.0 * t);
    let mut sum = 0.5 * (transform(Complex64::new(r, 0.0)) * (r * t).exp()).re;
    for k in 1..NODES {
        let theta = f64::from(k) * PI / m;
        let cot = 1.0 / theta.tan();
        // s(θ) = r θ (cot θ + i)
        let s = r * theta * Complex64::new(cot, 1.0);
        if s.re * t < -45.0 {
            break;
        }
        // σ(θ) = θ + (θ cot θ − 1) cot θ
        let sigma = theta + (theta * cot - 1.0) * cot;
        sum += ((s * t).exp() * transform(s) * Complex64::new(1.0, sigma)).re;
    }
    // f(t) = (r/M) { ½ f̂(r) e^(rt) + Σ Re[ e^(t s(θ)) f̂(s(θ)) (1 + i σ(θ)) ] }
    r / m * sum
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn known_pairs() {
        for t in [1e-3_f64, 0.1, 1.0, 30.0, 1e4] {
            let root = invert(|s| s.powf(-1.5), t);
            assert!((root / (2.0 * (t / PI).sqrt()) - 1.0).abs() < 1e-9, "sqrt at {t}");
            let complement = invert(|s| (-s.sqrt()).exp() / s, t);
            assert!((complement - libm::erfc(0.5 / t.sqrt())).abs() < 1e-9, "erfc at {t}");
        }
        let decay = invert(|s| 1.0 / (s + 1.0), 2.0);
        assert!((decay - (-2.0_f64).exp()).abs() < 1e-9);
    }
}
