//! The bars that lie in the workshop.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::error::BarError;
use super::limits::MOST_BARS;
use super::section::BarSection;

/// The bars on hand, of which one is chosen for a head.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(transparent)]
pub struct OnHand(pub Vec<BarSection>);

impl OnHand {
    /// Everything that is wrong with the list.
    pub fn check(&self) -> Vec<BarError> {
        let Self(bars) = self;
        let mut errors = Vec::new();
        if bars.len() > MOST_BARS {
            errors.push(BarError::TooManyBars { count: bars.len() });
        }
        for (index, bar) in bars.iter().enumerate() {
            let wrong = bar.check().into_iter().map(|error| BarError::OnHand {
                index: index + 1,
                error: Box::new(error),
            });
            errors.extend(wrong);
        }
        errors
    }
}
