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
use crate::rock::fracture_gradient;

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
    /// Where a front between two mixtures is looked at, from the surface to the ports.
    fronts: Vec<Front>,
}

/// A front between two mixtures: what lies above it.
#[derive(Debug, Clone)]
struct Front {
    /// Length above the front in each bore of the line.
    above: Vec<f64>,
    /// Vertical depth of the front.
    tvd: f64,
    /// Sum of the seats' loss coefficients above the front.
    seat_sum: f64,
}

/// Fronts that are looked at along a line.
const FRONTS: usize = 64;

/// A mixture at a rate, ready to be put above or below a front.
#[derive(Debug, Clone)]
struct Flowing {
    density: Density,
    /// Friction gradient in each bore of the line, Pa/m.
    gradients: Vec<f64>,
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
    pub fn of(
        job: &Job,
        path: &FlowPath,
        layout: &Layout,
        place: &StagePlace,
        ladder: &LadderPlan,
    ) -> physics::Result<Self> {
        let segments = path.down_to(place.sleeve.ports);
        let seats = ladder.seats_above(place.stage);
        let seat_bore = job.file.sleeve.id;
        let model = seat_model(job);
        let mut seat_sums = Vec::with_capacity(seats.len());
        for (stage, seat) in &seats {
            let loss = seat_loss(model, *seat, seat_bore)?;
            let depth = layout.stage(*stage).map_or(MeasuredDepth::ZERO, |s| s.sleeve.ports);
            seat_sums.push((depth, loss.coefficient / loss.throat.si().powi(2)));
        }
        let seat_sum = seat_sums.iter().map(|s| s.1).sum();
        let bores = bores(&segments);
        let fronts = fronts(job, &segments, &bores, &seat_sums);
        let by_pressure = job.file.toe.pressure_sleeve.as_ref().filter(|_| !place.sleeve.opened_by_ball);
        let sleeve = &job.file.sleeve;
        let rate = job.file.treatment.rate.si().max(1e-9);
        Ok(Self {
            stage: place.stage,
            bores,
            fronts,
            tvd: place.sleeve.tvd,
            seats,
            seat_bore,
            model,
            seat_sum,
            ports: by_pressure.map_or(sleeve.ports, |s| s.ports),
            port_diameter: by_pressure.map_or(sleeve.port_diameter, |s| s.port_diameter),
            port_coefficient: sleeve.port_coefficient.si(),
            near_wellbore: RateRootLoss::from_si(job.file.treatment.near_wellbore.si() / rate.sqrt()),
            fracture_gradient: fracture_gradient(job, place.stage),
            slurry_factor: job.file.treatment.slurry_factor.si(),
        })
    }

    /// All lines of a layout, stage 1 first.
    pub fn all(job: &Job, layout: &Layout, ladder: &LadderPlan) -> physics::Result<Vec<Self>> {
        let path = FlowPath::of(job, layout);
        layout.stages.iter().map(|place| Self::of(job, &path, layout, place, ladder)).collect()
    }

    /// Length of the vertical column.
    pub fn column(&self) -> Length {
        Length::m(self.tvd.si())
    }

    /// Loss of all seats on the way per rate squared, at a density.
    pub fn seat_coefficient(&self, density: Density) -> RateSquaredLoss {
        RateSquaredLoss::si(0.5 * density.si() * self.seat_sum)
    }

    /// A mixture at a rate: its density and its friction gradient in every bore.
    fn flowing(&self, rate: FlowRate, mixture: &Mixture<'_>) -> physics::Result<Flowing> {
        let factor = if mixture.load().is_some() { self.slurry_factor } else { 1.0 };
        let mut gradients = Vec::with_capacity(self.bores.len());
        for b in &self.bores {
            let flow = PipeFlow {
                rate,
                bore: b.bore,
                roughness: b.roughness,
                density: mixture.fluid.density,
                fluid: mixture.rheology(),
                proppant: mixture.load(),
            };
            gradients.push(pipe_friction(&flow)?.gradient.si() * factor);
        }
        Ok(Flowing { density: mixture.slurry()?.density, gradients })
    }

