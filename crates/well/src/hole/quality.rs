//! Whether the caliper fits the hole: readings outside open hole, implausible ones, coverage,
//! and the signs of a caliper that cannot be trusted.

use crate::Finding;
use crate::hole::caliper::Caliper;
use crate::hole::check;
use crate::hole::profile::Profile;
use crate::hole::section::{Section, SectionKind};
use quantity::{Diameter, Length, MeasuredDepth, Quantity, Ratio, said};

/// Readings outside these multiples of the bit size are no hole.
pub(crate) const PLAUSIBLE: (f64, f64) = (0.5, 3.0);
/// A shift between logger's and driller's depth beyond this is doubtful.
const LARGE_SHIFT: Length = Length::m(10.0);
/// Share of open hole below which coverage is a warning.
const COVERED: f64 = 0.95;
/// Length of casing over which the caliper is compared with its inner diameter.
const IN_CASING: Length = Length::m(30.0);
/// Difference in casing beyond which the caliper is doubtful.
const CASING_SLACK: Diameter = Diameter::inch(0.2);
/// A median this much below bit size is doubtful.
const UNDER_BIT: Diameter = Diameter::inch(0.125);
/// This many equal readings in a row at the largest value mean that the arms were fully open.
const STUCK: usize = 5;

/// The caliper shifted, and without the readings that cannot be hole.
pub(super) fn fitted(
    caliper: &Caliper,
    shift: Length,
    sections: &[Section],
    findings: &mut Vec<Finding>,
) -> Option<Caliper> {
    if !shift.is_finite() {
        findings.push(
            check::CALIPER_SHIFT
                .found("the depth shift of the caliper is not finite; the caliper is not used"),
        );
        return None;
    }
    note_shift(shift, findings);
    note_casing_reading(caliper, shift, sections, findings);
    let mut first: Option<MeasuredDepth> = None;
    let (mut cased, mut outside, mut implausible) = (0, 0, 0);
    let (kept, _) = caliper.revised(shift, |sample| {
        let bit = match place(sections, sample.depth) {
            Place::Open(bit) => bit,
            Place::Cased => {
                cased += 1;
                return false;
            }
            Place::Outside => {
                outside += 1;
                return false;
            }
        };
        let fits = |d: Option<Diameter>| d.is_none_or(|d| d >= bit * PLAUSIBLE.0 && d <= bit * PLAUSIBLE.1);
        let good = fits(sample.diameter) && fits(sample.across);
        if !good {
            implausible += 1;
            first.get_or_insert(sample.depth);
        }
        good
    });
    if cased + outside > 0 {
        let message =
            said!("{cased} caliper readings are in casing and {outside} outside the hole; they are not used");
        findings.push(check::CALIPER_PLACE.found(message));
    }
    if let Some(depth) = first {
        let message =
            said!("{implausible} caliper readings are below half or above three times the bit size");
        findings.push(check::CALIPER_IMPLAUSIBLE.found(message).depth(depth));
    }
    match &kept {
        Some(kept) => note_trust(kept, sections, findings),
        None => findings.push(check::CALIPER_EMPTY.found("no caliper reading lies in the open hole")),
    }
    kept
}

/// What is at a depth.
enum Place {
    Open(Diameter),
    Cased,
    Outside,
}

/// What is at a depth; a joint belongs to the open side, if one is.
fn place(sections: &[Section], depth: MeasuredDepth) -> Place {
    let at = sections.partition_point(|s| s.bottom < depth);
    let here = sections.get(at..).unwrap_or(&[]).iter().take_while(|s| s.top <= depth);
    let mut found = Place::Outside;
    for section in here {
        match section.kind {
            SectionKind::Open { bit } => return Place::Open(bit),
            SectionKind::Cased { .. } => found = Place::Cased,
        }
    }
    found
}

fn note_shift(shift: Length, findings: &mut Vec<Finding>) {
    if shift.abs() > LARGE_SHIFT {
        let finding = check::CALIPER_SHIFT.found("the depth shift of the caliper is unusually large");
        findings.push(finding.value(shift).limit(LARGE_SHIFT));
    }
}

fn median(mut all: Vec<Diameter>) -> Option<Diameter> {
    let middle = all.len() / 2;
    (!all.is_empty()).then(|| *all.select_nth_unstable_by(middle, Diameter::total_cmp).1)
}

