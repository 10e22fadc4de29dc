//! What can be wrong with a bar, each a sentence with the value and the limit.

use thiserror::Error;

use super::limits::{
    AREA_MM2, BAR_SIZE_MM, CONFIDENCE, DENSITY_KG_PER_M3, EYE_KG, EYE_MM, FINISHED_KG, HEIGHT_MM,
    MOST_BARS, MOST_LOSSES, PIECE_KG, SECTION_MM2, SOURCE_CHARACTERS,
};
use crate::units::{Density, Length, show_number};

/// Which number of a loss.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LossPart {
    /// What is lost on average.
    Expected,
    /// One standard deviation of it.
    Spread,
    /// A size of the punch, as [`super::Punch::sizes`] names it.
    Punch(&'static str),
    /// How many heats.
    Heats,
    /// How long the steel is hot in each.
    Minutes,
}

impl LossPart {
    /// The words for it.
    pub fn words(self) -> String {
        match self {
            Self::Expected => "the expected amount".to_owned(),
            Self::Spread => "the spread".to_owned(),
            Self::Punch(size) => format!("the punch’s {size}"),
            Self::Heats => "the number of heats".to_owned(),
            Self::Minutes => "the length of a heat".to_owned(),
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
    /// A rolled corner.
    #[error(
        "The bar’s corner radius is {value}. It must be at least 0 mm and at most {} mm, half of the bar’s smaller side.",
        show_number(*.most_mm)
    )]
    Corner {
        /// Its radius.
        value: Length,
        /// Half of the smaller side.
        most_mm: f64,
    },
    /// A section given by its area.
    #[error(
        "The bar’s section is {} mm². It must be at least {} mm² and at most {} mm².",
        show_number(*.mm2),
        SECTION_MM2.least,
        SECTION_MM2.most
    )]
    Section {
        /// Its area.
        mm2: f64,
    },
    /// More bars on hand than are kept.
    #[error("{count} bars are listed as on hand. Keep at most {MOST_BARS}.")]
    TooManyBars {
        /// How many there are.
        count: usize,
    },
    /// A bar on hand.
    #[error("Bar {index} on hand: {error}")]
    OnHand {
        /// Which, counted from 1.
        index: usize,
        /// What is wrong with it.
        error: Box<BarError>,
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
    /// Lines in percent that take more than there is.
    #[error(
        "The losses in percent of the {of} add up to {} %. They may take at most {most} %.",
        show_number(*.sum)
    )]
    PercentSum {
        /// "head" or "eye".
        of: &'static str,
        /// Their sum.
        sum: f64,
        /// The most.
        most: f64,
    },
    /// A web thicker than the head.
    #[error(
        "Loss {line}, {name}: the web is {web}, but the head is only {} mm high at the eye. Two punchings leave less than that.",
        show_number(*.height_mm)
    )]
    Web {
        /// The line, counted from 1.
        line: usize,
        /// The loss, as [`super::LossKind::words`] names it.
        name: &'static str,
        /// The web.
        web: Length,
        /// The head's height at the eye.
        height_mm: f64,
    },
    /// A punch larger than the eye.
    #[error(
        "Loss {line}, {name}: the punch is {value} {across}, but the eye only {} mm at its narrowest. Take a smaller punch.",
        show_number(*.eye_mm)
    )]
    Punch {
        /// The line, counted from 1.
        line: usize,
        /// The loss, as [`super::LossKind::words`] names it.
        name: &'static str,
        /// "long" or "wide".
        across: &'static str,
        /// The punch's size.
        value: Length,
        /// The eye's least.
        eye_mm: f64,
    },
    /// A slug heavier than what was in the eye's place.
    #[error(
        "What the punch drives out weighs {} kg, but the steel in the eye’s place only {} kg. Take a smaller punch or a thinner web.",
        show_number(*.slug_kg),
        show_number(*.eye_kg)
    )]
    Slug {
        /// What the punches drive out.
        slug_kg: f64,
        /// The mass of the steel whose place the eye takes.
        eye_kg: f64,
    },
    /// The mass of a piece.
    #[error(
        "The piece weighs {} kg. It must weigh at least {} kg and at most {} kg.",
        show_number(*.kg),
        PIECE_KG.least,
        PIECE_KG.most
    )]
    Piece {
        /// Its value in kg.
        kg: f64,
    },
    /// A piece that is lost altogether.
    #[error(
        "The piece weighs {} kg and the losses take {} kg of it, so that no head is left.",
        show_number(*.piece_kg),
        show_number(*.lost_kg)
    )]
    NothingLeft {
        /// The piece.
        piece_kg: f64,
        /// What is lost of it.
        lost_kg: f64,
    },
    /// A surface of the head.
    #[error(
        "The {what} has {} mm². It must have at least {} mm² and at most {} mm².",
        show_number(*.mm2),
        AREA_MM2.least,
        AREA_MM2.most
    )]
    Area {
        /// Which surface.
        what: &'static str,
        /// Its area.
        mm2: f64,
    },
    /// The height of the steel at the eye.
    #[error(
        "The head is {} mm high at the eye. It must be at least {} mm and at most {} mm.",
        show_number(*.mm),
        HEIGHT_MM.least,
        HEIGHT_MM.most
    )]
    EyeHeight {
        /// Its value in mm.
        mm: f64,
    },
    /// The eye's least length or width.
    #[error(
        "The eye is {} mm {across} at its narrowest. It must be at least {} mm and at most {} mm.",
        show_number(*.mm),
        EYE_MM.least,
        EYE_MM.most
    )]
    EyeSize {
        /// "long" or "wide".
        across: &'static str,
        /// Its value in mm.
        mm: f64,
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
