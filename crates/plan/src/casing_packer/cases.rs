//! Load and differential of the casing packer in every case.
//!
//! The load is the pull of the liner below less the pull of the string above, as true forces, with
//! the pressure on the change of bore and diameter between them; the pressure on the element
//! itself is the envelope's other axis.

use physics::packer::hydraulic_set::seat_end_load;
use physics::packer::load_envelope::LoadEnvelope;
use physics::tubular::effective_tension::Pressures;
use physics::tubular::fixed_ends::{ballooning_force, thermal_force};
use physics::tubular::steel::Steel;
use quantity::*;
use well::PipeString;
use well::job::StringRole;

use super::result::*;
use crate::strings::LoadCase;
use crate::strings::loads::locked_in;
use crate::strings::places::hanger;
use crate::strings::surroundings::{Spot, Surroundings};

/// The packer among its strings.
pub(super) struct Duty<'a> {
    /// Pressures and temperatures.
    pub around: &'a Surroundings<'a>,
    /// The liner below it.
    pub liner: &'a PipeString,
    /// The string on it.
    pub above: Option<&'a PipeString>,
    /// Weight below it.
    pub hung: HungLoad,
    /// Its envelope; none where the job has none.
    pub envelope: Option<LoadEnvelope>,
    /// Its lower end.
    pub at: Spot,
    /// Mean of the liner between it and the first open-hole packer.
    pub span: Spot,
    /// Mean of the string above it.
    pub string: Option<Spot>,
}

/// Changes of a held stretch since it landed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Change {
    /// Mean pressures.
    pub pressures: Pressures,
    /// Mean temperature.
    pub temperature: TemperatureDifference,
}

impl<'a> Duty<'a> {
    /// Of a job; none without a liner.
    pub fn of(around: &'a Surroundings<'a>, hung: HungLoad, envelope: Option<LoadEnvelope>) -> Option<Self> {
        let (job, layout) = (around.job, around.layout);
        let treating = job.strings.iter().filter(|s| s.table.role == StringRole::Treating);
        let above = treating.max_by(|a, b| a.table.bottom.total_cmp(&b.table.bottom));
        let end = hanger(job, layout);
        let first = layout.stages.last().map_or(layout.shoe, |s| s.packer.element_top);
        Some(Self {
            around,
            liner: job.liner()?,
            above,
            hung,
            envelope,
            at: around.spot(end),
            span: around.mean(end, first),
            string: above.map(|s| around.mean(s.table.top, layout.casing_packer_top)),
        })
    }

    /// All cases, in the order of the job.
    pub fn cases(&self) -> physics::Result<Vec<PackerCase>> {
        let mut out = Vec::new();
        for case in [LoadCase::RunIn, LoadCase::Setting, LoadCase::Test] {
            out.push(self.hanging(case)?);
        }
        for case in [LoadCase::Treating, LoadCase::Screenout, LoadCase::Trip, LoadCase::Flowback] {
            for bound in [Bound::Down, Bound::Up] {
                let held = self.anchored(case, bound, Below::Formation)?;
                let past = self.anchored(case, bound, Below::Bore)?;
                out.push(if use_of(&past) > use_of(&held) { past } else { held });
            }
        }
        Ok(out)
    }

    /// Before the open-hole packers hold: the liner hangs on it, and the pressure on the closed toe
    /// pulls.
    fn hanging(&self, case: LoadCase) -> physics::Result<PackerCase> {
        let toe = self.around.spot(self.around.layout.toe_tool);
        let difference = self.around.bore(case).at(toe) - self.around.annulus(case).at(toe);
        let end_load = if case == LoadCase::RunIn {
            Force::ZERO
        } else {
            seat_end_load(difference.max(Pressure::ZERO), self.liner.bore())?
        };
        let parts = LoadParts { hung: self.hung.along_hole, end_load, ..LoadParts::default() };
        self.placed(case, Bound::Down, Below::Annulus, parts)
    }

