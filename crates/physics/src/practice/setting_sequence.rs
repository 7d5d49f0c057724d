//! Whether the pressures of a setting sequence follow each other without overlap.

use crate::ball::count::{flag, number, paired};
use crate::error::{Error, Result, require, require_not_negative, require_positive};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{Pressure, Quantity, Ratio};

const NAME: &str = "setting_sequence";

/// A pressure at which something happens, with its tolerance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Event {
    /// Nominal pressure difference.
    pub nominal: Pressure,
    /// Tolerance, plus or minus, over the nominal pressure.
    pub tolerance: f64,
}

/// How well a sequence is spread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// Least gap between the highest of one event and the lowest of the next; negative is overlap.
    pub least_gap: Pressure,
    /// The event, from 1, after which that gap lies.
    pub after: usize,
}

/// Gap between each event and the next: the lowest of the next less the highest of this one.
///
/// ```text
/// gap_i = p_(i+1) (1 - t_(i+1)) - p_i (1 + t_i)
/// ```
///
/// - `p` nominal pressure difference at the tool, Pa; `t` tolerance over it
///
/// Range: static: no friction between the tools; at least two events.
///
/// Where it breaks: absolute-pressure devices count from vacuum, not from the annulus; a ball that
/// lands at speed adds a pressure wave that can jump an event.
///
/// Source: trade_practice, isolation tool, casing packer, open-hole packers, test.
///
/// ```
/// use physics::practice::setting_sequence::{Event, setting_sequence};
/// use quantity::Pressure;
/// let at = |p, tolerance| Event { nominal: Pressure::psi(p), tolerance };
/// let spread = setting_sequence(&[at(1500.0, 0.1), at(3500.0, 0.0), at(5500.0, 0.05)])?;
/// assert!((spread.least_gap.in_psi() - 1725.0).abs() < 1e-6 && spread.after == 2);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn setting_sequence(events: &[Event]) -> Result<Spread> {
    for e in events {
        require_positive(NAME, "nominals", e.nominal)?;
        require(
            (0.0..1.0).contains(&e.tolerance),
            NAME,
            "tolerances",
            Ratio::of(e.tolerance),
            "from 0 to below 1",
            "Give the tolerance as a share, such as 5 %.",
        )?;
    }
    let gaps = events.windows(2).enumerate().filter_map(|(i, pair)| {
        let [this, next] = pair else { return None };
        // gap_i = p_(i+1) (1 - t_(i+1)) - p_i (1 + t_i)
        let gap = next.nominal * (1.0 - next.tolerance) - this.nominal * (1.0 + this.tolerance);
        Some(Spread { least_gap: gap, after: i + 1 })
    });
    gaps.reduce(|a, b| if b.least_gap < a.least_gap { b } else { a }).ok_or_else(|| Error::NoSolution {
        relation: NAME,
        what: format!("there are {} events", events.len()),
        hint: "Give at least two events, in the order they must happen.",
    })
}

/// Order of a setting sequence.
///
/// ```text
/// gap_i = p_(i+1) (1 - t_(i+1)) - p_i (1 + t_i) >= margin
/// ```
pub static SETTING_SEQUENCE: Relation = Relation {
    name: NAME,
    title: "Setting sequence: each pressure above the one before, tolerances included (differences at the tool)",
    equation: "p_(i+1) (1 - t_(i+1)) - p_i (1 + t_i) >= margin",
    source: "trade_practice, isolation tool, casing packer, open-hole packers, test",
    range: "static: no friction between the tools",
    inputs: &[
        Input::list::<Pressure>("nominals", "nominal pressures in the order they must happen"),
        Input::list::<Ratio>("tolerances", "tolerance of each, plus or minus"),
        Input::new::<Pressure>("margin", "least gap asked for").or("0 psi"),
    ],
    outputs: &[
        Output::new::<Ratio>("in_order", "1 when every gap is above zero and no less than the margin"),
        Output::new::<Pressure>("least_gap", "least gap; negative is overlap"),
        Output::new::<Ratio>("after", "event, from 1, after which it lies"),
    ],
    evaluate: |a| {
        let (nominals, tolerances) = (a.list::<Pressure>("nominals")?, a.list::<Ratio>("tolerances")?);
        let events: Vec<Event> = paired(NAME, ("nominals", &nominals), ("tolerances", &tolerances))?
            .into_iter()
            .map(|(nominal, t)| Event { nominal, tolerance: t.si() })
            .collect();
        let margin: Pressure = a.get("margin")?;
        require_not_negative(NAME, "margin", margin)?;
        let spread = setting_sequence(&events)?;
        let in_order = spread.least_gap > Pressure::ZERO && spread.least_gap >= margin;
        Ok(Outputs::new()
            .put("in_order", flag(in_order))
            .put("least_gap", spread.least_gap)
            .put("after", number(spread.after)))
    },
};
