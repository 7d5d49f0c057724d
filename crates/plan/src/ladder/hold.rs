//! What a ball holds on its seat: as drawn, worn, and at the worst of the tolerances.

use physics::Result;
use physics::ball::bearing::projected_bearing_limit;
use physics::ball::cap_shear::cap_shear;
use physics::ball::clearance::{Fit, Service, interference, passage};
use physics::ball::contact::Seat;
use physics::ball::dissolution::dissolving_ball;
use physics::ball::ladder::Rung;
use physics::ball::rating::{Derating, Strength, ball_rating, strength_at};
use physics::ball::seat_erosion::{Calibration, Sand, seat_erosion};
use quantity::*;
use well::Job;
use well::job::{Ball, BallRating, BallStructure};

use super::duty::{Duty, Scene};
use super::result::RatingBasis;

/// Exponent of the velocity in the law of seat wear: that of steel.
pub(super) const WEAR_EXPONENT: f64 = 2.6;
/// A tested size this close to a drawn one is the same size.
const NEAR: Diameter = Diameter::mm(0.001);

/// A rating and what it was made of.
type Rated = (Pressure, RatingBasis);

/// The user's law of seat wear.
pub(super) fn calibration(job: &Job) -> Option<Calibration> {
    job.file.ladder.erosion.as_ref().map(|e| Calibration {
        wear: e.growth,
        mass: e.per_mass,
        rate: e.reference_rate,
        bore: e.reference_bore,
        exponent: WEAR_EXPONENT,
    })
}

/// Growth of a seat by proppant; zero without a law.
pub(super) fn seat_growth(job: &Job, seat: Diameter, sand: &[Sand]) -> Result<Diameter> {
    match calibration(job) {
        Some(law) => Ok(seat_erosion(seat, sand, law)? - seat),
        None => Ok(Diameter::ZERO),
    }
}

/// Temperature the strength is taken at: never below the coldest row.
pub(super) fn strength_temperature(ball: &Ball, temperature: Temperature) -> Temperature {
    ball.strength.first().map_or(temperature, |row| row.temperature.max(temperature))
}

/// Factors on the strength of the table.
pub(super) fn derating(ball: &Ball) -> Derating {
    let weak_plane = match ball.structure {
        BallStructure::Uniform => 1.0,
        BallStructure::Laminate => ball.weak_plane.si(),
    };
    Derating { weak_plane, confinement: ball.confinement.si() }
}

/// Ball and seat after service: what wear and dissolving leave, without tolerances.
pub(super) fn worn(rung: Rung, service: Service) -> Rung {
    Rung { ball: rung.ball - service.ball_loss, seat: rung.seat + service.seat_growth }
}

/// The smallest ball on the largest seat after service.
pub(super) fn worst(rung: Rung, service: Service) -> Rung {
    let worn = worn(rung, service);
    Rung { ball: worn.ball - service.ball_tolerance, seat: worn.seat + service.seat_tolerance }
}

