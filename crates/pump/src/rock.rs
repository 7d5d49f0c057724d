//! The rock behind the sleeves: breakdown, growth with leak-off, proppant in the fracture,
//! screen-out and closure, one fracture a stage.

use physics::fracture::growth::{Advance, Fracture, Geometry, Ground};
use physics::fracture::nolte_smith::Form;
use physics::fracture::pkn::PknProfile;
use physics::fracture::proppant::{Filling, Rules, Screenout};
use quantity::*;
use well::Job;
use well::job::{FractureForm, FractureTable};

use crate::column::Amount;
use crate::result::RockRun;

/// Time between two advances of a growing fracture, s.
const MARCH: f64 = 5.0;
/// Grain taken where the job gives none: too fine to bridge anything.
const DUST: Diameter = Diameter::m(1e-6);

/// What went in since a fracture was last advanced.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Owed {
    time: f64,
    slurry: f64,
    solid: f64,
    /// Viscosity times volume.
    thick: f64,
}

/// The fracture of one stage.
#[derive(Debug, Clone)]
struct Growing {
    fracture: Fracture,
    filling: Filling,
    owed: Owed,
    /// Viscosity of what went in last, Pa.s.
    viscosity: f64,
    /// Net pressure at the last advance, Pa.
    net: f64,
    /// Since when fluid goes in, s.
    begun: Option<f64>,
    stopped: Option<Screenout>,
    /// Part of what was taken in until the first proppant came, and greatest volume.
    pad: f64,
}

/// The rock of a job.
#[derive(Debug, Clone)]
pub(crate) struct Rock<'a> {
    table: Option<&'a FractureTable>,
    /// Stage 1 first.
    stages: Vec<Growing>,
    /// Pressure of the rock of each stage before the net pressure, Pa.
    base: Vec<f64>,
}

/// How proppant stopped, in words.
pub(crate) fn words(how: Screenout) -> &'static str {
    match how {
        Screenout::TipBridged => "grains bridge at the tip",
        Screenout::TipPacked => "the first slurry has lost its fluid at the tip",
        Screenout::WellPacked => "the slurry at the well has lost its fluid",
        Screenout::HoleBridged => "grains bridge on the way in",
    }
}

/// A screen-out that has just come.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Stopped {
    pub stage: usize,
    pub how: Screenout,
}

impl<'a> Rock<'a> {
    /// The rock of a job whose stages have sleeves at these vertical depths (stage 1 first), each with
    /// the fracture gradient of the plan.
    pub fn of(job: &'a Job, places: &[(TrueVerticalDepth, PressureGradient)]) -> physics::Result<Self> {
        let table = job.file.rock.fracture.as_ref();
        let usual = job.file.rock.fracture_gradient;
        let level = |(tvd, gradient): &(TrueVerticalDepth, PressureGradient)| {
            let closure = table.map_or(*gradient, |t| t.closure_gradient + (*gradient - usual));
            closure.si() * tvd.si()
        };
        // The slurry's front is of the first proppant of a stage.
        let first = job.file.treatment.step.iter().find_map(|s| s.proppant.as_ref());
        let grain = job.file.proppant.iter().find(|p| Some(&p.name) == first).and_then(|p| p.grain);
        let fresh = table.map(|t| fresh(t, grain.unwrap_or(DUST))).transpose()?;
        let stages = fresh.map_or(Vec::new(), |g| vec![g; places.len()]);
        Ok(Self { table, stages, base: places.iter().map(level).collect() })
    }

    /// Whether fractures are followed.
    pub fn followed(&self) -> bool {
        self.table.is_some()
    }

    fn stage(&self, stage: usize) -> Option<&Growing> {
        self.stages.get(stage.max(1) - 1)
    }

    /// Pressure in the rock of a stage, Pa; the path at the toe has the rock of stage 1.
    pub fn pressure(&self, stage: usize, time: f64) -> f64 {
        self.level(stage) + self.breakdown(stage, time)
    }

    /// The same without the peak of its breakdown.
    pub fn level(&self, stage: usize) -> f64 {
        let base = self.base.get(stage.max(1) - 1).copied().unwrap_or(0.0);
        base + self.stage(stage).map_or(0.0, |g| g.net)
    }

    /// The peak of a breakdown and the time in which it decays.
    pub fn peak(&self) -> Option<(Pressure, Time)> {
        self.table.filter(|t| t.breakdown.si() > 0.0).map(|t| (t.breakdown, t.breakdown_decay))
    }

    /// Whether the rock of a stage has taken fluid.
    pub fn broken(&self, stage: usize) -> bool {
        self.stage(stage).is_none_or(|g| g.begun.is_some())
    }

    fn breakdown(&self, stage: usize, time: f64) -> f64 {
        let (Some((peak, decay)), Some(growing)) = (self.peak(), self.stage(stage)) else { return 0.0 };
        let since = growing.begun.map_or(0.0, |b| (time - b).max(0.0));
        peak.si() * (-since / decay.si()).exp()
    }

