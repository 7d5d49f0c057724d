//! Rock quality from a log, as a share from 0 to 1 between its tenth and ninetieth percentile.

use quantity::{MeasuredDepth, Quantity, Ratio};

/// A log of rock quality, smoothed to nothing and ranked between its percentiles.
#[derive(Debug, Clone, PartialEq)]
pub struct Quality {
    depths: Vec<f64>,
    shares: Vec<f64>,
}

impl Quality {
    /// From depths (rising) and readings; readings that are not finite are left out. None when
    /// fewer than two are left.
    pub fn new(depths: &[MeasuredDepth], readings: &[f64], higher_is_better: bool) -> Option<Self> {
        let pairs = depths.iter().map(|d| d.si()).zip(readings.iter().copied());
        let mut kept: Vec<(f64, f64)> = pairs.filter(|(d, r)| d.is_finite() && r.is_finite()).collect();
        kept.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut sorted: Vec<f64> = kept.iter().map(|(_, r)| *r).collect();
        sorted.sort_by(f64::total_cmp);
        let at = |share: f64| sorted.get(((sorted.len() - 1) as f64 * share) as usize).copied();
        if sorted.len() < 2 {
            return None;
        }
        let (low, high) = (at(0.1)?, at(0.9)?);
        let share = |r: f64| if high > low { ((r - low) / (high - low)).clamp(0.0, 1.0) } else { 0.5 };
        let shares = kept.iter().map(|(_, r)| if higher_is_better { share(*r) } else { 1.0 - share(*r) });
        Some(Self { shares: shares.collect(), depths: kept.into_iter().map(|(d, _)| d).collect() })
    }

    /// Quality at a depth, on the line between the readings beside it; none outside the log.
    pub fn at(&self, depth: MeasuredDepth) -> Option<Ratio> {
        let d = depth.si();
        let next = self.depths.partition_point(|x| *x <= d);
        if next == 0 || next == self.depths.len() {
            return None;
        }
        let (d0, d1) = (*self.depths.get(next - 1)?, *self.depths.get(next)?);
        let (s0, s1) = (*self.shares.get(next - 1)?, *self.shares.get(next)?);
        let along = if d1 > d0 { (d - d0) / (d1 - d0) } else { 0.0 };
        Some(Ratio::of(s0 + along * (s1 - s0)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gamma_ray_is_better_where_it_is_low() {
        let depths: Vec<_> = (0..11).map(|i| MeasuredDepth::m(f64::from(i))).collect();
        let readings: Vec<_> = (0..11).map(|i| f64::from(i) * 10.0).collect();
        let q = Quality::new(&depths, &readings, false).unwrap();
        assert_eq!(q.at(MeasuredDepth::m(1.0)), Some(Ratio::of(1.0)));
        assert_eq!(q.at(MeasuredDepth::m(5.0)), Some(Ratio::of(0.5)));
        assert_eq!(q.at(MeasuredDepth::m(50.0)), None);
    }
}
