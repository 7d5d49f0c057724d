//! Checks of a station against its neighbours.

use crate::finding::{Check, Severity};

/// A station off the trend of its neighbours.
pub static OFF_TREND: Check = Check {
    id: "survey-off-trend",
    severity: Severity::Warn,
    title: "a station lies off the line of its neighbours",
    checks: "The direction of each station is compared with that of the arc between the two stations beside it. A \
             station with an error is off by the error there, and by about half of it, the other way, at its two \
             neighbours. A station is pointed out when such an error is above 1.5 deg, above six times what is \
             usual among the twenty stations around it, and explains at least 80 % of the three deviations; a bend \
             that starts at a station explains no more than 67 %. The first and last station are not checked.",
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
