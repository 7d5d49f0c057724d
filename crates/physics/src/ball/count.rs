//! Whole numbers and yes/no answers, which travel as pure numbers.

use crate::error::{Error, Result, require};
use quantity::{Quantity, Ratio};

/// The greatest count taken; a ladder or a job far above any real one is a slip of the pen.
pub(crate) const MOST: f64 = 500.0;

/// Reads a whole number between `least` and [`MOST`].
pub(crate) fn whole(relation: &'static str, name: &'static str, value: Ratio, least: f64) -> Result<usize> {
    let n = value.si();
    require(
        n.fract() == 0.0 && n >= least && n <= MOST,
        relation,
        name,
        value,
        format!("a whole number from {least} to {MOST}"),
        "Stages and balls are counted from 1.",
    )?;
    Ok(n as usize)
}

/// Pairs two lists that belong together, each with its name; unequal lengths are refused.
pub(crate) fn paired<A: Copy, B: Copy>(
    relation: &'static str,
    (name_a, a): (&str, &[A]),
    (name_b, b): (&str, &[B]),
) -> Result<Vec<(A, B)>> {
    if a.len() == b.len() {
        return Ok(a.iter().copied().zip(b.iter().copied()).collect());
    }
    Err(Error::NoSolution {
        relation,
        what: format!("there are {} {name_a} and {} {name_b}", a.len(), b.len()),
        hint: "Give two lists of the same length, in the same order.",
    })
}

/// One for yes, zero for no.
pub(crate) fn flag(yes: bool) -> Ratio {
    Ratio::of(if yes { 1.0 } else { 0.0 })
}

/// A count as a pure number.
pub(crate) fn number(count: usize) -> Ratio {
    Ratio::of(count as f64)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_whole_counts_pass() {
        assert_eq!(whole("r", "n", Ratio::of(3.0), 1.0), Ok(3));
        for bad in [0.0, -1.0, 2.5, 501.0, f64::NAN, f64::INFINITY] {
            assert!(whole("r", "n", Ratio::of(bad), 1.0).is_err(), "{bad}");
        }
    }
}
