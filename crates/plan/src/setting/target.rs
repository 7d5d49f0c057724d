//! Pressures a crew can read off a gauge.

use quantity::*;
use well::job::Units;

/// Finer steps of a gauge are this share of the practical one.
const FINER: f64 = 0.2;
/// A pressure this close to a step is on it, as a share of the step.
const ON_IT: f64 = 1e-9;

/// The practical step of a pressure target.
pub(super) fn practical_step(units: Units) -> Pressure {
    match units {
        Units::Field => Pressure::psi(50.0),
        Units::Metric => Pressure::mpa(0.25),
    }
}

/// The first practical step at or above `low` that does not pass `high`; a finer one, or `low`
/// itself, where the room is less; none where there is no room.
pub(super) fn target(low: GaugePressure, high: GaugePressure, step: Pressure) -> Option<GaugePressure> {
    if low > high {
        return None;
    }
    let up = |step: Pressure| (step * (low.above_atmosphere() / step - ON_IT).ceil()).gauge();
    let steps = [step, step * FINER];
    Some(steps.into_iter().map(up).find(|p| *p <= high && *p >= low * (1.0 - ON_IT)).unwrap_or(low))
}

/// The last practical step at or below a limit; zero where there is none.
pub(super) fn below(limit: GaugePressure, step: Pressure) -> GaugePressure {
    let steps = (limit.above_atmosphere() / step + ON_IT).floor();
    (step * steps.max(0.0)).gauge().min(limit.max(GaugePressure::ZERO))
}

#[cfg(test)]
mod tests {
    use super::*;

    proptest::proptest! {
        #[test]
        fn a_target_is_inside(low in 0f64..9000.0, room in -100f64..900.0) {
            let p = GaugePressure::psi;
            let (low, high) = (p(low), p(low + room));
            match target(low, high, Pressure::psi(50.0)) {
                Some(t) => proptest::prop_assert!(t <= high && t.in_psi() >= low.in_psi() - 1e-4),
                None => proptest::prop_assert!(room < 0.0),
            }
            let b = below(low, Pressure::psi(50.0));
            proptest::prop_assert!(b <= low && low.in_psi() - b.in_psi() < 50.0 + 1e-6);
        }
    }

    #[test]
    fn steps_a_gauge_shows() {
        let p = GaugePressure::psi;
        let at = |low: f64, high: f64| target(p(low), p(high), Pressure::psi(50.0)).map(|t| t.in_psi());
        assert!((at(3512.0, 4975.0).unwrap() - 3550.0).abs() < 1e-6);
        assert!((at(3500.0, 4975.0).unwrap() - 3500.0).abs() < 1e-6);
        assert!((at(3512.0, 3530.0).unwrap() - 3520.0).abs() < 1e-6);
        assert!((at(3512.0, 3515.0).unwrap() - 3512.0).abs() < 1e-6);
        assert_eq!(at(3512.0, 3511.0), None);
    }
}
