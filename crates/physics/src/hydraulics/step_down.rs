//! Entry friction: the near-wellbore term, and what a step-down test makes of both terms.

use crate::error::{Error, Result, require_not_negative};
use crate::{Input, Output, Outputs, Relation};
use quantity::{FlowRate, Pressure, Quantity, RateRootLoss, RateSquaredLoss};

const NAME: &str = "step_down";

/// The two terms of entry friction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EntryFriction {
    /// Ports, perforations and seats: pressure drop per rate squared.
    pub ports: RateSquaredLoss,
    /// Tortuous path near the wellbore: pressure drop per root of the rate.
    pub near_wellbore: RateRootLoss,
    /// Root mean square of what the two terms leave unexplained.
    pub misfit: Pressure,
}

impl EntryFriction {
    /// Entry friction at a rate.
    pub fn at(&self, rate: FlowRate) -> Pressure {
        self.ports.at(rate) + self.near_wellbore.at(rate)
    }
}

/// Splits the entry friction of a step-down test into ports and near-wellbore path.
///
/// `dp = b q^2 + a q^0.5`, least squares over the steps, with `a` and `b` not below zero
///
/// `dp` entry friction of a step: bottomhole pressure above the pressure at zero rate (Pa),
/// `q` rate (m³/s), `b` port term, `a` near-wellbore term.
///
/// Range: at least two different rates above zero; refused otherwise.
///
/// Pipe friction and the seats' loss must be taken off first if `b` shall mean the ports alone.
/// The steps must be short against the time in which the fracture closes. When one term would
/// come out negative it is set to zero and the other is fitted alone.
///
/// Source: romero1995 (rate squared through holes, near the root of the rate through a
/// tortuous path).
///
/// ```
/// use physics::hydraulics::step_down::step_down;
/// use quantity::{FlowRate, Pressure};
/// let steps: Vec<_> = [5.0, 10.0, 20.0]
///     .iter()
///     .map(|q: &f64| (FlowRate::bbl_per_min(*q), Pressure::psi(0.5 * q * q + 60.0 * q.sqrt())))
///     .collect();
/// let entry = step_down(&steps)?;
/// assert!((entry.ports.in_psi_per_bpm2() - 0.5).abs() < 1e-9);
/// assert!((entry.near_wellbore.in_psi_per_root_bpm() - 60.0).abs() < 1e-8);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn step_down(steps: &[(FlowRate, Pressure)]) -> Result<EntryFriction> {
    for (rate, drop) in steps {
        require_not_negative(NAME, "rate", *rate)?;
        require_not_negative(NAME, "drop", *drop)?;
    }
    let most = steps.iter().map(|(rate, _)| rate.si()).fold(0.0, f64::max);
    let varied = steps.iter().any(|(rate, _)| rate.si() > 0.0 && rate.si() < most * (1.0 - 1e-6));
    if !varied || !most.is_finite() {
        return Err(Error::NoSolution {
            relation: NAME,
            what: "the steps do not hold two different rates".to_string(),
            hint: "Give at least two rates above zero, each with its pressure drop.",
        });
    }
    // normal equations in x = (q/q_max)^2 and y = (q/q_max)^0.5
    let (mut xx, mut xy, mut yy, mut xp, mut yp) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for (rate, drop) in steps {
        let q = rate.si() / most;
        let (x, y, p) = (q * q, q.sqrt(), drop.si());
        xx += x * x;
        xy += x * y;
        yy += y * y;
        xp += x * p;
        yp += y * p;
    }
    let determinant = xx * yy - xy * xy;
    let (b, a) = ((xp * yy - yp * xy) / determinant, (yp * xx - xp * xy) / determinant);
    let (b, a) = if b < 0.0 {
        (0.0, (yp / yy).max(0.0))
    } else if a < 0.0 {
        ((xp / xx).max(0.0), 0.0)
    } else {
        (b, a)
    };
    let mut entry = EntryFriction {
        ports: RateSquaredLoss::si(b / (most * most)),
        near_wellbore: RateRootLoss::si(a / most.sqrt()),
        misfit: Pressure::ZERO,
    };
    let squares: f64 = steps.iter().map(|(q, p)| (p.si() - entry.at(*q).si()).powi(2)).sum();
    entry.misfit = Pressure::pa((squares / steps.len() as f64).sqrt());
    Ok(entry)
}

