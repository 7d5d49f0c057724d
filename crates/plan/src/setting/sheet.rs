//! The pressure sheet: every step in job order, with what it needs, what it must not pass, and the
//! pressure to go to.

use physics::Result;
use quantity::*;
use well::Job;
use well::job::SystemKind;

use super::chain::{Group, full_set};
use super::result::*;
use super::step::*;
use super::target::{below, practical_step, target};
use super::volume::ClosedString;

/// What the sheet is made of.
pub(super) struct Desk<'a> {
    pub job: &'a Job,
    pub groups: &'a [Group<'a>],
    pub limits: &'a [PressureLimit],
    pub string: &'a ClosedString,
    pub circulating_limit: GaugePressure,
    pub planned_wait: Option<Time>,
}

/// A step before its target is chosen.
struct Draft<'a> {
    action: StepAction,
    /// Lowest and highest device of the step: the first that may act, the one that needs most.
    devices: Option<(&'a DeviceWindow, &'a DeviceWindow)>,
    low: GaugePressure,
    bound: Bound,
    hold: Time,
}

/// What a step must not pass.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Bound {
    pub high: GaugePressure,
    pub by: BoundBy,
}

impl Bound {
    fn lower(self, other: Self) -> Self {
        if other.high < self.high { other } else { self }
    }
}

