//! All data files of the invented example jobs.

mod bore;
mod joints;
mod log;
mod noise;
mod path;
mod rock;
mod survey;
mod unit;
mod vector;
mod wells;

use noise::Noise;
use unit::Unit;

/// One file: its place below `jobs/`, and its text.
pub struct File {
    /// Place.
    pub path: String,
    /// Text.
    pub text: String,
}

/// Everything about one invented well.
struct Well {
    folder: &'static str,
    seed: u64,
    unit: Unit,
    path: path::Plan,
    survey: survey::Plan,
    rock: rock::Plan,
    bore: bore::Plan,
    logs: Logs,
    joints: joints::Plan,
}

/// How the open hole was logged. Depths in the file's unit.
struct Logs {
    head: log::Head,
    /// First and last depth on the log.
    range: (f64, f64),
    /// Samples per unit of depth.
    samples: usize,
    /// How much deeper the driller's depth is than the log's.
    shift: f64,
    /// Lost stretches of the caliper: from, to.
    lost: &'static [(f64, f64)],
    /// Single bad readings: depth, reading in the file's unit of diameter.
    spikes: &'static [(f64, f64)],
    /// A separate log of rock quality at the driller's depths, and its samples per unit of depth.
    quality: Option<(log::Head, usize)>,
}

/// All files, from their seeds.
pub fn all() -> Vec<File> {
    wells::ALL.iter().flat_map(files).collect()
}

fn files(well: &Well) -> Vec<File> {
    let mut noise = [1, 2, 3, 4].map(|n| Noise::seeded(well.seed * 10 + n));
    let [for_path, for_survey, for_logs, for_joints] = &mut noise;
    let points = path::drill(&well.path, for_path);
    let mut list = vec![("survey.csv", survey::text(&well.survey, &points, for_survey))];
    list.extend(logs(well, &points, for_logs));
    list.push(("joints.csv", joints::text(&well.joints, for_joints)));
    list.into_iter().map(|(name, text)| File { path: format!("{}/{name}", well.folder), text }).collect()
}

fn logs(well: &Well, points: &[path::Point], noise: &mut Noise) -> Vec<(&'static str, String)> {
    let plan = &well.logs;
    let step = 1.0 / plan.samples as f64;
    let count = ((plan.range.1 - plan.range.0) * plan.samples as f64).round() as usize + 1;
    let shown: Vec<f64> = (0..count).map(|i| plan.range.0 + i as f64 / plan.samples as f64).collect();
    let depths: Vec<f64> = shown.iter().map(|d| well.unit.to_metres(d + plan.shift)).collect();
    let step_m = well.unit.to_metres(step);
    let rock = rock::lay(&well.rock, &depths, step_m, noise);
    let bore = bore::cut(&well.bore, points, &rock, &depths, step_m, noise);
    let (diameter, speed) = match well.unit {
        Unit::Feet => ("IN", "FT/HR"),
        Unit::Metres => ("MM", "M/HR"),
    };
    let caliper = as_logged(well, &shown, &bore.diameter);
    let gamma = rock.gamma;
    let rate = bore.rate.iter().map(|r| well.unit.of_metres(*r)).collect();
    let decimals = if well.unit == Unit::Feet { 3 } else { 1 };
    let curve = |name, unit, about, decimals, values| log::Curve { name, unit, about, decimals, values };
    let mut list = Vec::new();
    if let Some((head, samples)) = &plan.quality {
        let every = plan.samples / samples;
        let thin = |values: &[f64]| values.iter().step_by(every).copied().collect::<Vec<f64>>();
        let curves = [
            curve("GR", "GAPI", "GAMMA RAY", 1, thin(&gamma)),
            curve("RQI", "V/V", "ROCK QUALITY, 0 POOR TO 1 GOOD", 3, thin(&rock.quality)),
        ];
        let driller: Vec<f64> = shown.iter().map(|d| d + plan.shift).collect();
        list.push(("rock.las", log::text(head, well.unit, &thin(&driller), every as f64 * step, &curves)));
    }
    let curves = [
        curve("GR", "GAPI", "GAMMA RAY", 1, gamma),
        curve("CALI", diameter, "MEAN HOLE DIAMETER", decimals, caliper),
        curve("ROP", speed, "RATE OF PENETRATION", 1, rate),
    ];
    list.insert(0, ("caliper.las", log::text(&plan.head, well.unit, &shown, step, &curves)));
    list
}

/// The diameter as the tool gave it: with its lost stretches and bad readings.
fn as_logged(well: &Well, shown: &[f64], diameter: &[f64]) -> Vec<f64> {
    let half = 0.5 / well.logs.samples as f64;
    let reading = |(depth, true_diameter): (&f64, &f64)| {
        let lost = well.logs.lost.iter().any(|(a, b)| (*a..=*b).contains(depth));
        let spike = well.logs.spikes.iter().find(|(at, _)| (at - depth).abs() < half);
        match spike {
            _ if lost => f64::NAN,
            Some((_, reading)) => *reading,
            None => well.unit.diameter(*true_diameter),
        }
    };
    shown.iter().zip(diameter).map(reading).collect()
}
