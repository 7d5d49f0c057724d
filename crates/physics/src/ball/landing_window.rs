//! The volume at which a landing is looked for, its spread, and the factor learnt from landings.

use super::count::paired;
use crate::error::{Result, require, require_not_negative, require_positive};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Capacity, Length, Quantity, Ratio, Volume};

const SPREAD: &str = "landing_volume_spread";
const WINDOW: &str = "landing_window";
const FACTOR: &str = "landing_factor";

/// Standard normal deviate of the 90th percentile.
const Z90: f64 = 1.281_551_565_544_600_4;

/// One standard deviation of everything a landing volume hangs on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Doubt {
    /// Volume meter, over the reading.
    pub meter: f64,
    /// Bore of a section, over the bore; independent from section to section.
    pub bore: f64,
    /// Depth of the seat.
    pub depth: Length,
    /// Carrying of the ball, over the volume.
    pub carrying: f64,
}

/// A landing volume with its spread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LandingVolume {
    /// Exceeded by nine of ten.
    pub p10: Volume,
    /// The middle.
    pub p50: Volume,
    /// Exceeded by one of ten.
    pub p90: Volume,
    /// One standard deviation.
    pub sigma: Volume,
}

/// Spread of the volume at which a ball lands, errors summed by squares (P10 is the low value).
///
/// ```text
/// V = r sum V_i,   sigma^2 = (V s_meter)^2 + sum (2 r V_i s_bore)^2 + (r C s_depth)^2 + (V s_carry)^2
/// P10, P90 = V -/+ 1.2816 sigma
/// ```
///
/// - `V_i` volume of section `i` of the string, m3; `r` pumped over swept volume; `C` capacity at the
///   seat, m3/m; `s` standard deviations
///
/// Range: none stated by the source; small, independent, normal errors.
///
/// Where it breaks: a meter that is off on one landing is off on the next (fit [`landing_factor`]); a
/// whole string of light-wall pipe is not an independent error; a ball launched late is none of these.
///
/// Source: jcgm_100_2008 eq. 10, law of propagation of uncertainty.
///
/// ```
/// use physics::ball::landing_window::{Doubt, landing_volume_spread};
/// use quantity::*;
/// let doubt = Doubt { meter: 0.01, bore: 0.0025, depth: Length::ft(10.0), carrying: 0.0 };
/// let sections = [Volume::bbl(141.8), Volume::bbl(156.8)];
/// let v = landing_volume_spread(&sections, 1.0, Capacity::bbl_per_ft(0.01493), doubt)?;
/// assert!((v.sigma.in_bbl() - 3.2).abs() < 0.05);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn landing_volume_spread(
    sections: &[Volume],
    ratio: f64,
    capacity: Capacity,
    doubt: Doubt,
) -> Result<LandingVolume> {
    require_positive(SPREAD, "ratio", Ratio::of(ratio))?;
    require_not_negative(SPREAD, "capacity", capacity)?;
    require_not_negative(SPREAD, "meter", Ratio::of(doubt.meter))?;
    require_not_negative(SPREAD, "bore", Ratio::of(doubt.bore))?;
    require_not_negative(SPREAD, "depth", doubt.depth)?;
    require_not_negative(SPREAD, "carrying", Ratio::of(doubt.carrying))?;
    let (mut total, mut square) = (0.0, 0.0);
    for v in sections {
        require_not_negative(SPREAD, "volumes", *v)?;
        total += ratio * v.si();
        // (2 r V_i s_bore)^2
        square += (2.0 * ratio * v.si() * doubt.bore).powi(2);
    }
    // sigma^2 = (V s_meter)^2 + sum (2 r V_i s_bore)^2 + (r C s_depth)^2 + (V s_carry)^2
    square += (total * doubt.meter).powi(2) + (total * doubt.carrying).powi(2);
    square += (ratio * capacity.si() * doubt.depth.si()).powi(2);
    let sigma = libm::sqrt(square);
    let at = |z: f64| Volume::from_si(total + z * sigma);
    Ok(LandingVolume { p10: at(-Z90), p50: at(0.0), p90: at(Z90), sigma: Volume::from_si(sigma) })
}

