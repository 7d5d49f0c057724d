//! A job on real hole: the path of one horizontal well, the caliper of another brought to its toe
//! by a depth shift, and hardware made up for an 8.5 in hole.

use super::folder::{JobFolder, rows};
use super::made::las_header;
use super::noise::Noise;
use super::real_data::{RawHole, RawReading};

/// Metres in a foot.
pub const FOOT: f64 = 0.3048;
/// Total depth of the survey, ft.
pub const TOTAL_DEPTH: f64 = 14_454.0;
/// Casing shoe, made up, ft.
pub const CASING_SHOE: f64 = 9_050.0;
/// Planned top of the casing packer, ft.
pub const CASING_PACKER: f64 = 8_800.0;
/// The log's deepest reading is brought so far above total depth, m.
const ABOVE_BOTTOM: f64 = 0.5;
/// One standard deviation of depth at total depth, ft.
pub const DEPTH_SIGMA: f64 = 4.0;
/// Largest hole of the packer and the bit, in.
pub const LARGEST_HOLE: f64 = 8.70;
pub const BIT: f64 = 8.5;
/// Sharpest bend of the packer, deg/100 ft.
pub const SHARPEST: f64 = 3.0;

impl RawHole {
    /// What must be added to log depths to bring the log to the toe, m, to the centimetre.
    pub fn shift(&self) -> f64 {
        let sized = self.readings.iter().filter(|r| r.size.is_some());
        let deepest = sized.map(|r| r.depth).fold(f64::NEG_INFINITY, f64::max);
        ((TOTAL_DEPTH * FOOT - ABOVE_BOTTOM - deepest) * 100.0).round() / 100.0
    }

    /// A curve as LAS text, at the depths of the log.
    fn las(&self, curve: &str, of: impl Fn(&RawReading) -> Option<f64>) -> String {
        let ends = (self.readings.first().unwrap().depth, self.readings.last().unwrap().depth);
        let mut text = las_header("M", ends, 0.0, curve);
        for r in &self.readings {
            text += &format!("{} {}\n", r.depth, of(r).unwrap_or(-999.25));
        }
        text
    }

    /// The job, its interval from `heel` (ft) to the toe, in so many stages.
    pub fn job_folder(&self, heel: f64, stages: usize) -> JobFolder {
        let shift = format!("{:.2} m", self.shift());
        let ft = |depth: f64| format!("{depth} ft");
        let folder = JobFolder::of_example("long-lateral")
            .set("job.name", "real hole, made-up hardware")
            .without("job.note")
            .set("survey.file", "survey.csv")
            .without("survey.section_azimuth")
            .set("hole.total_depth", ft(TOTAL_DEPTH))
            .set("hole.depth_sigma", ft(DEPTH_SIGMA))
            .set("hole.section.0.name", "9-5/8 in casing")
            .set("hole.section.1.name", "8-1/2 in lateral")
            .set("hole.section.0.bottom", ft(CASING_SHOE))
            .set("hole.section.0.diameter", "8.681 in")
            .set("hole.section.1.top", ft(CASING_SHOE))
            .set("hole.section.1.bottom", ft(TOTAL_DEPTH))
            .set("hole.section.1.diameter", format!("{BIT} in"))
            .set("hole.caliper.shift_down", shift.clone())
            .set("rock.quality.curve", "GR")
            .set("rock.quality.higher_is_better", false)
            .set("rock.quality.shift_down", shift)
            .set("system.stages", stages as i64)
            .set("system.heel_limit", ft(heel))
            .without("pin")
            .without("exclusion")
            .without("treatment.change")
            .file("survey.csv", self.survey.clone())
            .file("caliper.las", self.las("CALI.IN", |r| r.size))
            .file("rock.las", self.las("GR.GAPI", |r| r.gamma))
            .file("joints.csv", joints());
        pipe(tools(folder))
    }
}

