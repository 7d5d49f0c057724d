//! The sheets a crew works from, tally, ball cards, pressure sheet, and the channels of a simulated job. The first lines, each
//! with `#` before it, say what the sheet belongs to; units stand in the heads; what is to be
//! written by hand stays empty.

mod ball_card;
mod channels;
mod channels_las;
mod labels;
mod pressure_sheet;
mod states;
mod tally;

pub use ball_card::ball_card_csv;
pub use channels::{channels_csv, events_csv};
pub use channels_las::channels_las;
pub use labels::labels_csv;
pub use pressure_sheet::pressure_sheet_csv;
pub use states::states_csv;
pub use tally::tally_csv;

use plan::Header;
use quantity::{Quantity, System, Time, number};

use crate::text::caution::{CAUTIONS, STANDING};

/// One column: its head, and the unit beside it where there is one.
pub(crate) struct Head<'a> {
    name: &'a str,
    unit: &'static str,
}

/// A column without unit.
pub(crate) fn plain(name: &'static str) -> Head<'static> {
    Head { name, unit: "" }
}

/// A column of a quantity, in the unit of the system.
pub(crate) fn of<Q: Quantity>(name: &'static str, system: System) -> Head<'static> {
    Head { name, unit: Q::KIND.shown(system).symbol }
}

/// A column of times in seconds, as recorders write them.
pub(crate) fn seconds(name: &'static str) -> Head<'static> {
    Head { name, unit: Time::KIND.si_unit().symbol }
}

/// A number in the unit of the system, with the decimals of that unit.
pub(crate) fn cell<Q: Quantity>(quantity: Q, system: System) -> String {
    let unit = Q::KIND.shown(system);
    number(unit.from_si(quantity.si()), unit.decimals)
}

/// The same, empty where there is none.
pub(crate) fn maybe<Q: Quantity>(quantity: Option<Q>, system: System) -> String {
    quantity.map_or(String::new(), |q| cell(q, system))
}

/// A sheet being written.
pub(crate) struct Sheet {
    text: String,
    writer: csv::Writer<Vec<u8>>,
}

impl Sheet {
    /// Starts a sheet with its head lines and its columns.
    pub(crate) fn new(title: &str, header: &Header, heads: &[Head]) -> Self {
        let invented = if header.invented { " INVENTED DATA." } else { "" };
        let short = header.input_hash.get(..16).unwrap_or(&header.input_hash);
        let mut lines = vec![
            format!("{title}: {}, {}, revision {}.{invented}", header.well, header.job, header.revision),
            format!(
                "heelward {}, input {short}, seed {}, depths from {}",
                header.version, header.seed, header.datum
            ),
            STANDING.to_string(),
        ];
        lines.extend(CAUTIONS.iter().map(|c| format!("{}: {}", c.subject, c.rule)));
        let text = lines.iter().map(|l| format!("# {}\n", l.replace(['\n', '\r'], " "))).collect();
        let mut sheet =
            Self { text, writer: csv::WriterBuilder::new().flexible(true).from_writer(Vec::new()) };
        sheet.row(heads.iter().map(|h| match h.unit {
            "" => h.name.to_string(),
            unit => format!("{} ({unit})", h.name),
        }));
        sheet
    }

    /// Adds a row.
    pub(crate) fn row(&mut self, cells: impl IntoIterator<Item = String>) {
        // Writing into memory cannot fail.
        let _ = self.writer.write_record(cells);
    }

    /// The finished sheet.
    pub(crate) fn finish(self) -> String {
        let bytes = self.writer.into_inner().unwrap_or_default();
        self.text + &String::from_utf8_lossy(&bytes)
    }
}
