//! The fluids that setting takes: what fills the string, what is pumped into it closed, and the
//! activation fluid.

use quantity::*;
use well::Job;

use super::result::{SettingFluid, SettingPlan};
use crate::stages::tanks;

/// Every fluid to have on location for setting and testing.
pub(super) fn fluids(job: &Job, plan: &SettingPlan) -> Vec<SettingFluid> {
    let pumped = plan.sheet.iter().filter_map(|s| s.volume_to_pump).filter(|v| *v > Volume::ZERO);
    let string = SettingFluid {
        fluid: "fluid in the string while setting".into(),
        density: job.file.setting.inside_density,
        fills: plan.string_volume,
        into_closed: pumped.sum(),
        volume: Volume::ZERO,
        tanks: 0,
    };
    let activation = plan.activation.as_ref().map(|a| SettingFluid {
        fluid: a.fluid.clone(),
        density: a.density,
        fills: a.volume,
        into_closed: Volume::ZERO,
        volume: Volume::ZERO,
        tanks: 0,
    });
    let summed = |f: SettingFluid| {
        let volume = f.fills + f.into_closed;
        SettingFluid { volume, tanks: tanks(job, volume), ..f }
    };
    [Some(string), activation].into_iter().flatten().map(summed).collect()
}
