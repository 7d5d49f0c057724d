//! The layout search against trying every arrangement, and its hard limits.

use plan::layout::problem::*;
use plan::layout::search::{Choice, Search};
use proptest::prelude::*;

/// A made-up hole: a base size with one washout, one bend, and a slope of quality.
#[derive(Debug, Clone)]
struct Made {
    washout: (f64, f64, f64),
    bend: (f64, f64, f64),
}

impl Ground for Made {
    fn size(&self, top: f64, bottom: f64, widen: f64) -> Size {
        let (worst, least) = self.extremes(top - widen, bottom + widen);
        Size { least, p10: least, p50: least, p90: worst, worst }
    }
    fn extremes(&self, top: f64, bottom: f64) -> (f64, f64) {
        let (a, b, extra) = self.washout;
        let hit = top < b && bottom > a;
        // A washout is never tighter than the hole beside it.
        (0.1524 + if hit { extra.max(0.002) } else { 0.002 }, 0.1524)
    }
    fn sharpest_bend(&self, top: f64, bottom: f64) -> f64 {
        let (a, b, k) = self.bend;
        if top < b && bottom > a { k } else { 1e-4 }
    }
    fn quality(&self, depth: f64) -> f64 {
        (depth / 7.3).sin() * 0.5 + 0.5
    }
    fn hottest(&self, _: f64, _: f64) -> f64 {
        370.0
    }
    fn rating(&self, hole: f64, _: f64) -> Option<f64> {
        Some(6e7 - (hole - 0.1524) * 1e9)
    }
    fn needed(&self, _: f64, _: usize) -> f64 {
        3e7
    }
    fn depth_sigma(&self, depth: f64) -> f64 {
        depth * 2e-4
    }
}

fn problem(joints: Vec<f64>, pups: Vec<f64>, stages: usize) -> Problem {
    let total: f64 = joints.iter().sum();
    let target = total / stages as f64 * 0.75;
    Problem {
        toe_top: 3000.0,
        toe_limit: 3003.0,
        heel_limit: 3000.0 - total - 60.0,
        joints,
        pups,
        stages,
        target,
        shortest: 0.3 * target,
        longest: 2.0 * target,
        packer: Tool { length: 6.0, from_top: 1.0, part: 3.0, max_bend: 3e-3 },
        limits: PackerLimits { largest: 0.17, smallest: 0.147, nominal: 0.1524, hottest: 420.0, sigmas: 2.0 },
        first_sleeve: Tool { length: 2.0, from_top: 1.0, part: 0.2, max_bend: 5e-3 },
        sleeve: Tool { length: 1.5, from_top: 0.7, part: 0.2, max_bend: 5e-3 },
        place: 0.5,
        packer_zones: vec![Zone { from: 2950.0, to: 2955.0 }],
        sleeve_zones: vec![],
        zone_reach: 9.0,
        fixed_packers: vec![],
        fixed_sleeves: vec![],
        weights: Weights { hole: 1.0, bend: 0.3, spacing: 1.0, sleeve: 0.3, exclusion: 0.2, quality: 0.3 },
    }
}

/// Total penalty of an arrangement, or none where it breaks a limit.
fn cost(p: &Problem, g: &Made, s: &Search<'_, Made>, choices: &[Choice]) -> Option<f64> {
    let mut total = 0.0;
    let mut toe_end = p.toe_limit;
    let (mut joints, mut pups) = (0, 0);
    for (i, c) in choices.iter().enumerate() {
        let stage = i + 1;
        let first = if stage == 1 { 1 } else { joints + 1 };
        if c.sleeve < first || c.packer <= c.sleeve || c.pups < pups || c.pups > pups + 1 {
            return None;
        }
        let packer = s.packer_bottom(stage, c.packer, c.pups);
        let sleeve = s.sleeve_bottom(stage, c.sleeve, pups);
        let heel_end = packer - p.packer.length + p.packer.from_top + p.packer.part;
        let tool = p.sleeve_of(stage);
        total += p.packer_penalty(g, stage, packer).ok()?;
        total += p.sleeve_penalty(g, stage, sleeve).ok()?;
        total += p.stage_penalty(toe_end, heel_end, sleeve - tool.length + tool.from_top)?;
        toe_end = packer - p.packer.length + p.packer.from_top;
        (joints, pups) = (c.packer, c.pups);
    }
    Some(total)
}

