//! Checks of a run.

use well::Check;

well::checks! {
    references: "practice";
    TRIPPED "pump-trip" Stop "The pumps tripped in the simulated job",
        "The treating pressure at every moment of the run against the pump trip.",
        "A trip stops the pumps with proppant in the string; it may settle in the lateral before the job can go on.",
        "Lower the rate or the landing rate of that stage, or the pressure before the landing. Never raise the trip.",
        "8,800 psi reached 6 s after ball 7 landed at 15 bbl/min.";
    RELIEF "pump-relief" Stop "The relief valve opened in the simulated job",
        "The treating pressure at every moment of the waves against the setting of the relief valve.",
        "A relief valve that opens at pressure hurts whoever stands near its line, and may not close again.",
        "Lower the landing rate or the pressure before the landing. Never raise the setting.",
        "9,200 psi reached 6 s after ball 3 landed at 20 bbl/min.";
    HELD "pump-held" Warn "The crew had to come down in rate",
        "The treating pressure at every moment of the run against the highest treating pressure.",
        "A stage pumped slower than planned takes longer and may not carry its proppant; the plan should not count on the crew.",
        "Plan the stage at the rate the run settles at, or find what makes the pressure.",
        "Stage 3 planned at 25 bbl/min, held at 23.5 bbl/min.";
    MISSING "pump-ball-missing" Stop "A ball did not land",
        "The slurry pumped since each launch against the volume at which the ball counts as missing.",
        "Pumping on without knowing where the ball is puts the next stage into the last one.",
        "Inspect the launcher once it is proved free of pressure; count the balls; do not launch another before the count is certain.",
        "Ball 5 not on its seat after 340 bbl.";
    SHORT_PAD "pump-short-pad" Stop "Proppant reaches a sleeve before its ball",
        "When the first proppant of each stage passes its seat against the landing of its ball.",
        "Proppant behind a ball that has not landed goes into the stage before, and the ball lands in sand.",
        "Lengthen the pad, or the clean fluid behind the ball.",
        "A pad of 90 bbl behind a ball that travels 290 bbl.";
    STALLED "pump-ball-stalled" Stop "A ball stands still in the string",
        "Whether every ball that was launched moves at the rate that is pumped.",
        "Below its stall rate a ball lies on the low side and the job does not go on.",
        "Raise the landing rate above the stall rate (`heelward calc stall_rate`).",
        "Ball 2 held at 15,200 ft at 0.3 bbl/min.";
    SHUT "pump-sleeve-shut" Stop "A sleeve did not open under its ball",
        "The differential across each landed ball against the value its sleeve was drawn to shear at.",
        "Pressure that rises and holds with the ball on its seat is a closed string: pumping on only trips the pumps.",
        "Stop, hold, bleed off and press again within the limits; see the supplier's procedure for a sleeve that does not shift.",
        "2,900 psi across ball 9 pinned to 3,000 psi at 5 bbl/min.";
    SCREENED_OUT "pump-screen-out" Warn "Proppant stops in a fracture",
        "The slurry's front, its fluid and the width of each fracture, by plug flow and leak-off.",
        "A tip that bridges early ends the growth and raises the pressure until the stage must be cut short.",
        "Lengthen the pad, lower the concentration, or thicken the fluid; see the pad needed in the summary.",
        "Stage 4 bridges at its tip with 60 % of its proppant placed.";
    PAST_PACKER "pump-past-packer" Warn "A fracture along the hole grows past a packer",
        "The length of a fracture that starts along the hole against the distance past the packer on the toe side of its sleeve.",
        "Fluid that goes round a packer treats the stage before a second time and leaves its own untreated.",
        "Weigh longer spacing, a smaller stage, or rock in which fractures start across the hole.",
        "Stage 6 after 40 bbl: 180 ft along the hole, 150 ft past its packer.";
    NO_RATE "pump-no-rate" Stop "A stage cannot be pumped below the pressure limit",
        "The rate to which the crew must come down against half the rate planned.",
        "A stage that takes hardly any rate is full of proppant or shut; going on fills the string with it.",
        "Find what makes the pressure; lower the concentration or the rate planned.",
        "Stage 9 planned at 30 bbl/min, held at 15 bbl/min and still above the limit.";
    ANNULUS "pump-annulus" Stop "The annulus went above its limit",
        "The pressure of the annulus at every moment of the run against its limit.",
        "Pressure on the annulus is a leak of the string or of the casing packer until proved otherwise.",
        "Stop the pumps; find the leak before anything else is pumped.",
        "The annulus at 2,100 psi with a limit of 2,000 psi.";
    OPENING "pump-not-opened" Stop "The first sleeve did not open",
        "Whether the first sleeve opens below the treating pressure limit.",
        "Without a way into the rock there is no job.",
        "Check the opening pressure of the device against the limit; see the pressure sheet.",
        "Limit 5,000 psi, opening at 5,400 psi.";
}

/// All checks: those of a plan and those of a run.
pub fn all() -> impl Iterator<Item = &'static Check> {
    plan::checks::all().chain(CHECKS.iter().copied())
}
