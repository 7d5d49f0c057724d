//! Real landings of balls on plugs against the waves of the program: ten stages of one well, one
//! sample a second. What is an input and what the model tells stands in docs/real-landings.md.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

mod landings;

use landings::compare::{Landed, Rung};
use landings::records::{Stage, stages};
use landings::ring::{Ring, listen};
use landings::{picture, table};

/// Stages whose wells rang while the pumps stood.
const RANG: [u32; 4] = [21, 23, 25, 27];
/// How far the first step may be off: the rock is no straight line.
const FIRST_SHARE: f64 = 0.20;
const FIRST_PSI: f64 = 50.0;
/// How far the second step may be off, psi.
const SECOND_PSI: f64 = 80.0;
/// How much later or earlier the top may come, s.
const TOP_SECONDS: f64 = 6.0;

fn landed(stages: &[Stage]) -> Vec<Landed<'_>> {
    stages.iter().map(Landed::new).collect()
}

/// Every stage with its depth, what it has of a ring, and the model's.
fn rings(stages: &[Stage]) -> Vec<(u32, f64, Ring, Option<Rung>)> {
    let one = |s: &Stage| {
        let ring = listen(s);
        let rung = match &ring {
            Ring::Heard(heard) => Some(Rung::new(s, heard)),
            _ => None,
        };
        (s.number, s.depth, ring, rung)
    };
    stages.iter().map(one).collect()
}

#[test]
fn real_rows_say_what_their_labels_say() {
    let Some(stages) = stages() else { return };
    assert_eq!(stages.len(), 10);
    for l in landed(&stages) {
        let (stage, rows) = (l.stage, &l.stage.rows);
        assert!(rows.windows(2).all(|w| w[1].time - w[0].time == 1.0), "stage {}: gaps", stage.number);
        assert!((l.seen.top - stage.rise).abs() < 10.0, "stage {}: top {}", stage.number, l.seen.top);
        let late = l.seen.to_top - 0.5 - stage.to_peak;
        assert!(late.abs() <= 2.0, "stage {}: top {late} s later than labelled", stage.number);
    }
}

#[test]
fn real_landing_steps_stand_beside_the_model() {
    let Some(stages) = stages() else { return };
    let all = landed(&stages);
    for l in &all {
        let (n, seen, model) = (l.stage.number, &l.seen, &l.model);
        let allowed = (FIRST_SHARE * seen.first).max(FIRST_PSI);
        let off = model.first - seen.first;
        assert!(off.abs() <= allowed, "stage {n}: first step off by {off:.0} psi of {:.0}", seen.first);
        let off = model.second - seen.second;
        assert!(off.abs() <= SECOND_PSI, "stage {n}: second step off by {off:.0} psi");
        let late = model.to_top - seen.to_top;
        assert!(late.abs() <= TOP_SECONDS, "stage {n}: top {late} s late");
        // no pressure is made of nothing: a seat above blank pipe would step higher, and steeper
        assert!(seen.first < l.tight.first, "stage {n}: {} of {}", seen.first, l.tight.first);
        assert!(seen.slope() < l.casing.sealed_slope(l.rate), "stage {n}: {}", seen.slope());
    }
    // the waves tell more than the breakdown does without them
    let off = table::mean_off(&all, |l| l.model.first);
    assert!(off < 12.0 && off < table::mean_off(&all, |l| l.stage.rise), "off by {off} %");
}

#[test]
fn real_rings_have_the_period_of_the_model() {
    let Some(stages) = stages() else { return };
    let mut rang = Vec::new();
    for (number, _, _, rung) in rings(&stages) {
        let Some(r) = rung else { continue };
        rang.push(number);
        let (difference, to_plug) = (r.difference(), r.difference_to_plug());
        assert!(difference.abs() <= 0.04, "stage {number}: {difference}");
        assert!(to_plug.abs() <= 0.055, "stage {number}, to the plug: {to_plug}");
        // shut above and open below: half a period later the ring is turned over
        assert!(r.half_way() < -0.4, "stage {number}: {}", r.half_way());
        // the waves keep their speed, and samples of one a second hardly spoil the period
        assert!((r.modelled / r.exact - 1.0).abs() < 0.003, "stage {number}: {} {}", r.modelled, r.exact);
        assert!((r.recorded / r.exact - 1.0).abs() < 0.01, "stage {number}: {} {}", r.recorded, r.exact);
    }
    assert_eq!(rang, RANG);
}

/// Prints the tables, draws the picture where it is asked for, and holds the page against them.
#[test]
fn real_page_shows_these_figures() {
    let Some(stages) = stages() else { return };
    let (landed, heard) = (landed(&stages), rings(&stages));
    let rang = stages.iter().zip(&heard).filter_map(|(s, (_, _, ring, _))| match ring {
        Ring::Heard(h) => Some((s, h.mean)),
        _ => None,
    });
    let tables = [
        table::steps(&landed),
        table::readings(&landed),
        table::times(&landed),
        table::rings(&heard),
        table::speeds(&rang.collect::<Vec<_>>()),
    ];
    println!("{}", tables.join("\n"));
    if let Some(path) = std::env::var_os("REAL_LANDINGS_SVG") {
        let rungs: Vec<_> = heard.iter().filter_map(|(n, _, _, r)| Some((*n, r.as_ref()?))).collect();
        std::fs::write(path, picture::draw(&landed, &rungs)).unwrap();
    }
    let page = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/real-landings.md");
    let page = std::fs::read_to_string(page).unwrap();
    for table in tables {
        assert!(page.contains(table.trim_end()), "the page has another table than\n{table}");
    }
}