/// Joints on the rack, ft: range 3, enough for the liner and a few more.
fn joints() -> String {
    let mut noise = Noise(20);
    let mut text = String::from("Joint No,Length (ft)\n");
    for number in 1..=140 {
        text += &format!("{number},{:.2}\n", noise.between(40.1, 43.6));
    }
    text
}

fn pipe(folder: JobFolder) -> JobFolder {
    let ft = |depth: f64| format!("{depth} ft");
    let five = |f: JobFolder, string: usize| {
        f.set(&format!("string.{string}.od"), "5-1/2 in")
            .set(&format!("string.{string}.weight"), "20 lb/ft")
            .set(&format!("string.{string}.connection_od"), "6.05 in")
    };
    let folder = five(five(folder, 1), 2);
    folder
        .set("string.0.name", "9-5/8 in casing")
        .set("string.1.name", "5-1/2 in treating string")
        .set("string.2.name", "5-1/2 in liner")
        .set("string.0.od", "9-5/8 in")
        .set("string.0.weight", "47 lb/ft")
        .set("string.0.bottom", ft(CASING_SHOE))
        .set("string.1.bottom", ft(CASING_PACKER))
        .set("string.1.connection_tension", "641 klbf")
        .set("string.1.connection_internal", "12630 psi")
        .set("string.1.connection_compression", "512 klbf")
        .set("string.2.top", ft(CASING_PACKER))
        .set("string.2.bottom", ft(TOTAL_DEPTH - 10.0))
}

/// A swelling packer of 8.1 in, sleeves and casing packer to go with it.
fn tools(folder: JobFolder) -> JobFolder {
    let rating = |hole: f64, temperature: f64, pressure: f64| {
        vec![
            ("hole", format!("{hole} in").into()),
            ("temperature", format!("{temperature} degF").into()),
            ("pressure", format!("{pressure} psi").into()),
        ]
    };
    let ratings = [50.0, 250.0].into_iter().flat_map(|t| {
        [(8.25, 9000.0), (8.5, 9000.0), (8.6, 8600.0), (8.7, 8000.0)].map(|(hole, p)| rating(hole, t, p))
    });
    let days = [0.0, 1.0, 2.0, 4.0, 7.0, 10.0, 14.0, 21.0, 30.0, 45.0, 60.0, 90.0];
    let swell = days.map(|d: f64| {
        let od = 8.1 + 1.1 * (1.0 - (-(d / 16.0).sqrt()).exp());
        vec![("time", format!("{d} d").into()), ("od", format!("{od:.3} in").into())]
    });
    folder
        .set("packer.od", "8.1 in")
        .set("packer.length", "20 ft")
        .set("packer.element_length", "15 ft")
        .set("packer.element_from_top", "2.5 ft")
        .set("packer.mandrel_od", "5.5 in")
        .set("packer.id", "4.67 in")
        .set("packer.mass", "780 lb")
        .set("packer.largest_hole", format!("{LARGEST_HOLE} in"))
        .set("packer.smallest_hole", "8.25 in")
        .set("packer.max_dogleg", format!("{SHARPEST} deg/100ft"))
        .set("packer.rating", rows(ratings))
        .set("packer.swell.row", rows(swell))
        .set("sleeve.od", "7.0 in")
        .set("sleeve.id", "4.60 in")
        .set("sleeve.largest_seat", "4.35 in")
        .set("sleeve.mass", "310 lb")
        .set("toe.od", "6.5 in")
        .set("casing_packer.depth", format!("{CASING_PACKER} ft"))
        .set("casing_packer.od", "8.35 in")
        .set("casing_packer.id", "4.67 in")
        .set("casing_packer.mass", "1400 lb")
        .set("launcher.bore", "5.0 in")
        .set("ladder.smallest_ball", "2.0 in")
        .set("ladder.largest_ball", "4.25 in")
        .set("rock.bottom_temperature", "165 degF")
        .set("rock.bottom_temperature_depth", "7450 ft")
        .set("setting.activation.rate", "1.5 bbl/min")
        .set("setting.activation.planned_wait", "32 d")
}
