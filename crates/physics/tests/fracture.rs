//! The growth model against closed forms, its own finer steps, and what must always hold.
#![allow(clippy::unwrap_used, reason = "tests")]

use physics::fracture::coupled::{Plane, coupled_leakoff};
use physics::fracture::drive::{Drive, Opening};
use physics::fracture::growth::{Fracture, Geometry, Ground};
use physics::fracture::kgd::kgd_no_leakoff;
use physics::fracture::nolte_smith::Form;
use physics::fracture::pkn::{PknProfile, pkn_no_leakoff, pkn_storage_rate};
use physics::fracture::proppant::{Filling, Rules, Screenout};
use physics::fracture::radial::{radial_toughness, radial_viscosity};
use physics::fracture::{g_function, nolte};
use proptest::prelude::*;
use quantity::{Diameter, FlowRate, Leakoff, Length, Pressure, Ratio, Spurt, Time, Toughness, Viscosity};

const MU: Viscosity = Viscosity::pa_s(0.2);
const RATE: FlowRate = FlowRate::m3_per_s(2.0 * 0.052_995_76);
const USUAL: Geometry = Geometry::Pkn { height: Length::m(30.0), profile: PknProfile::Usual };
const KGD: Geometry = Geometry::Kgd { height: Length::m(30.0) };

fn ground(geometry: Geometry, c: f64) -> Ground {
    Ground {
        geometry,
        modulus: Pressure::gpa(20.0),
        leakoff: Leakoff::m_per_root_s(c),
        spurt: Spurt::ZERO,
        toughness: Toughness::ZERO,
    }
}

fn drive() -> Drive {
    Drive { modulus: Pressure::gpa(20.0), height: Length::m(30.0), viscosity: MU, wing_rate: RATE / 2.0 }
}

fn pumped(ground: Ground, seconds: f64, step: f64) -> Fracture {
    let mut fracture = Fracture::new(ground).unwrap();
    pump(&mut fracture, RATE, seconds, step);
    fracture
}

fn pump(fracture: &mut Fracture, rate: FlowRate, seconds: f64, step: f64) {
    for _ in 0..(seconds / step).round() as usize {
        fracture.advance(Time::seconds(step), rate, MU).unwrap();
    }
}

fn off(got: f64, expected: f64) -> f64 {
    (got / expected - 1.0).abs()
}

fn same(fracture: &Fracture, opening: &Opening, within: f64) {
    let pairs = [
        (fracture.length().in_m(), opening.length.in_m()),
        (fracture.width().in_m(), opening.width.in_m()),
        (fracture.mean_width().in_m(), opening.mean_width.in_m()),
        (fracture.net_pressure().in_pa(), opening.net_pressure.in_pa()),
    ];
    for (got, expected) in pairs {
        assert!(off(got, expected) < within, "{got} {expected}");
    }
}

#[test]
fn without_leakoff_it_is_the_closed_form_at_any_step() {
    for step in [0.5, 1.0, 60.0, 3600.0] {
        for profile in [PknProfile::ConstantRate, PknProfile::Exact, PknProfile::Usual] {
            let geometry = Geometry::Pkn { height: Length::m(30.0), profile };
            let closed = pkn_no_leakoff(profile, &drive(), Time::hours(1.0)).unwrap();
            same(&pumped(ground(geometry, 0.0), 3600.0, step), &closed, 1e-8);
        }
        let closed = kgd_no_leakoff(&drive(), Time::hours(1.0)).unwrap();
        same(&pumped(ground(KGD, 0.0), 3600.0, step), &closed, 1e-8);
        let closed = radial_viscosity(Pressure::gpa(20.0), MU, RATE, Time::hours(1.0)).unwrap();
        same(&pumped(ground(Geometry::Radial, 0.0), 3600.0, step), &closed, 1e-8);
    }
}