impl Scene<'_> {
    /// The seat of a bore.
    pub fn seat(&self, bore: Diameter) -> Seat {
        Seat { bore, half_angle: self.job.file.sleeve.seat_angle }
    }

    /// Tolerances alone.
    pub fn tolerances(&self) -> Service {
        let ladder = &self.job.file.ladder;
        Service {
            ball_tolerance: ladder.ball_tolerance,
            seat_tolerance: ladder.seat_tolerance,
            ..Service::default()
        }
    }

    /// Tolerances, wear before the ball lands, and what it dissolves until its stage ends.
    pub fn service(&self, rung: Rung, duty: &Duty) -> Result<Service> {
        let left = match duty.recession {
            Some(k) => dissolving_ball(rung.ball, k, duty.time_in_fluid())?,
            None => rung.ball,
        };
        Ok(Service {
            seat_growth: seat_growth(self.job, rung.seat, &duty.sand)?,
            ball_loss: rung.ball - left,
            ..self.tolerances()
        })
    }

    /// Clearance of a ball through a seat above.
    pub fn passage(&self, ball: Diameter, seat: Diameter) -> Fit {
        passage(ball, seat, self.tolerances())
    }

    /// The differential that is asked of a ball, with the safety factor.
    pub fn with_factor(&self, differential: Pressure) -> Pressure {
        differential * self.job.file.ball.safety_factor.si()
    }

    /// Rating at a temperature; none where neither a test nor the strength table says.
    ///
    /// A test of this ball and seat or of a harder case goes first. Where all tests that are no
    /// easier in ball and temperature had more interference, the strength table says, but no more
    /// than the least of them: a larger overlap never lowers a rating.
    pub fn rating(&self, rung: Rung, service: Service, temperature: Temperature) -> Option<Rated> {
        let tests = self.tests(rung, service, temperature);
        let by_pressure = |a: &Rated, b: &Rated| a.0.total_cmp(&b.0);
        let covering = tests.iter().filter(|(_, covers)| *covers).map(|(rated, _)| *rated);
        covering.max_by(by_pressure).or_else(|| {
            let computed = self.computed(rung, service, temperature)?;
            tests.into_iter().map(|(rated, _)| rated).chain([computed]).min_by(by_pressure)
        })
    }

    /// What each test with a ball no smaller and no colder allows here, and whether it had no more
    /// interference either. What wear, dissolving and less interference take is taken off in the
    /// ratio of the projected bearing stress.
    fn tests(&self, rung: Rung, service: Service, temperature: Temperature) -> Vec<(Rated, bool)> {
        let worn = worn(rung, service);
        let limit = |ball, bore| projected_bearing_limit(ball, self.seat(bore), Pressure::mpa(1.0)).ok();
        let no_easier =
            |r: &&BallRating| rung.ball <= r.ball + NEAR && temperature.si() <= r.temperature.si() + 1e-6;
        let allows = |r: &BallRating| {
            let left = (limit(worn.ball, worn.seat)? / limit(r.ball, r.seat)?).min(1.0);
            let basis = RatingBasis::Tested {
                ball: r.ball,
                seat: r.seat,
                temperature: r.temperature,
                pressure: r.pressure,
            };
            let covers = rung.ball - rung.seat >= r.ball - r.seat - NEAR;
            Some(((r.pressure * left, basis), covers))
        };
        self.job.file.ball.rating.iter().filter(no_easier).filter_map(allows).collect()
    }

    /// The rating from the strength of the material: bearing, or shear where that is less.
    fn computed(&self, rung: Rung, service: Service, temperature: Temperature) -> Option<Rated> {
        let ball = &self.job.file.ball;
        let at = strength_temperature(ball, temperature);
        let worst = worst(rung, service);
        let table = |pick: fn(&well::job::StrengthRow) -> Pressure| {
            let row = |r: &well::job::StrengthRow| Strength { temperature: r.temperature, strength: pick(r) };
            strength_at(&ball.strength.iter().map(row).collect::<Vec<_>>(), at)
        };
        let derating = derating(ball);
        let bearing = table(|r| r.bearing).ok()?;
        let bearing = ball_rating(worst.ball, self.seat(worst.seat), bearing, derating).ok()?;
        let allowable = table(|r| r.shear).ok()? * derating.weak_plane;
        let (unit, _) = cap_shear(worst.ball, worst.seat, Pressure::mpa(1.0)).ok()?;
        let shear = allowable * (Pressure::mpa(1.0) / unit);
        Some(if shear < bearing.pressure {
            (shear, RatingBasis::Shear { allowable })
        } else {
            (bearing.pressure, RatingBasis::Bearing { allowable: bearing.allowable })
        })
    }

    /// Least interference in service.
    pub fn least_interference(&self, rung: Rung, service: Service) -> Diameter {
        interference(rung.ball, rung.seat, service).least
    }

    /// Whether the rating carries a differential with the safety factor, and the overlap is at
    /// least what is wanted.
    pub fn holds(&self, rung: Rung, duty: &Duty, wanted: Diameter, differential: Pressure) -> Result<Hold> {
        let service = self.service(rung, duty)?;
        let least = self.least_interference(rung, service);
        if least < wanted || least <= Diameter::ZERO {
            return Ok(Hold::TooLittleOverlap);
        }
        match self.rating(rung, service, duty.rock) {
            Some((rating, _)) if rating >= self.with_factor(differential) => Ok(Hold::Holds),
            _ => Ok(Hold::TooWeak),
        }
    }
}

/// Whether a ball holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Hold {
    /// It does.
    Holds,
    /// Too little overlap is left.
    TooLittleOverlap,
    /// The rating is below the differential.
    TooWeak,
}
