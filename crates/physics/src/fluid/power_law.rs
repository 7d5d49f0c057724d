//! Power-law fluids: apparent viscosity, consistency in pipe flow, and the fit of two readings.

use crate::error::{Error, Result, require, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation};
use quantity::{Consistency, Density, Diameter, Quantity, Ratio, ShearRate, Velocity, Viscosity};

/// A power-law fluid, `tau = K rate^n`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PowerLaw {
    /// Flow behaviour index `n`; 1 is Newtonian, below 1 is shear thinning.
    pub n: f64,
    /// Consistency `K` for plain shear (of the fluid itself, not of the pipe).
    pub k: Consistency,
}

/// What a power-law fluid does at the wall of a pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PipeShear {
    /// Reynolds number of Metzner and Reed.
    pub reynolds: f64,
    /// Consistency in pipe flow `K'`.
    pub pipe_consistency: Consistency,
    /// Shear rate at the wall in laminar flow.
    pub wall_shear_rate: ShearRate,
}

impl PowerLaw {
    /// Refuses a fluid that is none.
    pub(crate) fn check(self, relation: &'static str) -> Result<()> {
        let hint = "A shear-thinning fluid has n between 0.2 and 1.";
        let n = Ratio::of(self.n);
        require(self.n > 0.0 && self.n <= 2.0, relation, "n", n, "above 0, at most 2", hint)?;
        require_positive(relation, "k", self.k)
    }

    /// Apparent viscosity of a power-law fluid.
    ///
    /// `mu_a = K rate^(n - 1)`
    ///
    /// `K` consistency (Pa·s^n), `rate` shear rate (1/s), `n` flow behaviour index.
    ///
    /// Range: none stated; real fluids level off at very low and very high shear rates.
    ///
    /// At zero shear rate a shear-thinning fluid has no finite viscosity: refused.
    ///
    /// Source: metzner_reed1955 p. 434 (the power law).
    ///
    /// ```
    /// use physics::fluid::power_law::PowerLaw;
    /// use quantity::{Consistency, ShearRate};
    /// let gel = PowerLaw { n: 0.5, k: Consistency::pa_sn(1.0) };
    /// let mu = gel.apparent_viscosity(ShearRate::per_second(100.0))?;
    /// assert!((mu.in_cp() - 100.0).abs() < 1e-9);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn apparent_viscosity(self, shear_rate: ShearRate) -> Result<Viscosity> {
        self.check("power_law_viscosity")?;
        require_positive("power_law_viscosity", "shear_rate", shear_rate)?;
        // mu_a = K rate^(n - 1)
        Ok(Viscosity::pa_s(self.k.si() * shear_rate.si().powf(self.n - 1.0)))
    }

    /// Consistency in pipe flow, from that of plain shear.
    ///
    /// `K' = K ((3n + 1)/(4n))^n`
    pub(crate) fn pipe_consistency(self) -> f64 {
        self.k.si() * ((3.0 * self.n + 1.0) / (4.0 * self.n)).powf(self.n)
    }

    /// Reynolds number, pipe consistency and wall shear rate of a power-law fluid in a pipe.
    ///
    /// `Re = rho U^(2-n) D^n/(8^(n-1) K')`, `K' = K ((3n + 1)/(4n))^n`,
    /// `rate_w = (3n + 1)/(4n) 8U/D`
    ///
    /// `rho` density (kg/m³), `U` mean velocity (m/s), `D` bore (m), `K` consistency (Pa·s^n).
    /// Laminar flow then has the Fanning friction factor `16/Re`.
    ///
    /// Range: laminar flow for the wall shear rate; the Reynolds number is used in both regimes.
    ///
    /// `K'` measured in a pipe viscometer must not be corrected a second time.
    ///
    /// Source: metzner_reed1955 p. 434.
    ///
    /// ```
    /// use physics::fluid::power_law::PowerLaw;
    /// use quantity::{Consistency, Density, Diameter, Velocity};
    /// let water = PowerLaw { n: 1.0, k: Consistency::pa_sn(1e-3) };
    /// let at = water.pipe_shear(Density::kg_per_m3(1000.0), Velocity::m_per_s(2.0), Diameter::m(0.1))?;
    /// assert!((at.reynolds - 2e5).abs() < 1e-6);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn pipe_shear(self, density: Density, velocity: Velocity, bore: Diameter) -> Result<PipeShear> {
        let name = "metzner_reed_1955";
        self.check(name)?;
        require_positive(name, "density", density)?;
        require_not_negative(name, "velocity", velocity)?;
        require_positive(name, "bore", bore)?;
        let n = self.n;
        // rate_w = (3n + 1)/(4n) 8U/D
        let wall = (3.0 * n + 1.0) / (4.0 * n) * 8.0 * velocity.si() / bore.si();
        Ok(PipeShear {
            reynolds: self.reynolds(density.si(), velocity.si(), bore.si()),
            pipe_consistency: Consistency::pa_sn(self.pipe_consistency()),
            wall_shear_rate: ShearRate::per_second(wall),
        })
    }

    /// `Re = rho U^(2-n) D^n/(8^(n-1) K')`, for inner loops; SI numbers.
    pub(crate) fn reynolds(self, rho: f64, u: f64, d: f64) -> f64 {
        rho * u.powf(2.0 - self.n) * d.powf(self.n) / (8f64.powf(self.n - 1.0) * self.pipe_consistency())
    }
}

