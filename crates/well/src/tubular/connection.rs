//! The thread that joins pipe: standard threads computed, others rated by their supplier.

use quantity::{Diameter, Force, Pressure};

/// A connection.
#[derive(Debug, Clone, PartialEq)]
pub enum Connection {
    /// Short round thread and coupling.
    ShortRound,
    /// Long round thread and coupling.
    LongRound,
    /// Buttress thread and coupling.
    Buttress,
    /// A connection rated by its supplier.
    Rated(RatedConnection),
}

impl Connection {
    /// Name in plain words.
    pub fn word(&self) -> &'static str {
        match self {
            Connection::ShortRound => "short round thread",
            Connection::LongRound => "long round thread",
            Connection::Buttress => "buttress thread",
            Connection::Rated(_) => "rated connection",
        }
    }
}

/// Ratings of a connection from its supplier's data sheet; what is not stated is not known.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RatedConnection {
    /// Outer diameter.
    pub outer: Option<Diameter>,
    /// Tension.
    pub tension: Option<Force>,
    /// Compression.
    pub compression: Option<Force>,
    /// Internal pressure.
    pub internal: Option<Pressure>,
    /// External pressure.
    pub external: Option<Pressure>,
    /// Where the ratings come from.
    pub source: String,
}
