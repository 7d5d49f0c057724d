//! Checks of a station against its neighbours.

use crate::finding::{Check, Severity};

/// A station off the trend of its neighbours.
pub static OFF_TREND: Check = Check {
    id: "survey-off-trend",
    severity: Severity::Warn,
    title: "a station lies off the line of its neighbours",
    checks: "The direction of each station is compared with that of the arc between the two stations beside it. It \
             is pointed out when it is off by more than 1.5 deg, more than six times what is usual among the \
             twenty stations around it, and more than at either neighbour. The first and last station have no \
             neighbour on one side and are not checked.",
    why: "One bad station makes two false doglegs, one on each side, and shifts the whole hole below it. Tools are \
          then kept out of good hole, and vertical depths are wrong to the toe.",
    next: "Compare with the raw survey; correct or delete the station, or confirm it with the directional driller.",
    example: "11,342 ft is 5.6 deg off the line of its neighbours, where 0.6 deg is usual: 54.2 deg was typed for \
              45.2 deg.",
    references: "practice",
};

/// A hole that turns back on itself.
pub static REVERSAL: Check = Check {
    id: "survey-reversal",
    severity: Severity::Stop,
    title: "two stations point opposite ways",
    checks: "The direction changes by less than 179.9 deg between two stations.",
    why: "No hole turns back on itself, and no one arc joins two such stations. One of them is wrong.",
    next: "Correct or delete the station.",
    example: "90 deg at azimuth 141 deg is followed by 90 deg at azimuth 321 deg.",
    references: "practice",
};
