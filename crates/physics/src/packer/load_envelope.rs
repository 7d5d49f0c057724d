//! Where a packer's load and differential lie in the supplier's rated envelope.

use crate::error::{Error, require, require_not_negative, require_positive};
use crate::{Input, Output, Outputs, Relation, Result};
use quantity::{Force, Pressure, Quantity, Ratio};

const NAME: &str = "load_envelope";
/// Most rows of an envelope.
const MOST_ROWS: usize = 1_000;

/// One row of an envelope: the loads allowed at a differential.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EnvelopeRow {
    /// Differential pressure.
    pub differential: Pressure,
    /// Largest load pulling down.
    pub tension: Force,
    /// Largest load pushing up.
    pub compression: Force,
}

/// Rows of an envelope, by rising differential.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadEnvelope {
    rows: Vec<EnvelopeRow>,
}

/// A point in the envelope.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EnvelopePlace {
    /// Load allowed in the load's own direction at the differential; none above the highest row.
    pub load_limit: Option<Force>,
    /// How far along the straight line from no load and no differential to the edge it lies;
    /// 1 is on the edge.
    pub utilisation: f64,
}

impl EnvelopeRow {
    fn limit(&self, up: bool) -> f64 {
        if up { self.compression.si() } else { self.tension.si() }
    }
}

impl LoadEnvelope {
    /// From rows in any order; refused where two have the same differential, or where the lowest
    /// allows no load.
    pub fn new(rows: &[EnvelopeRow]) -> Result<Self> {
        let count = Ratio::of(rows.len() as f64);
        let some = (1..=MOST_ROWS).contains(&rows.len());
        require(some, NAME, "rows", count, "1 to 1000", "Give the supplier's envelope, row by row.")?;
        for row in rows {
            require_not_negative(NAME, "differentials", row.differential)?;
            require_not_negative(NAME, "tensions", row.tension)?;
            require_not_negative(NAME, "compressions", row.compression)?;
        }
        let mut rows = rows.to_vec();
        rows.sort_by(|a, b| a.differential.total_cmp(&b.differential));
        for (a, b) in rows.iter().zip(rows.iter().skip(1)) {
            let hint = "Give one row for each differential.";
            let limit = "different from every other row's";
            require(b.differential > a.differential, NAME, "differentials", b.differential, limit, hint)?;
        }
        if let Some(lowest) = rows.first() {
            require_positive(NAME, "tensions", lowest.tension)?;
            require_positive(NAME, "compressions", lowest.compression)?;
        }
        if let Some(highest) = rows.last() {
            require_positive(NAME, "differentials", highest.differential)?;
        }
        Ok(Self { rows })
    }

    /// The rows, by rising differential.
    pub fn rows(&self) -> &[EnvelopeRow] {
        &self.rows
    }

