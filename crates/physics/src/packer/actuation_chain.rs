//! The order in which pressure works the tools: each next one must wait for the one before.

use super::rupture_disc::{Window, rupture_disc};
use crate::error::{require, require_not_negative};
use crate::heat::profile::same_length;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Pressure, Quantity, Ratio};

/// One step of the chain that leaves too little room.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shortfall {
    /// Index of the device that may act too early.
    pub device: usize,
    /// Its low end less the high end of the one before, less the margin: below or at zero.
    pub room: Pressure,
}

/// How a chain of devices stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Chain {
    /// Least room between neighbours, margin taken off.
    pub least: Pressure,
    /// Every step without room.
    pub shortfalls: Vec<Shortfall>,
}

/// Checks that each device's lowest acting pressure lies above the highest of the one before by
/// more than a margin.
///
/// Equation: `low_{i+1} > high_i + margin`; room `low_{i+1} − high_i − margin`.
///
/// Symbols: low, high ends of each device's window Pa, in the order they must act, all at the
/// same place (all at surface, or all as differences at one depth).
///
/// Range: two devices or more.
///
/// Where it breaks: windows at different depths or against different references must first be
/// brought to surface by [`super::surface_pressure`]; friction between them is taken as none.
///
/// Source: api_19ac (opening pressures stated with their tolerance), order of windows.
///
/// ```
/// use physics::packer::{actuation_chain::actuation_chain, rupture_disc::rupture_disc};
/// use quantity::Pressure;
/// let window = |p: f64, tolerance: f64| rupture_disc(Pressure::psi(p), tolerance, 1.0);
/// let chain = actuation_chain(&[window(1500.0, 0.1)?, window(3500.0, 0.0)?, window(5500.0, 0.05)?],
///     Pressure::psi(250.0))?;
/// assert!(chain.shortfalls.is_empty());
/// assert!((chain.least.in_psi() - 1475.0).abs() < 1e-6);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn actuation_chain(windows: &[Window], margin: Pressure) -> Result<Chain> {
    let count = Ratio::of(windows.len() as f64);
    require(windows.len() >= 2, NAME, "devices", count, "two or more", "Name the devices in their order.")?;
    require_not_negative(NAME, "margin", margin)?;
    for w in windows {
        require(w.high >= w.low, NAME, "window", w.low, "low end not above high end", "Swap its ends.")?;
    }
    // room = low_{i+1} − high_i − margin
    let rooms: Vec<Pressure> =
        windows.iter().zip(windows.iter().skip(1)).map(|(a, b)| b.low - a.high - margin).collect();
    let shortfalls = rooms
        .iter()
        .enumerate()
        .filter(|(_, room)| room.si() <= 0.0)
        .map(|(i, room)| Shortfall { device: i + 1, room: *room })
        .collect();
    let least = rooms.iter().copied().fold(Pressure::pa(f64::MAX), Pressure::min);
    Ok(Chain { least, shortfalls })
}

const NAME: &str = "actuation_chain";

/// `actuation_chain` in the register.
pub static ACTUATION_CHAIN: Relation = Relation {
    name: NAME,
    title: "Room between the acting pressures of devices in their order",
    equation: "low_{i+1} > high_i + margin;  ends nominal (1 ± tol)",
    source: "api_19ac, order of windows",
    range: "two devices or more, all pressures at the same place",
    inputs: &[
        Input::list::<Pressure>("nominals", "nominal acting pressures in the order wanted"),
        Input::list::<Ratio>("tolerances", "tolerance of each"),
        Input::new::<Pressure>("margin", "room wanted between two devices").or("0 psi"),
    ],
    outputs: &[
        Output::new::<Pressure>("least_room", "least room, margin taken off"),
        Output::new::<Ratio>("shortfalls", "steps without room"),
        Output::new::<Ratio>("first_device", "number of the first device that may act too early, 0 if none"),
    ],
    evaluate: |a| {
        let nominals: Vec<Pressure> = a.list("nominals")?;
        let tolerances: Vec<Ratio> = a.list("tolerances")?;
        same_length(NAME, nominals.len(), tolerances.len())?;
        let pairs = nominals.iter().zip(&tolerances);
        let windows: Vec<Window> =
            pairs.map(|(p, t)| rupture_disc(*p, t.si(), 1.0)).collect::<Result<_>>()?;
        let chain = actuation_chain(&windows, a.get("margin")?)?;
        let first = chain.shortfalls.first().map_or(0.0, |s| (s.device + 1) as f64);
        Ok(Outputs::new()
            .put("least_room", chain.least)
            .put("shortfalls", Ratio::of(chain.shortfalls.len() as f64))
            .put("first_device", Ratio::of(first)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_every_step_without_room() {
        let w = |low: f64, high: f64| Window {
            low: Pressure::psi(low),
            nominal: Pressure::psi(0.5 * (low + high)),
            high: Pressure::psi(high),
        };
        let chain = [w(1500.0, 2500.0), w(1500.0, 2500.0), w(3000.0, 4500.0), w(4500.0, 9000.0)];
        let found = actuation_chain(&chain, Pressure::psi(100.0)).unwrap();
        let devices: Vec<usize> = found.shortfalls.iter().map(|s| s.device).collect();
        assert_eq!(devices, [1, 3]);
        assert!((found.least.in_psi() + 1100.0).abs() < 1e-9);
        assert!(actuation_chain(&chain[..1], Pressure::ZERO).is_err());
    }
}
