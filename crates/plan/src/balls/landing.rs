//! The choice of the landing rate: a signature that is seen, against the pump trip and the blow
//! on the ball.

use physics::hydraulics::joukowsky::{Landing, ball_impact};
use physics::hydraulics::landing::{LandingString, Staircase, landing_staircase};
use quantity::*;
use well::Job;

use super::result::{LandingOption, Signature};
use crate::device::DeviceRange;
use crate::ladder::RungPlan;
use crate::stages::{Mixture, StageLine};

/// What a landing is judged on.
pub(super) struct Setting<'a> {
    pub job: &'a Job,
    pub string: LandingString,
    pub shear: DeviceRange,
    pub rung: &'a RungPlan,
    /// Line to the stage that is being pumped when the ball lands.
    pub line: &'a StageLine,
    /// Rate that is pumped before; no ball is landed faster.
    pub rate_before: FlowRate,
    /// Pipe between the seat and the open ports toe-ward.
    pub below: Length,
    pub fluid: Mixture<'a>,
}

impl Setting<'_> {
    /// All rates the crew may land at, judged; a rate above the one that is pumped before is that
    /// one, for a landing is never a reason to pump faster than the stage can take.
    pub(super) fn options(&self) -> physics::Result<Vec<LandingOption>> {
        let wanted = self.job.file.ball_program.landing_rate.iter();
        let mut rates: Vec<FlowRate> = wanted.map(|r| r.min(self.rate_before)).collect();
        rates.retain(|r| r.si() > 0.0);
        rates.sort_by(FlowRate::total_cmp);
        rates.dedup();
        rates.into_iter().map(|rate| self.option(rate)).collect()
    }

    fn option(&self, rate: FlowRate) -> physics::Result<LandingOption> {
        let program = &self.job.file.ball_program;
        let before = self.line.parts(rate, &self.fluid)?.surface.max(GaugePressure::ZERO);
        let nominal = landing_staircase(&self.string, rate, self.shear.nominal)?;
        let hardest = landing_staircase(&self.string, rate, self.shear.high)?;
        let impact = ball_impact(&Landing {
            density: self.string.density,
            rate,
            bore_above: self.string.bore,
            bore_below: self.string.bore,
            wave_speed: self.string.wave_speed,
            length_below: self.below,
            seat: self.rung.seat,
        })?;
        // The ball never sees more than what opens the sleeve, or the first step where that is more.
        let on_ball = impact.across.max(hardest.seat_rise);
        let highest = before + hardest.surface_rise.max(nominal.surface_rise);
        let highest_spike = before + hardest.surface_spike.max(nominal.surface_spike);
        let limits = &self.job.file.limits;
        let below_trip = limits.trip - highest;
        let share = on_ball / self.rung.rating.max(Pressure::pa(1.0));
        let samples = nominal.opening.in_seconds() * self.job.file.equipment.samples_per_second.si();
        // Both sides of the ball count until the wave below has come back from the open ports: a sleeve
        // that this may shear opens on contact, before the surface has seen anything.
        let opens_on_contact = impact.across >= self.shear.low;
        let visible = !opens_on_contact
            && nominal.surface_rise >= program.visible_rise
            && samples >= program.visible_samples as f64;
        Ok(LandingOption {
            rate,
            before,
            signature: signature(&nominal),
            highest,
            below_trip,
            highest_spike,
            impact: on_ball,
            impact_share: Ratio::of(share),
            opens_on_contact,
            visible,
            allowed: below_trip >= program.headroom
                && highest <= limits.treating_pressure
                && share <= program.impact_share.si()
                && highest_spike <= limits.relief,
        })
    }
}

fn signature(s: &Staircase) -> Signature {
    Signature {
        delay: s.arrival,
        step: s.step,
        round_trips: Ratio::of(f64::from(s.round_trips)),
        rise: s.surface_rise,
        spike: s.surface_spike,
        lasts: s.opening,
        slope: s.mean_slope,
    }
}

/// The rate to land at: the fastest that is allowed and seen; if none is seen, the allowed one
/// that lasts longest; if none is allowed, the one that leaves most below the trip.
pub(super) fn choose(options: &[LandingOption]) -> Option<LandingOption> {
    let allowed = || options.iter().filter(|o| o.allowed);
    let seen = allowed().filter(|o| o.visible).max_by(|a, b| a.rate.total_cmp(&b.rate));
    let longest = allowed().max_by(|a, b| a.signature.lasts.total_cmp(&b.signature.lasts));
    let mildest = options.iter().max_by(|a, b| a.below_trip.total_cmp(&b.below_trip));
    seen.or(longest).or(mildest).copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn option(rate: f64, visible: bool, allowed: bool, lasts: f64) -> LandingOption {
        let signature = Signature {
            delay: Time::ZERO,
            step: Pressure::ZERO,
            round_trips: Ratio::ZERO,
            rise: Pressure::ZERO,
            spike: Pressure::ZERO,
            lasts: Time::seconds(lasts),
            slope: PressureRate::ZERO,
        };
        LandingOption {
            rate: FlowRate::bbl_per_min(rate),
            before: GaugePressure::ZERO,
            signature,
            highest: GaugePressure::ZERO,
            below_trip: Pressure::psi(100.0 - rate),
            highest_spike: GaugePressure::ZERO,
            impact: Pressure::ZERO,
            impact_share: Ratio::ZERO,
            opens_on_contact: false,
            visible,
            allowed,
        }
    }

    #[test]
    fn what_is_seen_goes_before_what_is_fast() {
        let rate = |o: &[LandingOption]| choose(o).map(|o| o.rate.in_bbl_per_min().round());
        let all =
            [option(5.0, true, true, 20.0), option(8.0, true, true, 10.0), option(15.0, false, true, 0.0)];
        assert_eq!(rate(&all), Some(8.0));
        let hidden = [option(5.0, false, true, 2.0), option(8.0, false, true, 1.0)];
        assert_eq!(rate(&hidden), Some(5.0));
        let none = [option(5.0, true, false, 2.0), option(8.0, true, false, 1.0)];
        assert_eq!(rate(&none), Some(5.0));
        assert_eq!(rate(&[]), None);
    }
}
