//! The checks on pipe: what `explain ID` prints.

use crate::finding::{Check, Severity};

/// The size is not in the catalogue.
pub static SIZE: Check = Check {
    id: "tubular-size-unknown",
    severity: Severity::Stop,
    title: "the size and weight are not in the catalogue",
    checks: "Outer diameter and nominal weight are looked up in the catalogue of standard sizes.",
    why: "Bore, drift, capacity and every rating follow from the wall; a wrong weight gives a wrong wall.",
    next: "Correct the weight, or give the inner diameter of the pipe.",
    example: "4-1/2 in pipe of 11.4 lb/ft: the catalogue has 11.6 lb/ft.",
    references: "api_5ct_2018",
};

/// The grade is not in the catalogue.
pub static GRADE: Check = Check {
    id: "tubular-grade-unknown",
    severity: Severity::Stop,
    title: "the grade is not in the catalogue and has no yield strength",
    checks: "The grade is looked up in the catalogue; a grade of the user's own needs its yield strength.",
    why: "Without a yield strength the pipe has no rating, and a plan without ratings is no plan.",
    next: "Correct the grade, or give its minimum yield and ultimate strength with their source.",
    example: "`P-100` is not a grade; P110 is.",
    references: "api_5ct_2018",
};

/// A measure no pipe has.
pub static MEASURE: Check = Check {
    id: "tubular-measure",
    severity: Severity::Stop,
    title: "a measure lies where no pipe has it",
    checks: "Diameters, walls, weights, strengths and drift are held against what a tube can have.",
    why: "An inner diameter above the outer, or inches read as millimetres, would spoil every figure.",
    next: "Check the figure and its unit.",
    example: "Outer diameter 4.5 in with an inner diameter of 4.9 in.",
    references: "geometry",
};

/// A strength is missing.
pub static STRENGTH: Check = Check {
    id: "tubular-strength-missing",
    severity: Severity::Stop,
    title: "the joint strength needs an ultimate strength",
    checks: "The standard threads are rated from yield and ultimate strength.",
    why: "The joint is often weaker than the body; leaving it out hides the weakest place.",
    next: "Give the minimum ultimate strength of the grade, or the connection's tension rating.",
    example: "A grade of the user's own with a yield strength of 105 ksi alone.",
    references: "api_5c3_1994",
};

/// The thread is not made on the size.
pub static THREAD: Check = Check {
    id: "tubular-thread-unknown",
    severity: Severity::Stop,
    title: "the thread is not known for this size",
    checks: "Round threads are looked up by size and weight.",
    why: "The engaged length decides whether the pin pulls out before the pipe breaks.",
    next: "Choose a thread the size is made with, or give the connection's rating.",
    example: "Short round thread on 5-1/2 in 23 lb/ft.",
    references: "api_5b_2008",
};

/// A connection rating is missing.
pub static CONNECTION: Check = Check {
    id: "tubular-connection-rating",
    severity: Severity::Stop,
    title: "a rated connection has no rating for the load",
    checks: "A connection rated by its supplier carries the rating the load is held against.",
    why: "The connection, not the body, governs most liners that are pushed, rotated and fractured through.",
    next: "Take the rating from the supplier's data sheet and name it in `source`.",
    example: "A rated connection with a tension rating and none for compression, in a liner pushed into a lateral.",
    references: "practice",
};

/// The weight does not fit the dimensions.
pub static WEIGHT: Check = Check {
    id: "tubular-weight",
    severity: Severity::Warn,
    title: "the weight does not fit the dimensions",
    checks: "The nominal weight is compared with the plain-end mass of the stated diameters.",
    why: "Hook load, buoyancy and drag are in proportion to the weight; a bore that does not belong to it \
          gives wrong ratings.",
    next: "Check weight and inner diameter against the supplier's sheet.",
    example: "4-1/2 in pipe of 11.6 lb/ft with an inner diameter of 3.826 in, which belongs to 15.1 lb/ft.",
    references: "api_5ct_2018",
};

/// All checks of pipe.
pub static CHECKS: &[&Check] = &[&SIZE, &GRADE, &MEASURE, &STRENGTH, &THREAD, &CONNECTION, &WEIGHT];