/// The volumes between which a landing is looked for, and where it is expected.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// Look from here.
    pub opens: Volume,
    /// Expected here.
    pub centre: Volume,
    /// Past this the ball is late.
    pub closes: Volume,
}

/// Window of pumped volume in which a landing is looked for.
///
/// ```text
/// opens = f (r - 0.05) V,   centre = f r V,   closes = max(1.02 V, centre) f'
/// ```
///
/// - `V` swept volume, m3; `r` pumped over swept of the model; `f` factor of the job, 1 before the
///   first landing; `f'` = max(f, 1)
///
/// Range: none stated by the source.
///
/// Where it breaks: the margins are this program's assumption, wide enough for the carrying model and
/// a swept volume known to 2 %; ten landings of a public data set fell at 0.92 to 0.98 of the casing
/// volume. A ball outside the window is late or early, never proof of a wrong seat: volume gives a
/// window, size gives identity.
///
/// Source: derived_carrying, margins assumed.
///
/// ```
/// use physics::ball::landing_window::landing_window;
/// use quantity::*;
/// let w = landing_window(Volume::bbl(300.0), 0.88, 1.0)?;
/// assert!((w.opens.in_bbl() - 249.0).abs() < 1e-9 && (w.closes.in_bbl() - 306.0).abs() < 1e-9);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn landing_window(swept: Volume, ratio: f64, factor: f64) -> Result<Window> {
    require_positive(WINDOW, "swept", swept)?;
    require_positive(WINDOW, "ratio", Ratio::of(ratio))?;
    require_positive(WINDOW, "factor", Ratio::of(factor))?;
    let centre = swept * (ratio * factor);
    // opens = f (r - 0.05) V, closes = max(1.02 V, centre) f'
    Ok(Window {
        opens: swept * ((ratio - 0.05).max(0.0) * factor),
        centre,
        closes: (swept * 1.02).max(centre) * factor.max(1.0),
    })
}

/// Factor between observed and modelled landing volumes, with its scatter.
///
/// ```text
/// f = mean of V_obs / V_mod,   s = sample standard deviation of the same
/// ```
///
/// - `V_obs` volume pumped at a landing, `V_mod` volume the model gave, m3
///
/// Range: at least one landing; the scatter needs two and is zero with one.
///
/// Where it breaks: a mistaken landing spoils it; with few landings the scatter says little.
///
/// Source: derived_carrying, mean of ratios.
///
/// ```
/// use physics::ball::landing_window::landing_factor;
/// use quantity::*;
/// let (f, s) = landing_factor(&[Volume::bbl(251.0), Volume::bbl(245.0)], &[Volume::bbl(250.0), Volume::bbl(246.0)])?;
/// assert!((f - 1.0).abs() < 1e-3 && s < 0.01);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn landing_factor(observed: &[Volume], modelled: &[Volume]) -> Result<(f64, f64)> {
    let mut ratios = Vec::with_capacity(observed.len());
    for (o, m) in paired(FACTOR, ("observed", observed), ("modelled", modelled))? {
        require_positive(FACTOR, "observed", o)?;
        require_positive(FACTOR, "modelled", m)?;
        ratios.push(o / m);
    }
    require(!ratios.is_empty(), FACTOR, "observed", Volume::ZERO, "at least one", "Give a landing.")?;
    let n = ratios.len() as f64;
    // f = mean of V_obs / V_mod
    let mean = ratios.iter().sum::<f64>() / n;
    let square: f64 = ratios.iter().map(|r| (r - mean).powi(2)).sum();
    let scatter = if n > 1.0 { libm::sqrt(square / (n - 1.0)) } else { 0.0 };
    Ok((mean, scatter))
}

