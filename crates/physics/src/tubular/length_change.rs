//! Length change of a tubing of one size sealed in a packer: piston, buckling, ballooning and
//! temperature, in closed form.

use super::buoyed_weight::buoyed_weight;
use super::columns::{self, Columns};
use super::piston_force::{LowerEnd, PackerPressures, free_length, piston_force};
use super::steel::Steel;
use super::tube::Tube;
use crate::error::{require, require_not_negative, require_positive};
use crate::{Arguments, Input, Output, Outputs, Relation, Result};
use quantity::{
    Density, Diameter, Force, ForcePerLength, Length, MassPerLength, Pressure, PressureGradient, Quantity,
    TemperatureDifference,
};

const NAME: &str = "tubing_length_change";

/// A tubing of one size in a vertical well, sealed in a packer in which it can slide.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SealedTubing {
    /// The tubing.
    pub tube: Tube,
    /// Mass per length in air.
    pub mass: MassPerLength,
    /// Length above the packer.
    pub length: Length,
    /// Seal bore of the packer.
    pub packer_bore: Diameter,
    /// Inner diameter of the casing.
    pub casing_inner: Diameter,
}

/// What changes after the tubing was landed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LengthChangeLoad {
    /// Columns when landed.
    pub landed: Columns,
    /// Columns after the change.
    pub changed: Columns,
    /// Mean temperature change of the string.
    pub temperature: TemperatureDifference,
    /// Friction loss per length of flow down the tubing, after the change.
    pub flow_loss: PressureGradient,
    /// Weight slacked off onto the packer.
    pub slack_off: Force,
}

/// Length changes (shortening negative) and the forces behind them (compression positive).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LengthChange {
    /// Piston effect.
    pub piston: Length,
    /// Helical buckling.
    pub buckling: Length,
    /// Ballooning.
    pub ballooning: Length,
    /// Temperature.
    pub temperature: Length,
    /// Length slacked off, positive: it offsets shortening.
    pub slack_off: Length,
    /// Change of the actual force at the packer dFa.
    pub piston_force: Force,
    /// Actual force at the packer after the change Fa.
    pub actual_force: Force,
    /// Fictitious force Ff after the change; the string buckles where it is positive.
    pub fictitious_force: Force,
    /// Buoyed weight after the change w.
    pub weight: ForcePerLength,
    /// Distance of the neutral point above the packer, no more than the length.
    pub neutral_point: Length,
    /// Bending stress of the helix at the packer.
    pub helix_stress: Pressure,
}

impl LengthChange {
    /// Sum of the four effects.
    pub fn total(self) -> Length {
        self.piston + self.buckling + self.ballooning + self.temperature
    }
}

/// Shortening by helical buckling under a fictitious force `Ff` at the packer: its size.
///
/// Equation: `r^2 Ff^2 / (8 E I w)`, times `(L w/Ff)(2 - L w/Ff)` when `Ff/w > L`.
pub(super) fn helix_shortening(force: f64, weight: f64, length: f64, r2_per_8ei: f64) -> f64 {
    if force <= 0.0 {
        return 0.0;
    }
    let reach = length * weight / force;
    let cut = if reach < 1.0 { reach * (2.0 - reach) } else { 1.0 };
    r2_per_8ei * force * force / weight * cut
}

impl SealedTubing {
    /// Radial clearance r to the casing.
    pub fn clearance(self) -> Diameter {
        (self.casing_inner - self.tube.outer()) / 2.0
    }

    /// Buoyed weight in these columns.
    fn weight(self, columns: Columns) -> Result<ForcePerLength> {
        buoyed_weight(self.tube, self.mass, columns.inside_density, columns.outside_density)
    }

    /// Shortening by helical buckling, as a positive length; a string that buckles must have
    /// weight.
    fn helix(self, steel: Steel, fictitious: Force, weight: ForcePerLength) -> Result<Length> {
        let hint = "The string floats and buckles over its whole length; check the fluids.";
        let fits = fictitious.si() <= 0.0 || weight.si() > 0.0;
        require(fits, NAME, "weight", weight, "above zero when the string buckles", hint)?;
        let r2_per_8ei = self.clearance().si().powi(2) / (8.0 * steel.modulus.si() * self.tube.inertia());
        Ok(Length::m(helix_shortening(fictitious.si(), weight.si(), self.length.si(), r2_per_8ei)))
    }

