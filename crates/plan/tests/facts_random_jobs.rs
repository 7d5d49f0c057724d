//! What must hold of any job: made-up holes, joints and washouts, small enough to plan many.

#![allow(clippy::unwrap_used)] // helpers of tests

mod support;

use plan::Ledger;
use plan::ladder::choose_ladder;
use plan::layout::{ItemKind, Layout, lay_out};
use plan::path::FlowPath;
use proptest::prelude::*;
use quantity::*;
use support::folder::rows;
use support::made::Made;
use well::{Job, Severity};

fn made() -> impl Strategy<Value = Made> {
    let sizes = (2usize..6, 230.0f64..420.0, 0.2f64..0.6, 0.0f64..1.6, 1u64..1_000_000);
    sizes.prop_map(|(stages, spacing, step, washout, seed)| Made { stages, spacing, step, washout, seed })
}

fn inches(d: f64) -> toml::Value {
    format!("{d:.6} in").into()
}

/// A tested rating of a supplier: ball and overlap, in; temperature, degF; pressure, psi.
fn supplier_test(ball: f64, overlap: f64, hot: f64, held: f64) -> Vec<(&'static str, toml::Value)> {
    vec![
        ("ball", inches(ball)),
        ("seat", inches(ball - overlap)),
        ("temperature", format!("{hot:.1} degF").into()),
        ("pressure", format!("{held:.0} psi").into()),
    ]
}

fn tests() -> impl Strategy<Value = Vec<(&'static str, toml::Value)>> {
    (1.4f64..3.6, 0.01f64..0.1, 150.0f64..400.0, 2000.0f64..15_000.0)
        .prop_map(|(ball, overlap, hot, held)| supplier_test(ball, overlap, hot, held))
}

fn length(layout: &Layout, kind: ItemKind) -> Vec<Length> {
    layout.tally.iter().filter(|r| r.kind == kind).map(|r| r.length).collect()
}

/// Shoe less every length of the tally is the top of the casing packer, and the rack is used in order.
fn tally_closes(job: &Job, layout: &Layout) {
    let shoe = job.file.hole.total_depth - job.file.system.rathole;
    let sum: f64 = layout.tally.iter().map(|r| r.length.in_m()).sum();
    assert!((shoe.in_m() - sum - layout.casing_packer_top.in_m()).abs() < 1e-3);
    for pair in layout.tally.windows(2) {
        assert!((pair[0].top - pair[1].bottom).abs().in_m() < 1e-6);
    }
    let rack: Vec<Length> = job.running_joints().map(|j| j.length).collect();
    let run = length(layout, ItemKind::Joint);
    assert_eq!(run, rack[..run.len()]);
    assert_eq!(length(layout, ItemKind::Packer).len(), layout.stages.len());
    assert_eq!(length(layout, ItemKind::Sleeve).len(), layout.stages.len());
}

/// The hole over a stretch from nothing but the readings of the log, in.
fn logged(job: &Job, top: MeasuredDepth, bottom: MeasuredDepth) -> Vec<f64> {
    let caliper = job.hole.caliper().unwrap();
    let all = caliper.depth().iter().zip(caliper.diameter());
    all.filter(|(d, _)| **d >= top && **d <= bottom).map(|(_, size)| size.in_inch()).collect()
}

fn keeps_the_limits(job: &Job, layout: &Layout) {
    let table = &job.file.packer;
    let aims = &job.file.layout;
    let mut below = job.file.hole.total_depth;
    for stage in &layout.stages {
        let p = &stage.packer;
        let widen = job.depth_sigma(p.bottom) * aims.depth_sigmas.si();
        for size in logged(job, p.element_top - widen, p.element_bottom + widen) {
            assert!(size <= table.largest_hole.in_inch() + 1e-9, "packer {} in {size} in", stage.stage);
            assert!(size >= table.smallest_hole.in_inch() - 1e-9, "packer {} in {size} in", stage.stage);
        }
        assert!(p.dogleg <= table.max_dogleg && p.temperature <= table.max_temperature);
        assert!(p.rating.is_none_or(|r| r >= p.needed));
        assert!(p.element_top >= job.file.system.heel_limit);
        assert!(stage.sleeve.dogleg <= job.file.sleeve.max_dogleg);
        assert!(p.bottom < stage.sleeve.top && stage.sleeve.bottom < below, "stage {}", stage.stage);
        let share = (below - p.element_bottom) / layout.target;
        assert!(share >= aims.shortest_stage.si() - 1e-9 && share <= aims.longest_stage.si() + 1e-9);
        below = p.element_top;
    }
}

