//! Modified Bessel functions of the second kind, of a complex argument in the right half
//! plane: what conduction round a cylinder is made of in the Laplace domain.

use num_complex::Complex64;
use std::f64::consts::PI;

/// Euler's constant.
const EULER: f64 = 0.577_215_664_901_532_9;

/// The pair K0 and K1, each times `exp(z)` so that neither underflows.
#[derive(Debug, Clone, Copy)]
pub struct ScaledK {
    /// `exp(z) K0(z)`.
    pub k0: Complex64,
    /// `exp(z) K1(z)`.
    pub k1: Complex64,
}

/// `exp(z) K0(z)` and `exp(z) K1(z)` for `Re z >= 0`, `z != 0`, to about 1e-14 relative.
///
/// Ascending series up to `|z| = 2`, an integral over the whole line by the trapezoidal rule
/// beyond (the integrand is analytic in a strip, so the rule converges geometrically).
///
/// Source: dlmf 10.31.1, 10.31.2 (series), 10.32.8 (integral, with t = 1 + x²/z).
pub fn scaled_k(z: Complex64) -> ScaledK {
    if z.norm() <= 2.0 { series(z) } else { integral(z) }
}

/// Ascending series.
fn series(z: Complex64) -> ScaledK {
    let quarter = z * z / 4.0;
    let log = (z / 2.0).ln();
    let (mut term0, mut term1) = (Complex64::new(1.0, 0.0), Complex64::new(1.0, 0.0));
    let (mut i0, mut i1) = (term0, term1);
    // ψ(k+1) = −γ + 1 + 1/2 + ... + 1/k
    let mut psi = -EULER;
    let mut tail0 = term0 * psi;
    let mut tail1 = term1 * (2.0 * psi + 1.0);
    for k in 1..40 {
        let n = f64::from(k);
        term0 = term0 * quarter / (n * n);
        term1 = term1 * quarter / (n * (n + 1.0));
        psi += 1.0 / n;
        i0 += term0;
        i1 += term1;
        tail0 += term0 * psi;
        tail1 += term1 * (2.0 * psi + 1.0 / (n + 1.0));
        if term0.norm() < 1e-18 * i0.norm() {
            break;
        }
    }
    // K0(z) = −ln(z/2) I0(z) + Σ ψ(k+1) (z²/4)^k / (k!)²
    let k0 = tail0 - log * i0;
    // K1(z) = 1/z + ln(z/2) I1(z) − (z/4) Σ [ψ(k+1) + ψ(k+2)] (z²/4)^k / (k! (k+1)!)
    let k1 = z.inv() + log * (z / 2.0) * i1 - z / 4.0 * tail1;
    let scale = z.exp();
    ScaledK { k0: scale * k0, k1: scale * k1 }
}

/// Integral over the whole line.
fn integral(z: Complex64) -> ScaledK {
    const STEP: f64 = 0.25;
    let mut sum0 = Complex64::new(0.5, 0.0);
    let mut sum1 = Complex64::new(0.0, 0.0);
    for k in 1..=26 {
        let x2 = (f64::from(k) * STEP).powi(2);
        let root = (1.0 + x2 / (2.0 * z)).sqrt();
        let weight = (-x2).exp();
        sum0 += weight / root;
        sum1 += 2.0 * x2 * weight * root;
    }
    // e^z Kν(z) = √(π/2z) / Γ(ν+½) ∫0∞ e^(−t) t^(ν−½) (1 + t/2z)^(ν−½) dt,  t = x²
    let front = (PI / (2.0 * z)).sqrt() * (2.0 * STEP / PI.sqrt());
    ScaledK { k0: front * sum0, k1: front * sum1 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tabulated_values() {
        // K0(1), K1(1), K0(5), K1(5): Abramowitz and Stegun, table 9.8.
        for (x, k0, k1) in [
            (1.0, 0.421_024_438_240_708_3, 0.601_907_230_197_234_6),
            (5.0, 3.691_098_334_042_594e-3, 4.044_613_445_452_164e-3),
        ] {
            let k = scaled_k(Complex64::new(x, 0.0));
            assert!((k.k0.re * (-x).exp() / k0 - 1.0).abs() < 1e-13, "{x}");
            assert!((k.k1.re * (-x).exp() / k1 - 1.0).abs() < 1e-13, "{x}");
        }
    }

    #[test]
    fn series_and_integral_meet() {
        for degrees in [-90.0_f64, -60.0, -10.0, 0.0, 35.0, 80.0, 90.0] {
            let z = Complex64::from_polar(2.0, degrees.to_radians());
            let (a, b) = (series(z), integral(z));
            assert!((a.k0 / b.k0 - 1.0).norm() < 2e-13, "{degrees}");
            assert!((a.k1 / b.k1 - 1.0).norm() < 2e-13, "{degrees}");
        }
    }
}
