//! What can be wrong with a bar, each a sentence with the value and the limit.

use thiserror::Error;

use super::limits::{
    BAR_SIZE_MM, CONFIDENCE, DENSITY_KG_PER_M3, EYE_KG, FINISHED_KG, MOST_LOSSES, SOURCE_CHARACTERS,
};
use crate::units::{Density, Length, show_number};

/// Which number of a loss.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LossPart {
    /// What is lost on average.
    Expected,
    /// One standard deviation of it.
    Spread,
}

impl LossPart {
    /// The words for it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Expected => "the expected amount",
            Self::Spread => "the spread",
        }
    }
}

/// Why no cut can be worked out.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum BarError {
    /// A size of the section.
    #[error(
        "The bar's {size} is {value}. It must be at least {} mm and at most {} mm.",
        BAR_SIZE_MM.least,
        BAR_SIZE_MM.most
    )]
    Size {
        /// Which size, as [`super::BarSection::sizes`] names it.
        size: &'static str,
        /// Its value.
        value: Length,
    },
    /// More lines of losses than are kept.
    #[error("The bar lists {count} losses. Keep at most {MOST_LOSSES}: put small ones together.")]
    TooManyLosses {
        /// How many there are.
        count: usize,
    },
    /// A loss or its spread.
    #[error("Loss {line}, {name}: {} is {value}. It must be at least {least} and at most {most}.", .part.words())]
    Loss {
        /// The line, counted from 1.
        line: usize,
        /// The loss, as [`super::LossKind::words`] names it.
        name: &'static str,
        /// Which of its numbers.
        part: LossPart,
        /// The value with its unit.
        value: String,
        /// The least value with its unit.
        least: String,
        /// The greatest value with its unit.
        most: String,
    },
    /// A source longer than is kept.
    #[error(
        "Loss {line}, {name}: the source has {characters} characters. Shorten it to at most {SOURCE_CHARACTERS}."
    )]
    Source {
        /// The line, counted from 1.
        line: usize,
        /// The loss, as [`super::LossKind::words`] names it.
        name: &'static str,
        /// How long it is.
        characters: usize,
    },
    /// The share of heads that are to finish at or above target.
    #[error(
        "The confidence is {}. It must be at least {} (as likely as not) and at most {}.",
        show_number(*.value),
        CONFIDENCE.least,
        CONFIDENCE.most
    )]
    Confidence {
        /// Its value.
        value: f64,
    },
    /// The finished head's mass.
    #[error(
        "The finished head weighs {} kg. A cut is worked out for at least {} kg and at most {} kg.",
        show_number(*.kg),
        FINISHED_KG.least,
        FINISHED_KG.most
    )]
    FinishedMass {
        /// Its value in kg.
        kg: f64,
    },
    /// The mass of the steel whose place the eye takes.
    #[error(
        "The steel in the eye's place weighs {} kg. It must be at least {} kg and at most {} kg.",
        show_number(*.kg),
        EYE_KG.least,
        EYE_KG.most
    )]
    EyeMass {
        /// Its value in kg.
        kg: f64,
    },
    /// The steel's density.
    #[error(
        "The density is {value}. It must be at least {} g/cm³ and at most {} g/cm³.",
        Density::kg_per_m3(DENSITY_KG_PER_M3.least).in_g_per_cm3(),
        Density::kg_per_m3(DENSITY_KG_PER_M3.most).in_g_per_cm3()
    )]
    Density {
        /// Its value.
        value: Density,
    },
}
