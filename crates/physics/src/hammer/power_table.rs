//! A power of the rate from a table, since it is wanted at every node of every step.

/// Entries of a table.
const ENTRIES: usize = 4096;

/// `|q|^(n - 1)` for rates up to a limit, straight between the entries.
///
/// The steady flow and the waves read the same table, so that its error, below 2e-5 from a
/// hundredth of the limit on, moves nothing that stands.
#[derive(Debug, Clone)]
pub(super) struct PowerTable {
    power: f64,
    per_rate: f64,
    /// Value and rise to the next one.
    entries: Vec<[f64; 2]>,
}

impl PowerTable {
    pub fn new(exponent: f64, limit: f64) -> Self {
        let power = exponent - 1.0;
        let step = limit / ENTRIES as f64;
        let at = |i: usize| (i as f64 * step).powf(power);
        // a square law is read without the table, a linear one is one everywhere
        let entries = if power == 1.0 {
            Vec::new()
        } else {
            (0..ENTRIES).map(|i| [at(i), at(i + 1) - at(i)]).collect()
        };
        Self { power, per_rate: 1.0 / step, entries }
    }

    /// Whether it is the square law.
    pub fn is_square(&self) -> bool {
        self.entries.is_empty()
    }

    /// `|q|^(n - 1)`.
    #[inline]
    pub fn at(&self, q: f64) -> f64 {
        if self.is_square() {
            return q.abs();
        }
        let x = q.abs() * self.per_rate;
        let entry = x as i32;
        match self.entries.get(entry as usize) {
            // straight between two entries
            Some([value, rise]) => value + rise * (x - f64::from(entry)),
            None => self.beyond(q),
        }
    }

    /// The power itself, beyond the table.
    #[cold]
    #[inline(never)]
    fn beyond(&self, q: f64) -> f64 {
        q.abs().powf(self.power)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_follows_the_power() {
        for n in [1.0, 1.5, 1.75, 1.9, 2.0] {
            let table = PowerTable::new(n, 0.4);
            for i in 1..2000 {
                let q = f64::from(i) * 2.5e-4;
                let exact = q.powf(n - 1.0);
                let allowed = if q > 0.004 { 2e-5 } else { 2e-2 };
                assert!((table.at(-q) / exact - 1.0).abs() < allowed, "{n} {q}");
            }
        }
    }
}
