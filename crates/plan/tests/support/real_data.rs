//! Raw rows of the real data beside the workspace, read with nothing of the program.

use std::io::Read as _;
use std::path::{Path, PathBuf};

/// A file of the data folder; says so and gives none where the folder is absent.
pub fn real_file(name: &str) -> Option<Vec<u8>> {
    let path: PathBuf = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../shared/data").join(name);
    match std::fs::read(&path) {
        Ok(bytes) => Some(bytes),
        Err(e) => {
            println!("skipped: {} cannot be read ({e})", path.display());
            None
        }
    }
}

/// One station as the survey file reports it, feet and degrees.
#[derive(Debug, Clone, Copy)]
pub struct RawStation {
    pub md: f64,
    pub tvd: f64,
    /// Dogleg severity of the course that ends here, deg/100 ft.
    pub severity: Option<f64>,
}

/// One reading as the caliper file has it: log depth in metres, inches, API units.
#[derive(Debug, Clone, Copy)]
pub struct RawReading {
    pub depth: f64,
    pub size: Option<f64>,
    pub gamma: Option<f64>,
}

/// Survey and caliper of real holes.
pub struct RawHole {
    pub survey: Vec<u8>,
    pub stations: Vec<RawStation>,
    pub readings: Vec<RawReading>,
}

/// The horizontal survey, and the readings of the near-horizontal caliper under its 8.5 in bit.
pub fn raw_hole() -> Option<RawHole> {
    let survey = real_file("survey/marcellus_5h.csv")?;
    let packed = real_file("las/nearhorizontal_caliper.csv.xz")?;
    let mut text = String::new();
    lzma_rust2::XzReader::new(packed.as_slice(), false).read_to_string(&mut text).unwrap();
    let number = |row: &str, at: usize| row.split(',').nth(at).and_then(|v| v.parse::<f64>().ok());
    let station =
        |row: &str| Some(RawStation { md: number(row, 1)?, tvd: number(row, 4)?, severity: number(row, 9) });
    let there = |v: Option<f64>| v.filter(|v| *v > -900.0);
    let reading = |row: &str| {
        let under_bit = number(row, 2)? == 8.5;
        let (size, gamma) = (there(number(row, 1)), there(number(row, 3)));
        under_bit.then_some(RawReading { depth: number(row, 0)?, size, gamma })
    };
    let stations = String::from_utf8(survey.clone()).unwrap().lines().skip(1).filter_map(station).collect();
    Some(RawHole { survey, stations, readings: text.lines().skip(1).filter_map(reading).collect() })
}
