use plan::Ledger;
use plan::casing_packer::*;
use plan::layout::lay_out;
use plan::strings::*;
use quantity::*;
use std::path::Path;
use well::{Folder, Job, read_job};
fn job(name: &str) -> Job {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs").join(name);
    read_job(&Folder(folder)).value.unwrap()
}
#[test]
fn show() {
    for name in ["long-lateral", "shallow-oil"] {
        let job = job(name);
        let mut ledger = Ledger::default();
        let layout = lay_out(&job, &mut ledger).unwrap();
        let mut ledger = Ledger::default();
        let plan = rate_strings(&job, &layout, &mut ledger).unwrap();
        println!(
            "== {name} lowest {} {} relief {:?}",
            plan.lowest_internal_yield, plan.highest_treating_pressure, plan.relief_share
        );
        for s in &plan.strings {
            println!(
                "-- {} {} {} {} hung {} w {} bend {} vol {}",
                s.name, s.pipe, s.top, s.bottom, s.hung, s.buoyed_weight, s.sharpest_bend, s.volume
            );
            println!("   {:?}", s.ratings);
            for l in &s.loads {
                let f = |r: Option<Ratio>| r.map_or("-".into(), |r| format!("{:.2}", r.si()));
                println!(
                    "   {:?} {:?} {} in {} out {} F {} (h {} b {} t {} s {}) vm {} | {} {} {} {}",
                    l.case,
                    l.point,
                    l.depth,
                    l.inside,
                    l.outside,
                    l.axial,
                    l.hanging,
                    l.ballooning,
                    l.thermal,
                    l.seat,
                    l.von_mises,
                    f(l.burst),
                    f(l.collapse),
                    f(l.tension),
                    f(l.triaxial)
                );
            }
        }
        let cp = rate_casing_packer(&job, &layout, &mut ledger).unwrap();
        println!("{:?} T {} drift {:?} clr {:?}", cp.hung, cp.temperature, cp.casing_drift, cp.clearance);
        for c in &cp.cases {
            println!(
                "   {:?} {:?} {:?} below {} above {} dp {} load {} lim {:?} u {:?}\n       {:?}",
                c.case,
                c.bound,
                c.below_is,
                c.below,
                c.above,
                c.differential,
                c.load,
                c.load_limit.map(|f| f.to_string()),
                c.utilisation.map(|r| r.si()),
                c.parts
            );
        }
        for f in &ledger.findings {
            println!("{:?} {} {} {:?}", f.severity, f.id, f.sentence(System::Field), f.place.field);
        }
        for (k, w) in &ledger.workings {
            println!(
                "{k}: {} = {:?} [{}] {}",
                w.title,
                w.value.text(System::Field),
                w.steps.iter().map(|s| s.relation.as_str()).collect::<Vec<_>>().join(", "),
                w.note
            );
        }
    }
}
