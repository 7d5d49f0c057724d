//! Pressure down the column of parcels at a rate: weight, pipe friction and seats, each on its own.

use crate::column::Column;
use crate::fluids::Fluids;
use crate::route::Route;
use quantity::constant::GRAVITY;
use quantity::*;

/// What the column does to pressure between the wellhead and the open sleeve, Pa.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Down {
    /// Weight of the column.
    pub weight: f64,
    /// Friction in pipe.
    pub pipe: f64,
    /// Loss in the seats on the way.
    pub seats: f64,
    /// Density of what is at the open sleeve, kg/m³.
    pub density_below: f64,
    /// Place at the lower end.
    pub tvd: f64,
}

impl Down {
    /// Pressure that the column adds on the way down, Pa.
    pub fn gain(&self) -> f64 {
        self.weight - self.pipe - self.seats
    }
}

/// A stretch of the way by the volumes from the meter at its ends, and the rate through it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Stretch {
    pub from: f64,
    pub to: f64,
    pub rate: f64,
}

/// Walks a column down a stretch, from the volume at its upper end. `heights` is the vertical depth over the
/// knots counted with the expansion of the clean fluid, so that its product with the density at
/// the surface is the weight at depth.
pub(crate) fn down(
    route: &Route,
    column: &Column,
    fluids: &mut Fluids<'_>,
    heights: &[f64],
    Stretch { from, to: end, rate }: Stretch,
) -> physics::Result<Down> {
    let mut out = Down::default();
    let mut volume = from;
    let mut upper = route.above(from, 0);
    let mut upper_height = route.of_profile(heights, &upper);
    // A seat at the upper end belongs to the open sleeve there.
    let mut seats = route.seats().iter().skip_while(|s| s.volume <= from + 1e-9).peekable();
    for parcel in column.from_top() {
        if volume >= end {
            break;
        }
        volume = (volume + parcel.amount.slurry.si()).min(end);
        let lower = route.above(volume, upper.knot);
        let lower_height = route.of_profile(heights, &lower);
        let a = &parcel.amount;
        // Grains do not expand: the clean part weighs over the counted height, the grains over the true one.
        let clean = a.clean.si() * fluids.clean_density(parcel.make) / a.slurry.si();
        let grains = a.mass.si() / a.slurry.si();
        out.weight += GRAVITY * (clean * (lower_height - upper_height) + grains * (lower.tvd - upper.tvd));
        if rate > 0.0 {
            out.pipe += route.friction(&upper, &lower, fluids.gradients(parcel.make, rate)?);
        }
        let density = clean + grains;
        // A seat at the very end is the open sleeve's own and is not passed.
        while seats.peek().is_some_and(|s| s.volume <= volume && s.volume < end - 1e-9) {
            let loss = seats.next().map_or(0.0, |s| s.loss);
            out.seats += 0.5 * density * loss * rate * rate;
        }
        out.density_below = density;
        (upper, upper_height) = (lower, lower_height);
    }
    out.tvd = upper.tvd;
    Ok(out)
}