    /// Where a differential (either sign) and a load (down positive) lie in the envelope.
    ///
    /// Equation: `u = 1/t`, `t` the least positive number with `|F| t = L(|Δp| t)` or
    /// `|Δp| t = p_n`; `L(p) = L_i + (L_{i+1} − L_i)(p − p_i)/(p_{i+1} − p_i)`.
    ///
    /// Symbols: Δp differential across the packer Pa, F load N, L load allowed in that direction
    /// N, p_i differentials of the rows Pa with p_n the highest, u utilisation (pure number).
    ///
    /// Range: differentials from the lowest to the highest row.
    ///
    /// Where it breaks: a differential below the lowest row is refused; one above the highest
    /// has no load limit and a utilisation above 1. Nothing is read beyond the rows. Where the
    /// rows make a hollow outline, a point behind the hollow counts as outside. The envelope
    /// holds for the temperature it was drawn for.
    ///
    /// Source: api_11d1_2021 annex G (rated envelopes); geometry of a straight line.
    ///
    /// ```
    /// use physics::packer::load_envelope::{EnvelopeRow, LoadEnvelope};
    /// use quantity::{Force, Pressure};
    /// let row = |p, f| EnvelopeRow { differential: Pressure::psi(p), tension: Force::klbf(f), compression: Force::klbf(f) };
    /// let envelope = LoadEnvelope::new(&[row(0.0, 300.0), row(10_000.0, 200.0)])?;
    /// let place = envelope.place(Pressure::psi(5_000.0), Force::klbf(100.0))?;
    /// // 100 t = 300 - 50 t: t = 2
    /// assert!((place.utilisation - 0.5).abs() < 1e-12);
    /// assert!((place.load_limit.map_or(0.0, Force::in_klbf) - 250.0).abs() < 1e-9);
    /// # Ok::<(), physics::Error>(())
    /// ```
    pub fn place(&self, differential: Pressure, load: Force) -> Result<EnvelopePlace> {
        let (p, f) = (differential.si().abs(), load.si().abs());
        let up = load.si() < 0.0;
        let (Some(lowest), Some(highest)) = (self.rows.first(), self.rows.last()) else {
            return Err(below(differential));
        };
        if !(p.is_finite() && f.is_finite()) {
            return Err(Error::NotFinite { relation: NAME, output: "utilisation" });
        }
        if p < lowest.differential.si() * (1.0 - 1e-12) {
            return Err(below(differential));
        }
        // |Δp| t = p_n
        let mut t = if p > 0.0 { highest.differential.si() / p } else { f64::INFINITY };
        if p <= 0.0 && f > 0.0 {
            t = lowest.limit(up) / f;
        }
        for (a, b) in self.rows.iter().zip(self.rows.iter().skip(1)) {
            let (pa, pb) = (a.differential.si(), b.differential.si());
            let slope = (b.limit(up) - a.limit(up)) / (pb - pa);
            // |F| t = L_i + slope (|Δp| t − p_i)
            let at = (a.limit(up) - slope * pa) / (f - slope * p);
            let on = at.is_finite() && at > 0.0 && (pa..=pb).contains(&(at * p));
            t = if on { t.min(at) } else { t };
        }
        // below the lowest row the edge is taken straight down, which no point inside meets
        let side = lowest.limit(up) / f;
        if side.is_finite() && side * p <= lowest.differential.si() {
            t = t.min(side);
        }
        Ok(EnvelopePlace { load_limit: self.limit_at(p, up), utilisation: 1.0 / t })
    }

    /// L(p) between the rows.
    fn limit_at(&self, p: f64, up: bool) -> Option<Force> {
        let pairs = self.rows.iter().zip(self.rows.iter().skip(1));
        for (a, b) in pairs {
            let (pa, pb) = (a.differential.si(), b.differential.si());
            if (pa..=pb).contains(&p) {
                let share = (p - pa) / (pb - pa);
                return Some(Force::n(a.limit(up) + (b.limit(up) - a.limit(up)) * share));
            }
        }
        self.rows
            .first()
            .filter(|r| (r.differential.si() - p).abs() <= 1e-9 * p)
            .map(|r| Force::n(r.limit(up)))
    }
}

fn below(differential: Pressure) -> Error {
    Error::NoSolution {
        relation: NAME,
        what: format!("the envelope has no row at or below a differential of {}", differential.abs()),
        hint: "Ask the supplier for the load ratings at a differential of zero.",
    }
}

