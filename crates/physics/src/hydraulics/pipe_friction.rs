//! Friction pressure in a pipe: one call for every fluid, with or without proppant.

use super::drag_reduction::{DRAG_BASE_WORDS, DragBase, DragLimit, check_share, reduced};
use super::friction_factor::{Regime, churchill};
use super::power_law_friction::power_law_all_regimes;
use super::slurry_friction::SlurryFriction;
use crate::error::{Error, Result, require, require_not_negative, require_positive};
use crate::fluid::power_law::PowerLaw;
use crate::fluid::slurry::slurry;
use crate::fluid::slurry_viscosity::{SlurryViscosity, USUAL_PACKING};
use crate::{Arguments, Input, Output, Outputs, Relation};
use quantity::{
    Concentration, Consistency, Density, Diameter, FlowRate, PressureGradient, Quantity, Ratio, ShearRate,
    Velocity, Viscosity,
};

const NAME: &str = "pipe_friction";

/// How the clean fluid flows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PipeFluid {
    /// One viscosity; any roughness.
    Newtonian {
        /// Viscosity.
        viscosity: Viscosity,
    },
    /// Power law; smooth pipe, the roughness is not used.
    PowerLaw(PowerLaw),
    /// Water or brine with a friction reducer.
    WithFrictionReducer {
        /// Viscosity of the fluid, as in its Reynolds number.
        viscosity: Viscosity,
        /// Drag reduction: 1 minus friction with the reducer over friction without.
        drag_reduction: f64,
        /// The pipe whose friction that is a share of.
        base: DragBase,
    },
}

/// Proppant in the fluid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ProppantLoad {
    /// Proppant added per clean volume.
    pub concentration: Concentration,
    /// Grain density.
    pub proppant_density: Density,
    /// Relation between slurry and clean friction; `None` takes the turbulent or laminar
    /// scaling by the regime.
    pub friction: Option<SlurryFriction>,
}

/// A flow through a pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PipeFlow {
    /// Slurry rate (clean rate if there is no proppant).
    pub rate: FlowRate,
    /// Bore.
    pub bore: Diameter,
    /// Wall roughness.
    pub roughness: Diameter,
    /// Density of the clean fluid.
    pub density: Density,
    /// The clean fluid.
    pub fluid: PipeFluid,
    /// Proppant, if any.
    pub proppant: Option<ProppantLoad>,
}

/// The friction of a flow, with what it came from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PipeFriction {
    /// Friction pressure per length, slurry included.
    pub gradient: PressureGradient,
    /// Mean velocity.
    pub velocity: Velocity,
    /// Reynolds number of the clean fluid (of Metzner and Reed for a power law).
    pub reynolds: f64,
    /// Darcy friction factor of the clean fluid; 0 when it stands still.
    pub darcy: f64,
    /// Regime of the clean fluid.
    pub regime: Regime,
    /// Drag reduction after the limit; 0 without a reducer.
    pub drag_reduction: f64,
    /// What held the drag reduction.
    pub limit: DragLimit,
    /// Slurry friction over clean friction; 1 without proppant.
    pub slurry_multiplier: f64,
}

