//! Length change of a string of several sizes sealed in a packer, segment by segment.

use super::buoyed_weight::buoyed_weight;
use super::columns::{self, Columns};
use super::effective_tension::Pressures;
use super::elongation::{Elongation, Segment, SegmentEnd, segment_elongation};
use super::steel::Steel;
use super::tube::Tube;
use crate::error::{require, require_positive};
use crate::{Arguments, Error, Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, Force, Length, MassPerLength, PressureGradient, Quantity, TemperatureDifference};

const NAME: &str = "string_length_change";

/// One size of a string, from the surface down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StringSection {
    /// The tube.
    pub tube: Tube,
    /// Length.
    pub length: Length,
    /// Mass per length in air.
    pub mass: MassPerLength,
}

/// A string in a vertical well, sealed in a packer in which it can slide.
#[derive(Debug, Clone, PartialEq)]
pub struct SealedString {
    /// Sections from the surface down.
    pub sections: Vec<StringSection>,
    /// Seal bore of the packer.
    pub packer_bore: Diameter,
    /// Inner diameter of the casing.
    pub casing_inner: Diameter,
}

/// Fluids, pressures, temperature and packer force of one moment.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct StringState {
    /// Fluids and surface pressures.
    pub columns: Columns,
    /// Friction loss per length of flow down the string.
    pub flow_loss: PressureGradient,
    /// Mean temperature against the reference.
    pub temperature: TemperatureDifference,
    /// Force of the packer on the string, compression positive; zero when free.
    pub packer_force: Force,
}

impl StringState {
    fn pressures(self, depth: Length) -> Pressures {
        let still = self.columns.at(depth);
        Pressures { inside: still.inside - self.flow_loss * depth, outside: still.outside }
    }
}

/// Stretch of the string in one state, against its unloaded length.
///
/// Equation: `dL = sum of segment stretches`, `Te = -Ap (Pi - Po) - Fp` at the packer and
/// rising upward by the buoyed weight; `Te` is continuous where the size changes
///
/// - symbols and strain as in `segment_elongation`; `Ap` seal bore area, m2
/// - `Fp` force of the packer on the string, compression positive, N
///
/// Range: vertical well, no friction, open lower end.
///
/// Where it breaks: as `segment_elongation`.
///
/// Source: hammerlindl1977; lubinski1962.
///
/// ```
/// use physics::tubular::string_length_change::{
///     SealedString, StringSection, StringState, string_elongation,
/// };
/// use physics::tubular::{steel::Steel, tube::Tube};
/// use quantity::{Diameter, Length, MassPerLength};
/// let section = StringSection {
///     tube: Tube::bored("example", Diameter::inch(4.5), Diameter::inch(4.0))?,
///     length: Length::ft(1_000.0),
///     mass: MassPerLength::lb_per_ft(11.6),
/// };
/// let string = SealedString {
///     sections: vec![section],
///     packer_bore: Diameter::inch(4.5),
///     casing_inner: Diameter::inch(6.276),
/// };
/// // own weight: w L^2 / (2 E As)
/// let stretch = string_elongation(&string, Steel::default(), StringState::default())?;
/// assert!((stretch.total().in_inch() - 0.695).abs() < 0.001);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn string_elongation(string: &SealedString, steel: Steel, state: StringState) -> Result<Elongation> {
    require_positive(NAME, "packer_bore", string.packer_bore)?;
    if string.sections.is_empty() {
        return Err(Error::NoSolution {
            relation: NAME,
            what: "the string has no section".into(),
            hint: "Give at least one section.",
        });
    }
    let mut depth: Length = string.sections.iter().map(|s| s.length).sum();
    let at_packer = state.pressures(depth);
    // Te = -Ap (Pi - Po) - Fp
    let seal = (at_packer.inside - at_packer.outside) * string.packer_bore.circle();
    let mut tension = -seal - state.packer_force;
    let mut sum = Elongation::default();
    for section in string.sections.iter().rev() {
        let StringSection { tube, length, mass } = *section;
        require_positive(NAME, "lengths", length)?;
        let clearance = (string.casing_inner - tube.outer()) / 2.0;
        let hint = "The casing must take the string.";
        let limit = "at least the outer diameter of every section";
        require(clearance.si() >= 0.0, NAME, "casing_inner", string.casing_inner, limit, hint)?;
        let weight = buoyed_weight(tube, mass, state.columns.inside_density, state.columns.outside_density)?;
        let bottom = SegmentEnd { effective_tension: tension, pressures: state.pressures(depth) };
        // Te rises by the buoyed weight
        tension += Force::n(weight.si() * length.si());
        depth -= length;
        let top = SegmentEnd { effective_tension: tension, pressures: state.pressures(depth) };
        let segment = Segment { tube, length, clearance, top, bottom, temperature: state.temperature };
        sum = sum + segment_elongation(segment, steel)?;
    }
    Ok(sum)
}

