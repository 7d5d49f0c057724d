//! Setting the packers: pressure windows, the pressure sheet, the activation fluid and the swell.

mod checks;
mod result;

use well::Job;

pub use checks::CHECKS;
pub use result::*;

use crate::Ledger;
use crate::ladder::LadderPlan;
use crate::layout::Layout;

/// Windows, pressure sheet and forces of setting the packers; with fluid-activated packers the
/// activation fluid and the swell.
pub fn set_packers(_job: &Job, _layout: &Layout, _ladder: &LadderPlan, _ledger: &mut Ledger) -> Option<SettingPlan> {
    None
}