    fn checked(self, relation: &'static str) -> Result<Self> {
        require_positive(relation, "length", self.length)?;
        require_positive(relation, "packer_bore", self.packer_bore)?;
        let hint = "The casing must take the tubing.";
        let fits = self.casing_inner.si() >= self.tube.outer().si();
        require(
            fits,
            relation,
            "casing_inner",
            self.casing_inner,
            "at least the tubing's outer diameter",
            hint,
        )?;
        Ok(self)
    }
}

/// Length change of a tubing of one size sealed in a packer, free to move: the four effects in
/// closed form. Lengths: shortening negative; forces: compression positive.
///
/// Equation: piston `dL1 = -L dFa/(E As)`, `dFa = (Ap - Ai) dPi - (Ap - Ao) dPo`;
/// buckling `dL2 = -r^2 Ff^2/(8 E I w)`, `Ff = Ap (dPi - dPo)`, times
/// `(L w/Ff)(2 - L w/Ff)` if `Ff/w > L`;
/// ballooning `dL3 = -(nu/E) [drho_i - R^2 drho_o - delta (1 + 2 nu)/(2 nu)]/(R^2 - 1) L^2 -
/// (2 nu/E) [dpis - R^2 dpos]/(R^2 - 1) L`;
/// temperature `dL4 = alpha L dT`; slack-off `F L/(E As) + r^2 F^2/(8 E I w)`
///
/// - `Ap` seal bore area; `Ai, Ao, As` bore, outer and steel area of the tubing, m2
/// - `dPi, dPo` pressure changes at the packer; `dpis, dpos` at the surface, Pa
/// - `drho_i, drho_o` changes of the fluid gradients, Pa/m; `delta` flow loss, Pa/m
/// - `R` outer over inner diameter; `r` radial clearance, m; `I` second moment, m4
/// - `w` buoyed weight with the changed fluids, N/m (slack-off: with the landed fluids)
/// - `nu, E, alpha` Poisson's ratio, Young's modulus and thermal expansion of the steel
/// - `F` slack-off force, N
///
/// Range: vertical well, one size, no friction, not buckled when landed, open lower end.
///
/// Where it breaks: pressures that were unequal when landed mean the string may have been
/// buckled already; `Ff` is then taken from the changed state alone and the landed part is
/// subtracted. In deviated wells friction hides part of the movement. For several sizes see
/// `string_length_change`. A string that floats (`w <= 0`) and buckles is refused.
///
/// Source: lubinski1962 (four effects and slack-off); hammerlindl1977.
///
/// ```
/// use physics::tubular::length_change::LENGTH_CHANGE;
/// use quantity::Length;
/// let e = LENGTH_CHANGE.call()
///     .text("outer", "2.875 in").text("inner", "2.441 in").text("mass", "6.5 lb/ft")
///     .text("length", "10000 ft").text("packer_bore", "3.25 in").text("casing_inner", "6.094 in")
///     .text("landed_inside", "7.31 lb/gal").text("landed_outside", "7.31 lb/gal")
///     .text("changed_inside", "15 lb/gal").text("changed_outside", "7.31 lb/gal")
///     .text("inside_pressure", "5000 psi").text("outside_pressure", "1000 psi")
///     .text("temperature_change", "-20 degF").run()?;
/// assert!((e.get::<Length>("total")?.in_inch() + 165.19).abs() < 0.01);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn tubing_length_change(
    tubing: SealedTubing,
    steel: Steel,
    load: LengthChangeLoad,
) -> Result<LengthChange> {
    let (tubing, steel) = (tubing.checked(NAME)?, steel.checked(NAME)?);
    let (landed, changed) = (load.landed.checked(NAME)?, load.changed.checked(NAME)?);
    require_not_negative(NAME, "slack_off", load.slack_off)?;
    let SealedTubing { tube, length, .. } = tubing;
    let (before, mut after) = (landed.at(length), changed.at(length));
    after.inside -= load.flow_loss * length;
    let change = PackerPressures {
        inside: after.inside - before.inside,
        outside: after.outside - before.outside,
        end: LowerEnd::Open,
    };
    // dFa = (Ap - Ai) dPi - (Ap - Ao) dPo
    let force = piston_force(tube, tubing.packer_bore, change)?;
    // Ff = Ap (Pi - Po)
    let fictitious = (after.inside - after.outside) * tubing.packer_bore.circle();
    let landed_fictitious = (before.inside - before.outside) * tubing.packer_bore.circle();
    let weight = tubing.weight(changed)?;
    // dL2 = -r^2 Ff^2/(8 E I w), less what was there when landed
    let buckling = tubing.helix(steel, landed_fictitious, tubing.weight(landed)?)?
        - tubing.helix(steel, fictitious, weight)?;
    // slack-off, made in the landed fluids: F L/(E As) + r^2 F^2/(8 E I w)
    let slack_off = tubing.helix(steel, load.slack_off, tubing.weight(landed)?)?
        - free_length(tube, steel.modulus, length, load.slack_off);
    Ok(LengthChange {
        // dL1 = -L dFa/(E As)
        piston: free_length(tube, steel.modulus, length, force),
        buckling,
        ballooning: ballooning(tubing, steel, load),
        // dL4 = alpha L dT
        temperature: Length::m(steel.expansion.si() * length.si() * load.temperature.si()),
        slack_off,
        piston_force: force,
        // Fa = (Ap - Ai) Pi - (Ap - Ao) Po
        actual_force: fictitious - tube.end_force(after.inside, after.outside),
        fictitious_force: fictitious,
        weight,
        neutral_point: neutral_point(fictitious, weight, length),
        helix_stress: helix_stress(tubing, fictitious),
    })
}

