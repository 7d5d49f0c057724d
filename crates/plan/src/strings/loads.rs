//! Pressures and axial force of a string at a place in a load case.

use physics::tubular::effective_tension::Pressures;
use physics::tubular::fixed_ends::{SeatLoadPath, SpanLoad, ballooning_force, thermal_force};
use physics::tubular::steel::Steel;
use quantity::*;
use well::PipeString;
use well::job::StringRole;

use super::hung::Hanging;
use super::places::{Place, SeatSide};
use super::result::{LoadCase, LoadRow};
use super::surroundings::{Spot, Surroundings};

/// Parts of the true axial force, tension positive.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Axial {
    /// What hangs or floats there.
    pub hanging: Force,
    /// Ballooning with both ends held.
    pub ballooning: Force,
    /// Temperature with both ends held.
    pub thermal: Force,
    /// The ball on the seat below.
    pub seat: Force,
}

/// A string among its surroundings.
pub(super) struct Loads<'a> {
    /// Pressures and temperatures.
    pub around: &'a Surroundings<'a>,
    /// Weights.
    pub hanging: &'a Hanging,
    /// The string.
    pub string: &'a PipeString,
}

impl Axial {
    /// The sum.
    pub fn total(&self) -> Force {
        self.hanging + self.ballooning + self.thermal + self.seat
    }
}

impl LoadCase {
    /// Whether pumping goes on or has just stopped.
    pub(crate) fn pumped(self) -> bool {
        matches!(self, Self::Treating | Self::Screenout | Self::Trip)
    }

    /// Whether the packers have not set yet, so that the strings hang free with the toe closed.
    pub(crate) fn free(self) -> bool {
        matches!(self, Self::RunIn | Self::Setting | Self::Test)
    }
}

