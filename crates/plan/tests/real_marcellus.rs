//! The plan on real hole: the path of one horizontal well with the caliper of another near its
//! toe, hardware made up. Every claim is held against loops over the raw rows of the two files.

#![allow(clippy::unwrap_used, clippy::panic)] // a test fails by panicking

mod support;

use plan::Program;
use plan::layout::{ItemKind, Layout, PackerPlace};
use quantity::*;
use std::collections::{BTreeMap, BTreeSet};
use support::picture;
use support::real_data::{RawHole, raw_hole};
use support::real_hole::{BIT, CASING_SHOE, DEPTH_SIGMA, FOOT, LARGEST_HOLE, SHARPEST, TOTAL_DEPTH};
use well::{Finding, Job, Severity};

/// Heel of the part the log covers with its margin, and of the whole lateral, ft.
const LOGGED: f64 = 11_140.0;
const WHOLE: f64 = 9_150.0;
/// How many deviations of depth the hole must hold over.
const SIGMAS: f64 = 2.0;

/// Readings and reported bends at the depths of the tally, ft, in, deg/100 ft.
struct Truth {
    readings: Vec<(f64, f64)>,
    courses: Vec<(f64, f64, f64)>,
    vertical: Vec<(f64, f64)>,
}

impl Truth {
    fn of(raw: &RawHole) -> Self {
        let at = |depth: f64| (depth + raw.shift()) / FOOT;
        let readings = raw.readings.iter().filter_map(|r| Some((at(r.depth), r.size?))).collect();
        let courses =
            raw.stations.windows(2).filter_map(|w| Some((w[0].md, w[1].md, w[1].severity?))).collect();
        Self { readings, courses, vertical: raw.stations.iter().map(|s| (s.md, s.tvd)).collect() }
    }

    fn sizes(&self, top: f64, bottom: f64) -> Vec<f64> {
        let inside = self.readings.iter().filter(|(depth, _)| (top..=bottom).contains(depth));
        let mut sizes: Vec<f64> = inside.map(|(_, size)| *size).collect();
        sizes.sort_by(f64::total_cmp);
        sizes
    }

    fn worst(&self, top: f64, bottom: f64) -> f64 {
        self.sizes(top, bottom).last().copied().unwrap_or(BIT)
    }

    /// The sharpest course a tool reaches into, as the survey reports it.
    fn sharpest(&self, top: f64, bottom: f64) -> f64 {
        let touched = self.courses.iter().filter(|(a, b, _)| *a < bottom && *b > top);
        touched.map(|(_, _, severity)| *severity).fold(0.0, f64::max)
    }

    fn tvd(&self, depth: f64) -> f64 {
        let next = self.vertical.iter().position(|(md, _)| *md >= depth).unwrap();
        let ((a, u), (b, v)) = (self.vertical[next - 1], self.vertical[next]);
        u + (v - u) * (depth - a) / (b - a)
    }

    /// Length with readings over a stretch: those closer than a foot are joined.
    fn logged(&self, top: f64, bottom: f64) -> f64 {
        let joined = self.readings.windows(2).filter(|w| w[1].0 - w[0].0 < 1.0);
        joined.map(|w| (w[1].0.min(bottom) - w[0].0.max(top)).max(0.0)).sum()
    }
}

fn planned(raw: &RawHole, heel: f64, stages: usize) -> (Job, Program) {
    let (job, found) = raw.job_folder(heel, stages).job();
    let program = plan::plan(&job, found);
    (job, program)
}

fn layout(program: &Program) -> &Layout {
    program.layout.as_ref().unwrap_or_else(|| panic!("no layout: {:#?}", program.findings))
}

fn said<'p>(program: &'p Program, id: &str) -> Vec<&'p Finding> {
    program.findings.iter().filter(|f| f.id == id).collect()
}

fn stages_of(program: &Program, id: &str) -> BTreeSet<usize> {
    said(program, id).iter().filter_map(|f| f.place.stage).collect()
}

/// The element of a packer, widened by the depth uncertainty, ft.
fn widened(packer: &PackerPlace) -> (f64, f64) {
    let widen = SIGMAS * DEPTH_SIGMA * packer.bottom.in_ft() / TOTAL_DEPTH;
    (packer.element_top.in_ft() - widen, packer.element_bottom.in_ft() + widen)
}

/// A step of the log, ft: the wall between two readings is a straight line.
const STEP: f64 = 0.17 / FOOT;