/// Friction pressure gradient of a flow in a pipe.
///
/// `dp/dL = M f rho U^2/(2D)`, `U = q/(pi D^2/4)`, `Re = rho U D/mu`
///
/// `f` Darcy factor of the clean fluid: [`super::friction_factor::churchill_1977`], four times
/// [`super::power_law_friction::power_law_friction`], or
/// [`super::drag_reduction::reduced_friction`]; `rho` clean density (kg/m³), `U` mean velocity
/// (m/s), `D` bore (m), `M` slurry multiplier ([`SlurryFriction`]) at the same slurry rate.
///
/// Range: that of the relation taken for `f`.
///
/// Tool joints, upsets and bends are not in it. A power-law fluid is taken in a smooth pipe. In
/// transition (`regime` says so) the real pressure may stand anywhere between the branches.
///
/// Source: churchill1977 p. 91 (Newtonian); dodge_metzner1959 p. 189 (power law); virk1975
/// p. 625 (limit of drag reduction).
///
/// ```
/// use physics::hydraulics::pipe_friction::{PipeFlow, PipeFluid, pipe_friction};
/// use quantity::{Density, Diameter, FlowRate, Viscosity};
/// let flow = PipeFlow {
///     rate: FlowRate::bbl_per_min(20.0),
///     bore: Diameter::inch(4.0),
///     roughness: Diameter::inch(0.0018),
///     density: Density::kg_per_m3(998.0),
///     fluid: PipeFluid::Newtonian { viscosity: Viscosity::cp(1.0) },
///     proppant: None,
/// };
/// let friction = pipe_friction(&flow)?;
/// assert!((friction.gradient.in_psi_per_1000ft() - 159.7).abs() < 0.1);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn pipe_friction(flow: &PipeFlow) -> Result<PipeFriction> {
    check(flow)?;
    let (rho, d) = (flow.density.si(), flow.bore.si());
    let u = flow.rate.si() / flow.bore.circle().si();
    let clean = clean_friction(flow, rho, u, d);
    let slurry_multiplier = match &flow.proppant {
        Some(load) => slurry_multiplier(flow.density, load, clean.regime)?,
        None => 1.0,
    };
    // dp/dL = M f rho U^2/(2D)
    let gradient = slurry_multiplier * clean.darcy * rho * u * u / (2.0 * d);
    Ok(PipeFriction {
        gradient: PressureGradient::pa_per_m(gradient),
        velocity: Velocity::m_per_s(u),
        reynolds: clean.reynolds,
        darcy: clean.darcy,
        regime: clean.regime,
        drag_reduction: clean.drag_reduction,
        limit: clean.limit,
        slurry_multiplier,
    })
}

/// What the clean fluid contributes.
struct Clean {
    reynolds: f64,
    darcy: f64,
    regime: Regime,
    drag_reduction: f64,
    limit: DragLimit,
}

fn clean_friction(flow: &PipeFlow, rho: f64, u: f64, d: f64) -> Clean {
    let ed = flow.roughness.si() / d;
    let plain = |reynolds, darcy, regime| Clean {
        reynolds,
        darcy,
        regime,
        drag_reduction: 0.0,
        limit: DragLimit::AsGiven,
    };
    if u == 0.0 {
        return plain(0.0, 0.0, Regime::Still);
    }
    // Re = rho U D/mu
    match flow.fluid {
        PipeFluid::Newtonian { viscosity } => {
            let re = rho * u * d / viscosity.si();
            plain(re, churchill(re, ed), Regime::of(re))
        }
        PipeFluid::PowerLaw(fluid) => {
            let re = fluid.reynolds(rho, u, d);
            let (fanning, regime) = power_law_all_regimes(re, fluid.n);
            plain(re, 4.0 * fanning, regime)
        }
        PipeFluid::WithFrictionReducer { viscosity, drag_reduction, base } => {
            let re = rho * u * d / viscosity.si();
            let f = reduced(re, ed, drag_reduction, base);
            Clean {
                reynolds: re,
                darcy: f.darcy,
                regime: Regime::of(re),
                drag_reduction: f.drag_reduction,
                limit: f.limit,
            }
        }
    }
}

fn slurry_multiplier(clean: Density, load: &ProppantLoad, regime: Regime) -> Result<f64> {
    if load.concentration == Concentration::ZERO {
        return Ok(1.0);
    }
    let s = slurry(clean, load.proppant_density, load.concentration)?;
    let eilers = SlurryViscosity::Eilers { packing: USUAL_PACKING };
    let friction = load.friction.unwrap_or(match regime {
        Regime::Laminar => SlurryFriction::LaminarScaling(eilers),
        _ => SlurryFriction::TurbulentScaling(eilers),
    });
    friction.multiplier(s.density / clean, s.proppant_fraction)
}

fn check(flow: &PipeFlow) -> Result<()> {
    require_not_negative(NAME, "rate", flow.rate)?;
    require_positive(NAME, "bore", flow.bore)?;
    require_positive(NAME, "density", flow.density)?;
    let hint = "Roughness is a small fraction of the bore, such as 0.0018 in.";
    let inside = flow.roughness.si() >= 0.0 && flow.roughness.si() < 0.5 * flow.bore.si();
    require(inside, NAME, "roughness", flow.roughness, "from 0 to below half the bore", hint)?;
    match flow.fluid {
        PipeFluid::Newtonian { viscosity } => require_positive(NAME, "viscosity", viscosity),
        PipeFluid::PowerLaw(fluid) => fluid.check(NAME),
        PipeFluid::WithFrictionReducer { viscosity, drag_reduction, .. } => {
            require_positive(NAME, "viscosity", viscosity)?;
            check_share(NAME, drag_reduction)
        }
    }
}

