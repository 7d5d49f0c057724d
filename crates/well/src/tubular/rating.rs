//! A rating and where it comes from, so that it can be opened to its workings.

use physics::Evaluation;
use quantity::{Quantity, Ratio};

/// A rating with its origin.
#[derive(Debug, Clone)]
pub struct Rated<Q> {
    /// The rating.
    pub value: Q,
    /// Where it comes from.
    pub origin: Origin,
}

/// Where a rating comes from.
#[derive(Debug, Clone)]
pub enum Origin {
    /// Computed by a relation; opens to its inputs.
    Computed(Box<Evaluation>),
    /// Stated by the user, with the source named.
    Stated {
        /// Source as the user named it.
        source: String,
    },
    /// Stated for no load, and reduced in the share by which the computed rating falls under
    /// the load.
    Reduced {
        /// Source of the stated rating.
        source: String,
        /// Share left under the load.
        share: Ratio,
        /// The computed rating under the load.
        under_load: Box<Evaluation>,
    },
}

impl<Q: Quantity> Rated<Q> {
    /// From a finished call of a relation.
    pub(super) fn computed(evaluation: Evaluation, output: &str) -> physics::Result<Self> {
        let value = evaluation.get(output)?;
        Ok(Self { value, origin: Origin::Computed(Box::new(evaluation)) })
    }

    /// From the user's statement.
    pub(super) fn stated(value: Q, source: &str) -> Self {
        Self { value, origin: Origin::Stated { source: source.to_string() } }
    }

    /// The call behind it, if it was computed.
    pub fn evaluation(&self) -> Option<&Evaluation> {
        match &self.origin {
            Origin::Computed(evaluation) => Some(evaluation),
            Origin::Reduced { under_load, .. } => Some(under_load),
            Origin::Stated { .. } => None,
        }
    }

    /// Origin in a few words.
    pub fn origin_text(&self) -> String {
        match &self.origin {
            Origin::Computed(evaluation) => {
                format!("{} ({})", evaluation.relation.name, evaluation.relation.source)
            }
            Origin::Stated { source } => format!("stated: {source}"),
            Origin::Reduced { source, share, .. } => {
                format!("stated: {source}, reduced to {:.3} by the load", share.in_one())
            }
        }
    }
}
