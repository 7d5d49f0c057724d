//! Sizes the user lists: pairs, a constant step, or balls on offer.

use physics::ball::ladder::Rung;
use quantity::*;
use well::job::LadderMethod;

use super::bores::{Bore, SAME, largest_ball};
use super::choose::{Chosen, passes};
use super::duty::Scene;
use super::hold::Hold;
use super::search::MOST;

/// Why a size on offer is not taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Refusal {
    Bore,
    LargestSeat,
    SmallestSeat,
    Clearance,
    Overlap,
    Strength,
}

const REFUSALS: [(Refusal, &str); 6] = [
    (Refusal::Bore, "bores on the way down"),
    (Refusal::LargestSeat, "largest seat of the sleeve"),
    (Refusal::SmallestSeat, "smallest seat of the sleeve"),
    (Refusal::Clearance, "clearance through the seat above"),
    (Refusal::Overlap, "overlap left on its seat"),
    (Refusal::Strength, "strength of the ball"),
];

/// All rungs on offer, toe first.
pub(super) fn offers(scene: &Scene<'_>) -> Vec<Rung> {
    let ladder = &scene.job.file.ladder;
    let over = |ball: Diameter| Rung { ball, seat: ball - ladder.interference.unwrap_or(Diameter::ZERO) };
    let mut rungs: Vec<Rung> = match ladder.method {
        LadderMethod::Given => ladder.rung.iter().map(|r| Rung { ball: r.ball, seat: r.seat }).collect(),
        LadderMethod::Fractions => ladder.fractions.iter().map(|ball| over(*ball)).collect(),
        LadderMethod::Step => stepped(scene).into_iter().map(over).collect(),
        LadderMethod::EqualStress | LadderMethod::Search => Vec::new(),
    };
    rungs.sort_by(|a, b| a.ball.total_cmp(&b.ball));
    rungs
}

/// Balls of a constant step: up to the largest ball where there is one, else as many as needed.
fn stepped(scene: &Scene<'_>) -> Vec<Diameter> {
    let ladder = &scene.job.file.ladder;
    let (Some(smallest), Some(step)) = (ladder.smallest_ball, ladder.step) else { return Vec::new() };
    let count = match ladder.largest_ball {
        Some(largest) if step > Diameter::ZERO => ((largest - smallest) / step + 1e-6).floor() + 1.0,
        _ => scene.frac_balls() as f64,
    };
    let count = count.clamp(0.0, MOST as f64) as usize;
    (0..count).map(|i| smallest + step * i as f64).collect()
}

/// The largest rungs on offer that meet all limits; where these are too few, the largest on offer.
pub(super) fn chosen(scene: &Scene<'_>, bores: &[Bore]) -> Chosen {
    let offers = offers(scene);
    let wanted = scene.frac_balls();
    let mut kept: Vec<Rung> = Vec::new();
    let mut refused: Vec<Refusal> = Vec::new();
    for rung in offers.iter().rev() {
        match refusal(scene, bores, *rung, &kept) {
            None => kept.push(*rung),
            Some(reason) => refused.push(reason),
        }
    }
    let balls_that_fit = kept.len();
    let rungs: Vec<Rung> = if kept.len() >= wanted {
        kept.into_iter().take(wanted).collect()
    } else {
        offers.iter().rev().take(wanted).copied().collect()
    };
    let rungs: Vec<Rung> = rungs.into_iter().rev().collect();
    let taken = |r: &Rung| rungs.iter().any(|t| t == r);
    let left_out = offers.iter().filter(|r| !taken(r)).map(|r| r.ball).collect();
    Chosen { bound_by: words(offers.len(), &refused), rungs, left_out, balls_that_fit }
}

/// Why a rung cannot follow those kept, heel first.
fn refusal(scene: &Scene<'_>, bores: &[Bore], rung: Rung, kept: &[Rung]) -> Option<Refusal> {
    let sleeve = &scene.job.file.sleeve;
    if largest_ball(scene.job, bores).is_none_or(|(largest, _)| rung.ball > largest + SAME) {
        return Some(Refusal::Bore);
    }
    if rung.seat > sleeve.largest_seat + SAME {
        return Some(Refusal::LargestSeat);
    }
    let blocks_setting = scene.setting_ball().is_some_and(|ball| !passes(scene, ball, rung.seat));
    if rung.seat < sleeve.smallest_seat - SAME || blocks_setting {
        return Some(Refusal::SmallestSeat);
    }
    if kept.last().is_some_and(|above| !passes(scene, rung.ball, above.seat)) {
        return Some(Refusal::Clearance);
    }
    let duty = scene.duty_from_heel(kept.len())?;
    match scene.holds(rung, duty, Diameter::ZERO, duty.expected()) {
        Ok(Hold::Holds) => None,
        Ok(Hold::TooWeak) => Some(Refusal::Strength),
        Ok(Hold::TooLittleOverlap) | Err(_) => Some(Refusal::Overlap),
    }
}

fn words(offers: usize, refused: &[Refusal]) -> String {
    let count = |r: Refusal| refused.iter().filter(|x| **x == r).count();
    let reasons: Vec<String> = REFUSALS
        .iter()
        .filter(|(r, _)| count(*r) > 0)
        .map(|(r, name)| format!("{name} ({})", count(*r)))
        .collect();
    if offers == 0 {
        return "the job file gives no sizes for its method".into();
    }
    match reasons.is_empty() {
        true => format!("the {offers} sizes of the job file, all within their limits"),
        false => {
            format!("of the {offers} sizes of the job file these are outside a limit: {}", reasons.join(", "))
        }
    }
}
