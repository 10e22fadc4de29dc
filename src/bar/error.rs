//! What can be wrong with a bar, each a sentence with the value and the limit.

use std::fmt;

use thiserror::Error;

use super::limits::{
    AREA_MM2, BAR_SIZE_MM, CONFIDENCE, DENSITY_KG_PER_M3, EYE_KG, EYE_MM, FINISHED_KG, HEIGHT_MM,
    Limit, MOST_BARS, MOST_LOSSES, PIECE_KG, SECTION_MM2, SOURCE_CHARACTERS,
};
use crate::design::refused_length;
use crate::units::{Density, KG_PER_POUND, Length, MM_PER_INCH, Measure, System, show_number};

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

/// What a number of a loss is in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LossUnit {
    /// kg.
    Kilogram,
    /// mm, and the words behind it.
    Millimetre(&'static str),
    /// What is written alike in both systems: "min", "% of the head", nothing.
    Other(&'static str),
}

impl LossUnit {
    /// The unit without a value, metric.
    pub(crate) fn in_words(self) -> String {
        match self {
            Self::Kilogram => "kg".to_owned(),
            Self::Millimetre(of) => format!("mm{of}"),
            Self::Other(unit) => unit.to_owned(),
        }
    }

    /// `value` with its unit.
    fn words(self, value: f64, system: System) -> String {
        let text = match (self, system) {
            (Self::Kilogram, _) => mass(value, system),
            (Self::Millimetre(of), System::Metric) => format!("{} mm{of}", show_number(value)),
            (Self::Millimetre(of), System::Imperial) => {
                format!("{} in{of}", small(value / MM_PER_INCH))
            }
            (Self::Other(unit), _) => format!("{} {unit}", show_number(value)),
        };
        text.trim_end().to_owned()
    }
}

/// To the ten-thousandth: of an inch it is what a micrometer reads, of a pound less than any scale shows.
fn small(value: f64) -> String {
    show_number((value * 1e4).round() / 1e4)
}

/// A mass with its unit.
fn mass(kg: f64, system: System) -> String {
    match system {
        System::Metric => format!("{} kg", show_number(kg)),
        System::Imperial => format!("{} lb", small(kg / KG_PER_POUND)),
    }
}

/// An area with its unit.
fn area(mm2: f64, system: System) -> String {
    match system {
        System::Metric => format!("{} mm²", show_number(mm2)),
        System::Imperial => format!("{} in²", small(mm2 / MM_PER_INCH.powi(2))),
    }
}

/// Why no cut can be worked out. Written as a sentence; [`BarError::sentence`] says it in the units that the smith reads.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum BarError {
    /// A size of the section.
    Size {
        /// Which size, as [`super::BarSection::sizes`] names it.
        size: &'static str,
        /// Its value.
        value: Length,
    },
    /// A rolled corner.
    Corner {
        /// Its radius.
        value: Length,
        /// Half of the smaller side.
        most_mm: f64,
    },
    /// A section given by its area.
    Section {
        /// Its area.
        mm2: f64,
    },
    /// More bars on hand than are kept.
    TooManyBars {
        /// How many there are.
        count: usize,
    },
    /// A bar on hand.
    OnHand {
        /// Which, counted from 1.
        index: usize,
        /// What is wrong with it.
        error: Box<BarError>,
    },
    /// More lines of losses than are kept.
    TooManyLosses {
        /// How many there are.
        count: usize,
    },
    /// A loss or its spread.
    Loss {
        /// The line, counted from 1.
        line: usize,
        /// The loss, as [`super::LossKind::words`] names it.
        name: &'static str,
        /// Which of its numbers.
        part: LossPart,
        /// Its value.
        value: f64,
        /// What it may be.
        limit: Limit,
        /// The unit of both.
        unit: LossUnit,
    },
    /// A source longer than is kept.
    Source {
        /// The line, counted from 1.
        line: usize,
        /// The loss, as [`super::LossKind::words`] names it.
        name: &'static str,
        /// How long it is.
        characters: usize,
    },
    /// Lines in percent that take more than there is.
    PercentSum {
        /// "head" or "eye".
        of: &'static str,
        /// Their sum.
        sum: f64,
        /// The most.
        most: f64,
    },
    /// A web thicker than the head.
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
    Slug {
        /// What the punches drive out.
        slug_kg: f64,
        /// The mass of the steel whose place the eye takes.
        eye_kg: f64,
    },
    /// The mass of a piece.
    Piece {
        /// Its value in kg.
        kg: f64,
    },
    /// A piece that is lost altogether.
    NothingLeft {
        /// The piece.
        piece_kg: f64,
        /// What is lost of it.
        lost_kg: f64,
    },
    /// A surface of the head.
    Area {
        /// Which surface.
        what: &'static str,
        /// Its area.
        mm2: f64,
    },
    /// The height of the steel at the eye.
    EyeHeight {
        /// Its value in mm.
        mm: f64,
    },
    /// The eye's least length or width.
    EyeSize {
        /// "long" or "wide".
        across: &'static str,
        /// Its value in mm.
        mm: f64,
    },
    /// The share of heads that are to finish at or above target.
    Confidence {
        /// Its value.
        value: f64,
    },
    /// The finished head's mass.
    FinishedMass {
        /// Its value in kg.
        kg: f64,
    },
    /// The mass of the steel whose place the eye takes.
    EyeMass {
        /// Its value in kg.
        kg: f64,
    },
    /// The steel's density.
    Density {
        /// Its value.
        value: Density,
    },
}

