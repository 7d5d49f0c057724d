//! Treating pressure of a stage at a rate: fracture, column, pipe, seats, ports and the path near
//! the wellbore, each on its own.

use physics::hydraulics::pipe_friction::{PipeFlow, pipe_friction};
use physics::hydraulics::port::port_loss;
use physics::hydraulics::seat::{SeatModel, seat_loss};
use quantity::*;
use well::Job;
use well::job::SeatInlet;

use super::mixture::Mixture;
use crate::ladder::LadderPlan;
use crate::layout::{Layout, StagePlace};
use crate::path::{FlowPath, PathSegment};

/// The parts of a treating pressure.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, schemars::JsonSchema)]
pub struct PressureParts {
    /// Pressure at the sleeve that keeps the fracture growing.
    pub fracture: Pressure,
    /// Weight of the column, taken off.
    pub hydrostatic: Pressure,
    /// Friction in pipe.
    pub pipe: Pressure,
    /// Loss in the seats still to be passed.
    pub seats: Pressure,
    /// Loss in the ports.
    pub ports: Pressure,
    /// Loss near the wellbore.
    pub near_wellbore: Pressure,
    /// Pressure at the surface.
    pub surface: GaugePressure,
}

/// A length of one bore.
#[derive(Debug, Clone, Copy)]
pub struct BoreLength {
    /// Bore.
    pub bore: Diameter,
    /// Roughness.
    pub roughness: Diameter,
    /// Length of all segments of that bore.
    pub length: Length,
}

/// One stage with everything its pressure depends on, ready for any rate and mixture.
#[derive(Debug, Clone)]
pub struct StageLine {
    /// Stage, 1 at the toe.
    pub stage: usize,
    /// Bores on the way, lengths summed.
    pub bores: Vec<BoreLength>,
    /// Vertical depth of the ports.
    pub tvd: TrueVerticalDepth,
    /// Seats on the way: those of the stages heel-ward.
    pub seats: Vec<(usize, Diameter)>,
    /// Bore the seats stand in.
    pub seat_bore: Diameter,
    /// Shape of the seats.
    pub model: SeatModel,
    /// Sum of the seats' loss coefficients over the square of their throat areas, 1/m⁴.
    seat_sum: f64,
    /// Number of ports.
    pub ports: usize,
    /// Diameter of a port.
    pub port_diameter: Diameter,
    /// Discharge coefficient of the ports.
    pub port_coefficient: f64,
    /// Loss near the wellbore per root of the rate.
    pub near_wellbore: RateRootLoss,
    /// Fracture gradient there.
    pub fracture_gradient: PressureGradient,
    /// Factor on slurry friction.
    slurry_factor: f64,
}

/// Bores of a path, lengths of equal bores summed.
pub fn bores(segments: &[PathSegment]) -> Vec<BoreLength> {
    let mut out: Vec<BoreLength> = Vec::new();
    for s in segments {
        let length = s.bottom - s.top;
        match out.iter_mut().find(|b| b.bore == s.bore && b.roughness == s.roughness) {
            Some(found) => found.length += length,
            None => out.push(BoreLength { bore: s.bore, roughness: s.roughness, length }),
        }
    }
    out
}

/// Shape of the seats for the loss relation, as the job file has it.
pub fn seat_model(job: &Job) -> SeatModel {
    match job.file.sleeve.seat_inlet {
        SeatInlet::Thick => {
            SeatModel::ThickOrifice { land: job.file.sleeve.seat_length, wall_friction: 0.02 }
        }
        SeatInlet::Sharp => SeatModel::ContractionExpansion,
        SeatInlet::Tapered => SeatModel::TaperedInlet { inlet: 0.1 },
    }
}

