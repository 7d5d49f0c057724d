//! Runs a job folder and prints its first events and its landings, without the command round it.

use quantity::{Quantity, System};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = std::env::args().nth(1).unwrap_or_else(|| "jobs/long-lateral".into());
    let read = well::read_job(&well::Folder(folder.into()));
    let job = read.value.ok_or("the job is not complete; run `heelward check`")?;
    let program = plan::plan(&job, read.findings);
    let fault = std::env::args().nth(3).map(|t| pump::fault::Fault::parse(&t)).transpose()?;
    let settings = pump::Settings { faults: fault.into_iter().collect(), ..Default::default() };
    let run = pump::pump(&job, &program, &settings)?;
    for e in run.events.iter().take(30) {
        println!("{:>10.1} s  {}", e.time.in_seconds(), e.text);
    }
    for l in &run.landings {
        let (pumped, highest) = (l.pumped.text(System::Field), l.highest.text(System::Field));
        let opened = l.opened.map_or(f64::NAN, |o| (o - l.landed).in_seconds());
        println!("landing {:>2}: {pumped} pumped, opened after {opened:.2} s, highest {highest}", l.stage);
    }
    for s in &run.stages {
        let Some(r) = s.rock else { continue };
        let f = System::Field;
        let words =
            [r.net_pressure.text(f), r.length.text(f), r.width.text(f), r.efficiency.text(f), r.pad.text(f)];
        println!(
            "stage {:>2}: {} pad needed {} front {}",
            s.stage,
            words.join(", "),
            r.pad_needed.text(f),
            r.front.text(f)
        );
    }
    if let Some(from) = std::env::args().nth(2).and_then(|t| t.parse::<f64>().ok()) {
        for x in run.samples.iter().filter(|x| (from..from + 120.0).contains(&x.time.in_seconds())) {
            let (p, q) = (x.treating_pressure.in_psi(), x.slurry_rate.in_bbl_per_min());
            println!(
                "{:>10.2} {p:>9.1} {q:>7.2} {:>9.1}",
                x.time.in_seconds(),
                x.bottomhole_pressure.in_psi()
            );
        }
    }
    for l in &run.labels {
        println!(
            "label {} stage {} from {:.0} s until {:?}: {}",
            l.kind.name(),
            l.stage,
            l.from.in_seconds(),
            l.until.map(|t| t.in_seconds()),
            l.text
        );
    }
    println!("{} samples, lost {:e} m3 of slurry", run.samples.len(), run.lost().slurry.si());
    for f in &run.findings {
        println!("{} {}", f.id, f.message);
    }
    Ok(())
}
