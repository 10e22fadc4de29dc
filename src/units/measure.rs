//! What a dimension measures: a length or an angle.

use std::fmt;
use std::str::FromStr;

use super::text::{saved_as_text, trimmed, with_minus};
use super::{
    Angle, Length, MM_PER_INCH, System, UnitError, parse_angle, parse_length, show_angle,
    show_length, unit_word,
};

/// A length or an angle, so that both are set, shown, held between limits and fitted alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Measure {
    /// A length.
    Length(Length),
    /// An angle.
    Angle(Angle),
}

impl Measure {
    /// Millimetres of a length, degrees of an angle.
    pub const fn number(self) -> f64 {
        match self {
            Self::Length(length) => length.in_mm(),
            Self::Angle(angle) => angle.in_degrees(),
        }
    }

    /// A measure of the same kind and notation with `number` millimetres or degrees.
    #[must_use]
    pub const fn with_number(self, number: f64) -> Self {
        match self {
            Self::Length(length) => Self::Length(length.with_mm(number)),
            Self::Angle(_) => Self::Angle(Angle::degrees(number)),
        }
    }

    /// Reads what a person typed in place of this measure: a bare number takes the unit of
    /// `system`, or is in degrees.
    ///
    /// # Errors
    /// A [`UnitError`] that says what is wrong with the text.
    pub fn parse(self, text: &str, system: System) -> Result<Self, UnitError> {
        Ok(match self {
            Self::Length(_) => Self::Length(parse_length(text, system)?),
            Self::Angle(_) => Self::Angle(parse_angle(text)?),
        })
    }

    /// The measure as a number without its unit, as a person reads it.
    pub fn show(self, system: System) -> String {
        match self {
            Self::Length(length) => show_length(length, system),
            Self::Angle(angle) => show_angle(angle),
        }
    }

    /// The unit it is shown in and bare numbers are read in: `mm`, `in` or `°`.
    pub const fn unit_word(self, system: System) -> &'static str {
        match self {
            Self::Length(_) => unit_word(system),
            Self::Angle(_) => "°",
        }
    }

    /// The measure with its unit: `58 mm`, `2 1/4 in`, `3°`.
    pub fn words(self, system: System) -> String {
        match self {
            Self::Length(length) => {
                format!("{} {}", show_length(length, system), unit_word(system))
            }
            Self::Angle(angle) => format!("{}°", show_angle(angle)),
        }
    }
}

/// Decimals of a measure that is told in full, at most; what they leave nothing of is told with a power of ten.
const TOLD_DECIMALS: usize = 9;

impl Measure {
    /// The measure with its unit, as [`Self::words`] gives it, but in full where that reads as nothing or as one of
    /// `limits`, mm or degrees, which it is not: what is refused is said as it was written.
    ///
    /// # Examples
    /// ```
    /// use headwright::units::{Length, Measure, System};
    ///
    /// let told = |mm| Measure::from(Length::mm(mm)).told([15.0, 150.0], System::Metric);
    /// assert_eq!(told(7.0), "7 mm");
    /// assert_eq!(told(0.0001), "0.0001 mm");
    /// assert_eq!(told(14.9996), "14.9996 mm");
    /// assert_eq!(told(1e-12), "1e-12 mm");
    /// ```
    pub fn told(self, limits: [f64; 2], system: System) -> String {
        let (number, words) = (self.number(), self.words(system));
        let is_nothing = !words.contains(|c: char| ('1'..='9').contains(&c));
        let is_limit =
            |limit: f64| limit != number && self.with_number(limit).words(system) == words;
        let misread = (is_nothing && number != 0.0) || limits.into_iter().any(is_limit);
        if !misread || !number.is_finite() {
            return words;
        }
        let (number, unit) = match (self, system) {
            (Self::Length(_), System::Imperial) => (number / MM_PER_INCH, " in"),
            (Self::Length(_), System::Metric) => (number, " mm"),
            (Self::Angle(_), _) => (number, "°"),
        };
        let full = match trimmed(number, TOLD_DECIMALS) {
            nothing if nothing == "0" => format!("{number:e}"),
            full => full,
        };
        format!("{}{unit}", with_minus(full))
    }
}

impl From<Length> for Measure {
    fn from(length: Length) -> Self {
        Self::Length(length)
    }
}

impl From<Angle> for Measure {
    fn from(angle: Angle) -> Self {
        Self::Angle(angle)
    }
}

/// The full-precision text, as of its kind.
impl fmt::Display for Measure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length(length) => length.fmt(f),
            Self::Angle(angle) => angle.fmt(f),
        }
    }
}

/// Reads either, by its unit; what has neither's unit is refused as a length.
impl FromStr for Measure {
    type Err = UnitError;

    fn from_str(text: &str) -> Result<Self, UnitError> {
        match text.parse::<Length>() {
            Ok(length) => Ok(Self::Length(length)),
            Err(refused) => text.parse::<Angle>().map(Self::Angle).map_err(|_| refused),
        }
    }
}

saved_as_text!(
    Measure,
    "a length or an angle with its unit as text, such as \"58 mm\" or \"3°\"",
    "A length or an angle with its unit: \"58 mm\", \"2 1/4 in\", \"3°\".",
    r"^-?((\d+(\.\d+)?|\d+/\d+|\d+ \d+/\d+) (mm|cm|in)|\d+(\.\d+)?°)$"
);