/// `n = Ff/w`, held between zero and the length.
fn neutral_point(fictitious: Force, weight: ForcePerLength, length: Length) -> Length {
    let n = if fictitious.si() > 0.0 { fictitious.si() / weight.si() } else { 0.0 };
    Length::m(n.clamp(0.0, length.si()))
}

/// Bending stress of the helix at the outer wall, `D r Ff/(4 I)`.
fn helix_stress(tubing: SealedTubing, fictitious: Force) -> Pressure {
    let (d, r) = (tubing.tube.outer().si(), tubing.clearance().si());
    Pressure::pa(d * r * fictitious.si().max(0.0) / (4.0 * tubing.tube.inertia()))
}

fn ballooning(tubing: SealedTubing, steel: Steel, load: LengthChangeLoad) -> Length {
    let (nu, e, l) = (steel.poisson.si(), steel.modulus.si(), tubing.length.si());
    let r2 = (tubing.tube.outer() / tubing.tube.inner()).powi(2);
    let (a, b) = (load.landed, load.changed);
    let gradient = |x: Density, y: Density| (y - x).gradient().si();
    let drho_i = gradient(a.inside_density, b.inside_density);
    let drho_o = gradient(a.outside_density, b.outside_density);
    let dpis = (b.surface.inside - a.surface.inside).si();
    let dpos = (b.surface.outside - a.surface.outside).si();
    // delta (1 + 2 nu)/(2 nu), times nu: the drag of the flow and its loss of pressure
    let flow = load.flow_loss.si() * (1.0 + 2.0 * nu) / 2.0;
    // dL3 = -(nu/E) [drho_i - R^2 drho_o - delta (1 + 2 nu)/(2 nu)]/(R^2 - 1) L^2
    let with_depth = -(nu * (drho_i - r2 * drho_o) - flow) / e / (r2 - 1.0) * l * l;
    // - (2 nu/E) [dpis - R^2 dpos]/(R^2 - 1) L
    let surface = -2.0 * nu / e * (dpis - r2 * dpos) / (r2 - 1.0) * l;
    Length::m(with_depth + surface)
}

