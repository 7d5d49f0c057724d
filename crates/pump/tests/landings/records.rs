//! Raw rows of the real landings beside the workspace, read with nothing of the program.

use std::io::Read as _;
use std::path::Path;

/// One second of a record: seconds from the onset, psi, bbl/min.
#[derive(Debug, Clone, Copy)]
pub struct Row {
    pub time: f64,
    pub pressure: f64,
    pub rate: f64,
}

/// One stage: what its label says, and its rows.
#[derive(Debug, Clone)]
pub struct Stage {
    pub number: u32,
    /// Depth of the plug, ft along the pipe and vertically.
    pub depth: f64,
    pub vertical: f64,
    /// Rise to the reported breakdown pressure, psi.
    pub rise: f64,
    /// From the onset of the rise to that pressure, s.
    pub to_peak: f64,
    /// Length of a stage here, ft: from this plug to the next deeper one.
    pub spacing: f64,
    pub rows: Vec<Row>,
}

/// A file of the data folder; says so and gives none where the folder is absent.
fn real_file(name: &str) -> Option<Vec<u8>> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../shared/data/landing").join(name);
    match std::fs::read(&path) {
        Ok(bytes) => Some(bytes),
        Err(e) => {
            println!("skipped: {} cannot be read ({e})", path.display());
            None
        }
    }
}

fn column(names: &str, name: &str) -> usize {
    names.split(',').position(|n| n.trim() == name).unwrap_or_else(|| panic!("no column {name}"))
}

fn number(line: &str, at: usize) -> Option<f64> {
    line.split(',').nth(at)?.trim().parse().ok()
}

fn rows(packed: &[u8]) -> Vec<Row> {
    let mut text = String::new();
    lzma_rust2::XzReader::new(packed, false).read_to_string(&mut text).unwrap();
    let names = text.lines().next().unwrap();
    let [time, pressure, rate] = ["t_rel_onset_s", "TR_PRESS", "SLUR_RATE"].map(|n| column(names, n));
    let read = |line: &str| {
        Some(Row { time: number(line, time)?, pressure: number(line, pressure)?, rate: number(line, rate)? })
    };
    // the second line holds units
    text.lines().skip(2).map(|line| read(line).unwrap_or_else(|| panic!("torn row: {line}"))).collect()
}

/// All stages in the order they were pumped, toe first; none where the folder is absent.
pub fn stages() -> Option<Vec<Stage>> {
    let labels = String::from_utf8(real_file("labels.csv")?).unwrap();
    let names = labels.lines().next().unwrap();
    let wanted = ["stage", "plug_depth_md_ft", "plug_tvd_ft", "rise_psi", "onset_to_peak_s"];
    let at = wanted.map(|n| column(names, n));
    let mut out = Vec::new();
    for line in labels.lines().skip(1) {
        let [stage, depth, vertical, rise, to_peak] = at.map(|i| number(line, i).unwrap());
        let rows = rows(&real_file(&format!("stage{stage:02.0}.csv.xz"))?);
        out.push(Stage { number: stage as u32, depth, vertical, rise, to_peak, spacing: 0.0, rows });
    }
    for i in 0..out.len() {
        // the labels do not name every plug: mean length of the stages to the next that is named
        let (here, other) = (&out[i], &out[if i == 0 { 1 } else { i - 1 }]);
        let count = f64::from(here.number) - f64::from(other.number);
        out[i].spacing = ((other.depth - here.depth) / count).abs();
    }
    Some(out)
}

impl Stage {
    /// Rows of a span of time, both ends included.
    pub fn between(&self, from: f64, to: f64) -> impl Iterator<Item = &Row> {
        self.rows.iter().filter(move |r| r.time >= from && r.time <= to)
    }

    /// Means of pressure and rate over the ten seconds before the onset.
    pub fn before(&self) -> (f64, f64) {
        let rows: Vec<&Row> = self.between(-10.0, -1.0).collect();
        let mean = |f: fn(&Row) -> f64| rows.iter().map(|r| f(r)).sum::<f64>() / rows.len() as f64;
        (mean(|r| r.pressure), mean(|r| r.rate))
    }

    /// Pressure above that before the onset, once a second from the onset less `lead` seconds.
    pub fn rises(&self, lead: f64, until: f64) -> Vec<(f64, f64)> {
        let level = self.before().0;
        self.between(-lead, until).map(|r| (r.time, r.pressure - level)).collect()
    }
}
