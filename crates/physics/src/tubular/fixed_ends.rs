//! Force changes in pipe held at both ends: temperature, ballooning, and the span between two
//! set packers with a ball on a seat.

use super::effective_tension::Pressures;
use super::steel::Steel;
use super::tube::Tube;
use crate::error::{require, require_not_negative};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, Force, Pressure, Quantity, Ratio, TemperatureDifference};

const THERMAL: &str = "thermal_force";
const BALLOONING: &str = "ballooning_force";
const SPAN: &str = "anchored_span_force";

/// Force change of temperature in pipe held at both ends, tension positive.
///
/// Equation: `dF = -E As alpha dT`
///
/// - `dF` change of the axial force, tension positive, N
/// - `E` Young's modulus, Pa; `As` steel area, m2
/// - `alpha` thermal expansion, 1/K; `dT` mean temperature change of the pipe, K
///
/// Range: elastic.
///
/// Where it breaks: a grip that slips, a string that buckles or a hole that gives takes part
/// of the force; then this is the most there can be.
///
/// Source: lubinski1962 (temperature effect, length held).
///
/// ```
/// use physics::tubular::{fixed_ends::thermal_force, steel::Steel, tube::Tube};
/// use quantity::{Diameter, TemperatureDifference};
/// let tube = Tube::bored("example", Diameter::inch(4.5), Diameter::inch(4.0))?;
/// let cooled = thermal_force(tube, Steel::default(), TemperatureDifference::deg_f(-100.0))?;
/// // 30e6 psi x 3.338 in2 x 6.9e-6 x 100
/// assert!((cooled.in_lbf() - 69_095.0).abs() < 10.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn thermal_force(tube: Tube, steel: Steel, change: TemperatureDifference) -> Result<Force> {
    let steel = steel.checked(THERMAL)?;
    // dF = -E As alpha dT
    Ok(Force::n(-tube.stiffness(steel.modulus) * steel.expansion.si() * change.si()))
}

/// Force change of ballooning in pipe held at both ends, tension positive.
///
/// Equation: `dF = 2 nu (dPi Ai - dPo Ao)`
///
/// - `dF` change of the axial force, tension positive, N
/// - `nu` Poisson's ratio
/// - `dPi, dPo` change of the mean pressure inside and outside, Pa
/// - `Ai, Ao` area of the bore and of the outer circle, m2
///
/// Range: elastic; thin or thick wall (it follows from Lame's sum of radial and hoop stress).
///
/// Where it breaks: take the mean pressure change over the length, not that at the surface.
/// Pressure on the ends is not in it.
///
/// Source: lubinski1962 (ballooning effect, length held).
///
/// ```
/// use physics::tubular::{effective_tension::Pressures, fixed_ends::ballooning_force, tube::Tube};
/// use quantity::{Diameter, Pressure, Ratio};
/// let tube = Tube::bored("example", Diameter::inch(4.5), Diameter::inch(4.0))?;
/// let change = Pressures { inside: Pressure::psi(5_000.0), outside: Pressure::ZERO };
/// let force = ballooning_force(tube, Ratio::of(0.3), change)?;
/// // 0.6 x 5 000 psi x 12.566 in2
/// assert!((force.in_lbf() - 37_699.0).abs() < 1.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn ballooning_force(tube: Tube, poisson: Ratio, change: Pressures) -> Result<Force> {
    let steel = Steel { poisson, ..Steel::default() }.checked(BALLOONING)?;
    // dF = 2 nu (dPi Ai - dPo Ao)
    Ok(tube.end_force(change.inside, change.outside) * (2.0 * steel.poisson.si()))
}

/// What takes the load of a ball on its seat.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum SeatLoadPath {
    /// The anchored packer on the heel side takes it all; the packer below may slide.
    #[default]
    HeelSide,
    /// Both packers hold; the load splits by the stiffness of pipe on each side of the seat.
    BothSides,
}

impl SeatLoadPath {
    /// All words, in the order of the register's choice.
    pub const WORDS: &'static [&'static str] = &["heel-side", "both-sides"];

    /// The path of that word.
    pub fn of(word: &str) -> Self {
        if word == "both-sides" { Self::BothSides } else { Self::HeelSide }
    }
}

/// Loads on the span between two set packers, as changes since they were set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpanLoad {
    /// Change of the mean pressures.
    pub pressures: Pressures,
    /// Mean temperature change of the pipe.
    pub temperature: TemperatureDifference,
    /// Pressure difference over the ball on its seat, above minus below.
    pub seat_difference: Pressure,
    /// Diameter on which the ball seals.
    pub seat_bore: Diameter,
    /// Place of the seat: its distance from the heel-side packer over the span.
    pub seat_place: Ratio,
    /// What takes the seat load.
    pub path: SeatLoadPath,
}

