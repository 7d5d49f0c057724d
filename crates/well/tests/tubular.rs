//! The catalogue of pipe, pipe the user defines, and their ratings.
#![allow(clippy::unwrap_used)]

use physics::tubular::collapse_yield::{CollapseLoad, CollapseMethod};
use physics::tubular::plain_end_mass::plain_end_mass;
use proptest::prelude::*;
use quantity::{Density, Diameter, Force, MassPerLength, Pressure, Quantity, Ratio};
use well::tubular::{
    Catalogue, Connection, Origin, Pipe, PipeSpec, RatedConnection, StatedRatings, TubularError,
};

fn catalogue() -> &'static Catalogue {
    Catalogue::standard().unwrap()
}

fn spec(outer: f64, weight: f64, grade: &str, connection: Connection) -> PipeSpec {
    PipeSpec::standard(Diameter::inch(outer), MassPerLength::lb_per_ft(weight), grade, connection)
}

fn pipe(spec: PipeSpec) -> Pipe {
    Pipe::new(spec, catalogue()).unwrap()
}

#[test]
fn every_size_weighs_what_its_dimensions_say() {
    for size in catalogue().sizes() {
        let plain = plain_end_mass(size.outer, size.wall).unwrap();
        let share = size.weight / plain;
        assert!((1.0..1.06).contains(&share), "{}: {share}", size.name());
        assert_eq!(catalogue().find(size.outer, size.weight).unwrap(), size);
    }
}

#[test]
fn every_size_and_grade_has_its_ratings() {
    for size in catalogue().sizes() {
        for grade in catalogue().grades() {
            let spec = PipeSpec::standard(size.outer, size.weight, &grade.name, Connection::Buttress);
            let pipe = pipe(spec);
            assert!(pipe.collapse().unwrap().value.in_psi() > 100.0, "{}", pipe.name());
            assert!(pipe.internal_yield().unwrap().value.in_psi() > 1_000.0);
            assert!(pipe.drift() < pipe.inner());
            assert!(pipe.tension().unwrap().value.si() <= pipe.body_yield().unwrap().value.si());
            assert!(pipe.doubts().is_empty(), "{}", pipe.name());
        }
    }
}

#[test]
fn a_slip_is_answered_with_the_nearest() {
    let slip = catalogue().find(Diameter::inch(4.5), MassPerLength::lb_per_ft(11.5)).unwrap_err();
    assert!(slip.to_string().contains("nearest: 4-1/2 in 11.6 lb/ft"), "{slip}");
    assert_eq!(slip.finding().id, "tubular-size-unknown");
    let slip = catalogue().grade("P-100").unwrap_err();
    assert!(slip.to_string().contains("nearest: `P110`"), "{slip}");
    assert_eq!(catalogue().grade("q-125").unwrap().name, "Q125");
    let metric = catalogue().find(Diameter::mm(139.7), MassPerLength::lb_per_ft(17.0)).unwrap();
    assert_eq!(metric.name(), "5-1/2 in 17 lb/ft");
}

#[test]
fn a_figure_opens_to_its_workings() {
    let liner = pipe(spec(4.5, 13.5, "P110", Connection::LongRound));
    let collapse = liner.collapse().unwrap();
    assert_eq!(collapse.evaluation().unwrap().relation.name, "api_collapse");
    assert!((collapse.value.in_psi() - 10_690.0).abs() < 10.0);
    assert!(liner.joint_strength().unwrap().origin_text().contains("round_thread_strength"));
    let in_air = liner.buoyed_weight_rated(Density::ZERO, Density::ZERO).unwrap().value;
    assert!((in_air.in_lbf_per_ft() - 13.5).abs() < 1e-9);
}

#[test]
fn capacities_are_those_of_the_circle() {
    // bbl/ft = D^2 / 1029.414, D in inches
    for (outer, weight, inner) in
        [(4.5, 11.6, 4.0), (4.5, 13.5, 3.92), (5.5, 20.0, 4.778), (7.0, 29.0, 6.184)]
    {
        let pipe = pipe(spec(outer, weight, "P110", Connection::Buttress));
        let expected = inner * inner / 1_029.414;
        assert!((pipe.capacity().in_bbl_per_ft() - expected).abs() < 1e-6);
        let sum = pipe.capacity() + pipe.steel_displacement();
        assert!((sum - pipe.closed_displacement()).in_bbl_per_ft().abs() < 1e-12);
    }
}

#[test]
fn what_the_user_states_goes_before_the_catalogue() {
    let mut own = spec(4.5, 11.6, "P110", Connection::Buttress);
    own.drift = Some(Diameter::inch(3.9));
    own.ratings = StatedRatings {
        collapse: Some(Pressure::psi(8_500.0)),
        source: "supplier sheet 12".into(),
        ..Default::default()
    };
    let own = pipe(own);
    assert_eq!(own.drift(), Diameter::inch(3.9));
    assert_eq!(own.collapse().unwrap().value, Pressure::psi(8_500.0));
    let load = CollapseLoad { axial_stress: Pressure::psi(30_000.0), internal_pressure: Pressure::ZERO };
    let loaded = own.collapse_under(load, CollapseMethod::CombinedStress).unwrap();
    let plain = pipe(spec(4.5, 11.6, "P110", Connection::Buttress));
    let share = plain.collapse_under(load, CollapseMethod::CombinedStress).unwrap().value
        / plain.collapse().unwrap().value;
    assert!((loaded.value.in_psi() - 8_500.0 * share).abs() < 1e-6);
    assert!(matches!(loaded.origin, Origin::Reduced { .. }));
}