/// Register entry of [`RateRootLoss::at`].
pub static NEAR_WELLBORE_LOSS: Relation = Relation {
    name: "near_wellbore_loss",
    title: "Pressure drop of a tortuous path near the wellbore",
    equation: "dp = a q^0.5",
    source: "romero1995 (near the root of the rate)",
    range: "none stated by the source; the exponent is seen between 0.25 and 1",
    inputs: &[
        Input::new::<FlowRate>("rate", "rate"),
        Input::new::<RateRootLoss>("near_wellbore", "pressure drop per root of the rate"),
    ],
    outputs: &[Output::new::<Pressure>("loss", "pressure drop")],
    evaluate: |a| {
        let rate: FlowRate = a.get("rate")?;
        let term: RateRootLoss = a.get("near_wellbore")?;
        require_not_negative("near_wellbore_loss", "rate", rate)?;
        require_not_negative("near_wellbore_loss", "near_wellbore", term)?;
        Ok(Outputs::new().put("loss", term.at(rate)))
    },
};

/// Register entry of [`step_down`].
pub static STEP_DOWN: Relation = Relation {
    name: NAME,
    title: "Entry friction of a step-down test, split into ports and near-wellbore path",
    equation: "dp = b q^2 + a q^0.5, least squares, a >= 0, b >= 0",
    source: "romero1995",
    range: "at least two different rates",
    inputs: &[
        Input::list::<FlowRate>("rates", "rates of the steps"),
        Input::list::<Pressure>("drops", "entry friction at each rate"),
    ],
    outputs: &[
        Output::new::<RateSquaredLoss>("ports", "port term b"),
        Output::new::<RateRootLoss>("near_wellbore", "near-wellbore term a"),
        Output::new::<Pressure>("misfit", "root mean square of what is left"),
    ],
    evaluate: |a| {
        let rates = a.list::<FlowRate>("rates")?;
        let drops = a.list::<Pressure>("drops")?;
        if rates.len() != drops.len() {
            return Err(Error::NoSolution {
                relation: NAME,
                what: format!("{} rates but {} pressure drops", rates.len(), drops.len()),
                hint: "Give one pressure drop for each rate.",
            });
        }
        let steps: Vec<_> = rates.into_iter().zip(drops).collect();
        let entry = step_down(&steps)?;
        Ok(Outputs::new()
            .put("ports", entry.ports)
            .put("near_wellbore", entry.near_wellbore)
            .put("misfit", entry.misfit))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn both_terms_are_found_back(b in 0.0..5.0f64, a in 0.0..500.0f64) {
            let steps: Vec<_> = [2.0, 5.0, 9.0, 14.0, 20.0]
                .iter()
                .map(|q: &f64| (FlowRate::bbl_per_min(*q), Pressure::psi(b * q * q + a * q.sqrt())))
                .collect();
            let entry = step_down(&steps).unwrap();
            prop_assert!((entry.ports.in_psi_per_bpm2() - b).abs() < 1e-9 * (1.0 + a));
            prop_assert!((entry.near_wellbore.in_psi_per_root_bpm() - a).abs() < 1e-8 * (1.0 + a + b));
        }
    }

    #[test]
    fn a_term_is_never_negative() {
        // flatter than the root of the rate: all of it is near-wellbore
        let flat = [(5.0, 300.0), (10.0, 310.0), (20.0, 320.0)];
        let steps = flat.map(|(q, p)| (FlowRate::bbl_per_min(q), Pressure::psi(p)));
        let entry = step_down(&steps).unwrap();
        assert_eq!(entry.ports, RateSquaredLoss::ZERO);
        assert!(entry.near_wellbore.si() > 0.0 && entry.misfit.in_psi() > 1.0);
        // steeper than the square: all of it is ports
        let steep = [(5.0, 1.0), (10.0, 10.0), (20.0, 100.0)];
        let steps = steep.map(|(q, p)| (FlowRate::bbl_per_min(q), Pressure::psi(p)));
        assert_eq!(step_down(&steps).unwrap().near_wellbore, RateRootLoss::ZERO);
    }

    #[test]
    fn too_little_data_is_refused() {
        let step = |q, p| (FlowRate::bbl_per_min(q), Pressure::psi(p));
        assert!(step_down(&[]).is_err());
        assert!(step_down(&[step(10.0, 100.0)]).is_err());
        assert!(step_down(&[step(10.0, 100.0), step(10.0, 110.0)]).is_err());
        assert!(step_down(&[step(10.0, 100.0), step(-5.0, 110.0)]).is_err());
        assert!(step_down(&[step(0.0, 0.0), step(10.0, 110.0)]).is_err());
    }
}
