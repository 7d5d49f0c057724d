//! A power of the rate by plain arithmetic, since it is wanted in every cell of every step.

/// `log2` on 1 to 2, in powers of `2m - 3`: Chebyshev fit, within 6e-7.
const LOG: [f64; 8] = [
    0.58496276533,
    0.480897985851,
    -0.0801580831761,
    0.0178157962711,
    -0.00441185472966,
    0.00117071679728,
    -0.000392550051341,
    0.000115458755981,
];

/// `2^f` on -1/2 to 1/2, in powers of `2f`: Chebyshev fit, within 1e-7.
const EXP: [f64; 6] =
    [1.0000000755, 0.346573603355, 0.0600552683896, 0.00693790901776, 0.000604752318618, 4.18763505182e-05];

/// Added and taken away, it leaves a whole number.
const ROUND: f64 = 6_755_399_441_055_744.0;

/// How near a rate must be to that of a tangent: its error is then below 1e-4.
const NEAR: f64 = 0.02;

/// Far below any rate, m³/s.
const TINY: f64 = 1e-18;

/// A power as a straight line: `base + slope |q|`.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Tangent {
    rate: f64,
    base: f64,
    slope: f64,
}

/// `|q|^(n - 1)`, within 1e-6, by plain operations.
///
/// The steady flow and the waves use the same function, so that its error moves nothing that
/// stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Power {
    power: f64,
}

impl Power {
    /// For friction with the exponent `n`.
    pub fn new(exponent: f64) -> Self {
        Self { power: exponent - 1.0 }
    }

    /// Whether it is the square law, which needs no power.
    pub fn is_square(self) -> bool {
        self.power == 1.0
    }

    /// `|q|^(n - 1)` of each rate: along the tangent of the last rate it was computed for, while
    /// the rate is within a fiftieth of that.
    #[inline(never)]
    pub fn each(self, rates: &[f64], tangents: &mut [Tangent], out: &mut [f64]) {
        let cells = out.iter_mut().zip(rates).zip(tangents);
        if self.is_square() {
            cells.for_each(|((out, q), _)| *out = q.abs());
            return;
        }
        for ((out, q), tangent) in cells {
            let q = q.abs();
            if (q - tangent.rate).abs() > NEAR * tangent.rate {
                let value = self.any(q);
                // (n - 1) |q|^(n - 2)
                let slope = self.power * value / (q + TINY);
                *tangent = Tangent { rate: q, base: value - slope * q, slope };
            }
            *out = tangent.base + tangent.slope * q;
        }
    }

    /// `|q|^(n - 1)`.
    pub fn at(self, q: f64) -> f64 {
        if self.is_square() { q.abs() } else { self.any(q) }
    }

    /// The same without the short way for the square law.
    #[inline]
    fn any(self, q: f64) -> f64 {
        let bits = (q.abs() + TINY).to_bits();
        // x = m 2^e, 1 <= m < 2: the exponent as a number, by way of that of 2^52
        let e = f64::from_bits((bits >> 52) | 0x4330_0000_0000_0000) - 4_503_599_627_371_519.0;
        let m = f64::from_bits((bits & 0x000f_ffff_ffff_ffff) | 0x3ff0_0000_0000_0000);
        // x^s = 2^(s log2 x), the whole part of the exponent put in as bits
        let y = self.power * (e + polynomial(&LOG, 2.0 * m - 3.0));
        let whole = y + ROUND;
        let rest = y - (whole - ROUND);
        let scale = f64::from_bits(whole.to_bits().wrapping_add(1023) << 52);
        scale * polynomial(&EXP, 2.0 * rest)
    }
}

#[inline]
fn polynomial<const N: usize>(coefficients: &[f64; N], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_the_power() {
        for n in [1.0, 1.25, 1.5, 1.75, 1.8, 1.9, 2.0] {
            let power = Power::new(n);
            for i in -400..40 {
                let q = 10_f64.powf(f64::from(i) / 40.0);
                for got in [power.at(q), power.at(-q), power.any(q)] {
                    assert!((got / q.powf(n - 1.0) - 1.0).abs() < 1e-6, "{n} {q}: {got}");
                }
            }
            assert!(power.at(0.0).is_finite() && power.at(0.0) >= 0.0);
            let (mut tangents, mut out) = ([Tangent::default()], [0.0]);
            for i in 1..4000 {
                let q = 0.1 + 0.1 * (f64::from(i) * 0.01).sin();
                power.each(&[q], &mut tangents, &mut out);
                assert!((out[0] / q.powf(n - 1.0) - 1.0).abs() < 1e-4, "{n} {q}");
            }
        }
    }
}
