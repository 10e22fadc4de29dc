//! What can be wrong with a written quantity, each a sentence for the person who wrote it.

use thiserror::Error;

/// The kind of quantity that was asked for or found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Quantity {
    /// A length.
    Length,
    /// A mass.
    Mass,
    /// A density.
    Density,
    /// An angle.
    Angle,
    /// A moment of inertia.
    Inertia,
    /// A ratio.
    Ratio,
    /// A temperature.
    Temperature,
}

impl Quantity {
    /// The word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Mass => "mass",
            Self::Density => "density",
            Self::Angle => "angle",
            Self::Inertia => "moment of inertia",
            Self::Ratio => "ratio",
            Self::Temperature => "temperature",
        }
    }

    /// The word for it, with its article.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Length => "a length",
            Self::Mass => "a mass",
            Self::Density => "a density",
            Self::Angle => "an angle",
            Self::Inertia => "a moment of inertia",
            Self::Ratio => "a ratio",
            Self::Temperature => "a temperature",
        }
    }

    /// The units that are read, as a phrase.
    pub const fn units(self) -> &'static str {
        match self {
            Self::Length => "mm, cm or in",
            Self::Mass => "g, kg, oz or lb",
            Self::Density => "g/cm³ or kg/m³",
            Self::Angle => "°",
            Self::Inertia => "kg·mm² or lb·in²",
            Self::Ratio => "no unit",
            Self::Temperature => "°C or °F",
        }
    }

    /// Two ways of writing one.
    pub const fn examples(self) -> &'static str {
        match self {
            Self::Length => "58 mm or 2 1/4 in",
            Self::Mass => "1.1 kg or 2 lb 6 oz",
            Self::Density => "7.85 g/cm³ or 7850 kg/m³",
            Self::Angle => "3° or 12.5°",
            Self::Inertia => "1200 kg·mm² or 4.1 lb·in²",
            Self::Ratio => "1.25 or 5/4",
            Self::Temperature => "845 °C or 1550 °F",
        }
    }
}

/// Why a text could not be read as a quantity.
///
/// Each variant carries the text as it was given, cut to 40 characters.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum UnitError {
    /// Only blanks.
    #[error("Nothing is written here. Write {} such as {}.", .wanted.words(), .wanted.examples())]
    Empty {
        /// What was asked for.
        wanted: Quantity,
    },
    /// No number where one is needed, or more than one.
    #[error("“{text}” is not a number with a unit. Write {} such as {}.", .wanted.words(), .wanted.examples())]
    NotANumber {
        /// The text as given.
        text: String,
        /// What was asked for.
        wanted: Quantity,
    },
    /// Beyond what a number can hold.
    #[error("“{text}” is too large to be {}.", .wanted.words())]
    TooLarge {
        /// The text as given.
        text: String,
        /// What was asked for.
        wanted: Quantity,
    },
    /// A fraction over zero.
    #[error(
        "“{text}” divides by zero. Write the fraction with a number of at least 1 below the line."
    )]
    ZeroDenominator {
        /// The text as given.
        text: String,
    },
    /// A comma that may be a decimal mark or part a thousand.
    #[error("“{text}” can be read in two ways. Write {with_point} or {without_mark}.")]
    AmbiguousComma {
        /// The text as given.
        text: String,
        /// The number if the comma is a decimal mark.
        with_point: String,
        /// The number if the comma parts thousands.
        without_mark: String,
    },
    /// A unit that is not known.
    #[error("“{unit}” in “{text}” is not a known unit of {}. Use {}.", .wanted.name(), .wanted.units())]
    UnknownUnit {
        /// The text as given.
        text: String,
        /// The word that stands for the unit.
        unit: String,
        /// What was asked for.
        wanted: Quantity,
    },
    /// A unit of something else.
    #[error("“{text}” is {}, but {} is needed here. Use {}.", .found.words(), .wanted.words(), .wanted.units())]
    WrongQuantity {
        /// The text as given.
        text: String,
        /// What the unit says it is.
        found: Quantity,
        /// What was asked for.
        wanted: Quantity,
    },
    /// A bare number where the unit must be written.
    #[error("“{text}” has no unit. Write {} such as {}.", .wanted.words(), .wanted.examples())]
    MissingUnit {
        /// The text as given.
        text: String,
        /// What was asked for.
        wanted: Quantity,
    },
    /// A smallest division that nobody can measure with.
    #[error(
        "The smallest division you measure with is {text}. It must be at least {} mm and at most {} mm.",
        super::RULE_MIN_MM,
        super::RULE_MAX_MM
    )]
    RuleOutOfRange {
        /// The division as given.
        text: String,
    },
}

/// The longest piece of a person's text that an error repeats, in characters.
const QUOTED_CHARACTERS: usize = 40;

/// `text` fit to stand inside a sentence: one line, trimmed, at most 40 characters.
pub(super) fn quoted(text: &str) -> String {
    let one_line = |c: char| if c.is_control() { ' ' } else { c };
    let mut characters = text.trim().chars().map(one_line);
    let mut short: String = characters.by_ref().take(QUOTED_CHARACTERS).collect();
    if characters.next().is_some() {
        short.pop();
        short.push('…');
    }
    short
}