/// Just above the open hole the caliper reads the casing, whose diameter is known.
fn note_casing_reading(caliper: &Caliper, shift: Length, sections: &[Section], findings: &mut Vec<Finding>) {
    let pairs = sections.iter().zip(sections.iter().skip(1));
    let shoe = pairs.filter(|(a, b)| !a.kind.is_open() && b.kind.is_open()).map(|(a, _)| a).next_back();
    let Some(casing) = shoe else { return };
    let top = casing.top.max(casing.bottom - IN_CASING);
    // The last two metres may be rathole or shoe.
    let bottom = casing.bottom - Length::m(2.0);
    let inside = caliper.samples().filter(|s| s.depth + shift >= top && s.depth + shift <= bottom);
    let readings: Vec<Diameter> = inside.filter_map(|s| s.diameter).collect();
    if readings.len() < 5 {
        return;
    }
    let nominal = casing.kind.nominal();
    if let Some(read) = median(readings)
        && (read - nominal).abs() > CASING_SLACK
    {
        let message = said!("in {} the caliper reads something else than its inner diameter", casing.name);
        findings.push(check::CALIPER_CASING.found(message).value(read).limit(nominal).depth(casing.bottom));
    }
}

/// Signs of a caliper that does not show the hole.
fn note_trust(caliper: &Caliper, sections: &[Section], findings: &mut Vec<Finding>) {
    if let Some(depth) = stuck_at_largest(caliper) {
        let largest = caliper.diameter().iter().copied().fold(Diameter::ZERO, Diameter::max);
        let message =
            "the caliper stays at its largest reading; its arms may have been fully open and the hole larger";
        findings.push(check::CALIPER_STUCK.found(message).value(largest).depth(depth));
    }
    let bridged = caliper.bridged();
    if bridged > Length::ZERO {
        let message = "short stretches without a reading are bridged by a straight line";
        findings.push(check::CALIPER_BRIDGED.found(message).value(bridged).limit(caliper.bridge()));
    }
    for section in sections {
        let SectionKind::Open { bit } = section.kind else { continue };
        let inside = caliper.samples().filter(|s| s.depth >= section.top && s.depth <= section.bottom);
        let Some(middle) = median(inside.filter_map(|s| s.diameter).collect()) else { continue };
        if bit - middle > UNDER_BIT {
            let message = said!("half of the caliper readings in {} are below bit size", section.name);
            findings
                .push(check::CALIPER_UNDER_BIT.found(message).value(middle).limit(bit).depth(section.top));
        }
    }
}

/// The depth of the first of several equal readings in a row at the largest value, if that is
/// well above the usual reading.
fn stuck_at_largest(caliper: &Caliper) -> Option<MeasuredDepth> {
    let all = caliper.diameter();
    let largest = all.iter().copied().fold(Diameter::ZERO, Diameter::max);
    let usual = median(all.to_vec())?;
    if largest < usual * 1.15 {
        return None;
    }
    let at = all.windows(STUCK).position(|run| run.iter().all(|d| *d == largest))?;
    caliper.depth().get(at).copied()
}

/// How much of each open section the caliper covers.
pub(super) fn note_coverage(
    sections: &[Section],
    caliper: Option<&Caliper>,
    profile: &Profile,
    findings: &mut Vec<Finding>,
) {
    for section in sections.iter().filter(|s| s.kind.is_open()) {
        let bit = section.kind.nominal();
        if caliper.is_none() {
            let message = said!("{} has no caliper and is taken at bit size, {bit}", section.name);
            findings.push(check::NO_CALIPER.found(message).depth(section.top));
            continue;
        }
        let length = section.bottom - section.top;
        let (a, b) = (section.top.si().max(profile.top()), section.bottom.si().min(profile.bottom()));
        let covered = Length::m(profile.measured_to(b) - profile.measured_to(a));
        let share = covered / length;
        let missing = length - covered;
        if missing.in_m() < 0.05 {
            continue;
        }
        let message = said!(
            "the caliper covers {:.1} % of {}; {} are taken at bit size, {bit}",
            100.0 * share,
            section.name,
            missing
        );
        let finding =
            check::CALIPER_COVERAGE.found(message).value(Ratio::of(share)).limit(Ratio::of(COVERED));
        let finding = finding.depth(section.top);
        let severity = if share < COVERED { crate::Severity::Warn } else { crate::Severity::Note };
        findings.push(finding.severity(severity));
    }
}
