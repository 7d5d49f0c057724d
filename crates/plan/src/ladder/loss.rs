//! What the flow loses in the seats, each a restriction in its sleeve's own bore.

use physics::hydraulics::seat::{SeatModel, seat_loss};
use physics::{Call, Result};
use quantity::*;
use well::Job;

use crate::stages::pressure::seat_model;

/// Loss of a seat per rate squared.
pub(super) fn loss_of(job: &Job, seat: Diameter, density: Density) -> Result<RateSquaredLoss> {
    Ok(seat_loss(seat_model(job), seat, job.file.sleeve.id)?.per_rate_squared(density))
}

/// Bore, density and shape of the seats for a call of a relation.
pub(super) fn shaped(job: &Job, density: Density, call: Call) -> Call {
    let call = call.with("bore", job.file.sleeve.id).with("density", density);
    match seat_model(job) {
        SeatModel::ThinOrifice => call.word("model", "thin_orifice"),
        SeatModel::ThickOrifice { land, wall_friction } => {
            let call = call.word("model", "thick_orifice").with("land_length", land);
            call.number("wall_friction", wall_friction)
        }
        SeatModel::ContractionExpansion => call.word("model", "contraction_expansion"),
        SeatModel::TaperedInlet { inlet } => call.word("model", "tapered_inlet").number("inlet", inlet),
    }
}

/// The shape in words.
pub(super) fn words(job: &Job) -> String {
    match seat_model(job) {
        SeatModel::ThinOrifice => "a thin sharp-edged orifice".into(),
        SeatModel::ThickOrifice { wall_friction, .. } => {
            format!("a thick sharp-edged orifice with a friction factor of {wall_friction} along its wall")
        }
        SeatModel::ContractionExpansion => "a sudden contraction and expansion".into(),
        SeatModel::TaperedInlet { inlet } => {
            format!("a cone of inlet coefficient {inlet} and a sudden expansion")
        }
    }
}