/// Force changes in the span, tension positive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpanForce {
    /// Change from ballooning.
    pub ballooning: Force,
    /// Change from temperature.
    pub thermal: Force,
    /// Load of the ball on its seat, toward the toe.
    pub seat_load: Force,
    /// Tension change between the heel-side packer and the seat.
    pub heel_side: Force,
    /// Tension change between the seat and the toe-side packer.
    pub toe_side: Force,
}

/// Force change in the span between two set packers: ballooning, temperature, and a ball on
/// its seat.
///
/// Equation: `dF = 2 nu (dPi Ai - dPo Ao) - E As alpha dT`; seat load `Fs = dPs pi/4 ds^2`;
/// heel side `dF + s Fs`, toe side `dF - (1 - s) Fs`, with `s = 1` (heel side takes all) or
/// `s = 1 - x` (split by stiffness)
///
/// - `dF` change of the axial force with both ends held, tension positive, N
/// - `dPi, dPo` change of the mean pressure inside and outside since the packers were set, Pa
/// - `dT` mean temperature change of the pipe since then, K
/// - `dPs` pressure above the ball minus below, Pa; `ds` sealing diameter, m
/// - `x` distance of the seat from the heel-side packer over the length of the span
///
/// Range: elastic, no slip at the anchored packers, no buckling.
///
/// Where it breaks: packers that swell or are set against rock grip over their length and may
/// slip; then the force is less there and more at the next anchor toward the heel. Changes of
/// bore within the span add piston loads of their own. Compare the forces with the ratings of
/// packers and connections, and put them into `triaxial`.
///
/// Source: lubinski1962 (effects with the length held); statics of a bar held at both ends.
///
/// ```
/// use physics::tubular::effective_tension::Pressures;
/// use physics::tubular::fixed_ends::{SeatLoadPath, SpanLoad, anchored_span_force};
/// use physics::tubular::{steel::Steel, tube::Tube};
/// use quantity::{Diameter, Pressure, Ratio, TemperatureDifference};
/// let tube = Tube::bored("example", Diameter::inch(4.5), Diameter::inch(4.0))?;
/// let load = SpanLoad {
///     pressures: Pressures { inside: Pressure::psi(5_000.0), outside: Pressure::ZERO },
///     temperature: TemperatureDifference::deg_f(-100.0),
///     seat_difference: Pressure::psi(4_000.0),
///     seat_bore: Diameter::inch(2.0),
///     seat_place: Ratio::of(0.5),
///     path: SeatLoadPath::HeelSide,
/// };
/// let span = anchored_span_force(tube, Steel::default(), load)?;
/// // 37 699 + 69 095 + 12 566
/// assert!((span.heel_side.in_lbf() - 119_360.0).abs() < 20.0);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn anchored_span_force(tube: Tube, steel: Steel, load: SpanLoad) -> Result<SpanForce> {
    let steel = steel.checked(SPAN)?;
    require_not_negative(SPAN, "seat_bore", load.seat_bore)?;
    let x = load.seat_place.si();
    let hint = "It is the distance from the heel-side packer over the span.";
    require((0.0..=1.0).contains(&x), SPAN, "seat_place", load.seat_place, "from 0 to 1", hint)?;
    let ballooning = ballooning_force(tube, steel.poisson, load.pressures)?;
    let thermal = thermal_force(tube, steel, load.temperature)?;
    // Fs = dPs pi/4 ds^2
    let seat_load = load.seat_difference * load.seat_bore.circle();
    let share = match load.path {
        SeatLoadPath::HeelSide => 1.0,
        // a bar held at both ends: the part above a point load takes (1 - x) of it
        SeatLoadPath::BothSides => 1.0 - x,
    };
    let held = ballooning + thermal;
    let (heel_side, toe_side) = (held + seat_load * share, held - seat_load * (1.0 - share));
    Ok(SpanForce { ballooning, thermal, seat_load, heel_side, toe_side })
}

/// Register entry of [`thermal_force`].
pub static THERMAL_FORCE: Relation = Relation {
    name: THERMAL,
    title: "Force change of temperature with both ends held (tension positive)",
    equation: "dF = -E As alpha dT",
    source: "lubinski1962",
    range: "elastic",
    inputs: &[
        Input::new::<Diameter>("outer", "outer diameter"),
        Input::new::<Diameter>("inner", "inner diameter"),
        Input::new::<TemperatureDifference>("temperature_change", "mean temperature change dT"),
        Steel::MODULUS,
        Steel::EXPANSION,
    ],
    outputs: &[Output::new::<Force>("force", "force change dF")],
    evaluate: |a| {
        let tube = Tube::bored(THERMAL, a.get("outer")?, a.get("inner")?)?;
        let steel = Steel { modulus: a.get("modulus")?, expansion: a.get("expansion")?, ..Steel::default() };
        let force = thermal_force(tube, steel, a.get("temperature_change")?)?;
        Ok(Outputs::new().put("force", force))
    },
};

