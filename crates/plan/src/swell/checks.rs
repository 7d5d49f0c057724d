//! Checks of the swell of the packers.

well::checks! {
    references: "practice";
    NEVER "swell-never-seals" Stop "A packer is not seen to reach its rating",
        "Share of the samples of a packer, and of all packers together, that reach the supplier's criterion within the supplier's readings.",
        "Beyond the last reading nobody has seen the element; a packer that does not seal joins two stages.",
        "Move the packer to a smaller hole, take a larger element, or ask the supplier for later readings.",
        "Hole 6.62 in, wanted 6.72 in; the last reading is 6.70 in.";
    WAIT "swell-wait" Stop "The planned wait is too short",
        "The time at which all packers together have their rating in half of the samples, against the planned wait.",
        "Pumping into packers that have not sealed gives stages that talk to each other, and pushes the elements along the hole.",
        "Wait longer, move the packers named to smaller hole, or take an element that swells faster.",
        "All packers have their rating after 16 d in half of the samples; 14 d are planned.";
    WAIT_SPREAD "swell-wait-spread" Warn "The planned wait leaves packers in doubt",
        "The time at which all packers together have their rating in nine samples of ten, against the planned wait: one lot of rubber, an element and a hole for each packer.",
        "Swell, activation energy and hole size have their spreads, and the last of many packers is later than any one of them is likely to be.",
        "Wait until the earliest time for the first frac ball, or say in writing who takes the risk.",
        "Earliest 15.5 d, planned 14 d.";
    WORST_HOLE "swell-worst-hole" Warn "A packer is late where its hole is largest",
        "Time to the rating in the worst hole over the element, with its depth uncertainty, against the planned wait.",
        "If the packer lands where the hole is largest, or the element must fill that spot to hold, the wait is not enough.",
        "Wait longer, or move the packers named.",
        "Packer 4: 21 d in a worst hole of 6.38 in; 14 d are planned.";
    EXTRAPOLATED "swell-beyond-tests" Warn "The rock is outside the temperatures the supplier has tested",
        "Rock temperature at every packer against the coldest and hottest test, give or take 15 degC.",
        "An activation energy does not hold for temperatures nobody has tested; the rubber may swell less, or degrade.",
        "Ask the supplier for a test at this temperature.",
        "Rock at 150 degC, hottest test 120 degC.";
    WARM_UP "swell-warm-up" Note "The packers are colder than any test while they warm up",
        "Temperatures from the fluid in place on against the coldest test less 15 degC, and the share of the swelling that is made there.",
        "It counts for little while the share is small.",
        "Nothing while the share is small; else ask for a colder test.",
        "Below 45 degC for 9 h, which make 0.4 % of the swelling.";
    RUN_IN "swell-run-in" Note "How long the packers can stay in a fluid that swells them",
        "Shortest time to contact at rock temperature, in the smallest hole over each element.",
        "Where the hole already holds a fluid that swells the elements, the clock starts when they enter it, and a packer that touches before depth sticks the liner.",
        "Make sure the fluid in the hole while running does not swell the elements, or be on depth well before this time.",
        "Packer 22 touches after 2.1 d at rock temperature.";
    COOLING "swell-cold-fluid" Note "Cold fluid stops the swelling",
        "Whether fluid colder than the rock is pumped.",
        "Circulation before the job and every stage cool the elements: the clock slows or stops, and a cooled element shrinks a little.",
        "Do not circulate during the wait without adding the time it costs; expect the packers at their best some hours after pumping.",
        "Fluid at 15 degC past packers at 115 degC.";
    NO_CALIPER_SPREAD "swell-no-caliper-spread" Warn "No caliper says how well the hole is known",
        "Whether the job has a caliper with its accuracy.",
        "Half an inch of hole multiplies the time by five or ten; without its spread the times look better than they are.",
        "Run a caliper.",
        "A hole at bit size.";
}