#[test]
fn tough_rock_has_the_toughness_limit() {
    let toughness = Toughness::mpa_root_m(40.0);
    let mut fracture = Fracture::new(Ground { toughness, ..ground(Geometry::Radial, 0.0) }).unwrap();
    for _ in 0..3600 {
        fracture.advance(Time::seconds(1.0), RATE, Viscosity::cp(0.1)).unwrap();
    }
    let closed = radial_toughness(Pressure::gpa(20.0), toughness, RATE, Time::hours(1.0)).unwrap();
    same(&fracture, &closed, 1e-3);
    let mut long = Fracture::new(Ground { toughness, ..ground(USUAL, 0.0) }).unwrap();
    for _ in 0..3600 {
        long.advance(Time::seconds(1.0), RATE, Viscosity::cp(0.001)).unwrap();
    }
    // p = 2 K/√(π h)
    let held = 2.0 * 40e6 / (std::f64::consts::PI * 30.0).sqrt();
    assert!(off(long.net_pressure().in_pa(), held) < 2e-2);
}

#[test]
fn with_leakoff_it_is_near_carters_coupled_form() {
    // That form holds the last width all the time: more length, less loss.
    for (geometry, plane) in [(USUAL, Plane::Pkn(PknProfile::Usual)), (KGD, Plane::Kgd)] {
        for c in [1e-5, 4.92e-5, 2e-4] {
            let leakoff = Leakoff::m_per_root_s(c);
            let (closed, efficiency) =
                coupled_leakoff(plane, &drive(), leakoff, Spurt::ZERO, Time::hours(1.0)).unwrap();
            let fracture = pumped(ground(geometry, c), 3600.0, 1.0);
            println!(
                "{c}: {:.2} {:.2} m, {:.4} {efficiency:.4}",
                fracture.length().in_m(),
                closed.length.in_m(),
                fracture.efficiency()
            );
            assert!(off(fracture.length().in_m(), closed.length.in_m()) < 0.03);
            assert!((fracture.efficiency() - efficiency).abs() < 0.02);
            // the width law holds at the length reached
            let law = match plane {
                Plane::Pkn(p) => physics::fracture::pkn::pkn_at_length(p, &drive(), fracture.length()),
                Plane::Kgd => physics::fracture::kgd::kgd_at_length(&drive(), fracture.length()),
            };
            same(&fracture, &law.unwrap(), 2e-3);
        }
    }
}

#[test]
fn half_the_step_changes_little() {
    for geometry in [USUAL, KGD, Geometry::Radial] {
        for c in [1e-5, 1e-4, 4e-4] {
            let mut ground = ground(geometry, c);
            ground.spurt = Spurt::l_per_m2(0.2);
            ground.toughness = Toughness::mpa_root_m(2.0);
            let (a, b) = (pumped(ground, 3600.0, 1.0), pumped(ground, 3600.0, 0.5));
            let pairs = [
                (a.length().in_m(), b.length().in_m()),
                (a.net_pressure().in_pa(), b.net_pressure().in_pa()),
                (a.mean_width().in_m(), b.mean_width().in_m()),
                (a.efficiency(), b.efficiency()),
            ];
            for (x, y) in pairs {
                assert!(off(x, y) < 1e-3, "{geometry:?} {c}: {x} {y}");
            }
        }
    }
}

#[test]
fn more_rate_is_never_less_fracture() {
    for geometry in [USUAL, KGD, Geometry::Radial] {
        let mut last = (0.0, 0.0, 0.0);
        for bpm in [1.0, 5.0, 10.0, 20.0, 40.0] {
            let mut fracture = Fracture::new(ground(geometry, 5e-5)).unwrap();
            pump(&mut fracture, FlowRate::bbl_per_min(5.0), 600.0, 1.0);
            pump(&mut fracture, FlowRate::bbl_per_min(bpm), 600.0, 1.0);
            let now = (fracture.length().in_m(), fracture.mean_width().in_mm(), fracture.volume().in_m3());
            assert!(now.0 > last.0 && now.1 > last.1 && now.2 > last.2, "{geometry:?} {bpm}");
            last = now;
        }
    }
}

