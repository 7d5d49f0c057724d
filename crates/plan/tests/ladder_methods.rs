//! The methods of choosing sizes: lists, steps, the search and its optimum on a real job.

#![allow(clippy::unwrap_used)] // helpers of tests

mod ladder_common;

use ladder_common::*;
use plan::ladder::LadderPlan;
use plan::layout::Layout;
use quantity::*;
use well::Job;
use well::job::{LadderMethod, Rung};

fn inches(plan: &LadderPlan) -> Vec<f64> {
    plan.rungs.iter().map(|r| (r.ball.in_inch() * 1e6).round() / 1e6).collect()
}

fn pair(ball: f64, seat: f64) -> Rung {
    Rung { ball: Diameter::inch(ball), seat: Diameter::inch(seat) }
}

/// The shallow job with the stages nearest the toe only.
fn short(stages: usize) -> (Job, Layout) {
    let (mut job, mut layout) = example("shallow-oil");
    layout.stages.truncate(stages);
    job.file.ball.rating.clear();
    (job, layout)
}

#[test]
fn more_rungs_than_stages_leave_the_smallest_out_with_a_note() {
    let (mut job, layout) = short(4);
    job.file.ladder.method = LadderMethod::Given;
    job.file.ladder.rung = [1.5, 1.75, 2.0, 2.25, 2.5].map(|b| pair(b, b - 0.0625)).to_vec();
    let (plan, ledger) = ladder(&job, &layout);
    let plan = plan.unwrap();
    assert_eq!(inches(&plan), [2.0, 2.25, 2.5]);
    assert_eq!(plan.left_out, [1.5, 1.75].map(Diameter::inch));
    assert_eq!(said(&ledger, "ladder-sizes-left-out").len(), 1);
    assert_eq!(plan.stages_that_fit, 6);
    assert!(stops(&ledger).is_empty(), "{:#?}", ledger.findings);
}

#[test]
fn fewer_rungs_than_stages_stop_and_say_how_many_stages_fit() {
    let (mut job, layout) = short(8);
    job.file.ladder.method = LadderMethod::Given;
    job.file.ladder.rung = [1.5, 1.75, 2.0].map(|b| pair(b, b - 0.0625)).to_vec();
    let (plan, ledger) = ladder(&job, &layout);
    assert!(plan.is_none());
    let found = said(&ledger, "ladder-too-few");
    assert!(found[0].message.contains("serves 4 stages"), "{}", found[0].message);
}

#[test]
fn a_step_goes_to_the_largest_ball_and_takes_the_largest() {
    let (mut job, layout) = short(4);
    let plan = plan(&job, &layout);
    assert_eq!(inches(&plan), [2.875, 3.0, 3.125]);
    // without a largest ball it starts at the smallest
    job.file.ladder.largest_ball = None;
    assert_eq!(inches(&ladder_common::plan(&job, &layout)), [1.5, 1.625, 1.75]);
    // a step that is all interference leaves nothing to pass with
    job.file.ladder.interference = Some(Diameter::inch(0.125));
    let (plan, ledger) = ladder(&job, &layout);
    assert!(plan.is_some_and(|p| p.stages_that_fit < 4));
    assert!(stops(&ledger).contains(&"ladder-clearance"), "{:#?}", ledger.findings);
}

#[test]
fn balls_on_offer_that_do_not_pass_the_seat_above_are_skipped() {
    let (mut job, layout) = short(4);
    job.file.ladder.method = LadderMethod::Fractions;
    job.file.ladder.fractions = (0..13).map(|i| Diameter::inch(1.5 + f64::from(i) / 16.0)).collect();
    let plan = plan(&job, &layout);
    assert_eq!(inches(&plan), [2.0, 2.125, 2.25]);
    assert_eq!(plan.stages_that_fit, 8);
    // a ball too large for the sleeves' own bore is no offer
    job.file.ladder.fractions.push(Diameter::inch(3.84));
    assert_eq!(inches(&ladder_common::plan(&job, &layout)), [2.0, 2.125, 2.25]);
}

#[test]
fn the_search_costs_the_toe_least() {
    let (mut job, layout) = example("long-lateral");
    let equal = plan(&job, &layout);
    job.file.ladder.method = LadderMethod::Search;
    let (searched, ledger) = ladder(&job, &layout);
    let searched = searched.unwrap();
    check_order(&job, &searched);
    assert!(stops(&ledger).is_empty(), "{:#?}", ledger.findings);
    assert!(searched.toe_loss < equal.toe_loss, "{} {}", searched.toe_loss, equal.toe_loss);
    assert!(searched.stages_that_fit >= equal.stages_that_fit);
    for rung in &searched.rungs {
        assert!(rung.utilisation.si() <= 1.0 && rung.least_interference.in_inch() >= 0.025 - 1e-9);
        assert!(rung.clearance.is_none_or(|c| c.in_inch() >= 0.020 - 1e-9));
        let steps = rung.ball.in_inch() / 0.005;
        assert!((steps - steps.round()).abs() < 1e-6, "{}", rung.ball);
    }
    // without the user's largest ball the drift or the seat bounds it: less loss still
    job.file.ladder.largest_ball = None;
    let wider = plan(&job, &layout);
    assert!(wider.toe_loss < searched.toe_loss);
    assert!(wider.rungs.last().unwrap().seat <= job.file.sleeve.largest_seat);
}

