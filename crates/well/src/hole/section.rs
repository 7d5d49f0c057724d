//! Sections of the hole: cased or open, from top to bottom without gap or overlap.

use crate::Finding;
use crate::hole::check;
use quantity::{Diameter, MeasuredDepth, Quantity, Text, said};

/// What a section of hole is.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum SectionKind {
    /// Lined with casing.
    Cased {
        /// Inner diameter.
        inner: Diameter,
        /// Drift diameter, if known.
        drift: Option<Diameter>,
    },
    /// Open, drilled with a bit.
    Open {
        /// Bit size.
        bit: Diameter,
    },
}

impl SectionKind {
    /// The nominal diameter: inner diameter of the casing, or bit size.
    pub fn nominal(self) -> Diameter {
        match self {
            SectionKind::Cased { inner, .. } => inner,
            SectionKind::Open { bit } => bit,
        }
    }

    /// Whether there is no casing.
    pub fn is_open(self) -> bool {
        matches!(self, SectionKind::Open { .. })
    }
}

/// One section of hole.
#[derive(Debug, Clone, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Section {
    /// What it is called.
    pub name: String,
    /// Where it begins.
    pub top: MeasuredDepth,
    /// Where it ends.
    pub bottom: MeasuredDepth,
    /// What it is.
    pub kind: SectionKind,
}

/// Sections meet if they are no further apart than this, m.
const JOINT: f64 = 0.01;
/// The smallest and the largest diameter a hole is expected to have, m.
const EXPECTED: (f64, f64) = (2.0 * quantity::constant::INCH, 60.0 * quantity::constant::INCH);

impl Section {
    /// A section of hole.
    pub fn new(
        name: impl Into<String>,
        top: MeasuredDepth,
        bottom: MeasuredDepth,
        kind: SectionKind,
    ) -> Self {
        Self { name: name.into(), top, bottom, kind }
    }

    /// Name and depths, for a message.
    fn told(&self) -> Text {
        said!("{} ({} to {})", self.name, self.top, self.bottom)
    }

    fn fits(&self) -> bool {
        let sizes = match self.kind {
            SectionKind::Cased { inner, drift } => [inner, drift.unwrap_or(inner)],
            SectionKind::Open { bit } => [bit, bit],
        };
        let long = (self.bottom - self.top).in_m() > JOINT;
        long && self.top.is_finite()
            && self.bottom.is_finite()
            && sizes.iter().all(|d| d.is_finite() && *d > Diameter::ZERO)
    }
}

/// The sections in order, joined; `None` if they describe no hole.
pub(super) fn joined(mut sections: Vec<Section>, findings: &mut Vec<Finding>) -> Option<Vec<Section>> {
    if sections.is_empty() {
        findings.push(check::SECTION_MISSING.found("the hole has no section"));
        return None;
    }
    let bad: Vec<&Section> = sections.iter().filter(|s| !s.fits()).collect();
    for section in &bad {
        let message = said!("{}: depths must increase and diameters be above zero", section.told());
        findings.push(check::SECTION_FORM.found(message).value(section.kind.nominal()));
    }
    if !bad.is_empty() {
        return None;
    }
    if !sections.is_sorted_by(|a, b| a.top <= b.top) {
        findings.push(
            check::SECTION_ORDER
                .found("the sections are not listed from top to bottom; they are put in order"),
        );
        sections.sort_by(|a, b| a.top.total_cmp(&b.top));
    }
    let mut whole = true;
    for at in 1..sections.len() {
        let (upper, lower) = sections.split_at_mut(at);
        let (Some(upper), Some(lower)) = (upper.last_mut(), lower.first()) else { continue };
        let apart = lower.top - upper.bottom;
        if apart.abs().in_m() <= JOINT && lower.top > upper.top {
            upper.bottom = lower.top;
            continue;
        }
        let (check, word) = match apart.in_m() < 0.0 {
            true => (&check::SECTION_OVERLAP, "overlap"),
            false => (&check::SECTION_GAP, "leave a gap"),
        };
        let message = said!("{} and {} {word}", upper.told(), lower.told());
        findings.push(check.found(message).value(apart.abs()).depth(upper.bottom));
        whole = false;
    }
    note_sizes(&sections, findings);
    whole.then_some(sections)
}

fn note_sizes(sections: &[Section], findings: &mut Vec<Finding>) {
    let mut passage: Option<&Section> = None;
    let mut open_above: Option<(&Section, Diameter)> = None;
    for section in sections {
        let nominal = section.kind.nominal();
        if nominal.si() < EXPECTED.0 || nominal.si() > EXPECTED.1 {
            let message = said!("{} has a diameter no hole is expected to have", section.told());
            findings.push(check::SECTION_SIZE.found(message).value(nominal).depth(section.top));
        }
        match section.kind {
            SectionKind::Cased { .. } => {
                if let Some((open, _)) = open_above {
                    let message = said!("{} is cased below the open {}", section.told(), open.name);
                    findings.push(check::CASED_BELOW_OPEN.found(message).depth(section.top));
                }
                if passage.is_none_or(|p| way(section) < way(p)) {
                    passage = Some(section);
                }
            }
            SectionKind::Open { bit } => {
                if let Some(casing) = passage.filter(|p| bit > way(p)) {
                    let message = said!("the bit of {} does not pass {}", section.told(), casing.name);
                    findings.push(
                        check::BIT_OVER_CASING
                            .found(message)
                            .value(bit)
                            .limit(way(casing))
                            .depth(section.top),
                    );
                }
                if let Some((open, above)) = open_above.filter(|(_, above)| bit > *above) {
                    let message =
                        said!("{} was drilled with a larger bit than {} above it", section.told(), open.name);
                    findings
                        .push(check::BIT_OVER_BIT.found(message).value(bit).limit(above).depth(section.top));
                }
                open_above = Some((section, bit));
            }
        }
    }
}

/// What passes a cased section: its drift if known, else its inner diameter.
fn way(section: &Section) -> Diameter {
    match section.kind {
        SectionKind::Cased { inner, drift } => drift.unwrap_or(inner),
        SectionKind::Open { bit } => bit,
    }
}
