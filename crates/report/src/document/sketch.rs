//! Sketches of the well: the path at true scale, the lateral with depth stretched, and the
//! lateral as a strip with the caliper's wall.

use plan::layout::{ItemKind, Layout};
use quantity::*;
use well::hole::SectionKind;

use super::Desk;
use super::block::Paper;
use crate::draw::path::{PathPicture, Scale, path};
use crate::draw::strip::{Barred, Part, PartKind, StripPicture, strip};

/// Points the path is drawn with.
const POINTS: f64 = 400.0;

/// The pages.
pub(super) fn pages(desk: &Desk<'_>, paper: &mut Paper) {
    let Sizes { whole, lateral, .. } = sizes(desk);
    paper.section("Well sketch", "");
    let layout = desk.program.layout.as_ref();
    let top = desk.job.trajectory.first_md();
    let everything = picture(desk, top, layout);
    paper.drawing("path", path(&everything, Scale::True, whole), "The whole path in the vertical section.");
    let from = layout.map_or(top, |l| l.casing_packer_top);
    let part = picture(desk, from, layout);
    let caption = "The liner from the casing packer to total depth.";
    paper.drawing("lateral", path(&part, Scale::Stretched, lateral), caption);
    strips(desk, paper);
}

struct Sizes {
    whole: (f64, f64),
    lateral: (f64, f64),
    rows: usize,
}

fn sizes(desk: &Desk<'_>) -> Sizes {
    let (width, height) = (desk.sheet.width, desk.sheet.height);
    let span = desk.program.layout.as_ref().map_or(0.0, |l| (l.shoe - l.casing_packer_top).in_ft());
    let rows = (span / 950.0).round().clamp(3.0, 10.0);
    Sizes { whole: (width, 0.58 * height), lateral: (width, 0.28 * height), rows: rows as usize }
}

fn picture(desk: &Desk<'_>, from: MeasuredDepth, layout: Option<&Layout>) -> PathPicture {
    let (job, system) = (desk.job, desk.units.0);
    let azimuth = job.trajectory.section_azimuth();
    let place = |md: MeasuredDepth| {
        let reach = MeasuredDepth::m(job.trajectory.section_at(md, azimuth).si());
        (reach.shown(system), job.trajectory.tvd_at(md).shown(system))
    };
    let bottom = job.file.hole.total_depth;
    let step = ((bottom - from) / POINTS).max(Length::m(0.1));
    let depths: Vec<MeasuredDepth> = job.trajectory.samples(from, bottom, step).map(|p| p.md).collect();
    let shoe = casing_shoe(desk);
    let stages = layout.map(|l| l.stages.as_slice()).unwrap_or_default();
    PathPicture {
        cased: shoe.map_or(0, |s| depths.partition_point(|d| *d <= s)),
        path: depths.into_iter().map(place).collect(),
        packers: stages.iter().map(|s| place(s.packer.top)).collect(),
        sleeves: stages.iter().map(|s| (place(s.sleeve.ports), s.stage)).collect(),
        hanger: layout.map(|l| place(l.casing_packer_top)),
        shoe: layout.map(|l| place(l.shoe)),
        unit: desk.units.unit::<MeasuredDepth>(),
    }
}

/// Bottom of the deepest cased section.
fn casing_shoe(desk: &Desk<'_>) -> Option<MeasuredDepth> {
    let cased = desk.job.hole.sections().iter().filter(|s| matches!(s.kind, SectionKind::Cased { .. }));
    cased.map(|s| s.bottom).max_by(MeasuredDepth::total_cmp)
}

fn strips(desk: &Desk<'_>, paper: &mut Paper) {
    let lead = "The hole as the caliper found it, with what is to stand in it. The wall is the largest reading \
                of each short stretch, so that no washout is lost.";
    paper.section("The lateral, tool by tool", lead);
    let Some(layout) = &desk.program.layout else { return paper.absent("Layout") };
    let rows = sizes(desk).rows;
    let size = (desk.sheet.width, (rows as f64 * 64.0 + 24.0).min(desk.sheet.height - 70.0));
    paper.drawing("strip", strip(&strip_picture(desk, layout, rows), size, rows), "");
}

fn strip_picture(desk: &Desk<'_>, layout: &Layout, rows: usize) -> StripPicture {
    let (job, system) = (desk.job, desk.units.0);
    let (from, to) = (layout.casing_packer_top, job.file.hole.total_depth);
    let (md, across) = (MeasuredDepth::KIND.shown(system), Diameter::KIND.shown(system));
    let places = rows as f64 * desk.sheet.width;
    let each = (to - from) / places;
    let mut hole = Vec::new();
    for i in 0..places as usize {
        let (a, b) = (from + each * i as f64, from + each * (i + 1) as f64);
        if let Ok(d) = job.hole.largest(a, b) {
            hole.extend([(a.shown(system), d.shown(system)), (b.shown(system), d.shown(system))]);
        }
    }
    StripPicture {
        ends: (from.shown(system), to.shown(system)),
        hole,
        parts: parts(desk, layout),
        barred: job
            .file
            .exclusion
            .iter()
            .map(|e| Barred { from: e.from.shown(system), to: e.to.shown(system) })
            .collect(),
        shoe: casing_shoe(desk).map(|s| s.shown(system)),
        depth_unit: desk.units.unit::<MeasuredDepth>(),
        per_depth: md.factor / across.factor,
    }
}

fn parts(desk: &Desk<'_>, layout: &Layout) -> Vec<Part> {
    let (file, system) = (&desk.job.file, desk.units.0);
    let part = |top: MeasuredDepth, bottom: MeasuredDepth, od: Diameter, kind, stage| Part {
        top: top.shown(system),
        bottom: bottom.shown(system),
        od: od.shown(system),
        kind,
        stage,
    };
    let pipe = desk.job.liner().map_or(Diameter::ZERO, |l| l.table.od);
    let mut parts = vec![part(layout.casing_packer_top, layout.shoe, pipe, PartKind::Pipe, None)];
    for row in layout.tally.iter().filter(|r| r.kind == ItemKind::CasingPacker) {
        parts.push(part(row.top, row.bottom, file.casing_packer.od, PartKind::Packer, None));
    }
    for s in &layout.stages {
        let (p, v) = (&s.packer, &s.sleeve);
        parts.push(part(p.element_top, p.element_bottom, file.packer.od, PartKind::Packer, Some(s.stage)));
        parts.push(part(v.top, v.bottom, file.sleeve.od, PartKind::Sleeve, Some(s.stage)));
    }
    parts
}