/// Register entry of [`pipe_friction`].
pub static PIPE_FRICTION: Relation = Relation {
    name: NAME,
    title: "Friction pressure gradient in a pipe (Darcy)",
    equation: "dp/dL = M f rho U^2/(2D); U = q/(pi D^2/4); Re = rho U D/mu; f by churchill_1977, dodge_metzner_1959 or drag_reduced_friction",
    source: "churchill1977 p. 91; dodge_metzner1959 p. 189; virk1975 p. 625",
    range: "that of the friction factor taken",
    inputs: &[
        Input::new::<FlowRate>("rate", "slurry rate"),
        Input::new::<Diameter>("bore", "bore"),
        Input::new::<Diameter>("roughness", "wall roughness").or("0 in"),
        Input::new::<Density>("density", "density of the clean fluid"),
        Input::choice("fluid", &["newtonian", "power_law", "friction_reducer"], "how the fluid flows")
            .or("newtonian"),
        Input::new::<Viscosity>("viscosity", "viscosity; not used for power_law").or("1 cP"),
        Input::new::<Ratio>("n", "flow behaviour index, for power_law").or("1"),
        Input::new::<Consistency>("k", "consistency, for power_law").or("0.001 Pa.s^n"),
        Input::new::<Ratio>("drag_reduction", "drag reduction, for friction_reducer")
            .or("0")
            .within(0.0, 0.85),
        Input::choice("base", DRAG_BASE_WORDS, "the pipe the drag reduction is a share of").or("rough"),
        Input::new::<Concentration>("concentration", "proppant added per clean volume").or("0 ppa"),
        Input::new::<Density>("proppant_density", "grain density of the proppant").or("2.65 g/cm3"),
        Input::choice(
            "slurry_model",
            &["regime_scaling", "keck_1992"],
            "slurry friction over clean friction",
        )
        .or("regime_scaling"),
    ],
    outputs: &[
        Output::new::<PressureGradient>("gradient", "friction pressure per length"),
        Output::new::<Velocity>("velocity", "mean velocity"),
        Output::new::<Ratio>("reynolds", "Reynolds number of the clean fluid"),
        Output::new::<Ratio>("darcy", "Darcy friction factor of the clean fluid"),
        Output::new::<Ratio>("drag_reduction", "drag reduction after the limit"),
        Output::new::<Ratio>("slurry_multiplier", "slurry friction over clean friction"),
    ],
    evaluate: |a| {
        let friction = pipe_friction(&read(a)?)?;
        Ok(Outputs::new()
            .put("gradient", friction.gradient)
            .put("velocity", friction.velocity)
            .put("reynolds", Ratio::of(friction.reynolds))
            .put("darcy", Ratio::of(friction.darcy))
            .put("drag_reduction", Ratio::of(friction.drag_reduction))
            .put("slurry_multiplier", Ratio::of(friction.slurry_multiplier)))
    },
};

