//! Axes of a chart: round ends, round steps, and where a value stands.

/// One axis.
#[derive(Debug, Clone)]
pub struct Axis {
    /// Label with its unit.
    pub label: String,
    /// Ends; the first is at the left or bottom. A reversed pair turns the axis round.
    pub ends: (f64, f64),
    /// Whether only whole numbers are marked, as for stages.
    pub whole: bool,
}

impl Axis {
    /// An axis over the values, widened to round numbers, from zero where `from_zero`.
    pub fn over(label: impl Into<String>, values: impl Iterator<Item = f64>, from_zero: bool) -> Self {
        let (mut low, mut high) = values
            .filter(|v| v.is_finite())
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)));
        if !low.is_finite() || !high.is_finite() {
            (low, high) = (0.0, 1.0);
        }
        if from_zero {
            low = low.min(0.0);
            high = high.max(0.0);
        }
        if high - low < 1e-12 * high.abs().max(1.0) {
            high = low + 1.0;
        }
        let step = nice_step(high - low, 6);
        let ends = ((low / step + 1e-9).floor() * step, (high / step - 1e-9).ceil() * step);
        Self { label: label.into(), ends, whole: false }
    }

    /// An axis of counted things, such as stages, with half a place free at both ends.
    pub fn counted(label: impl Into<String>, count: usize) -> Self {
        Self { label: label.into(), ends: (0.5, count.max(1) as f64 + 0.5), whole: true }
    }

    /// The same axis the other way round.
    pub fn reversed(mut self) -> Self {
        self.ends = (self.ends.1, self.ends.0);
        self
    }

    /// Values to be marked, at most about `most`, with the step between them.
    pub fn ticks(&self, most: usize) -> (Vec<f64>, f64) {
        let (low, high) = (self.ends.0.min(self.ends.1), self.ends.0.max(self.ends.1));
        let step = nice_step(high - low, most);
        let step = match (self.whole, high - low) {
            (false, _) => step,
            (true, span) if span <= 12.0 => 1.0,
            (true, span) if span <= 60.0 => 5.0,
            (true, _) => step.max(10.0).round(),
        };
        let first = (low / step - 1e-9).ceil();
        let last = (high / step + 1e-9).floor();
        let count = (last - first).clamp(0.0, 60.0) as usize;
        let mut ticks: Vec<f64> = (0..=count).map(|i| (first + i as f64) * step).collect();
        if self.whole && step > 1.0 && ticks.first().is_some_and(|t| *t > low + 1.0) {
            ticks.insert(0, 1.0);
        }
        (ticks, step)
    }

    /// Share of the way from the first end to the second.
    pub fn share(&self, value: f64) -> f64 {
        (value - self.ends.0) / (self.ends.1 - self.ends.0)
    }
}

/// A step of 1, 2 or 5 times a power of ten that divides `span` into at most `most` parts.
pub fn nice_step(span: f64, most: usize) -> f64 {
    let rough = (span / most.max(1) as f64).max(1e-12);
    let power = 10f64.powf(rough.log10().floor());
    let lead = rough / power;
    power
        * match lead {
            l if l <= 1.0 + 1e-9 => 1.0,
            l if l <= 2.0 + 1e-9 => 2.0,
            l if l <= 5.0 + 1e-9 => 5.0,
            _ => 10.0,
        }
}

/// A tick's number, with the decimals its step needs.
pub fn tick_text(value: f64, step: f64) -> String {
    let decimals = (-step.log10().floor()).clamp(0.0, 4.0) as usize;
    quantity::number(value, decimals)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_round() {
        assert_eq!(nice_step(10.0, 5), 2.0);
        assert!((nice_step(0.7, 7) - 0.1).abs() < 1e-12);
        let axis = Axis::over("x", [0.3, 9.2].into_iter(), true);
        assert_eq!(axis.ends, (0.0, 10.0));
        assert_eq!(axis.ticks(5).0, [0.0, 2.0, 4.0, 6.0, 8.0, 10.0]);
    }

    #[test]
    fn stages_are_marked_with_whole_numbers_from_one() {
        let axis = Axis::counted("stage", 30);
        let (ticks, _) = axis.ticks(9);
        assert_eq!(ticks, [1.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0]);
        assert_eq!(Axis::counted("stage", 4).ticks(9).0, [1.0, 2.0, 3.0, 4.0]);
        assert_eq!(Axis::counted("stage", 15).ticks(9).0, [1.0, 5.0, 10.0, 15.0]);
    }

    #[test]
    fn an_axis_over_nothing_still_stands() {
        let axis = Axis::over("x", [f64::NAN].into_iter(), false);
        assert!(axis.ends.1 > axis.ends.0);
        assert!(Axis::over("x", [3.0, 3.0].into_iter(), false).ticks(5).0.len() > 1);
    }
}
