//! Temperature of pumped fluid along the well at a constant rate, exact in time.

use super::bessel::scaled_k;
use super::exchange::{Earth, Fluid, Wall, read_well, require_within, well_inputs};
use super::laplace::invert;
use crate::error::require_positive;
use crate::{Input, Output, Outputs, Relation, Result};
use num_complex::Complex64;
use quantity::{Diameter, FlowRate, MeasuredDepth, Quantity, Temperature, Time};
use std::f64::consts::PI;

/// A well of one bore, pumped at one rate from rest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SteadyPumping {
    /// The fluid, in the well and pumped.
    pub fluid: Fluid,
    /// The hole wall.
    pub wall: Wall,
    /// Bore of the string.
    pub bore: Diameter,
    /// Rate.
    pub rate: FlowRate,
    /// Temperature of the fluid at the top.
    pub inlet: Temperature,
}

impl SteadyPumping {
    fn check(&self) -> Result<()> {
        self.fluid.check(NAME)?;
        self.wall.check(NAME)?;
        require_positive(NAME, "bore", self.bore)?;
        require_positive(NAME, "rate", self.rate)?;
        require_positive(NAME, "inlet", self.inlet)
    }

    /// Heat taken by the wall per length and degree, W/(m K), in the Laplace domain.
    fn uptake(&self, s: Complex64) -> Complex64 {
        let k = self.wall.rock.conductivity.si();
        let time = self.wall.hole.si().powi(2) / 4.0 / self.wall.rock.diffusivity().si();
        let root = (s * time).sqrt();
        let pair = scaled_k(root);
        // 1/H = K0(x) / (2π k x K1(x)) + 1/(2π r_w U),  x = √(s r_w²/α)
        let rock = pair.k0 / (2.0 * PI * k * root * pair.k1);
        (rock + self.wall.barrier_resistance()).inv()
    }
}

/// Temperature of the fluid at a depth, pumped at a constant rate since `time` ago into a well
/// at the earth's temperature; heat stored in the fluid and conduction in the rock exact.
///
/// Equation, from the balance `C ∂T/∂t + w c ∂T/∂z = −q'` in the Laplace domain:
/// `θ(z) = (T_in − T_e0)/s e^(−λz) − Σ g_i/(s λ) [e^(−λ(z−b_i)) − e^(−λ(z−a_i))]`,
/// `λ = (C s + H(s))/(w c)`, `1/H = K0(x)/(2π k x K1(x)) + 1/(2π r_w U)`, `x = √(s r_w²/α)`.
///
/// Symbols: θ temperature above the earth's K, C heat capacity of the fluid per length
/// J/(m K), w c heat carried per degree W/K, q' heat flow to the wall W/m, g_i slope of the
/// earth's temperature along leg i from a_i to b_i K/m, s Laplace variable 1/s, K0 and K1 Bessel functions.
///
/// Range: one bore, one hole size, one rock, one rate.
///
/// Where it breaks: heat stored in steel, annulus and cement, friction heat and conduction
/// along the well are left out. A changing schedule needs [`super::well_heat::WellHeat`].
///
/// Source: carslaw_jaeger1959 sec. 13.5 (wall of the cylinder), with the fluid's heat balance.
///
/// ```
/// use physics::heat::exchange::{Barrier, Fluid, Wall, earth_along};
/// use physics::heat::{rock::Rock, transient_pumping::{SteadyPumping, transient_pumping}};
/// use quantity::{Conductivity, Density, Diameter, FlowRate, MeasuredDepth, SpecificHeat, Temperature, Time,
///     VolumetricHeat};
/// let earth = earth_along("example", &[0.0, 2800.0, 5000.0].map(MeasuredDepth::m),
///     &[5.0, 89.0, 89.0].map(Temperature::deg_c))?;
/// let rock = Rock::new(Conductivity::w_per_mk(2.5), VolumetricHeat::mj_per_m3k(2.2))?;
/// let well = SteadyPumping {
///     fluid: Fluid { density: Density::kg_per_m3(1000.0), specific_heat: SpecificHeat::kj_per_kgk(4.184) },
///     wall: Wall { hole: Diameter::m(0.1556), rock, barrier: Barrier::None },
///     bore: Diameter::inch(4.0), rate: FlowRate::bbl_per_min(15.0), inlet: Temperature::deg_c(10.0),
/// };
/// let t = transient_pumping(&well, &earth, Time::hours(1.0), MeasuredDepth::m(5000.0))?;
/// assert!((t.in_deg_c() - 37.7286).abs() < 1e-3);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn transient_pumping(
    well: &SteadyPumping,
    earth: &Earth,
    time: Time,
    depth: MeasuredDepth,
) -> Result<Temperature> {
    well.check()?;
    require_positive(NAME, "time", time)?;
    require_within(NAME, earth, depth)?;
    let top = earth.rows().first().map_or(0.0, |(z, _)| z.si());
    let entry = earth.rows().first().map_or(0.0, |(_, t)| t.si());
    let z = depth.si();
    let carried = well.fluid.carried(well.rate);
    let speed = (well.rate / well.bore.circle()).si();
    // A term F(s) e^(−λ d) arrives after d/u; what is left of it is damped by H alone.
    let arrived = |front: &dyn Fn(Complex64) -> Complex64, d: f64| {
        let since = time.si() - d / speed;
        if since <= 0.0 { 0.0 } else { invert(|s| front(s) * (-well.uptake(s) * d / carried).exp(), since) }
    };
    let mut theta = arrived(&|s| (well.inlet.si() - entry) / s, z - top);
    for pair in earth.rows().windows(2) {
        let [(a, ta), (b, tb)] = pair else { continue };
        let end = b.si().min(z);
        if end <= a.si() {
            break;
        }
        let g = (tb.si() - ta.si()) / (b.si() - a.si());
        // g_i / (s λ)
        let slope = |s: Complex64| g / (s * (s / speed + well.uptake(s) / carried));
        theta -= arrived(&slope, z - end) - arrived(&slope, z - a.si());
    }
    Ok(Temperature::kelvin(earth.at(depth).0.si() + theta))
}

const NAME: &str = "transient_pumping";

/// `transient_pumping` in the register.
pub static TRANSIENT_PUMPING: Relation = Relation {
    name: NAME,
    title: "Temperature of pumped fluid along the well at a constant rate, exact in time",
    equation: "θ(z) = (T_in − T_e0)/s e^(−λz) − Σ g/(s λ) [e^(−λ(z−b)) − e^(−λ(z−a))];  λ = (C s + H)/(w c);  1/H = K0(x)/(2π k x K1(x)) + 1/(2π r_w U)",
    source: "carslaw_jaeger1959 sec. 13.5, with the fluid's heat balance",
    range: "one bore, one hole size, one rock, one rate since rest",
    inputs: well_inputs![
        Input::new::<Diameter>("bore", "bore of the string"),
        Input::new::<FlowRate>("rate", "rate"),
        Input::new::<Time>("time", "time since pumping began"),
        Input::new::<MeasuredDepth>("at", "measured depth wanted"),
    ],
    outputs: &[Output::new::<Temperature>("temperature", "temperature of the fluid")],
    evaluate: |a| {
        let (fluid, wall, earth) = read_well(NAME, a)?;
        let (bore, rate, inlet) = (a.get("bore")?, a.get("rate")?, a.get("inlet")?);
        let well = SteadyPumping { fluid, wall, bore, rate, inlet };
        let temperature = transient_pumping(&well, &earth, a.get("time")?, a.get("at")?)?;
        Ok(Outputs::new().put("temperature", temperature))
    },
};