fn every(p: &Problem, depth: usize, so_far: &mut Vec<Choice>, visit: &mut dyn FnMut(&[Choice])) {
    if so_far.len() == depth {
        visit(so_far);
        return;
    }
    let (joints, pups) = so_far.last().map_or((0, 0), |c| (c.packer, c.pups));
    for packer in joints + 2..=p.joints.len() {
        for sleeve in joints + 1..packer {
            for used in pups..=(pups + 1).min(p.pups.len()) {
                so_far.push(Choice { sleeve, packer, pups: used });
                every(p, depth, so_far, visit);
                so_far.pop();
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    #[test]
    fn the_search_finds_what_trying_everything_finds(
        joints in prop::collection::vec(10.0f64..14.0, 9),
        pups in prop::collection::vec(0.6f64..3.0, 0..2),
        stages in 1usize..3,
        washout in (2890.0f64..2990.0, 1.0f64..15.0, 0.0f64..0.04),
        bend in (2890.0f64..2990.0, 1.0f64..15.0, 0.0f64..6e-3),
    ) {
        let ground = Made {
            washout: (washout.0, washout.0 + washout.1, washout.2),
            bend: (bend.0, bend.0 + bend.1, bend.2),
        };
        let p = problem(joints, pups, stages);
        let search = Search::new(&p, &ground);
        let mut best = f64::INFINITY;
        every(&p, stages, &mut Vec::new(), &mut |choices| {
            if let Some(c) = cost(&p, &ground, &search, choices) {
                best = best.min(c);
            }
        });
        match search.run() {
            Ok(found) => {
                prop_assert!((found.penalty - best).abs() < 1e-9, "search {} every {best}", found.penalty);
                let again = cost(&p, &ground, &search, &found.choices);
                prop_assert!(again.is_some_and(|c| (c - best).abs() < 1e-9), "a limit is broken");
            }
            Err(stuck) => {
                prop_assert!(best.is_infinite(), "stuck at {} but {best} exists", stuck.stage);
            }
        }
    }

    #[test]
    fn a_longer_element_never_scores_better(
        bottom in 2900.0f64..2990.0,
        longer in 0.0f64..6.0,
        washout in (2890.0f64..2990.0, 1.0f64..15.0, 0.0f64..0.04),
    ) {
        let ground = Made { washout: (washout.0, washout.0 + washout.1, washout.2), bend: (0.0, 0.0, 0.0) };
        let short = problem(vec![12.0; 9], vec![], 2);
        let mut long = short.clone();
        // Grows upwards: the lower end of tool and element stay.
        long.packer.length += longer;
        long.packer.part += longer;
        let (a, b) = (short.packer_penalty(&ground, 1, bottom), long.packer_penalty(&ground, 1, bottom));
        match (a, b) {
            (Ok(a), Ok(b)) => prop_assert!(b >= a - 1e-12),
            (Err(_), Ok(_)) => prop_assert!(false, "a longer element is taken where a shorter is refused"),
            _ => {}
        }
    }
}

#[test]
fn a_pin_is_kept_and_an_impossible_one_says_where() {
    let ground = Made { washout: (0.0, 0.0, 0.0), bend: (0.0, 0.0, 0.0) };
    let mut p = problem(vec![12.0; 12], vec![1.0, 2.0], 3);
    p.packer_zones.clear();
    p.fixed_packers.push(Fixed { stage: 2, depth: 2900.0, within: 7.0 });
    let search = Search::new(&p, &ground);
    let found = search.run().unwrap();
    let c = found.choices[1];
    let middle = search.packer_bottom(2, c.packer, c.pups) - 0.5 * p.packer.length;
    assert!((middle - 2900.0).abs() <= 7.0, "{middle}");
    p.fixed_packers[0].depth = 2600.0;
    let stuck = Search::new(&p, &ground).run().unwrap_err();
    assert_eq!(stuck.stage, 2);
    assert!(stuck.looked > 0);
}
