//! What no readings of a head can be, each a sentence.

use std::fmt;

use super::SHARE;
use crate::bar::{BarError, Limit, LossKind};
use crate::design::{DesignError, Dim};
use crate::log::WEIGHED_KG;
use crate::log::event::READING;
use crate::units::{Measure, System, show_mass, show_number};

/// Why nothing follows from readings.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ReadingError {
    /// Neither measured nor weighed.
    Nothing,
    /// A fit to a weight that is not known.
    NotWeighed,
    /// A size that the design does not have.
    NoSuchSize(Dim),
    /// A length for an angle, or an angle for a length.
    Kind {
        /// The size.
        dim: Dim,
        /// What it was measured as.
        size: Measure,
    },
    /// Nothing that a caliper shows.
    Size {
        /// The size.
        dim: Dim,
        /// What it was measured as.
        size: Measure,
    },
    /// A heat that the growth of steel is not known for.
    Heat {
        /// The size that was measured at it.
        dim: Dim,
        /// The heat.
        celsius: f64,
        /// What it may be.
        limit: Limit,
    },
    /// Nothing that a head weighs, kg.
    Weight(f64),
    /// A share of a loss that is none.
    Share {
        /// The line of the ledger.
        kind: LossKind,
        /// The share.
        share: f64,
    },
    /// How far off something may be.
    Within {
        /// What.
        what: &'static str,
        /// How far.
        value: f64,
        /// What it may be.
        limit: Limit,
        /// The unit of both.
        unit: &'static str,
    },
    /// Nothing is left when the losses have gone.
    AllLost {
        /// What was weighed, kg.
        kg: f64,
        /// What is still to be lost, kg.
        lost_kg: f64,
    },
    /// No head has these sizes.
    Unsound(Vec<DesignError>),
    /// The losses to come can't be reckoned.
    Bar(Vec<BarError>),
}

impl ReadingError {
    /// The sentence, in the units of `system`.
    pub fn sentence(&self, system: System) -> String {
        match self {
            Self::Nothing => {
                "Nothing was measured and nothing weighed. Give a size or a weight.".to_owned()
            }
            Self::NotWeighed => {
                "The rest is to be fitted to the weight, but nothing was weighed. Give the weight of the head.".to_owned()
            }
            Self::NoSuchSize(dim) => {
                format!("The head has no {}, so it can’t be measured.", dim.words())
            }
            Self::Kind { dim, size } => {
                let kind = if dim.is_angle() {
                    "an angle"
                } else {
                    "a length"
                };
                format!(
                    "The {} is {kind}, but was measured as {}.",
                    dim.words(),
                    size.words(system)
                )
            }
            Self::Size { dim, size } => format!(
                "The {} was measured as {}. It must be at least {} and at most {}.",
                dim.words(),
                size.told([READING.least, READING.most], system),
                size.with_number(READING.least).words(system),
                size.with_number(READING.most).words(system)
            ),
            Self::Heat {
                dim,
                celsius,
                limit,
            } => format!(
                "The {} was measured at {} °C, at which the growth of steel is not known. It must be at least {} °C and \
                 at most {} °C.",
                dim.words(),
                show_number(*celsius),
                show_number(limit.least),
                show_number(limit.most)
            ),
            Self::Weight(kg) => format!(
                "The head was weighed as {} kg. It must be at least {} kg and at most {} kg.",
                show_number(*kg),
                show_number(WEIGHED_KG.least),
                show_number(WEIGHED_KG.most)
            ),
            Self::Share { kind, share } => format!(
                "Of “{}” the share {} is said to come. It must be at least {} and at most {}.",
                kind.words(),
                show_number(*share),
                show_number(SHARE.least),
                show_number(SHARE.most)
            ),
            Self::Within {
                what,
                value,
                limit,
                unit,
            } => {
                let between = if *unit == "°" { "" } else { " " };
                let united = |value: f64| format!("{}{between}{unit}", show_number(value));
                format!(
                    "How far off {what} may be is said to be {}. It must be at least {} and at most {}.",
                    united(*value),
                    united(limit.least),
                    united(limit.most)
                )
            }
            Self::AllLost { kg, lost_kg } => format!(
                "The head weighs {}, and {} of it are still to be lost: nothing is left. Look whether it was weighed \
                 at that step.",
                show_mass(*kg, system),
                show_mass(*lost_kg, system)
            ),
            Self::Unsound(reasons) => format!(
                "No head has the sizes that were measured: {}",
                joined(reasons.iter().map(|reason| reason.sentence(system)))
            ),
            Self::Bar(reasons) => joined(reasons.iter().map(|reason| reason.sentence(system))),
        }
    }
}

fn joined(sentences: impl Iterator<Item = String>) -> String {
    sentences.collect::<Vec<_>>().join(" ")
}

impl fmt::Display for ReadingError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(System::Metric))
    }
}
