//! The well as a page draws it: path, hole, pipe, tools, balls and seats, all in metres, from the
//! engine's own figures.

use plan::Program;
use pump::route::Route;
use quantity::{Length, MeasuredDepth, Quantity};
use serde::Serialize;
use well::Job;
use well::job::StringRole;

/// Longest step between two points of the path, m.
const STEP: f64 = 10.0;
/// Length of hole that is drawn as one reading, m.
const BIN: f64 = 0.5;

/// Everything that stands still in the picture of a well. Lengths and depths are in metres.
#[derive(Debug, Clone, PartialEq, Serialize, schemars::JsonSchema)]
pub struct Scene {
    /// Name of the well.
    pub well: String,
    /// Whether the data are invented.
    pub invented: bool,
    /// Measured depth, vertical depth, way along the horizontal, and volume in the string from the
    /// flow meter (m³), from the surface down.
    pub path: Vec<[f64; 4]>,
    /// Hole: measured depth, smallest and largest diameter over the reading.
    pub hole: Vec<[f64; 3]>,
    /// Strings of pipe.
    pub pipes: Vec<Pipe>,
    /// Stages, stage 1 first.
    pub stages: Vec<StageScene>,
    /// The casing packer: its top, its bottom and its outer diameter.
    pub casing_packer: [f64; 3],
    /// Lower end of the string.
    pub toe: f64,
}

/// A string of pipe.
#[derive(Debug, Clone, PartialEq, Serialize, schemars::JsonSchema)]
pub struct Pipe {
    /// Name.
    pub name: String,
    /// What it is for.
    pub role: StringRole,
    /// Upper end.
    pub top: f64,
    /// Lower end.
    pub bottom: f64,
    /// Outer diameter.
    pub outer: f64,
    /// Bore.
    pub bore: f64,
}

/// A stage with its tools, its seat and its ball.
#[derive(Debug, Clone, PartialEq, Serialize, schemars::JsonSchema)]
pub struct StageScene {
    /// Number, 1 at the toe.
    pub stage: usize,
    /// Upper and lower end of the packer at its heel side, then of its element.
    pub packer: [f64; 4],
    /// Outer diameter of the element as run.
    pub element: f64,
    /// Diameter it would have, free, when the first ball is planned: at P50 of its swelling, or none where
    /// pressure sets it against the hole.
    pub set: Option<f64>,
    /// Smallest, middle and largest hole over the element.
    pub packer_hole: [f64; 3],
    /// Upper end, ports and lower end of the sleeve.
    pub sleeve: [f64; 3],
    /// Outer diameter of the sleeve.
    pub sleeve_outer: f64,
    /// Bore of the sleeve above its seat.
    pub sleeve_bore: f64,
    /// Bore of the seat; none where pressure opens the sleeve.
    pub seat: Option<f64>,
    /// Length of the bore of the seat.
    pub seat_length: f64,
    /// Half angle of its cone from the axis, rad.
    pub cone: f64,
    /// Diameter of the ball.
    pub ball: Option<f64>,
    /// Least clearance of the ball in the seats above, on the diameter.
    pub clearance: Option<f64>,
}

impl Scene {
    /// The scene of a planned job; none where it has no layout.
    pub fn of(job: &Job, program: &Program) -> Option<Self> {
        let layout = program.layout.as_ref()?;
        // The simulator's own way: what stands where is told by its volumes.
        let route = program.ladder.as_ref().and_then(|l| Route::of(job, layout, l).ok());
        let casing = job.strings.iter().find(|s| s.table.role == StringRole::Casing);
        let packer = casing.map_or(0.0, |s| s.bore().si());
        Some(Self {
            well: program.header.well.clone(),
            invented: program.header.invented,
            path: path(job, layout.toe_tool, route.as_ref()),
            hole: hole(job, layout.toe_tool),
            pipes: job.strings.iter().map(pipe).collect(),
            stages: stages(job, program)?,
            casing_packer: [
                layout.casing_packer_top.si(),
                (layout.casing_packer_top + job.file.casing_packer.length).si(),
                packer,
            ],
            toe: layout.toe_tool.si(),
        })
    }
}

