//! Checks of balls and seats.

well::checks! {
    references: "practice";
    TOO_FEW "ladder-too-few" Stop "The ladder has too few sizes for the stages",
        "The balls the method and the limits allow against the balls the stages need.",
        "A stage without a ball of its own size cannot be opened and isolated.",
        "Use fewer stages, finer sizes, a smaller clearance the supplier stands behind, or stronger balls.",
        "30 stages need 30 balls; between 1.25 and 3.60 in there is room for 27.";
    LEFT_OUT "ladder-sizes-left-out" Note "Balls on offer are not used",
        "The sizes of the job file against those taken.",
        "Balls of sizes that are not in the ladder must not come near the launcher.",
        "Keep the sizes named off location, or correct the list.",
        "16 rungs are given, 14 are needed; the two smallest are left out.";
    BORE "ladder-bore" Stop "A ball does not pass a bore on the way down",
        "The largest ball, at its largest, through launcher, drifts and tool bores with the least clearance wanted.",
        "A ball that stops above its sleeve shuts the well in at that depth, and only milling clears it.",
        "Start the ladder with a smaller ball, or change the part with the small bore.",
        "Ball 3.875 in through a drift of 3.795 in.";
    CLEARANCE "ladder-clearance" Stop "A ball may not pass a seat above its own",
        "Every ball at its largest through every seat above at its smallest. A stop when the clearance wanted is not there as drawn or nothing is left at the worst of the tolerances; a warning when less than half of it is left; else a note.",
        "A ball that lands one sleeve too high leaves its own stage shut and treats the wrong one.",
        "Widen the step, lessen the interference, or agree closer tolerances.",
        "Ball 5, 1.375 in, through seat 6, 1.380 in, each plus or minus 0.003 in.";
    INTERFERENCE "ladder-interference" Stop "A ball may pass its own seat",
        "Each ball at its smallest over its own seat at its largest, with wear and dissolving until its stage ends. A warning when the overlap is above zero but below the least the job file names.",
        "A ball that passes its seat opens nothing and leaves the stage below in the treatment.",
        "Take a smaller seat, closer tolerances, a ball that dissolves slower, or less proppant through the seat.",
        "Overlap 0.031 in as drawn, 0.004 in left after tolerances and wear.";
    SEAT_SIZE "ladder-seat-size" Stop "A seat is outside the sizes that are made",
        "Each seat against the smallest and the largest the sleeve's supplier makes.",
        "A seat larger than the body has room for, or smaller than is made, will not be delivered.",
        "Move the ladder, or ask the supplier.",
        "Seat 3.70 in for a body that takes 3.60 in.";
    RATING "ladder-rating" Stop "A ball is rated below the differential it is expected to hold",
        "The rating of each ball on its worn seat at the temperature of the rock against the expected differential times the safety factor. Tested ratings go before computed ones, and a computed one is never above what a test with more interference allows.",
        "A ball that breaks or extrudes lets the treatment into the stage below; the segments above stay untreated.",
        "Give this rung more interference, take a stronger ball, or have this ball and seat tested.",
        "Expected 3,100 psi with its factor, rated 2,800 psi.";
    WORST_STATIC "ladder-worst-static" Warn "A ball is rated below the worst static case",
        "The rating against the surface at its limit over a column of the heaviest slurry, less the pressure below, times the safety factor; only where the expected differential is within the rating.",
        "When a stage screens out with the pumps against their limit, this is what the ball sees.",
        "Set the trip of these stages lower, give these rungs more interference, or accept it in writing.",
        "Worst static 8,900 psi with its factor, rated 7,600 psi.";
    NO_RATING "ladder-no-rating" Stop "Nothing says what a ball holds at its temperature",
        "The strength table and the tested ratings for the temperature of the rock at each sleeve.",
        "Strength falls with temperature; it is never read beyond the hottest row.",
        "Ask the supplier for strength or a tested rating at this temperature.",
        "Rock at 118 degC, the hottest row of the table is 110 degC.";
    COLD "ladder-strength-cold" Note "The coldest row of the strength table is used for colder rock",
        "The temperature of the rock against the coldest row.",
        "Balls are stronger cold, so the row is on the safe side; the table was not made for this well.",
        "Nothing to do, unless the rating is short: then ask for a colder row.",
        "Rock at 35 degC, the coldest row is 60 degC.";
    SETTING_BALL "ladder-setting-ball" Stop "The setting ball does not fit",
        "The setting ball on the seat of the isolation tool, and through every seat of the ladder.",
        "A setting ball that hangs in a sleeve sets nothing; one that passes its seat sets nothing either.",
        "Take a smaller setting ball and seat, or larger seats at the toe.",
        "Setting ball 1.25 in, smallest seat 1.223 in.";
    ALIKE "ladder-alike" Warn "Two balls are too close to tell apart",
        "Neighbouring sizes against the sum of their tolerances, which is what callipers can tell.",
        "A ball loaded in its neighbour's place opens the wrong stage.",
        "Mark the balls, gauge them with go and no-go rings, and have two people read each size back.",
        "1.250 and 1.253 in with tolerances of 0.002 in.";
    DISSOLVES "ladder-dissolves" Warn "A ball may dissolve before its stage is done",
        "The earliest time at which the overlap is used up, at the temperature of the rock, against twice the time from launch until the next ball has landed; a stop when it is shorter than that time itself.",
        "A ball that passes its seat in mid-stage joins the stage to the one below; delays on location are common.",
        "Take a slower alloy or a coating, more interference, or a colder fluid; plan what to do when pumping stops.",
        "Overlap used up after 3.1 h, stage over after 1.8 h.";
}
