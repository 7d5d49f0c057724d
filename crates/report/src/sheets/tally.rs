//! The running tally.

use plan::Header;
use plan::layout::Layout;
use quantity::{Length, Mass, MeasuredDepth, System, Volume};

use super::{Sheet, cell, of, plain};

/// The running tally, toe to heel, with empty columns for what was run.
pub fn tally_csv(layout: &Layout, header: &Header, system: System) -> String {
    let s = system;
    let heads = [
        plain("row"),
        plain("item"),
        plain("serial"),
        plain("stage"),
        of::<Length>("length", s),
        of::<Length>("cumulative", s),
        of::<MeasuredDepth>("top MD", s),
        of::<MeasuredDepth>("bottom MD", s),
        of::<Length>("depth sigma", s),
        of::<Mass>("cumulative mass in air", s),
        of::<Volume>("cumulative volume inside", s),
        of::<Volume>("cumulative volume of steel", s),
        of::<Volume>("cumulative annulus", s),
        of::<Length>("length as run", s),
        plain("make-up checked"),
        plain("time"),
        plain("initials"),
    ];
    let mut sheet = Sheet::new("Running tally, toe to heel", header, &heads);
    for r in &layout.tally {
        let stage = r.stage.map_or(String::new(), |n| n.to_string());
        let figures = [
            cell(r.length, s),
            cell(r.cumulative, s),
            cell(r.top, s),
            cell(r.bottom, s),
            cell(r.sigma, s),
            cell(r.mass, s),
            cell(r.inside, s),
            cell(r.steel, s),
            cell(r.annulus, s),
        ];
        let start = [r.row.to_string(), r.name.clone(), r.serial.clone(), stage];
        let blanks = std::iter::repeat_n(String::new(), 4);
        sheet.row(start.into_iter().chain(figures).chain(blanks));
    }
    sheet.finish()
}