impl BarError {
    /// The sentence, in the units of `system`.
    pub fn sentence(&self, system: System) -> String {
        let length = |length: Length| Measure::from(length).words(system);
        let mm = |mm: f64| length(Length::mm(mm));
        let between = |show: &dyn Fn(f64) -> String, Limit { least, most }: Limit| {
            format!("at least {} and at most {}", show(least), show(most))
        };
        let kg = |kg: f64| mass(kg, system);
        let mm2 = |mm2: f64| area(mm2, system);
        match self {
            Self::Size { size, value } => format!(
                "The bar’s {size} is {}. It must be {}.",
                refused_length(value.in_mm(), BAR_SIZE_MM, system),
                between(&mm, BAR_SIZE_MM)
            ),
            Self::Corner { value, most_mm } => format!(
                "The bar’s corner radius is {}. It must be at least {} and at most {}, half of the bar’s smaller side.",
                length(*value),
                mm(0.0),
                mm(*most_mm)
            ),
            Self::Section { mm2: section } => format!(
                "The bar’s section is {}. It must be {}.",
                mm2(*section),
                between(&mm2, SECTION_MM2)
            ),
            Self::TooManyBars { count } => {
                format!("{count} bars are listed as on hand. Keep at most {MOST_BARS}.")
            }
            Self::OnHand { index, error } => {
                format!("Bar {index} on hand: {}", error.sentence(system))
            }
            Self::TooManyLosses { count } => format!(
                "The bar lists {count} losses. Keep at most {MOST_LOSSES}: put small ones together."
            ),
            Self::Loss {
                line,
                name,
                part,
                value,
                limit,
                unit,
            } => format!(
                "Loss {line}, {name}: {} is {}. It must be {}.",
                part.words(),
                unit.words(*value, system),
                between(&|value| unit.words(value, system), *limit)
            ),
            Self::Source {
                line,
                name,
                characters,
            } => format!(
                "Loss {line}, {name}: the source has {characters} characters. Shorten it to at most {SOURCE_CHARACTERS}."
            ),
            Self::PercentSum { of, sum, most } => format!(
                "The losses in percent of the {of} add up to {} %. They may take at most {most} %.",
                show_number(*sum)
            ),
            Self::Web {
                line,
                name,
                web,
                height_mm,
            } => format!(
                "Loss {line}, {name}: the web is {}, but the head is only {} high at the eye. Two punchings leave less than that.",
                length(*web),
                mm(*height_mm)
            ),
            Self::Punch {
                line,
                name,
                across,
                value,
                eye_mm,
            } => format!(
                "Loss {line}, {name}: the punch is {} {across}, but the eye only {} at its narrowest. Take a smaller punch.",
                length(*value),
                mm(*eye_mm)
            ),
            Self::Slug { slug_kg, eye_kg } => format!(
                "The slug weighs {}, but the steel in the eye’s place only {}. Take a smaller punch, a thinner web or less of a slug.",
                kg(*slug_kg),
                kg(*eye_kg)
            ),
            Self::Piece { kg: piece } => format!(
                "The piece weighs {}. It must weigh {}.",
                kg(*piece),
                between(&kg, PIECE_KG)
            ),
            Self::NothingLeft { piece_kg, lost_kg } => format!(
                "The piece weighs {} and the losses take {} of it, so that no head is left.",
                kg(*piece_kg),
                kg(*lost_kg)
            ),
            Self::Area { what, mm2: surface } => format!(
                "The {what} has {}. It must have {}.",
                mm2(*surface),
                between(&mm2, AREA_MM2)
            ),
            Self::EyeHeight { mm: height } => format!(
                "The head is {} high at the eye. It must be {}.",
                mm(*height),
                between(&mm, HEIGHT_MM)
            ),
            Self::EyeSize { across, mm: size } => format!(
                "The eye is {} {across} at its narrowest. It must be {}.",
                mm(*size),
                between(&mm, EYE_MM)
            ),
            Self::Confidence { value } => format!(
                "The confidence is {}. It must be at least {} (as likely as not) and at most {}.",
                show_number(*value),
                CONFIDENCE.least,
                CONFIDENCE.most
            ),
            Self::FinishedMass { kg: head } => format!(
                "The finished head weighs {}. A cut is worked out for {}.",
                kg(*head),
                between(&kg, FINISHED_KG)
            ),
            Self::EyeMass { kg: eye } => format!(
                "The steel in the eye's place weighs {}. It must be {}.",
                kg(*eye),
                between(&kg, EYE_KG)
            ),
            Self::Density { value } => format!(
                "The density is {value}. It must be at least {} g/cm³ and at most {} g/cm³.",
                Density::kg_per_m3(DENSITY_KG_PER_M3.least).in_g_per_cm3(),
                Density::kg_per_m3(DENSITY_KG_PER_M3.most).in_g_per_cm3()
            ),
        }
    }
}

impl fmt::Display for BarError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(System::Metric))
    }
}
