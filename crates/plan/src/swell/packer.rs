//! The swell of one packer in its own hole at its own temperature.

use quantity::*;
use well::Job;

use super::draws::{Draw, quantile};
use super::element::{Element, Kind, tested};
use super::result::SwellPacker;
use super::warm_up::WarmUp;
use crate::Band;
use crate::layout::StagePlace;

/// Standard normal quantile of 0.9.
const Z90: f64 = 1.281_551_565_544_600_4;

/// What all packers share.
pub(super) struct Bench<'a> {
    pub job: &'a Job,
    pub element: &'a Element<'a>,
    pub draws: &'a [Draw],
    /// The element of every draw.
    pub kinds: &'a [Kind],
    /// Temperature when the fluid is in place.
    pub start: Temperature,
    pub warm_up: Time,
    pub wait: Time,
}

/// A packer's samples.
pub(super) struct Samples<'a> {
    pub place: &'a StagePlace,
    pub warm: WarmUp,
    /// What the clock of every draw counts while the packer warms up.
    pub counted: Vec<Time>,
}

impl<'a> Bench<'a> {
    /// The samples of a packer.
    pub fn samples(&self, place: &'a StagePlace) -> physics::Result<Samples<'a>> {
        let rock = self.job.rock_temperature(place.packer.tvd);
        let warm = WarmUp::new(self.warm_up, self.start, rock)?;
        let counted = warm.counted_by(self.kinds, warm.until)?;
        Ok(Samples { place, warm, counted })
    }

    /// Accuracy of the caliper, one standard deviation.
    fn caliper(&self) -> Diameter {
        self.job.file.hole.caliper.as_ref().map_or(Diameter::ZERO, |c| c.sigma)
    }

    /// Hole of a draw: spread along the element, each side with its own, and the caliper's.
    pub fn hole(&self, place: &StagePlace, draw: &Draw) -> Diameter {
        let size = &place.packer.hole;
        let side = if draw.along < 0.0 { size.p50 - size.p10 } else { size.p90 - size.p50 };
        size.p50 + side * (draw.along / Z90) + self.caliper() * draw.caliper
    }

    /// Times of all draws to a growth beyond the hole, sorted; endless where no reading reaches it.
    fn times(&self, s: &Samples<'_>, beyond: Diameter) -> physics::Result<Vec<f64>> {
        let mut out = Vec::with_capacity(self.draws.len());
        for ((draw, kind), counted) in self.draws.iter().zip(self.kinds).zip(&s.counted) {
            let wanted = self.hole(s.place, draw) + beyond;
            out.push(match self.element.needs(*kind, wanted) {
                Some(needed) => s.warm.time_at(&kind.clock, *counted, needed)?.si(),
                None => f64::INFINITY,
            });
        }
        out.sort_by(f64::total_cmp);
        Ok(out)
    }

    /// Free diameters of all draws at a time, as a band.
    pub fn diameters(&self, s: &Samples<'_>, time: Time) -> physics::Result<Band<Diameter>> {
        let counted = s.warm.counted_by(self.kinds, time)?;
        let free = |(kind, counted): (&Kind, &Time)| self.element.diameter(*kind, *counted).si();
        let mut list: Vec<f64> = self.kinds.iter().zip(&counted).map(free).collect();
        list.sort_by(f64::total_cmp);
        Ok(band(&list).unwrap_or(Band::sharp(self.element.dry)))
    }

    /// Hole sizes of all draws, as a band.
    fn holes(&self, place: &StagePlace) -> Band<Diameter> {
        let mut list: Vec<f64> = self.draws.iter().map(|d| self.hole(place, d).si()).collect();
        list.sort_by(f64::total_cmp);
        band(&list).unwrap_or(Band::sharp(place.packer.hole.p50))
    }

    /// The whole of a packer.
    pub fn packer(&self, s: &Samples<'_>) -> physics::Result<SwellPacker> {
        let (place, table) = (&s.place.packer, self.element.table);
        let middle = self.element.middle()?;
        let counted = s.warm.counted(&middle.clock)?;
        let time_to = |diameter: Diameter| -> physics::Result<Option<Time>> {
            let needed = self.element.needs(middle, diameter);
            needed.map(|n| s.warm.time_at(&middle.clock, counted, n)).transpose()
        };
        let (contact, rating) = (self.times(s, Diameter::ZERO)?, self.times(s, table.rating_interference)?);
        let hole = self.holes(s.place);
        let wanted = place.hole.p50 + table.rating_interference;
        let share = |n: usize| Ratio::of(n as f64 / rating.len().max(1) as f64);
        Ok(SwellPacker {
            stage: s.place.stage,
            depth: place.element_top + (place.element_bottom - place.element_top) / 2.0,
            temperature: s.warm.rock,
            hole,
            worst_hole: place.hole.worst,
            wanted,
            contact: band(&contact),
            rating: band(&rating),
            contact_middle: time_to(place.hole.p50)?,
            rating_middle: time_to(wanted)?,
            rating_in_worst_hole: time_to(place.hole.worst + table.rating_interference)?,
            reaches: share(rating.iter().filter(|t| t.is_finite()).count()),
            ready: share(rating.iter().filter(|t| **t <= self.wait.si()).count()),
            diameter_at_wait: self.diameters(s, self.wait)?,
            beyond_tests: Ratio::of(self.beyond(s, middle, wanted)?),
        })
    }

    /// Share of the swelling made further from the tests than is taken for granted; where the
    /// rating is not reached, of all the readings.
    fn beyond(&self, s: &Samples<'_>, middle: Kind, wanted: Diameter) -> physics::Result<f64> {
        let last = self.element.table.row.last().map_or(Time::ZERO, |r| r.time);
        let needed = self.element.needs(middle, wanted).unwrap_or(last);
        s.warm.beyond(&middle.clock, tested(self.element.table), needed)
    }

    /// Time to contact at the rock's temperature from the first moment, in the smallest hole over
    /// the element, of an element that grows more than nine in ten.
    pub fn touches(&self, s: &Samples<'_>) -> physics::Result<Option<Time>> {
        let fast = self.element.kind(&Draw { swell: Z90, ..Draw::default() })?;
        let Some(needed) = self.element.needs(fast, s.place.packer.hole.least) else { return Ok(None) };
        Ok(Some(needed / fast.clock.rate(s.warm.rock)?))
    }
}

/// Band of sorted numbers; none where one of its figures is endless.
pub(super) fn band<Q: Quantity>(sorted: &[f64]) -> Option<Band<Q>> {
    let at = |share| quantile(sorted, share).map(Q::from_si);
    Some(Band { p10: at(0.1)?, p50: at(0.5)?, p90: at(0.9)? })
}
