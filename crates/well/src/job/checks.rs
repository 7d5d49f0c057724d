//! Checks of the job file that cross fields: their standing descriptions.

crate::checks! {
    references: "practice";
    ONE_OF "job-one-of" Stop "Exactly one of two fields must be given",
        "Pairs of fields of which one replaces the other.",
        "With neither the program would have to invent a figure; with both it would have to pick one in silence.",
        "Keep the one that is meant.",
        "`system.stages` and `system.spacing`.";
    PARTS "job-system-parts" Stop "A part that this kind of system cannot do without is absent",
        "A fluid-activated system for its swell curve and activation fluid; a hydraulic-set one for its setting ball, devices and pressure-opened sleeve.",
        "The kind of system decides how the packers are set, how stage 1 is opened and how many balls are needed.",
        "Add the part, or correct `system.kind`.",
        "`kind = \"hydraulic-set\"` without `[toe.pressure_sleeve]`.";
    NAME "job-unknown-name" Stop "A name stands for nothing in this job",
        "Every fluid and proppant a step names against those the job describes.",
        "A step without its fluid has no density, friction or volume.",
        "Correct the name, or add the [[fluid]] or [[proppant]].",
        "`fluid = \"slickwatr\"` where \"slickwater\" is described.";
    RHEOLOGY "job-rheology" Stop "A fluid lacks the figures of its rheology",
        "Newtonian fluids for a viscosity, power-law fluids for n and K.",
        "Friction cannot be computed without them.",
        "Add the figures from the fluid's test.",
        "`rheology = \"power-law\"` without `consistency`.";
    DRAG "job-drag-power-law" Warn "A drag reduction is given that is not used",
        "Power-law fluids for a drag reduction.",
        "A figure that is given and not used would mislead whoever reads the job file.",
        "Leave `drag_reduction` out, and give n and K of a flow loop at the rates pumped.",
        "A linear gel with n, K and a drag reduction of 0.25.";
    TEST_LOW "job-test-low" Warn "The string is tested below the treating pressure",
        "The pressure test after setting against the treating pressure limit.",
        "What has not been tested to the pressure it will bear is proved by the job itself, with people near.",
        "Plan a test of the treating string above the treating pressure before the first stage, as local rules ask.",
        "A test to 5,000 psi before treating at 8,500 psi.";
    LIMITS "job-limit-order" Stop "Pressure limits are out of order",
        "Treating pressure, trip, relief valve and ratings: each must not be above the next.",
        "A trip above the relief valve, or a relief valve above the wellhead's rating, protects nothing.",
        "Set the limits in order, each from its own source.",
        "Trip 9,000 psi with the relief valve at 8,800 psi.";
    DEPTHS "job-depth-order" Stop "Depths are out of order",
        "Tops above bottoms, limits inside the hole, strings and sections that meet.",
        "A depth out of order moves every volume and every tool below it.",
        "Correct the depth; all are measured from the survey's datum.",
        "A string from 11,050 ft to 10,900 ft.";
    SIZE "job-size" Stop "A size cannot be right",
        "Inner against outer diameters, tools against holes and drifts, and sizes that cannot be zero.",
        "A tool that does not fit is found at the rig floor, or worse, below it.",
        "Check the drawing or data sheet.",
        "A packer of 6.2 in for a hole drilled with 6.125 in.";
    SHARE "job-share" Stop "A share or factor is out of its range",
        "Shares for 0 to 1, safety factors for 1 and more, spreads for sense.",
        "A factor below 1 switches a limit off without saying so.",
        "Correct the number.",
        "`burst_factor = 0.9`.";
    ROWS "job-rows" Stop "A table has too few rows, or rows that contradict each other",
        "Ratings, strengths, swell readings and schedules for rows enough to read between, in order.",
        "Nothing is read beyond the first and the last row.",
        "Add the supplier's rows.",
        "A swell curve with one reading.";
    RATING_MISSING "job-rating-missing" Warn "The supplier's rating is absent",
        "The packer for its rating by hole size and temperature, the casing packer for its envelope.",
        "Without it no one can say that a packer holds the stage.",
        "Ask the supplier for the chart.",
        "A `[packer]` without `[[packer.rating]]`.";
    STRINGS "job-strings" Stop "The strings do not make a path from the surface to the toe",
        "One liner, at least one casing, and a treating string down to the liner's top.",
        "Balls and fluids pass through every one of them.",
        "Add the string that is absent, or correct its role.",
        "A liner at 10,900 ft below a treating string that ends at 10,000 ft.";
    LADDER "job-ladder-fields" Stop "The ladder's method lacks its figures",
        "The fields each method of choosing sizes needs.",
        "Sizes are the user's or follow from the user's figures.",
        "Add the field the message names.",
        "`method = \"step\"` without `step`.";
}
