//! A ball seat as a restriction in the liner: permanent loss and the dip in its throat.

use crate::error::{Result, require, require_not_negative, require_positive};
use crate::{Arguments, Input, Output, Outputs, Relation};
use quantity::{
    Area, Density, Diameter, FlowRate, Length, Pressure, Quantity, RateSquaredLoss, Ratio, Velocity,
};

const NAME: &str = "seat_loss";

/// The shape a seat is taken to have.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SeatModel {
    /// A thin plate with a sharp edge: the highest loss.
    ThinOrifice,
    /// A bore of some length with sharp edges.
    ThickOrifice {
        /// Length of the seat's bore.
        land: Length,
        /// Darcy friction factor of the seat's wall.
        wall_friction: f64,
    },
    /// A sudden contraction and a sudden expansion far apart.
    ContractionExpansion,
    /// A tapered inlet and a sudden expansion.
    TaperedInlet {
        /// Inlet coefficient in place of 0.5: 0.05 to 0.15 for a cone.
        inlet: f64,
    },
}

/// The loss of one seat, ready for any rate and density.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeatLoss {
    /// Permanent loss over the dynamic pressure in the throat, `K`.
    pub coefficient: f64,
    /// Throat area over liner area, `f`.
    pub area_ratio: f64,
    /// Throat area.
    pub throat: Area,
}

impl SeatLoss {
    /// Velocity in the throat.
    pub fn throat_velocity(&self, rate: FlowRate) -> Velocity {
        rate / self.throat
    }

    /// Permanent loss per rate squared at a density.
    pub fn per_rate_squared(&self, density: Density) -> RateSquaredLoss {
        RateSquaredLoss::si(self.coefficient * density.si() / (2.0 * self.throat.si().powi(2)))
    }

    /// Permanent loss: what the pump has to give.
    pub fn permanent(&self, density: Density, rate: FlowRate) -> Pressure {
        self.per_rate_squared(density).at(rate)
    }

    /// Dip of the static pressure from liner to throat, most of it recovered behind.
    ///
    /// `dip = (1 - f^2)/Cd^2 rho v^2/2`; `Cd` 1 is a throat without contraction of the jet.
    pub fn throat_dip(&self, density: Density, rate: FlowRate, cd: f64) -> Result<Pressure> {
        let hint = "Take 1 for a rounded throat, 0.61 for a sharp edge.";
        require(cd > 0.0 && cd <= 1.0, NAME, "cd", Ratio::of(cd), "above 0, at most 1", hint)?;
        let v = self.throat_velocity(rate).si();
        // dip = (1 - f^2)/Cd^2 rho v^2/2
        let dip = (1.0 - self.area_ratio.powi(2)) / (cd * cd) * density.si() * v * v / 2.0;
        Ok(Pressure::pa(dip))
    }
}

/// Loss coefficient of a seat in a liner, on the velocity in the throat.
///
/// thin orifice `K = [0.707(1 - f)^0.375 + 1 - f]^2`;
/// thick orifice `K = 0.5(1 - f)^0.75 + tau(1 - f)^1.375 + (1 - f)^2 + lambda l/d`,
/// `tau = (2.4 - l/d) 10^-phi`, `phi = 0.25 + 0.535(l/d)^8/[0.05 + (l/d)^7]`;
/// contraction and expansion `K = 0.5(1 - f)^0.75 + (1 - f)^2`; tapered inlet the same with
/// the inlet coefficient in place of 0.5. `dp = K rho v^2/2`
///
/// `f = (d/D)^2`, `d` seat, `D` liner bore (m), `l` length of the seat's bore (m), `lambda`
/// Darcy factor of its wall, `v` throat velocity (m/s).
///
/// Range: throat Reynolds number above 1e4; `0 < d <= D`, refused outside.
///
/// The perforation equation has no recovery and must not be used for a seat in the liner: at
/// `d/D` 0.96 it is 11 times too high. The inlet's shape makes a factor of 2 to 3 over a
/// ladder: calibrate. Some copies print `(l/d)^8` twice in `phi`: that misses the printed table
/// of `tau` by up to 0.07.
///
/// Source: idelchik1986 diagrams 4-1, 4-9, 4-12, 4-14 and 4-15.
///
/// ```
/// use physics::hydraulics::seat::{SeatModel, seat_loss};
/// use quantity::{Density, Diameter, FlowRate, Length};
/// let thick = SeatModel::ThickOrifice { land: Length::inch(2.0), wall_friction: 0.0126 };
/// let seat = seat_loss(thick, Diameter::inch(1.5), Diameter::inch(3.92))?;
/// let loss = seat.permanent(Density::lb_per_gal(8.5), FlowRate::bbl_per_min(30.0));
/// assert!((loss.in_psi() - 461.0).abs() < 0.5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn seat_loss(model: SeatModel, seat: Diameter, bore: Diameter) -> Result<SeatLoss> {
    require_positive(NAME, "seat", seat)?;
    let hint = "A seat is narrower than the liner it sits in.";
    require(seat <= bore, NAME, "seat", seat, "at most the liner bore", hint)?;
    let f = (seat.si() / bore.si()).powi(2);
    let free = 1.0 - f;
    let coefficient = match model {
        // K = [0.707(1 - f)^0.375 + 1 - f]^2
        SeatModel::ThinOrifice => (0.707 * free.powf(0.375) + free).powi(2),
        SeatModel::ThickOrifice { land, wall_friction } => {
            require_not_negative(NAME, "land", land)?;
            require_not_negative(NAME, "wall_friction", Ratio::of(wall_friction))?;
            let l = land.si() / seat.si();
            // K = 0.5(1 - f)^0.75 + tau(1 - f)^1.375 + (1 - f)^2 + lambda l/d
            inlet_and_outlet(0.5, free) + orifice_length(l) * free.powf(1.375) + wall_friction * l
        }
        // K = 0.5(1 - f)^0.75 + (1 - f)^2
        SeatModel::ContractionExpansion => inlet_and_outlet(0.5, free),
        SeatModel::TaperedInlet { inlet } => {
            let hint = "A cone has 0.05 to 0.15, a sharp edge 0.5.";
            let inside = (0.0..=0.5).contains(&inlet);
            require(inside, NAME, "inlet", Ratio::of(inlet), "from 0 to 0.5", hint)?;
            inlet_and_outlet(inlet, free)
        }
    };
    Ok(SeatLoss { coefficient, area_ratio: f, throat: seat.circle() })
}

