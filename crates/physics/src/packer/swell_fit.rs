//! Diffusivity, volume ratio and activation energy of a rubber from the laboratory's rows.

use super::arrhenius::Clock;
use super::cylinder_uptake::CylinderUptake;
use super::least_squares::{Residual, least_squares};
use super::sheet_uptake;
use super::time_to_contact::Rubber;
use crate::error::{require, require_not_negative, require_positive};
use crate::heat::profile::same_length;
use crate::{Arguments, Error, Input, Output, Outputs, Relation, Result};
use quantity::constant::GAS_CONSTANT;
use quantity::{Diameter, Diffusivity, MolarEnergy, Quantity, Ratio, Temperature, Time};

/// The piece of rubber tested.
#[derive(Debug, Clone)]
pub enum Sample {
    /// Full-section element bonded to its pipe.
    Element(CylinderUptake, f64),
    /// Free sheet; its thickness if wet on one side, half of it if wet on both.
    Coupon(Diameter),
}

impl Sample {
    /// A bonded element.
    pub fn element(pipe: Diameter, outer: Diameter) -> Result<Self> {
        let series = CylinderUptake::new(pipe, outer)?;
        Ok(Self::Element(series, 0.5 * (outer - pipe).si()))
    }

    fn thickness(&self) -> f64 {
        match self {
            Self::Element(_, h) => *h,
            Self::Coupon(h) => h.si(),
        }
    }

    fn fraction(&self, x: f64) -> f64 {
        match self {
            Self::Element(series, _) => series.fraction(x),
            Self::Coupon(_) => sheet_uptake::fraction(x),
        }
    }

    /// The uptake at `x` and its derivative by ln x.
    fn fraction_and_slope(&self, x: f64) -> (f64, f64) {
        const STEP: f64 = 1e-5;
        let (low, high) = (self.fraction(x * (1.0 - STEP)), self.fraction(x * (1.0 + STEP)));
        (0.5 * (low + high), (high - low) / (2.0 * STEP))
    }
}

/// One reading of the laboratory.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Row {
    /// Time wet.
    pub time: Time,
    /// Temperature of the test.
    pub temperature: Temperature,
    /// Volume over dry volume.
    pub volume: f64,
}

/// What to do about the activation energy.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Activation {
    /// Fit it; rows at two temperatures at least.
    Fit,
    /// Taken from elsewhere.
    Given(MolarEnergy),
}

/// The fitted rubber.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SwellFit {
    /// Diffusivity and its dependence on temperature.
    pub rubber: Rubber,
    /// Volume of the full over that of the dry sample, J∞.
    pub volume_ratio: f64,
    /// Root mean square of the residuals, in volume over dry volume.
    pub rms: f64,
    /// Uptake of the row that went furthest: far below 1, diffusivity and volume ratio cannot
    /// be told apart.
    pub furthest: f64,
    /// Standard deviation of ln D.
    pub diffusivity_deviation: f64,
    /// Standard deviation of J∞.
    pub volume_deviation: f64,
    /// Standard deviation of the activation energy.
    pub activation_deviation: MolarEnergy,
}

/// E_a/R is fitted in thousands of kelvin, so that all parameters are of order one.
const KILO: f64 = 1e3;