impl Loads<'_> {
    /// Gauge pressures inside and outside at a spot of a place's own stretch.
    pub fn pressures(&self, case: LoadCase, place: &Place, spot: Spot) -> (GaugePressure, GaugePressure) {
        let around = self.around;
        match self.string.table.role {
            StringRole::Treating => (around.bore(case).at(spot), around.annulus(case).at(spot)),
            StringRole::Liner => match place.seat {
                SeatSide::Above(_) if case.pumped() => self.above_seat(case, spot),
                SeatSide::Below if case.pumped() => self.below_seat(case, spot),
                _ => (around.bore(case).at(spot), around.open_hole(case).at(spot)),
            },
            StringRole::Casing => {
                let behind = if case == LoadCase::RunIn { around.annulus(case) } else { around.pore() };
                (self.in_casing(case, spot), behind.at(spot))
            }
        }
    }

    /// Above a landed ball. The ports of the stage are open and its annulus at the fracture
    /// pressure at least; at the trip the sleeve has stayed shut.
    fn above_seat(&self, case: LoadCase, spot: Spot) -> (GaugePressure, GaugePressure) {
        let around = self.around;
        if case == LoadCase::Trip {
            return (around.shut_sleeve().at(spot), around.open_hole(case).at(spot));
        }
        let inside = around.bore(case).at(spot);
        (inside, around.fracture(spot).min(inside))
    }

    /// Below a landed ball: pore pressure inside, and outside the annulus of the stage that is
    /// treated, which a screenout brings to the pressure of the bore above.
    fn below_seat(&self, case: LoadCase, spot: Spot) -> (GaugePressure, GaugePressure) {
        let around = self.around;
        let bore = around.bore(case).at(spot);
        let outside = if case == LoadCase::Treating { around.fracture(spot).min(bore) } else { bore };
        (around.pore().at(spot), outside)
    }

    /// Inside the casing: the annulus of the treating string, and below the casing packer what
    /// has come past the first open-hole packer, as far as the rock there holds it.
    fn in_casing(&self, case: LoadCase, spot: Spot) -> GaugePressure {
        let around = self.around;
        if spot.md <= around.layout.casing_packer_top {
            return around.annulus(case).at(spot);
        }
        match case {
            _ if case.free() => around.annulus(LoadCase::RunIn).at(spot),
            _ if case.pumped() => around.bore(case).at(spot).min(around.fracture(spot)),
            _ => around.bore(case).at(spot),
        }
    }

    /// What the stretch of a place takes after landing, as changes; none while it is free.
    pub fn span_load(&self, case: LoadCase, place: &Place) -> Option<SpanLoad> {
        let cemented = self.string.table.role == StringRole::Casing;
        let held = place.held.filter(|_| cemented || !case.free())?;
        let (inside, outside) = self.pressures(case, place, held);
        let (landed_inside, landed_outside) = self.pressures(LoadCase::RunIn, place, held);
        let (seat_difference, seat_bore) = match place.seat {
            SeatSide::Above(seat) if case.pumped() => {
                let above = self.pressures(case, place, place.spot).0;
                ((above - self.around.pore().at(place.spot)).max(Pressure::ZERO), seat)
            }
            _ => (Pressure::ZERO, Diameter::ZERO),
        };
        Some(SpanLoad {
            pressures: Pressures { inside: inside - landed_inside, outside: outside - landed_outside },
            temperature: self.around.warming(case, held),
            seat_difference,
            seat_bore,
            seat_place: Ratio::of(1.0),
            path: SeatLoadPath::HeelSide,
        })
    }

    /// The axial force at a place. While the strings hang free with the toe closed it is that of
    /// a closed pipe; once the packers have set, temperature and ballooning act with both ends
    /// held on top of the landed force.
    pub fn axial(&self, case: LoadCase, place: &Place) -> physics::Result<Axial> {
        let Some(load) = self.span_load(case, place) else {
            return Ok(Axial { hanging: self.floating(case, place)?, ..Axial::default() });
        };
        let (tube, steel) = (self.string.pipe.tube(), Steel::default());
        Ok(Axial {
            hanging: self.floating(LoadCase::RunIn, place)? + self.locked(steel),
            ballooning: ballooning_force(tube, steel.poisson, load.pressures)?,
            thermal: thermal_force(tube, steel, load.temperature)?,
            seat: load.seat_difference * load.seat_bore.circle(),
        })
    }

    /// A row before its safety factors.
    pub fn row(&self, case: LoadCase, place: &Place) -> physics::Result<LoadRow> {
        let (inside, outside) = self.pressures(case, place, place.spot);
        let axial = self.axial(case, place)?;
        Ok(LoadRow {
            case,
            point: place.point,
            depth: place.spot.md,
            inside,
            outside,
            axial: axial.total(),
            hanging: axial.hanging,
            ballooning: axial.ballooning,
            thermal: axial.thermal,
            seat: axial.seat,
            bend: place.bend,
            von_mises: Pressure::ZERO,
            burst: None,
            collapse: None,
            tension: None,
            triaxial: None,
        })
    }

    /// True force of a free, closed pipe: the buoyed weight below and the pressures on its end.
    fn floating(&self, case: LoadCase, place: &Place) -> physics::Result<Force> {
        let (inside, outside) = self.pressures(case, place, place.spot);
        // T = Te + Pi Ai - Po Ao
        let tube = self.string.pipe.tube();
        let end = tube.end_force(inside.above_atmosphere(), outside.above_atmosphere());
        Ok(self.below(place.spot.md)? + end)
    }

    /// Density inside the string when it was run.
    pub fn landed_density(&self) -> Density {
        let setting = &self.around.job.file.setting;
        match self.string.table.role {
            StringRole::Casing => setting.outside_density,
            StringRole::Treating | StringRole::Liner => setting.inside_density,
        }
    }

    /// Buoyed weight below a depth, in the setting fluids.
    pub fn below(&self, depth: MeasuredDepth) -> physics::Result<Force> {
        let job = self.around.job;
        match self.string.table.role {
            StringRole::Liner => self.hanging.liner_below(job, depth),
            StringRole::Treating => self.hanging.string_below(job, depth),
            StringRole::Casing => {
                let mud = self.landed_density();
                let (tube, mass) = (self.string.pipe.tube(), self.string.pipe.weight());
                let weight = physics::tubular::buoyed_weight::buoyed_weight(tube, mass, mud, mud)?;
                let bottom = self.string.table.bottom.max(depth);
                let extent = job.trajectory.tvd_at(bottom) - job.trajectory.tvd_at(depth);
                Ok(Force::n(weight.si() * extent.si()))
            }
        }
    }

    fn locked(&self, steel: Steel) -> Force {
        match self.string.table.role {
            StringRole::Liner => locked_in(self.around.locked_difference(), self.string, steel),
            _ => Force::ZERO,
        }
    }
}

/// Stretch that stays in a closed string when its packers set under a difference and the pressure
/// is then let off: the end load less the ballooning that goes back, `dP Ai (1 - 2 nu)`.
pub(crate) fn locked_in(difference: Pressure, string: &PipeString, steel: Steel) -> Force {
    difference * string.bore().circle() * (1.0 - 2.0 * steel.poisson.si())
}