fn path(job: &Job, end: MeasuredDepth, route: Option<&Route>) -> Vec<[f64; 4]> {
    let count = (end.si() / STEP).ceil().max(1.0) as usize;
    let mut reach = 0.0;
    let mut last = 0.0;
    let mut out = Vec::with_capacity(count + 1);
    for i in 0..=count {
        let md = (end.si() * i as f64 / count as f64).min(end.si());
        let middle = MeasuredDepth::m(0.5 * (md + last));
        reach += (md - last) * job.trajectory.inclination_at(middle).si().sin();
        last = md;
        let depth = MeasuredDepth::m(md);
        let volume = route.map_or(0.0, |r| r.to_depth(depth).si());
        out.push([md, job.trajectory.tvd_at(depth).si(), reach, volume]);
    }
    out
}

fn hole(job: &Job, end: MeasuredDepth) -> Vec<[f64; 3]> {
    let mut out = Vec::new();
    for section in job.hole.sections() {
        let (top, bottom) = (section.top.si(), section.bottom.min(end + Length::m(20.0)).si());
        if !section.kind.is_open() {
            let d = section.kind.nominal().si();
            out.extend([[top, d, d], [bottom, d, d]]);
            continue;
        }
        let count = ((bottom - top) / BIN).ceil().max(1.0) as usize;
        for i in 0..count {
            let (a, b) = (top + BIN * i as f64, (top + BIN * (i + 1) as f64).min(bottom));
            let ends = (MeasuredDepth::m(a), MeasuredDepth::m(b));
            if let (Ok(least), Ok(most)) =
                (job.hole.smallest(ends.0, ends.1), job.hole.largest(ends.0, ends.1))
            {
                out.push([0.5 * (a + b), least.si(), most.si()]);
            }
        }
    }
    out
}

fn pipe(string: &well::PipeString) -> Pipe {
    Pipe {
        name: string.table.name.clone(),
        role: string.table.role,
        top: string.table.top.si(),
        bottom: string.table.bottom.si(),
        outer: string.pipe.outer().si(),
        bore: string.bore().si(),
    }
}

fn stages(job: &Job, program: &Program) -> Option<Vec<StageScene>> {
    let layout = program.layout.as_ref()?;
    let ladder = program.ladder.as_ref();
    let swell = program.setting.as_ref().and_then(|p| p.swell.as_ref());
    let one = |s: &plan::layout::StagePlace| {
        let rung = ladder.and_then(|l| l.rung(s.stage));
        let ball = rung.map(|r| r.ball);
        let above = layout.stages.iter().filter(|o| o.stage > s.stage);
        let least = above.filter_map(|o| ladder?.seat(o.stage)).map(|d| d.si()).reduce(f64::min);
        StageScene {
            stage: s.stage,
            packer: [s.packer.top, s.packer.bottom, s.packer.element_top, s.packer.element_bottom]
                .map(|d| d.si()),
            element: job.file.packer.od.si(),
            set: swell
                .and_then(|w| w.packers.iter().find(|p| p.stage == s.stage))
                .map(|p| p.diameter_at_wait.p50.si()),
            packer_hole: [s.packer.hole.least, s.packer.hole.p50, s.packer.hole.worst].map(|d| d.si()),
            sleeve: [s.sleeve.top, s.sleeve.ports, s.sleeve.bottom].map(|d| d.si()),
            sleeve_outer: job.file.sleeve.od.si(),
            sleeve_bore: job.file.sleeve.id.si(),
            seat: rung.map(|r| r.seat.si()),
            seat_length: job.file.sleeve.seat_length.si(),
            cone: job.file.sleeve.seat_angle.si(),
            ball: ball.map(|b| b.si()),
            clearance: ball.zip(least).map(|(b, least)| least - b.si()),
        }
    };
    Some(layout.stages.iter().map(one).collect())
}
