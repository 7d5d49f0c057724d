//! Friction pressure of a power-law fluid in the annulus between pipe and hole.

use super::friction_factor::Regime;
use super::power_law_friction::{all_regimes, power_law_all_regimes};
use crate::error::{Result, require, require_not_negative, require_positive};
use crate::fluid::power_law::PowerLaw;
use crate::{Input, Output, Outputs, Relation};
use quantity::{Consistency, Density, Diameter, FlowRate, PressureGradient, Quantity, Ratio, Velocity};

const NAME: &str = "annulus_friction";

/// The turbulent law taken in the annulus.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AnnulusTurbulence {
    /// `f = 0.0791/Re^0.25`, as in drilling texts; a Newtonian law.
    Blasius,
    /// The law for power-law fluids, [`super::power_law_friction::dodge_metzner_1959`].
    DodgeMetzner,
}

/// A flow through an annulus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AnnulusFlow {
    /// Rate.
    pub rate: FlowRate,
    /// Diameter of the hole or casing bore.
    pub hole: Diameter,
    /// Outside diameter of the pipe.
    pub pipe: Diameter,
    /// Density.
    pub density: Density,
    /// The fluid; `n` 1 is Newtonian.
    pub fluid: PowerLaw,
    /// The turbulent law.
    pub turbulence: AnnulusTurbulence,
}

/// The friction of a flow in an annulus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AnnulusFriction {
    /// Friction pressure per length.
    pub gradient: PressureGradient,
    /// Mean velocity.
    pub velocity: Velocity,
    /// Reynolds number on the equivalent diameter; 0 when it stands still.
    pub reynolds: f64,
    /// Fanning friction factor on the equivalent diameter; 0 when it stands still.
    pub fanning: f64,
    /// Regime.
    pub regime: Regime,
}

/// Friction pressure gradient in a concentric annulus taken as a slot (Fanning).
///
/// `dp/dL = 2 f rho U^2/De`, `De = sqrt(2/3) (D2 - D1)`,
/// `Re = sqrt(2/3) rho U^(2-n) (D2 - D1)^n/[12^(n-1) K ((2n+1)/(3n))^n]`; laminar `f = 16/Re`;
/// turbulent `f = 0.0791/Re^0.25` or Dodge and Metzner
///
/// `D2` hole, `D1` pipe (m), `De` equivalent diameter, `rho` density (kg/m³), `U` mean velocity
/// (m/s), `K` consistency (Pa·s^n), `n` flow behaviour index. Texts print 0.816 for the root and
/// `109000 rho v^(2-n)/K [0.0208 (d2 - d1)/(2 + 1/n)]^n` for `Re` in field units.
///
/// Range: `D1/D2` above 0.3; below it the slot grows less exact, without a sudden end.
///
/// Laminar flow is exact for the slot. Concentric: a pipe on the low side of the hole loses down
/// to half of it. The transition is a straight line in the logarithms, between the limits of
/// the pipe law.
///
/// Source: guo_liu2011 ch. 2 (p. 45 the example); metzner_reed1955 p. 434.
///
/// ```
/// use physics::fluid::power_law::PowerLaw;
/// use physics::hydraulics::annulus_friction::{AnnulusFlow, AnnulusTurbulence, annulus_friction};
/// use quantity::{Consistency, Density, Diameter, FlowRate};
/// let friction = annulus_friction(&AnnulusFlow {
///     rate: FlowRate::gal_per_min(300.0),
///     hole: Diameter::inch(8.5),
///     pipe: Diameter::inch(4.5),
///     density: Density::lb_per_gal(10.5),
///     fluid: PowerLaw { n: 0.8, k: Consistency::pa_sn(0.020) },
///     turbulence: AnnulusTurbulence::Blasius,
/// })?;
/// assert!((friction.velocity.in_ft_per_s() - 2.36).abs() < 0.005);
/// assert!((friction.gradient.in_psi_per_1000ft() * 3.0 - 17.0).abs() < 0.5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn annulus_friction(flow: &AnnulusFlow) -> Result<AnnulusFriction> {
    require_not_negative(NAME, "rate", flow.rate)?;
    require_positive(NAME, "pipe", flow.pipe)?;
    require_positive(NAME, "density", flow.density)?;
    flow.fluid.check(NAME)?;
    let hint = "The pipe must fit into the hole with room around it.";
    require(flow.hole > flow.pipe, NAME, "hole", flow.hole, "above the pipe's diameter", hint)?;
    let (rho, gap, n) = (flow.density.si(), flow.hole.si() - flow.pipe.si(), flow.fluid.n);
    let u = flow.rate.si() / flow.hole.ring(flow.pipe).si();
    // Re = sqrt(2/3) rho U^(2-n) (D2 - D1)^n/[12^(n-1) K ((2n+1)/(3n))^n]
    let equivalent = (2.0f64 / 3.0).sqrt();
    let shape = 12f64.powf(n - 1.0) * ((2.0 * n + 1.0) / (3.0 * n)).powf(n);
    let reynolds = equivalent * rho * u.powf(2.0 - n) * gap.powf(n) / (flow.fluid.k.si() * shape);
    let (fanning, regime) = match flow.turbulence {
        // f = 0.0791/Re^0.25
        AnnulusTurbulence::Blasius => all_regimes(reynolds, n, |re| 0.0791 / re.powf(0.25)),
        AnnulusTurbulence::DodgeMetzner => power_law_all_regimes(reynolds, n),
    };
    Ok(AnnulusFriction {
        // dp/dL = 2 f rho U^2/De, De = sqrt(2/3) (D2 - D1)
        gradient: PressureGradient::pa_per_m(2.0 * fanning * rho * u * u / (equivalent * gap)),
        velocity: Velocity::m_per_s(u),
        reynolds,
        fanning,
        regime,
    })
}

