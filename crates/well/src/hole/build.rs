//! Putting the hole together from its sections and a caliper.

use crate::hole::caliper::Caliper;
use crate::hole::profile::{HoleError, Local, Profile};
use crate::hole::quality;
use crate::hole::section::{Section, joined};
use crate::{Finding, Read};
use quantity::{Diameter, Length, MeasuredDepth, Quantity};

/// The hole as drilled.
#[derive(Debug, Clone)]
pub struct Hole {
    sections: Vec<Section>,
    caliper: Option<Caliper>,
    pub(super) profile: Profile,
}

impl Hole {
    /// The hole from its sections, listed downward, and a caliper run in it. `shift` is added to
    /// every depth of the caliper, to bring the logger's depth to the driller's.
    ///
    /// The caliper counts in open hole only. Readings below half or above three times the bit
    /// size are left out; where there is none, bit size is taken. Both are told in the findings.
    pub fn new(sections: Vec<Section>, caliper: Option<Caliper>, shift: Length) -> Read<Self> {
        let mut findings: Vec<Finding> = Vec::new();
        let Some(sections) = joined(sections, &mut findings) else { return Read::none(findings) };
        let caliper = match &caliper {
            Some(caliper) => quality::fitted(caliper, shift, &sections, &mut findings),
            None => None,
        };
        let Some(profile) = Profile::new(&sections, caliper.as_ref()) else { return Read::none(findings) };
        quality::note_coverage(&sections, caliper.as_ref(), &profile, &mut findings);
        Read::some(Self { sections, caliper, profile }, findings)
    }

    /// The sections, downward.
    pub fn sections(&self) -> &[Section] {
        &self.sections
    }

    /// The caliper in use, with its depths shifted.
    pub fn caliper(&self) -> Option<&Caliper> {
        self.caliper.as_ref()
    }

    /// Top of the hole.
    pub fn top(&self) -> MeasuredDepth {
        MeasuredDepth::m(self.profile.top())
    }

    /// Bottom of the hole.
    pub fn bottom(&self) -> MeasuredDepth {
        MeasuredDepth::m(self.profile.bottom())
    }

    /// The section at a depth; at a joint the lower one.
    pub fn section_at(&self, depth: MeasuredDepth) -> Option<&Section> {
        let inside = depth >= self.top() && depth <= self.bottom();
        let at =
            self.sections.partition_point(|s| s.bottom <= depth).min(self.sections.len().saturating_sub(1));
        self.sections.get(at).filter(|_| inside)
    }

    /// The hole at a depth; at a joint that of the lower side.
    pub fn at(&self, depth: MeasuredDepth) -> Result<Local, HoleError> {
        let (depth, _) = self.profile.span(depth, depth)?;
        self.profile.local(depth).ok_or(HoleError::Outside {
            asked: MeasuredDepth::m(depth),
            top: self.top(),
            bottom: self.bottom(),
        })
    }

    /// The diameter at a depth: that of the circle of the same area.
    pub fn diameter_at(&self, depth: MeasuredDepth) -> Result<Diameter, HoleError> {
        self.at(depth).map(|local| local.diameter)
    }

    /// The part of a stretch whose diameter is known from casing or caliper.
    pub fn measured(&self, top: MeasuredDepth, bottom: MeasuredDepth) -> Result<Length, HoleError> {
        let (a, b) = self.profile.span(top, bottom)?;
        Ok(Length::from_si((self.profile.measured_to(b) - self.profile.measured_to(a)).clamp(0.0, b - a)))
    }
}
