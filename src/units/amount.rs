//! What can be held of a head: a mass, a length, a moment of inertia or a ratio.

use std::fmt;

use super::show::{show_inertia, show_length, show_mass, show_ratio};
use super::{
    Inertia, Length, Mass, System, UnitError, inertia_unit_word, parse_inertia, parse_length,
    parse_mass, parse_ratio, unit_word,
};

/// A mass, a length, a moment of inertia or a ratio, so that all are held, shown and fitted alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// A mass.
    Mass(Mass),
    /// A length.
    Length(Length),
    /// A moment of inertia.
    Inertia(Inertia),
    /// A ratio of two like amounts.
    Ratio(f64),
}

impl Amount {
    /// Kilograms, millimetres, kg·mm², or the ratio itself.
    pub const fn number(self) -> f64 {
        match self {
            Self::Mass(mass) => mass.in_kg(),
            Self::Length(length) => length.in_mm(),
            Self::Inertia(inertia) => inertia.in_kg_mm2(),
            Self::Ratio(ratio) => ratio,
        }
    }

    /// An amount of the same kind and notation with `number` kilograms, millimetres or kg·mm².
    #[must_use]
    pub const fn with_number(self, number: f64) -> Self {
        match self {
            Self::Mass(mass) => Self::Mass(mass.with_kg(number)),
            Self::Length(length) => Self::Length(length.with_mm(number)),
            Self::Inertia(inertia) => Self::Inertia(inertia.with_kg_mm2(number)),
            Self::Ratio(_) => Self::Ratio(number),
        }
    }

    /// The mass, if it is one.
    pub const fn as_mass(self) -> Option<Mass> {
        match self {
            Self::Mass(mass) => Some(mass),
            _ => None,
        }
    }

    /// The length, if it is one.
    pub const fn as_length(self) -> Option<Length> {
        match self {
            Self::Length(length) => Some(length),
            _ => None,
        }
    }

    /// The moment of inertia, if it is one.
    pub const fn as_inertia(self) -> Option<Inertia> {
        match self {
            Self::Inertia(inertia) => Some(inertia),
            _ => None,
        }
    }

    /// The ratio, if it is one.
    pub const fn as_ratio(self) -> Option<f64> {
        match self {
            Self::Ratio(ratio) => Some(ratio),
            _ => None,
        }
    }

    /// Reads what a person typed in place of this amount: a bare number takes the unit of
    /// `system`.
    ///
    /// # Errors
    /// A [`UnitError`] that says what is wrong with the text.
    pub fn parse(self, text: &str, system: System) -> Result<Self, UnitError> {
        Ok(match self {
            Self::Mass(_) => Self::Mass(parse_mass(text, system)?),
            Self::Length(_) => Self::Length(parse_length(text, system)?),
            Self::Inertia(_) => Self::Inertia(parse_inertia(text, system)?),
            Self::Ratio(_) => Self::Ratio(parse_ratio(text)?),
        })
    }

    /// Reads an amount of the same kind whose unit, if it has one, is written.
    ///
    /// # Errors
    /// A [`UnitError`] that says what is wrong with the text.
    pub fn read(self, text: &str) -> Result<Self, UnitError> {
        Ok(match self {
            Self::Mass(_) => Self::Mass(text.parse()?),
            Self::Length(_) => Self::Length(text.parse()?),
            Self::Inertia(_) => Self::Inertia(text.parse()?),
            Self::Ratio(_) => Self::Ratio(parse_ratio(text)?),
        })
    }

    /// The amount as a person reads it; masses, whose units vary, with their units, all others
    /// without.
    pub fn show(self, system: System) -> String {
        match self {
            Self::Mass(mass) => show_mass(mass.in_kg(), system),
            Self::Length(length) => show_length(length, system),
            Self::Inertia(inertia) => show_inertia(inertia.in_kg_mm2(), system),
            Self::Ratio(ratio) => show_ratio(ratio),
        }
    }

    /// The amount with its unit, where it has one: `1.10 kg`, `2 1/4 in`, `1200 kg·mm²`, `1.25`.
    pub fn words(self, system: System) -> String {
        let number = self.show(system);
        match self {
            Self::Mass(_) | Self::Ratio(_) => number,
            Self::Length(_) => format!("{number} {}", unit_word(system)),
            Self::Inertia(_) => format!("{number} {}", inertia_unit_word(system)),
        }
    }
}

impl From<Mass> for Amount {
    fn from(mass: Mass) -> Self {
        Self::Mass(mass)
    }
}

impl From<Length> for Amount {
    fn from(length: Length) -> Self {
        Self::Length(length)
    }
}

impl From<Inertia> for Amount {
    fn from(inertia: Inertia) -> Self {
        Self::Inertia(inertia)
    }
}

impl From<f64> for Amount {
    fn from(ratio: f64) -> Self {
        Self::Ratio(ratio)
    }
}

/// The full-precision text.
impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Mass(mass) => mass.fmt(f),
            Self::Length(length) => length.fmt(f),
            Self::Inertia(inertia) => inertia.fmt(f),
            Self::Ratio(ratio) => ratio.fmt(f),
        }
    }
}
