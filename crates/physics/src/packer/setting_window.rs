//! The pressures between which hydraulic-set packers may be set: enough for every one of them,
//! too little for the toe port.

use super::rupture_disc::Window;
use crate::error::require_not_negative;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Pressure, Ratio};

/// What bounds the setting pressure of one tool, all as differences at the tool or all at
/// surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SettingLimits {
    /// Pressures at which the set starts.
    pub start: Window,
    /// The supplier's minimum for a full set.
    pub full_set: Pressure,
    /// Test to be made before the toe port opens; zero if none.
    pub test: Pressure,
    /// Pressures at which the toe port opens.
    pub toe_port: Window,
    /// Room kept below the toe port.
    pub margin: Pressure,
}

/// The window left for the setting pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SettingWindow {
    /// Lowest setting pressure.
    pub low: Pressure,
    /// Highest setting pressure.
    pub high: Pressure,
}

impl SettingWindow {
    /// Height of the window; zero or less is no window.
    pub fn room(&self) -> Pressure {
        self.high - self.low
    }
}

/// Window of the setting pressure of one tool.
///
/// Equation: `P_low = max[P_start (1 + tol), P_full-set, P_test]`;
/// `P_high = P_toe (1 − tol) − margin`; wanted `P_low < P_high`.
///
/// Symbols: P_start start of the set, P_full-set the supplier's minimum, P_test test pressure,
/// P_toe opening of the toe port, tol their tolerances, margin room kept, Pa.
///
/// Range: none stated by the source; to be asked for every tool with its own depth.
///
/// Where it breaks: a ball landing at speed adds a hammer pulse that may pass the window; limits
/// at different depths must be brought to surface first. Without room the low end is above the
/// high end and `room` is negative.
///
/// Source: api_19ac (stated pressures), order of windows.
///
/// ```
/// use physics::packer::rupture_disc::rupture_disc;
/// use physics::packer::setting_window::{SettingLimits, setting_window};
/// use quantity::Pressure;
/// let p = Pressure::psi;
/// let limits = SettingLimits { start: rupture_disc(p(1500.0), 0.1, 1.0)?, full_set: p(3500.0),
///     test: Pressure::ZERO, toe_port: rupture_disc(p(5500.0), 0.05, 1.0)?, margin: p(250.0) };
/// let window = setting_window(&limits)?;
/// assert!((window.low.in_psi() - 3500.0).abs() < 1e-6 && (window.high.in_psi() - 4975.0).abs() < 1e-6);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn setting_window(limits: &SettingLimits) -> Result<SettingWindow> {
    require_not_negative(NAME, "start", limits.start.high)?;
    require_not_negative(NAME, "full_set", limits.full_set)?;
    require_not_negative(NAME, "test", limits.test)?;
    require_not_negative(NAME, "toe_port", limits.toe_port.low)?;
    require_not_negative(NAME, "margin", limits.margin)?;
    // P_low = max[P_start (1 + tol), P_full-set, P_test];  P_high = P_toe (1 − tol) − margin
    let low = limits.start.high.max(limits.full_set).max(limits.test);
    Ok(SettingWindow { low, high: limits.toe_port.low - limits.margin })
}

const NAME: &str = "setting_window";

/// `setting_window` in the register.
pub static SETTING_WINDOW: Relation = Relation {
    name: NAME,
    title: "Window of the setting pressure below the toe port's opening",
    equation: "P_low = max[P_start (1 + tol), P_full-set, P_test];  P_high = P_toe (1 − tol) − margin",
    source: "api_19ac, order of windows",
    range: "none stated by the source; one tool, all pressures at the same place",
    inputs: &[
        Input::new::<Pressure>("start", "nominal start of the set"),
        Input::new::<Ratio>("start_tolerance", "its tolerance"),
        Input::new::<Pressure>("full_set", "the supplier's minimum for a full set"),
        Input::new::<Pressure>("test", "test before the toe port opens").or("0 psi"),
        Input::new::<Pressure>("toe_port", "nominal opening of the toe port"),
        Input::new::<Ratio>("toe_tolerance", "its tolerance"),
        Input::new::<Pressure>("margin", "room kept below the toe port"),
    ],
    outputs: &[
        Output::new::<Pressure>("low", "lowest setting pressure"),
        Output::new::<Pressure>("high", "highest setting pressure"),
        Output::new::<Pressure>("room", "height of the window; zero or less is no window"),
    ],
    evaluate: |a| {
        let window = |p: Pressure, t: f64| super::rupture_disc::rupture_disc(p, t, 1.0);
        let limits = SettingLimits {
            start: window(a.get("start")?, a.number("start_tolerance")?)?,
            full_set: a.get("full_set")?,
            test: a.get("test")?,
            toe_port: window(a.get("toe_port")?, a.number("toe_tolerance")?)?,
            margin: a.get("margin")?,
        };
        let w = setting_window(&limits)?;
        Ok(Outputs::new().put("low", w.low).put("high", w.high).put("room", w.room()))
    },
};