    /// The parts with one mixture above a front and another below it.
    fn split(
        &self,
        rate: FlowRate,
        front: &Front,
        upper: &Flowing,
        lower: &Flowing,
    ) -> physics::Result<PressureParts> {
        let mut pipe = 0.0;
        for (((bore, above), u), l) in
            self.bores.iter().zip(&front.above).zip(&upper.gradients).zip(&lower.gradients)
        {
            pipe += above * u + (bore.length.si() - above).max(0.0) * l;
        }
        let weight = |f: &Flowing, height: f64| f.density.gradient() * Length::m(height);
        let hydrostatic = weight(upper, front.tvd) + weight(lower, self.tvd.si() - front.tvd);
        let loss = |f: &Flowing, sum: f64| RateSquaredLoss::si(0.5 * f.density.si() * sum).at(rate);
        let seats = loss(upper, front.seat_sum) + loss(lower, self.seat_sum - front.seat_sum);
        let area = self.port_diameter.circle() * self.ports as f64;
        let ports = port_loss(area, self.port_coefficient, lower.density)?.at(rate);
        let fracture = self.fracture_gradient * self.column();
        let near_wellbore = self.near_wellbore.at(rate);
        let pipe = Pressure::pa(pipe);
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

    /// All parts of the treating pressure with the whole column full of one mixture.
    pub fn parts(&self, rate: FlowRate, mixture: &Mixture<'_>) -> physics::Result<PressureParts> {
        let flowing = self.flowing(rate, mixture)?;
        let whole = Front { above: vec![0.0; self.bores.len()], tvd: 0.0, seat_sum: 0.0 };
        self.split(rate, &whole, &flowing, &flowing)
    }

    /// The highest surface pressure while the mixtures are pumped one behind the other and clean
    /// fluid of the first behind the last. The front between two mixtures is looked at all along
    /// the line: a light fluid above a slurry that is still in the lateral, its seats and its ports
    /// needs more pressure than a column full of either.
    pub fn worst(&self, rate: FlowRate, mixtures: &[Mixture<'_>]) -> physics::Result<Option<Worst>> {
        let Some(first) = mixtures.first() else { return Ok(None) };
        let mut order = Vec::with_capacity(mixtures.len() + 1);
        for mixture in mixtures {
            order.push(self.flowing(rate, mixture)?);
        }
        order.push(self.flowing(rate, &Mixture::clean(first.fluid))?);
        let mut worst: Option<Worst> = None;
        for (i, pair) in order.windows(2).enumerate() {
            let [lower, upper] = pair else { continue };
            for (k, front) in self.fronts.iter().enumerate() {
                let parts = self.split(rate, front, upper, lower)?;
                if worst.is_none_or(|w| parts.surface > w.parts.surface) {
                    worst = Some(Worst { lower: i, front: k, parts });
                }
            }
        }
        Ok(worst)
    }

    /// Vertical depth of the front of what was found as the worst.
    pub fn front_depth(&self, worst: &Worst) -> TrueVerticalDepth {
        TrueVerticalDepth::m(self.fronts.get(worst.front).map_or(0.0, |f| f.tvd))
    }
}

/// The highest pressure found, and between which mixtures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worst {
    /// Mixture below the front; the one after it, or clean fluid, is above.
    pub lower: usize,
    /// Position of the front along the line.
    front: usize,
    /// The parts.
    pub parts: PressureParts,
}

/// Fronts evenly along the line, both ends among them.
fn fronts(
    job: &Job,
    segments: &[PathSegment],
    bores: &[BoreLength],
    seats: &[(MeasuredDepth, f64)],
) -> Vec<Front> {
    let top = segments.first().map_or(0.0, |s| s.top.si());
    let bottom = segments.last().map_or(0.0, |s| s.bottom.si());
    let one = |i: usize| {
        let depth = top + (bottom - top) * i as f64 / (FRONTS - 1) as f64;
        let above = bores.iter().map(|b| {
            let same = segments.iter().filter(|s| s.bore == b.bore && s.roughness == b.roughness);
            same.map(|s| (depth.min(s.bottom.si()) - s.top.si()).max(0.0)).sum()
        });
        Front {
            above: above.collect(),
            tvd: job.trajectory.tvd_at(MeasuredDepth::m(depth)).si(),
            seat_sum: seats.iter().filter(|(d, _)| d.si() < depth).map(|(_, k)| k).sum(),
        }
    };
    (0..FRONTS).map(one).collect()
}
