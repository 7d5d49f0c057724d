//! The joint tally.
