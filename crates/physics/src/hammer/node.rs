//! Rates at a node between arriving waves, losses and sinks: closed forms.

use crate::solve::brent;

/// A lumped loss: how much it costs per rate squared, or shut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Loss {
    /// `dp = k q|q|`, k in Pa/(m³/s)².
    Open(f64),
    /// No way through.
    Shut,
}

impl Loss {
    /// The loss when a share of the area is open: `k/share²`.
    pub fn part(full: f64, share: f64) -> Self {
        if share > 0.0 { Loss::Open(full / (share * share)) } else { Loss::Shut }
    }
}

/// A wave that arrives at a node, as the pressure it would make there: `p = c - b q` from above
/// with `q` arriving, `p = c + b q` from below with `q` leaving. A sink is of the second form.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Line {
    pub c: f64,
    pub b: f64,
}

/// The rate a pressure difference drives through a linear and a square resistance.
///
/// `b q + k q|q| = dp`, solved as `q = 2 dp/[b + sqrt(b^2 + 4k|dp|)]`
pub(super) fn rate_through(dp: f64, b: f64, k: f64) -> f64 {
    if dp == 0.0 {
        return 0.0;
    }
    // q = 2 dp/[b + sqrt(b^2 + 4k|dp|)]
    2.0 * dp / (b + (b * b + 4.0 * k * dp.abs()).sqrt())
}

/// What a node with a way on and a way out settles at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Settled {
    /// Pressure above the seat.
    pub above: f64,
    /// Pressure below it.
    pub below: f64,
    /// Rate past the seat.
    pub past: f64,
    /// Rate out through the ports.
    pub out: f64,
}

/// Settles a node: a wave from above, one from below past a seat, a sink behind ports.
///
/// `p = c_a - b_a q`, `q = q_past + q_out`, `p - c_b = b_b q_past + k_s q_past|q_past|`,
/// `p - c_s = b_s q_out + k_p q_out|q_out|`
pub(super) fn settle(upper: Line, lower: (Loss, Line), out: (Loss, Line)) -> Settled {
    let below_at = |past: f64| lower.1.c + lower.1.b * past;
    match (lower.0, out.0) {
        (Loss::Shut, Loss::Shut) => Settled { above: upper.c, below: below_at(0.0), past: 0.0, out: 0.0 },
        (Loss::Open(k), Loss::Shut) => {
            let past = rate_through(upper.c - lower.1.c, upper.b + lower.1.b, k);
            Settled { above: upper.c - upper.b * past, below: below_at(past), past, out: 0.0 }
        }
        (Loss::Shut, Loss::Open(k)) => {
            let q = rate_through(upper.c - out.1.c, upper.b + out.1.b, k);
            Settled { above: upper.c - upper.b * q, below: below_at(0.0), past: 0.0, out: q }
        }
        (Loss::Open(seat), Loss::Open(ports)) => both(upper, (seat, lower.1), (ports, out.1)),
    }
}

/// Both ways open: the pressure lies between the three of the lines, and there is one.
fn both(upper: Line, (seat, lower): (f64, Line), (ports, sink): (f64, Line)) -> Settled {
    let low = upper.c.min(lower.c).min(sink.c);
    let high = upper.c.max(lower.c).max(sink.c);
    let past_at = |p: f64| rate_through(p - lower.c, lower.b, seat);
    let out_at = |p: f64| rate_through(p - sink.c, sink.b, ports);
    let rest = |p: f64| (upper.c - p) - upper.b * (past_at(p) + out_at(p));
    let above = if sink.b + ports == 0.0 {
        sink.c
    } else if lower.b + seat == 0.0 {
        lower.c
    } else {
        brent(rest, low, high, 1e-12 * (high - low)).unwrap_or(low)
    };
    let q = (upper.c - above) / upper.b;
    // an ideal way out takes what is left
    let past = if lower.b + seat == 0.0 { q - out_at(above) } else { past_at(above) };
    Settled { above, below: lower.c + lower.b * past, past, out: q - past }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_closed_form_solves_its_equation() {
        for (dp, b, k) in [(1e6, 1e8, 1e9), (-3e5, 2e8, 0.0), (4e6, 0.0, 1e10), (0.0, 0.0, 0.0)] {
            let q = rate_through(dp, b, k);
            assert!((b * q + k * q * q.abs() - dp).abs() <= 1e-9 * dp.abs());
        }
    }

    #[test]
    fn a_node_with_both_ways_open_obeys_every_line() {
        let upper = Line { c: 5.0e7, b: 4e8 };
        let lower = Line { c: 3.0e7, b: 3e8 };
        let sink = Line { c: 4.0e7, b: 1e7 };
        let s = settle(upper, (Loss::Open(2e9), lower), (Loss::Open(1e9), sink));
        assert!((upper.c - upper.b * (s.past + s.out) - s.above).abs() < 1e-3);
        assert!((s.above - s.below - 2e9 * s.past * s.past.abs()).abs() < 1e-3);
        assert!((s.above - sink.c - sink.b * s.out - 1e9 * s.out * s.out.abs()).abs() < 1e-3);
        let ideal = Line { c: 4.0e7, b: 0.0 };
        let s = settle(upper, (Loss::Open(2e9), lower), (Loss::Open(0.0), ideal));
        assert_eq!(s.above, 4.0e7);
        assert!((upper.c - upper.b * (s.past + s.out) - s.above).abs() < 1e-3);
    }
}
