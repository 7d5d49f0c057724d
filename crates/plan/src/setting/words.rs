//! The words of the pressure sheet: what is done, and when to stop.

use super::step::StepAction;

impl StepAction {
    /// What is done.
    pub(super) fn text(self) -> &'static str {
        match self {
            Self::Circulate => "Circulate at depth until both fluids are even; never above the limit",
            Self::LandBall => {
                "Pump the setting ball to the isolation tool, slowly from well before it is due"
            }
            Self::LandPlug => {
                "Displace the activation fluid and land the plug at the toe, slowly from well before it is due"
            }
            Self::CloseIsolation => "Raise the pressure until the isolation tool has closed",
            Self::StartCasingPacker => "Raise the pressure until the casing packer has started to set",
            Self::SetCasingPacker => {
                "Set the casing packer fully and hold; bleed nothing; check it by slack-off and pull within the limits"
            }
            Self::StartPackers => "Raise the pressure until every open-hole packer has started to set",
            Self::SetPackers => "Set all open-hole packers fully and hold; their elements creep",
            Self::TestString => "Test the string",
            Self::Bleed => {
                "Bleed the string to the pressure of the annulus in steps, and measure what comes back"
            }
            Self::TestAnnulus => "Test casing packer and casing from the annulus",
            Self::RigOff => "Bleed string and annulus to nothing, prove it, close in, move the rig off",
            Self::Wait => "Leave the packers to swell; circulate nothing",
            Self::OpenPressureSleeve => {
                "With the treating lines rigged up and tested, raise the pressure until the first stage opens"
            }
        }
    }

    /// When to stop, and what then.
    pub(super) fn abort(self) -> &'static str {
        match self {
            Self::Circulate => {
                "Stop the pumps at the upper bound. If the pressure climbs at a steady rate or returns fall away, a \
                 packer may have begun to set: do not move the string by force; find out first."
            }
            Self::LandBall | Self::LandPlug => {
                "No rise when the volume to the seat and its spread are pumped: stop, do not pump faster to find it, \
                 check what was released. Stop the pump at the upper bound."
            }
            Self::CloseIsolation => {
                "No closing at the pressure asked, or the pressure does not hold: stop below the upper bound, bleed, \
                 check ball and volume, then the supplier."
            }
            Self::StartCasingPacker | Self::SetCasingPacker => {
                "Stop at the upper bound. A volume beyond the one on the sheet by more than the stroke of the tool \
                 means a leak: bleed, and do not go on to the next step without a packer that carries its load."
            }
            Self::StartPackers | Self::SetPackers => {
                "Stop at the upper bound. A sudden loss of pressure may be the pressure sleeve opening or the ball \
                 passing: stop, do not bleed in haste, compare volume and pressure with the sheet."
            }
            Self::TestString => {
                "Failed when the loss passes the share allowed in the time of the test, the first minutes of settling \
                 not counted. Never raise a failing test; bleed, find the leak."
            }
            Self::Bleed => {
                "More back than was pumped, or flow that does not stop: the well is feeding in; close in and read the \
                 pressure."
            }
            Self::TestAnnulus => {
                "Stop at the upper bound. Pressure on the string at the same time means the casing packer leaks: bleed \
                 the annulus, do not rig off."
            }
            Self::RigOff => {
                "Any pressure or flow on string or annulus: stay rigged up. Pressure can be trapped between packers and \
                 below the ball."
            }
            Self::Wait => {
                "Any pressure on string or annulus: report it; do not launch a ball before the wait is over."
            }
            Self::OpenPressureSleeve => {
                "Nobody near the lines. No opening at the upper bound: hold, bleed, repeat in cycles within the bound \
                 as the supplier allows; never pass the limit."
            }
        }
    }
}
