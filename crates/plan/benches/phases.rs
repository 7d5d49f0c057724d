//! How long each phase of a plan takes, and how that grows with the number of stages.
//!
//! `cargo bench -p plan` measures and then prints the table of docs/speed.md; `scripts/bench` runs
//! it and writes that page. Counted is the processor time of the measuring thread, where the system
//! tells it, so that other work on the machine does not count. It also leaves the job of
//! [`COMMAND`] stages in a folder, for the whole command to be measured on.

#![allow(clippy::panic)] // a benchmark fails by panicking

#[path = "../tests/support/mod.rs"]
mod support;

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::hint::black_box;
use std::path::Path;
use std::time::{Duration, Instant};

use criterion::{BenchmarkId, Criterion};
use plan::Ledger;
use plan::balls::program_balls;
use plan::casing_packer::rate_casing_packer;
use plan::ladder::choose_ladder;
use plan::layout::lay_out;
use plan::setting::set_packers;
use plan::stages::treat_stages;
use plan::strings::rate_strings;
use support::folder::JobFolder;
use support::made::Made;
use well::read_job;

/// Numbers of stages, each twice the one before.
const STAGES: [usize; 5] = [10, 20, 40, 80, 160];

/// Number of stages of the job that the command is measured on.
const COMMAND: usize = 40;

/// Processor time of this thread, or where it is not told, time on the wall.
#[derive(Clone, Copy)]
struct Clock(Option<u64>, Instant);

impl Clock {
    fn start() -> Self {
        Self(Self::processor(), Instant::now())
    }

    /// Nanoseconds this thread has run. The kernel brings the count up to date when the thread is
    /// put down, and else only at its ticks, milliseconds apart; so the thread sleeps first.
    fn processor() -> Option<u64> {
        std::thread::sleep(Duration::from_micros(1));
        let told = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
        told.split_whitespace().next()?.parse().ok()
    }

    fn spent(self) -> Duration {
        match self.0.zip(Self::processor()) {
            Some((start, end)) => Duration::from_nanos(end.saturating_sub(start).max(1)),
            None => self.1.elapsed(),
        }
    }
}

/// Times of one turn, by phase and number of stages.
#[derive(Default)]
struct Times(RefCell<BTreeMap<(usize, usize), Vec<f64>>>);

impl Times {
    /// Measures a phase at a size; every sample is kept for the table.
    fn measure<T>(
        &self,
        c: &mut Criterion,
        (row, name): (usize, &str),
        stages: usize,
        mut turn: impl FnMut() -> T,
    ) {
        let mut group = c.benchmark_group(name);
        group
            .sample_size(10)
            .warm_up_time(Duration::from_millis(300))
            .measurement_time(Duration::from_secs(1));
        group.bench_function(BenchmarkId::from_parameter(stages), |bencher| {
            bencher.iter_custom(|turns| {
                let clock = Clock::start();
                for _ in 0..turns {
                    turn();
                }
                let spent = clock.spent();
                self.0
                    .borrow_mut()
                    .entry((row, stages))
                    .or_default()
                    .push(spent.as_secs_f64() / turns as f64);
                spent
            });
        });
        group.finish();
    }

    /// Fastest sample, ms: the one that other work on the machine disturbed least.
    fn fastest(&self, row: usize, stages: usize) -> Option<f64> {
        let all = self.0.borrow();
        all.get(&(row, stages))?.iter().copied().min_by(f64::total_cmp).map(|s| s * 1e3)
    }

    /// The table: times, and the power of the number of stages with which they grow, between the
    /// last two sizes and from the first to the last.
    fn table(&self, names: &[&str]) -> String {
        let heads: String = STAGES.iter().map(|n| format!(" {n} stages |")).collect();
        let ends = (STAGES[0], STAGES[STAGES.len() - 1]);
        let mut out =
            format!("| phase, ms |{heads} times {} to {} | power, last doubling |\n", ends.0, ends.1);
        out += &format!("| --- |{}\n", " ---: |".repeat(STAGES.len() + 2));
        for (row, name) in names.iter().enumerate() {
            let times: Vec<f64> = STAGES.iter().filter_map(|n| self.fastest(row, *n)).collect();
            let [first, .., before, last] = times[..] else { continue };
            let cells: String = times.iter().map(|t| format!(" {t:.1} |")).collect();
            let power = (last / before).log2();
            out += &format!("| {name} |{cells} {:.0} | {power:.1} |\n", last / first);
        }
        out
    }
}

/// Writes a job where the command can read it.
fn leave(folder: &JobFolder, stages: usize) {
    let place = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{stages}-stages"));
    let written = std::fs::create_dir_all(&place).and_then(|()| {
        folder.host().0.iter().try_for_each(|(name, bytes)| std::fs::write(place.join(name), bytes))
    });
    match written {
        Ok(()) => println!("job: {}", place.display()),
        Err(e) => panic!("{}: {e}", place.display()),
    }
}

const NAMES: [&str; 9] =
    ["read", "layout", "ladder", "strings", "setting", "casing packer", "stages", "balls", "whole plan"];

fn size(c: &mut Criterion, times: &Times, stages: usize) {
    let folder: JobFolder = Made::stages(stages).folder();
    let host = folder.host();
    if stages == COMMAND {
        leave(&folder, stages);
    }
    let (job, found) = folder.job();
    let whole = plan::plan(&job, found.clone());
    let (Some(layout), Some(ladder), Some(treated)) = (&whole.layout, &whole.ladder, &whole.stages) else {
        panic!("not planned: {:#?}", whole.findings)
    };
    let new = Ledger::default;
    let mut row = 0;
    let mut next = |turn: &mut dyn FnMut()| {
        times.measure(c, (row, NAMES[row]), stages, turn);
        row += 1;
    };
    next(&mut || drop(black_box(read_job(&host))));
    next(&mut || drop(black_box(lay_out(&job, &mut new()))));
    next(&mut || drop(black_box(choose_ladder(&job, layout, &mut new()))));
    next(&mut || drop(black_box(rate_strings(&job, layout, &mut new()))));
    next(&mut || drop(black_box(set_packers(&job, layout, ladder, &mut new()))));
    next(&mut || drop(black_box(rate_casing_packer(&job, layout, &mut new()))));
    next(&mut || drop(black_box(treat_stages(&job, layout, ladder, &mut new()))));
    next(&mut || drop(black_box(program_balls(&job, layout, ladder, treated, &mut new()))));
    next(&mut || drop(black_box(plan::plan(&job, found.clone()))));
}

fn main() {
    let mut criterion = Criterion::default().configure_from_args();
    let times = Times::default();
    for stages in STAGES {
        size(&mut criterion, &times, stages);
    }
    criterion.final_summary();
    println!("\n{}", times.table(&NAMES));
}
