//! Checks of setting the packers.

well::checks! {
    references: "practice";
    MISSING "setting-figure-missing" Stop "A figure that setting needs is not in the job file",
        "The devices, ball, seat and fluid that the kind of system needs.",
        "A pressure sheet with a gap in it would be filled on location by guess.",
        "Take the figure from the supplier's data sheet or the shear certificate and put it into the job file.",
        "A hydraulic-set system without `packer.start`.";
    ORDER "setting-order" Stop "A device may act before the one that must act first",
        "Every device's lowest pressure at the surface, at its own vertical depth, lot and scatter counted, against the highest that the one before it needs, with the margin.",
        "A packer that sets before the casing packer holds the liner by its elements; a sleeve that opens before the packers are set ends the setting.",
        "Pin the later device higher or the earlier one lower; or agree a smaller margin with both suppliers.",
        "Packer 15 may start at 1,950 psi; the casing packer needs 2,100 psi to be set, and the margin is 300 psi.";
    NO_PRESSURE "setting-acts-by-itself" Stop "A device may act without pressure at the surface",
        "Each device's lowest pressure at the surface for being above zero.",
        "Where the fluid inside is heavier than the one outside, the columns alone may set a packer on the way down.",
        "Bring the densities closer together, or pin the device higher.",
        "A start of 1,350 psi at 10,700 ft with 12 lb/gal inside and 9 lb/gal outside.";
    START "setting-full-set-below-start" Warn "The differential for a full set is below the start",
        "The supplier's differential for a full set against the highest at which the set may start.",
        "A device that has just started is not set; one of the two figures is wrong or of another tool.",
        "Ask the supplier for both figures of this tool.",
        "Full set at 1,800 psi, start up to 1,940 psi.";
    LIMIT "setting-limit" Stop "A step needs more pressure than a limit allows",
        "The pressure every step needs against the rating of what closes the well, internal yield of every string with its factor, the connections, the sleeves' bodies, and setting ball and seat with its factor.",
        "Pipe, wellhead and ball see the setting pressure with the whole crew around; no step is worth a burst.",
        "Lower the device or the test, or take stronger pipe, ball or wellhead. The limit itself is not negotiable on location.",
        "A test at 5,000 psi under a wellhead of 3,000 psi.";
    TEST "setting-test-opening" Stop "The test may open the first stage",
        "Pressure of the test of the string against the lowest opening of the pressure sleeve less the margin.",
        "A sleeve that opens in the test has the well open to the formation with nobody rigged up for it.",
        "Lower the test, or order a sleeve that opens higher.",
        "A test at 4,500 psi; the sleeve may open from 4,600 psi, and the margin is 300 psi.";
    TEST_LOW "setting-test-low" Note "The test of the string is below the setting pressure",
        "Pressure of the test against the pressure the packers are set with.",
        "A test that asks less than the string has just held proves little.",
        "Test at no less than the setting pressure where every limit allows.",
        "Packers set with 3,600 psi, test at 3,000 psi.";
    OPENING "setting-opening-limit" Stop "The pressure sleeve may need more than the surface may see",
        "The highest pressure at the surface that may be needed to open the sleeve against the treating limit.",
        "A first stage that cannot be opened within the limits is a first stage that is not there.",
        "Order a sleeve that opens lower, or have coiled tubing ready to open the toe.",
        "Up to 9,100 psi needed under a limit of 8,500 psi.";
    BALL "setting-ball-rating" Stop "The setting ball may not hold",
        "The highest differential of setting and test with the safety factor against the rating of the setting ball on its seat, at the worst of the tolerances.",
        "A ball that passes its seat in mid-setting leaves packers half set and no way to pressure up again.",
        "Take a larger ball over the seat, a stronger material, or a lower test.",
        "4,100 psi with a factor of 1.2 on a ball rated 4,500 psi.";
    BALL_UNRATED "setting-ball-unrated" Stop "Nothing says what the setting ball holds",
        "The supplier's tests and strengths of the balls for one that covers the setting ball.",
        "The whole setting hangs on this ball.",
        "Ask the supplier for a test of this ball on this seat.",
        "A 1.25 in ball on a 1.24 in seat, and no row of strength.";
    BALL_DISSOLVES "setting-ball-dissolves" Note "The setting ball dissolves",
        "Whether the balls' material dissolves.",
        "When the ball is gone only the isolation tool keeps the toe closed.",
        "Have the supplier confirm that the tool, once closed, holds without its ball, also in reverse.",
        "A dissolving ball, and a sleeve opened weeks later.";
    DENSITY "setting-density" Note "Gauge and device do not read the same",
        "Densities in the string and in the annulus.",
        "With unlike columns a device sees more or less than the gauge shows; the sheet has this taken in for each depth, and it is only as good as the densities.",
        "Measure both fluids on the day, circulate until they are even, and plan again if they differ from the job file.",
        "8.7 lb/gal inside and 9.0 lb/gal outside at 5,070 ft: the device sees 79 psi less.";
    ANNULUS_TEST "setting-annulus-test" Note "The pressure of the annulus test is taken from the treatment",
        "Whether the annulus is to be held at a pressure while treating.",
        "The job file names no pressure for testing the casing packer from above; it must at least hold what will stand on it.",
        "Agree the pressure with whoever signs for the well, not above the annulus limit.",
        "1,000 psi is to be held while treating: the test is planned at 1,000 psi.";
    ANNULUS_LIMIT "setting-annulus-limit" Stop "The annulus test passes a limit",
        "The pressure of the annulus test against internal yield of the casing with its factor and against the annulus limit.",
        "The casing above the packer is the well's barrier for the rest of its life.",
        "Test lower.",
        "2,000 psi over 9 lb/gal on casing that allows 1,850 psi at its shoe.";
    CASING_PACKER "setting-casing-packer-differential" Stop "The annulus test asks more of the casing packer than it is rated for",
        "Differential across the casing packer in the annulus test against the highest of its envelope with the packers' factor.",
        "It carries the liner; if its elements go, the liner top leaks for good.",
        "Test lower, or take a packer of a higher rating.",
        "6,900 psi across a packer rated 7,000 psi with a factor of 1.1.";
    ACTIVATION "setting-activation-volume" Warn "The activation fluid may not reach all packers",
        "The excess of activation fluid against two standard deviations of the annulus by the caliper.",
        "A packer at the heel without its fluid does not swell, and nothing at the surface shows it.",
        "Pump more excess.",
        "Excess 3 %, doubt of the caliper 6 %.";
    NO_CALIPER "setting-activation-no-caliper" Warn "The annulus for the activation fluid is partly not measured",
        "Share of the open hole with a caliper reading.",
        "Washouts take fluid; bit size gives the smallest volume there can be.",
        "Log it, or raise the excess to what washouts in the area ask.",
        "8 % of the open hole is at bit size.";
    TIGHT "setting-annulus-tight" Warn "The caliper reads less than the string",
        "Caliper against every outer diameter of the tally; there the annulus is counted as nothing.",
        "A reading or two of that size are the tool's, not the hole's; many in a row are a hole the string does not pass.",
        "Look at the log at the depth named; take out readings that are none, or ream.",
        "3.90 in in one reading of a 6 in hole.";
}
