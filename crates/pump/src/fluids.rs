//! The mixtures of a job and what they cost in every bore, kept for as long as the rate stays.

use plan::stages::Mixture;
use quantity::*;
use well::Job;

use physics::hydraulics::pipe_friction::{PipeFlow, pipe_friction};

use crate::column::{CLASS, Make, Parcel};
use crate::route::Bore;

/// Classes of concentration that are kept apart: to 25 ppa.
const CLASSES: usize = 501;

/// Friction of one mixture at one rate.
#[derive(Debug, Clone, Default)]
struct Entry {
    /// Rate the gradients are for, m³/s.
    rate: f64,
    /// Friction gradient in every bore, Pa/m.
    gradients: Vec<f64>,
}

/// The mixtures of a job.
#[derive(Debug, Clone)]
pub struct Fluids<'a> {
    job: &'a Job,
    bores: Vec<Bore>,
    entries: Vec<Option<Entry>>,
    /// Clean densities, kg/m³.
    densities: Vec<f64>,
    /// Grain densities, kg/m³.
    grains: Vec<f64>,
}

impl<'a> Fluids<'a> {
    /// The fluids and proppants of a job in a set of bores.
    pub fn of(job: &'a Job, bores: &[Bore]) -> Self {
        let file = &job.file;
        let count = file.fluid.len() * (file.proppant.len() + 1) * CLASSES;
        Self {
            job,
            bores: bores.to_vec(),
            entries: vec![None; count],
            densities: file.fluid.iter().map(|f| f.density.si()).collect(),
            grains: file.proppant.iter().map(|p| p.grain_density.si()).collect(),
        }
    }

    fn index(&self, make: Make) -> usize {
        let proppant = make.proppant.map_or(0, |p| p + 1);
        let class = (make.class as usize).min(CLASSES - 1);
        (make.fluid * (self.grains.len() + 1) + proppant) * CLASSES + class
    }

    /// The mixture of a make, at the middle of its class.
    pub fn mixture(&self, make: Make) -> Option<Mixture<'a>> {
        let fluid = self.job.file.fluid.get(make.fluid)?;
        let proppant = make.proppant.and_then(|p| self.job.file.proppant.get(p));
        Some(Mixture { fluid, proppant, concentration: CLASS * f64::from(make.class) })
    }

    /// Clean density of a make, kg/m³.
    pub(crate) fn clean_density(&self, make: Make) -> f64 {
        self.densities.get(make.fluid).copied().unwrap_or(0.0)
    }

    /// Grain density of a proppant; none for a proppant the job does not have.
    pub fn grain_density(&self, proppant: usize) -> Option<Density> {
        self.grains.get(proppant).copied().map(Density::kg_per_m3)
    }

    /// Density of a parcel at the surface, kg/m³.
    pub(crate) fn density(&self, parcel: &Parcel) -> f64 {
        let a = &parcel.amount;
        if a.slurry.si() <= 0.0 {
            return 0.0;
        }
        (a.clean.si() * self.clean_density(parcel.make) + a.mass.si()) / a.slurry.si()
    }

    /// Viscosity for a fracture: the fluid's own, or its consistency at the shear rate of a
    /// fracture of a hundred a second.
    pub fn viscosity(&self, make: Make) -> Viscosity {
        let Some(f) = self.job.file.fluid.get(make.fluid) else { return Viscosity::cp(1.0) };
        match (f.flow_index, f.consistency) {
            (Some(n), Some(k)) => Viscosity::from_si(k.si() * 100f64.powf(n.si() - 1.0)),
            _ => f.viscosity.unwrap_or(Viscosity::cp(1.0)),
        }
    }

    /// Friction gradient of a make at a rate in every bore, Pa/m.
    pub(crate) fn gradients(&mut self, make: Make, rate: f64) -> physics::Result<&[f64]> {
        let index = self.index(make);
        let known = self.entries.get(index).and_then(Option::as_ref).is_some_and(|e| e.rate == rate);
        if !known {
            let gradients = self.friction(make, rate)?;
            if let Some(place) = self.entries.get_mut(index) {
                *place = Some(Entry { rate, gradients });
            }
        }
        Ok(self.entries.get(index).and_then(Option::as_ref).map_or(&[], |e| &e.gradients))
    }

    fn friction(&self, make: Make, rate: f64) -> physics::Result<Vec<f64>> {
        let Some(mixture) = self.mixture(make) else { return Ok(vec![0.0; self.bores.len()]) };
        if rate <= 0.0 {
            return Ok(vec![0.0; self.bores.len()]);
        }
        let load = mixture.load();
        let factor = if load.is_some() { self.job.file.treatment.slurry_factor.si() } else { 1.0 };
        let one = |b: &Bore| {
            let flow = PipeFlow {
                rate: FlowRate::from_si(rate),
                bore: b.bore,
                roughness: b.roughness,
                density: mixture.fluid.density,
                fluid: mixture.rheology(),
                proppant: load,
            };
            Ok(pipe_friction(&flow)?.gradient.si() * factor)
        };
        self.bores.iter().map(one).collect()
    }
}