/// Power law through two viscosity readings.
///
/// `n = 1 + ln(mu_1/mu_2)/ln(rate_1/rate_2)`, `K = mu_1 rate_1^(1 - n)`
///
/// `mu` apparent viscosity (Pa·s) at shear rate `rate` (1/s).
///
/// Range: two different shear rates; refused otherwise.
///
/// The shear rate printed by a concentric-cylinder viscometer is that of a Newtonian fluid;
/// for `n` below 0.5 the true one is up to a few percent higher.
///
/// Source: metzner_reed1955 p. 434 (the power law through two points).
///
/// ```
/// use physics::fluid::power_law::power_law_fit;
/// use quantity::{ShearRate, Viscosity};
/// let at = ShearRate::per_second;
/// let gel = power_law_fit((at(511.0), Viscosity::cp(80.0)), (at(1022.0), Viscosity::cp(70.0)))?;
/// assert!((gel.n - 0.8074).abs() < 1e-4);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn power_law_fit(a: (ShearRate, Viscosity), b: (ShearRate, Viscosity)) -> Result<PowerLaw> {
    let name = "power_law_fit";
    for (rate, viscosity) in [a, b] {
        require_positive(name, "shear_rate", rate)?;
        require_positive(name, "viscosity", viscosity)?;
    }
    if a.0 == b.0 {
        return Err(Error::NoSolution {
            relation: name,
            what: "both readings are at one shear rate".to_string(),
            hint: "Give readings at two shear rates.",
        });
    }
    // n = 1 + ln(mu_1/mu_2)/ln(rate_1/rate_2)
    let n = 1.0 + (a.1 / b.1).ln() / (a.0 / b.0).ln();
    // K = mu_1 rate_1^(1 - n)
    let fluid = PowerLaw { n, k: Consistency::pa_sn(a.1.si() * a.0.si().powf(1.0 - n)) };
    fluid.check(name)?;
    Ok(fluid)
}

const N: Input = Input::new::<Ratio>("n", "flow behaviour index").within(0.2, 1.0);
const K: Input = Input::new::<Consistency>("k", "consistency in plain shear");

/// Register entry of [`PowerLaw::apparent_viscosity`].
pub static POWER_LAW_VISCOSITY: Relation = Relation {
    name: "power_law_viscosity",
    title: "Apparent viscosity of a power-law fluid",
    equation: "mu_a = K rate^(n - 1)",
    source: "metzner_reed1955 p. 434",
    range: "none stated by the source",
    inputs: &[N, K, Input::new::<ShearRate>("shear_rate", "shear rate")],
    outputs: &[Output::new::<Viscosity>("viscosity", "apparent viscosity")],
    evaluate: |a| {
        let fluid = PowerLaw { n: a.number("n")?, k: a.get("k")? };
        Ok(Outputs::new().put("viscosity", fluid.apparent_viscosity(a.get("shear_rate")?)?))
    },
};

