//! The growth model and the proppant in it, in the register: a constant rate, then a wait.

use super::drive::{MEAN_WIDTH, MODULUS, NET_PRESSURE, VISCOSITY, WIDTH};
use super::growth::{Fracture, Geometry, Ground};
use super::nolte_smith::Form;
use super::pkn::PknProfile;
use super::proppant::{Filling, Rules};
use crate::error::{Result, require, require_not_negative, require_positive};
use crate::{Arguments, Input, Output, Outputs, Relation};
use quantity::{Area, Concentration, Density, Diameter, FlowRate, Leakoff, Length, Mass, Quantity, Ratio};
use quantity::{Spurt, Time, Toughness, Viscosity, Volume};

const GROWTH: &str = "fracture_growth";
const PLACEMENT: &str = "proppant_placement";

fn geometry(a: &Arguments) -> Result<(Form, Geometry)> {
    let form = Form::of_word(a.word("model")?);
    let height: Length = a.get("height")?;
    let profile = PknProfile::of_word(a.word("profile")?);
    Ok(match form {
        Form::Pkn => (form, Geometry::Pkn { height, profile }),
        Form::Kgd => (form, Geometry::Kgd { height }),
        Form::Radial => (form, Geometry::Radial),
    })
}

fn ground(a: &Arguments) -> Result<(Form, Ground)> {
    let (form, geometry) = geometry(a)?;
    let ground = Ground {
        geometry,
        modulus: a.get("modulus")?,
        leakoff: a.get("leakoff")?,
        spurt: a.get("spurt")?,
        toughness: a.get("toughness")?,
    };
    Ok((form, ground))
}

/// Number of whole steps in a span, and their length.
fn steps(relation: &'static str, span: Time, step: Time) -> Result<(usize, Time)> {
    require_positive(relation, "step", step)?;
    let count = (span.si() / step.si()).ceil();
    let hint = "Take a longer step.";
    require(count <= 1e6, relation, "step", step, "at least a millionth of the time", hint)?;
    Ok((count as usize, if count > 0.0 { span / count } else { step }))
}

fn grow(a: &Arguments) -> Result<Outputs> {
    let (_, ground) = ground(a)?;
    let (rate, viscosity): (FlowRate, Viscosity) = (a.get("rate")?, a.get("viscosity")?);
    require_positive(GROWTH, "rate", rate)?;
    let (pumping, waiting): (Time, Time) = (a.get("pumping_time")?, a.get("waiting_time")?);
    require_positive(GROWTH, "pumping_time", pumping)?;
    require_not_negative(GROWTH, "waiting_time", waiting)?;
    let mut fracture = Fracture::new(ground)?;
    for (span, flow) in [(pumping, rate), (waiting, FlowRate::ZERO)] {
        let (count, step) = steps(GROWTH, span, a.get("step")?)?;
        for _ in 0..count {
            fracture.advance(step, flow, viscosity)?;
        }
    }
    Ok(Outputs::new()
        .put("length", fracture.length())
        .put("width", fracture.width())
        .put("mean_width", fracture.mean_width())
        .put("net_pressure", fracture.net_pressure())
        .put("efficiency", Ratio::of(fracture.efficiency()))
        .put("open", fracture.volume())
        .put("leaked", fracture.leaked())
        .put("area", fracture.area()))
}

fn place(a: &Arguments) -> Result<Outputs> {
    let (form, ground) = ground(a)?;
    let (rate, viscosity): (FlowRate, Viscosity) = (a.get("rate")?, a.get("viscosity")?);
    require_positive(PLACEMENT, "rate", rate)?;
    let (pumping, pad): (Time, Time) = (a.get("pumping_time")?, a.get("pad_time")?);
    require_not_negative(PLACEMENT, "pad_time", pad)?;
    require(pumping > pad, PLACEMENT, "pumping_time", pumping, "above the pad's", "Slurry follows the pad.")?;
    let (c, grain): (Concentration, Density) = (a.get("concentration")?, a.get("grain_density")?);
    require_not_negative(PLACEMENT, "concentration", c)?;
    require_positive(PLACEMENT, "grain_density", grain)?;
    let solid = Ratio::of(c.si() / (c.si() + grain.si()));
    let rules = Rules {
        form,
        grain: a.get("grain")?,
        width_ratio: a.number("width_ratio")?,
        packed: a.number("packed")?,
        hole: None,
    };
    let (mut fracture, mut filling) = (Fracture::new(ground)?, Filling::new(rules)?);
    let mut stopped = pumping;
    let spans = [(pad, Ratio::ZERO), (pumping - pad, solid)];
    let mut now = Time::ZERO;
    'pumping: for (span, solid) in spans {
        let (count, step) = steps(PLACEMENT, span, a.get("step")?)?;
        for _ in 0..count {
            let done = fracture.advance(step, rate, viscosity)?;
            now += step;
            if filling.advance(&fracture, &done, solid)?.is_some() {
                stopped = now;
                break 'pumping;
            }
        }
    }
    let (at_front, at_well) = filling.solid_shares();
    Ok(Outputs::new()
        .put("stopped", stopped)
        .put("front", filling.front())
        .put("pad", filling.pad())
        .put("mass", Mass::kg(filling.grains().si() * grain.si()))
        .put("solid_front", at_front)
        .put("solid_well", at_well))
}