/// Length change of a string between two states: stretch after less stretch before.
///
/// Equation: `change = dL(after) - dL(before)`, each from `string_elongation`
///
/// - `dL` stretch against the unloaded length, m; shortening is negative
///
/// Range: as `string_elongation`; on one size, free and with an open end, it equals
/// `tubing_length_change`.
///
/// Where it breaks: as `string_elongation`.
///
/// Source: hammerlindl1977; lubinski1962.
///
/// ```
/// use physics::tubular::string_length_change::STRING_LENGTH_CHANGE;
/// use quantity::Length;
/// let e = STRING_LENGTH_CHANGE.call()
///     .text("outers", "3.5 in, 2.875 in").text("inners", "2.992 in, 2.441 in")
///     .text("lengths", "6000 ft, 4000 ft").text("masses", "9.3 lb/ft, 6.5 lb/ft")
///     .text("packer_bore", "3.25 in").text("casing_inner", "6.094 in")
///     .text("landed_inside", "7.31 lb/gal").text("landed_outside", "7.31 lb/gal")
///     .text("changed_inside", "15 lb/gal").text("changed_outside", "7.31 lb/gal")
///     .text("inside_pressure", "5000 psi").text("outside_pressure", "1000 psi")
///     .text("temperature_change", "-20 degF").run()?;
/// assert!((e.get::<Length>("total")?.in_inch() + 130.27).abs() < 0.01);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn string_length_change(
    string: &SealedString,
    steel: Steel,
    before: StringState,
    after: StringState,
) -> Result<Elongation> {
    // change = dL(after) - dL(before)
    Ok(string_elongation(string, steel, after)? - string_elongation(string, steel, before)?)
}

fn sections(a: &Arguments) -> Result<Vec<StringSection>> {
    let (outers, inners) = (a.list::<Diameter>("outers")?, a.list::<Diameter>("inners")?);
    let (lengths, masses) = (a.list::<Length>("lengths")?, a.list::<MassPerLength>("masses")?);
    let counts = [inners.len(), lengths.len(), masses.len()];
    if counts.iter().any(|n| *n != outers.len()) {
        return Err(Error::NoSolution {
            relation: NAME,
            what: "the lists of the sections differ in length".into(),
            hint: "Give one outer and inner diameter, length and mass for each section.",
        });
    }
    let sizes = outers.into_iter().zip(inners).zip(lengths.into_iter().zip(masses));
    sizes
        .map(|((outer, inner), (length, mass))| {
            Ok(StringSection { tube: Tube::bored(NAME, outer, inner)?, length, mass })
        })
        .collect()
}

fn evaluate(a: &Arguments) -> Result<Outputs> {
    let string = SealedString {
        sections: sections(a)?,
        packer_bore: a.get("packer_bore")?,
        casing_inner: a.get("casing_inner")?,
    };
    let (landed, changed) = columns::landed_and_changed(a)?;
    let before = StringState { columns: landed, ..StringState::default() };
    let after = StringState {
        columns: changed,
        flow_loss: a.get("flow_loss")?,
        temperature: a.get("temperature_change")?,
        packer_force: a.get("packer_force")?,
    };
    let change = string_length_change(&string, Steel::of(a)?, before, after)?;
    Ok(Outputs::new()
        .put("axial", change.axial)
        .put("buckling", change.buckling)
        .put("ballooning", change.ballooning)
        .put("temperature_part", change.temperature)
        .put("total", change.total()))
}

/// Register entry of [`string_length_change`].
pub static STRING_LENGTH_CHANGE: Relation = Relation {
    name: NAME,
    title: "Length change of a string of several sizes sealed in a packer",
    equation: "change = dL(after) - dL(before); dL = sum of segment stretches; Te = -Ap (Pi - Po) - Fp at the packer",
    source: "hammerlindl1977; lubinski1962",
    range: "vertical well, no friction, open lower end",
    inputs: &[
        Input::list::<Diameter>("outers", "outer diameter of each section, from the surface down"),
        Input::list::<Diameter>("inners", "inner diameter of each section"),
        Input::list::<Length>("lengths", "length of each section"),
        Input::list::<MassPerLength>("masses", "mass per length in air of each section"),
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
        Input::new::<PressureGradient>("flow_loss", "loss per length of flow down the string").or("0 psi/ft"),
        Input::new::<Force>("packer_force", "force of the packer on the string Fp, compression positive")
            .or("0 lbf"),
        Steel::MODULUS,
        Steel::POISSON,
        Steel::EXPANSION,
    ],
    outputs: &[
        Output::new::<Length>("axial", "change from true tension"),
        Output::new::<Length>("buckling", "change from buckling"),
        Output::new::<Length>("ballooning", "change from ballooning"),
        Output::new::<Length>("temperature_part", "change from temperature"),
        Output::new::<Length>("total", "sum, shortening negative"),
    ],
    evaluate,
};

