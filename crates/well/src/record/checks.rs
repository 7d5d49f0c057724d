//! The checks of reading a job file.

crate::checks! {
    references: "TOML v1.0";
    SYNTAX "job-syntax" Stop "The job file is not valid TOML",
        "Every line of the job file against the TOML grammar.",
        "A line that cannot be read is a figure nobody has checked.",
        "Mend the line shown; text values stand in double quotes.",
        "`od = 4.5 in` is refused; write `od = \"4.5 in\"`.";
    MISSING "job-missing-field" Stop "A field that must be given is absent",
        "Every table for the fields it cannot do without.",
        "The program does not invent sizes, ratings or limits.",
        "Add the field with its unit.",
        "`[packer]` without `od`.";
    UNKNOWN "job-unknown-field" Stop "A field is not known here",
        "Every key of every table against the fields the program reads.",
        "A misspelt key would be a figure the program silently ignores.",
        "Correct the name or delete the line.",
        "`shear_presure = \"2000 psi\"` is refused, and `shear_pressure` is named as the nearest.";
    TYPE "job-wrong-type" Stop "A field holds the wrong kind of value",
        "Every value against what its field holds: text with a unit, a word, a whole number, a list or a table.",
        "A value of the wrong kind is most often a value in the wrong place.",
        "Write the value as the message shows.",
        "`stages = \"thirty\"` where a whole number is wanted.";
    UNIT "job-unit" Stop "A quantity has no unit, or one that does not fit",
        "Every quantity for a unit of the right dimension.",
        "A bare number hides whether it is feet or metres; wells have been lost to less.",
        "Write the number and the unit as text, such as \"4.5 in\".",
        "`depth = 10700` is refused; `depth = \"10700 ft\"` or `depth = \"3261 m\"` is taken.";
    NEGATIVE "job-negative" Stop "A quantity is negative that cannot be",
        "Lengths, diameters, pressures, volumes and the like for a negative sign.",
        "A negative length is a slip of the hand that a sum would hide.",
        "Correct the sign or the value.",
        "`length = \"-2 ft\"`.";
    CHOICE "job-choice" Stop "A word is not one of those that may stand here",
        "Every field that holds one word of a list.",
        "A word the program does not know would leave the field without meaning.",
        "Take one of the words the message lists.",
        "`kind = \"swelling\"` where \"fluid-activated\" or \"hydraulic-set\" may stand.";
    RANGE "job-range" Stop "A number is outside what the field can hold",
        "Whole numbers, lists and quantities for bounds that nothing in a well passes.",
        "A count of zero or a million is a slip, not a job.",
        "Correct the number.",
        "`count = 0`.";
}
