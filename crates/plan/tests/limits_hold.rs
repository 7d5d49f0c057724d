//! Limits that must bind on a job made tight, and what is on location against what is needed.

#![allow(clippy::unwrap_used, reason = "tests")]

use std::path::Path;

use plan::{Program, plan};
use quantity::*;
use well::job::StageChange;
use well::{Finding, Folder, Job, Severity, read_job};

fn with(name: &str, change: impl FnOnce(&mut Job)) -> Program {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs").join(name);
    let mut job = read_job(&Folder(folder)).value.unwrap();
    change(&mut job);
    plan(&job, Vec::new())
}

fn found<'a>(program: &'a Program, id: &str) -> Option<&'a Finding> {
    program.findings.iter().find(|f| f.id == id)
}

/// A landing is no reason to pump faster than the stage before can take, nor above its limit.
#[test]
fn no_ball_lands_faster_than_the_stage_before_is_pumped() {
    let limit = GaugePressure::psi(4000.0);
    let program = with("long-lateral", |job| job.file.limits.treating_pressure = limit);
    let (stages, balls) = (program.stages.as_ref().unwrap(), program.balls.as_ref().unwrap());
    assert_eq!(balls.cards.len(), 30);
    for card in &balls.cards {
        let before = stages.stage(card.stage.saturating_sub(1).max(1)).unwrap();
        assert!(before.rate_ceiling < FlowRate::bbl_per_min(15.0), "the job is tight");
        for option in &card.options {
            assert!(option.rate <= before.planned_rate, "ball {}", card.stage);
            assert!(option.before <= limit, "ball {}", card.stage);
            assert!(!option.allowed || option.highest <= limit);
        }
        let over = card.chosen.highest > limit;
        let said = |f: &&Finding| f.id == "ball-landing-limit" && f.place.stage == Some(card.stage);
        assert_eq!(over, program.findings.iter().any(|f| said(&f)), "ball {}", card.stage);
    }
    let over = balls.cards.iter().any(|c| c.chosen.highest > limit);
    assert!(over && program.stopped(), "a rise above the limit stops the plan");
}

fn harder(stage: usize, gradient: f64) -> StageChange {
    StageChange {
        from_stage: stage,
        to_stage: stage,
        rate: None,
        scale: Ratio::of(1.0),
        fracture_gradient: Some(PressureGradient::psi_per_ft(gradient)),
        reason: None,
    }
}

/// A stage in harder rock asks more of the packers at both of its ends, and of no other.
#[test]
fn the_packers_bear_the_fracture_gradient_of_their_own_stages() {
    let plain = with("long-lateral", |_| {});
    let hard = with("long-lateral", |job| job.file.treatment.change.push(harder(12, 0.84)));
    let needed = |p: &Program, stage: usize| {
        let place = &p.layout.as_ref().unwrap().stages[stage - 1].packer;
        place.needed / (Length::m(place.tvd.si()) * PressureGradient::psi_per_ft(1.0))
    };
    for stage in 1..=30 {
        // 0.06 psi/ft more with the factor of 1.1
        let more = needed(&hard, stage) - needed(&plain, stage);
        let wanted = if stage == 11 || stage == 12 { 0.066 } else { 0.0 };
        assert!((more - wanted).abs() < 2e-3, "packer {stage}: {more}");
    }
    let beyond = with("long-lateral", |job| job.file.treatment.change.push(harder(12, 1.6)));
    let stop = found(&beyond, "layout-no-place").unwrap();
    assert!(stop.severity == Severity::Stop && stop.message.contains("rating too low"), "{}", stop.message);
    assert!(beyond.layout.is_none());
}

/// Where the supplier gives no rating there is no place for a packer.
#[test]
fn no_packer_stands_where_it_has_no_rating() {
    let cold = Temperature::deg_c(60.0);
    let program = with("long-lateral", |job| job.file.packer.rating.retain(|r| r.temperature < cold));
    let stop = found(&program, "layout-no-place").unwrap();
    assert!(stop.severity == Severity::Stop && stop.message.contains("no rating"), "{}", stop.message);
    assert!(program.layout.is_none());
}

/// Pumps that are all spares pump nothing; that is said as what it is, and not as a pressure.
#[test]
fn all_pumps_kept_as_spares_stop_the_job() {
    let program = with("long-lateral", |job| {
        (job.file.equipment.pumps, job.file.equipment.spare_pumps) = (2, 2);
    });
    let stop = found(&program, "stage-no-power").unwrap();
    assert_eq!((stop.severity, stop.place.stage), (Severity::Stop, Some(1)));
    assert!(program.stages.is_none() && found(&program, "stage-pressure-limit").is_none());
    let pressed = with("long-lateral", |job| job.file.limits.treating_pressure = GaugePressure::psi(100.0));
    assert_eq!(found(&pressed, "stage-pressure-limit").unwrap().severity, Severity::Stop);
    assert!(found(&pressed, "stage-no-power").is_none());
}

/// Tanks and truck loads are judged where the job file says how many there are.
#[test]
fn tanks_and_truck_loads_are_judged_against_what_is_there() {
    let ids = ["stage-tanks", "stage-truck-loads"];
    let plain = with("long-lateral", |_| {});
    let totals = &plain.stages.as_ref().unwrap().totals;
    let loads: usize = totals.proppants.iter().map(|p| p.trucks).sum();
    let supplied = |tanks: usize, trucks: usize| {
        with("long-lateral", |job| {
            job.file.equipment.tanks = Some(tanks);
            job.file.equipment.truck_loads = Some(trucks);
        })
    };
    let (enough, short) = (supplied(totals.tanks, loads), supplied(totals.tanks - 1, loads - 1));
    for id in ids {
        assert!(found(&plain, id).is_none() && found(&enough, id).is_none(), "{id}");
        assert_eq!(found(&short, id).unwrap().severity, Severity::Warn, "{id}");
    }
}

/// Setting needs the string's own volume, what goes into it closed, and the activation fluid.
#[test]
fn the_fluids_of_setting_are_counted() {
    for (name, count) in [("long-lateral", 2), ("shallow-oil", 1)] {
        let program = with(name, |_| {});
        let setting = program.setting.as_ref().unwrap();
        assert_eq!(setting.fluids.len(), count, "{name}");
        let string = &setting.fluids[0];
        assert_eq!(string.fills, setting.string_volume);
        let highest = setting.sheet.iter().filter_map(|s| s.volume_held).fold(Volume::ZERO, Volume::max);
        assert!(string.into_closed >= highest && string.into_closed < string.fills * 0.2, "{name}");
        for fluid in &setting.fluids {
            assert_eq!(fluid.volume, fluid.fills + fluid.into_closed);
            assert!(fluid.tanks > 0);
        }
        if let (Some(a), Some(f)) = (&setting.activation, setting.fluids.get(1)) {
            assert_eq!(f.volume, a.volume);
        }
    }
}