/// `load_envelope` in the register.
pub static LOAD_ENVELOPE: Relation = Relation {
    name: NAME,
    title: "Load and differential of a packer in its rated envelope (load down positive)",
    equation: "u = 1/t, t the least positive number with |F| t = L(|Δp| t) or |Δp| t = p_n; L linear between the rows",
    source: "api_11d1_2021 annex G; geometry of a straight line",
    range: "differentials from the lowest row to the highest; above it u exceeds 1",
    inputs: &[
        Input::list::<Pressure>("differentials", "differential of each row"),
        Input::list::<Force>("tensions", "largest load pulling down at each"),
        Input::list::<Force>("compressions", "largest load pushing up at each"),
        Input::new::<Pressure>("differential", "differential across the packer, either sign"),
        Input::new::<Force>("load", "load on the packer, down positive"),
    ],
    outputs: &[
        Output::new::<Ratio>("utilisation", "share of the way from no load to the edge u"),
        Output::new::<Force>("load_limit", "load allowed at that differential, 0 above the highest row"),
        Output::new::<Ratio>("inside", "1 inside or on the edge, 0 outside"),
    ],
    evaluate: |a| {
        let differentials = a.list::<Pressure>("differentials")?;
        let (tensions, compressions) = (a.list::<Force>("tensions")?, a.list::<Force>("compressions")?);
        if differentials.len() != tensions.len() || differentials.len() != compressions.len() {
            return Err(Error::NoSolution {
                relation: NAME,
                what: "the three lists of rows are not of one length".into(),
                hint: "Give one tension and one compression for each differential.",
            });
        }
        let loads = tensions.into_iter().zip(compressions);
        let rows = differentials.into_iter().zip(loads);
        let rows: Vec<_> = rows
            .map(|(differential, (tension, compression))| EnvelopeRow { differential, tension, compression })
            .collect();
        let place = LoadEnvelope::new(&rows)?.place(a.get("differential")?, a.get("load")?)?;
        let inside = if place.utilisation <= 1.0 + 1e-12 { 1.0 } else { 0.0 };
        Ok(Outputs::new()
            .put("utilisation", Ratio::of(place.utilisation))
            .put("load_limit", place.load_limit.unwrap_or(Force::ZERO))
            .put("inside", Ratio::of(inside)))
    },
};

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn envelope(rows: &[(f64, f64, f64)]) -> LoadEnvelope {
        let row = |&(p, t, c): &(f64, f64, f64)| EnvelopeRow {
            differential: Pressure::psi(p),
            tension: Force::klbf(t),
            compression: Force::klbf(c),
        };
        LoadEnvelope::new(&rows.iter().map(row).collect::<Vec<_>>()).unwrap()
    }

    fn full() -> LoadEnvelope {
        envelope(&[(10e3, 200.0, 120.0), (8e3, 240.0, 200.0), (5e3, 280.0, 240.0), (0.0, 300.0, 260.0)])
    }

    proptest! {
        #[test]
        fn inside_means_below_the_limit_at_its_own_differential(p in 0.0f64..12_000.0, f in -400.0f64..400.0) {
            // a convex outline: the ray and the limit at the differential must agree
            let place = full().place(Pressure::psi(p), Force::klbf(f)).unwrap();
            let inside = place.load_limit.is_some_and(|l| f.abs() <= l.in_klbf());
            prop_assert_eq!(inside, place.utilisation <= 1.0 + 1e-12);
        }

        #[test]
        fn it_grows_in_proportion_along_a_line(p in 0.0f64..9_000.0, f in -250.0f64..250.0, k in 0.05f64..1.0) {
            let whole = full().place(Pressure::psi(p), Force::klbf(f)).unwrap().utilisation;
            let part = full().place(Pressure::psi(p * k), Force::klbf(f * k)).unwrap().utilisation;
            prop_assert!((part - whole * k).abs() < 1e-9 * whole.max(1e-9));
        }

        #[test]
        fn an_edge_point_is_on_the_edge(share in 0.0f64..1.0) {
            let (p, f) = (5e3 + 3e3 * share, 280.0 - 40.0 * share);
            let u = full().place(Pressure::psi(-p), Force::klbf(f)).unwrap().utilisation;
            prop_assert!((u - 1.0).abs() < 1e-9);
        }
    }

    #[test]
    fn nothing_is_read_below_the_lowest_row() {
        let short = envelope(&[(10e3, 200.0, 200.0), (5e3, 280.0, 280.0)]);
        assert!(short.place(Pressure::psi(2e3), Force::klbf(10.0)).is_err());
        assert!(short.place(Pressure::psi(6e3), Force::klbf(10.0)).unwrap().utilisation < 1.0);
        assert!(short.place(Pressure::psi(6e3), Force::klbf(290.0)).unwrap().utilisation > 1.0);
    }

    #[test]
    fn no_load_is_no_use() {
        let nothing = full().place(Pressure::ZERO, Force::ZERO).unwrap();
        assert_eq!(nothing.utilisation, 0.0);
    }
}
