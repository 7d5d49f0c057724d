//! Damped least squares of a few parameters.

/// Parameters fitted at once.
pub const PARAMETERS: usize = 3;

/// One row's residual and its derivatives by the parameters.
pub type Residual = (f64, [f64; PARAMETERS]);

/// What came of a fit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// The parameters.
    pub parameters: [f64; PARAMETERS],
    /// Standard deviation of each, from the curvature at the least; infinite for one the rows
    /// say nothing of.
    pub deviations: [f64; PARAMETERS],
    /// Root mean square of the residuals.
    pub rms: f64,
}

type Matrix = [[f64; PARAMETERS]; PARAMETERS];

/// Least sum of squares from a start, with the parameters of `free` varied: steps of Gauss and
/// Newton, damped until they help. `rows` gives every row's residual at the parameters.
///
/// Source: marquardt1963.
pub fn least_squares(
    start: [f64; PARAMETERS],
    free: [bool; PARAMETERS],
    rows: impl Fn([f64; PARAMETERS]) -> Vec<Residual>,
) -> Option<Fit> {
    let (mut at, mut damping) = (start, 1e-3);
    let mut now = rows(at);
    for _ in 0..300 {
        let (matrix, gradient) = normal_equations(&now, free);
        let damped = add_diagonal(matrix, |d| damping * d);
        let step = solve(damped, gradient)?;
        let next = add(at, step);
        let then = rows(next);
        let (before, after) = (sum(&now), sum(&then));
        if after <= before {
            (at, now, damping) = (next, then, (0.2 * damping).max(1e-14));
            let small = step.iter().zip(at).all(|(s, p)| s.abs() <= 1e-11 * (1.0 + p.abs()));
            if small || before - after <= 1e-15 * before {
                break;
            }
        } else {
            damping *= 5.0;
            if damping > 1e14 {
                break;
            }
        }
    }
    finish(at, free, &now)
}

/// Deviations and rms at the least.
fn finish(at: [f64; PARAMETERS], free: [bool; PARAMETERS], rows: &[Residual]) -> Option<Fit> {
    let squares = sum(rows);
    let varied = free.iter().filter(|f| **f).count();
    let spare = rows.len().saturating_sub(varied).max(1) as f64;
    let (matrix, _) = normal_equations(rows, free);
    let deviations = std::array::from_fn(|i| {
        let unit = std::array::from_fn(|j| if i == j { 1.0 } else { 0.0 });
        let column = solve(matrix, unit).and_then(|c| c.get(i).copied());
        let varied = free.get(i).copied().unwrap_or(false);
        let variance = column.filter(|v| v.is_finite() && *v >= 0.0).map(|v| v * squares / spare);
        if varied { variance.map_or(f64::INFINITY, f64::sqrt) } else { 0.0 }
    });
    let rms = (squares / rows.len().max(1) as f64).sqrt();
    let good = rms.is_finite() && at.iter().all(|p| p.is_finite());
    good.then_some(Fit { parameters: at, deviations, rms })
}

fn sum(rows: &[Residual]) -> f64 {
    let total: f64 = rows.iter().map(|(r, _)| r * r).sum();
    if total.is_nan() { f64::INFINITY } else { total }
}

fn add(a: [f64; PARAMETERS], b: [f64; PARAMETERS]) -> [f64; PARAMETERS] {
    let mut out = a;
    out.iter_mut().zip(b).for_each(|(o, b)| *o += b);
    out
}

/// `JᵀJ` and `−Jᵀr`; a parameter held has a one on the diagonal and no step.
fn normal_equations(rows: &[Residual], free: [bool; PARAMETERS]) -> (Matrix, [f64; PARAMETERS]) {
    let (mut matrix, mut gradient) = ([[0.0; PARAMETERS]; PARAMETERS], [0.0; PARAMETERS]);
    for (residual, derivatives) in rows {
        let mut masked = *derivatives;
        masked.iter_mut().zip(free).for_each(|(d, f)| *d = if f { *d } else { 0.0 });
        for ((line, slot), di) in matrix.iter_mut().zip(gradient.iter_mut()).zip(masked) {
            *slot -= di * residual;
            line.iter_mut().zip(masked).for_each(|(m, dj)| *m += di * dj);
        }
    }
    let mut held = free.iter();
    (add_diagonal(matrix, |_| if held.next() == Some(&false) { 1.0 } else { 0.0 }), gradient)
}

fn add_diagonal(mut matrix: Matrix, mut extra: impl FnMut(f64) -> f64) -> Matrix {
    for (i, line) in matrix.iter_mut().enumerate() {
        if let Some(d) = line.get_mut(i) {
            *d += extra(*d);
        }
    }
    matrix
}

/// Cramer's rule on columns scaled to unit diagonal; `None` where the matrix is singular.
fn solve(matrix: Matrix, right: [f64; PARAMETERS]) -> Option<[f64; PARAMETERS]> {
    let mut scale = [1.0; PARAMETERS];
    for (i, (s, line)) in scale.iter_mut().zip(&matrix).enumerate() {
        *s = 1.0 / line.get(i).copied().filter(|d| *d > 0.0)?.sqrt();
    }
    let mut m = matrix;
    for (line, si) in m.iter_mut().zip(scale) {
        line.iter_mut().zip(scale).for_each(|(v, sj)| *v *= si * sj);
    }
    let mut r = right;
    r.iter_mut().zip(scale).for_each(|(v, s)| *v *= s);
    let [a, b, c] = m;
    let whole = determinant(a, b, c);
    if whole.abs() < 1e-13 {
        return None;
    }
    // the matrix is symmetric: its lines are its columns
    let parts = [determinant(r, b, c), determinant(a, r, c), determinant(a, b, r)];
    let mut out = [0.0; PARAMETERS];
    out.iter_mut().zip(parts).zip(scale).for_each(|((o, p), s)| *o = s * p / whole);
    Some(out)
}

fn determinant(a: [f64; 3], b: [f64; 3], c: [f64; 3]) -> f64 {
    let ([a0, a1, a2], [b0, b1, b2], [c0, c1, c2]) = (a, b, c);
    a0 * (b1 * c2 - b2 * c1) - a1 * (b0 * c2 - b2 * c0) + a2 * (b0 * c1 - b1 * c0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_decay_is_found_again() {
        let data: Vec<(f64, f64)> =
            (0..20).map(|i| f64::from(i) * 0.2).map(|x| (x, 3.0 * (-0.7 * x).exp() + 0.5)).collect();
        let rows = |p: [f64; 3]| -> Vec<Residual> {
            let [a, k, c] = p;
            data.iter()
                .map(|(x, y)| {
                    let e = (-k * x).exp();
                    (a * e + c - y, [e, -a * x * e, 1.0])
                })
                .collect()
        };
        let fit = least_squares([1.0, 0.2, 0.0], [true; 3], rows).unwrap();
        for (got, want) in fit.parameters.iter().zip([3.0, 0.7, 0.5]) {
            assert!((got - want).abs() < 1e-7, "{fit:?}");
        }
        let held = least_squares([1.0, 0.7, 0.0], [true, false, true], rows).unwrap();
        assert!((held.parameters[0] - 3.0).abs() < 1e-7 && held.deviations[1] == 0.0);
    }
}
