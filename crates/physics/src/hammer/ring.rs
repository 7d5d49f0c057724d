//! How far the pressures still swing.

/// Lowest and highest pressures, period by period.
#[derive(Debug, Clone)]
pub(super) struct Ring {
    period: u64,
    noted: u64,
    low: [f64; 2],
    high: [f64; 2],
    last: Option<f64>,
}

impl Ring {
    /// With a period in steps.
    pub fn new(period: u64) -> Self {
        Self { period, noted: 0, low: [f64::INFINITY; 2], high: [f64::NEG_INFINITY; 2], last: None }
    }

    /// Notes the two pressures of a step.
    pub fn note(&mut self, surface: f64, seat: f64) {
        for (i, p) in [surface, seat].into_iter().enumerate() {
            self.low[i] = self.low[i].min(p);
            self.high[i] = self.high[i].max(p);
        }
        self.noted += 1;
        if self.noted == self.period {
            self.last = Some((self.high[0] - self.low[0]).max(self.high[1] - self.low[1]));
            (self.noted, self.low, self.high) = (0, [f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
        }
    }

    /// How far they swung in the last whole period, and in the one that runs.
    pub fn range(&self) -> Option<f64> {
        let now = (0..2).map(|i| self.high[i] - self.low[i]).fold(0.0, f64::max);
        self.last.map(|last| last.max(now))
    }
}
