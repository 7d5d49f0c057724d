//! Period of a ring in evenly spaced samples, by correlation with themselves.

use super::records::Stage;

/// Periods that are tried, s.
const PERIODS: (f64, f64) = (5.0, 14.0);
/// A ring is one when the samples resemble those of a period later by at least this much: five
/// times what noise of fifty samples does.
const RESEMBLES: f64 = 0.7;
/// Pumps that stand, bbl/min.
const STANDING: f64 = 0.1;
/// A change in one second by which a valve is known, psi.
const VALVE: f64 = 60.0;
/// Seconds of ring that are used at most, and that are wanted at least.
const LONGEST: usize = 60;
const SHORTEST: usize = 24;

/// What a record has of a ring.
#[derive(Debug, Clone)]
pub enum Ring {
    /// The pumps never stood.
    Pumping,
    /// They stood for so many seconds: too short.
    Short(usize),
    /// The pressure does not repeat itself: best likeness.
    Silent(f64),
    /// It does.
    Heard(Heard),
}

/// A ring: period (s), likeness, mean pressure (psi), and the samples (psi).
#[derive(Debug, Clone)]
pub struct Heard {
    pub period: f64,
    pub likeness: f64,
    pub mean: f64,
    pub samples: Vec<f64>,
}

/// How much samples resemble those of a lag later, -1 to 1, at whole lags: the correlation of the two
/// stretches, so that a ring that dies resembles itself in full.
pub fn likenesses(samples: &[f64]) -> Vec<f64> {
    let about = |part: &[f64]| -> Vec<f64> {
        let mean = part.iter().sum::<f64>() / part.len() as f64;
        part.iter().map(|p| p - mean).collect()
    };
    let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
    let at = |lag: usize| {
        let (a, b) = (about(&samples[..samples.len() - lag]), about(&samples[lag..]));
        dot(&a, &b) / (dot(&a, &a) * dot(&b, &b)).sqrt()
    };
    (0..samples.len().saturating_sub(8)).map(at).collect()
}

/// Value and place of the top of the parabola through a whole lag and its neighbours.
fn top(of: &[f64], lag: usize) -> Option<(f64, f64)> {
    let (a, b, c) = (*of.get(lag.checked_sub(1)?)?, *of.get(lag)?, *of.get(lag + 1)?);
    if b < a || b < c || a - 2.0 * b + c >= 0.0 {
        return None;
    }
    let shift = 0.5 * (a - c) / (a - 2.0 * b + c);
    Some((lag as f64 + shift, b - 0.25 * (a - c) * shift))
}

/// Period (s) and likeness of samples of every `step` seconds: the highest top among the periods, made
/// sharper by the tops at two and at three times its lag, each weighted with its lag and height.
pub fn period(samples: &[f64], step: f64) -> (f64, f64) {
    let of = likenesses(samples);
    let lags = (PERIODS.0 / step) as usize..=(PERIODS.1 / step) as usize;
    let best = lags.filter_map(|lag| top(&of, lag)).max_by(|a, b| a.1.total_cmp(&b.1));
    let Some((first, likeness)) = best else { return (0.0, 0.0) };
    let (mut lags, mut counts, mut guess) = (likeness * first, likeness, first);
    for times in [2.0, 3.0] {
        let near = (times * guess).round() as usize;
        let tops = (near - 1..=near + 1).filter_map(|lag| top(&of, lag));
        let Some((lag, height)) = tops.max_by(|a, b| a.1.total_cmp(&b.1)) else { break };
        if height <= 0.0 {
            break;
        }
        // least squares of lag = times x period
        lags += height * lag * times;
        counts += height * times * times;
        guess = lags / counts;
    }
    (guess * step, likeness)
}

/// The longest stretch with standing pumps, after the last valve was moved in it.
fn standing(stage: &Stage) -> Vec<f64> {
    let stretches = stage.rows.split(|r| r.rate >= STANDING);
    let longest = stretches.max_by_key(|s| s.len()).unwrap_or_default();
    let moved = longest.windows(2).rposition(|w| (w[1].pressure - w[0].pressure).abs() > VALVE);
    let start = moved.map_or(0, |at| at + 1);
    longest[start..].iter().map(|r| r.pressure).take(LONGEST).collect()
}

/// What the record of a stage has of a ring.
pub fn listen(stage: &Stage) -> Ring {
    let samples = standing(stage);
    if samples.is_empty() {
        return Ring::Pumping;
    }
    if samples.len() < SHORTEST {
        return Ring::Short(samples.len());
    }
    let (period, likeness) = period(&samples, 1.0);
    if likeness < RESEMBLES {
        return Ring::Silent(likeness);
    }
    let mean = samples.iter().sum::<f64>() / samples.len() as f64;
    Ring::Heard(Heard { period, likeness, mean, samples })
}
