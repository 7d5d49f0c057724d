//! Ratings of a pipe with what they open to.

use quantity::*;
use well::PipeString;
use well::tubular::{Connection, Rated, TubularError};

use super::result::{Rating, StringRatings};
use crate::Ledger;

/// Ratings as the pipe gives them.
pub(super) struct PipeRatings {
    /// Collapse without load.
    pub collapse: Rated<Pressure>,
    /// Internal yield of the body.
    pub internal: Rated<Pressure>,
    /// Internal pressure rating of the connection, if stated.
    pub connection_internal: Option<Rating<Pressure>>,
    /// Tension at body yield.
    pub body: Rated<Force>,
    /// Strength of the connection in tension.
    pub joint: Option<Rated<Force>>,
    /// Rating of the connection in compression, if stated.
    pub joint_compression: Option<Rated<Force>>,
    yield_strength: Pressure,
}

impl PipeRatings {
    /// Of a string; a missing one is a finding at the string's table.
    pub fn of(string: &PipeString, field: &str, ledger: &mut Ledger) -> Option<Self> {
        let pipe = &string.pipe;
        let mut need = |result| take(result, field, ledger);
        let (collapse, internal) = (need(pipe.collapse())?, need(pipe.internal_yield())?);
        let body = take(pipe.body_yield(), field, ledger)?;
        let joint = take(pipe.joint_strength(), field, ledger);
        let connection_internal = match &pipe.spec().connection {
            Connection::Rated(c) => {
                c.internal.map(|value| Rating { value, origin: format!("stated: {}", c.source) })
            }
            _ => None,
        };
        Some(Self {
            collapse,
            internal,
            connection_internal,
            body,
            joint,
            joint_compression: pipe.joint_compression().ok(),
            yield_strength: pipe.yield_strength(),
        })
    }

    /// The lesser internal pressure rating of body and connection.
    pub fn internal_limit(&self) -> Pressure {
        let connection = self.connection_internal.as_ref().map(|c| c.value);
        connection.map_or(self.internal.value, |c| c.min(self.internal.value))
    }

    /// The lesser strength of body and connection in the direction of a force.
    pub fn axial_limit(&self, force: Force) -> Force {
        let joint = if force < Force::ZERO { &self.joint_compression } else { &self.joint };
        joint.as_ref().map_or(self.body.value, |j| j.value.min(self.body.value))
    }

    /// Whether the connection sets a rating.
    pub fn connection_governs(&self) -> bool {
        let weaker = |joint: &Option<Rated<Force>>| joint.as_ref().is_some_and(|j| j.value < self.body.value);
        weaker(&self.joint) || weaker(&self.joint_compression) || self.internal_limit() < self.internal.value
    }

    /// For the reader.
    pub fn result(&self) -> StringRatings {
        StringRatings {
            yield_strength: self.yield_strength,
            collapse: rating(&self.collapse),
            internal_yield: rating(&self.internal),
            connection_internal: self.connection_internal.clone(),
            body_yield: rating(&self.body),
            joint_strength: self.joint.as_ref().map(rating),
            joint_compression: self.joint_compression.as_ref().map(rating),
        }
    }
}

fn rating<Q: Quantity>(rated: &Rated<Q>) -> Rating<Q> {
    Rating { value: rated.value, origin: rated.origin_text() }
}

/// The value, or the finding the pipe has for its absence.
pub(super) fn take<T>(result: Result<T, TubularError>, field: &str, ledger: &mut Ledger) -> Option<T> {
    match result {
        Ok(value) => Some(value),
        Err(e) => {
            ledger.say(e.finding().field(field));
            None
        }
    }
}
