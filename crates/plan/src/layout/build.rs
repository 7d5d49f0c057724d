//! From the job to the layout problem.

use quantity::*;
use well::Job;
use well::job::{ExcludedTools, PinnedTool, SystemKind};

use super::checks;
use super::problem::*;
use crate::Ledger;

/// Stages and target length: the count as given, or from the spacing.
pub(super) fn stages(job: &Job) -> (usize, Length) {
    let toe = toe_limit(job);
    let interval = toe - job.file.system.heel_limit;
    match (job.file.system.stages, job.file.system.spacing) {
        (Some(n), _) => (n.max(1), interval / n.max(1) as f64),
        (None, Some(spacing)) if spacing.si() > 0.0 => {
            let n = (interval / spacing).round().clamp(1.0, 400.0) as usize;
            (n, interval / n as f64)
        }
        _ => (1, interval),
    }
}

/// Where stage 1 ends at the toe.
pub(super) fn toe_limit(job: &Job) -> MeasuredDepth {
    job.file.system.toe_limit.unwrap_or(job.file.hole.total_depth)
}

/// Depth of the shoe.
pub(super) fn shoe(job: &Job) -> MeasuredDepth {
    job.file.hole.total_depth - job.file.system.rathole
}

/// Length of shoe and toe tool.
pub(super) fn toe_length(job: &Job) -> Length {
    job.file.toe.shoe_length + job.file.toe.tool_length
}

/// The problem of a job.
pub(super) fn problem(job: &Job, ledger: &mut Ledger) -> Problem {
    let (stages, target) = stages(job);
    let aims = &job.file.layout;
    let packer = &job.file.packer;
    let sleeve = &job.file.sleeve;
    let ball_sleeve = Tool {
        length: sleeve.length.si(),
        from_top: sleeve.ports_from_top.si(),
        part: 0.0,
        max_bend: sleeve.max_dogleg.si(),
    };
    let first_sleeve = match (&job.file.system.kind, &job.file.toe.pressure_sleeve) {
        (SystemKind::HydraulicSet, Some(s)) => {
            Tool { length: s.length.si(), from_top: 0.5 * s.length.si(), ..ball_sleeve }
        }
        _ => ball_sleeve,
    };
    let nominal = job.hole.section_at(toe_limit(job)).map_or(packer.smallest_hole, |s| s.kind.nominal());
    Problem {
        toe_top: (shoe(job) - toe_length(job)).si(),
        toe_limit: toe_limit(job).si(),
        heel_limit: heel_limit(job).si(),
        joints: job.running_joints().map(|j| j.length.si()).collect(),
        pups: job.pups().map(|l| l.si()).collect(),
        stages,
        target: target.si(),
        shortest: target.si() * aims.shortest_stage.si(),
        longest: target.si() * aims.longest_stage.si(),
        packer: Tool {
            length: packer.length.si(),
            from_top: packer.element_from_top.si(),
            part: packer.element_length.si(),
            max_bend: packer.max_dogleg.si(),
        },
        limits: PackerLimits {
            largest: packer.largest_hole.si(),
            smallest: packer.smallest_hole.si(),
            nominal: nominal.si(),
            hottest: packer.max_temperature.si(),
            sigmas: aims.depth_sigmas.si(),
        },
        first_sleeve,
        sleeve: ball_sleeve,
        place: aims.sleeve_place.si(),
        packer_zones: zones(job, ExcludedTools::Packers),
        sleeve_zones: zones(job, ExcludedTools::Sleeves),
        zone_reach: aims.exclusion_reach.si(),
        fixed_packers: pins(job, PinnedTool::Packer, stages, ledger),
        fixed_sleeves: pins(job, PinnedTool::Sleeve, stages, ledger),
        weights: Weights {
            hole: aims.hole_weight.si(),
            bend: aims.bend_weight.si(),
            spacing: aims.spacing_weight.si(),
            sleeve: aims.sleeve_weight.si(),
            exclusion: aims.exclusion_weight.si(),
            quality: aims.quality_weight.si(),
        },
    }
}

/// No packer above this depth: the user's limit, or the casing shoe with its distance.
fn heel_limit(job: &Job) -> MeasuredDepth {
    let shoe = job.hole.sections().iter().filter(|s| !s.kind.is_open()).map(|s| s.bottom);
    let below_shoe = shoe.fold(MeasuredDepth::ZERO, MeasuredDepth::max) + job.file.layout.shoe_distance;
    job.file.system.heel_limit.max(below_shoe)
}

fn zones(job: &Job, tools: ExcludedTools) -> Vec<Zone> {
    let kept = job.file.exclusion.iter().filter(|z| z.tools == tools || z.tools == ExcludedTools::Both);
    kept.map(|z| Zone { from: z.from.si(), to: z.to.si() }).collect()
}

fn pins(job: &Job, tool: PinnedTool, stages: usize, ledger: &mut Ledger) -> Vec<Fixed> {
    let mut out = Vec::new();
    for (i, pin) in job.file.pin.iter().enumerate().filter(|(_, p)| p.tool == tool) {
        if pin.stage == 0 || pin.stage > stages {
            let message = said!("a pin names stage {} of {stages}", pin.stage);
            ledger.say(checks::PIN_STAGE.found(message).field(format!("pin[{}].stage", i + 1)));
        } else {
            out.push(Fixed { stage: pin.stage, depth: pin.depth.si(), within: pin.within.si() });
        }
    }
    out
}
