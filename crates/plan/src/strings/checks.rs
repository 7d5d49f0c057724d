//! Checks of the strings' ratings and load cases.

well::checks! {
    BURST "string-burst" Stop "A string is too weak for the pressure inside",
        "The lesser internal pressure rating of body and connection over the difference inside to outside, in every load case at every place, against the burst factor; a warning within 5 % of it.",
        "A string that yields under treating pressure parts beside people.",
        "Lower the treating pressure, trip and relief; hold pressure on the annulus; or run stronger pipe.",
        "Screenout: 12,400 psi rating over 10,300 psi makes 1.20; 1.25 is asked for.",
        "api_5c3_1994, internal yield; practice for the cases";
    COLLAPSE "string-collapse" Stop "A string is too weak for the pressure outside",
        "The collapse rating left under axial load and inside pressure over the difference outside to inside, against the collapse factor; a warning within 5 % of it.",
        "A collapsed string lets no ball, no mill and no production past. Below a landed ball the bore may be at pore pressure while a screenout fills the annulus of the stage with the pressure above the ball.",
        "Lower the trip, limit the drawdown and the annulus pressure, or run thicker pipe.",
        "Below the widest seat in a screenout: 6,270 psi rating over 5,830 psi makes 1.08; 1.10 is asked for.",
        "api_5c3_addendum_2015 clause 8.4.6; practice for the cases";
    TENSION "string-tension" Stop "A string or its connection is too weak along its axis",
        "The lesser strength of body and connection over the true axial force, in tension and compression, against the tension factor; a warning within 5 % of it.",
        "Cold fluid and ballooning pull on pipe that two packers hold; the ball on its seat adds to it. A parted liner ends the job.",
        "Warm the pumped fluid, lower the pressure, or run stronger pipe or connection.",
        "Widest seat in a screenout: 212 klbf joint over 150 klbf makes 1.41; 1.50 is asked for.",
        "lubinski1962; api_5c3_1994, joint strength; practice for the cases";
    TRIAXIAL "string-triaxial" Stop "A string is too weak for all its loads together",
        "The yield strength over the greatest von Mises stress at bore and outer wall, with the bend of the place and, where the inside is the higher, the thinnest wall allowed; the worst place is looked for course by course of the survey, against the triaxial factor; a warning within 5 % of it.",
        "Pressure, pull and bending act at once in a fractured liner; no single rating sees them together.",
        "Lower the pressure, choose a smoother hole for the string, or run stronger pipe.",
        "Screenout at the casing packer: 110 ksi over 92 ksi makes 1.20; 1.25 is asked for.",
        "iso_tr_10400 clause 6; practice for the cases";
    LIMIT "string-pressure-limit" Stop "A pressure limit is above what the string allows",
        "`limits.treating_pressure` and `limits.trip` against the lowest internal yield of what is pumped through, over the burst factor, with nothing outside.",
        "The trip is what stands between a landed ball and the pipe; it must act before the pipe yields.",
        "Lower the limit, or run stronger pipe or connection.",
        "Trip 10,200 psi; 12,400 psi over 1.25 allows 9,920 psi.",
        "api_5c3_1994, internal yield; practice";
    RELIEF "string-relief-share" Warn "The relief setting is above 85 % of the lowest internal yield",
        "`limits.relief` against 85 % of the lowest internal yield of what is pumped through.",
        "Relief valves and trips act late and overshoot; a share of the yield must be left for that.",
        "Lower relief and trip, and look up the rule of the place.",
        "Relief 9,300 psi on pipe that yields at 10,690 psi: 87 %.",
        "practice: one US state rule holds relief and trips to 85 % of the lowest internal yield of the string; the local rule decides";
    GOVERNS "string-connection-governs" Note "The connection is weaker than the pipe",
        "The connection's ratings against the body's.",
        "Ratings read from a pipe table are those of the body; the string parts at the joint first.",
        "Take the connection's figures wherever a limit of this string is written down.",
        "212 klbf joint on a body of 267 klbf.",
        "api_5c3_1994, joint strength";
    INTERNAL "string-connection-internal" Note "The connection has no internal pressure rating",
        "Whether an internal pressure rating of the connection is stated.",
        "A coupling may leak or yield before the body does; the program then counts the body alone.",
        "Take the rating from the supplier's data sheet and state `connection_internal` with a rated connection.",
        "Long round thread, no rating stated.",
        "practice";
    COMPRESSION "string-connection-compression" Note "The connection has no compression rating",
        "Whether a compression rating is stated where a load case puts the string in compression.",
        "Some connections hold far less in compression than in tension; the program then counts the body alone.",
        "Take the rating from the supplier's data sheet and state `connection_compression` with a rated connection.",
        "Buttress thread, 110 klbf of compression while flowing back hot.",
        "practice";
    TAPERED "string-tapered" Note "The treating string is made of several strings",
        "How many strings have the role of treating string.",
        "Each is taken as held at its own two ends; a change of size between them shifts force from one to the other.",
        "Have the forces of a string of several sizes checked apart where a factor is near its limit.",
        "5-1/2 in over 4-1/2 in.",
        "hammerlindl1977";
    ASSUMED "string-load-assumptions" Note "The load cases take things for granted",
        "What the program takes for granted of the strings beyond the job file.",
        "A case that does not fit the job gives a factor that does not hold.",
        "Read the assumptions of the load cases and compare them with the procedure.",
        "The treating string is held at the wellhead and at the casing packer.",
        "practice";
}
