//! A quantity known at points along another and taken as straight between them: temperature
//! along the well, temperature over time, a factor over temperature.

use crate::error::{Error, require};
use crate::{Result, error};
use quantity::{Quantity, Ratio, Value};

/// Most rows taken: a guard against a file read by mistake.
const MOST_ROWS: usize = 1_000_000;

/// Where a point lies beside the rows of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// Before the first row.
    Before,
    /// Between the first and the last row, both included.
    Within,
    /// After the last row.
    After,
}

/// Rows of `Y` at increasing `X`, straight between rows, held beyond them.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile<X: Quantity, Y: Quantity> {
    rows: Vec<(X, Y)>,
}

impl<X: Quantity + Into<Value>, Y: Quantity + Into<Value>> Profile<X, Y> {
    /// From rows; `x` must increase from row to row.
    pub fn new(relation: &'static str, x: &[X], y: &[Y]) -> Result<Self> {
        same_length(relation, x.len(), y.len())?;
        let finite = x.iter().all(|v| v.is_finite()) && y.iter().all(|v| v.is_finite());
        if !finite {
            return Err(Error::NotFinite { relation, output: "rows" });
        }
        for (a, b) in x.iter().zip(x.iter().skip(1)) {
            let limit = "above the row before it";
            require(b.si() > a.si(), relation, "row", *b, limit, "Sort the rows; remove repeats.")?;
        }
        Ok(Self { rows: x.iter().copied().zip(y.iter().copied()).collect() })
    }

    /// The rows.
    pub fn rows(&self) -> &[(X, Y)] {
        &self.rows
    }

    /// The value at `x` and where that lies; beyond the rows the nearest row's value.
    pub fn at(&self, x: X) -> (Y, Place) {
        let after = self.rows.partition_point(|(row, _)| row.si() <= x.si());
        let before = after.checked_sub(1).and_then(|i| self.rows.get(i));
        match (before, self.rows.get(after)) {
            (Some((x0, y0)), Some((x1, y1))) => {
                let share = (x.si() - x0.si()) / (x1.si() - x0.si());
                (Y::from_si(y0.si() + share * (y1.si() - y0.si())), Place::Within)
            }
            (Some((x0, y0)), None) if x0.si() == x.si() => (*y0, Place::Within),
            (Some((_, y0)), None) => (*y0, Place::After),
            (None, Some((_, y1))) => (*y1, Place::Before),
            (None, None) => (Y::from_si(f64::NAN), Place::Before),
        }
    }
}

/// Refuses lists that do not pair up, are empty or are beyond any sensible length.
pub fn same_length(relation: &'static str, x: usize, y: usize) -> Result<()> {
    let hint = "Give one value for each row.";
    let count = |n: usize| Ratio::of(n as f64);
    error::require(x > 0, relation, "rows", count(x), "one or more", hint)?;
    error::require(x <= MOST_ROWS, relation, "rows", count(x), "1000000 or fewer", "Thin out the rows.")?;
    error::require(x == y, relation, "rows", count(y), format!("{x}, as many as the list beside it"), hint)
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{Length, Time};

    #[test]
    fn straight_between_rows_and_held_beyond() {
        let p = Profile::new("t", &[Time::days(0.0), Time::days(2.0)], &[Length::m(1.0), Length::m(3.0)]);
        let p = p.unwrap();
        assert_eq!(p.at(Time::days(0.5)), (Length::m(1.5), Place::Within));
        assert_eq!(p.at(Time::days(2.0)), (Length::m(3.0), Place::Within));
        assert_eq!(p.at(Time::days(5.0)), (Length::m(3.0), Place::After));
        assert_eq!(p.at(Time::days(-1.0)), (Length::m(1.0), Place::Before));
    }

    #[test]
    fn refuses_rows_that_say_nothing() {
        let m = Length::m;
        assert!(Profile::<Time, Length>::new("t", &[], &[]).is_err());
        assert!(Profile::new("t", &[Time::days(0.0)], &[m(1.0), m(2.0)]).is_err());
        assert!(Profile::new("t", &[Time::days(1.0), Time::days(1.0)], &[m(1.0), m(2.0)]).is_err());
        assert!(Profile::new("t", &[Time::days(f64::NAN)], &[m(1.0)]).is_err());
    }
}
