//! Stage hydraulics and the ball program on the two example jobs: identities that must hold
//! whatever the figures are.

#![allow(clippy::unwrap_used)]
use plan::balls::BallPlan;
use plan::ladder::LadderPlan;
use plan::layout::Layout;
use plan::path::FlowPath;
use plan::stages::{BoundBy, Mixture, StageLine, StagesPlan};
use plan::{Program, plan};
use quantity::*;
use well::{Folder, Job, read_job};

struct Planned {
    job: Job,
    program: Program,
}

impl Planned {
    fn of(name: &str) -> Self {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs").join(name);
        let read = read_job(&Folder(folder));
        let job = read.value.unwrap();
        let program = plan(&job, read.findings);
        Self { job, program }
    }

    fn parts(&self) -> (&Layout, &LadderPlan, &StagesPlan, &BallPlan) {
        let p = &self.program;
        (
            p.layout.as_ref().unwrap(),
            p.ladder.as_ref().unwrap(),
            p.stages.as_ref().unwrap(),
            p.balls.as_ref().unwrap(),
        )
    }
}

fn both() -> [Planned; 2] {
    [Planned::of("long-lateral"), Planned::of("shallow-oil")]
}

fn close(a: f64, b: f64, relative: f64) -> bool {
    (a - b).abs() <= relative * a.abs().max(b.abs()).max(1e-12)
}

#[test]
fn the_parts_make_the_pressure_and_the_power() {
    for planned in both() {
        let (_, _, stages, _) = planned.parts();
        for s in &stages.stages {
            let p = &s.pressure;
            let sum = p.fracture - p.hydrostatic + p.pipe + p.seats + p.ports + p.near_wellbore;
            assert!(close(sum.si(), p.surface.si(), 1e-12), "stage {}", s.stage);
            // hydraulic horsepower = psi x bbl/min / 40.8163 (550 ft lbf/s a horsepower)
            let hp = p.surface.in_psi() * s.planned_rate.in_bbl_per_min() / 40.816_326_5;
            assert!(close(s.power.in_hp(), hp, 1e-5), "stage {}", s.stage);
            assert!(p.surface <= planned.job.file.limits.treating_pressure);
            assert!(s.planned_rate <= s.rate_ceiling && s.planned_rate <= s.wanted_rate);
        }
    }
}

#[test]
fn the_ceiling_is_where_the_limit_is_met() {
    for planned in both() {
        let (layout, ladder, stages, _) = planned.parts();
        let job = &planned.job;
        let lines = StageLine::all(job, layout, ladder).unwrap();
        let mixtures: Vec<Mixture<'_>> =
            job.file.treatment.step.iter().filter_map(|s| Mixture::of_step(&job.file, s)).flatten().collect();
        let limit = job.file.limits.treating_pressure;
        for (line, s) in lines.iter().zip(&stages.stages) {
            let at = |q: FlowRate| line.worst(q, &mixtures).unwrap().unwrap().parts.surface;
            if s.bound_by == BoundBy::Pressure {
                assert!((at(s.rate_ceiling) - limit).in_psi().abs() < 0.01, "stage {}", s.stage);
                assert!(at(s.rate_ceiling * 1.01) > limit);
            }
            assert!(at(s.rate_ceiling) - limit < Pressure::psi(0.01));
        }
        let rising = stages.stages.windows(2).all(|w| w[1].rate_ceiling >= w[0].rate_ceiling * (1.0 - 1e-9));
        assert!(rising, "the ceiling falls toward the heel");
        assert!(stages.toe_rate_without_seats > stages.stages[0].rate_ceiling * 0.999);
    }
}

#[test]
fn a_stage_never_pays_for_its_own_seat() {
    let planned = Planned::of("long-lateral");
    let (layout, ladder, _, _) = planned.parts();
    let fluid = Mixture::clean(&planned.job.file.fluid[0]);
    let rate = FlowRate::bbl_per_min(20.0);
    let path = FlowPath::of(&planned.job, layout);
    for stage in [1, 7, 30] {
        let place = layout.stage(stage).unwrap();
        let seats = |changed: usize| {
            let mut other = ladder.clone();
            let rung = other.rungs.iter_mut().find(|r| r.stage == changed).unwrap();
            rung.seat = rung.seat * 0.9;
            StageLine::of(&planned.job, &path, layout, place, &other)
                .unwrap()
                .parts(rate, &fluid)
                .unwrap()
                .seats
        };
        let whole = StageLine::of(&planned.job, &path, layout, place, ladder)
            .unwrap()
            .parts(rate, &fluid)
            .unwrap()
            .seats;
        assert_eq!(seats(stage), whole, "stage {stage} pays for its own seat");
        if stage < 30 {
            assert!(seats(stage + 1) > whole, "stage {stage} does not pay for the next seat");
        }
        if stage > 1 {
            assert_eq!(seats(stage - 1), whole, "stage {stage} pays for a seat toe-ward");
        }
    }
}

