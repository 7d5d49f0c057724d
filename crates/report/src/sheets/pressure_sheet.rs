//! The pressure sheet of setting the packers.

use plan::Header;
use plan::setting::{SettingPlan, Side};
use quantity::{GaugePressure, MeasuredDepth, Pressure, System, Time, Volume};

use super::{Sheet, cell, maybe, of, plain};

/// The pressure sheet in job order, with empty columns for what was read.
pub fn pressure_sheet_csv(setting: &SettingPlan, header: &Header, system: System) -> String {
    let s = system;
    let heads = [
        plain("step"),
        plain("do"),
        plain("pressure on"),
        plain("device"),
        of::<MeasuredDepth>("device MD", s),
        of::<GaugePressure>("may act from", s),
        of::<GaugePressure>("low", s),
        of::<GaugePressure>("target", s),
        of::<GaugePressure>("high", s),
        plain("high is set by"),
        of::<Pressure>("differential at device", s),
        of::<Time>("hold", s),
        of::<Volume>("volume to pump", s),
        of::<Volume>("volume held", s),
        plain("stop and then"),
        of::<GaugePressure>("pressure read", s),
        of::<Volume>("volume pumped", s),
        plain("start time"),
        plain("end time"),
        plain("initials"),
    ];
    let mut sheet = Sheet::new("Pressure sheet; surface gauge pressures, fluids at rest", header, &heads);
    for r in &setting.sheet {
        let side = match r.side {
            Side::String => "string",
            Side::Annulus => "annulus",
        };
        let row = [
            r.step.to_string(),
            r.text.clone(),
            side.to_string(),
            r.device.clone().unwrap_or_default(),
            maybe(r.depth, s),
            maybe(r.acts_from, s),
            cell(r.low, s),
            maybe(r.target, s),
            cell(r.high, s),
            r.bound_by.words(),
            maybe(r.differential, s),
            cell(r.hold, s),
            maybe(r.volume_to_pump, s),
            maybe(r.volume_held, s),
            r.abort.clone(),
        ];
        sheet.row(row.into_iter().chain(std::iter::repeat_n(String::new(), 5)));
    }
    sheet.finish()
}
