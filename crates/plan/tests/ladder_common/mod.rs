//! The example jobs for the tests of the ladder.

#![allow(clippy::unwrap_used)] // helpers of tests
#![allow(dead_code)] // each test file takes what it needs

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Mutex;

use plan::Ledger;
use plan::ladder::{LadderPlan, choose_ladder};
use plan::layout::{Layout, lay_out};
use quantity::*;
use well::{Finding, Folder, Job, Severity, read_job};

/// The examples, each read once.
static READ: Mutex<BTreeMap<String, (Job, Layout)>> = Mutex::new(BTreeMap::new());

/// An example job with its layout.
pub fn example(name: &str) -> (Job, Layout) {
    let mut read = READ.lock().unwrap();
    let made = || {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs").join(name);
        let job = read_job(&Folder(folder)).value.unwrap();
        let layout = lay_out(&job, &mut Ledger::default()).unwrap();
        (job, layout)
    };
    read.entry(name.to_string()).or_insert_with(made).clone()
}

/// The ladder of a job with what was said of it.
pub fn ladder(job: &Job, layout: &Layout) -> (Option<LadderPlan>, Ledger) {
    let mut ledger = Ledger::default();
    let plan = choose_ladder(job, layout, &mut ledger);
    (plan, ledger)
}

/// The ladder of a job that has one.
pub fn plan(job: &Job, layout: &Layout) -> LadderPlan {
    ladder(job, layout).0.unwrap()
}

/// Findings of a check.
pub fn said<'a>(ledger: &'a Ledger, id: &str) -> Vec<&'a Finding> {
    ledger.findings.iter().filter(|f| f.id == id).collect()
}

/// Ids of the findings that stop the job.
pub fn stops(ledger: &Ledger) -> Vec<&'static str> {
    ledger.findings.iter().filter(|f| f.severity == Severity::Stop).map(|f| f.id).collect()
}

/// Whether two numbers agree to a part in a thousand million.
pub fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1e-12)
}

/// What holds of every ladder, whatever the method.
pub fn check_order(job: &Job, plan: &LadderPlan) {
    for pair in plan.rungs.windows(2) {
        assert_eq!(pair[0].stage + 1, pair[1].stage);
        assert!(pair[0].ball < pair[1].ball && pair[0].seat < pair[1].seat);
        assert!(pair[0].ball < pair[1].seat, "ball of stage {} hangs one seat above its own", pair[0].stage);
    }
    for rung in &plan.rungs {
        assert!(rung.ball > rung.seat && rung.least_interference > Diameter::ZERO);
        assert!(
            rung.least_interference <= rung.interference && rung.interference <= rung.greatest_interference
        );
        assert_eq!(
            rung.passages.len(),
            plan.rungs.len() - 1 - plan.rungs.iter().position(|r| r == rung).unwrap()
        );
        for p in &rung.passages {
            assert_eq!(Some(p.seat), plan.seat(p.stage));
            assert!(p.least <= p.nominal && p.nominal <= p.greatest);
            assert!(rung.clearance.unwrap() <= p.least);
        }
        assert!(rung.rating > Pressure::ZERO && rung.rating.is_finite());
        let used = rung.expected_differential * job.file.ball.safety_factor.si() / rung.rating;
        assert!(close(used, rung.utilisation.si()));
    }
}