#[test]
fn a_pipe_outside_the_catalogue_needs_its_bore_and_strength() {
    let mut own = spec(4.75, 14.0, "ours-105", Connection::Buttress);
    let error = Pipe::new(own.clone(), catalogue()).unwrap_err();
    assert!(matches!(error, TubularError::NoSize { .. }));
    own.inner = Some(Diameter::inch(4.2));
    let error = Pipe::new(own.clone(), catalogue()).unwrap_err();
    assert!(matches!(error, TubularError::NoGrade { .. }));
    own.yield_strength = Some(Pressure::ksi(105.0));
    let made = pipe(own.clone());
    assert!(matches!(made.joint_strength(), Err(TubularError::NoUltimate { .. })));
    own.ultimate_strength = Some(Pressure::ksi(120.0));
    assert!(pipe(own).joint_strength().unwrap().value.in_klbf() > 100.0);
}

#[test]
fn threads_and_ratings_that_are_not_known_are_not_made_up() {
    let short = pipe(spec(5.5, 23.0, "P110", Connection::ShortRound));
    assert!(matches!(short.joint_strength(), Err(TubularError::NoThread { .. })));
    let rated = RatedConnection {
        outer: Some(Diameter::inch(5.0)),
        tension: Some(Force::klbf(400.0)),
        source: "supplier sheet 3".into(),
        ..Default::default()
    };
    let liner = pipe(spec(4.5, 13.5, "P110", Connection::Rated(rated)));
    assert_eq!(liner.tension().unwrap().value, Force::klbf(400.0));
    assert_eq!(liner.largest_outer(), Diameter::inch(5.0));
    assert!(matches!(liner.joint_compression(), Err(TubularError::NoRating { .. })));
    assert_eq!(liner.joint_compression().unwrap_err().finding().id, "tubular-connection-rating");
}

#[test]
fn impossible_measures_are_refused() {
    let refused = |change: fn(&mut PipeSpec)| {
        let mut s = spec(4.5, 11.6, "P110", Connection::Buttress);
        change(&mut s);
        matches!(Pipe::new(s, catalogue()), Err(TubularError::Measure { .. }))
    };
    assert!(refused(|s| s.inner = Some(Diameter::inch(4.6))));
    assert!(refused(|s| s.inner = Some(Diameter::inch(-4.0))));
    assert!(refused(|s| s.outer = Diameter::inch(-4.5)));
    assert!(refused(|s| s.weight = MassPerLength::lb_per_ft(0.0)));
    assert!(refused(|s| s.drift = Some(Diameter::inch(4.1))));
    assert!(refused(|s| s.wall_tolerance = Ratio::of(1.5)));
    assert!(refused(|s| s.yield_factor = Ratio::of(0.0)));
    assert!(refused(|s| s.ultimate_strength = Some(Pressure::ksi(80.0))));
    assert!(refused(|s| s.ratings.collapse = Some(Pressure::psi(-1.0))));
}

#[test]
fn heat_lowers_every_computed_rating() {
    let cold = pipe(spec(5.5, 20.0, "P110", Connection::Buttress));
    let mut hot = spec(5.5, 20.0, "P110", Connection::Buttress);
    hot.yield_factor = Ratio::of(0.95);
    let hot = pipe(hot);
    let share = hot.internal_yield().unwrap().value / cold.internal_yield().unwrap().value;
    assert!((share - 0.95).abs() < 1e-12);
    assert!(hot.joint_strength().unwrap().value < cold.joint_strength().unwrap().value);
    assert!(hot.collapse().unwrap().value < cold.collapse().unwrap().value);
}

#[test]
fn a_bore_that_does_not_belong_to_the_weight_is_doubted() {
    let mut odd = spec(4.5, 11.6, "P110", Connection::Buttress);
    odd.inner = Some(Diameter::inch(3.826));
    let doubts = pipe(odd).doubts();
    assert_eq!(doubts.first().map(|f| f.id), Some("tubular-weight"));
}

proptest! {
    #[test]
    fn any_pipe_is_made_or_refused(
        outer in -1.0f64..20.0, inner in -1.0f64..20.0, weight in -5.0f64..100.0, ksi in -10.0f64..200.0,
    ) {
        let mut s = spec(outer, weight, "own", Connection::Buttress);
        s.inner = Some(Diameter::inch(inner));
        s.yield_strength = Some(Pressure::ksi(ksi));
        if let Ok(pipe) = Pipe::new(s, catalogue()) {
            let _ = (pipe.collapse(), pipe.internal_yield(), pipe.tension(), pipe.doubts());
            prop_assert!(pipe.capacity().si().is_finite());
        }
    }
}