/// `k(1 - f)^0.75 + (1 - f)^2`: inlet and sudden expansion.
fn inlet_and_outlet(k: f64, free: f64) -> f64 {
    k * free.powf(0.75) + free * free
}

/// `tau`: how far inlet and outlet of a short bore act on each other; 0 from `l/d` 2.4 up.
fn orifice_length(l: f64) -> f64 {
    if l >= 2.4 {
        return 0.0;
    }
    // tau = (2.4 - l') 10^-phi, phi = 0.25 + 0.535 l'^8/(0.05 + l'^7)
    let phi = 0.25 + 0.535 * l.powi(8) / (0.05 + l.powi(7));
    (2.4 - l) * 10f64.powf(-phi)
}

/// The words of [`SeatModel`] in the register.
pub(crate) const SEAT_MODEL_WORDS: &[&str] =
    &["thick_orifice", "thin_orifice", "contraction_expansion", "tapered_inlet"];

/// The inputs that describe a seat's shape in the register.
pub(crate) const MODEL: Input =
    Input::choice("model", SEAT_MODEL_WORDS, "shape the seat is taken to have").or("thick_orifice");
pub(crate) const LAND: Input =
    Input::new::<Length>("land_length", "length of the seat's bore, for thick_orifice").or("2 in");
pub(crate) const WALL: Input =
    Input::new::<Ratio>("wall_friction", "Darcy factor of the seat's wall, for thick_orifice").or("0.02");
pub(crate) const INLET: Input =
    Input::new::<Ratio>("inlet", "inlet coefficient, for tapered_inlet").or("0.1").within(0.05, 0.5);

/// Reads a seat's shape from the inputs above.
pub(crate) fn read_model(a: &Arguments) -> Result<SeatModel> {
    Ok(match a.word("model")? {
        "thin_orifice" => SeatModel::ThinOrifice,
        "contraction_expansion" => SeatModel::ContractionExpansion,
        "tapered_inlet" => SeatModel::TaperedInlet { inlet: a.number("inlet")? },
        _ => {
            SeatModel::ThickOrifice { land: a.get("land_length")?, wall_friction: a.number("wall_friction")? }
        }
    })
}