/// Diffusivity, volume ratio and activation energy that fit the rows best, by least squares of
/// volume over dry volume.
///
/// Equation: `V/V0 = 1 + (J_∞ − 1) φ(D t/h²)`, `D = D_ref exp[−(E_a/R)(1/T − 1/T_ref)]`; least
/// `Σ (V_row − V)²`.
///
/// Symbols: V volume, J_∞ full over dry volume, φ uptake of the sample's geometry, h thickness
/// m, D diffusivity m²/s, E_a activation energy J/mol, T K.
///
/// Range: at least one row more than parameters; rows past half the final uptake, at two
/// temperatures to fit E_a.
///
/// Where it breaks: with early rows alone only `(J_∞ − 1)² D` is known; the deviations then grow
/// large or infinite. J_∞ taken as one value at all temperatures and salinities tested.
///
/// Source: marquardt1963 (least squares), crank1975 ch. 4, 5 (uptake).
///
/// ```
/// use physics::packer::swell_fit::{Activation, Row, Sample, swell_fit};
/// use quantity::{Diameter, MolarEnergy, Temperature, Time};
/// let h = Diameter::mm(5.0);
/// let at = Temperature::deg_c(80.0);
/// // V = 1 + 0.9 φ with D t/h² of 0.1, 0.5, 1 and 2
/// let rows = [(0.1, 0.356823), (0.5, 0.763950), (1.0, 0.931260), (2.0, 0.994170)]
///     .map(|(x, phi)| Row { time: Time::seconds(x * 2.5e5), temperature: at, volume: 1.0 + 0.9 * phi });
/// let fit = swell_fit(&Sample::Coupon(h), &rows, at, Activation::Given(MolarEnergy::ZERO))?;
/// assert!((fit.rubber.diffusivity.in_m2_per_s() / 1e-10 - 1.0).abs() < 1e-4);
/// assert!((fit.volume_ratio - 1.9).abs() < 1e-5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn swell_fit(
    sample: &Sample,
    rows: &[Row],
    reference: Temperature,
    activation: Activation,
) -> Result<SwellFit> {
    check(sample, rows, reference, activation)?;
    let wet: Vec<Point> =
        rows.iter().filter(|r| r.time.si() > 0.0).map(|r| point(r, sample, reference)).collect();
    let held = match activation {
        Activation::Fit => None,
        Activation::Given(e) => Some(e.si() / GAS_CONSTANT / KILO),
    };
    let start = first_guess(sample, &wet, held);
    let fit =
        least_squares(start, [true, true, held.is_none()], |p| misses(sample, &wet, p)).ok_or_else(no_fit)?;
    let [ln_d, ratio, e] = fit.parameters;
    let energy = |e: f64| MolarEnergy::j_per_mol(e * GAS_CONSTANT * KILO);
    let hint = "The rows say that it gets slower with temperature; check them.";
    require_not_negative(NAME, "activation energy", energy(e))
        .map_err(|_| no_sense("activation energy", hint))?;
    require(ratio > 1.0, NAME, "volume ratio", Ratio::of(ratio), "above 1", "The rows do not swell.")?;
    let uptake = |p: &Point| sample.fraction((ln_d - e * p.cold + p.ln_time).exp());
    let [diffusivity_deviation, volume_deviation, energy_deviation] = fit.deviations;
    Ok(SwellFit {
        rubber: Rubber {
            diffusivity: Diffusivity::m2_per_s(ln_d.exp()),
            clock: Clock::new(energy(e), reference)?,
        },
        volume_ratio: ratio,
        rms: fit.rms,
        furthest: wet.iter().map(uptake).fold(0.0, f64::max),
        diffusivity_deviation,
        volume_deviation,
        activation_deviation: energy(energy_deviation),
    })
}

/// What each row misses the model by, and its derivatives by ln D, J∞ and E_a/R.
fn misses(sample: &Sample, rows: &[Point], [ln_d, ratio, e]: [f64; 3]) -> Vec<Residual> {
    rows.iter()
        .map(|p| {
            // x = D_ref exp[−(E_a/R)(1/T − 1/T_ref)] t/h²
            let (phi, slope) = sample.fraction_and_slope((ln_d - e * p.cold + p.ln_time).exp());
            let model = 1.0 + (ratio - 1.0) * phi;
            let by_log = (ratio - 1.0) * slope;
            (model - p.volume, [by_log, phi, -by_log * p.cold])
        })
        .collect()
}

/// A row in the terms of the fit.
#[derive(Debug, Clone, Copy)]
struct Point {
    /// ln(t/h²).
    ln_time: f64,
    /// 1/T − 1/T_ref in 1/(1000 K).
    cold: f64,
    volume: f64,
}

fn point(row: &Row, sample: &Sample, reference: Temperature) -> Point {
    let h = sample.thickness();
    Point {
        ln_time: (row.time.si() / (h * h)).ln(),
        cold: KILO * (1.0 / row.temperature.si() - 1.0 / reference.si()),
        volume: row.volume,
    }
}

/// The best of a coarse search, the volume ratio solved for at each point of it.
fn first_guess(sample: &Sample, rows: &[Point], held: Option<f64>) -> [f64; 3] {
    let mean = rows.iter().map(|p| p.ln_time).sum::<f64>() / rows.len().max(1) as f64;
    let energies = held.map_or_else(|| vec![0.0, 2.0, 4.0, 6.0, 9.0], |e| vec![e]);
    let mut best = ([-mean, 1.5, held.unwrap_or(4.0)], f64::INFINITY);
    for e in energies {
        for i in -16..=8 {
            let ln_d = 0.5 * f64::from(i) - mean;
            let phi: Vec<f64> =
                rows.iter().map(|p| sample.fraction((ln_d - e * p.cold + p.ln_time).exp())).collect();
            let (mut top, mut bottom) = (0.0, f64::MIN_POSITIVE);
            rows.iter().zip(&phi).for_each(|(p, f)| {
                top += f * (p.volume - 1.0);
                bottom += f * f;
            });
            let swell = top / bottom;
            let miss: f64 = rows.iter().zip(&phi).map(|(p, f)| (p.volume - 1.0 - swell * f).powi(2)).sum();
            if miss < best.1 {
                best = ([ln_d, 1.0 + swell, e], miss);
            }
        }
    }
    best.0
}

