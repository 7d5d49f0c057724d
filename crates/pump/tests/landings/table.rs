//! The tables of docs/real-landings.md.

use quantity::Temperature;

use super::compare::{Landed, Rung};
use super::model::Casing;
use super::records::Stage;
use super::ring::Ring;

const STEPS: &str = "\
| stage | plug, ft | rate, bbl/min | J, psi | rise to the breakdown (input), psi | first step, psi: measured | model | nothing taken | second step, psi: measured | model |
| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |
";

const TIMES: &str = "\
| stage | wave back after, s | to the top, s: measured | model | top, psi: measured | model | mean slope, psi/s: measured | model | sealed |
| --- | --- | --- | --- | --- | --- | --- | --- | --- |
";

const RING: &str = "\
| stage | to the plug, ft | to the stage before, ft | likeness | T, s: measured | model | model, once a second | 4L/T, ft/s: measured | model | difference | difference, pipe to the plug only |
| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |
";

/// Steps of every landing.
pub fn steps(all: &[Landed<'_>]) -> String {
    let row = |l: &Landed<'_>| {
        format!(
            "| {} | {:.0} | {:.1} | {:.0} | {:.0} | {:.0} | {:.0} | {:.0} | {:+.0} | {:+.0} |\n",
            l.stage.number,
            l.stage.depth,
            l.rate,
            l.casing.step(l.rate),
            l.stage.rise,
            l.seen.first,
            l.model.first,
            l.tight.first,
            l.seen.second,
            l.model.second,
        )
    };
    STEPS.to_string() + &all.iter().map(row).collect::<String>()
}

/// Times and slopes of every landing.
pub fn times(all: &[Landed<'_>]) -> String {
    let row = |l: &Landed<'_>| {
        format!(
            "| {} | {:.1} | {:.1} | {:.1} | {:.0} | {:.0} | {:.0} | {:.0} | {:.0} |\n",
            l.stage.number,
            2.0 * l.casing.transit(),
            l.seen.to_top,
            l.model.to_top,
            l.seen.top,
            l.model.top,
            l.seen.slope(),
            l.model.slope(),
            l.casing.sealed_slope(l.rate)
        )
    };
    TIMES.to_string() + &all.iter().map(row).collect::<String>()
}

/// One row for every stage: the ring, or why there is none.
pub fn rings(all: &[(u32, f64, Ring, Option<Rung>)]) -> String {
    let row = |(number, depth, ring, rung): &(u32, f64, Ring, Option<Rung>)| {
        let none = |why: &str| format!("| {number} | {depth:.0} | {why} | | | | | | | | |\n");
        match (ring, rung) {
            (Ring::Heard(heard), Some(r)) => format!(
                "| {number} | {depth:.0} | {:.0} | {:.2} | {:.2} | {:.2} | {:.2} | {:.0} | {:.0} | {:+.1} % | {:+.1} % |\n",
                r.length,
                heard.likeness,
                r.measured,
                r.modelled,
                r.recorded,
                4.0 * r.length / r.measured,
                4.0 * r.length / r.modelled,
                100.0 * r.difference(),
                100.0 * r.difference_to_plug()
            ),
            (Ring::Short(seconds), _) => none(&format!("none: the pumps stood for {seconds} s only")),
            (Ring::Silent(likeness), _) => none(&format!("none: stood, but silent, likeness {likeness:.2}")),
            _ => none("none: the pumps never stood"),
        }
    };
    RING.to_string() + &all.iter().map(row).collect::<String>()
}

/// Mean over the landings of the size of a relative difference, in per cent.
pub fn mean_off(all: &[Landed<'_>], modelled: impl Fn(&Landed<'_>) -> f64) -> f64 {
    let off = |l: &Landed<'_>| (modelled(l) / l.seen.first - 1.0).abs();
    100.0 * all.iter().map(off).sum::<f64>() / all.len() as f64
}

/// Largest and smallest.
fn span(of: impl Iterator<Item = f64> + Clone) -> String {
    format!("{:.0} to {:.0}", of.clone().fold(f64::MAX, f64::min), of.fold(f64::MIN, f64::max))
}

/// How far the first step is off with this and that.
pub fn readings(all: &[Landed<'_>]) -> String {
    let row = |what: &str, modelled: fn(&Landed<'_>) -> f64| {
        format!("| {what} | {:.0} % |\n", mean_off(all, modelled))
    };
    let friction = span(all.iter().map(|l| l.casing.friction(l.rate)));
    "| first step taken as | mean size of the difference |\n| --- | --- |\n".to_string()
        + &row(&format!("the model, friction of the pipe {friction} psi"), |l| l.model.first)
        + &row("the model, with seven tenths of the friction gone", |l| l.reduced.first)
        + &row("the rise to the breakdown itself, no waves at all", |l| l.stage.rise)
        + &row("rock that holds up to the breakdown and takes all at it", |l| l.threshold.first)
        + &row("nothing taken: a seat above blank pipe", |l| l.tight.first)
}

/// Speed of the waves in water of other temperatures, with the pressure of each ring.
pub fn speeds(stages: &[(&Stage, f64)]) -> String {
    let at = |fahrenheit: f64| {
        let speeds = stages.iter().map(|(s, surface)| {
            Casing::new(s, s.depth, *surface, Temperature::deg_f(fahrenheit), 0.0).speed.in_ft_per_s()
        });
        format!("| {fahrenheit:.0} | {} |\n", span(speeds))
    };
    "| water, degF | speed of the wave, ft/s |\n| --- | --- |\n".to_string()
        + &[40.0, 50.0, 60.0, 80.0, 100.0].map(at).concat()
}
