//! Checks of stage hydraulics and schedule.

well::checks! {
    references: "practice";
    CEILING "stage-rate-ceiling" Warn "A stage cannot take the rate that is wanted",
        "The highest treating pressure and power of every mixture of the schedule against the limits, rate by rate.",
        "Every seat still to be passed costs pressure; the toe stages pay for all of them. The program plans the lower rate.",
        "Accept the lower rate with proppant that carries at it, open the ladder, or raise a limit that is not a rating.",
        "Stage 1: 24 bbl/min where 35 are wanted.";
    PRESSURE "stage-pressure-limit" Stop "A stage cannot be pumped within the pressure limit",
        "The surface pressure at the slowest rate against the treating pressure limit.",
        "The limit protects people; it cannot be switched off.",
        "Use a heavier fluid or stronger pipe and wellhead, or leave the stage out.",
        "Stage 3: 9,100 psi at 0.5 bbl/min against a limit of 8,500 psi.";
    POWER "stage-no-power" Stop "There is no power to pump a stage",
        "Hydraulic power on location, spares kept, against the power of the slowest rate.",
        "With all pumps kept as spares nothing is left to pump with.",
        "Bring pumps, or state how many are really kept as spares.",
        "1 pump on location, 1 kept as a spare.";
    TANKS "stage-tanks" Warn "The tanks on location do not hold the fluid",
        "Clean fluid of the job with the reserve against the usable volume of the tanks on location.",
        "Stages are pumped one behind the other without shutting down; tanks that run dry end the job with a ball in the pipe.",
        "Bring more tanks, or put in writing which line refills them, at what rate, and who watches it.",
        "162 tanks needed, 60 on location: 46,000 bbl must come while pumping.";
    TRUCKS "stage-truck-loads" Warn "Too few truck loads of proppant are ordered",
        "Truck loads of all proppants against the loads ordered for the job.",
        "A stage that runs out of proppant ends early, and the next ball is launched into what is left of it.",
        "Order the missing loads, or cut the proppant of the schedule.",
        "73 loads needed, 60 ordered.";
    NEGATIVE "stage-column-heavy" Warn "The column alone opens the fracture",
        "The weight of the heaviest column against the fracture pressure at the sleeve.",
        "With no pressure at the surface the well takes fluid on its own; the meter then sees nothing of the sleeve.",
        "Check the fracture gradient and the densities.",
        "A column of 15 lb/gal slurry over rock of 0.75 psi/ft.";
    HEADROOM "stage-trip-headroom" Warn "Little is left below the pump trip",
        "The highest treating pressure against the trip: less than 3 % left.",
        "Pressure swings at rate changes; a trip in mid-stage stops the job with sand in the pipe.",
        "Plan the stage a little slower.",
        "8,700 psi planned, trip at 8,800 psi.";
    DRAG "stage-drag-limit" Note "The friction reducer is held at the published asymptote",
        "The drag reduction of the job file against the maximum drag reduction asymptote at the stage's rate.",
        "No polymer does better; a larger figure would promise a rate the well will not give.",
        "Lower `drag_reduction` to what the fluid test shows.",
        "85 % stated, 81 % possible at 10 bbl/min.";
    PUMPS "stage-pumps" Warn "There are too few pumps on location",
        "Hydraulic power at the planned rates, spares kept, against the pumps on location.",
        "A pump lost in mid-stage must not end the stage.",
        "Bring more pumps or plan lower rates.",
        "11 pumps needed with the spare, 9 on location.";
    CHANGE "stage-change-range" Stop "A change of the schedule names stages that do not exist",
        "The stages of each `[[treatment.change]]` against the number of stages.",
        "A change that is silently dropped would be a stage treated otherwise than meant.",
        "Correct the stages.",
        "Stages 28 to 32 of 30.";
    DENSITY "stage-column-assumption" Note "Column densities are taken as at the surface",
        "What the program assumes of the column.",
        "Cool pumped water is a little heavier at depth: about 1 % of the column's weight, on the safe side of the surface pressure.",
        "Nothing; the figure is listed so that nobody is surprised.",
        "4,600 psi of column carries some 50 psi more than counted.";
}
