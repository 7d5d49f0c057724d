//! The parts of a job, each from its table of the job file and the data file it names.

use quantity::*;

use super::{Desk, Quality, check, stops};
use crate::finding::Finding;
use crate::hole::{Hole, Section, SectionKind};
use crate::job::{self, JobFile};
use crate::las::{Las, caliper_curve, read_las};
use crate::trajectory::{DepthDatum, DepthUnit, Frame, SurveyOptions, Trajectory, read_survey};

impl Desk<'_> {
    /// The survey.
    pub(super) fn survey(&mut self, file: &JobFile) -> Option<Trajectory> {
        let table = &file.survey;
        let bytes = self.fetch(&table.file, "survey.file")?;
        let depth_unit = match table.depth_unit.as_deref() {
            Some("ft") => Some(DepthUnit::Foot),
            Some("m") => Some(DepthUnit::Metre),
            _ => None,
        };
        let elevation = table.datum_elevation.map(|e| Length::m(e.si()));
        let options = SurveyOptions {
            file: table.file.clone(),
            depth_unit,
            trajectory: None,
            frame: Frame {
                north: Some(table.north),
                datum: Some(DepthDatum { name: table.datum.clone(), elevation }),
                section_azimuth: table.section_azimuth,
                ..Frame::default()
            },
        };
        let read = read_survey(&bytes, &options);
        self.take(read).map(|s| s.trajectory)
    }

    /// The hole with its caliper.
    pub(super) fn hole(&mut self, file: &JobFile) -> Option<Hole> {
        let sections = file.hole.section.iter().map(|s| {
            let kind = match s.kind {
                job::SectionKind::Cased => SectionKind::Cased { inner: s.diameter, drift: None },
                job::SectionKind::Open => SectionKind::Open { bit: s.diameter },
            };
            Section::new(s.name.clone(), s.top, s.bottom, kind)
        });
        let caliper = match &file.hole.caliper {
            None => None,
            Some(table) => {
                let las = self.log(&table.file, "hole.caliper.file")?;
                let read = caliper_curve(&las, table.curve.as_deref());
                let refused = stops(&read.findings);
                let curve = self.take(read);
                // a curve without a reading leaves the hole at bit size, as a finding says
                if curve.is_none() && refused {
                    return None;
                }
                curve
            }
        };
        let shift = file.hole.caliper.as_ref().map_or(Length::ZERO, |c| c.shift_down - c.shift_up);
        let mut read = Hole::new(sections.collect(), caliper, shift);
        read.findings = read.findings.into_iter().map(|f| in_job_file(f, file)).collect();
        self.take(read)
    }

    fn log(&mut self, name: &str, field: &str) -> Option<Las> {
        let bytes = self.fetch(name, field)?;
        self.take(read_las(&bytes, name))
    }

    /// The log of rock quality; `Some(None)` where the job names none.
    pub(super) fn quality(&mut self, file: &JobFile) -> Option<Option<Quality>> {
        let Some(table) = &file.rock.quality else { return Some(None) };
        let las = self.log(&table.file, "rock.quality.file")?;
        let readings = las.curve(&table.curve).and_then(|c| c.numbers());
        let (Some(depths), Some(readings)) = (las.depths(), readings) else {
            self.findings.push(no_curve(&las, &table.curve));
            return None;
        };
        let shift = table.shift_down - table.shift_up;
        let depths: Vec<MeasuredDepth> = depths.iter().map(|d| *d + shift).collect();
        let quality = Quality::new(&depths, readings, table.higher_is_better);
        if quality.is_none() {
            let message = said!("the curve `{}` has no two readings", table.curve);
            self.findings.push(check::CURVE.found(message).field("rock.quality.curve"));
        }
        Some(quality)
    }
}

/// A finding on the hole at the field of the job file it is about.
fn in_job_file(finding: Finding, file: &JobFile) -> Finding {
    if finding.id.starts_with("hole-caliper") {
        return finding.field("hole.caliper");
    }
    let meets = |depth: MeasuredDepth| {
        let sections = file.hole.section.iter().enumerate();
        let tops = sections.clone().filter(|(_, s)| s.top == depth).map(|(i, _)| (i, "top"));
        let bottoms = sections.filter(|(_, s)| s.bottom == depth).map(|(i, _)| (i, "bottom"));
        tops.chain(bottoms).next()
    };
    match finding.place.depth.and_then(meets) {
        Some((i, side)) => finding.field(format!("hole.section[{}].{side}", i + 1)),
        None => finding.field("hole.section"),
    }
}

fn no_curve(las: &Las, name: &str) -> Finding {
    let curves = las.curves.iter().map(|c| c.mnemonic.as_str()).collect::<Vec<_>>().join(", ");
    let message = said!("`{}` has no numeric curve `{name}` by depth; its curves are: {curves}", las.file);
    check::CURVE.found(message).field("rock.quality.curve")
}