/// Register entry of [`annulus_friction`].
pub static ANNULUS_FRICTION: Relation = Relation {
    name: NAME,
    title: "Friction pressure gradient of a power-law fluid in an annulus, as a slot (Fanning)",
    equation: "dp/dL = 2 f rho U^2/De; De = sqrt(2/3) (D2 - D1); Re = sqrt(2/3) rho U^(2-n) (D2 - D1)^n/[12^(n-1) K ((2n+1)/(3n))^n]",
    source: "guo_liu2011 ch. 2; metzner_reed1955 p. 434",
    range: "concentric, pipe over hole diameter above 0.3",
    inputs: &[
        Input::new::<FlowRate>("rate", "rate"),
        Input::new::<Diameter>("hole", "diameter of the hole or casing bore"),
        Input::new::<Diameter>("pipe", "outside diameter of the pipe"),
        Input::new::<Density>("density", "density"),
        Input::new::<Ratio>("n", "flow behaviour index").or("1").within(0.36, 1.0),
        Input::new::<Consistency>("k", "consistency"),
        Input::choice("turbulence", &["dodge_metzner", "blasius"], "turbulent law").or("dodge_metzner"),
    ],
    outputs: &[
        Output::new::<PressureGradient>("gradient", "friction pressure per length"),
        Output::new::<Velocity>("velocity", "mean velocity"),
        Output::new::<Ratio>("reynolds", "Reynolds number on the equivalent diameter"),
        Output::new::<Ratio>("fanning", "Fanning friction factor on the equivalent diameter"),
    ],
    evaluate: |a| {
        let f = annulus_friction(&AnnulusFlow {
            rate: a.get("rate")?,
            hole: a.get("hole")?,
            pipe: a.get("pipe")?,
            density: a.get("density")?,
            fluid: PowerLaw { n: a.number("n")?, k: a.get("k")? },
            turbulence: match a.word("turbulence")? {
                "blasius" => AnnulusTurbulence::Blasius,
                _ => AnnulusTurbulence::DodgeMetzner,
            },
        })?;
        Ok(Outputs::new()
            .put("gradient", f.gradient)
            .put("velocity", f.velocity)
            .put("reynolds", Ratio::of(f.reynolds))
            .put("fanning", Ratio::of(f.fanning)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    fn flow(gpm: f64, k: f64) -> AnnulusFlow {
        AnnulusFlow {
            rate: FlowRate::gal_per_min(gpm),
            hole: Diameter::inch(6.125),
            pipe: Diameter::inch(5.5),
            density: Density::kg_per_m3(1050.0),
            fluid: PowerLaw { n: 1.0, k: Consistency::pa_sn(k) },
            turbulence: AnnulusTurbulence::DodgeMetzner,
        }
    }

    #[test]
    fn a_narrow_annulus_is_a_slot() {
        let f = annulus_friction(&flow(1.0, 0.05)).unwrap();
        // dp/dL = 12 mu U/h^2, h half of the difference of the diameters
        let h: f64 = 0.0254 * (6.125 - 5.5) / 2.0;
        let expected = 12.0 * 0.05 * f.velocity.si() / (h * h);
        assert!((f.gradient.si() / expected - 1.0).abs() < 1e-12);
        assert_eq!(f.regime, Regime::Laminar);
    }

    #[test]
    fn still_and_impossible_annuli() {
        let f = annulus_friction(&flow(0.0, 0.05)).unwrap();
        assert_eq!((f.gradient.si(), f.regime), (0.0, Regime::Still));
        let mut bad = flow(10.0, 0.05);
        bad.pipe = bad.hole;
        assert!(annulus_friction(&bad).is_err());
    }
}