impl StageLine {
    /// The line to a stage of the layout.
    pub fn of(job: &Job, path: &FlowPath, place: &StagePlace, ladder: &LadderPlan) -> physics::Result<Self> {
        let seats = ladder.seats_above(place.stage);
        let seat_bore = job.file.sleeve.id;
        let model = seat_model(job);
        let mut seat_sum = 0.0;
        for (_, seat) in &seats {
            let loss = seat_loss(model, *seat, seat_bore)?;
            seat_sum += loss.coefficient / loss.throat.si().powi(2);
        }
        let by_pressure = job.file.toe.pressure_sleeve.as_ref().filter(|_| !place.sleeve.opened_by_ball);
        let sleeve = &job.file.sleeve;
        let change =
            job.file.treatment.change.iter().rfind(|c| {
                (c.from_stage..=c.to_stage).contains(&place.stage) && c.fracture_gradient.is_some()
            });
        let rate = job.file.treatment.rate.si().max(1e-9);
        Ok(Self {
            stage: place.stage,
            bores: bores(&path.down_to(place.sleeve.ports)),
            tvd: place.sleeve.tvd,
            seats,
            seat_bore,
            model,
            seat_sum,
            ports: by_pressure.map_or(sleeve.ports, |s| s.ports),
            port_diameter: by_pressure.map_or(sleeve.port_diameter, |s| s.port_diameter),
            port_coefficient: sleeve.port_coefficient.si(),
            near_wellbore: RateRootLoss::from_si(job.file.treatment.near_wellbore.si() / rate.sqrt()),
            fracture_gradient: change
                .and_then(|c| c.fracture_gradient)
                .unwrap_or(job.file.rock.fracture_gradient),
            slurry_factor: job.file.treatment.slurry_factor.si(),
        })
    }

    /// All lines of a layout, stage 1 first.
    pub fn all(job: &Job, layout: &Layout, ladder: &LadderPlan) -> physics::Result<Vec<Self>> {
        let path = FlowPath::of(job, layout);
        layout.stages.iter().map(|place| Self::of(job, &path, place, ladder)).collect()
    }

    /// Length of the vertical column.
    pub fn column(&self) -> Length {
        Length::m(self.tvd.si())
    }

    /// Loss of all seats on the way per rate squared, at a density.
    pub fn seat_coefficient(&self, density: Density) -> RateSquaredLoss {
        RateSquaredLoss::si(0.5 * density.si() * self.seat_sum)
    }

    /// Friction in pipe of a mixture at a rate.
    pub fn pipe(&self, rate: FlowRate, mixture: &Mixture<'_>) -> physics::Result<Pressure> {
        let mut total = Pressure::ZERO;
        for b in &self.bores {
            let flow = PipeFlow {
                rate,
                bore: b.bore,
                roughness: b.roughness,
                density: mixture.fluid.density,
                fluid: mixture.rheology(),
                proppant: mixture.load(),
            };
            let friction = pipe_friction(&flow)?;
            let factor = if mixture.load().is_some() { self.slurry_factor } else { 1.0 };
            total += friction.gradient * b.length * factor;
        }
        Ok(total)
    }

    /// All parts of the treating pressure with the whole column full of one mixture, which is the
    /// least favourable of what passes.
    pub fn parts(&self, rate: FlowRate, mixture: &Mixture<'_>) -> physics::Result<PressureParts> {
        let density = mixture.slurry()?.density;
        let column = self.column();
        let area = self.port_diameter.circle() * self.ports as f64;
        let ports = port_loss(area, self.port_coefficient, density)?.at(rate);
        let fracture = self.fracture_gradient * column;
        let hydrostatic = density.gradient() * column;
        let pipe = self.pipe(rate, mixture)?;
        let seats = self.seat_coefficient(density).at(rate);
        let near_wellbore = self.near_wellbore.at(rate);
        let surface = fracture - hydrostatic + pipe + seats + ports + near_wellbore;
        Ok(PressureParts {
            fracture,
            hydrostatic,
            pipe,
            seats,
            ports,
            near_wellbore,
            surface: surface.gauge(),
        })
    }

    /// The parts of the mixture with the highest surface pressure.
    pub fn worst(
        &self,
        rate: FlowRate,
        mixtures: &[Mixture<'_>],
    ) -> physics::Result<Option<(usize, PressureParts)>> {
        let mut worst: Option<(usize, PressureParts)> = None;
        for (i, mixture) in mixtures.iter().enumerate() {
            let parts = self.parts(rate, mixture)?;
            if worst.is_none_or(|(_, w)| parts.surface > w.surface) {
                worst = Some((i, parts));
            }
        }
        Ok(worst)
    }
}