#[cfg(test)]
mod tests {
    use super::super::length_change::{LengthChangeLoad, SealedTubing, tubing_length_change};
    use super::super::packer_restraint::{HeldTubing, packer_restraint};
    use super::*;
    use proptest::prelude::*;
    use quantity::{Density, Pressure};

    fn columns(i: f64, o: f64, pi: f64, po: f64) -> Columns {
        Columns {
            inside_density: Density::lb_per_gal(i),
            outside_density: Density::lb_per_gal(o),
            surface: Pressures { inside: Pressure::psi(pi), outside: Pressure::psi(po) },
        }
    }

    fn split(parts: &[f64]) -> SealedString {
        let section = |part: &f64| StringSection {
            tube: Tube::bored("test", Diameter::inch(2.875), Diameter::inch(2.441)).unwrap(),
            length: Length::ft(10_000.0 * part),
            mass: MassPerLength::lb_per_ft(6.5),
        };
        SealedString {
            sections: parts.iter().map(section).collect(),
            packer_bore: Diameter::inch(3.25),
            casing_inner: Diameter::inch(6.094),
        }
    }

    proptest! {
        #[test]
        fn the_integral_equals_the_four_closed_forms(
            i0 in 7.0f64..12.0, i1 in 7.0f64..16.0, o1 in 7.0f64..10.0,
            pi in 0.0f64..8_000.0, po in 0.0f64..2_000.0, dt in -60.0f64..60.0, loss in 0.0f64..0.1,
        ) {
            let string = split(&[1.0]);
            let section = string.sections[0];
            let tubing = SealedTubing {
                tube: section.tube, mass: section.mass, length: section.length,
                packer_bore: string.packer_bore, casing_inner: string.casing_inner,
            };
            let load = LengthChangeLoad {
                landed: columns(i0, i0, 0.0, 0.0),
                changed: columns(i1, o1, pi, po),
                temperature: TemperatureDifference::deg_f(dt),
                flow_loss: PressureGradient::psi_per_ft(loss),
                slack_off: Force::ZERO,
            };
            let closed = tubing_length_change(tubing, Steel::default(), load).unwrap();
            let before = StringState { columns: load.landed, ..Default::default() };
            let after = StringState {
                columns: load.changed, flow_loss: load.flow_loss, temperature: load.temperature,
                packer_force: Force::ZERO,
            };
            let sum = string_length_change(&string, Steel::default(), before, after).unwrap();
            prop_assert!((closed.total() - sum.total()).in_inch().abs() < 1e-6);
            prop_assert!((closed.buckling - sum.buckling).in_inch().abs() < 1e-6);
        }

        #[test]
        fn cutting_a_string_in_pieces_changes_nothing(cut in 0.01f64..0.99) {
            let state = StringState { columns: columns(15.0, 7.31, 5_000.0, 1_000.0), ..Default::default() };
            let whole = string_elongation(&split(&[1.0]), Steel::default(), state).unwrap();
            let cut = string_elongation(&split(&[cut, 1.0 - cut]), Steel::default(), state).unwrap();
            prop_assert!((whole.total() - cut.total()).in_inch().abs() < 1e-6);
        }

        #[test]
        fn the_packer_force_holds_the_tubing_in_place(
            i1 in 7.31f64..16.0, pi in 0.0f64..8_000.0, dt in -60.0f64..60.0,
        ) {
            let string = split(&[1.0]);
            let section = string.sections[0];
            let landed = columns(7.31, 7.31, 0.0, 0.0);
            let before = StringState { columns: landed, ..Default::default() };
            let free = StringState {
                columns: columns(i1, 7.31, pi, 0.0),
                temperature: TemperatureDifference::deg_f(dt), ..Default::default()
            };
            let steel = Steel::default();
            let change = string_length_change(&string, steel, before, free).unwrap().total();
            let at = free.pressures(section.length);
            let held = HeldTubing {
                tube: section.tube, length: section.length,
                clearance: (string.casing_inner - section.tube.outer()) / 2.0,
                weight: buoyed_weight(
                    section.tube, section.mass, free.columns.inside_density, free.columns.outside_density,
                ).unwrap(),
                modulus: steel.modulus,
            };
            let fictitious = (at.inside - at.outside) * string.packer_bore.circle();
            let forces = packer_restraint(held, fictitious, change).unwrap();
            let fixed = StringState { packer_force: forces.packer, ..free };
            let left = string_length_change(&string, steel, before, fixed).unwrap().total();
            prop_assert!(left.in_inch().abs() < 1e-4, "{left:?}");
        }
    }
}
