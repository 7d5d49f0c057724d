//! How finely a run is asked for, and how much of it the page takes.

use plan::Program;
use pump::{Run, Settings};
use quantity::{Quantity as _, Time};

/// Most samples of a run that the page is given.
const MOST_SAMPLES: usize = 400_000;

/// What to do about too many.
const NEXT: &str = "ask for samples further apart";

/// Puts the times between samples, s, into the settings of a run; the usual ones where none are asked for.
///
/// # Errors
/// Where the planned job alone would give more samples than the page takes. Times out of their range are
/// refused by the simulator.
pub(crate) fn spaced(
    usual: Settings,
    sample: Option<f64>,
    fine: Option<f64>,
    program: &Program,
) -> Result<Settings, String> {
    let step = sample.map_or(usual.sample, Time::seconds);
    let planned = program.balls.as_ref().map_or(0.0, |b| b.job_time.si());
    let count = planned / step.si();
    if step.si() > 0.0 && count > MOST_SAMPLES as f64 {
        return Err(too_many(count));
    }
    Ok(Settings { sample: step, fine: fine.map(Time::seconds).or(usual.fine), ..usual })
}

/// The run, if the page takes so much.
pub(crate) fn bounded(run: Run) -> Result<Run, String> {
    match run.samples.len() {
        n if n > MOST_SAMPLES => Err(too_many(n as f64)),
        _ => Ok(run),
    }
}

fn too_many(count: f64) -> String {
    format!(
        "the run would have {count:.0} samples, and {MOST_SAMPLES} are the most that a page is given; {NEXT}"
    )
}