    /// Net pressure that a stage will have soon after its opening, when a rate goes in for a while, Pa.
    pub fn soon(&self, stage: usize, rate: f64, viscosity: Viscosity, after: Time) -> physics::Result<f64> {
        let Some(growing) = self.stage(stage).filter(|g| g.begun.is_none()) else {
            return Ok(self.stage(stage).map_or(0.0, |g| g.net));
        };
        let mut trial = growing.fracture.clone();
        trial.advance(after, FlowRate::from_si(rate.max(0.0)), viscosity)?;
        Ok(trial.net_pressure().si())
    }

    /// Takes in what came through a sleeve.
    pub fn take(&mut self, stage: usize, amount: Amount, viscosity: Viscosity, time: f64) {
        let Some(g) = self.stages.get_mut(stage.max(1) - 1) else { return };
        let slurry = amount.slurry.si();
        if slurry <= 0.0 {
            return;
        }
        g.begun.get_or_insert(time);
        g.owed.slurry += slurry;
        g.owed.solid += (slurry - amount.clean.si()).max(0.0);
        g.owed.thick += slurry * viscosity.si();
    }

    /// Lets time pass for the fracture of a stage; says whether it screened out.
    pub fn advance(&mut self, stage: usize, dt: f64) -> physics::Result<Option<Stopped>> {
        let stage = stage.max(1);
        let Some(g) = self.stages.get_mut(stage - 1) else { return Ok(None) };
        g.owed.time += dt;
        if g.owed.time < MARCH - 1e-9 {
            return Ok(None);
        }
        Ok(g.march()?.map(|how| Stopped { stage, how }))
    }

    /// Bridges the tip of a stage's fracture.
    pub fn bridge(&mut self, stage: usize) {
        if let Some(g) = self.stages.get_mut(stage.max(1) - 1) {
            g.stopped.get_or_insert(Screenout::TipBridged);
            g.fracture.screen_out_tip();
        }
    }

    /// Half-length of a stage's fracture, m.
    pub fn length(&self, stage: usize) -> f64 {
        self.stage(stage).map_or(0.0, |g| g.fracture.length().si())
    }

    /// Pressure in it above closure, Pa.
    pub fn net(&self, stage: usize) -> f64 {
        self.stage(stage).map_or(0.0, |g| g.net)
    }

    /// What became of the fracture of a stage.
    pub fn run(&self, stage: usize) -> Option<RockRun> {
        let g = self.stage(stage).filter(|g| g.begun.is_some())?;
        let f = &g.fracture;
        let efficiency = f.efficiency();
        Some(RockRun {
            net_pressure: f.net_pressure(),
            length: f.length(),
            width: f.width(),
            mean_width: f.mean_width(),
            efficiency: Ratio::of(efficiency),
            pad: Ratio::of(if f.injected().si() > 0.0 { g.pad / f.injected().si() } else { 0.0 }),
            pad_needed: Ratio::of(((1.0 - efficiency) / (1.0 + efficiency)).clamp(0.0, 1.0)),
            front: g.filling.front(),
            screened_out: g.stopped.is_some(),
        })
    }
}

impl Growing {
    fn march(&mut self) -> physics::Result<Option<Screenout>> {
        let Owed { time, slurry, solid, thick } = std::mem::take(&mut self.owed);
        if slurry > 0.0 {
            self.viscosity = thick / slurry;
        }
        let share = Ratio::of(if slurry > 0.0 { (solid / slurry).clamp(0.0, 0.99) } else { 0.0 });
        let rate = FlowRate::from_si(slurry / time);
        let done: Advance =
            self.fracture.advance(Time::seconds(time), rate, Viscosity::from_si(self.viscosity))?;
        let grains = self.filling.grains().si() > 0.0;
        if !grains && share.si() <= 0.0 {
            self.pad += slurry;
        }
        let stopped = self.filling.advance(&self.fracture, &done, share)?;
        self.net = self.fracture.net_pressure().si();
        let Some(how) = stopped.filter(|_| self.stopped.is_none()) else { return Ok(None) };
        self.stopped = Some(how);
        if matches!(how, Screenout::TipBridged | Screenout::TipPacked) {
            self.fracture.screen_out_tip();
        }
        Ok(Some(how))
    }
}

fn fresh(t: &FractureTable, grain: Diameter) -> physics::Result<Growing> {
    let height = t.height.unwrap_or(Length::ZERO);
    let (geometry, form) = match t.form {
        FractureForm::Pkn => (Geometry::Pkn { height, profile: PknProfile::Usual }, Form::Pkn),
        FractureForm::Kgd => (Geometry::Kgd { height }, Form::Kgd),
        FractureForm::Radial => (Geometry::Radial, Form::Radial),
    };
    let nu = t.poisson.si();
    let fracture = Fracture::new(Ground {
        geometry,
        modulus: t.youngs_modulus / (1.0 - nu * nu),
        leakoff: t.leakoff,
        spurt: t.spurt,
        toughness: t.toughness,
    })?;
    let filling =
        Filling::new(Rules { form, grain, width_ratio: t.bridging.si(), packed: t.packed.si(), hole: None })?;
    Ok(Growing {
        fracture,
        filling,
        owed: Owed::default(),
        viscosity: 1e-3,
        net: 0.0,
        begun: None,
        stopped: None,
        pad: 0.0,
    })
}
