//! Length ranges of casing and liner.

use quantity::Length;

/// A length range of the standard (casing; api_5ct_2018).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LengthRange {
    /// 16 to 25 ft.
    One,
    /// 25 to 34 ft.
    Two,
    /// 34 to 48 ft.
    Three,
}

impl LengthRange {
    /// All ranges.
    pub const ALL: [LengthRange; 3] = [LengthRange::One, LengthRange::Two, LengthRange::Three];

    /// Word as written in files.
    pub fn word(self) -> &'static str {
        match self {
            LengthRange::One => "R1",
            LengthRange::Two => "R2",
            LengthRange::Three => "R3",
        }
    }

    /// The range of that word.
    pub fn of(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|r| r.word().eq_ignore_ascii_case(word.trim()))
    }

    /// Shortest and longest joint of the range.
    pub fn limits(self) -> (Length, Length) {
        let (low, high) = match self {
            LengthRange::One => (16.0, 25.0),
            LengthRange::Two => (25.0, 34.0),
            LengthRange::Three => (34.0, 48.0),
        };
        (Length::ft(low), Length::ft(high))
    }

    /// Mean and standard deviation a simulated tally takes when none are given; an assumption
    /// of the program, near what mills deliver.
    pub fn assumed(self) -> (Length, Length) {
        let (mean, sd) = match self {
            LengthRange::One => (20.0, 1.0),
            LengthRange::Two => (30.5, 1.0),
            LengthRange::Three => (41.5, 1.5),
        };
        (Length::ft(mean), Length::ft(sd))
    }

    /// The range a length falls into; a length on a border belongs to the longer one.
    pub fn holding(length: Length) -> Option<Self> {
        let inside = |r: &Self| (r.limits().0..=r.limits().1).contains(&length);
        Self::ALL.into_iter().rev().find(inside)
    }
}
