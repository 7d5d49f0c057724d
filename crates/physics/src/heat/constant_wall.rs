//! Conduction round a cylinder whose wall, or the fluid inside it, is held at one temperature.

use super::bessel::scaled_k;
use super::laplace::invert;
use crate::error::require_positive;
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::Ratio;

/// What stands between the held temperature and the wall of the cylinder.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Film {
    /// Nothing: the wall itself is held.
    None,
    /// A film of Biot number `r_w U / k`: the fluid inside is held.
    Biot(f64),
}

/// Heat flow of a cylinder whose wall, or the fluid inside, is held at constant temperature,
/// dimensionless.
///
/// Equation: `q_D(s) = K1(√s) √s / { s [K0(√s) + (√s/Bi) K1(√s)] }` in the Laplace domain of
/// t_D; without a film `Bi → ∞`.
///
/// Symbols: `q_D = q' / [2π k (T_f − T_e)]`, q' heat flow per length W/m; `Bi = r_w U / k`,
/// U film coefficient at the wall W/(m² K); `t_D = α t / r_w²`; pure numbers.
///
/// Range: `t_D > 0`, `Bi > 0`; uniform rock without end, conduction alone.
///
/// Where it breaks: q_D grows as `1/√(π t_D)` at early time without a film; other arguments
/// are refused.
///
/// Source: carslaw_jaeger1959 sec. 13.5; jacob_lohman1952 (the function without film, G(α), in
/// flow).
///
/// ```
/// use physics::heat::constant_wall::{Film, cylinder_constant_wall};
/// let q_d = cylinder_constant_wall(1.0, Film::None)?;
/// assert!((q_d - 0.98377).abs() < 1e-5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn cylinder_constant_wall(t_d: f64, film: Film) -> Result<f64> {
    require_positive(NAME, "t_d", Ratio::of(t_d))?;
    let resistance = match film {
        Film::None => 0.0,
        Film::Biot(bi) => {
            require_positive(NAME, "biot", Ratio::of(bi))?;
            1.0 / bi
        }
    };
    let transform = |s: num_complex::Complex64| {
        let root = s.sqrt();
        let k = scaled_k(root);
        // q_D = K1 √s / { s [K0 + (√s/Bi) K1] }
        k.k1 / (root * (k.k0 + root * resistance * k.k1))
    };
    Ok(invert(transform, t_d))
}

const NAME: &str = "cylinder_constant_wall";

/// `cylinder_constant_wall` in the register.
pub static CYLINDER_CONSTANT_WALL: Relation = Relation {
    name: NAME,
    title: "Heat flow of a cylinder held at constant temperature, with or without a film, dimensionless",
    equation: "q_D(s) = K1(√s) √s / { s [K0(√s) + (√s/Bi) K1(√s)] };  q_D = q' / [2π k (T_f − T_e)]",
    source: "carslaw_jaeger1959 sec. 13.5; jacob_lohman1952",
    range: "t_D > 0, Bi > 0; uniform rock, conduction alone",
    inputs: &[
        Input::new::<Ratio>("t_d", "dimensionless time, α t / r_w²"),
        Input::choice("film", &["none", "biot"], "what stands between the held temperature and the wall")
            .or("none"),
        Input::new::<Ratio>("biot", "Biot number of the film, r_w U / k").or("1"),
    ],
    outputs: &[Output::new::<Ratio>("heat_flow", "dimensionless heat flow q_D")],
    evaluate: |a| {
        let film = if a.word("film")? == "biot" { Film::Biot(a.number("biot")?) } else { Film::None };
        let value = cylinder_constant_wall(a.number("t_d")?, film)?;
        Ok(Outputs::new().put("heat_flow", Ratio::of(value)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    #[test]
    fn early_limits() {
        // Without a film the plane wall, 1/√(π t_D) + ½; with a film, q_D starts at Bi.
        let got = cylinder_constant_wall(1e-6, Film::None).unwrap();
        assert!((got - (1.0 / (PI * 1e-6).sqrt() + 0.5)).abs() < 1e-3);
        let got = cylinder_constant_wall(1e-8, Film::Biot(2.0)).unwrap();
        assert!((got - 2.0).abs() < 2e-3);
    }

    #[test]
    fn a_thick_film_hides_the_rock_and_a_thin_one_vanishes() {
        let bare = cylinder_constant_wall(3.0, Film::None).unwrap();
        let thin = cylinder_constant_wall(3.0, Film::Biot(1e9)).unwrap();
        let thick = cylinder_constant_wall(3.0, Film::Biot(1e-4)).unwrap();
        assert!((bare / thin - 1.0).abs() < 1e-7);
        assert!((thick / 1e-4 - 1.0).abs() < 1e-3);
        assert!(cylinder_constant_wall(1.0, Film::Biot(0.0)).is_err());
        assert!(cylinder_constant_wall(-1.0, Film::None).is_err());
    }
}
