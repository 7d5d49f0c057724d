//! Runs a job folder and prints its first events and its landings, without the command round it.

use quantity::{Quantity, System};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = std::env::args().nth(1).unwrap_or_else(|| "jobs/long-lateral".into());
    let read = well::read_job(&well::Folder(folder.into()));
    let job = read.value.ok_or("the job is not complete; run `heelward check`")?;
    let program = plan::plan(&job, read.findings);
    let run = pump::pump(&job, &program, pump::Settings::default())?;
    for e in run.events.iter().take(30) {
        println!("{:>10.1} s  {}", e.time.in_seconds(), e.text);
    }
    for l in &run.landings {
        let (pumped, highest) = (l.pumped.text(System::Field), l.highest.text(System::Field));
        let opened = l.opened.map_or(f64::NAN, |o| (o - l.landed).in_seconds());
        println!("landing {:>2}: {pumped} pumped, opened after {opened:.2} s, highest {highest}", l.stage);
    }
    println!("{} samples, lost {:e} m3 of slurry", run.samples.len(), run.lost().slurry.si());
    for f in &run.findings {
        println!("{} {}", f.id, f.message);
    }
    Ok(())
}
