//! The differential a packer may hold, read from the supplier's chart over hole size and
//! temperature.

use crate::error::{Error, require, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Diameter, Pressure, Quantity, Ratio, Temperature};

/// Most cells of a chart.
const MOST_CELLS: usize = 10_000;

/// The supplier's chart: a rating for each hole size and temperature.
#[derive(Debug, Clone, PartialEq)]
pub struct RatingChart {
    holes: Vec<Diameter>,
    temperatures: Vec<Temperature>,
    /// Row by row: all temperatures of the first hole size, then of the next.
    ratings: Vec<Pressure>,
}

/// Where a point lies beside the chart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// Inside the chart.
    Inside,
    /// Smaller or colder than the chart: read at its edge, and to be confirmed.
    Held,
    /// Larger or hotter than the chart: nothing is rated there.
    Unrated,
}

/// A rating read from the chart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rating {
    /// The differential; zero where nothing is rated.
    pub pressure: Pressure,
    /// Where the point lies.
    pub standing: Standing,
}

impl RatingChart {
    /// From hole sizes and temperatures, both increasing, and ratings row by row (all
    /// temperatures of the first hole size first).
    pub fn new(holes: Vec<Diameter>, temperatures: Vec<Temperature>, ratings: Vec<Pressure>) -> Result<Self> {
        let (rows, columns, cells) = (holes.len(), temperatures.len(), ratings.len());
        let count = Ratio::of(cells as f64);
        let right =
            rows > 0 && columns > 0 && cells <= MOST_CELLS && rows.checked_mul(columns) == Some(cells);
        let limit = format!("{rows} hole sizes times {columns} temperatures");
        require(right, NAME, "ratings", count, limit, "Give one rating for each hole size and temperature.")?;
        let hint = "Sort the chart; remove repeats.";
        for (a, b) in holes.iter().zip(holes.iter().skip(1)) {
            require(b > a, NAME, "holes", *b, "above the one before it", hint)?;
        }
        for (a, b) in temperatures.iter().zip(temperatures.iter().skip(1)) {
            require(b > a, NAME, "temperatures", *b, "above the one before it", hint)?;
        }
        holes.iter().try_for_each(|h| require_positive(NAME, "holes", *h))?;
        ratings.iter().try_for_each(|p| require_not_negative(NAME, "ratings", *p))?;
        let finite = holes.iter().all(|h| h.is_finite())
            && temperatures.iter().all(|t| t.is_finite())
            && ratings.iter().all(|p| p.is_finite());
        if finite {
            Ok(Self { holes, temperatures, ratings })
        } else {
            Err(Error::NotFinite { relation: NAME, output: "chart" })
        }
    }

    /// The rating at a hole size and temperature.
    ///
    /// Equation: `ΔP = Σ w_i w_j ΔP_ij` over the four neighbours, weights linear in hole size and
    /// in temperature.
    ///
    /// Symbols: ΔP_ij rating at hole size i and temperature j Pa, w weights (pure numbers).
    ///
    /// Range: inside the chart.
    ///
    /// Where it breaks: a larger hole or a hotter place than the chart has is not rated: the
    /// result is zero and `Unrated`. A smaller or colder one is read at the chart's edge and
    /// marked `Held`: some rubbers hold less when cold, so the supplier must confirm it.
    ///
    /// Source: press2007 sec. 3.6 (bilinear interpolation).
    ///
    /// ```
    /// use physics::packer::packer_rating::{RatingChart, Standing};
    /// use quantity::{Diameter, Pressure, Temperature};
    /// let chart = RatingChart::new(vec![Diameter::inch(6.0), Diameter::inch(6.5)],
    ///     vec![Temperature::deg_c(60.0), Temperature::deg_c(100.0)],
    ///     [10_000.0, 8000.0, 6000.0, 4000.0].map(Pressure::psi).to_vec())?;
    /// let read = chart.at(Diameter::inch(6.25), Temperature::deg_c(80.0))?;
    /// assert!((read.pressure.in_psi() - 7000.0).abs() < 1e-6);
    /// assert_eq!(chart.at(Diameter::inch(6.6), Temperature::deg_c(80.0))?.standing, Standing::Unrated);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn at(&self, hole: Diameter, temperature: Temperature) -> Result<Rating> {
        require_positive(NAME, "hole", hole)?;
        require_positive(NAME, "temperature", temperature)?;
        let (row, hole_standing) = bracket(&self.holes, hole);
        let (column, heat_standing) = bracket(&self.temperatures, temperature);
        let standing = match (hole_standing, heat_standing) {
            (Standing::Unrated, _) | (_, Standing::Unrated) => Standing::Unrated,
            (Standing::Held, _) | (_, Standing::Held) => Standing::Held,
            _ => Standing::Inside,
        };
        if standing == Standing::Unrated {
            return Ok(Rating { pressure: Pressure::ZERO, standing });
        }
        let width = self.temperatures.len();
        let cell = |i: usize, j: usize| self.ratings.get(i * width + j).copied().unwrap_or_default();
        let along = |i: usize| mix(cell(i, column.low), cell(i, column.high), column.share);
        // ΔP = Σ w_i w_j ΔP_ij
        Ok(Rating { pressure: mix(along(row.low), along(row.high), row.share), standing })
    }
}