/// Register entry of [`ballooning_force`].
pub static BALLOONING_FORCE: Relation = Relation {
    name: BALLOONING,
    title: "Force change of ballooning with both ends held (tension positive)",
    equation: "dF = 2 nu (dPi Ai - dPo Ao)",
    source: "lubinski1962",
    range: "elastic",
    inputs: &[
        Input::new::<Diameter>("outer", "outer diameter"),
        Input::new::<Diameter>("inner", "inner diameter"),
        Input::new::<Pressure>("inside_change", "change of the mean pressure inside dPi"),
        Input::new::<Pressure>("outside_change", "change of the mean pressure outside dPo").or("0 psi"),
        Steel::POISSON,
    ],
    outputs: &[Output::new::<Force>("force", "force change dF")],
    evaluate: |a| {
        let tube = Tube::bored(BALLOONING, a.get("outer")?, a.get("inner")?)?;
        let change = Pressures { inside: a.get("inside_change")?, outside: a.get("outside_change")? };
        Ok(Outputs::new().put("force", ballooning_force(tube, a.get("poisson")?, change)?))
    },
};

/// Register entry of [`anchored_span_force`].
pub static ANCHORED_SPAN_FORCE: Relation = Relation {
    name: SPAN,
    title: "Force change between two set packers, with a ball on its seat (tension positive)",
    equation: "dF = 2 nu (dPi Ai - dPo Ao) - E As alpha dT; heel side dF + s Fs, toe side dF - (1 - s) Fs, Fs = dPs pi/4 ds^2",
    source: "lubinski1962; statics",
    range: "elastic, anchored ends, no buckling",
    inputs: &[
        Input::new::<Diameter>("outer", "outer diameter"),
        Input::new::<Diameter>("inner", "inner diameter"),
        Input::new::<Pressure>("inside_change", "change of the mean pressure inside dPi"),
        Input::new::<Pressure>("outside_change", "change of the mean pressure outside dPo").or("0 psi"),
        Input::new::<TemperatureDifference>("temperature_change", "mean temperature change dT").or("0 degF"),
        Input::new::<Pressure>("seat_difference", "pressure above the ball minus below dPs").or("0 psi"),
        Input::new::<Diameter>("seat_bore", "diameter on which the ball seals ds").or("0 in"),
        Input::new::<Ratio>("seat_place", "distance of the seat from the heel-side packer over the span x")
            .or("1"),
        Input::choice("seat_path", SeatLoadPath::WORDS, "what takes the seat load").or("heel-side"),
        Steel::MODULUS,
        Steel::POISSON,
        Steel::EXPANSION,
    ],
    outputs: &[
        Output::new::<Force>("ballooning", "change from ballooning"),
        Output::new::<Force>("thermal", "change from temperature"),
        Output::new::<Force>("seat_load", "load of the ball on its seat, toward the toe"),
        Output::new::<Force>("heel_side", "tension change between heel-side packer and seat"),
        Output::new::<Force>("toe_side", "tension change between seat and toe-side packer"),
    ],
    evaluate: |a| {
        let tube = Tube::bored(SPAN, a.get("outer")?, a.get("inner")?)?;
        let load = SpanLoad {
            pressures: Pressures { inside: a.get("inside_change")?, outside: a.get("outside_change")? },
            temperature: a.get("temperature_change")?,
            seat_difference: a.get("seat_difference")?,
            seat_bore: a.get("seat_bore")?,
            seat_place: a.get("seat_place")?,
            path: SeatLoadPath::of(a.word("seat_path")?),
        };
        let span = anchored_span_force(tube, Steel::of(a)?, load)?;
        Ok(Outputs::new()
            .put("ballooning", span.ballooning)
            .put("thermal", span.thermal)
            .put("seat_load", span.seat_load)
            .put("heel_side", span.heel_side)
            .put("toe_side", span.toe_side))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_split_seat_load_leaves_the_span_its_length() {
        let tube = Tube::bored("test", Diameter::inch(4.5), Diameter::inch(4.0)).unwrap();
        for x in [0.0, 0.25, 0.5, 1.0] {
            let load = SpanLoad {
                pressures: Pressures::default(),
                temperature: TemperatureDifference::ZERO,
                seat_difference: Pressure::psi(3_000.0),
                seat_bore: Diameter::inch(2.5),
                seat_place: Ratio::of(x),
                path: SeatLoadPath::BothSides,
            };
            let span = anchored_span_force(tube, Steel::default(), load).unwrap();
            let stretch = span.heel_side.si() * x + span.toe_side.si() * (1.0 - x);
            assert!(stretch.abs() < 1e-9 * span.seat_load.si());
            assert!((span.heel_side - span.toe_side - span.seat_load).si().abs() < 1e-6);
        }
    }
}
