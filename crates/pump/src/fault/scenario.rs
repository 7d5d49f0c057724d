//! A scenario: faults and noise from a file.

use quantity::{Pressure, Quantity, Ratio};
use serde::Deserialize;

use super::{Fault, kind_of};
use crate::error::PumpError;
use crate::sensors::Noise;

/// Most faults of a scenario.
const MOST: usize = 100;

/// Faults and noise.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Scenario {
    /// Faults.
    pub faults: Vec<Fault>,
    /// Noise, if the scenario has any.
    pub noise: Option<Noise>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    #[serde(default)]
    fault: Vec<Entry>,
    noise: Option<NoiseTable>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Entry {
    kind: String,
    stage: Option<usize>,
    after: Option<String>,
    over: Option<String>,
    size: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct NoiseTable {
    pressure: Option<String>,
    rate: Option<f64>,
    concentration: Option<f64>,
    density: Option<f64>,
}

/// Reads a scenario: TOML with `[[fault]]` tables (`kind`, `stage`, `after`, `over`, `size`) and a
/// `[noise]` table (`pressure`, and shares `rate`, `concentration`, `density`).
///
/// # Errors
/// What is no scenario, with its line.
pub fn read_scenario(text: &str) -> Result<Scenario, PumpError> {
    let wrong = |reason: String| PumpError::Fault {
        value: "the scenario".into(),
        reason,
        hint: "see docs/simulator.md for its tables".into(),
    };
    let file: File = toml::from_str(text).map_err(|e| wrong(e.to_string()))?;
    if file.fault.len() > MOST {
        return Err(wrong(format!("it has {} faults; {MOST} are the most", file.fault.len())));
    }
    let faults = file.fault.iter().map(entry).collect::<Result<_, _>>()?;
    let noise = file.noise.map(|n| noise(&n)).transpose()?;
    Ok(Scenario { faults, noise })
}

fn entry(entry: &Entry) -> Result<Fault, PumpError> {
    let mut fault = Fault::usual(kind_of(&entry.kind)?, super::DEFAULT_STAGE);
    let texts = [
        ("stage", entry.stage.map(|s| s.to_string())),
        ("after", entry.after.clone()),
        ("over", entry.over.clone()),
        ("size", entry.size.map(|s| s.to_string())),
    ];
    for (key, text) in texts {
        if let Some(text) = text {
            fault.set(key, &text)?;
        }
    }
    Ok(fault)
}

fn noise(table: &NoiseTable) -> Result<Noise, PumpError> {
    let usual = Noise::default();
    let share = |value: Option<f64>, usual: Ratio| match value {
        Some(v) if (0.0..=0.5).contains(&v) => Ok(Ratio::of(v)),
        Some(v) => Err(PumpError::Fault {
            value: v.to_string(),
            reason: "a share of noise is from 0 to 0.5".into(),
            hint: "take 0.005 for half a per cent".into(),
        }),
        None => Ok(usual),
    };
    let pressure = match &table.pressure {
        Some(text) => {
            Pressure::parse(text).ok().filter(|p| (0.0..=1e8).contains(&p.si())).ok_or_else(|| {
                PumpError::Fault {
                    value: text.clone(),
                    reason: "it is no pressure".into(),
                    hint: "write `pressure = \"5 psi\"`".into(),
                }
            })?
        }
        None => usual.pressure,
    };
    Ok(Noise {
        pressure,
        rate: share(table.rate, usual.rate)?,
        concentration: share(table.concentration, usual.concentration)?,
        density: share(table.density, usual.density)?,
    })
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "tests")]
mod tests {
    use super::*;
    use crate::fault::FaultKind;

    #[test]
    fn a_scenario_is_read() {
        let text =
            "[[fault]]\nkind = \"sleeve-stuck\"\nstage = 4\n[noise]\npressure = \"8 psi\"\nrate = 0.01\n";
        let scenario = read_scenario(text).unwrap();
        assert_eq!(scenario.faults, [Fault::usual(FaultKind::SleeveStuck, 4)]);
        assert_eq!(scenario.noise.unwrap().pressure, Pressure::psi(8.0));
    }

    #[test]
    fn what_is_no_scenario_is_refused_at_its_line() {
        for (text, word) in [
            ("[[fault]]\nkind = \"sleeve-stuck\"\nstag = 4\n", "stag"),
            ("[[fault]]\nkind = 3\n", "line 2"),
            ("[[fault]]\nkind = \"nothing\"\n", "nothing"),
            ("[[fault]]\nkind = \"pump-trip\"\nafter = \"5\"\n", "unit"),
            ("[noise]\nrate = 7.0\n", "0.5"),
            ("[noise]\npressure = \"wet\"\n", "wet"),
            ("[[fault", "scenario"),
        ] {
            let said = read_scenario(text).unwrap_err().to_string();
            assert!(said.contains(word), "{text}: {said}");
        }
    }
}
