//! What the ladder takes beyond the job file.

use well::Job;
use well::job::{LadderMethod, SystemKind};

use super::hold::WEAR_EXPONENT;
use super::loss;

/// In words, for the reader of the ladder.
pub(super) fn assumptions(job: &Job) -> Vec<String> {
    let mut out: Vec<String> = vec![
        "The strength of a ball is taken at the temperature of the undisturbed rock at its sleeve; pumping cools \
         it, and the rating at the temperature of the pumped fluid is shown beside it."
            .into(),
        "A ball is expected to hold the treating pressure inside its sleeve (fracture gradient, near-wellbore and \
         port friction at the rate wanted) against the pore pressure at the stage below, as if that stage had bled \
         down to it; below stage 1 the lower of pore pressure and a column of the lightest fluid."
            .into(),
        "The worst static case is the surface at its treating limit over a column of the heaviest slurry.".into(),
        "Computed ratings take the smallest ball on the largest seat; tested ratings are taken for parts within \
         tolerance and lessened for wear and dissolving in the ratio of the projected bearing stress."
            .into(),
        format!("A seat is counted as {} in the sleeve's own bore, with clean fluid.", loss::words(job)),
    ];
    if matches!(job.file.ladder.method, LadderMethod::Search | LadderMethod::EqualStress) {
        out.push(
            "Seats chosen by the program are drawn to a thousandth of an inch, and leave the least clearance at the \
             worst of the tolerances."
                .into(),
        );
    }
    out.push(match job.file.ladder.erosion {
        Some(_) => format!(
            "Seats wear by the law of the job file with the velocity exponent of steel, {WEAR_EXPONENT}, at the \
             rates wanted."
        ),
        None => "Seats keep their bore: the job file has no calibration of their wear.".into(),
    });
    if job.file.system.kind == SystemKind::HydraulicSet {
        out.push(
            "The setting ball is taken to pass the pressure-opened sleeve, whose bore the job file does not give, and \
             to be of the material of the other balls."
                .into(),
        );
    }
    if job.file.ball.dissolving.is_some() {
        out.push(
            "Balls dissolve from launch on at the temperature of the rock at their sleeve, evenly, as if fresh fluid \
             reached all of them: an upper bound of the loss."
                .into(),
        );
    }
    out
}