#[test]
fn the_schedule_keeps_mass_and_volume() {
    for planned in both() {
        let (_, _, stages, balls) = planned.parts();
        let file = &planned.job.file;
        for s in &stages.stages {
            for step in &s.steps {
                // The ramp is linear in clean volume: sum it in a thousand slices.
                let grain = file.proppant.iter().find(|p| Some(&p.name) == step.proppant.as_ref());
                let n = 1000;
                let slice = step.clean.si() / f64::from(n);
                let (mut mass, mut slurry) = (0.0, 0.0);
                for i in 0..n {
                    let share = (f64::from(i) + 0.5) / f64::from(n);
                    let c = step.from.si() + share * (step.to.si() - step.from.si());
                    mass += c * slice;
                    slurry += slice * (1.0 + grain.map_or(0.0, |g| c / g.grain_density.si()));
                }
                assert!(close(mass, step.mass.si(), 1e-9) && close(slurry, step.slurry.si(), 1e-9));
                assert!(close(step.time.si() * s.planned_rate.si(), step.slurry.si(), 1e-12));
            }
            let last = s.steps.last().unwrap();
            assert!(close(last.cumulative.si(), s.slurry.si(), 1e-12));
        }
        let t = &stages.totals;
        let mass: Mass = t.proppants.iter().map(|p| p.mass).sum();
        let fluid: Volume = t.fluids.iter().map(|f| f.volume).sum();
        assert!(close(mass.si(), t.mass.si(), 1e-9));
        assert!(close((fluid + t.spacers_and_flush).si(), t.clean.si(), 1e-9));
        assert!(balls.job_time > t.pump_time);
    }
}

#[test]
fn every_ball_leaves_and_lands_in_order() {
    for planned in both() {
        let (layout, ladder, stages, balls) = planned.parts();
        let job = &planned.job;
        let path = FlowPath::of(job, layout);
        assert_eq!(balls.cards.len(), ladder.frac_balls);
        for c in &balls.cards {
            let place = layout.stage(c.stage).unwrap();
            let tree = job.file.launcher.tree_volume;
            assert_eq!(c.launched_during + 1, c.stage);
            assert!(close((path.volume_to(place.sleeve.ports) + tree).si(), c.swept.si(), 1e-12));
            assert!(c.landing.p10 < c.landing.p50 && c.landing.p50 < c.landing.p90);
            assert!((0.75..1.0).contains(&c.carrying.si()), "ball {} at {}", c.stage, c.carrying);
            assert!(c.window_opens < c.landing.p50 && c.landing.p90 < c.missing_at);
            assert!(c.rate_cut_at < c.landing.p10);
            if let Some(before) = stages.stage(c.launched_during) {
                let launch = before.slurry + job.file.launcher.line_volume + c.spacer_ahead;
                assert!(close(launch.si(), c.launch_at.si(), 1e-12));
                // At its earliest the ball lands when the last proppant is past the open sleeve.
                assert!(c.landing.p10 + c.spacer_ahead >= before.volume_to_ports + tree - Volume::bbl(1e-6));
                assert!(c.spacer_ahead >= job.file.ball_program.spacer_ahead);
            }
        }
        let rising =
            balls.cards.windows(2).all(|w| w[1].ball > w[0].ball && w[1].seat_depth < w[0].seat_depth);
        assert!(rising, "the smallest ball is at the toe");
    }
}

#[test]
fn the_landing_rate_obeys_trip_and_ball() {
    for planned in both() {
        let (_, _, _, balls) = planned.parts();
        let program = &planned.job.file.ball_program;
        for c in &balls.cards {
            let o = &c.chosen;
            assert!(o.allowed, "ball {}", c.stage);
            assert!(o.highest + program.headroom <= planned.job.file.limits.trip + Pressure::pa(1.0));
            assert!(o.impact_share <= program.impact_share);
            // Closed form without friction: rise = 2 n J, and n is the least with (2n + 1) J >= shear.
            let (n, j) = (o.signature.round_trips.si(), o.signature.step.si());
            assert!(close(o.signature.rise.si(), 2.0 * n * j, 1e-12));
            assert!((2.0 * n + 1.0) * j >= c.shear.nominal.si() * (1.0 - 1e-12));
            assert!(n == 0.0 || (2.0 * n - 1.0) * j < c.shear.nominal.si());
            assert!(close(o.signature.lasts.si(), 2.0 * n * o.signature.delay.si(), 1e-12));
            assert!(
                c.options
                    .iter()
                    .filter(|x| x.allowed && x.visible)
                    .all(|x| x.rate <= c.landing_rate || !o.visible)
            );
        }
    }
}

#[test]
fn the_same_job_gives_the_same_program() {
    for name in ["long-lateral", "shallow-oil"] {
        let (a, b) = (Planned::of(name), Planned::of(name));
        let text = |p: &Planned| serde_json::to_string(&p.program).unwrap();
        let (a, b) = (text(&a), text(&b));
        assert!(a == b, "{name} differs from run to run");
        assert!(!a.contains("\"value\":null"), "a figure of {name} is not a number");
    }
}