fn evaluate(a: &Arguments) -> Result<Outputs> {
    let tubing = SealedTubing {
        tube: Tube::bored(NAME, a.get("outer")?, a.get("inner")?)?,
        mass: a.get("mass")?,
        length: a.get("length")?,
        packer_bore: a.get("packer_bore")?,
        casing_inner: a.get("casing_inner")?,
    };
    let (landed, changed) = columns::landed_and_changed(a)?;
    let load = LengthChangeLoad {
        landed,
        changed,
        temperature: a.get("temperature_change")?,
        flow_loss: a.get("flow_loss")?,
        slack_off: a.get("slack_off")?,
    };
    let c = tubing_length_change(tubing, Steel::of(a)?, load)?;
    Ok(Outputs::new()
        .put("piston", c.piston)
        .put("buckling", c.buckling)
        .put("ballooning", c.ballooning)
        .put("temperature_part", c.temperature)
        .put("total", c.total())
        .put("slack_off_length", c.slack_off)
        .put("net", c.total() + c.slack_off)
        .put("piston_force", c.piston_force)
        .put("actual_force", c.actual_force)
        .put("fictitious_force", c.fictitious_force)
        .put("weight", c.weight)
        .put("neutral_point", c.neutral_point)
        .put("helix_stress", c.helix_stress))
}

/// Register entry of [`tubing_length_change`].
pub static LENGTH_CHANGE: Relation = Relation {
    name: NAME,
    title: "Length change of tubing sealed in a packer: piston, buckling, ballooning, temperature",
    equation: "dL1 = -L dFa/(E As); dL2 = -r^2 Ff^2/(8 E I w); dL3 = -(nu/E)[drho_i - R^2 drho_o - delta(1+2nu)/(2nu)]/(R^2-1) L^2 - (2nu/E)[dpis - R^2 dpos]/(R^2-1) L; dL4 = alpha L dT",
    source: "lubinski1962",
    range: "vertical well, one size, no friction, open lower end",
    inputs: &[
        Input::new::<Diameter>("outer", "tubing outer diameter"),
        Input::new::<Diameter>("inner", "tubing inner diameter"),
        Input::new::<MassPerLength>("mass", "tubing mass per length in air"),
        Input::new::<Length>("length", "length above the packer L"),
        Input::new::<Diameter>("packer_bore", "seal bore of the packer"),
        Input::new::<Diameter>("casing_inner", "inner diameter of the casing"),
        columns::INPUTS[0],
        columns::INPUTS[1],
        columns::INPUTS[2],
        columns::INPUTS[3],
        columns::INPUTS[4],
        columns::INPUTS[5],
        columns::INPUTS[6],
        columns::INPUTS[7],
        Input::new::<TemperatureDifference>("temperature_change", "mean temperature change dT").or("0 degF"),
        Input::new::<PressureGradient>("flow_loss", "loss per length of flow down the tubing delta")
            .or("0 psi/ft"),
        Input::new::<Force>("slack_off", "weight slacked off onto the packer F").or("0 lbf"),
        Steel::MODULUS,
        Steel::POISSON,
        Steel::EXPANSION,
    ],
    outputs: &[
        Output::new::<Length>("piston", "piston effect dL1"),
        Output::new::<Length>("buckling", "buckling dL2"),
        Output::new::<Length>("ballooning", "ballooning dL3"),
        Output::new::<Length>("temperature_part", "temperature dL4"),
        Output::new::<Length>("total", "sum of the four, shortening negative"),
        Output::new::<Length>("slack_off_length", "length slacked off, positive"),
        Output::new::<Length>("net", "total plus slack-off"),
        Output::new::<Force>("piston_force", "change of the actual force at the packer dFa"),
        Output::new::<Force>("actual_force", "actual force at the packer after the change Fa"),
        Output::new::<Force>("fictitious_force", "fictitious force Ff after the change"),
        Output::new::<ForcePerLength>("weight", "buoyed weight after the change w"),
        Output::new::<Length>("neutral_point", "neutral point above the packer, at most L"),
        Output::new::<Pressure>("helix_stress", "bending stress of the helix at the packer"),
    ],
    evaluate,
};
