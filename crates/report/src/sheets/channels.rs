//! The channels of a simulated job: one row a sample, and the events beside them.

use pump::Run;
use pump::record::{CHANNELS, Channel, Sample};
use quantity::{System, Unit, number, round_significant};

use super::{Head, Sheet, plain, seconds};

/// A channel as it is written: name, unit, value.
pub(crate) struct Written {
    pub name: &'static str,
    pub title: &'static str,
    pub unit: &'static Unit,
    value: fn(&Sample) -> quantity::Value,
}

impl Written {
    /// The number of a sample to seven digits, which keeps sums over a job to a part in a million.
    /// Time is written in seconds.
    pub fn text(&self, sample: &Sample) -> String {
        round_significant(self.unit.from_si((self.value)(sample).si()), DIGITS).to_string()
    }
}

/// Digits of a written number.
const DIGITS: usize = 7;

/// The channels in the units of a system.
pub(crate) fn written(system: System) -> Vec<Written> {
    let none = Sample::default();
    let one = |c: &Channel| {
        let kind = (c.value)(&none).kind();
        let unit = if c.name == "time" { kind.si_unit() } else { kind.shown(system) };
        Written { name: c.name, title: c.title, unit, value: c.value }
    };
    CHANNELS.iter().map(one).collect()
}

/// The channels as a table: one row a sample.
pub fn channels_csv(run: &Run, system: System) -> String {
    let channels = written(system);
    let heads: Vec<Head> = channels.iter().map(|c| Head { name: c.name, unit: c.unit.symbol }).collect();
    let title = "Channels of the simulated job; rates and concentrations are means since the last sample";
    let mut sheet = Sheet::new(title, &run.header, &heads);
    for sample in &run.samples {
        sheet.row(channels.iter().map(|c| c.text(sample)));
    }
    sheet.finish()
}

/// The events of a simulated job.
pub fn events_csv(run: &Run) -> String {
    let heads = [seconds("time"), plain("event"), plain("stage"), plain("what")];
    let mut sheet = Sheet::new("Events of the simulated job", &run.header, &heads);
    for e in &run.events {
        let time = number(e.time.in_seconds(), 2);
        sheet.row([time, e.kind.word().to_string(), e.stage.to_string(), e.text.clone()]);
    }
    sheet.finish()
}