#[test]
fn real_packers_stand_in_the_hole_the_log_shows() {
    let Some(raw) = raw_hole() else { return };
    let truth = Truth::of(&raw);
    let (_, program) = planned(&raw, LOGGED, 12);
    assert_eq!(layout(&program).stages.len(), 12);
    for stage in &layout(&program).stages {
        let packer = &stage.packer;
        let (top, bottom) = widened(packer);
        let worst = packer.hole.worst.in_inch();
        assert!(truth.worst(top, bottom) <= worst + 1e-9, "packer {}", stage.stage);
        assert!(worst <= truth.worst(top - STEP, bottom + STEP) + 1e-9, "packer {}", stage.stage);
        let least = packer.hole.least.in_inch();
        assert!(least <= truth.sizes(top, bottom)[0] + 1e-9, "packer {}", stage.stage);
        assert!(least >= truth.sizes(top - STEP, bottom + STEP)[0] - 1e-9, "packer {}", stage.stage);
        let over = truth.sizes(packer.element_top.in_ft(), packer.element_bottom.in_ft());
        let share = |s: f64| over[(s * (over.len() - 1) as f64) as usize];
        let middle = packer.hole.p50.in_inch();
        assert!((share(0.4)..=share(0.6)).contains(&middle), "packer {}: {middle}", stage.stage);
    }
}

#[test]
fn real_packers_keep_every_limit() {
    let Some(raw) = raw_hole() else { return };
    let truth = Truth::of(&raw);
    let (job, program) = planned(&raw, LOGGED, 12);
    let target = (TOTAL_DEPTH - LOGGED) / 12.0;
    let mut below = TOTAL_DEPTH;
    for stage in &layout(&program).stages {
        let packer = &stage.packer;
        let (top, bottom) = widened(packer);
        assert!(truth.worst(top, bottom) <= LARGEST_HOLE, "packer {} in a washout", stage.stage);
        let reported = truth.sharpest(packer.top.in_ft(), packer.bottom.in_ft());
        assert!(reported <= SHARPEST, "packer {} in a bend of {reported}", stage.stage);
        assert!((packer.dogleg.in_deg_per_100ft() - reported).abs() < 0.006, "packer {}", stage.stage);
        assert!((packer.tvd.in_ft() - truth.tvd(packer.element_top.in_ft() + 7.5)).abs() < 1.0);
        assert!(packer.element_top.in_ft() >= LOGGED && packer.rating.unwrap() >= packer.needed);
        let length = below - packer.element_bottom.in_ft();
        assert!((0.4 * target..=1.8 * target).contains(&length), "stage {}: {length} ft", stage.stage);
        assert!((stage.length.in_ft() - length).abs() < 1e-6);
        let ports = stage.sleeve.ports.in_ft();
        assert!(packer.bottom.in_ft() < ports && ports < below, "sleeve {}", stage.stage);
        let bend = truth.sharpest(stage.sleeve.top.in_ft(), stage.sleeve.bottom.in_ft());
        assert!(bend <= job.file.sleeve.max_dogleg.in_deg_per_100ft(), "sleeve {}", stage.stage);
        below = packer.element_top.in_ft();
    }
    // The limits bite: there are bends and holes in the interval where no packer may stand.
    assert!(truth.courses.iter().filter(|(a, _, s)| *a > LOGGED && *s > SHARPEST).count() >= 3);
    assert!(truth.worst(LOGGED, TOTAL_DEPTH) > LARGEST_HOLE);
}

#[test]
fn real_packers_stand_in_better_hole_than_chance_would_find() {
    let Some(raw) = raw_hole() else { return };
    let truth = Truth::of(&raw);
    let (_, program) = planned(&raw, LOGGED, 12);
    // Every place of the interval, foot by foot, with the same length of hole.
    let places = (0..).map(|i| LOGGED + f64::from(i)).take_while(|top| top + 31.0 < TOTAL_DEPTH - 60.0);
    let mut all: Vec<f64> = places.map(|top| truth.worst(top, top + 31.0)).collect();
    all.sort_by(f64::total_cmp);
    let quarter = all[all.len() / 4];
    let own: Vec<f64> =
        layout(&program).stages.iter().map(|s| widened(&s.packer)).map(|(a, b)| truth.worst(a, b)).collect();
    println!("a quarter of all places has no worse than {quarter} in; the packers have {own:?}");
    assert!(own.iter().filter(|w| **w <= quarter).count() >= 10, "{own:?} against {quarter}");
}

