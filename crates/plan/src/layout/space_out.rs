//! Space-out: joints and pups between the last packer and the casing packer, so that the casing
//! packer lands nearest its planned depth.

use quantity::*;
use well::Job;

use super::build::{shoe, toe_length};
use super::problem::Problem;
use super::search::Choice;

/// What goes between the last packer and the casing packer.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct SpaceOut {
    /// Joints in the hole in all.
    pub joints: usize,
    /// Pups above the last packer.
    pub pups: Vec<Length>,
    /// How far below its planned depth the casing packer lands (negative: above).
    pub off: Length,
}

/// The most pups tried together: every subset of them is looked at.
const MOST_PUPS: usize = 10;

/// How much nearer the planned depth a pup must bring the casing packer to be put in.
const PUP_WORTH: Length = Length::ft(1.0);

/// The best space-out, or the length that is missing when the rack runs out.
pub(super) fn space_out(job: &Job, problem: &Problem, choices: &[Choice]) -> Result<SpaceOut, Length> {
    let last = choices.last().copied().unwrap_or(Choice { sleeve: 0, packer: 0, pups: 0 });
    let planned = job.file.casing_packer.depth + job.file.casing_packer.length;
    let lengths: Vec<Length> = job.running_joints().map(|j| j.length).collect();
    let used: Length = lengths.iter().take(last.packer).copied().sum();
    let pups_used: Length = job.pups().take(last.pups).sum();
    let tools = Length::m(problem.tools_below_packer(choices.len().max(1)) + problem.packer.length);
    let top = shoe(job) - toe_length(job) - used - pups_used - tools;
    let gap = top - planned;
    let spare: Vec<Length> = job.pups().skip(last.pups).take(MOST_PUPS).collect();
    let mut best: Option<SpaceOut> = None;
    let mut filled = Length::ZERO;
    for joints in last.packer..=lengths.len() {
        if joints > last.packer {
            filled += lengths[joints - 1];
        }
        let left = gap - filled;
        for mask in 0u32..(1 << spare.len()) {
            let pups: Vec<Length> =
                spare.iter().enumerate().filter(|(i, _)| mask >> i & 1 == 1).map(|(_, l)| *l).collect();
            let off = left - pups.iter().copied().sum();
            let worth = off.abs() + PUP_WORTH * pups.len() as f64;
            if best.as_ref().is_none_or(|b| worth < b.off.abs() + PUP_WORTH * b.pups.len() as f64) {
                best = Some(SpaceOut { joints, pups, off });
            }
        }
        if left < Length::ZERO {
            break;
        }
    }
    let missing = gap - filled;
    let longest = lengths.iter().copied().fold(Length::ft(20.0), Length::max);
    match best {
        Some(found) if missing <= longest => Ok(found),
        _ => Err(missing),
    }
}
