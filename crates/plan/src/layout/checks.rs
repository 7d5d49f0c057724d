//! Checks of layout and tally.

well::checks! {
    references: "practice";
    NO_PLACE "layout-no-place" Stop "A packer has nowhere to stand",
        "Every connection in reach of a stage for hole size over the element with depth uncertainty, bend, temperature, rating, exclusion zones and pins.",
        "A packer in a hole it is not rated for does not isolate its stage; the limits are not weighed against anything.",
        "Widen the stage lengths, move a pin or zone, add pups, or choose a packer for the larger hole.",
        "Stage 7: of 14 connections, 9 lie in hole above 6.5 in and 5 in an exclusion zone.";
    JOINTS_SHORT "layout-joints-short" Stop "There is not enough pipe on the rack",
        "The measured joints against the length from the shoe to the casing packer.",
        "The liner would hang below its casing packer depth.",
        "Bring more joints, or plan the casing packer deeper.",
        "248 joints make 10,290 ft; 10,410 ft are needed.";
    GAP "layout-tool-gap" Stop "A tool is longer than the gap it must stand in",
        "Packer and sleeve lengths against the shortest stage and the interval to be treated.",
        "The stages cannot be fitted with the tools between them.",
        "Use fewer stages or shorter tools.",
        "A 45 ft packer in stages of 40 ft.";
    SURVEY_SHORT "layout-survey-short" Stop "The survey ends above the deepest tool",
        "The last survey station against the shoe.",
        "Depths beyond the survey are a straight line nobody has measured.",
        "Add the last stations or the projection to total depth.",
        "Survey to 19,870 ft, shoe at 20,560 ft.";
    SPACE_OUT "layout-space-out" Warn "The casing packer does not land at its planned depth",
        "The depth the tally gives the casing packer against the planned one, pups used.",
        "The packer must stand in good casing, away from collars, and the treating string must reach it.",
        "Check the new depth against the casing tally, or add a pup.",
        "Planned 10,900 ft, landed 10,912 ft.";
    OUTSIDE_CASING "layout-casing-packer-outside" Stop "The casing packer is not inside the casing",
        "The casing packer's ends against the casing shoe.",
        "It anchors and seals in casing only.",
        "Shorten the liner or correct the depth.",
        "Casing packer at 11,080 ft below a shoe at 11,050 ft.";
    STAGE_LENGTH "layout-stage-length" Note "A stage is much longer or shorter than the target",
        "Each stage's length against the target: a note beyond 25 %, a warning beyond 50 %.",
        "Unequal stages take unequal treatments for the rock they open.",
        "Adjust its treatment, or pin a packer.",
        "Stage 12 is 430 ft against a target of 300 ft.";
    LARGE_HOLE "layout-large-hole" Warn "A packer stands in enlarged hole",
        "The worst hole over each element, with depth uncertainty, against nine tenths of the way to the largest hole it is rated in.",
        "Swell takes longer and the rating is lower; a little more washout than logged and it does not seal.",
        "Pin it elsewhere, or accept it with the wait and rating shown.",
        "Packer 9: worst hole 6.46 in, rated to 6.50 in.";
    RATING_MARGIN "layout-packer-rating" Stop "A packer's rating is below the differential it must hold",
        "Each packer's rating in its own worst hole and temperature against the differential with its factor.",
        "The stage would talk to its neighbour past the packer.",
        "Move the packer to better hole, lower the pressure, or take a longer element.",
        "Rated 6,200 psi, needed 6,600 psi.";
    NO_CALIPER "layout-no-caliper" Warn "There is no caliper log over a packer",
        "Each element's interval for caliper readings.",
        "Bit size is a hope, not a measurement; washouts are where packers fail.",
        "Run a caliper, or move the packer to logged hole.",
        "Packer 3 at 18,950 ft stands below the last caliper reading.";
    PUP_USED "layout-pup" Note "A pup joint is used below a packer",
        "Pups the layout put in to move packers.",
        "The crew must pick the right pup at the right place; the tally shows it.",
        "Lay the pups out in the order of the tally.",
        "A 6 ft pup below packer 4.";
    PIN_STAGE "layout-pin-stage" Stop "A pin names a stage that does not exist",
        "Each pin's stage against the number of stages.",
        "A pin that is silently dropped would put the tool elsewhere.",
        "Correct the stage.",
        "A pin for stage 31 of 30.";
}
