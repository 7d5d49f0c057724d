//! The swell of fluid-activated packers: when each touches the hole, and when it has its rating.

mod checks;
mod result;

pub use checks::CHECKS;
pub use result::*;