fn check(sample: &Sample, rows: &[Row], reference: Temperature, activation: Activation) -> Result<()> {
    if let Sample::Coupon(h) = sample {
        require_positive(NAME, "thickness", *h)?;
    }
    require_positive(NAME, "reference_temperature", reference)?;
    for row in rows {
        require_not_negative(NAME, "times", row.time)?;
        require_positive(NAME, "temperatures", row.temperature)?;
        require_positive(NAME, "volume", Ratio::of(row.volume))?;
        require(row.volume < 1e3, NAME, "volume", Ratio::of(row.volume), "below 1000", "Check the rows.")?;
    }
    let wet = rows.iter().filter(|r| r.time.si() > 0.0);
    let needed = if activation == Activation::Fit { 4 } else { 3 };
    let count = Ratio::of(wet.clone().count() as f64);
    let hint = "Give more rows, or the activation energy from elsewhere.";
    require(
        count.si() >= f64::from(needed),
        NAME,
        "rows after time zero",
        count,
        format!("{needed} or more"),
        hint,
    )?;
    let (low, high) = wet.fold((f64::INFINITY, 0.0_f64), |(low, high), r| {
        (low.min(r.temperature.si()), high.max(r.temperature.si()))
    });
    let apart = quantity::TemperatureDifference::kelvin(high - low);
    let enough = activation != Activation::Fit || high - low >= 2.0;
    let hint = "One temperature tells no activation energy: test at two, or give it.";
    require(enough, NAME, "span of test temperatures", apart, "2 degC or more", hint)
}

fn no_fit() -> Error {
    no_sense("fit", "The rows do not determine the parameters; give rows from early to late uptake.")
}

fn no_sense(what: &str, hint: &'static str) -> Error {
    Error::NoSolution { relation: NAME, what: format!("no {what} with a meaning was found"), hint }
}

/// Rows, reference and activation energy of a call, volumes already in order.
fn evaluate(a: &Arguments, sample: &Sample, volumes: &[f64]) -> Result<Outputs> {
    let (times, temperatures): (Vec<Time>, Vec<Temperature>) = (a.list("times")?, a.list("temperatures")?);
    same_length(NAME, times.len(), volumes.len())?;
    same_length(NAME, times.len(), temperatures.len())?;
    let rows: Vec<Row> = times
        .iter()
        .zip(&temperatures)
        .zip(volumes)
        .map(|((time, temperature), volume)| Row { time: *time, temperature: *temperature, volume: *volume })
        .collect();
    let activation = match a.word("activation")? {
        "given" => Activation::Given(a.get("activation_energy")?),
        _ => Activation::Fit,
    };
    let fit = swell_fit(sample, &rows, a.get("reference_temperature")?, activation)?;
    Ok(Outputs::new()
        .put("diffusivity", fit.rubber.diffusivity)
        .put("volume_ratio", Ratio::of(fit.volume_ratio))
        .put("activation_energy", fit.rubber.clock.activation)
        .put("rms", Ratio::of(fit.rms))
        .put("furthest_uptake", Ratio::of(fit.furthest)))
}

const NAME: &str = "swell_fit";

/// Inputs shared by the two fits.
macro_rules! fit_inputs {
    ($($own:expr),* $(,)?) => {
        &[
            $($own,)*
            Input::list::<Time>("times", "times wet"),
            Input::list::<Temperature>("temperatures", "temperature of each row's test"),
            Input::new::<Temperature>("reference_temperature", "temperature of the diffusivity wanted"),
            Input::choice("activation", &["fit", "given"], "whether the activation energy is fitted").or("fit"),
            Input::new::<MolarEnergy>("activation_energy", "activation energy if given").or("0 kJ/mol"),
        ]
    };
}

/// Outputs of both fits.
const OUTPUTS: &[Output] = &[
    Output::new::<Diffusivity>("diffusivity", "diffusivity at the reference temperature"),
    Output::new::<Ratio>("volume_ratio", "volume of the full over that of the dry sample"),
    Output::new::<MolarEnergy>("activation_energy", "activation energy"),
    Output::new::<Ratio>("rms", "root mean square of the residuals, in volume over dry volume"),
    Output::new::<Ratio>("furthest_uptake", "uptake of the row that went furthest"),
];

const EQUATION: &str =
    "least Σ (V_row − V)²;  V/V0 = 1 + (J_∞ − 1) φ(D t/h²);  D = D_ref exp[−(E_a/R)(1/T − 1/T_ref)]";

