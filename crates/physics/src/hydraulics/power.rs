//! Hydraulic power at the pumps.

use crate::error::{Result, require_not_negative};
use crate::{Input, Output, Outputs, Relation};
use quantity::{FlowRate, GaugePressure, Power, Quantity};

/// Hydraulic power of a rate at a pressure (gauge).
///
/// `P = p q`
///
/// `p` gauge pressure (Pa), `q` rate (m³/s). In field units `hp = psi bbl/min/40.8163`.
///
/// Range: none stated.
///
/// The power the fluid takes up, not that of the engines: divide by the pumps' efficiency.
///
/// Source: guo_liu2011 ch. 2; the factor from the exact units (texts print 40.8).
///
/// ```
/// use physics::hydraulics::power::hydraulic_power;
/// use quantity::{FlowRate, GaugePressure};
/// let p = hydraulic_power(GaugePressure::psi(8000.0), FlowRate::bbl_per_min(15.0))?;
/// assert!((p.in_hp() - 2940.0).abs() < 0.5);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn hydraulic_power(pressure: GaugePressure, rate: FlowRate) -> Result<Power> {
    require_not_negative("hydraulic_power", "pressure", pressure)?;
    require_not_negative("hydraulic_power", "rate", rate)?;
    // P = p q
    Ok(Power::w(pressure.si() * rate.si()))
}

/// Register entry of [`hydraulic_power`].
pub static HYDRAULIC_POWER: Relation = Relation {
    name: "hydraulic_power",
    title: "Hydraulic power of a rate at a pressure (gauge)",
    equation: "P = p q; hp = psi bbl/min/40.8163",
    source: "guo_liu2011 ch. 2",
    range: "none stated by the source",
    inputs: &[
        Input::new::<GaugePressure>("pressure", "pump pressure"),
        Input::new::<FlowRate>("rate", "rate"),
    ],
    outputs: &[Output::new::<Power>("power", "hydraulic power")],
    evaluate: |a| Ok(Outputs::new().put("power", hydraulic_power(a.get("pressure")?, a.get("rate")?)?)),
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn power_needs_both_and_refuses_backward_flow() {
        let (p, q) = (GaugePressure::psi(5000.0), FlowRate::bbl_per_min(10.0));
        assert_eq!(hydraulic_power(p, FlowRate::ZERO).unwrap(), Power::ZERO);
        assert!(hydraulic_power(p, q * -1.0).is_err());
    }
}