/// Register entry of [`seat_loss`].
pub static SEAT_LOSS: Relation = Relation {
    name: NAME,
    title: "Permanent loss and throat dip of a ball seat in the liner",
    equation: "dp = K rho v^2/2; thick_orifice K = 0.5(1-f)^0.75 + tau(1-f)^1.375 + (1-f)^2 + lambda l/d; thin_orifice K = [0.707(1-f)^0.375 + 1-f]^2; contraction_expansion K = 0.5(1-f)^0.75 + (1-f)^2; tapered_inlet with the inlet coefficient for 0.5; dip = (1-f^2)/Cd^2 rho v^2/2",
    source: "idelchik1986 diagrams 4-1, 4-9, 4-12, 4-14 and 4-15",
    range: "throat Reynolds number above 1e4, 0 < d <= D",
    inputs: &[
        Input::new::<Diameter>("seat", "bore of the seat"),
        Input::new::<Diameter>("bore", "bore of the liner"),
        Input::new::<FlowRate>("rate", "rate through the seat"),
        Input::new::<Density>("density", "density of the fluid or slurry"),
        MODEL,
        LAND,
        WALL,
        INLET,
        Input::new::<Ratio>("cd", "discharge coefficient of the throat, for the dip").or("1"),
    ],
    outputs: &[
        Output::new::<Pressure>("loss", "permanent loss"),
        Output::new::<Pressure>("throat_dip", "static pressure in the liner above that in the throat"),
        Output::new::<Ratio>("coefficient", "loss coefficient K on the throat velocity"),
        Output::new::<Velocity>("throat_velocity", "velocity in the throat"),
        Output::new::<RateSquaredLoss>("per_rate_squared", "permanent loss per rate squared"),
    ],
    evaluate: |a| {
        let (rate, density): (FlowRate, Density) = (a.get("rate")?, a.get("density")?);
        require_not_negative(NAME, "rate", rate)?;
        require_positive(NAME, "density", density)?;
        let seat = seat_loss(read_model(a)?, a.get("seat")?, a.get("bore")?)?;
        Ok(Outputs::new()
            .put("loss", seat.permanent(density, rate))
            .put("throat_dip", seat.throat_dip(density, rate, a.number("cd")?)?)
            .put("coefficient", Ratio::of(seat.coefficient))
            .put("throat_velocity", seat.throat_velocity(rate))
            .put("per_rate_squared", seat.per_rate_squared(density)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn thick(l: f64) -> SeatModel {
        SeatModel::ThickOrifice { land: Length::m(l), wall_friction: 0.0 }
    }

    proptest! {
        #[test]
        fn shapes_keep_their_order(d in 0.1..0.99f64, l in 0.0..5.0f64) {
            let k = |model| seat_loss(model, Diameter::m(d), Diameter::m(1.0)).unwrap().coefficient;
            let steps = k(SeatModel::ContractionExpansion);
            let tapered = |inlet| k(SeatModel::TaperedInlet { inlet });
            prop_assert!(tapered(0.1) <= steps);
            prop_assert!(steps <= k(thick(l * d)) + 1e-12);
            // the thick plate starts from the thin one: the two fits differ by 3 % at most
            prop_assert!(k(thick(0.0)) < 1.03 * k(SeatModel::ThinOrifice));
            prop_assert_eq!(tapered(0.5), steps);
        }
    }

    #[test]
    fn limits_in_a_wide_liner_and_at_full_bore() {
        let k = |model, d| seat_loss(model, Diameter::m(d), Diameter::m(1.0)).unwrap().coefficient;
        // into a wide space: (1 + sqrt 0.5)^2 for the thin plate, 1.5 for the long bore
        assert!((k(SeatModel::ThinOrifice, 1e-4) - 2.914).abs() < 0.001);
        assert!((k(thick(3e-4), 1e-4) - 1.5).abs() < 1e-6);
        assert!((k(thick(0.0), 1e-4) - 2.85).abs() < 0.001);
        for model in [SeatModel::ThinOrifice, thick(0.1), SeatModel::ContractionExpansion] {
            assert_eq!(k(model, 1.0), 0.0);
        }
    }

    #[test]
    fn the_dip_is_that_of_bernoulli() {
        let seat = seat_loss(thick(0.05), Diameter::m(0.05), Diameter::m(0.1)).unwrap();
        let (rho, q) = (Density::kg_per_m3(1000.0), FlowRate::m3_per_s(0.02));
        let (v, u) = (seat.throat_velocity(q).si(), (q / Diameter::m(0.1).circle()).si());
        let dip = seat.throat_dip(rho, q, 1.0).unwrap().si();
        assert!((dip / (500.0 * (v * v - u * u)) - 1.0).abs() < 1e-12);
        assert!(seat.throat_dip(rho, q, 0.0).is_err());
    }

    #[test]
    fn nonsense_is_refused() {
        let d = Diameter::inch;
        assert!(seat_loss(SeatModel::ThinOrifice, d(4.0), d(3.92)).is_err());
        assert!(seat_loss(SeatModel::ThinOrifice, d(0.0), d(3.92)).is_err());
        assert!(seat_loss(thick(-1.0), d(2.0), d(3.92)).is_err());
        assert!(seat_loss(SeatModel::TaperedInlet { inlet: 0.9 }, d(2.0), d(3.92)).is_err());
    }
}
