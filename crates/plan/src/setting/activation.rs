//! The activation fluid: how much, how far up it reaches, what displaces it, how long it takes.

use std::f64::consts::{FRAC_PI_2, FRAC_PI_4};

use quantity::*;
use well::Job;
use well::job::{Activation, StringRole};

use super::checks;
use super::result::ActivationPlan;
use crate::Ledger;
use crate::layout::{ItemKind, Layout};
use crate::path::FlowPath;

/// Standard deviations of the caliper that the excess is to cover.
const SIGMAS: f64 = 2.0;
/// Share of the open hole without a reading from which it is said.
const UNMEASURED: f64 = 0.01;

/// Places too tight for the string that a finding names one by one.
const MOST_NAMED: usize = 6;

/// A stretch of annulus.
struct Stretch {
    top: MeasuredDepth,
    bottom: MeasuredDepth,
    outer: Diameter,
    volume: Volume,
    /// Where the hole is tighter than that, and its diameter there.
    tight: Option<(MeasuredDepth, Diameter)>,
}

/// The activation fluid of a job; none with a finding where its rate is not above zero or the hole
/// does not reach.
pub(super) fn activation(
    job: &Job,
    layout: &Layout,
    table: &Activation,
    ledger: &mut Ledger,
) -> Option<ActivationPlan> {
    if table.rate.si() <= 0.0 {
        let message = "the activation fluid has no rate of displacement";
        ledger.say(checks::MISSING.found(message).field("setting.activation.rate"));
        return None;
    }
    let shoe = casing_shoe(job);
    let stretches = stretches(job, layout, shoe, ledger)?;
    let (open, cased): (Vec<_>, Vec<_>) = stretches.iter().partition(|s| s.top >= shoe);
    let volume_of = |list: &[&Stretch]| list.iter().map(|s| s.volume).sum::<Volume>();
    let open_hole = volume_of(&open);
    let overlap =
        volume_of(&cased.into_iter().filter(|s| s.top >= layout.casing_packer_top).collect::<Vec<_>>());
    let sigma = job.file.hole.caliper.as_ref().map_or(Diameter::ZERO, |c| c.sigma);
    let excess = open_hole * table.excess.si();
    let volume = open_hole + excess;
    let displacement = FlowPath::of(job, layout).volume_to(layout.toe_tool);
    let pumped = volume + displacement;
    let plan = ActivationPlan {
        fluid: table.fluid.clone(),
        density: table.density,
        open_hole,
        open_hole_doubt: open.iter().map(|s| doubt(s, sigma * SIGMAS)).sum(),
        overlap,
        excess,
        volume,
        top: top_of(&stretches, volume),
        displacement,
        pumped,
        rate: table.rate,
        pump_time: pumped / table.rate,
        exposed_while_pumping: volume / table.rate,
    };
    judge(job, layout, &plan, shoe, ledger);
    tight(&stretches, ledger);
    Some(plan)
}

/// Bottom of the casing.
pub(super) fn casing_shoe(job: &Job) -> MeasuredDepth {
    let cased = job.hole.sections().iter().filter(|s| !s.kind.is_open()).map(|s| s.bottom);
    cased.fold(job.hole.top(), MeasuredDepth::max)
}

/// Annulus from the shoe of the liner to the surface, toe first, cut at the casing shoe; above the
/// casing packer round the treating string.
fn stretches(job: &Job, layout: &Layout, shoe: MeasuredDepth, ledger: &mut Ledger) -> Option<Vec<Stretch>> {
    let treating = job.strings.iter().find(|s| s.table.role == StringRole::Treating).map(|s| s.pipe.outer());
    let liner = job.liner().map(|l| l.pipe.outer())?;
    let rows = layout.tally.iter().map(|row| {
        let outer = match row.kind {
            ItemKind::Toe => job.file.toe.od,
            ItemKind::Joint | ItemKind::Pup => liner,
            ItemKind::Sleeve => job.file.sleeve.od,
            ItemKind::Packer => job.file.packer.od,
            ItemKind::CasingPacker => job.file.casing_packer.od,
        };
        (row.top, row.bottom, outer)
    });
    let above = (job.hole.top(), layout.casing_packer_top, treating.unwrap_or(liner));
    let mut out = Vec::new();
    for (top, bottom, outer) in rows.chain([above]) {
        let cut = if top < shoe && bottom > shoe { shoe } else { top };
        for (top, bottom) in [(cut, bottom), (top, cut)].into_iter().filter(|(a, b)| b > a) {
            match job.hole.annulus(top, bottom, outer) {
                Ok(a) => out.push(Stretch { top, bottom, outer, volume: a.volume, tight: a.tight }),
                Err(e) => {
                    ledger.say(checks::MISSING.found(said!("the annulus: {e}")).field("hole.section"));
                    return None;
                }
            }
        }
    }
    Some(out)
}

/// Change of the volume of a stretch when its diameter is off all along: `π/2 D δ L`.
fn doubt(s: &Stretch, off: Diameter) -> Volume {
    let length = s.bottom - s.top;
    if length.si() <= 0.0 {
        return Volume::ZERO;
    }
    let area = s.volume / length + s.outer.circle();
    let mean = (area.si() / FRAC_PI_4).sqrt();
    Volume::m3(FRAC_PI_2 * mean * off.si() * length.si())
}

