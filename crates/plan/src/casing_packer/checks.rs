//! Checks of the casing packer.

well::checks! {
    ENVELOPE "casing-packer-envelope" Stop "The casing packer is outside its rated envelope",
        "Load and differential of every case against the supplier's envelope; a warning above 90 % of the way to its edge.",
        "It carries the weight of the completion, the pull of cold pipe and the treating pressure at once. If it slips, the liner moves under every ball and packer.",
        "Lower the treating pressure, hold pressure on the annulus, warm the pumped fluid, put an open-hole packer nearer, or take a packer of a higher rating.",
        "Screenout: 210 klbf down at 6,600 psi; 258 klbf are allowed there, 88 % of the way to the edge.",
        "api_11d1_2021 annex G; lubinski1962; practice for the cases";
    RATING "casing-packer-rating-missing" Stop "The envelope has no answer for a case",
        "Whether the envelope's rows reach down to no differential, and are without repeats.",
        "Nothing is read beyond what the supplier has tested.",
        "Ask the supplier for the load ratings at a differential of zero and at the differentials of the cases.",
        "Envelope from 10,000 to 5,000 psi; the completion hangs at 0 psi.",
        "api_11d1_2021 annex G";
    DIFFERENTIAL "casing-packer-differential" Stop "The differential with its factor is above the casing packer's highest",
        "The greatest differential of all cases times `limits.packer_factor` against the envelope's highest row.",
        "The factor that holds for the open-hole packers holds for the one above them all.",
        "Hold pressure on the annulus, lower the trip, or take a packer of a higher rating.",
        "7,700 psi times 1.1 against 8,000 psi.",
        "practice";
    TEMPERATURE "casing-packer-temperature" Stop "The casing packer stands hotter than it is rated for",
        "The undisturbed temperature of the rock at its lower end against its highest temperature; a warning within 5 K.",
        "It is cold while treating and at full temperature for years after.",
        "Take elements for the temperature, or set it higher in the casing.",
        "239 degF at a packer rated to 225 degF.",
        "practice";
    DRIFT "casing-packer-drift" Stop "The casing packer does not pass the casing",
        "Its outer diameter against the least drift of the casing from the surface to its depth.",
        "A tool that drifts tight swabs, sticks, or tears its elements on the way in.",
        "Take a smaller packer, or casing of special drift with its certificate.",
        "5.98 in packer, 5.92 in drift.",
        "api_5ct_2018, standard drift size";
    NO_CASING "casing-packer-no-casing" Warn "No casing string is described where the casing packer runs",
        "Whether a casing string of the job reaches the casing packer.",
        "Its drift and wall are what the packer passes and grips.",
        "Add the casing to the strings of the job file.",
        "Casing packer at 10,850 ft, casing described to 9,000 ft.",
        "practice";
    PUSHED "casing-packer-pushed-up" Note "The casing packer may be pushed up",
        "Whether any case loads it upward.",
        "Slips that hold down do not all hold up.",
        "Make sure that the supplier's figure for loads pushing up is for holding, not for setting.",
        "127 klbf up when the treating string is cold and the liner still warm.",
        "practice";
    ASSUMED "casing-packer-assumptions" Note "The casing packer's cases take things for granted",
        "What the program takes for granted beyond the job file.",
        "A case that does not fit the job gives a load that does not hold.",
        "Read the assumptions and compare them with the tools and the procedure.",
        "A friction factor of 0.30 for the hung load after lowering and picking up.",
        "practice";
}