/// Register entry of [`landing_volume_spread`].
pub static LANDING_VOLUME_SPREAD: Relation = Relation {
    name: SPREAD,
    title: "Landing volume with its spread, errors summed by squares (P10 is the low value)",
    equation: "sigma^2 = (V s_meter)^2 + sum (2 r V_i s_bore)^2 + (r C s_depth)^2 + (V s_carry)^2",
    source: "jcgm_100_2008 eq. 10, law of propagation of uncertainty",
    range: "small, independent, normal errors",
    inputs: &[
        Input::list::<Volume>("volumes", "volumes of the sections of the string down to the seat"),
        Input::new::<Ratio>("ratio", "pumped over swept volume").or("1"),
        Input::new::<Capacity>("capacity", "capacity of the string at the seat"),
        Input::new::<Ratio>("meter", "one standard deviation of the meter").or("1 %"),
        Input::new::<Ratio>("bore", "one standard deviation of a section's bore").or("0.25 %"),
        Input::new::<Length>("depth", "one standard deviation of the seat's depth").or("10 ft"),
        Input::new::<Ratio>("carrying", "one standard deviation of the carrying of the ball").or("0 %"),
    ],
    outputs: &[
        Output::new::<Volume>("p10", "low: nine of ten land later"),
        Output::new::<Volume>("p50", "middle"),
        Output::new::<Volume>("p90", "high: nine of ten land sooner"),
        Output::new::<Volume>("sigma", "one standard deviation"),
    ],
    evaluate: |a| {
        let doubt = Doubt {
            meter: a.number("meter")?,
            bore: a.number("bore")?,
            depth: a.get("depth")?,
            carrying: a.number("carrying")?,
        };
        let sections: Vec<Volume> = a.list("volumes")?;
        require(
            !sections.is_empty(),
            SPREAD,
            "volumes",
            Volume::ZERO,
            "at least one section",
            "Give a volume.",
        )?;
        let v = landing_volume_spread(&sections, a.number("ratio")?, a.get("capacity")?, doubt)?;
        Ok(Outputs::new().put("p10", v.p10).put("p50", v.p50).put("p90", v.p90).put("sigma", v.sigma))
    },
};

/// Register entry of [`landing_window`].
pub static LANDING_WINDOW: Relation = Relation {
    name: WINDOW,
    title: "Window of pumped volume in which a landing is looked for",
    equation: "opens = f (r - 0.05) V; centre = f r V; closes = max(1.02 V, centre) max(f, 1)",
    source: "derived_carrying, margins assumed",
    range: "none stated by the source; a window, never the identity of a seat",
    inputs: &[
        Input::new::<Volume>("swept", "volume of the bore down to the seat"),
        Input::new::<Ratio>("ratio", "pumped over swept volume of the model"),
        Input::new::<Ratio>("factor", "factor learnt from landings of this job").or("1"),
    ],
    outputs: &[
        Output::new::<Volume>("opens", "look from here"),
        Output::new::<Volume>("centre", "expected here"),
        Output::new::<Volume>("closes", "past this the ball is late"),
    ],
    evaluate: |a| {
        let w = landing_window(a.get("swept")?, a.number("ratio")?, a.number("factor")?)?;
        Ok(Outputs::new().put("opens", w.opens).put("centre", w.centre).put("closes", w.closes))
    },
};

/// Register entry of [`landing_factor`].
pub static LANDING_FACTOR: Relation = Relation {
    name: FACTOR,
    title: "Factor between observed and modelled landing volumes",
    equation: "f = mean of V_obs/V_mod; s = sample standard deviation",
    source: "derived_carrying, mean of ratios",
    range: "at least one landing",
    inputs: &[
        Input::list::<Volume>("observed", "volumes pumped at the landings"),
        Input::list::<Volume>("modelled", "volumes the model gave"),
    ],
    outputs: &[
        Output::new::<Ratio>("factor", "mean of observed over modelled"),
        Output::new::<Ratio>("scatter", "sample standard deviation of the ratios"),
    ],
    evaluate: |a| {
        let (f, s) = landing_factor(&a.list("observed")?, &a.list("modelled")?)?;
        Ok(Outputs::new().put("factor", Ratio::from_si(f)).put("scatter", Ratio::from_si(s)))
    },
};
