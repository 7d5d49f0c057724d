//! The channels of a simulated job as LAS 2.0 with time as the index (CWLS, LAS version 2.0).

use std::fmt::Write as _;

use pump::Run;
use quantity::{System, number};

use super::channels::{Written, written};
use crate::text::caution::STANDING;

/// What stands for no value; the channels have none missing.
const NULL: &str = "-999.25";

/// The channels as a LAS file: version, well, curves, remarks, data.
pub fn channels_las(run: &Run, system: System) -> String {
    let channels = written(system);
    let mut out = String::with_capacity(run.samples.len() * channels.len() * 10);
    head(&mut out, run);
    out += "~Curve information\n";
    for c in &channels {
        // Writing into text cannot fail.
        let _ = writeln!(out, "{:<24}.{:<10} : {}", mnemonic(c), c.unit.symbol, c.title);
    }
    out += "~Other information\n";
    let header = &run.header;
    let invented = if header.invented { " INVENTED DATA." } else { "" };
    let _ = writeln!(
        out,
        "Simulated, not measured: {}, revision {}.{invented}",
        clean(&header.job),
        clean(&header.revision)
    );
    let _ = writeln!(out, "heelward {}, input {}, seed {}", header.version, header.input_hash, header.seed);
    let _ = writeln!(out, "{STANDING}");
    out += "~ASCII log data\n";
    for sample in &run.samples {
        for (i, c) in channels.iter().enumerate() {
            if i > 0 {
                out.push(' ');
            }
            out += &c.text(sample);
        }
        out.push('\n');
    }
    out
}

fn head(out: &mut String, run: &Run) {
    let times = || run.samples.iter().map(|s| s.time.in_seconds());
    let (first, last) = (times().next().unwrap_or(0.0), times().next_back().unwrap_or(0.0));
    let gap = |w: &[pump::record::Sample]| matches!(w, [a, b] if ((b.time - a.time) - run.sample).in_seconds().abs() > 1e-6);
    // Zero where the samples are not all as far apart.
    let step = if run.samples.windows(2).any(gap) { 0.0 } else { run.sample.in_seconds() };
    *out += "~Version information\nVERS.    2.0 : CWLS log ASCII standard, version 2.0\nWRAP.    NO  : one line a time step\n";
    *out += "~Well information\n";
    for (name, value, doc) in [
        ("STRT.S", first, "first time"),
        ("STOP.S", last, "last time"),
        ("STEP.S", step, "time between samples, 0 where it varies"),
    ] {
        let _ = writeln!(out, "{name:<8} {} : {doc}", number(value, 2));
    }
    let _ = writeln!(out, "NULL.    {NULL} : no value");
    let well = clean(&run.header.well);
    for (name, value, doc) in [
        ("COMP.", "", "company"),
        ("WELL.", well.as_str(), "well"),
        ("FLD.", "", "field"),
        ("LOC.", "", "location"),
        ("PROV.", "", "province"),
        ("SRVC.", "", "service company"),
        ("DATE.", "", "date"),
        ("UWI.", "", "unique well id"),
    ] {
        let _ = writeln!(out, "{name:<8} {value} : {doc}");
    }
}

/// The name of a channel as a mnemonic.
fn mnemonic(channel: &Written) -> String {
    channel.name.to_uppercase()
}

/// A text that may stand in a header line.
fn clean(text: &str) -> String {
    text.chars().map(|c| if c == ':' || c.is_control() { ' ' } else { c }).collect()
}
