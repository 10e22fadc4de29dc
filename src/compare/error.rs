//! Why there is nothing to compare.

use std::fmt;

use super::{FEWEST_STEPS, MOST, MOST_STEPS};
use crate::design::{DesignError, Dim, Quantity};
use crate::fit::Obstacle;
use crate::handle::HandleError;
use crate::posture::PostureError;
use crate::swing::SwingError;
use crate::units::{Measure, System};

/// Why a hammer or a sweep cannot be compared.
#[derive(Clone, Debug, PartialEq)]
pub enum CompareError {
    /// The head is not sound.
    Design(DesignError),
    /// Its handle cannot be made.
    Handle(HandleError),
    /// The tool cannot be swung so.
    Swing(SwingError),
    /// The smith cannot stand so.
    Posture(PostureError),
    /// More hammers than fit side by side.
    TooMany {
        /// How many.
        count: usize,
    },
    /// The design has no such size.
    NoSuchSize(Dim),
    /// With this size something that is held can't be kept.
    NotKept {
        /// What is missed.
        missed: Vec<Quantity>,
        /// What stands in the way.
        in_the_way: Vec<Obstacle>,
    },
    /// With this size no head was found, which is no proof that there is none.
    NotFound,
    /// A sweep of too few or too many steps.
    Steps {
        /// How many.
        count: usize,
    },
    /// A sweep that does not go from a smaller size to a larger one.
    Range {
        /// The size.
        dim: Dim,
        /// Where it begins.
        from: Measure,
        /// Where it ends.
        to: Measure,
    },
    /// A sweep that leaves the bounds of its size.
    OutOfBounds {
        /// The size.
        dim: Dim,
        /// What it would be.
        value: Measure,
        /// The least it may be.
        low: Measure,
        /// The most it may be.
        high: Measure,
    },
}

impl CompareError {
    /// The sentence, in the units that the smith reads.
    pub fn sentence(&self, system: System) -> String {
        match self {
            Self::Design(error) => error.sentence(system),
            Self::Handle(error) => error.sentence(system),
            Self::Swing(error) => error.sentence(system),
            Self::Posture(error) => error.sentence(system),
            Self::TooMany { count } => format!(
                "There are {count} hammers to compare; at most {MOST} stand side by side. Leave some out."
            ),
            Self::NotKept { missed, in_the_way } => {
                let missed: Vec<&str> = missed.iter().map(|quantity| quantity.words()).collect();
                let ways = in_the_way.iter().map(|way| way.words(system));
                let ways: Vec<String> = ways.collect();
                let ways = match ways.join("; ") {
                    none if none.is_empty() => none,
                    ways => format!(" In the way: {}.", ways.trim_end_matches('.')),
                };
                format!(
                    "With this size {} can’t be kept.{ways}",
                    missed.join(" and ")
                )
            }
            Self::NotFound => {
                "With this size no head was found that keeps what is held.".to_owned()
            }
            Self::NoSuchSize(dim) => format!("The hammer has no {}.", dim.words()),
            Self::Steps { count } => format!(
                "A sweep of {count} steps is not drawn; take from {FEWEST_STEPS} to {MOST_STEPS}."
            ),
            Self::Range { dim, from, to } => format!(
                "The {} is to go from {} to {}: the first must be the smaller one.",
                dim.words(),
                from.words(system),
                to.words(system)
            ),
            Self::OutOfBounds {
                dim,
                value,
                low,
                high,
            } => format!(
                "The {} would be {}; it must be between {} and {}.",
                dim.words(),
                if value.number().is_finite() {
                    value.words(system)
                } else {
                    "not a number".to_owned()
                },
                low.words(system),
                high.words(system)
            ),
        }
    }
}

impl fmt::Display for CompareError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(System::Metric))
    }
}

impl std::error::Error for CompareError {}