#[test]
fn shut_in_declines_by_the_loss_function() {
    // Little leak-off: the area grew as t^(4/5), and the loss is 4 C A √t_p·(g(δ) − g(0))/2.
    let c = 1e-7;
    let mut fracture = pumped(ground(USUAL, c), 3600.0, 1.0);
    let (area, length) = (fracture.area().in_m2(), fracture.length());
    fracture.advance(Time::seconds(0.0), FlowRate::ZERO, MU).unwrap();
    let (start, p) = (fracture.leaked(), fracture.net_pressure());
    let volume = fracture.volume();
    pump(&mut fracture, FlowRate::ZERO, 3600.0, 1.0);
    assert_eq!(fracture.length(), length);
    let lost = (fracture.leaked() - start).in_m3();
    // ∫ 4 C [√(t_p + Δ − τ) − √(t_p − τ)] dA, A ~ τ^0.8, by the midpoint rule
    let n = 2_000_000;
    let mut sum = 0.0;
    for j in 0..n {
        let a = (f64::from(j) + 0.5) / f64::from(n);
        let tau = a.powf(1.25);
        sum += (2.0 - tau).sqrt() - (1.0 - tau).sqrt();
    }
    let exact = 4.0 * c * area * 60.0 * sum / f64::from(n);
    assert!(off(lost, exact) < 5e-4, "{lost} {exact}");
    let by = |growth| {
        let g = g_function::nolte_g(1.0, growth).unwrap();
        2.0 * c * area * 60.0 * (g.g - g.at_shut_in)
    };
    assert!(by(0.5) < lost && lost < by(1.0), "{} {lost} {}", by(0.5), by(1.0));
    // pressure falls with the width at constant area
    let fall = fracture.net_pressure() / p;
    assert!(off(fall, fracture.volume() / volume) < 1e-12);
}

#[test]
fn efficiency_is_found_back_from_the_time_of_closure() {
    for (geometry, c) in [(USUAL, 4.92e-5), (USUAL, 1.5e-4), (KGD, 1e-4)] {
        let mut fracture = pumped(ground(geometry, c), 3600.0, 1.0);
        let efficiency = fracture.efficiency();
        let mut waited = 0.0;
        while !fracture.closed() {
            fracture.advance(Time::seconds(5.0), FlowRate::ZERO, MU).unwrap();
            waited += 5.0;
            assert!(waited < 1e6);
        }
        assert_eq!(fracture.net_pressure(), Pressure::ZERO);
        assert_eq!(fracture.volume().in_m3(), 0.0);
        let g = g_function::nolte_g(waited / 3600.0, 0.7).unwrap().big;
        let found = g_function::efficiency_from_closure(g).unwrap();
        assert!((found - efficiency).abs() < 0.03, "{found} {efficiency}");
    }
}

#[test]
fn it_reopens_and_grows_again() {
    let mut fracture = pumped(ground(USUAL, 1e-4), 1800.0, 1.0);
    let (length, pressure) = (fracture.length(), fracture.net_pressure());
    pump(&mut fracture, FlowRate::ZERO, 7200.0, 10.0);
    assert!(fracture.closed() && fracture.length() == length);
    let mut seen = Pressure::ZERO;
    while fracture.length() < length * 1.001 {
        pump(&mut fracture, RATE, 1.0, 1.0);
        assert!(fracture.net_pressure() >= seen);
        seen = fracture.net_pressure();
    }
    // a thousandth of new length, and the pressure is all but back
    assert!(seen > pressure * 0.5, "{seen} {pressure}");
    pump(&mut fracture, RATE, 3600.0, 1.0);
    assert!(fracture.net_pressure() > pressure && fracture.length() > length * 1.2);
}

#[test]
fn a_bridged_tip_stores_at_unit_slope() {
    let mut fracture = pumped(ground(USUAL, 0.0), 1800.0, 1.0);
    let (length, before) = (fracture.length(), fracture.net_pressure());
    fracture.screen_out_tip();
    assert!(off(fracture.net_pressure().in_pa(), before.in_pa()) < 1e-12);
    pump(&mut fracture, RATE, 600.0, 1.0);
    let climb = (fracture.net_pressure() - before) / 600.0;
    let closed = pkn_storage_rate(Pressure::gpa(20.0), Length::m(30.0), length, RATE).unwrap();
    assert!(off(climb.in_pa(), closed.in_pa_per_s()) < 1e-9);
    assert_eq!(fracture.length(), length);
    // with leak-off it climbs less, and shut in it falls
    let mut leaking = pumped(ground(USUAL, 5e-5), 1800.0, 1.0);
    leaking.screen_out_tip();
    let before = leaking.net_pressure();
    pump(&mut leaking, RATE, 600.0, 1.0);
    let closed = pkn_storage_rate(Pressure::gpa(20.0), Length::m(30.0), leaking.length(), RATE).unwrap();
    let climb = (leaking.net_pressure() - before) / 600.0;
    assert!(climb.in_pa() > 0.0 && climb.in_pa() < closed.in_pa_per_s());
    let top = leaking.net_pressure();
    pump(&mut leaking, FlowRate::ZERO, 60.0, 1.0);
    assert!(leaking.net_pressure() < top);
}

