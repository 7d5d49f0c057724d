//! How long a simulated job takes, and how that grows with its hours and its stages; and a thousand
//! jobs on all cores.
//!
//! `cargo bench -p pump` measures and prints the table of docs/speed.md, with `-- thousand` the
//! thousand jobs too; `scripts/bench` runs it and writes that page. Counted is the processor time of the measuring thread where the system
//! tells it, so that other work on the machine does not count; the jobs on all cores are timed on
//! the wall.
#![allow(clippy::panic, clippy::unwrap_used, reason = "a benchmark fails by panicking")]

use std::hint::black_box;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

use plan::Program;
use pump::{Settings, pump};
use well::Job;

/// Runs of each job; the fastest counts.
const TURNS: usize = 5;
/// Jobs on all cores.
const JOBS: usize = 1000;

fn planned(change: impl Fn(String) -> String) -> (Job, Program) {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs/long-lateral");
    let mut files = well::Memory::default();
    for entry in std::fs::read_dir(folder).unwrap().map(Result::unwrap) {
        let name = entry.file_name().to_string_lossy().into_owned();
        let bytes = std::fs::read(entry.path()).unwrap();
        let bytes =
            if name == "job.toml" { change(String::from_utf8(bytes).unwrap()).into_bytes() } else { bytes };
        files.0.insert(name, bytes);
    }
    let read = well::read_job(&files);
    let job = read.value.unwrap();
    let program = plan::plan(&job, read.findings);
    (job, program)
}

/// Nanoseconds this thread has run; it sleeps first, so that the kernel brings the count up to date.
fn processor() -> Option<u64> {
    std::thread::sleep(Duration::from_micros(1));
    std::fs::read_to_string("/proc/thread-self/schedstat").ok()?.split_whitespace().next()?.parse().ok()
}

/// Least time of a turn, s.
fn fastest(mut turn: impl FnMut()) -> f64 {
    let one = |turn: &mut dyn FnMut()| {
        let (start, wall) = (processor(), Instant::now());
        turn();
        match start.zip(processor()) {
            Some((a, b)) => (b - a) as f64 * 1e-9,
            None => wall.elapsed().as_secs_f64(),
        }
    };
    (0..TURNS).map(|_| one(&mut turn)).fold(f64::INFINITY, f64::min)
}

fn hours(job: &Job, program: &Program) -> (f64, f64) {
    let run = pump(job, program, &Settings::default()).unwrap();
    let spent = fastest(|| {
        black_box(pump(job, program, &Settings::default()).unwrap());
    });
    (run.samples.last().unwrap().time.in_hours(), spent)
}

/// Half the number of stages of a program, or as many.
fn cut(mut program: Program, stages: usize) -> Program {
    program.stages.as_mut().unwrap().stages.truncate(stages);
    program.balls.as_mut().unwrap().cards.retain(|c| c.stage <= stages);
    program
}

/// A thousand jobs, each with its own seed, fault and noise, on a number of threads.
fn thousand(job: &Job, program: &Program, threads: usize) -> f64 {
    let next = AtomicUsize::new(0);
    let start = Instant::now();
    std::thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                loop {
                    let i = next.fetch_add(1, Ordering::Relaxed);
                    if i >= JOBS {
                        break;
                    }
                    let kind = pump::fault::FAULTS[i % pump::fault::FAULTS.len()].kind;
                    let settings = Settings {
                        seed: i as u64,
                        faults: vec![pump::fault::Fault::usual(kind, 2 + i % 2)],
                        noise: Some(pump::sensors::Noise::default()),
                        ..Settings::default()
                    };
                    black_box(pump(job, program, &settings).unwrap());
                }
            });
        }
    });
    start.elapsed().as_secs_f64()
}

fn main() {
    println!("| job | stages | hours | ms | ms an hour |");
    println!("| --- | ---: | ---: | ---: | ---: |");
    let say = |name: &str, stages: usize, (hours, spent): (f64, f64)| {
        println!("| {name} | {stages} | {hours:.1} | {:.0} | {:.1} |", spent * 1e3, spent * 1e3 / hours);
    };
    for scale in ["0.5", "1", "1.57", "3"] {
        let scaled = |text: String| {
            text.replacen("[[treatment.change]]", &format!("[[treatment.change]]\nfrom_stage = 1\nto_stage = 30\nscale = {scale}\n\n[[treatment.change]]"), 1)
        };
        let (job, program) = planned(scaled);
        say(&format!("volumes times {scale}"), 30, hours(&job, &program));
    }
    let (job, program) = planned(|text| text);
    for stages in [4, 8, 15] {
        say("as it is", stages, hours(&job, &cut(program.clone(), stages)));
    }
    if !std::env::args().any(|a| a == "thousand") {
        return;
    }
    let short = cut(program, 5);
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let (one, all) = (thousand(&job, &short, 1), thousand(&job, &short, cores));
    println!("thousand: {JOBS} jobs of 5 stages: {one:.1} s on 1 thread, {all:.1} s on {cores}");
}
