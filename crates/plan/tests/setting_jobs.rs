//! Setting and swell of the two example jobs.

#![allow(clippy::unwrap_used, clippy::panic)] // helpers of tests

use std::path::Path;

use plan::Ledger;
use plan::ladder::choose_ladder;
use plan::layout::{Layout, lay_out};
use plan::setting::*;
use quantity::*;
use well::{Folder, Job, read_job};

fn job(name: &str) -> Job {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs").join(name);
    let read = read_job(&Folder(folder));
    read.value.unwrap_or_else(|| panic!("{name}: {:#?}", read.findings))
}

fn planned(job: &Job) -> (Layout, SettingPlan, Ledger) {
    let mut ledger = Ledger::default();
    let layout = lay_out(job, &mut ledger).unwrap();
    let ladder = choose_ladder(job, &layout, &mut ledger).unwrap_or_else(|| panic!("{:#?}", ledger.findings));
    let mut ledger = Ledger::default();
    let plan =
        set_packers(job, &layout, &ladder, &mut ledger).unwrap_or_else(|| panic!("{:#?}", ledger.findings));
    (layout, plan, ledger)
}

#[test]
fn show() {
    for name in ["long-lateral", "shallow-oil"] {
        let job = job(name);
        let t = std::time::Instant::now();
        let (_, plan, ledger) = planned(&job);
        println!("=== {name} {:?}", t.elapsed());
        for d in &plan.devices {
            println!(
                "{} {} {} {:?} col {} out {} range {} {} {} surf {} {} full {:?}",
                d.name(),
                d.depth,
                d.tvd,
                d.outside,
                d.column,
                d.outside_pressure,
                d.range.low,
                d.range.nominal,
                d.range.high,
                d.low,
                d.high,
                d.full_set_at.map(|p| p.to_string())
            );
        }
        for s in &plan.sheet {
            println!(
                "{} {:?} dev {:?} acts {:?} low {} high {} by {} target {:?} diff {:?} hold {} pump {:?} held {:?}",
                s.step,
                s.action,
                s.device,
                s.acts_from.map(|p| p.to_string()),
                s.low,
                s.high,
                s.bound_by,
                s.target.map(|p| p.to_string()),
                s.differential.map(|p| p.to_string()),
                s.hold,
                s.volume_to_pump.map(|p| p.to_string()),
                s.volume_held.map(|p| p.to_string())
            );
        }
        for l in &plan.limits {
            println!(
                "{:?} {} {:?} rating {} factor {} out {} ceil {} used {:.3}",
                l.kind,
                l.name,
                l.depth.map(|p| p.to_string()),
                l.rating,
                l.factor.si(),
                l.outside,
                l.ceiling,
                l.used.si()
            );
        }
        println!(
            "circ {} highest {} vol {} comp {} landing {:?} room {:?} endload {} cpdiff {} casing {:?}",
            plan.circulating_limit,
            plan.highest,
            plan.string_volume,
            plan.compressibility,
            plan.landing_rate.map(|p| p.to_string()),
            plan.least_room.map(|p| p.to_string()),
            plan.end_load,
            plan.casing_packer_differential,
            plan.casing_ceiling.as_ref().map(|c| c.ceiling.to_string())
        );
        println!("{:?}", plan.setting_seat);
        for p in plan.pistons.iter().take(3) {
            println!(
                "{:?} {:?} {} {} {} {}",
                p.device, p.stage, p.area, p.at_start, p.at_full_set, p.at_highest
            );
        }
        for t in plan.thrusts.iter().take(3) {
            println!("{} {} {} {} {}", t.stage, t.differential, t.hole, t.thrust, t.contact_stress);
        }
        println!("{:#?}", plan.activation);
        if let Some(s) = &plan.swell {
            let b = |b: &Option<plan::Band<Time>>| {
                b.map(|b| format!("{:.2}/{:.2}/{:.2}", b.p10.in_days(), b.p50.in_days(), b.p90.in_days()))
            };
            for p in &s.packers {
                println!(
                    "{} {} T {} hole {:.3}/{:.3}/{:.3} worst {} want {} contact {:?} rating {:?} mid {:?} {:?} worst {:?} reaches {} ready {} od {} beyond {:.4}",
                    p.stage,
                    p.depth,
                    p.temperature,
                    p.hole.p10.in_inch(),
                    p.hole.p50.in_inch(),
                    p.hole.p90.in_inch(),
                    p.worst_hole,
                    p.wanted,
                    b(&p.contact),
                    b(&p.rating),
                    p.contact_middle.map(|t| t.in_days()),
                    p.rating_middle.map(|t| t.in_days()),
                    p.rating_in_worst_hole.map(|t| t.in_days()),
                    p.reaches.si(),
                    p.ready.si(),
                    p.diameter_at_wait.p50,
                    p.beyond_tests.si()
                );
            }
            println!(
                "earliest {:?} expected {:?} last {:?} first touch {:?} {:?}",
                s.earliest_frac.map(|t| t.in_days()),
                s.expected_frac.map(|t| t.in_days()),
                s.last_packer,
                s.first_touch.map(|t| t.in_days()),
                s.first_touch_packer
            );
            for c in &s.charts {
                println!(
                    "{:?} {} {} points; end {:?}",
                    c.showing,
                    c.stage,
                    c.points.len(),
                    c.points.last().map(|p| (p.time.in_days(), p.diameter.p50.in_inch()))
                );
            }
        }
        for f in &ledger.findings {
            println!("{:?} {} {}", f.severity, f.id, f.sentence(System::Field));
        }
        println!("{} workings", ledger.workings.len());
    }
}