#[test]
fn real_tally_closes_to_a_millimetre() {
    let Some(raw) = raw_hole() else { return };
    let (job, program) = planned(&raw, LOGGED, 12);
    let layout = layout(&program);
    let shoe = TOTAL_DEPTH - 10.0;
    let mut depth = shoe;
    for row in &layout.tally {
        assert!((row.bottom.in_ft() - depth).abs() < 1e-6, "{}", row.name);
        depth -= row.length.in_ft();
        assert!((row.top.in_ft() - depth).abs() < 1e-6, "{}", row.name);
    }
    let landed = layout.casing_packer_top.in_m();
    assert!((landed - depth * FOOT).abs() < 1e-3, "{landed} against {}", depth * FOOT);
    assert!(layout.reconciliation.closure.in_m().abs() < 1e-3);
    assert!(landed + job.file.casing_packer.length.in_m() < CASING_SHOE * FOOT);
    // Joints go in as they lie on the rack, each once.
    let run: Vec<f64> =
        layout.tally.iter().filter(|r| r.kind == ItemKind::Joint).map(|r| r.length.in_m()).collect();
    let rack: Vec<f64> = job.running_joints().map(|j| j.length.in_m()).collect();
    assert_eq!(run, rack[..run.len()]);
    // Pups: no more of a length than there are.
    let count = |list: Vec<String>| {
        list.into_iter().fold(BTreeMap::new(), |mut m: BTreeMap<String, usize>, l| {
            *m.entry(l).or_default() += 1;
            m
        })
    };
    let text = |l: Length| format!("{:.4}", l.in_m());
    let have = count(job.pups().map(text).collect());
    let used =
        count(layout.tally.iter().filter(|r| r.kind == ItemKind::Pup).map(|r| text(r.length)).collect());
    assert!(used.iter().all(|(length, n)| have.get(length).is_some_and(|h| h >= n)), "{used:?} of {have:?}");
}

#[test]
fn real_findings_say_what_the_raw_rows_show() {
    let Some(raw) = raw_hole() else { return };
    let truth = Truth::of(&raw);
    let (_, program) = planned(&raw, WHOLE, 18);
    let layout = layout(&program);
    let bare = |p: &PackerPlace| {
        let (top, bottom) = (p.element_top.in_ft(), p.element_bottom.in_ft());
        truth.logged(top, bottom) < 0.9 * (bottom - top)
    };
    let blind: BTreeSet<usize> = layout.stages.iter().filter(|s| bare(&s.packer)).map(|s| s.stage).collect();
    assert_eq!(stages_of(&program, "layout-no-caliper"), blind);
    assert!(!blind.is_empty() && blind.len() < layout.stages.len(), "{blind:?}");
    let near = BIT + 0.9 * (LARGEST_HOLE - BIT);
    let large: BTreeSet<usize> =
        layout.stages.iter().filter(|s| s.packer.hole.worst.in_inch() > near).map(|s| s.stage).collect();
    assert_eq!(stages_of(&program, "layout-large-hole"), large);
    let covered = truth.logged(CASING_SHOE, TOTAL_DEPTH) / (TOTAL_DEPTH - CASING_SHOE);
    let coverage = said(&program, "hole-caliper-coverage");
    assert!(coverage[0].message.contains(&format!("{:.1} %", 100.0 * covered)), "{covered} {coverage:#?}");
    let shift = said(&program, "hole-caliper-shift")[0].value.unwrap();
    assert!((shift.si() - raw.shift()).abs() < 1e-9, "{shift:?}");
    assert_eq!(said(&program, "survey-projected").len(), 1);
    let off: Vec<_> = program.findings.iter().filter(|f| f.id == "survey-off-trend").collect();
    assert!(off.is_empty(), "{off:#?}");
}

#[test]
fn real_hole_without_room_is_refused_with_the_reason() {
    let Some(raw) = raw_hole() else { return };
    let truth = Truth::of(&raw);
    // No packer of the supplier may stand in hole above 8.46 in: there is hardly any such hole.
    let (job, found) = raw.job_folder(LOGGED, 12).set("packer.largest_hole", "8.46 in").job();
    let program = plan::plan(&job, found);
    let refused = said(&program, "layout-no-place");
    assert!(program.layout.is_none() && refused.len() == 1 && program.stopped());
    assert!(refused[0].message.contains("hole too large"), "{}", refused[0].message);
    let reach = (TOTAL_DEPTH - 1.8 * (TOTAL_DEPTH - LOGGED) / 12.0, TOTAL_DEPTH - 60.0);
    let tops = (0..).map(|i| reach.0 + f64::from(i)).take_while(|t| *t < reach.1);
    assert!(refused[0].place.stage != Some(1) || tops.map(|t| truth.worst(t, t + 15.0)).all(|w| w > 8.46));
}

#[test]
fn real_plan_is_whole_and_finite() {
    let Some(raw) = raw_hole() else { return };
    let (_, program) = planned(&raw, LOGGED, 12);
    let stops: Vec<_> = program.findings.iter().filter(|f| f.severity == Severity::Stop).collect();
    assert!(stops.is_empty(), "{stops:#?}");
    assert!(said(&program, "relation-refused").is_empty());
    assert!(program.ladder.is_some() && program.stages.is_some() && program.balls.is_some());
    let all = format!("{program:?}");
    assert!(!all.contains("(NaN)") && !all.contains("inf)"), "a figure is not finite");
    let again = planned(&raw, LOGGED, 12).1;
    assert_eq!(serde_json::to_string(&program).unwrap(), serde_json::to_string(&again).unwrap());
    if let Some(path) = std::env::var_os("REAL_HOLE_SVG") {
        let truth = Truth::of(&raw);
        std::fs::write(path, picture::draw(&truth.readings, &truth.courses, layout(&program))).unwrap();
    }
}