/// Every ladder of two balls on a coarse grid, given as a list and judged by the plan itself: none
/// that is without fault costs the toe less than the search's.
#[test]
fn no_given_ladder_without_fault_beats_the_search() {
    let (mut job, layout) = short(3);
    let l = &mut job.file.ladder;
    l.method = LadderMethod::Search;
    l.increment = Diameter::inch(0.125);
    (l.smallest_ball, l.largest_ball) = (Some(Diameter::inch(2.5)), Some(Diameter::inch(3.25)));
    l.clearance = Diameter::inch(0.03);
    let best = plan(&job, &layout);
    job.file.ladder.method = LadderMethod::Given;
    let mut good = 0;
    let sizes: Vec<f64> = (0..7).map(|i| 2.5 + 0.125 * f64::from(i)).collect();
    let overlaps: Vec<f64> = (0..10).map(|i| 0.02 + 0.013 * f64::from(i)).collect();
    for (i, large) in sizes.iter().enumerate() {
        for small in &sizes[..i] {
            for a in &overlaps {
                for b in &overlaps {
                    job.file.ladder.rung = vec![pair(*small, small - a), pair(*large, large - b)];
                    let (Some(plan), ledger) = ladder(&job, &layout) else { continue };
                    let kept = plan.rungs.iter().all(|r| {
                        r.least_interference >= job.file.ladder.least_interference
                            && r.clearance.is_none_or(|c| c >= job.file.ladder.clearance)
                    });
                    if kept && stops(&ledger).is_empty() {
                        good += 1;
                        assert!(
                            plan.toe_loss.si() >= best.toe_loss.si() * (1.0 - 1e-12),
                            "{small} {a} {large} {b}"
                        );
                    }
                }
            }
        }
    }
    assert!(good > 100, "{good} ladders without fault is no proof");
    // the search's own ladder is one of them
    job.file.ladder.rung = best.rungs.iter().map(|r| Rung { ball: r.ball, seat: r.seat }).collect();
    let (again, ledger) = ladder(&job, &layout);
    assert!(stops(&ledger).is_empty(), "{:#?}", ledger.findings);
    assert!(close(again.unwrap().toe_loss.si(), best.toe_loss.si()));
}

#[test]
fn what_binds_the_search_is_named() {
    let (mut job, layout) = example("long-lateral");
    job.file.ladder.method = LadderMethod::Search;
    assert!(plan(&job, &layout).bound_by.contains("largest ball of the job file"));
    job.file.ladder.largest_ball = None;
    let by_bore = plan(&job, &layout).bound_by;
    assert!(by_bore.contains("sleeves beside the seat"), "{by_bore}");
    // weak balls: strength bounds the seats
    for row in &mut job.file.ball.strength {
        row.bearing = row.bearing * 0.45;
    }
    let (weak, ledger) = ladder(&job, &layout);
    let words = weak.map_or_else(|| said(&ledger, "ladder-too-few")[0].message.to_string(), |p| p.bound_by);
    assert!(words.contains("strength of the ball"), "{words}");
    // so little room that the stages do not fit
    job.file.ladder.clearance = Diameter::inch(0.08);
    let (none, ledger) = ladder(&job, &layout);
    assert!(none.is_none() && said(&ledger, "ladder-too-few")[0].message.contains("smallest ball"));
}

#[test]
fn the_setting_ball_passes_the_smallest_seat_the_program_makes() {
    let (mut job, layout) = example("shallow-oil");
    job.file.ball.rating.clear();
    job.file.toe.setting_ball = Some(Diameter::inch(1.75));
    job.file.toe.setting_seat = Some(Diameter::inch(1.625));
    job.file.ladder.clearance = Diameter::inch(0.03);
    job.file.ladder.increment = Diameter::inch(0.005);
    for method in [LadderMethod::Search, LadderMethod::EqualStress] {
        job.file.ladder.method = method;
        let (plan, ledger) = ladder(&job, &layout);
        let setting = plan.unwrap_or_else(|| panic!("{:#?}", ledger.findings)).setting_ball.unwrap();
        assert!(setting.clearance.unwrap().in_inch() >= 0.03 - 1e-9);
        assert!(said(&ledger, "ladder-setting-ball").is_empty());
    }
}

#[test]
fn a_roomy_equal_stress_ladder_takes_just_what_the_worst_static_case_asks() {
    let (mut job, mut layout) = example("long-lateral");
    layout.stages.truncate(12);
    job.file.ladder.least_interference = Diameter::inch(0.001);
    let (plan, ledger) = ladder(&job, &layout);
    let plan = plan.unwrap();
    check_order(&job, &plan);
    assert!(said(&ledger, "ladder-worst-static").is_empty());
    let most = plan.rungs.iter().map(|r| r.worst_utilisation.si()).fold(0.0, f64::max);
    // seats are drawn to 0.001 in, some 1.5 % of the rating
    assert!((0.97..=1.0).contains(&most), "{most}");
    // the smaller the share, the larger the toe ball: less loss than with all the span used
    assert!(plan.rungs[0].ball > Diameter::inch(1.3), "{}", plan.rungs[0].ball);
    assert!(plan.stages_that_fit >= 30);
}