impl<'a> Desk<'a> {
    fn group(&self, kind: DeviceKind) -> Option<&Group<'a>> {
        self.groups.iter().find(|g| g.kind() == Some(kind))
    }

    /// The group that acts after one.
    fn next(&self, kind: DeviceKind) -> Option<&Group<'a>> {
        let at = self.groups.iter().position(|g| g.kind() == Some(kind))?;
        self.groups.get(at + 1)
    }

    /// The lowest ceiling of the string while setting.
    fn ceiling(&self) -> Bound {
        let lowest = self.limits.first();
        let high = lowest.map_or(GaugePressure::ZERO, |l| l.ceiling);
        Bound { high, by: lowest.map_or(BoundBy::End, |l| BoundBy::Limit(l.name.clone())) }
    }

    /// The lowest at which the next group may act, less the margin.
    fn before(&self, next: Option<&Group<'a>>) -> Bound {
        let Some(first) = next.and_then(Group::first) else { return self.ceiling() };
        let high = first.low - self.job.file.setting.margin;
        Bound { high, by: BoundBy::NextDevice(first.name()) }.lower(self.ceiling())
    }

    /// While the first stage is opened: the treating limit, and the ceilings of pipe and sleeves.
    fn while_opening(&self) -> Bound {
        let stays = |l: &&PressureLimit| !matches!(l.kind, LimitKind::Surface | LimitKind::SettingBall);
        let start = Bound { high: self.job.file.limits.treating_pressure, by: BoundBy::Treating };
        let others = self.limits.iter().filter(stays);
        others.fold(start, |b, l| b.lower(Bound { high: l.ceiling, by: BoundBy::Limit(l.name.clone()) }))
    }

    /// The whole sheet.
    pub fn sheet(&self) -> Result<Vec<PressureStep>> {
        let mut drafts = self.opening_rows();
        if self.job.file.system.kind == SystemKind::HydraulicSet {
            drafts.extend(self.start(StepAction::CloseIsolation, DeviceKind::Isolation));
        }
        drafts.extend(self.start(StepAction::StartCasingPacker, DeviceKind::CasingPacker));
        drafts.extend(self.set(StepAction::SetCasingPacker, DeviceKind::CasingPacker)?);
        drafts.extend(self.start(StepAction::StartPackers, DeviceKind::Packer));
        drafts.extend(self.set(StepAction::SetPackers, DeviceKind::Packer)?);
        drafts.extend(self.closing_rows());
        if let Some(wait) = self.planned_wait {
            drafts.push(self.still(StepAction::Wait, wait));
        }
        if let Some(d) = self.group(DeviceKind::PressureSleeve).and_then(Group::first) {
            drafts.push(Draft {
                action: StepAction::OpenPressureSleeve,
                devices: Some((d, d)),
                low: d.high,
                bound: self.while_opening(),
                hold: Time::ZERO,
            });
        }
        Ok(self.rows(drafts))
    }

    /// Circulating, and landing what closes the toe.
    fn opening_rows(&self) -> Vec<Draft<'a>> {
        let limit = self.circulating_limit;
        let first = self.groups.first();
        let bound = Bound { high: limit, by: BoundBy::Circulating };
        let action = match self.job.file.system.kind {
            SystemKind::HydraulicSet => StepAction::LandBall,
            SystemKind::FluidActivated => StepAction::LandPlug,
        };
        let devices = first.and_then(Group::first).map(|d| (d, d));
        let low = GaugePressure::ZERO;
        let landing = self.before(first);
        let landing = Bound { high: landing.high.max(low), ..landing };
        vec![
            Draft { action: StepAction::Circulate, devices, low, bound, hold: Time::ZERO },
            Draft { action, devices, low, bound: landing, hold: Time::ZERO },
        ]
    }

    /// A group starts to act.
    fn start(&self, action: StepAction, kind: DeviceKind) -> Option<Draft<'a>> {
        let group = self.group(kind)?;
        let (first, last) = (group.first()?, group.last_to_start()?);
        let bound = self.before(self.next(kind));
        Some(Draft { action, devices: Some((first, last)), low: last.high, bound, hold: Time::ZERO })
    }

    /// A group is set fully.
    fn set(&self, action: StepAction, kind: DeviceKind) -> Result<Option<Draft<'a>>> {
        let Some(group) = self.group(kind) else { return Ok(None) };
        let (Some(first), Some(last)) = (group.first(), group.last()) else { return Ok(None) };
        let next = self.next(kind);
        let (mut low, mut bound) = (last.done(), self.before(next));
        if let Some(next) = next
            && let Some(window) = full_set(group, next, self.job.file.setting.margin)?
        {
            low = window.low.gauge();
            let by = bound.by.clone();
            bound = bound.lower(Bound { high: window.high.gauge(), by });
        }
        let hold = self.job.file.setting.hold;
        Ok(Some(Draft { action, devices: Some((first, last)), low, bound, hold }))
    }

    /// Test of the string, bleeding, test of the annulus, moving off.
    fn closing_rows(&self) -> Vec<Draft<'a>> {
        let setting = &self.job.file.setting;
        let sleeve = self.group(DeviceKind::PressureSleeve);
        let test = Draft {
            action: StepAction::TestString,
            devices: None,
            low: setting.test_pressure,
            bound: self.before(sleeve),
            hold: setting.test_time,
        };
        let mut out = vec![test];
        let annulus = setting.annulus_pressure;
        let level = Bound { high: annulus, by: BoundBy::End };
        out.push(Draft {
            action: StepAction::Bleed,
            devices: None,
            low: annulus,
            bound: level,
            hold: Time::ZERO,
        });
        let limits = &self.job.file.limits;
        let held = limits.annulus_pressure > GaugePressure::ZERO;
        out.extend(held.then(|| Draft {
            action: StepAction::TestAnnulus,
            devices: self.group(DeviceKind::CasingPacker).and_then(Group::first).map(|d| (d, d)),
            low: limits.annulus_pressure,
            bound: Bound { high: limits.annulus_limit, by: BoundBy::AnnulusLimit },
            hold: setting.hold,
        }));
        out.push(self.still(StepAction::RigOff, Time::ZERO));
        out
    }

    /// A step without pressure.
    fn still(&self, action: StepAction, hold: Time) -> Draft<'a> {
        let bound = Bound { high: GaugePressure::ZERO, by: BoundBy::End };
        Draft { action, devices: None, low: GaugePressure::ZERO, bound, hold }
    }

    fn rows(&self, drafts: Vec<Draft<'a>>) -> Vec<PressureStep> {
        let mut out: Vec<PressureStep> = Vec::with_capacity(drafts.len());
        let mut before = GaugePressure::ZERO;
        for (i, draft) in drafts.into_iter().enumerate() {
            let row = self.row(i + 1, draft, before);
            if let (Some(target), Some(_)) = (row.target, row.volume_held) {
                before = target;
            }
            out.push(row);
        }
        out
    }

    /// The pressure to go to.
    fn target(&self, draft: &Draft<'_>) -> Option<GaugePressure> {
        let step = practical_step(self.job.file.job.units);
        let (low, high) = (draft.low, draft.bound.high);
        match draft.action {
            StepAction::Circulate => Some(below(high, step)),
            StepAction::LandBall | StepAction::LandPlug => {
                Some(below(high.min(self.circulating_limit), step))
            }
            StepAction::TestString | StepAction::Bleed | StepAction::RigOff | StepAction::Wait => {
                (low <= high).then_some(low)
            }
            _ => target(low, high, step),
        }
    }

    fn row(&self, step: usize, draft: Draft<'_>, before: GaugePressure) -> PressureStep {
        let target = self.target(&draft);
        let side = if draft.action == StepAction::TestAnnulus { Side::Annulus } else { Side::String };
        let flowing =
            matches!(draft.action, StepAction::Circulate | StepAction::LandBall | StepAction::LandPlug);
        let closed = side == Side::String && !flowing && draft.action != StepAction::Wait;
        let held = target.filter(|_| closed).map(|t| self.string.held(t));
        let last = draft.devices.map(|(_, last)| last);
        let first = draft.devices.map(|(first, _)| first);
        let acts = !flowing && side == Side::String;
        PressureStep {
            step,
            action: draft.action,
            text: draft.action.text().into(),
            side,
            device: last.map(DeviceWindow::name),
            depth: last.map(|d| d.depth),
            acts_from: first.filter(|_| acts).map(|d| d.low),
            low: draft.low,
            high: draft.bound.high,
            bound_by: draft.bound.by,
            target,
            differential: last.zip(target).filter(|_| acts).map(|(d, t)| d.differential(t)),
            hold: draft.hold,
            volume_to_pump: held.map(|v| v - self.string.held(before)),
            volume_held: held,
            abort: draft.action.abort().into(),
        }
    }
}