/// Neighbours of a point on one axis and its share of the way between them.
#[derive(Debug, Clone, Copy)]
struct Bracket {
    low: usize,
    high: usize,
    share: f64,
}

fn bracket<Q: Quantity>(axis: &[Q], at: Q) -> (Bracket, Standing) {
    let above = axis.partition_point(|q| q.si() <= at.si());
    let held = |i: usize, standing| (Bracket { low: i, high: i, share: 0.0 }, standing);
    let Some(low) = above.checked_sub(1) else { return held(0, Standing::Held) };
    match (axis.get(low), axis.get(above)) {
        (Some(a), Some(b)) => {
            let share = (at.si() - a.si()) / (b.si() - a.si());
            (Bracket { low, high: above, share }, Standing::Inside)
        }
        (Some(a), None) if a.si() == at.si() => held(low, Standing::Inside),
        _ => held(low, Standing::Unrated),
    }
}

fn mix(a: Pressure, b: Pressure, share: f64) -> Pressure {
    a * (1.0 - share) + b * share
}

const NAME: &str = "packer_rating";

/// `packer_rating` in the register.
pub static PACKER_RATING: Relation = Relation {
    name: NAME,
    title: "Differential rating of a packer from the supplier's chart",
    equation: "ΔP = Σ w_i w_j ΔP_ij over the four neighbours",
    source: "press2007 sec. 3.6",
    range: "inside the chart; larger or hotter is unrated (zero), smaller or colder is held at the edge",
    inputs: &[
        Input::list::<Diameter>("holes", "hole sizes of the chart"),
        Input::list::<Temperature>("temperatures", "temperatures of the chart"),
        Input::list::<Pressure>("ratings", "ratings, all temperatures of the first hole size first"),
        Input::new::<Diameter>("hole", "hole diameter, from a caliper"),
        Input::new::<Temperature>("temperature", "temperature of the packer"),
    ],
    outputs: &[
        Output::new::<Pressure>("rating", "differential rating, zero where nothing is rated"),
        Output::new::<Ratio>("outside_chart", "0 inside the chart, 1 held at its edge, 2 unrated"),
    ],
    evaluate: |a| {
        let chart = RatingChart::new(a.list("holes")?, a.list("temperatures")?, a.list("ratings")?)?;
        let read = chart.at(a.get("hole")?, a.get("temperature")?)?;
        let outside = match read.standing {
            Standing::Inside => 0.0,
            Standing::Held => 1.0,
            Standing::Unrated => 2.0,
        };
        Ok(Outputs::new().put("rating", read.pressure).put("outside_chart", Ratio::of(outside)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;

    proptest::proptest! {
        #[test]
        fn a_larger_hole_never_raises_the_rating(
            drops in proptest::collection::vec(0.0f64..3000.0, 12),
            hole in 5.8f64..6.9, more in 0.0f64..0.6, heat in 40.0f64..130.0,
        ) {
            let d = [6.0, 6.25, 6.5, 6.75].map(Diameter::inch).to_vec();
            let t = [60.0, 90.0, 120.0].map(Temperature::deg_c).to_vec();
            let mut ratings = vec![12_000.0; 3];
            for i in 0..9 {
                ratings.push(f64::max(0.0, ratings[i] - drops[i]));
            }
            let chart = RatingChart::new(d, t, ratings.into_iter().map(Pressure::psi).collect()).unwrap();
            let at = |h: f64| chart.at(Diameter::inch(h), Temperature::deg_c(heat)).unwrap().pressure.in_psi();
            proptest::prop_assert!(at(hole + more) <= at(hole) + 1e-6);
        }
    }

    #[test]
    fn refuses_a_chart_that_does_not_fit() {
        let d = |v: &[f64]| v.iter().copied().map(Diameter::inch).collect::<Vec<_>>();
        let t = || vec![Temperature::deg_c(60.0)];
        let p = |v: &[f64]| v.iter().copied().map(Pressure::psi).collect::<Vec<_>>();
        assert!(RatingChart::new(d(&[]), t(), p(&[])).is_err());
        assert!(RatingChart::new(d(&[6.0, 6.5]), t(), p(&[1.0])).is_err());
        assert!(RatingChart::new(d(&[6.5, 6.0]), t(), p(&[1.0, 2.0])).is_err());
        assert!(RatingChart::new(d(&[6.0]), t(), p(&[f64::NAN])).is_err());
        assert!(RatingChart::new(d(&[6.0]), t(), p(&[1.0])).is_ok());
    }
}