#[test]
fn propped_it_closes_on_what_holds_it() {
    let mut fracture = pumped(ground(USUAL, 1e-4), 1800.0, 1.0);
    assert!(fracture.hold_open(fracture.mean_width() * 1.1).is_err());
    fracture.hold_open(Diameter::mm(2.0)).unwrap();
    pump(&mut fracture, FlowRate::ZERO, 36_000.0, 10.0);
    assert!(fracture.closed() && off(fracture.mean_width().in_mm(), 2.0) < 1e-9);
    let leaked = fracture.leaked();
    pump(&mut fracture, FlowRate::ZERO, 3600.0, 10.0);
    assert_eq!(fracture.leaked(), leaked);
    // nothing comes back out of it either
    let back = fracture.advance(Time::seconds(10.0), FlowRate::bbl_per_min(-5.0), MU).unwrap();
    assert!(back.taken.in_m3().abs() < 1e-9);
}

#[test]
fn impossible_inputs_are_refused() {
    let good = ground(USUAL, 1e-5);
    assert!(Fracture::new(Ground { modulus: Pressure::ZERO, ..good }).is_err());
    assert!(Fracture::new(Ground { leakoff: Leakoff::m_per_root_s(-1.0), ..good }).is_err());
    assert!(Fracture::new(Ground { geometry: Geometry::Kgd { height: Length::ZERO }, ..good }).is_err());
    let mut fracture = Fracture::new(good).unwrap();
    let second = Time::seconds(1.0);
    assert!(fracture.advance(Time::seconds(-1.0), RATE, MU).is_err());
    assert!(fracture.advance(second, FlowRate::m3_per_s(f64::NAN), MU).is_err());
    assert!(fracture.advance(second, RATE, Viscosity::ZERO).is_err());
    assert!(fracture.advance(Time::seconds(f64::INFINITY), RATE, MU).is_err());
    assert_eq!(fracture, Fracture::new(good).unwrap());
}

const RULES: Rules =
    Rules { form: Form::Pkn, grain: Diameter::mm(0.4), width_ratio: 2.5, packed: 0.6, hole: None };

/// Pumps a pad and then slurry; when it stopped, s.
fn place(c: f64, pad: i32, solid: f64, rules: Rules) -> (Option<(i32, Screenout)>, Filling, Fracture) {
    let mut fracture = Fracture::new(ground(USUAL, c)).unwrap();
    let mut filling = Filling::new(rules).unwrap();
    for second in 0..3600 {
        let step = fracture.advance(Time::seconds(1.0), RATE, MU).unwrap();
        let share = if second < pad { 0.0 } else { solid };
        let stopped = filling.advance(&fracture, &step, Ratio::of(share)).unwrap();
        assert!(off(filling.volume().in_m3(), fracture.volume().in_m3()) < 1e-6, "{second}");
        if let Some(how) = stopped {
            return (Some((second, how)), filling, fracture);
        }
    }
    (None, filling, fracture)
}

#[test]
fn grains_are_kept_and_the_pad_runs_out_as_it_should() {
    let c = 1e-4;
    let efficiency = pumped(ground(USUAL, c), 3600.0, 1.0).efficiency();
    let pad = nolte::nolte_pad(efficiency).unwrap();
    let (stopped, filling, fracture) = place(c, (1.1 * pad * 3600.0) as i32, 0.05, RULES);
    println!("efficiency {efficiency:.4}, pad share {pad:.4}, front {}", filling.front());
    assert_eq!(stopped, None, "{pad}");
    let slurry = f64::from(3600 - (1.1 * pad * 3600.0) as i32) * RATE.in_m3_per_s();
    assert!(off(filling.grains().in_m3(), 0.05 * slurry) < 1e-9);
    assert!(filling.front().in_one() > 0.5 && filling.front().in_one() < 1.0);
    assert!(filling.grains() < fracture.volume());
    let (tip, well) = filling.solid_shares();
    assert!(tip > well && well.in_one() >= 0.05);
    // half that pad is gone long before the end
    let (stopped, ..) = place(c, (0.5 * pad * 3600.0) as i32, 0.05, RULES);
    assert!(matches!(stopped, Some((_, Screenout::TipBridged | Screenout::TipPacked))), "{stopped:?}");
}

