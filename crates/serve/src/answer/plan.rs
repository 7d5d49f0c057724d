//! The plan, the workings of its figures, its checks and its printed documents.

use plan::balls::BallPlan;
use plan::casing_packer::CasingPackerPlan;
use plan::ladder::{LadderPlan, RungPlan};
use plan::layout::StagePlace;
use plan::setting::SettingPlan;
use plan::stages::StagesPlan;
use plan::{Header, Program};
use quantity::{System, Value};
use report::scene::Scene;
use schemars::JsonSchema;
use serde::Serialize;
use well::job::{LadderMethod, PinnedTool};
use well::record::Assumption;
use well::{Job, Severity};

use super::{FindingAnswer, INCOMPLETE, findings, planned};
use crate::ask::{self, Shown};
use crate::briefing;
use crate::desk::Desk;

/// The plan as the page shows it. Quantities are in SI, each with its unit; texts are in the units asked for.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct PlanAnswer {
    /// Whether there is a plan: without one, only findings.
    planned: bool,
    /// Whether any finding stops the job.
    stopped: bool,
    /// How many findings do.
    stops: usize,
    /// Units of texts.
    units: Shown,
    /// What the documents say of themselves.
    header: Option<Header>,
    /// What the checks say.
    findings: Vec<FindingAnswer>,
    /// What was taken because the job file gives no figure.
    assumptions: Vec<Assumption>,
    /// The well as it is drawn.
    scene: Option<Scene>,
    /// Where every packer and sleeve stands, stage 1 first.
    layout: Vec<StagePlace>,
    /// Balls and seats.
    ladder: Option<LadderPlan>,
    /// For every rung of the ladder, its row in the job file's `ladder.rung`, from 1; none where the ladder is
    /// not given there.
    ladder_rows: Vec<Option<usize>>,
    /// Pressure, rate ceiling and schedule of every stage, and totals.
    stages: Option<StagesPlan>,
    /// A card for every ball.
    balls: Option<BallPlan>,
    /// Setting the packers, and their swell.
    setting: Option<SettingPlan>,
    /// What the casing packer stands.
    casing_packer: Option<CasingPackerPlan>,
    /// Highest treating pressure that keeps the burst factor of the strings.
    highest_treating_pressure: Option<Value>,
    /// Pressure limits of the job file: treating and trip.
    limits: Option<Limits>,
    /// Whether the job describes its rock, so that fractures are followed in a run.
    fractures: bool,
    /// Tools fixed at a depth, in the order of the job file.
    pins: Vec<PinAnswer>,
    /// Every headline figure; each opens to its workings by its name.
    figures: Vec<FigureAnswer>,
}

/// Pressure limits of the surface lines.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Limits {
    /// Limit of treating.
    treating: Value,
    /// At which the pumps trip.
    trip: Value,
}

/// A tool that may be fixed.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(crate) enum Pinned {
    /// A packer.
    Packer,
    /// A sleeve.
    Sleeve,
}

/// A tool that the user has fixed at a depth.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct PinAnswer {
    /// Which tool.
    tool: Pinned,
    /// Stage, 1 at the toe.
    stage: usize,
    /// Measured depth of the tool's middle.
    depth: Value,
    /// How far the tool may stand from it.
    within: Value,
}

/// A headline figure.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct FigureAnswer {
    /// Its name.
    name: String,
    /// What it is.
    title: String,
    /// Its value, with its unit.
    value: String,
}

/// Where a figure comes from.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Worked {
    /// Its name.
    figure: String,
    /// Its workings: relation, source, inputs, range, result.
    text: String,
}

/// What a check is.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Explained {
    /// Its identity.
    id: &'static str,
    /// Its severity.
    severity: Severity,
    /// One line.
    title: &'static str,
    /// What is checked.
    checks: &'static str,
    /// Why it matters on the job.
    why: &'static str,
    /// What to do next.
    next: &'static str,
    /// An example.
    example: &'static str,
    /// Where to read more.
    references: &'static str,
}

/// The plan of a job.
pub(crate) fn plan(desk: &Desk, ask: ask::Edited) -> PlanAnswer {
    let done = planned(desk, ask.text);
    let system = Shown::system(ask.units, done.job.as_ref().map(|j| j.file.job.units));
    match (done.job, done.program) {
        (Some(job), Some(program)) => plan_of(&job, program, system),
        _ => unplanned(&done.findings, system),
    }
}

