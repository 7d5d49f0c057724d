//! The checks of a survey: what `explain ID` prints.

mod angle;
mod depth;
mod reading;
mod reported;
mod trend;

pub use angle::*;
pub use depth::*;
pub use reading::*;
pub use reported::*;
pub use trend::*;

use crate::finding::Check;

/// Every check of a survey.
pub static CHECKS: &[&Check] = &[
    &LINE_TOO_LONG,
    &XML,
    &XML_ENTITY,
    &UNIT,
    &SEVERAL,
    &PLANNED,
    &ROW_INCOMPLETE,
    &TOO_FEW,
    &DEPTH_RANGE,
    &DEPTH_ORDER,
    &DEPTH_REPEATED,
    &TIE_IN,
    &PROJECTED,
    &COURSE_LENGTH,
    &INCLINATION_RANGE,
    &AZIMUTH_RANGE,
    &AZIMUTH_VERTICAL,
    &AZIMUTH_JUMP,
    &ANGLE_UNIT,
    &NORTH,
    &OFF_TREND,
    &REVERSAL,
    &REPORTED_POSITION,
    &REPORTED_SEVERITY,
    &LENGTH_UNIT,
];

#[cfg(test)]
mod tests {
    use super::CHECKS;
    use std::collections::BTreeSet;

    #[test]
    fn every_check_is_named_once_and_explained() {
        let ids: BTreeSet<_> = CHECKS.iter().map(|c| c.id).collect();
        assert_eq!(ids.len(), CHECKS.len());
        for c in CHECKS {
            assert!(c.id.starts_with("survey-"), "{}", c.id);
            let parts = [c.title, c.checks, c.why, c.next, c.example, c.references];
            assert!(parts.iter().all(|p| !p.is_empty()), "{}", c.id);
            assert!(!c.title.ends_with('.'), "{}", c.id);
        }
    }
}