#[test]
fn holes_and_thick_slurry_stop_near_the_well() {
    let holes = Rules { hole: Some((Diameter::mm(2.0), 6.0)), ..RULES };
    let (stopped, ..) = place(1e-5, 600, 0.1, holes);
    assert_eq!(stopped, Some((600, Screenout::HoleBridged)));
    let (stopped, ..) = place(1e-5, 600, 0.62, RULES);
    assert_eq!(stopped, Some((600, Screenout::WellPacked)));
    // large grains bridge at once
    let large = Rules { grain: Diameter::mm(6.0), ..RULES };
    let (stopped, ..) = place(1e-5, 600, 0.1, large);
    assert!(matches!(stopped, Some((_, Screenout::TipBridged))));
    assert!(Filling::new(Rules { packed: 1.0, ..RULES }).is_err());
    assert!(Filling::new(Rules { width_ratio: 0.3, ..RULES }).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn any_history_keeps_volume_and_sense(
        form in 0..3usize,
        c in 1e-7..1e-3f64,
        spurt in 0.0..1.0f64,
        tough in 0.0..5.0f64,
        bridge in 0..400usize,
        pieces in prop::collection::vec((-20.0..60.0f64, 0.01..300.0f64, 0.3..300.0f64, 1..40usize), 1..20),
    ) {
        let geometry = [USUAL, KGD, Geometry::Radial][form];
        let mut fracture = Fracture::new(Ground {
            spurt: Spurt::l_per_m2(spurt),
            toughness: Toughness::mpa_root_m(tough),
            ..ground(geometry, c)
        }).unwrap();
        let (mut length, mut count, mut flowed) = (0.0, 0, 0.0f64);
        for (bpm, dt, cp, repeat) in pieces {
            // a third of the rates are no rate at all
            let rate = if bpm > 20.0 && bpm < 35.0 { 0.0 } else { bpm };
            for _ in 0..repeat {
                let before = fracture.volume().in_m3();
                let step = fracture
                    .advance(Time::seconds(dt), FlowRate::bbl_per_min(rate), Viscosity::cp(cp))
                    .unwrap();
                let change = fracture.volume().in_m3() - before;
                let scale = 1e-12 * (before + step.taken.in_m3().abs() + 1e-9);
                flowed += step.taken.in_m3().abs();
                prop_assert!((step.taken.in_m3() - step.leaked.in_m3() - change).abs() <= scale + 1e-14 * flowed);
                let now = fracture.length().in_m();
                prop_assert!(now >= length && step.leaked.in_m3() >= 0.0);
                prop_assert!(rate > 0.0 || now == length);
                length = now;
                let seen = [
                    fracture.net_pressure().in_pa(),
                    fracture.width().in_m(),
                    fracture.mean_width().in_m(),
                    fracture.volume().in_m3(),
                    fracture.leaked().in_m3(),
                ];
                prop_assert!(seen.iter().all(|v| v.is_finite() && *v >= 0.0), "{seen:?}");
                prop_assert!(fracture.walls().pieces() <= 64);
                count += 1;
                if count == bridge {
                    fracture.screen_out_tip();
                }
            }
        }
        let balance = fracture.injected().in_m3() - fracture.leaked().in_m3() - fracture.volume().in_m3();
        prop_assert!(balance.abs() <= 1e-9 * flowed.max(1e-6), "{balance}");
    }
}

#[test]
fn ten_thousand_steps_keep_the_volume() {
    let mut fracture = Fracture::new(ground(USUAL, 5e-5)).unwrap();
    for j in 0..10_000 {
        let rate = if j % 3000 < 2000 { RATE } else { FlowRate::ZERO };
        fracture.advance(Time::seconds(1.0), rate, MU).unwrap();
    }
    let (taken, open) = (fracture.injected().in_m3(), fracture.volume().in_m3());
    assert!((taken - fracture.leaked().in_m3() - open).abs() < 1e-9 * taken);
}
