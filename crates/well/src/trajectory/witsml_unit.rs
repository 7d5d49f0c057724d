//! Units of WITSML quantities.

use quantity::Kind;

/// SI factor of a WITSML unit of a kind, if it is one.
///
/// WITSML writes `dega` for degrees, and rates as `dega/30m`; the other symbols are those of
/// the program.
pub(super) fn factor(kind: &'static Kind, uom: &str) -> Option<f64> {
    let symbol = uom.trim().replace("dega", "deg").replace("ft[US]", "ftUS");
    let symbol = match symbol.as_str() {
        "deg/30ft" => return Some(quantity::constant::DEGREE / (30.0 * quantity::constant::FOOT)),
        "deg/ft" => return Some(quantity::constant::DEGREE / quantity::constant::FOOT),
        "rad/ft" => return Some(1.0 / quantity::constant::FOOT),
        other => other,
    };
    kind.unit(symbol).map(|u| u.factor)
}

#[cfg(test)]
mod tests {
    use super::factor;
    use quantity::{Angle, Curvature, Length, Quantity};

    #[test]
    fn knows_the_units_of_trajectories_and_no_others() {
        let is = |kind, uom, want: f64| {
            let found = factor(kind, uom).unwrap_or(0.0);
            assert!((found / want - 1.0).abs() < 1e-15, "{uom}: {found}");
        };
        let degree = std::f64::consts::PI / 180.0;
        is(Length::KIND, "m", 1.0);
        is(Length::KIND, "ft", 0.3048);
        is(Length::KIND, "ftUS", 1200.0 / 3937.0);
        is(Angle::KIND, "rad", 1.0);
        is(Angle::KIND, "dega", degree);
        is(Curvature::KIND, "rad/m", 1.0);
        is(Curvature::KIND, "dega/30m", degree / 30.0);
        is(Curvature::KIND, "dega/ft", degree / 0.3048);
        assert_eq!(factor(Length::KIND, "rad"), None);
        assert_eq!(factor(Angle::KIND, "gon"), None);
        assert_eq!(factor(Angle::KIND, ""), None);
    }
}