/// Depth that a volume reaches from the toe up; the surface where it reaches it.
fn top_of(stretches: &[Stretch], volume: Volume) -> MeasuredDepth {
    let mut left = volume;
    for s in stretches {
        if s.volume >= left && s.volume.si() > 0.0 {
            return s.bottom - (s.bottom - s.top) * (left / s.volume);
        }
        left -= s.volume;
    }
    stretches.last().map_or(MeasuredDepth::ZERO, |s| s.top)
}

fn judge(job: &Job, layout: &Layout, plan: &ActivationPlan, shoe: MeasuredDepth, ledger: &mut Ledger) {
    if plan.excess < plan.open_hole_doubt {
        let message = "the excess of activation fluid is less than the doubt of the annulus";
        let finding = checks::ACTIVATION.found(message).field("setting.activation.excess");
        ledger.say(finding.value(plan.excess).limit(plan.open_hole_doubt));
    }
    let length = layout.shoe - shoe;
    let measured = job.hole.measured(shoe, layout.shoe).unwrap_or(Length::ZERO);
    if length.si() > 0.0 && (length - measured) / length > UNMEASURED {
        let message = "part of the open hole has no caliper reading; its annulus is taken at bit size";
        ledger.say(
            checks::NO_CALIPER.found(message).field("hole.caliper").value(length - measured).limit(length),
        );
    }
}

/// One finding for all places where the caliper reads less than the string.
fn tight(stretches: &[Stretch], ledger: &mut Ledger) {
    let mut places: Vec<_> =
        stretches.iter().filter_map(|s| s.tight.map(|(at, hole)| (at, hole, s.outer))).collect();
    let tightest = places.iter().copied().min_by(|a, b| (a.1 - a.2).total_cmp(&(b.1 - b.2)));
    let Some((_, hole, outer)) = tightest else { return };
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    let Some(first) = places.first().map(|p| p.0) else { return };
    let named = Text::join(places.iter().take(MOST_NAMED).map(|p| said!("{}", p.0)), ", ");
    let more = match places.len().saturating_sub(MOST_NAMED) {
        0 => String::new(),
        n => format!(" and {n} more"),
    };
    let word = if places.len() == 1 { "place" } else { "places" };
    let message = said!(
        "the caliper reads less than the string's diameter in {} {word}: at {named}{more}",
        places.len()
    );
    let finding = checks::TIGHT.found(message).depth(first).field("hole.caliper");
    ledger.say(finding.value(hole).limit(outer));
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stretch(top: f64, bottom: f64, volume: f64) -> Stretch {
        let outer = Diameter::inch(4.5);
        let (top, bottom) = (MeasuredDepth::m(top), MeasuredDepth::m(bottom));
        Stretch { top, bottom, outer, volume: Volume::m3(volume), tight: None }
    }

    #[test]
    fn tight_places_are_named_by_depth() {
        let hole = Diameter::inch(5.0);
        let tight = |md: f64| Stretch { tight: Some((MeasuredDepth::m(md), hole)), ..stretch(0.0, 1.0, 1.0) };
        let said = |places: &[f64]| {
            let mut ledger = Ledger::default();
            super::tight(&places.iter().map(|d| tight(*d)).collect::<Vec<_>>(), &mut ledger);
            ledger.findings.first().map(|f| f.message.text(System::Metric)).unwrap_or_default()
        };
        assert!(
            said(&[2050.0, 2000.0]).ends_with("in 2 places: at 2000.00 m, 2050.00 m"),
            "{}",
            said(&[2050.0, 2000.0])
        );
        assert!(said(&[2000.0]).contains("in 1 place: at"));
        assert!(said(&[1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0]).ends_with(" and 2 more"));
        assert_eq!(said(&[]), "");
    }

    #[test]
    fn the_top_of_a_volume() {
        let list = [stretch(1000.0, 1500.0, 4.0), stretch(800.0, 1000.0, 2.0), stretch(0.0, 800.0, 8.0)];
        let top = |v: f64| top_of(&list, Volume::m3(v)).in_m();
        assert!((top(2.0) - 1250.0).abs() < 1e-9);
        assert!((top(4.0) - 1000.0).abs() < 1e-9);
        assert!((top(5.0) - 900.0).abs() < 1e-9);
        assert!((top(10.0) - 400.0).abs() < 1e-9);
        assert_eq!(top(20.0), 0.0);
    }

    #[test]
    fn the_doubt_is_the_change_of_volume() {
        let (d, off, l) = (0.155, 0.001, 300.0);
        let ring = |d: f64| Diameter::m(d).ring(Diameter::inch(4.5)).si() * l;
        let s = stretch(0.0, l, ring(d));
        let change = 0.5 * (ring(d + off) - ring(d - off));
        assert!((doubt(&s, Diameter::m(off)).si() / change - 1.0).abs() < 1e-9);
    }
}
