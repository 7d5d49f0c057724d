//! Volume of the hole between depths, and of the annulus around a string in it: the frusta
//! between readings (`frustum_volume`), looked up from running sums.

use crate::hole::build::Hole;
use crate::hole::profile::HoleError;
use physics::geometry::frustum_volume;
use quantity::{Diameter, Length, MeasuredDepth, Quantity, Volume};

/// Volume of a piece of straight wall, in SI numbers. Lengths and diameters of a profile are
/// never negative, so the relation always has an answer.
pub(super) fn frustum(length: f64, upper: f64, lower: f64) -> f64 {
    let volume = frustum_volume(Diameter::m(upper), Diameter::m(lower), Length::m(length));
    volume.map_or(0.0, |v| v.si())
}

/// The annulus between hole and string.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct Annulus {
    /// Its volume, with nothing taken off where the hole is tighter than the string.
    pub volume: Volume,
    /// The first depth at which the hole is tighter than the string, if there is one, and its
    /// diameter there.
    pub tight: Option<(MeasuredDepth, Diameter)>,
}

impl Hole {
    /// Volume of the hole between two depths: exact for the straight wall between readings, and
    /// additive. Two searches, whatever the length.
    pub fn volume(&self, top: MeasuredDepth, bottom: MeasuredDepth) -> Result<Volume, HoleError> {
        let (top, bottom) = self.profile.span(top, bottom)?;
        Ok(Volume::m3(self.profile.volume_to(bottom) - self.profile.volume_to(top)))
    }

    /// Volume between the hole and a string of one outer diameter.
    pub fn annulus(
        &self,
        top: MeasuredDepth,
        bottom: MeasuredDepth,
        outer: Diameter,
    ) -> Result<Annulus, HoleError> {
        let whole = self.volume(top, bottom)?;
        let (a, b) = self.profile.span(top, bottom)?;
        if self.profile.smallest(a, b) >= outer.si() {
            let string = outer.circle() * (bottom - top);
            return Ok(Annulus { volume: Volume::m3(whole.si() - string.si()), tight: None });
        }
        let (mut volume, mut tight) = (0.0, None);
        for piece in self.profile.pieces(a, b) {
            let [d1, d2] = piece.even;
            let small = piece.small[0].min(piece.small[1]);
            if small < outer.si() && tight.is_none() {
                tight = Some((MeasuredDepth::m(piece.top), Diameter::m(small)));
            }
            volume += ring(piece.bottom - piece.top, d1, d2, outer.si());
        }
        Ok(Annulus { volume: Volume::m3(volume), tight })
    }
}

/// Volume between a straight wall and a string, only where the wall is outside the string.
fn ring(l: f64, d1: f64, d2: f64, outer: f64) -> f64 {
    let (small, large) = (d1.min(d2), d1.max(d2));
    if large <= outer {
        return 0.0;
    }
    let part = if small >= outer { 1.0 } else { (large - outer) / (large - small) };
    let inner = small.max(outer);
    frustum(l * part, inner, large) - frustum(l * part, outer, outer)
}