const MODEL: Input = Input::choice("model", Form::WORDS, "pkn long, kgd short and high, radial a penny");
const PROFILE: Input = Input::choice("profile", PknProfile::WORDS, "flow along a long wing");
const HEIGHT: Input = Input::new::<Length>("height", "height of the fracture, of no account to a penny");
const LEAKOFF: Input = Input::new::<Leakoff>("leakoff", "leak-off coefficient");
const SPURT: Input = Input::new::<Spurt>("spurt", "spurt loss");
const TOUGHNESS: Input = Input::new::<Toughness>("toughness", "fracture toughness");
const RATE: Input = Input::new::<FlowRate>("rate", "the whole rate, both wings");
const PUMPING: Input = Input::new::<Time>("pumping_time", "time of pumping");
const STEP: Input = Input::new::<Time>("step", "time step");

/// The growth model in the register.
pub static FRACTURE_GROWTH: Relation = Relation {
    name: GROWTH,
    title: "Fracture marched in time at a constant rate, then a wait after shut-in (whole rate)",
    equation: "dV = Q dt − leak-off; [w̄⁴ − w_k⁴]/(G µ L^k) = (m + k/4) (V/L) dL/dt + q_L; no growth at shut-in",
    source: "nordgren1972; geertsma_deklerk1969; savitski_detournay2002; howard_fast1957; nolte1979",
    range: "none stated by the source; one fluid, one height, two equal wings",
    inputs: &[
        MODEL.or("pkn"),
        PROFILE.or("usual"),
        MODULUS,
        HEIGHT.or("1 m"),
        LEAKOFF.or("0 mm/min0.5"),
        SPURT.or("0 L/m2"),
        TOUGHNESS.or("0 MPa.m0.5"),
        VISCOSITY,
        RATE,
        PUMPING,
        Input::new::<Time>("waiting_time", "time since shut-in").or("0 s"),
        STEP.or("1 s"),
    ],
    outputs: &[
        Output::new::<Length>("length", "length of one wing, or radius"),
        WIDTH,
        MEAN_WIDTH,
        NET_PRESSURE,
        Output::new::<Ratio>("efficiency", "volume open over volume pumped"),
        Output::new::<Volume>("open", "volume open"),
        Output::new::<Volume>("leaked", "volume leaked off"),
        Output::new::<Area>("area", "area of one face, all wings"),
    ],
    evaluate: grow,
};

/// Proppant in the growing fracture, in the register.
pub static PROPPANT_PLACEMENT: Relation = Relation {
    name: PLACEMENT,
    title: "Pad, then slurry of one concentration, followed into the fracture until it stops (whole rate)",
    equation: "dv = −q_L(walls beside it) dt, φ = v_s/v; stops at w(front) < k d or φ at its limit",
    source: "nolte1986 (mass balance of a parcel)",
    range: "plug flow, no settling; see the assumptions of the model",
    inputs: &[
        MODEL.or("pkn"),
        PROFILE.or("usual"),
        MODULUS,
        HEIGHT.or("1 m"),
        LEAKOFF,
        SPURT.or("0 L/m2"),
        TOUGHNESS.or("0 MPa.m0.5"),
        VISCOSITY,
        RATE,
        PUMPING,
        Input::new::<Time>("pad_time", "end of the pad"),
        Input::new::<Concentration>("concentration", "mass per clean volume"),
        Input::new::<Density>("grain_density", "grain density").or("2650 kg/m3"),
        Input::new::<Diameter>("grain", "grain diameter"),
        Input::new::<Ratio>("width_ratio", "width over grain diameter at which grains bridge"),
        Input::new::<Ratio>("packed", "solid share of a slurry that flows no more"),
        STEP.or("1 s"),
    ],
    outputs: &[
        Output::new::<Time>("stopped", "when proppant stopped, or pumping ended"),
        Output::new::<Ratio>("front", "share of the face behind the slurry's front"),
        Output::new::<Volume>("pad", "pad left ahead of it"),
        Output::new::<Mass>("mass", "proppant in the fracture"),
        Output::new::<Ratio>("solid_front", "solid share at the slurry's front"),
        Output::new::<Ratio>("solid_well", "solid share at the well"),
    ],
    evaluate: place,
};