    /// With the liner held by the first open-hole packer.
    fn anchored(&self, case: LoadCase, bound: Bound, below: Below) -> physics::Result<PackerCase> {
        let steel = Steel::default();
        let liner = self.liner_change(case, below);
        let tube = self.liner.pipe.tube();
        let thermal = thermal_force(tube, steel, liner.temperature)?;
        let locked = locked_in(self.around.locked_difference(), self.liner, steel);
        let string = match self.string_change(case) {
            Some((above, change)) => {
                let tube = above.pipe.tube();
                let balloon = ballooning_force(tube, steel.poisson, change.pressures)?;
                (balloon, thermal_force(tube, steel, change.temperature)?)
            }
            None => (Force::ZERO, Force::ZERO),
        };
        let free = self.hung.along_hole.min(self.hung.lowered.max(Force::ZERO));
        let (hung, locked_in, thermal, string_above) = match bound {
            // the string above may be slack: it can only push
            Bound::Down => {
                let push = -(string.0 + string.1.min(Force::ZERO));
                (self.hung.along_hole, locked, thermal.max(Force::ZERO), push.max(Force::ZERO))
            }
            Bound::Up => {
                let pull = string.0 + string.1.max(Force::ZERO);
                (free, Force::ZERO, thermal.min(Force::ZERO), Force::ZERO - pull.max(Force::ZERO))
            }
        };
        let parts = LoadParts {
            hung,
            end_load: Force::ZERO,
            locked_in,
            ballooning: ballooning_force(tube, steel.poisson, liner.pressures)?,
            thermal,
            string_above,
            pressure_area: self.pressure_area(case),
        };
        self.placed(case, bound, below, parts)
    }

    /// Change of the liner between the packer and the first open-hole packer.
    pub fn liner_change(&self, case: LoadCase, below: Below) -> Change {
        let landed = LoadCase::RunIn;
        let inside = self.around.bore(case).at(self.span) - self.around.bore(landed).at(self.span);
        let outside = self.annulus_below(case, below, self.span) - self.around.annulus(landed).at(self.span);
        let temperature = self.around.warming(case, self.span);
        Change { pressures: Pressures { inside, outside }, temperature }
    }

    /// Change of the string above, which is held at its two ends.
    pub fn string_change(&self, case: LoadCase) -> Option<(&PipeString, Change)> {
        let (above, spot) = self.above.zip(self.string)?;
        let landed = LoadCase::RunIn;
        let inside = self.around.bore(case).at(spot) - self.around.bore(landed).at(spot);
        let outside = self.around.annulus(case).at(spot) - self.around.annulus(landed).at(spot);
        let temperature = self.around.warming(case, spot);
        Some((above, Change { pressures: Pressures { inside, outside }, temperature }))
    }

    fn annulus_below(&self, case: LoadCase, below: Below, spot: Spot) -> GaugePressure {
        match below {
            Below::Annulus => self.around.annulus(LoadCase::RunIn).at(spot),
            Below::Formation => self.around.open_hole(case).at(spot),
            Below::Bore => self.around.bore(case).at(spot),
        }
    }

    /// Pressure on the steps of bore and diameter between liner and string, as a change since
    /// landing: `-dPi (Ai,liner - Ai,string) + dPo (Ao,liner - Ao,string)`.
    fn pressure_area(&self, case: LoadCase) -> Force {
        let Some(above) = self.above else { return Force::ZERO };
        let landed = LoadCase::RunIn;
        let inside = self.around.bore(case).at(self.at) - self.around.bore(landed).at(self.at);
        let outside = self.around.annulus(case).at(self.at) - self.around.annulus(landed).at(self.at);
        let (liner, string) = (self.liner.pipe.tube(), above.pipe.tube());
        let bores = liner.inside_area() - string.inside_area();
        let bodies = liner.outside_area() - string.outside_area();
        outside * bodies - inside * bores
    }

    fn placed(
        &self,
        case: LoadCase,
        bound: Bound,
        below_is: Below,
        parts: LoadParts,
    ) -> physics::Result<PackerCase> {
        let below = self.annulus_below(case, below_is, self.at);
        let above = self.around.annulus(case).at(self.at);
        let (differential, load) = (below - above, parts.total());
        let place = self.envelope.as_ref().and_then(|e| e.place(differential, load).ok());
        Ok(PackerCase {
            case,
            bound,
            below_is,
            below,
            above,
            differential,
            load,
            direction: Direction::of(load),
            parts,
            load_limit: place.and_then(|p| p.load_limit),
            utilisation: place.map(|p| Ratio::of(p.utilisation)),
        })
    }
}

/// Utilisation for comparing; a case the envelope has no answer for counts above all.
fn use_of(case: &PackerCase) -> f64 {
    case.utilisation.map_or(f64::INFINITY, |u| u.si())
}

/// Position of the case with the highest utilisation; none where no case has one.
pub(super) fn governing(cases: &[PackerCase]) -> Option<usize> {
    let rated = cases.iter().enumerate().filter_map(|(i, c)| c.utilisation.map(|u| (i, u)));
    let load = |i: usize| cases.get(i).map_or(Force::ZERO, |c| c.load.abs());
    rated.max_by(|a, b| a.1.total_cmp(&b.1).then(load(a.0).total_cmp(&load(b.0)))).map(|(i, _)| i)
}
