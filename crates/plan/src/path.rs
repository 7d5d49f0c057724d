//! The way a fluid or a ball takes from the wellhead to a sleeve: bores in order, with their
//! volumes.

use quantity::*;
use well::Job;
use well::job::StringRole;

use crate::layout::{ItemKind, Layout};

/// What a part of the way is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum PathPart {
    /// The string above the liner.
    Treating,
    /// The casing packer.
    CasingPacker,
    /// Pipe of the liner.
    Liner,
    /// An open-hole packer.
    Packer,
    /// A sleeve; its seat is a restriction at its ports, counted apart.
    Sleeve,
}

/// One bore of the way.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct PathSegment {
    /// What it is.
    pub part: PathPart,
    /// Upper end.
    pub top: MeasuredDepth,
    /// Lower end.
    pub bottom: MeasuredDepth,
    /// Inner diameter.
    pub bore: Diameter,
    /// Roughness of the wall.
    pub roughness: Diameter,
}

/// The whole way, from the wellhead to the toe.
#[derive(Debug, Clone, PartialEq)]
pub struct FlowPath {
    segments: Vec<PathSegment>,
}

impl FlowPath {
    /// The way through the strings of a job with its layout.
    pub fn of(job: &Job, layout: &Layout) -> Self {
        let mut segments = Vec::new();
        let liner_top = layout.casing_packer_top;
        let mut treating: Vec<_> =
            job.strings.iter().filter(|s| s.table.role == StringRole::Treating).collect();
        treating.sort_by(|a, b| a.table.top.total_cmp(&b.table.top));
        for string in &treating {
            let bottom = string.table.bottom.min(liner_top);
            push(
                &mut segments,
                PathPart::Treating,
                (string.table.top, bottom),
                string.bore(),
                string.table.roughness,
            );
        }
        if let Some(last) = segments.last_mut().filter(|s: &&mut PathSegment| s.part == PathPart::Treating) {
            last.bottom = liner_top;
        }
        let Some(liner) = job.liner() else { return Self { segments } };
        for row in layout.tally.iter().rev() {
            let (part, bore) = match row.kind {
                ItemKind::CasingPacker => (PathPart::CasingPacker, job.file.casing_packer.id),
                ItemKind::Packer => (PathPart::Packer, job.file.packer.id),
                ItemKind::Sleeve => (PathPart::Sleeve, job.file.sleeve.id),
                ItemKind::Joint | ItemKind::Pup | ItemKind::Toe => (PathPart::Liner, liner.bore()),
            };
            push(&mut segments, part, (row.top, row.bottom), bore, liner.table.roughness);
        }
        Self { segments }
    }

    /// All segments, from the top.
    pub fn segments(&self) -> &[PathSegment] {
        &self.segments
    }

    /// The segments down to a depth, the last one cut there.
    pub fn down_to(&self, depth: MeasuredDepth) -> Vec<PathSegment> {
        let above = self.segments.iter().filter(|s| s.top < depth);
        above.map(|s| PathSegment { bottom: s.bottom.min(depth), ..*s }).collect()
    }

    /// Volume from the wellhead to a depth.
    pub fn volume_to(&self, depth: MeasuredDepth) -> Volume {
        self.down_to(depth).iter().map(|s| (s.bottom - s.top) * s.bore.circle()).sum()
    }

    /// The smallest bore above a depth, seats not counted.
    pub fn smallest_bore_to(&self, depth: MeasuredDepth) -> Option<PathSegment> {
        self.down_to(depth).into_iter().min_by(|a, b| a.bore.total_cmp(&b.bore))
    }
}

fn push(
    segments: &mut Vec<PathSegment>,
    part: PathPart,
    (top, bottom): (MeasuredDepth, MeasuredDepth),
    bore: Diameter,
    roughness: Diameter,
) {
    if bottom <= top {
        return;
    }
    match segments.last_mut() {
        Some(last) if last.part == part && last.bore == bore => last.bottom = bottom,
        _ => segments.push(PathSegment { part, top, bottom, bore, roughness }),
    }
}
