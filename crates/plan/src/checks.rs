//! Every check of the program, for `explain`.

use well::{Check, Severity};

/// A relation refused its inputs.
pub static RELATION_REFUSED: Check = Check {
    id: "relation-refused",
    severity: Severity::Stop,
    title: "A relation could not be evaluated",
    checks: "Every relation for inputs it has an answer to.",
    why: "A figure that could not be computed must not be missing without a word.",
    next: "Read which input the message names, and correct it in the job file.",
    example: "A dogleg between two stations at the same depth has no severity.",
    references: "the relation's own source; `calc --list`",
};

/// The checks of this module.
static OWN: &[&Check] = &[&RELATION_REFUSED];

/// The lists of all floors and phases.
static LISTS: &[&[&Check]] = &[
    well::record::CHECKS,
    well::job::CHECKS,
    well::assemble::CHECKS,
    well::table::CHECKS,
    well::trajectory::CHECKS,
    well::las::CHECKS,
    well::hole::CHECKS,
    well::tally::CHECKS,
    well::tubular::CHECKS,
    OWN,
    crate::ladder::CHECKS,
    crate::layout::CHECKS,
    crate::stages::CHECKS,
    crate::balls::CHECKS,
    crate::strings::CHECKS,
    crate::casing_packer::CHECKS,
    crate::setting::CHECKS,
    crate::swell::CHECKS,
];

/// All checks, by floor and phase.
pub fn all() -> impl Iterator<Item = &'static Check> {
    LISTS.iter().flat_map(|list| list.iter().copied())
}
