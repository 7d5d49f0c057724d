//! The order in which pressure works the devices: groups that act together, one after the other.

use physics::Result;
use physics::packer::actuation_chain::{Chain, actuation_chain};
use physics::packer::rupture_disc::Window;
use physics::packer::setting_window::{SettingLimits, SettingWindow, setting_window};
use quantity::*;

use super::result::{DeviceKind, DeviceWindow};

/// Devices that act together.
#[derive(Debug, Clone)]
pub(super) struct Group<'a> {
    pub devices: Vec<&'a DeviceWindow>,
}

impl<'a> Group<'a> {
    /// The groups of devices that are in the order they are to act.
    pub fn all(devices: &'a [DeviceWindow]) -> Vec<Self> {
        let mut out: Vec<Self> = Vec::new();
        for device in devices {
            match out.last_mut() {
                Some(last) if last.kind() == Some(device.device) => last.devices.push(device),
                _ => out.push(Self { devices: vec![device] }),
            }
        }
        out
    }

    /// Kind of its devices.
    pub fn kind(&self) -> Option<DeviceKind> {
        self.devices.first().map(|d| d.device)
    }

    /// The device that may act first.
    pub fn first(&self) -> Option<&'a DeviceWindow> {
        self.devices.iter().copied().min_by(|a, b| a.low.total_cmp(&b.low))
    }

    /// The device that needs most to start.
    pub fn last_to_start(&self) -> Option<&'a DeviceWindow> {
        self.devices.iter().copied().max_by(|a, b| a.high.total_cmp(&b.high))
    }

    /// The device that needs most to have done all it is to do.
    pub fn last(&self) -> Option<&'a DeviceWindow> {
        self.devices.iter().copied().max_by(|a, b| a.done().total_cmp(&b.done()))
    }

    /// From the first that may act to the last that has done all, at the surface.
    pub fn window(&self) -> Option<Window> {
        let (low, high) = (self.first()?.low.above_atmosphere(), self.last()?.done().above_atmosphere());
        Some(Window { low, nominal: (low + high) / 2.0, high })
    }
}

/// How the groups stand in their order; none where there is nothing to order.
pub(super) fn order(groups: &[Group<'_>], margin: Pressure) -> Result<Option<Chain>> {
    let windows: Vec<Window> = groups.iter().filter_map(Group::window).collect();
    if windows.len() < 2 {
        return Ok(None);
    }
    actuation_chain(&windows, margin).map(Some)
}

/// The pressures at the surface between which a group is set fully: what all of its devices need,
/// and the lowest at which the next may act less the margin.
pub(super) fn full_set(
    group: &Group<'_>,
    next: &Group<'_>,
    margin: Pressure,
) -> Result<Option<SettingWindow>> {
    let (Some(start), Some(last), Some(first), Some(toe_port)) =
        (group.last_to_start(), group.last(), group.first(), next.window())
    else {
        return Ok(None);
    };
    let over = |p: GaugePressure| p.above_atmosphere().max(Pressure::ZERO);
    let limits = SettingLimits {
        start: Window { low: over(first.low), nominal: over(start.nominal), high: over(start.high) },
        full_set: over(last.done()),
        test: Pressure::ZERO,
        toe_port: Window { low: toe_port.low.max(Pressure::ZERO), ..toe_port },
        margin,
    };
    setting_window(&limits).map(Some)
}

#[cfg(test)]
mod tests {
    use super::super::result::Outside;
    use super::*;
    use crate::device::DeviceRange;

    /// A device at the surface: nominal, tolerance, full set.
    fn device(kind: DeviceKind, nominal: f64, share: f64, full_set: Option<f64>) -> DeviceWindow {
        let p = Pressure::psi;
        let range = DeviceRange {
            low: p(nominal * (1.0 - share)),
            nominal: p(nominal),
            high: p(nominal * (1.0 + share)),
        };
        DeviceWindow {
            device: kind,
            stage: None,
            depth: MeasuredDepth::ZERO,
            tvd: TrueVerticalDepth::ZERO,
            outside: Outside::Annulus,
            outside_pressure: GaugePressure::ZERO,
            column: Pressure::ZERO,
            range,
            low: range.low.gauge(),
            nominal: range.nominal.gauge(),
            high: range.high.gauge(),
            full_set: full_set.map(p),
            full_set_at: full_set.map(GaugePressure::psi),
        }
    }

    /// Start 1500 psi within 10 %, full set 3500 psi, toe 5500 psi within 5 %, margin 250 psi:
    /// set between 3500 and 4975 psi.
    #[test]
    fn the_window_of_one_packer() {
        let list = [
            device(DeviceKind::Packer, 1500.0, 0.10, Some(3500.0)),
            device(DeviceKind::PressureSleeve, 5500.0, 0.05, None),
        ];
        let groups = Group::all(&list);
        let [packers, sleeve] = groups.as_slice() else { panic!() };
        let w = full_set(packers, sleeve, Pressure::psi(250.0)).unwrap().unwrap();
        assert!((w.low.in_psi() - 3500.0).abs() < 1e-6 && (w.high.in_psi() - 4975.0).abs() < 1e-6);
        let chain = order(&groups, Pressure::psi(250.0)).unwrap().unwrap();
        assert!(chain.shortfalls.is_empty() && (chain.least.in_psi() - 1475.0).abs() < 1e-6);
    }

    #[test]
    fn the_first_and_the_last_of_a_group_decide() {
        let list = [
            device(DeviceKind::CasingPacker, 1500.0, 0.0, Some(2500.0)),
            device(DeviceKind::Packer, 3000.0, 0.1, Some(4000.0)),
            device(DeviceKind::Packer, 2600.0, 0.1, Some(3600.0)),
        ];
        let groups = Group::all(&list);
        assert_eq!(groups.len(), 2);
        assert_eq!(groups[1].first().unwrap().nominal.in_psi().round(), 2600.0);
        assert_eq!(groups[1].last().unwrap().nominal.in_psi().round(), 3000.0);
        let chain = order(&groups, Pressure::psi(100.0)).unwrap().unwrap();
        assert_eq!(chain.shortfalls.len(), 1);
        assert!((chain.least.in_psi() + 260.0).abs() < 1e-6);
        assert!(order(&groups[..1], Pressure::ZERO).unwrap().is_none());
    }
}
