//! A smooth curve through rows that rise and never fall, with no wiggles between them.

use crate::solve::brent;

/// Cubic pieces through rows, with slopes that keep rising rows rising.
///
/// Source: fritsch_butland1984 (weighted harmonic mean of the neighbouring slopes);
/// end slopes by the three-point formula, limited to keep the shape.
#[derive(Debug, Clone, PartialEq)]
pub struct MonotoneCubic {
    rows: Vec<Row>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Row {
    x: f64,
    y: f64,
    slope: f64,
}

impl MonotoneCubic {
    /// Through `points`, whose x must increase and whose y must not decrease; `None` otherwise
    /// or with fewer than two points.
    pub fn new(points: &[(f64, f64)]) -> Option<Self> {
        let finite = points.iter().all(|(x, y)| x.is_finite() && y.is_finite());
        let rising = points.windows(2).all(|w| matches!(w, [a, b] if b.0 > a.0 && b.1 >= a.1));
        if points.len() < 2 || !finite || !rising {
            return None;
        }
        // widths and slopes of the straight pieces
        let pieces: Vec<(f64, f64)> = points
            .iter()
            .zip(points.iter().skip(1))
            .map(|(a, b)| (b.0 - a.0, (b.1 - a.1) / (b.0 - a.0)))
            .collect();
        let mut slopes = vec![end_slope(pieces.first().copied()?, pieces.get(1).copied())];
        slopes.extend(pieces.iter().zip(pieces.iter().skip(1)).map(|(a, b)| inner_slope(*a, *b)));
        let last = pieces.len().checked_sub(2).and_then(|i| pieces.get(i).copied());
        slopes.push(end_slope(pieces.last().copied()?, last));
        let rows = points.iter().zip(slopes).map(|((x, y), slope)| Row { x: *x, y: *y, slope }).collect();
        Some(Self { rows })
    }

    /// First and last x.
    pub fn ends(&self) -> (f64, f64) {
        let x = |r: Option<&Row>| r.map_or(f64::NAN, |r| r.x);
        (x(self.rows.first()), x(self.rows.last()))
    }

    /// The value at `x`; beyond the rows the nearest row's.
    pub fn at(&self, x: f64) -> f64 {
        let after = self.rows.partition_point(|r| r.x < x);
        match (after.checked_sub(1).and_then(|i| self.rows.get(i)), self.rows.get(after)) {
            (Some(a), Some(b)) => hermite(a, b, x),
            (None, Some(r)) | (Some(r), None) => r.y,
            (None, None) => f64::NAN,
        }
    }

    /// The first x at which the curve reaches `y`; `None` below the first row or above the last.
    pub fn first_at(&self, y: f64) -> Option<f64> {
        let after = self.rows.partition_point(|r| r.y < y);
        let b = self.rows.get(after)?;
        let Some(a) = after.checked_sub(1).and_then(|i| self.rows.get(i)) else {
            return (b.y == y).then_some(b.x);
        };
        brent(|x| hermite(a, b, x) - y, a.x, b.x, 1e-12 * (b.x - a.x))
    }
}

/// Cubic between two rows.
fn hermite(a: &Row, b: &Row, x: f64) -> f64 {
    let h = b.x - a.x;
    let t = (x - a.x) / h;
    let s = 1.0 - t;
    a.y * s * s * (1.0 + 2.0 * t) + b.y * t * t * (1.0 + 2.0 * s) + h * t * s * (a.slope * s - b.slope * t)
}

/// Slope at an inner row: weighted harmonic mean of the straight pieces' slopes.
fn inner_slope((h0, d0): (f64, f64), (h1, d1): (f64, f64)) -> f64 {
    if d0 * d1 <= 0.0 {
        return 0.0;
    }
    let (w0, w1) = (2.0 * h1 + h0, h1 + 2.0 * h0);
    (w0 + w1) / (w0 / d0 + w1 / d1)
}

/// Slope at an end row from the piece there and the next one inward.
fn end_slope((h0, d0): (f64, f64), inward: Option<(f64, f64)>) -> f64 {
    let Some((h1, d1)) = inward else { return d0 };
    let slope = ((2.0 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
    slope.min(3.0 * d0).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_straight_line_stays_straight() {
        let c = MonotoneCubic::new(&[(0.0, 1.0), (1.0, 3.0), (4.0, 9.0)]).unwrap();
        for x in [0.0, 0.3, 1.0, 2.7, 4.0] {
            assert!((c.at(x) - (1.0 + 2.0 * x)).abs() < 1e-13);
        }
        assert_eq!((c.at(-1.0), c.at(9.0)), (1.0, 9.0));
        assert!(c.first_at(9.1).is_none() && c.first_at(0.9).is_none());
        assert!(MonotoneCubic::new(&[(0.0, 1.0)]).is_none());
        assert!(MonotoneCubic::new(&[(0.0, 1.0), (1.0, 0.5)]).is_none());
        assert!(MonotoneCubic::new(&[(0.0, 1.0), (1.0, f64::NAN)]).is_none());
    }

    proptest::proptest! {
        #[test]
        fn never_falls_and_inverts(steps in proptest::collection::vec((0.01f64..5.0, 0.0f64..3.0), 2..12), u in 0f64..1.0) {
            let mut at = (0.0, 0.0);
            let mut points = vec![at];
            for (dx, dy) in steps {
                at = (at.0 + dx, at.1 + dy);
                points.push(at);
            }
            let c = MonotoneCubic::new(&points).unwrap();
            let mut last = 0.0;
            for i in 0..=400 {
                let y = c.at(at.0 * f64::from(i) / 400.0);
                proptest::prop_assert!(y >= last - 1e-12);
                last = y;
            }
            let y = u * at.1;
            let x = c.first_at(y).unwrap();
            proptest::prop_assert!((c.at(x) - y).abs() < 1e-9);
        }
    }
}
