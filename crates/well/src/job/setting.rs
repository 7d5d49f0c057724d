//! Setting the packers.

use quantity::*;

use crate::record::{choice, record};

choice! {
    /// What stands outside the string between packers that have set.
    pub enum AfterSetting {
        /// The pressure trapped when they set.
        Trapped = "trapped",
        /// The pressure of the formation.
        Formation = "formation",
    }
}

record! {
    /// Setting the packers.
    pub struct Setting {
        /// Density of the fluid in the string while setting.
        inside_density: Density [required],
        /// Density of the fluid in the annulus while setting.
        outside_density: Density [required],
        /// Surface pressure held on the annulus while setting.
        annulus_pressure: GaugePressure [default "0 psi"],
        /// Margin between the highest a device may need and the lowest at which the next may act.
        margin: Pressure [required],
        /// Hold at each step.
        hold: Time [required],
        /// Pressure of the test after setting, at the surface.
        test_pressure: GaugePressure [required],
        /// Time of that test.
        test_time: Time [default "30 min"],
        /// Loss of pressure in the test at which it has failed, as a share.
        test_loss: Ratio [default "0.10"],
        /// What stands outside between set packers.
        after_setting: AfterSetting [default "formation"],
        /// Share of the first device's lowest pressure that may be used to circulate.
        circulating_share: Ratio [assume "0.6" because "memory: usual practice is 50 to 70 %"],
        /// Wellhead or tree rating while setting.
        surface_rating: Pressure [required],
        /// Activation fluid and the wait (fluid-activated).
        activation: Activation [optional],
    }
}

record! {
    /// The fluid that swells the packers, and the wait.
    pub struct Activation {
        /// Name of the fluid; it must be the fluid of the swell curve.
        fluid: String [required],
        /// Density.
        density: Density [required],
        /// Volume beyond the open-hole annulus, as a share of it.
        excess: Ratio [required],
        /// Rate of displacement.
        rate: FlowRate [required],
        /// Time from the fluid in place until the hole is back at its own temperature.
        warm_up: Time [required],
        /// Planned wait before the first frac ball.
        planned_wait: Time [required],
    }
}
