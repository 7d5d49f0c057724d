//! What the page asks and what it is told: figures of the engine, none made here.

use plan::Program;
use pump::fault::{FAULTS, Fault};
use pump::record::CHANNELS;
use pump::sensors::Noise;
use pump::{Run, Settings};
use quantity::{Quantity, System};
use report::scene::Scene;
use report::terminal::faults::{begins, size};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use well::{Job, Severity, read_folder};

use crate::briefing;
use crate::desk::Desk;
use crate::samples;

/// A request that carries the job file as it is being edited; the one on disk without it.
#[derive(Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Edited {
    pub text: Option<String>,
}

/// A request to open a figure.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Figure {
    pub text: Option<String>,
    pub figure: String,
}

/// A request to save.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Save {
    pub text: String,
    pub base: String,
}

/// A request to run the job.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RunOf {
    pub text: Option<String>,
    #[serde(default)]
    pub faults: Vec<String>,
    #[serde(default)]
    pub noise: bool,
    pub seed: Option<u64>,
    /// Time between samples, s.
    pub sample: Option<f64>,
    /// The same round events, s.
    pub fine: Option<f64>,
}

/// Most faults of one request.
const MOST_FAULTS: usize = 20;

/// A job read and planned, with what was said of it.
struct Planned {
    job: Option<Job>,
    program: Option<Program>,
    findings: Vec<well::Finding>,
}

fn planned(desk: &Desk, text: Option<String>) -> Planned {
    let reading = read_folder(&desk.with(text));
    let Some(job) = reading.job else {
        return Planned { job: None, program: None, findings: reading.findings };
    };
    let program = plan::plan(&job, reading.findings);
    let findings = program.findings.clone();
    Planned { job: Some(job), program: Some(program), findings }
}

/// Findings with the input alone: what typing is answered with.
pub(crate) fn check(desk: &Desk, edited: Edited) -> Value {
    let reading = read_folder(&desk.with(edited.text));
    let system = reading.job.as_ref().map_or(System::Field, |j| j.file.job.units.system());
    json!({ "complete": reading.job.is_some(), "findings": findings(&reading.findings, system) })
}

fn findings(list: &[well::Finding], system: System) -> Vec<Value> {
    let one = |f: &well::Finding| {
        json!({
            "id": f.id,
            "severity": f.severity.word(),
            "message": f.message,
            "next": f.next,
            "place": f.place,
            "value": f.value.map(|v| v.text(system)),
            "limit": f.limit.map(|v| v.text(system)),
        })
    };
    list.iter().map(one).collect()
}

/// The plan as the page shows it.
pub(crate) fn plan(desk: &Desk, edited: Edited) -> Result<Value, String> {
    let done = planned(desk, edited.text);
    let (Some(job), Some(program)) = (&done.job, &done.program) else {
        return Ok(json!({ "planned": false, "findings": findings(&done.findings, System::Field) }));
    };
    Ok(plan_of(job, program, &done.findings))
}

/// A planned job as the page and the briefing show it.
pub(crate) fn plan_of(job: &Job, program: &Program, said: &[well::Finding]) -> Value {
    let system = job.file.job.units.system();
    let figures: Vec<Value> = program
        .workings
        .iter()
        .map(|(name, w)| json!({ "name": name, "title": w.title, "value": w.value.text(system) }))
        .collect();
    json!({
        "planned": true,
        "stopped": program.stopped(),
        "units": if system == System::Metric { "metric" } else { "field" },
        "header": program.header,
        "findings": findings(said, system),
        "assumptions": program.assumptions,
        "scene": Scene::of(job, program),
        "stages": program.stages.as_ref().map(|s| &s.stages),
        "balls": program.balls.as_ref().map(|b| &b.cards),
        "setting": program.setting,
        "figures": figures,
        "stops": said.iter().filter(|f| f.severity == Severity::Stop).count(),
    })
}

/// The workings of a figure, as text.
pub(crate) fn working(desk: &Desk, ask: Figure) -> Option<Value> {
    let done = planned(desk, ask.text);
    let system = done.job.as_ref().map_or(System::Field, |j| j.file.job.units.system());
    let text = desk.printer.working(done.program.as_ref()?, &ask.figure, system)?;
    Some(json!({ "figure": ask.figure, "text": text }))
}

/// The printed documents of the job as it is saved.
pub(crate) fn document(desk: &Desk, name: &str) -> Result<Option<Vec<u8>>, String> {
    let done = planned(desk, None);
    let (Some(job), Some(program)) = (&done.job, &done.program) else {
        return Err("the job is not complete; see its findings".into());
    };
    if name == briefing::NAME {
        return briefing::briefing(job, program).map(Some).map_err(|e| e.to_string());
    }
    let all = desk.printer.documents(job, program)?;
    Ok(all.into_iter().find(|d| d.0 == name).map(|d| d.1))
}

/// All faults that a run may have.
pub(crate) fn faults() -> Value {
    let one = |d: &pump::fault::FaultDoc| {
        json!({
            "name": d.name,
            "title": d.title,
            "begins": begins(d, System::Field),
            "size": size(d),
            "shows": d.signature,
            "telling": d.telling,
            "response": d.response,
        })
    };
    json!(FAULTS.iter().map(one).collect::<Vec<_>>())
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
        return Err("the job is not complete; see its findings".into());
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
