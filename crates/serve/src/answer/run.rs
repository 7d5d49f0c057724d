//! A run of the job, and what may go wrong in it.

use pump::fault::{FAULTS, Fault};
use pump::record::CHANNELS;
use pump::sensors::Noise;
use pump::{Run, Settings};
use quantity::{Quantity, Ratio, Time, Value};
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::json;

use super::{INCOMPLETE, planned};
use crate::ask::RunOf;
use crate::desk::Desk;
use crate::samples;

/// Most faults of one request.
const MOST_FAULTS: usize = 20;

/// A fault that a run may have.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct FaultAnswer {
    /// Name, as a run is asked for it.
    name: &'static str,
    /// What it is.
    title: &'static str,
    /// When it begins; where it waits, after the time it waits.
    begins: &'static str,
    /// What it usually waits, where it waits.
    after: Option<Value>,
    /// The time in which it usually grows, or for which it lasts, where it takes time.
    over: Option<Value>,
    /// What its size means, where it has one.
    size: Option<&'static str>,
    /// Its usual size.
    usual: Option<Value>,
    /// Stages on from its own whose balls it takes.
    balls: Vec<usize>,
    /// Whether it only happens where the job describes its rock (`rock.fracture`).
    needs_rock: bool,
    /// What is to be seen.
    shows: &'static str,
    /// How it is told from what looks like it.
    telling: &'static str,
    /// What crews do.
    response: &'static str,
}

/// All faults that a run may have.
pub(crate) fn faults() -> Vec<FaultAnswer> {
    let time = |seconds: f64| Value::of(Time::seconds(seconds));
    let one = |d: &pump::fault::FaultDoc| {
        let sized = !d.size.0.is_empty();
        FaultAnswer {
            name: d.name,
            title: d.title,
            begins: d.begins.words(),
            after: d.begins.waits().then(|| time(d.after)),
            over: (d.over > 0.0).then(|| time(d.over)),
            size: sized.then_some(d.size.0),
            usual: sized.then(|| Ratio::of(d.size.1).into()),
            balls: Fault::usual(d.kind, 0).balls(),
            needs_rock: d.kind.needs_rock(),
            shows: d.signature,
            telling: d.telling,
            response: d.response,
        }
    };
    FAULTS.iter().map(one).collect()
}

/// A run as bytes: the length of its description (4 bytes, little-endian), the description as JSON
/// filled with spaces to a multiple of eight, the times as 64-bit numbers, then every other channel as
/// 32-bit numbers in the order the description names them, all little-endian and in SI units.
pub(crate) fn run(desk: &Desk, ask: RunOf) -> Result<Vec<u8>, String> {
    if ask.faults.len() > MOST_FAULTS {
        return Err(format!("{} faults were asked for; {MOST_FAULTS} are the most", ask.faults.len()));
    }
    let faults: Vec<Fault> =
        ask.faults.iter().map(|t| Fault::parse(t)).collect::<Result<_, _>>().map_err(|e| e.to_string())?;
    let done = planned(desk, ask.text);
    let (Some(job), Some(program)) = (&done.job, &done.program) else {
        return Err(INCOMPLETE.into());
    };
    let usual = Settings::default();
    let settings = Settings {
        faults,
        noise: ask.noise.then(Noise::default),
        seed: ask.seed.unwrap_or(usual.seed),
        ..usual
    };
    let settings = samples::spaced(settings, ask.sample, ask.fine, program)?;
    let run = pump::pump(job, program, &settings).map_err(|e| e.to_string())?;
    Ok(packed(&samples::bounded(run)?))
}

/// A channel's name with what its numbers are.
#[derive(Serialize)]
struct ChannelHead {
    name: &'static str,
    title: &'static str,
    kind: &'static str,
}

/// The bytes of a run.
pub(crate) fn packed(run: &Run) -> Vec<u8> {
    let none = pump::record::Sample::default();
    let heads: Vec<ChannelHead> = CHANNELS
        .iter()
        .map(|c| ChannelHead { name: c.name, title: c.title, kind: (c.value)(&none).kind().name })
        .collect();
    let about = json!({ "run": run, "samples": run.samples.len(), "channels": heads });
    let mut text = about.to_string();
    while !(4 + text.len()).is_multiple_of(8) {
        text.push(' ');
    }
    let mut out = Vec::with_capacity(4 + text.len() + run.samples.len() * (8 + 4 * CHANNELS.len()));
    out.extend((text.len() as u32).to_le_bytes());
    out.extend(text.as_bytes());
    for s in &run.samples {
        out.extend(s.time.si().to_le_bytes());
    }
    for channel in CHANNELS.iter().filter(|c| c.name != "time") {
        for s in &run.samples {
            out.extend(((channel.value)(s).si() as f32).to_le_bytes());
        }
    }
    out
}
