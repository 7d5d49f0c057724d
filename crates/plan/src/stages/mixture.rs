//! What is pumped: a fluid of the job with or without proppant, as the relations take it.

use physics::fluid::power_law::PowerLaw;
use physics::fluid::slurry::{Slurry, slurry};
use physics::hydraulics::drag_reduction::DragBase;
use physics::hydraulics::pipe_friction::{PipeFluid, ProppantLoad};
use quantity::*;
use well::job::{Fluid, JobFile, Proppant, Rheology, Step};

/// A fluid with its proppant.
#[derive(Debug, Clone, Copy)]
pub struct Mixture<'a> {
    /// The fluid.
    pub fluid: &'a Fluid,
    /// The proppant, where there is any.
    pub proppant: Option<&'a Proppant>,
    /// Proppant added per clean volume.
    pub concentration: Concentration,
}

impl<'a> Mixture<'a> {
    /// A fluid without proppant.
    pub fn clean(fluid: &'a Fluid) -> Self {
        Self { fluid, proppant: None, concentration: Concentration::ZERO }
    }

    /// A step of the schedule at its start and at its end.
    pub fn of_step(file: &'a JobFile, step: &Step) -> Option<[Self; 2]> {
        let fluid = file.fluid.iter().find(|f| f.name == step.fluid)?;
        let proppant = file.proppant.iter().find(|p| Some(&p.name) == step.proppant.as_ref());
        let at = |concentration| Self { fluid, proppant, concentration };
        Some([at(step.from), at(step.to)])
    }

    /// Grain density of the proppant; that of quartz where there is none, which is then not used.
    pub fn grain_density(&self) -> Density {
        self.proppant.map_or(Density::g_per_cm3(2.65), |p| p.grain_density)
    }

    /// Density, yield and fractions.
    pub fn slurry(&self) -> physics::Result<Slurry> {
        slurry(self.fluid.density, self.grain_density(), self.concentration)
    }

    /// The proppant as the friction relation takes it.
    pub fn load(&self) -> Option<ProppantLoad> {
        let any = self.concentration.si() > 0.0;
        any.then(|| ProppantLoad {
            concentration: self.concentration,
            proppant_density: self.grain_density(),
            friction: None,
        })
    }

    /// The fluid as the friction relation takes it. The drag reduction of the job file is a share
    /// of the friction in the pipe as it is (rough).
    pub fn rheology(&self) -> PipeFluid {
        let viscosity = self.fluid.viscosity.unwrap_or(Viscosity::cp(1.0));
        match (self.fluid.rheology, self.fluid.flow_index, self.fluid.consistency) {
            (Rheology::PowerLaw, Some(n), Some(k)) => PipeFluid::PowerLaw(PowerLaw { n: n.si(), k }),
            _ if self.fluid.drag_reduction.si() > 0.0 => PipeFluid::WithFrictionReducer {
                viscosity,
                drag_reduction: self.fluid.drag_reduction.si(),
                base: DragBase::RoughPipe,
            },
            _ => PipeFluid::Newtonian { viscosity },
        }
    }
}