/// Inside volumes add up; between string and wall there is what steel and bore leave of the hole.
fn volumes_add_up(job: &Job, layout: &Layout) {
    let path = FlowPath::of(job, layout);
    let whole: f64 = path.segments().iter().map(|s| ((s.bottom - s.top) * s.bore.circle()).in_m3()).sum();
    let toe = path.segments().last().unwrap().bottom;
    assert!((path.volume_to(toe).in_m3() - whole).abs() < 1e-9 * whole);
    let mut last = Volume::ZERO;
    for stage in layout.stages.iter().rev() {
        let next = path.volume_to(stage.sleeve.ports);
        assert!(next > last, "stage {}", stage.stage);
        last = next;
    }
    let (shoe, top) = (layout.shoe, layout.stages.last().unwrap().packer.top);
    let row = layout.tally.iter().rfind(|r| r.top >= top).unwrap();
    let hole = job.hole.volume(row.top, shoe).unwrap();
    let parts = row.inside + row.steel + row.annulus;
    assert!((parts.in_m3() / hole.in_m3() - 1.0).abs() < 1e-9, "{parts} of {hole}");
    let middle = MeasuredDepth::m(0.5 * (row.top.in_m() + shoe.in_m()));
    let halves = job.hole.volume(row.top, middle).unwrap() + job.hole.volume(middle, shoe).unwrap();
    assert!((halves.in_m3() / hole.in_m3() - 1.0).abs() < 1e-9);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(16))]
    #[test]
    fn any_layout_closes_and_keeps_its_limits_or_says_why_there_is_none(
        made in made(),
        largest in 6.0f64..6.2,
    ) {
        let (job, _) = made.folder().set("packer.largest_hole", format!("{largest:.3} in")).job();
        let mut ledger = Ledger::default();
        match lay_out(&job, &mut ledger) {
            Some(layout) => {
                tally_closes(&job, &layout);
                keeps_the_limits(&job, &layout);
                volumes_add_up(&job, &layout);
            }
            None => {
                let stops = ledger.findings.iter().filter(|f| f.severity == Severity::Stop);
                prop_assert!(stops.clone().count() > 0 && stops.clone().all(|f| f.id.starts_with("layout-")));
            }
        }
    }

    #[test]
    fn a_larger_overlap_never_lowers_a_rating(
        made in made(),
        overlap in 0.01f64..0.06,
        more in 0.0f64..0.04,
        tests in prop::collection::vec(tests(), 0..4),
    ) {
        let rated = |overlap: f64| {
            let balls = (0..made.stages).map(|k| 1.5 + 0.4 * k as f64);
            let rung = rows(balls.map(|b| vec![("ball", inches(b)), ("seat", inches(b - overlap))]));
            let folder = made.folder().set("ladder.rung", rung).set("ball.rating", rows(tests.clone()));
            let (job, _) = folder.job();
            let mut ledger = Ledger::default();
            let layout = lay_out(&job, &mut ledger)?;
            let plan = choose_ladder(&job, &layout, &mut ledger)?;
            Some(plan.rungs.iter().map(|r| r.rating.in_psi()).collect::<Vec<_>>())
        };
        if let Some((less, more)) = rated(overlap).zip(rated(overlap + more)) {
            prop_assert_eq!(less.len(), made.stages);
            for (a, b) in less.iter().zip(&more) {
                prop_assert!(*b >= a - 1e-6, "{} psi against {}", b, a);
            }
        }
    }
}

#[test]
fn a_test_with_more_interference_bounds_what_is_computed() {
    let made = Made { stages: 2, spacing: 300.0, step: 0.3, washout: 0.0, seed: 3 };
    let rating = |overlap: f64, test: Option<f64>| {
        let rung = rows([1.5, 1.9].map(|b| vec![("ball", inches(b)), ("seat", inches(b - overlap))]));
        let test = test.map(|psi| supplier_test(3.0, 0.05, 400.0, psi));
        let (job, _) = made.folder().set("ladder.rung", rung).set("ball.rating", rows(test)).job();
        let layout = lay_out(&job, &mut Ledger::default()).unwrap();
        let plan = choose_ladder(&job, &layout, &mut Ledger::default()).unwrap();
        plan.rungs[0].rating.in_psi()
    };
    let alone = rating(0.04, None);
    let strong = rating(0.04, Some(100.0 * alone));
    assert!(
        (strong - alone).abs() < 1e-6,
        "{strong} psi of {alone}: a strong test leaves the strength to say"
    );
    let held = rating(0.04, Some(0.5 * alone));
    assert!(held <= 0.5 * alone + 1.0 && held > 0.4 * alone, "{held} psi of {alone}");
    let covered = rating(0.06, Some(0.5 * alone));
    assert!(covered >= held, "{covered} psi below {held}");
}

#[test]
fn made_up_jobs_are_planned_whole() {
    for (stages, spacing, seed) in [(4, 315.0, 7), (3, 400.0, 11)] {
        let made = Made { spacing, seed, step: 0.3, ..Made::stages(stages) };
        let (job, found) = made.folder().job();
        let program = plan::plan(&job, found);
        assert!(program.layout.is_some() && program.ladder.is_some() && program.balls.is_some());
        let stages = program.stages.unwrap().stages.len();
        assert_eq!(stages, made.stages);
    }
}
