//! A made-up job of any number of stages: the deep example stretched or cut, with survey, joints,
//! caliper and rock log that belong to its length. Everything follows from the seed.

use super::folder::{JobFolder, rows};
use super::noise::Noise;

/// Measured depth of the casing shoe and of the first packer's limit, ft.
const SHOE: f64 = 11_047.0;
const HEEL: f64 = 11_130.0;
/// Where the build starts and where it is level, ft.
const KICK_OFF: f64 = 10_050.0;
const LEVEL: f64 = 10_950.0;
/// Length of a packer and a sleeve together, ft.
const TOOLS: f64 = 25.5;

/// What the job is made from.
#[derive(Debug, Clone, Copy)]
pub struct Made {
    /// Stages.
    pub stages: usize,
    /// Length of a stage, ft.
    pub spacing: f64,
    /// Distance between caliper readings, m.
    pub step: f64,
    /// How far washouts reach beyond the bit, in.
    pub washout: f64,
    /// Seed.
    pub seed: u64,
}

impl Made {
    /// Stages of 315 ft and a reading every decimetre: forty stages take about 300 joints.
    pub fn stages(stages: usize) -> Self {
        Self { stages, spacing: 315.0, step: 0.1, washout: 0.9, seed: 7 }
    }

    /// Total depth, ft.
    pub fn total_depth(&self) -> f64 {
        (HEEL + self.spacing * self.stages as f64).round()
    }

    /// The folder of the job.
    pub fn folder(&self) -> JobFolder {
        let td = self.total_depth();
        let ft = |depth: f64| format!("{depth} ft");
        JobFolder::of_example("long-lateral")
            .set("hole.total_depth", ft(td))
            .set("hole.section.1.bottom", ft(td))
            .set("string.2.bottom", ft(td - 10.0))
            .set("system.stages", self.stages as i64)
            .set("ladder.method", "given")
            .set("ladder.clearance", "0.003 in")
            .set("ladder.rung", self.rungs())
            .set("job.name", format!("{} stages", self.stages))
            .without("pin")
            .without("exclusion")
            .without("treatment.change")
            .file("survey.csv", self.survey())
            .file("joints.csv", self.joints())
            .file("caliper.las", self.caliper())
            .file("rock.las", self.rock())
    }

    /// Evenly stepped balls; each passes the seats above its own.
    fn rungs(&self) -> toml::Value {
        let step = 2.3 / (self.stages.max(2) - 1) as f64;
        let inches = |d: f64| toml::Value::from(format!("{d:.4} in"));
        rows((0..self.stages).map(|k| {
            let ball = 1.25 + step * k as f64;
            vec![("ball", inches(ball)), ("seat", inches(ball - (0.5 * step).min(0.04)))]
        }))
    }

    fn survey(&self) -> String {
        let mut noise = Noise(self.seed);
        let mut text = String::from("MD (ft),Inc (deg),Azi (deg)\n");
        let mut depth = 0.0;
        while depth < self.total_depth() + 95.0 {
            let md = f64::min(depth, self.total_depth());
            let share = ((md - KICK_OFF) / (LEVEL - KICK_OFF)).clamp(0.0, 1.0);
            let wander = if md > LEVEL { 0.4 } else { 0.05 };
            let inclination = (90.0 * share + noise.between(-wander, wander)).max(0.0);
            let azimuth = 177.0 + noise.between(-wander, wander);
            text += &format!("{md:.1},{inclination:.2},{azimuth:.2}\n");
            depth += 95.0;
        }
        text
    }

    fn joints(&self) -> String {
        let mut noise = Noise(self.seed ^ 1);
        let pipe = self.total_depth() - 10_850.0 - TOOLS * self.stages as f64;
        let mut text = String::from("Joint No,Length (ft)\n");
        let (mut sum, mut number) = (0.0, 1);
        while sum < pipe + 200.0 {
            let length = noise.between(39.5, 43.9);
            text += &format!("{number},{length:.2}\n");
            sum += length;
            number += 1;
        }
        text
    }

    /// Hole a little over the bit, slowly waving, with a washout in every other stage or so.
    fn caliper(&self) -> String {
        let mut noise = Noise(self.seed ^ 2);
        let (top, bottom) = ((SHOE + 10.0) * 0.3048, (self.total_depth() - 4.0) * 0.3048);
        let centres: Vec<(f64, f64)> =
            (0..=self.stages / 2).map(|_| (noise.between(top, bottom), noise.between(4.0, 14.0))).collect();
        let mut text = las_header("M", ends(top, bottom, self.step), self.step, "CALI.IN");
        for at in readings(top, bottom, self.step) {
            let wash = |(centre, half): &(f64, f64)| (1.0 - ((at - centre) / half).powi(2)).max(0.0);
            let washed = centres.iter().map(wash).fold(0.0, f64::max) * self.washout;
            let size = 6.06 + 0.04 * (at / 37.0).sin() + noise.between(-0.02, 0.02) + washed;
            text += &format!("{at:.2} {size:.3}\n");
        }
        text
    }

    fn rock(&self) -> String {
        let (top, bottom) = (SHOE, self.total_depth());
        let mut text = las_header("F", ends(top, bottom, 1.0), 1.0, "RQI.V/V");
        for at in readings(top, bottom, 1.0) {
            text += &format!("{at:.1} {:.3}\n", 0.5 + 0.4 * (at / 61.0).sin());
        }
        text
    }
}

fn readings(top: f64, bottom: f64, step: f64) -> impl Iterator<Item = f64> {
    (0..=((bottom - top) / step) as usize).map(move |i| top + step * i as f64)
}

fn ends(top: f64, bottom: f64, step: f64) -> (f64, f64) {
    (top, readings(top, bottom, step).last().unwrap_or(top))
}

/// The header of a log of one curve; a step of zero says that the readings are not evenly spaced.
pub fn las_header(unit: &str, (first, last): (f64, f64), step: f64, curve: &str) -> String {
    format!(
        "~V\n VERS. 2.0 :\n WRAP. NO :\n~W\n STRT.{unit} {first:.3} :\n STOP.{unit} {last:.3} :\n \
         STEP.{unit} {step} :\n NULL. -999.25 :\n WELL. made up :\n~C\n DEPT.{unit} :\n {curve} :\n~A\n"
    )
}