/// `swell_fit_element` in the register.
pub static SWELL_FIT_ELEMENT: Relation = Relation {
    name: "swell_fit_element",
    title: "Diffusivity, volume ratio and activation energy from rows of a full-section element",
    equation: EQUATION,
    source: "marquardt1963; crank1975 ch. 5; cai2010",
    range: "rows past half the final uptake; two temperatures to fit the activation energy",
    inputs: fit_inputs![
        Input::new::<Diameter>("pipe", "outside diameter of the pipe under the element"),
        Input::new::<Diameter>("outer", "outside diameter of the dry element"),
        Input::list::<Diameter>("outers", "outside diameters of the rows"),
    ],
    outputs: OUTPUTS,
    evaluate: |a| {
        let (pipe, outer): (Diameter, Diameter) = (a.get("pipe")?, a.get("outer")?);
        let sample = Sample::element(pipe, outer)?;
        let outers: Vec<Diameter> = a.list("outers")?;
        // V/V0 = (b² − a²)/(b0² − a²)
        let volumes: Vec<f64> = outers.iter().map(|b| b.ring(pipe) / outer.ring(pipe)).collect();
        evaluate(a, &sample, &volumes)
    },
};

/// `swell_fit_coupon` in the register.
pub static SWELL_FIT_COUPON: Relation = Relation {
    name: "swell_fit_coupon",
    title: "Diffusivity, volume ratio and activation energy from rows of a free coupon",
    equation: EQUATION,
    source: "marquardt1963; crank1975 sec. 4.3",
    range: "rows past half the final uptake; two temperatures to fit the activation energy",
    inputs: fit_inputs![
        Input::new::<Diameter>("thickness", "thickness of a coupon wet on one side, half of one wet on both"),
        Input::list::<Ratio>("volumes", "volume over dry volume of the rows"),
    ],
    outputs: OUTPUTS,
    evaluate: |a| {
        let sample = Sample::Coupon(a.get("thickness")?);
        let volumes: Vec<f64> = a.list::<Ratio>("volumes")?.iter().map(|v| v.si()).collect();
        evaluate(a, &sample, &volumes)
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_the_rubber_that_made_the_rows() {
        let (pipe, outer) = (Diameter::inch(4.5), Diameter::inch(5.75));
        let sample = Sample::element(pipe, outer).unwrap();
        let reference = Temperature::deg_c(80.0);
        for (d, ratio, energy) in [(1e-10, 2.1354, 40.0), (4e-12, 1.4, 20.0), (3e-9, 3.0, 60.0)] {
            let clock = Clock::new(MolarEnergy::kj_per_mol(energy), reference).unwrap();
            let span = 0.0158_f64.powi(2) / d;
            let rows: Vec<Row> = [60.0, 80.0, 100.0]
                .iter()
                .flat_map(|c| [0.0, 0.02, 0.1, 0.3, 0.8].map(|x| (Temperature::deg_c(*c), x * span)))
                .map(|(temperature, t)| {
                    let d = d * clock.rate(temperature).unwrap();
                    let phi = sample.fraction(d * t / sample.thickness().powi(2));
                    Row { time: Time::seconds(t), temperature, volume: 1.0 + (ratio - 1.0) * phi }
                })
                .collect();
            let fit = swell_fit(&sample, &rows, reference, Activation::Fit).unwrap();
            assert!((fit.rubber.diffusivity.si() / d - 1.0).abs() < 1e-5, "{fit:?}");
            assert!((fit.volume_ratio - ratio).abs() < 1e-5, "{fit:?}");
            assert!((fit.rubber.clock.activation.in_kj_per_mol() / energy - 1.0).abs() < 1e-5, "{fit:?}");
            assert!(fit.rms < 1e-7 && fit.diffusivity_deviation < 1e-4);
        }
    }

    #[test]
    fn early_rows_alone_say_little() {
        let reference = Temperature::deg_c(80.0);
        let sample = Sample::Coupon(Diameter::mm(5.0));
        let row = |x: f64, noise: f64| Row {
            time: Time::seconds(x * 2.5e5),
            temperature: reference,
            volume: 1.0 + 0.9 * sheet_uptake::fraction(x) + noise,
        };
        let rows = [row(0.01, 1e-3), row(0.02, -1e-3), row(0.04, 1e-3), row(0.06, -1e-3), row(0.08, 1e-3)];
        let given = Activation::Given(MolarEnergy::ZERO);
        match swell_fit(&sample, &rows, reference, given) {
            Ok(fit) => assert!(fit.volume_deviation > 0.5 * (fit.volume_ratio - 1.0), "{fit:?}"),
            Err(e) => assert!(matches!(e, Error::NoSolution { .. } | Error::Domain { .. })),
        }
        assert!(swell_fit(&sample, &rows, reference, Activation::Fit).is_err());
        assert!(swell_fit(&sample, &rows[..2], reference, given).is_err());
    }
}