/// Register entry of [`PowerLaw::pipe_shear`].
pub static METZNER_REED_1955: Relation = Relation {
    name: "metzner_reed_1955",
    title: "Reynolds number of a power-law fluid in a pipe",
    equation: "Re = rho U^(2-n) D^n/(8^(n-1) K'); K' = K ((3n + 1)/(4n))^n",
    source: "metzner_reed1955 p. 434",
    range: "none stated by the source",
    inputs: &[
        N,
        K,
        Input::new::<Density>("density", "density"),
        Input::new::<Velocity>("velocity", "mean velocity"),
        Input::new::<Diameter>("bore", "bore of the pipe"),
    ],
    outputs: &[
        Output::new::<Ratio>("reynolds", "Reynolds number of Metzner and Reed"),
        Output::new::<Consistency>("pipe_consistency", "consistency in pipe flow K'"),
        Output::new::<ShearRate>("wall_shear_rate", "shear rate at the wall in laminar flow"),
    ],
    evaluate: |a| {
        let fluid = PowerLaw { n: a.number("n")?, k: a.get("k")? };
        let at = fluid.pipe_shear(a.get("density")?, a.get("velocity")?, a.get("bore")?)?;
        Ok(Outputs::new()
            .put("reynolds", Ratio::of(at.reynolds))
            .put("pipe_consistency", at.pipe_consistency)
            .put("wall_shear_rate", at.wall_shear_rate))
    },
};

/// Register entry of [`power_law_fit`].
pub static POWER_LAW_FIT: Relation = Relation {
    name: "power_law_fit",
    title: "Power law through two viscosity readings",
    equation: "n = 1 + ln(mu_1/mu_2)/ln(rate_1/rate_2); K = mu_1 rate_1^(1 - n)",
    source: "metzner_reed1955 p. 434",
    range: "two different shear rates",
    inputs: &[
        Input::new::<ShearRate>("shear_rate_1", "shear rate of the first reading"),
        Input::new::<Viscosity>("viscosity_1", "apparent viscosity at the first reading"),
        Input::new::<ShearRate>("shear_rate_2", "shear rate of the second reading"),
        Input::new::<Viscosity>("viscosity_2", "apparent viscosity at the second reading"),
    ],
    outputs: &[
        Output::new::<Ratio>("n", "flow behaviour index"),
        Output::new::<Consistency>("k", "consistency in plain shear"),
    ],
    evaluate: |a| {
        let fluid = power_law_fit(
            (a.get("shear_rate_1")?, a.get("viscosity_1")?),
            (a.get("shear_rate_2")?, a.get("viscosity_2")?),
        )?;
        Ok(Outputs::new().put("n", Ratio::of(fluid.n)).put("k", fluid.k))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_fit_passes_through_its_readings(n in 0.2..1.2f64, k in 1e-3..5.0f64, r1 in 1.0..100.0f64, r2 in 101.0..2000.0f64) {
            let fluid = PowerLaw { n, k: Consistency::pa_sn(k) };
            let read = |r| (ShearRate::per_second(r), fluid.apparent_viscosity(ShearRate::per_second(r)).unwrap());
            let fit = power_law_fit(read(r1), read(r2)).unwrap();
            prop_assert!((fit.n - n).abs() < 1e-9);
            prop_assert!((fit.k.si() / k - 1.0).abs() < 1e-7);
        }

        #[test]
        fn laminar_friction_balances_the_wall_stress(n in 0.3..1.2f64, k in 1e-3..5.0f64, u in 0.1..5.0f64, d in 0.05..0.2f64) {
            // tau_w = K rate_w^n = f rho U^2/2 with f = 16/Re
            let fluid = PowerLaw { n, k: Consistency::pa_sn(k) };
            let (rho, u, d) = (Density::kg_per_m3(1000.0), Velocity::m_per_s(u), Diameter::m(d));
            let at = fluid.pipe_shear(rho, u, d).unwrap();
            let stress = k * at.wall_shear_rate.si().powf(n);
            let by_friction = 16.0 / at.reynolds * 500.0 * u.si().powi(2);
            prop_assert!((stress / by_friction - 1.0).abs() < 1e-10);
        }
    }

    #[test]
    fn impossible_fluids_are_refused() {
        let bad = PowerLaw { n: 0.0, k: Consistency::pa_sn(1.0) };
        assert!(bad.apparent_viscosity(ShearRate::per_second(100.0)).is_err());
        let gel = PowerLaw { n: 0.5, k: Consistency::pa_sn(1.0) };
        assert!(gel.apparent_viscosity(ShearRate::ZERO).is_err());
        let r = (ShearRate::per_second(511.0), Viscosity::cp(80.0));
        assert!(power_law_fit(r, r).is_err());
    }
}