fn read(a: &Arguments) -> Result<PipeFlow> {
    let viscosity = a.get("viscosity")?;
    let fluid = match a.word("fluid")? {
        "power_law" => PipeFluid::PowerLaw(PowerLaw { n: a.number("n")?, k: a.get("k")? }),
        "friction_reducer" => PipeFluid::WithFrictionReducer {
            viscosity,
            drag_reduction: a.number("drag_reduction")?,
            base: DragBase::from_word(a.word("base")?),
        },
        _ => PipeFluid::Newtonian { viscosity },
    };
    let (rate, bore): (FlowRate, Diameter) = (a.get("rate")?, a.get("bore")?);
    let keck = || {
        // wall shear rate of a thin fluid, 8U/D
        let shear_rate = ShearRate::per_second(8.0 * (rate / bore.circle()).si() / bore.si());
        Ok::<_, Error>(SlurryFriction::Keck1992 { n: a.number("n")?, shear_rate })
    };
    let friction = if a.word("slurry_model")? == "keck_1992" { Some(keck()?) } else { None };
    Ok(PipeFlow {
        rate,
        bore,
        roughness: a.get("roughness")?,
        density: a.get("density")?,
        fluid,
        proppant: Some(ProppantLoad {
            concentration: a.get("concentration")?,
            proppant_density: a.get("proppant_density")?,
            friction,
        }),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn flow(bpm: f64, fluid: PipeFluid) -> PipeFlow {
        PipeFlow {
            rate: FlowRate::bbl_per_min(bpm),
            bore: Diameter::inch(4.0),
            roughness: Diameter::inch(0.0018),
            density: Density::kg_per_m3(998.0),
            fluid,
            proppant: None,
        }
    }

    const WATER: PipeFluid = PipeFluid::Newtonian { viscosity: Viscosity::cp(1.0) };

    fn slick(drag_reduction: f64) -> PipeFluid {
        let viscosity = Viscosity::cp(1.0);
        PipeFluid::WithFrictionReducer { viscosity, drag_reduction, base: DragBase::RoughPipe }
    }

    #[test]
    fn standing_fluid_has_no_friction() {
        for fluid in [WATER, slick(0.7)] {
            let f = pipe_friction(&flow(0.0, fluid)).unwrap();
            assert_eq!((f.gradient.si(), f.darcy, f.regime), (0.0, 0.0, Regime::Still));
        }
    }

    #[test]
    fn laminar_flow_is_that_of_poiseuille() {
        let oil = PipeFluid::Newtonian { viscosity: Viscosity::pa_s(1.0) };
        let f = pipe_friction(&flow(1.0, oil)).unwrap();
        // dp/dL = 32 mu U/D^2
        let expected = 32.0 * f.velocity.si() / 0.1016f64.powi(2);
        assert!((f.gradient.si() / expected - 1.0).abs() < 1e-4);
        let gel = PipeFluid::PowerLaw(PowerLaw { n: 1.0, k: Consistency::pa_sn(1.0) });
        let g = pipe_friction(&flow(1.0, gel)).unwrap();
        assert!((g.gradient.si() / expected - 1.0).abs() < 1e-12);
    }

    #[test]
    fn proppant_raises_friction_by_the_multiplier() {
        let mut with = flow(30.0, slick(0.7));
        let clean = pipe_friction(&with).unwrap();
        with.proppant = Some(ProppantLoad {
            concentration: Concentration::ppa(4.0),
            proppant_density: Density::g_per_cm3(2.65),
            friction: None,
        });
        let f = pipe_friction(&with).unwrap();
        assert!((f.gradient / clean.gradient - f.slurry_multiplier).abs() < 1e-12);
        assert!((f.slurry_multiplier - 1.31).abs() < 0.01);
    }

    proptest! {
        #[test]
        fn more_rate_is_more_friction(bpm in 0.01..80.0f64, share in 0.0..0.9f64) {
            for fluid in [WATER, slick(share), PipeFluid::PowerLaw(PowerLaw { n: 0.6, k: Consistency::pa_sn(0.2) })] {
                let low = pipe_friction(&flow(bpm, fluid)).unwrap();
                let high = pipe_friction(&flow(bpm * 1.02, fluid)).unwrap();
                prop_assert!(high.gradient > low.gradient);
            }
        }

        #[test]
        fn the_reducer_never_adds_friction(bpm in 0.01..80.0f64, share in 0.0..=1.0f64) {
            let plain = pipe_friction(&flow(bpm, WATER)).unwrap();
            let with = pipe_friction(&flow(bpm, slick(share))).unwrap();
            prop_assert!(with.gradient <= plain.gradient);
            prop_assert!((with.gradient / plain.gradient - 1.0 + with.drag_reduction).abs() < 1e-12);
        }
    }

    #[test]
    fn nonsense_is_refused() {
        assert!(pipe_friction(&flow(-1.0, WATER)).is_err());
        assert!(pipe_friction(&flow(f64::NAN, WATER)).is_err());
        assert!(pipe_friction(&flow(10.0, slick(1.5))).is_err());
        let mut bad = flow(10.0, WATER);
        bad.roughness = Diameter::inch(3.0);
        assert!(pipe_friction(&bad).is_err());
        bad.bore = Diameter::ZERO;
        assert!(pipe_friction(&bad).is_err());
    }
}
