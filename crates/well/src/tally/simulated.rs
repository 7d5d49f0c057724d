//! A tally made up by the program, for planning before the pipe is on location.

use rand_chacha::ChaCha12Rng;
use rand_chacha::rand_core::SeedableRng;
use rand_distr::{Distribution, Normal};

use super::joint::{Joint, JointKind, LengthOrigin};
use super::range::LengthRange;
use quantity::{Length, Quantity, System};

/// Most joints of a simulated tally.
const MOST_JOINTS: usize = 20_000;
/// Draws per joint before the nearest length of the range is taken.
const MOST_DRAWS: usize = 1_000;

/// A tally cannot be simulated.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SimulationError {
    /// Too many joints.
    #[error("{count} joints were asked for; at most {MOST_JOINTS} are simulated")]
    Count {
        /// Joints asked for.
        count: usize,
    },
    /// The mean lies outside the range.
    #[error(
        "a mean of {} lies outside {}, which goes from {} to {}",
        .mean.text(System::Field), .range.word(),
        .range.limits().0.text(System::Field), .range.limits().1.text(System::Field)
    )]
    Mean {
        /// Mean asked for.
        mean: Length,
        /// Length range.
        range: LengthRange,
    },
    /// The standard deviation is negative or not a number.
    #[error("a standard deviation of {} is not possible; it must be zero or more", .sd.text(System::Field))]
    Deviation {
        /// Standard deviation asked for.
        sd: Length,
    },
}

/// Joints of a normal distribution cut at the limits of a length range, measured to 0.01 ft as
/// pipe is strapped. The same seed gives the same tally on every machine: the random numbers
/// are those of ChaCha12, and rounding to 0.01 ft takes up the last digits of the logarithm.
///
/// Every joint is marked as simulated. Never space out on it.
///
/// ```
/// use quantity::Length;
/// use well::tally::{LengthRange, simulated_tally, total_length};
/// let (mean, sd) = LengthRange::Three.assumed();
/// let joints = simulated_tally(7, 150, LengthRange::Three, mean, sd)?;
/// let average = total_length(&joints).in_ft() / 150.0;
/// assert!((average - 41.5).abs() < 0.5);
/// assert_eq!(joints, simulated_tally(7, 150, LengthRange::Three, mean, sd)?);
/// # Ok::<(), well::tally::SimulationError>(())
/// ```
pub fn simulated_tally(
    seed: u64,
    count: usize,
    range: LengthRange,
    mean: Length,
    sd: Length,
) -> Result<Vec<Joint>, SimulationError> {
    if count > MOST_JOINTS {
        return Err(SimulationError::Count { count });
    }
    let (low, high) = range.limits();
    if !(low..=high).contains(&mean) {
        return Err(SimulationError::Mean { mean, range });
    }
    let fault = SimulationError::Deviation { sd };
    if !(sd.is_finite() && sd.si() >= 0.0) {
        return Err(fault);
    }
    let normal = Normal::new(mean.in_ft(), sd.in_ft()).map_err(|_| fault)?;
    let mut random = ChaCha12Rng::seed_from_u64(seed);
    let limits = low.in_ft()..=high.in_ft();
    let mut draw = || {
        let drawn = (0..MOST_DRAWS).map(|_| normal.sample(&mut random)).find(|x| limits.contains(x));
        let feet = drawn.unwrap_or(mean.in_ft());
        Length::ft((feet * 100.0).round() / 100.0)
    };
    let joint = |number: usize, length: Length| Joint {
        number: number.to_string(),
        serial: None,
        length,
        description: format!("simulated {} joint", range.word()),
        od: None,
        id: None,
        kind: JointKind::Joint,
        origin: LengthOrigin::Simulated,
        line: None,
    };
    Ok((1..=count).map(|number| joint(number, draw())).collect())
}
