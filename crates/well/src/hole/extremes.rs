//! The largest of a run of numbers, in constant time.
//!
//! Numbers are grouped in blocks of [`BLOCK`]; over the blocks stands a sparse table (for each
//! power of two, the largest of so many blocks). A query looks at the two blocks at its ends and
//! at two entries of the table, whatever its length. Memory is n/16 log2(n/16) numbers.

/// Numbers in a block.
const BLOCK: usize = 16;

/// Answers for the largest number of any run.
#[derive(Debug, Clone)]
pub(super) struct Largest {
    values: Vec<f64>,
    /// `levels[k][b]`: the largest of 2^k blocks from block b.
    levels: Vec<Vec<f64>>,
}

fn largest(values: &[f64]) -> f64 {
    values.iter().copied().fold(f64::NEG_INFINITY, f64::max)
}

impl Largest {
    /// Over these numbers.
    pub(super) fn new(values: Vec<f64>) -> Self {
        let mut levels: Vec<Vec<f64>> = vec![values.chunks(BLOCK).map(largest).collect()];
        let mut width = 1;
        while let Some(below) = levels.last().filter(|l| l.len() > width) {
            let pairs = below.iter().zip(below.get(width..).unwrap_or(&[]));
            let next: Vec<f64> = pairs.map(|(a, b)| a.max(*b)).collect();
            // The level above level k spans 2^(k+1) blocks: two runs of 2^k, one after the other.
            levels.push(next);
            width *= 2;
        }
        Self { values, levels }
    }

    /// The largest of the numbers from `first` up to, not including, `end`; minus infinity if
    /// there is none.
    pub(super) fn over(&self, first: usize, end: usize) -> f64 {
        let end = end.min(self.values.len());
        if first >= end {
            return f64::NEG_INFINITY;
        }
        let (inner, outer) = (first.div_ceil(BLOCK), end / BLOCK);
        if inner >= outer {
            return largest(self.values.get(first..end).unwrap_or(&[]));
        }
        let head = largest(self.values.get(first..inner * BLOCK).unwrap_or(&[]));
        let tail = largest(self.values.get(outer * BLOCK..end).unwrap_or(&[]));
        head.max(tail).max(self.blocks(inner, outer))
    }

    /// The largest of whole blocks, by two overlapping runs of a power of two.
    fn blocks(&self, first: usize, end: usize) -> f64 {
        let level = (end - first).ilog2() as usize;
        let run = 1usize << level;
        let at = |block: usize| self.levels.get(level).and_then(|l| l.get(block)).copied();
        at(first).unwrap_or(f64::NEG_INFINITY).max(at(end - run).unwrap_or(f64::NEG_INFINITY))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn agrees_with_looking_at_each(
            values in prop::collection::vec(-10.0..10.0f64, 0..900),
            a in 0usize..1000,
            b in 0usize..1000,
        ) {
            let table = Largest::new(values.clone());
            let end = b.min(values.len());
            let plain = values.get(a..end).map_or(f64::NEG_INFINITY, largest);
            prop_assert_eq!(table.over(a, b), plain);
        }
    }
}