/// What is told of a job that cannot be planned.
fn unplanned(said: &[well::Finding], system: System) -> PlanAnswer {
    let stops = said.iter().filter(|f| f.severity == Severity::Stop).count();
    PlanAnswer {
        planned: false,
        stopped: stops > 0,
        stops,
        units: Shown::of(system),
        header: None,
        findings: findings(said, system),
        assumptions: Vec::new(),
        scene: None,
        layout: Vec::new(),
        ladder: None,
        ladder_rows: Vec::new(),
        stages: None,
        balls: None,
        setting: None,
        casing_packer: None,
        highest_treating_pressure: None,
        limits: None,
        fractures: false,
        pins: Vec::new(),
        figures: Vec::new(),
    }
}

/// A planned job as the page and the briefing show it.
pub(crate) fn plan_of(job: &Job, program: Program, system: System) -> PlanAnswer {
    let program = program.settled(system);
    let scene = Scene::of(job, &program);
    let figures = figures(&program, system);
    let ladder_rows = ladder_rows(job, &program);
    PlanAnswer {
        planned: true,
        header: Some(program.header),
        assumptions: program.assumptions,
        scene,
        layout: program.layout.map(|l| l.stages).unwrap_or_default(),
        ladder: program.ladder,
        ladder_rows,
        stages: program.stages,
        balls: program.balls,
        setting: program.setting,
        casing_packer: program.casing_packer,
        highest_treating_pressure: program.strings.map(|s| s.highest_treating_pressure.into()),
        limits: Some(limits(job)),
        fractures: job.file.rock.fracture.is_some(),
        pins: job.file.pin.iter().map(pin).collect(),
        figures,
        ..unplanned(&program.findings, system)
    }
}

fn limits(job: &Job) -> Limits {
    let limits = &job.file.limits;
    Limits { treating: limits.treating_pressure.into(), trip: limits.trip.into() }
}

fn ladder_rows(job: &Job, program: &Program) -> Vec<Option<usize>> {
    let given = if job.file.ladder.method == LadderMethod::Given { &job.file.ladder.rung[..] } else { &[] };
    let row = |r: &RungPlan| given.iter().position(|g| g.ball == r.ball && g.seat == r.seat).map(|i| i + 1);
    program.ladder.as_ref().map_or_else(Vec::new, |l| l.rungs.iter().map(row).collect())
}

fn pin(pin: &well::job::Pin) -> PinAnswer {
    let tool = match pin.tool {
        PinnedTool::Packer => Pinned::Packer,
        PinnedTool::Sleeve => Pinned::Sleeve,
    };
    PinAnswer { tool, stage: pin.stage, depth: pin.depth.into(), within: pin.within.into() }
}

fn figures(program: &Program, system: System) -> Vec<FigureAnswer> {
    let one = |(name, w): (&String, &plan::Working)| FigureAnswer {
        name: name.clone(),
        title: w.title.clone(),
        value: w.value.text(system),
    };
    program.workings.iter().map(one).collect()
}

/// The workings of a figure, as text; none where the plan has no such figure.
pub(crate) fn working(desk: &Desk, ask: ask::Figure) -> Option<Worked> {
    let done = planned(desk, ask.text);
    let system = Shown::system(ask.units, done.job.as_ref().map(|j| j.file.job.units));
    let text = desk.printer.working(done.program.as_ref()?, &ask.figure, system)?;
    Some(Worked { figure: ask.figure, text })
}

/// What a check is; none where there is no such check.
pub(crate) fn explain(id: &str) -> Option<Explained> {
    let check = pump::checks::all().find(|c| c.id == id)?;
    Some(Explained {
        id: check.id,
        severity: check.severity,
        title: check.title,
        checks: check.checks,
        why: check.why,
        next: check.next,
        example: check.example,
        references: check.references,
    })
}

/// A printed document of the job as it is saved; none where the plan has no such document.
pub(crate) fn document(desk: &Desk, name: &str) -> Result<Option<Vec<u8>>, String> {
    let done = planned(desk, None);
    let (Some(job), Some(program)) = (&done.job, &done.program) else {
        return Err(INCOMPLETE.into());
    };
    if name == briefing::NAME {
        return briefing::briefing(job, program).map(Some).map_err(|e| e.to_string());
    }
    let all = desk.printer.documents(job, program)?;
    Ok(all.into_iter().find(|d| d.0 == name).map(|d| d.1))
}
