//! Bracketed root finding, used by relations that are implicit.

/// Brent's method on a bracket: the root of `f` between `a` and `b`, where `f` changes sign.
///
/// Returns `None` when the ends have the same sign or `f` leaves the finite numbers. Stops when
/// the bracket is shorter than `tolerance` or after 200 steps.
///
/// Source: brent1973 ch. 4.
pub fn brent(mut f: impl FnMut(f64) -> f64, a: f64, b: f64, tolerance: f64) -> Option<f64> {
    let (mut a, mut b) = (a, b);
    let (mut fa, mut fb) = (f(a), f(b));
    if !fa.is_finite() || !fb.is_finite() || fa * fb > 0.0 {
        return None;
    }
    let (mut c, mut fc) = (a, fa);
    let mut d = b - a;
    let mut e = d;
    for _ in 0..200 {
        if fb * fc > 0.0 {
            (c, fc) = (a, fa);
            d = b - a;
            e = d;
        }
        if fc.abs() < fb.abs() {
            (a, b, c) = (b, c, b);
            (fa, fb, fc) = (fb, fc, fb);
        }
        let tol = 2.0 * f64::EPSILON * b.abs() + 0.5 * tolerance;
        let half = 0.5 * (c - b);
        if half.abs() <= tol || fb == 0.0 {
            return Some(b);
        }
        match interpolate([a, b, c], [fa, fb, fc], half, tol, e) {
            Some(step) if fa.abs() > fb.abs() && e.abs() >= tol => (e, d) = (d, step),
            _ => (d, e) = (half, half),
        }
        (a, fa) = (b, fb);
        b += if d.abs() > tol { d } else { tol.copysign(half) };
        fb = f(b);
        if !fb.is_finite() {
            return None;
        }
    }
    Some(b)
}

/// Secant or inverse quadratic step, if it stays well inside the bracket.
fn interpolate(x: [f64; 3], y: [f64; 3], half: f64, tol: f64, previous: f64) -> Option<f64> {
    let [a, b, c] = x;
    let [fa, fb, fc] = y;
    let s = fb / fa;
    let (mut p, mut q) = if a == c {
        (2.0 * half * s, 1.0 - s)
    } else {
        let (q, r) = (fa / fc, fb / fc);
        (s * (2.0 * half * q * (q - r) - (b - a) * (r - 1.0)), (q - 1.0) * (r - 1.0) * (s - 1.0))
    };
    if p > 0.0 {
        q = -q;
    }
    p = p.abs();
    let inside = 2.0 * p < (3.0 * half * q - (tol * q).abs()).min((previous * q).abs());
    inside.then(|| p / q)
}

#[cfg(test)]
mod tests {
    use super::brent;

    #[test]
    fn finds_printed_roots() {
        // Roots known in closed form.
        let root = brent(|x| x * x - 2.0, 0.0, 2.0, 1e-14).unwrap();
        assert!((root - 2f64.sqrt()).abs() < 1e-13);
        let root = brent(|x| x.cos() - x, 0.0, 1.0, 1e-14).unwrap();
        assert!((root.cos() - root).abs() < 1e-13);
        assert!(brent(|x| x * x + 1.0, -1.0, 1.0, 1e-9).is_none());
        assert!(brent(|_| f64::NAN, -1.0, 1.0, 1e-9).is_none());
    }
}
