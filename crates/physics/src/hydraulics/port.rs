//! Ports and perforations: holes through the wall, with no recovery behind.

use crate::error::{Result, require, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Area, Density, Diameter, FlowRate, Pressure, Quantity, RateSquaredLoss, Ratio};

const NAME: &str = "port_loss";

fn check_cd(relation: &'static str, cd: f64) -> Result<()> {
    let hint = "A new sharp hole has 0.56 to 0.62, a rounded or worn one 0.80 to 0.95.";
    require(cd > 0.0 && cd <= 1.0, relation, "cd", Ratio::of(cd), "above 0, at most 1", hint)
}

/// Pressure drop through ports or perforations, per rate squared.
///
/// `dp = rho q^2/(2 Cd^2 A^2)`; with `A = N pi d^2/4` it is
/// `dp[psi] = 0.237636 rho[lb/gal] q[bbl/min]^2/(N^2 d[in]^4 Cd^2)`
///
/// `rho` density of the slurry (kg/m³), `q` rate (m³/s), `A` sum of the areas of the holes
/// (m²), `Cd` discharge coefficient.
///
/// Range: none stated; sharp holes with `Re` above 1e4.
///
/// For holes into an open annulus only: a seat in the liner recovers most of its dip, see
/// [`super::seat::seat_loss`]. Books print 0.2369 for the constant, 0.3 % low. `Cd` and `d`
/// grow as sand wears the holes.
///
/// Source: bell1995 p. 79; the constant is `8 rho_1 q_1^2/(pi^2 d_1^4)` of the exact units.
///
/// ```
/// use physics::hydraulics::port::port_loss;
/// use quantity::{Density, Diameter, FlowRate};
/// let area = Diameter::inch(0.75).circle() * 12.0;
/// let ports = port_loss(area, 0.85, Density::lb_per_gal(8.43))?;
/// assert!((ports.at(FlowRate::bbl_per_min(30.0)).in_psi() - 54.77).abs() < 0.005);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn port_loss(area: Area, cd: f64, density: Density) -> Result<RateSquaredLoss> {
    require_positive(NAME, "area", area)?;
    check_cd(NAME, cd)?;
    require_positive(NAME, "density", density)?;
    // dp/q^2 = rho/(2 Cd^2 A^2)
    Ok(RateSquaredLoss::si(density.si() / (2.0 * (cd * area.si()).powi(2))))
}

/// Number of holes that take flow, from the pressure drop they cause.
///
/// `N = sqrt(rho c/2)/(Cd pi d^2/4)`, `c = q^2/dp`
///
/// Symbols as in [`port_loss`]; `1/c` pressure drop per rate squared (Pa/(m³/s)²), as a
/// step-down test gives it.
///
/// Range: none stated.
///
/// It finds `N Cd d^2`: a hole worn wide counts as more than one.
///
/// Source: bell1995 p. 79, solved for the number.
///
/// ```
/// use physics::hydraulics::port::{open_ports, port_loss};
/// use quantity::{Density, Diameter};
/// let (d, rho) = (Diameter::inch(0.5), Density::lb_per_gal(8.5));
/// let drop = port_loss(d.circle() * 20.0, 0.8, rho)?;
/// assert!((open_ports(drop, d, 0.8, rho)? - 20.0).abs() < 1e-9);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn open_ports(drop: RateSquaredLoss, hole: Diameter, cd: f64, density: Density) -> Result<f64> {
    let name = "open_ports";
    require_positive(name, "per_rate_squared", drop)?;
    require_positive(name, "diameter", hole)?;
    check_cd(name, cd)?;
    require_positive(name, "density", density)?;
    // N = sqrt(rho c/2)/(Cd pi d^2/4), c = q^2/dp
    Ok((density.si() / (2.0 * drop.si())).sqrt() / (cd * hole.circle().si()))
}

const HOLE: Input = Input::new::<Diameter>("diameter", "diameter of a hole");
const CD: Input = Input::new::<Ratio>("cd", "discharge coefficient").within(0.5, 0.95);
const DENSITY: Input = Input::new::<Density>("density", "density of the fluid or slurry");

/// Register entry of [`port_loss`].
pub static PORT_LOSS: Relation = Relation {
    name: NAME,
    title: "Pressure drop through ports or perforations, no recovery",
    equation: "dp = rho q^2/(2 Cd^2 A^2), A = N pi d^2/4; dp[psi] = 0.237636 rho[lb/gal] q[bbl/min]^2/(N^2 d[in]^4 Cd^2)",
    source: "bell1995 p. 79",
    range: "none stated by the source",
    inputs: &[
        Input::new::<FlowRate>("rate", "rate through all holes"),
        DENSITY,
        Input::new::<Ratio>("count", "number of equal holes"),
        HOLE,
        CD,
    ],
    outputs: &[
        Output::new::<Pressure>("loss", "pressure drop"),
        Output::new::<RateSquaredLoss>("per_rate_squared", "pressure drop per rate squared"),
        Output::new::<Area>("area", "sum of the areas"),
    ],
    evaluate: |a| {
        let rate: FlowRate = a.get("rate")?;
        require_not_negative(NAME, "rate", rate)?;
        let hole: Diameter = a.get("diameter")?;
        require_positive(NAME, "diameter", hole)?;
        let count = a.number("count")?;
        require_positive(NAME, "count", Ratio::of(count))?;
        let area = hole.circle() * count;
        let drop = port_loss(area, a.number("cd")?, a.get("density")?)?;
        Ok(Outputs::new().put("loss", drop.at(rate)).put("per_rate_squared", drop).put("area", area))
    },
};

/// Register entry of [`open_ports`].
pub static OPEN_PORTS: Relation = Relation {
    name: "open_ports",
    title: "Number of holes taking flow, from their pressure drop per rate squared",
    equation: "N = sqrt(rho c/2)/(Cd pi d^2/4), c = q^2/dp",
    source: "bell1995 p. 79",
    range: "none stated by the source",
    inputs: &[
        Input::new::<RateSquaredLoss>("per_rate_squared", "pressure drop per rate squared"),
        HOLE,
        CD,
        DENSITY,
    ],
    outputs: &[Output::new::<Ratio>("count", "number of holes of that size and coefficient")],
    evaluate: |a| {
        let n =
            open_ports(a.get("per_rate_squared")?, a.get("diameter")?, a.number("cd")?, a.get("density")?)?;
        Ok(Outputs::new().put("count", Ratio::of(n)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_count_is_found_back(n in 1.0..500.0f64, d in 0.2..1.5f64, cd in 0.5..1.0f64, ppg in 6.0..20.0f64) {
            let (d, rho) = (Diameter::inch(d), Density::lb_per_gal(ppg));
            let drop = port_loss(d.circle() * n, cd, rho).unwrap();
            prop_assert!((open_ports(drop, d, cd, rho).unwrap() / n - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn nonsense_is_refused() {
        let (a, rho) = (Diameter::inch(1.0).circle(), Density::kg_per_m3(1000.0));
        assert!(port_loss(Area::ZERO, 0.8, rho).is_err());
        assert!(port_loss(a, 0.0, rho).is_err());
        assert!(port_loss(a, 1.2, rho).is_err());
        assert!(open_ports(RateSquaredLoss::ZERO, Diameter::inch(1.0), 0.8, rho).is_err());
    }
}
