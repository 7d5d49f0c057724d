//! Whether the pumped volume can tell one sleeve from the next.

use crate::ball::count::flag;
use crate::error::{Result, require_not_negative, require_positive};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Capacity, Length, Quantity, Ratio, Volume};

const NAME: &str = "volume_identity";

/// Volume between two sleeves, and how many standard deviations of a landing volume it is.
///
/// ```text
/// V = L C,   n = V / sigma
/// ```
///
/// - `L` distance between the sleeves, m; `C` capacity of the string, m3/m; `sigma` one standard
///   deviation of a landing volume, m3
///
/// Range: none; below about 3 the windows of neighbours blur into each other.
///
/// Where it breaks: even at 3 and more the volume only gives a window; the ball's size gives the
/// identity of the seat.
///
/// Source: trade_practice, volume is a window, size is identity.
///
/// ```
/// use physics::practice::volume_identity::volume_identity;
/// use quantity::*;
/// let (v, n) = volume_identity(Length::ft(300.0), Capacity::bbl_per_ft(0.01493), Volume::bbl(3.2))?;
/// assert!((v.in_bbl() - 4.48).abs() < 0.005 && (n - 1.4).abs() < 0.05);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn volume_identity(spacing: Length, capacity: Capacity, sigma: Volume) -> Result<(Volume, f64)> {
    require_not_negative(NAME, "spacing", spacing)?;
    require_positive(NAME, "capacity", capacity)?;
    require_positive(NAME, "sigma", sigma)?;
    let between = Volume::from_si(spacing.si() * capacity.si());
    Ok((between, between / sigma))
}

/// Whether volume tells two sleeves apart.
///
/// ```text
/// V = L C;   separable when V >= n sigma
/// ```
pub static VOLUME_IDENTITY: Relation = Relation {
    name: NAME,
    title: "Whether pumped volume can tell a sleeve from the next: it gives a window, never the identity",
    equation: "V = L C; separable when V >= n sigma",
    source: "trade_practice, volume is a window, size is identity",
    range: "even when separable, only the ball's size says which seat it is on",
    inputs: &[
        Input::new::<Length>("spacing", "distance between two sleeves"),
        Input::new::<Capacity>("capacity", "capacity of the string between them"),
        Input::new::<Volume>("sigma", "one standard deviation of a landing volume"),
        Input::new::<Ratio>("needed", "standard deviations asked for").or("3"),
    ],
    outputs: &[
        Output::new::<Volume>("between", "volume between the sleeves"),
        Output::new::<Ratio>("sigmas", "that volume over one standard deviation"),
        Output::new::<Ratio>("separable", "1 when the two windows do not blur into each other"),
    ],
    evaluate: |a| {
        let (between, sigmas) = volume_identity(a.get("spacing")?, a.get("capacity")?, a.get("sigma")?)?;
        let needed: Ratio = a.get("needed")?;
        require_positive(NAME, "needed", needed)?;
        Ok(Outputs::new()
            .put("between", between)
            .put("sigmas", Ratio::of(sigmas))
            .put("separable", flag(sigmas >= needed.si())))
    },
};
