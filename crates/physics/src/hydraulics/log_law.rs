//! The implicit equation shared by the logarithmic friction laws.

/// The root `y > 0` of `y + b log10 y = k`, by Newton's method from `start`.
///
/// The left side rises from minus to plus infinity and is concave, so there is one root and
/// Newton's steps come up to it from below. `b` must be above zero.
pub(crate) fn solve_log_law(b: f64, k: f64, start: f64) -> f64 {
    let mut y = start;
    for _ in 0..40 {
        // F = y + b log10 y - k, F' = 1 + b/(y ln 10)
        let f = y + b * y.log10() - k;
        let next = y - f / (1.0 + b / (y * std::f64::consts::LN_10));
        // a step from far above the root may leave the domain: start below the root instead
        let next = if next > 0.0 { next } else { 10f64.powf((k - 1.0) / b).min(1.0) };
        if (next - y).abs() <= 1e-14 * next {
            return next;
        }
        y = next;
    }
    y
}

#[cfg(test)]
mod tests {
    use super::solve_log_law;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_root_is_found_from_any_start(b in 0.5..40.0f64, y in 0.05..200.0f64, start in 0.01..1e3f64) {
            let root = solve_log_law(b, y + b * y.log10(), start);
            prop_assert!((root / y - 1.0).abs() < 1e-11, "{root} for {y}");
        }
    }
}
