//! The rule: the smallest division the smith measures with.

use std::fmt;
use std::str::FromStr;

use super::System;
use super::error::{UnitError, quoted};
use super::length::Length;
use super::text::saved_as_text;

/// The finest division taken for a rule, in mm: a micrometer's.
pub const RULE_MIN_MM: f64 = 0.01;
/// The coarsest division taken for a rule, in mm: a hand's breadth.
pub const RULE_MAX_MM: f64 = 100.0;
/// How far, in mm, a length may lie above a division and still be rounded to it when rounding up: a computed
/// 120.0000001 mm is 120 mm, and a millionth of a millimetre of bar weighs nothing a balance shows.
pub const ROUND_UP_SLACK_MM: f64 = 1e-6;

/// The smallest division the smith measures with, 1 mm or 1/16 in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rule(Length);

impl Rule {
    /// Whole millimetres.
    pub const MILLIMETRE: Self = Self(Length::mm(1.0));
    /// Sixteenths of an inch.
    pub const SIXTEENTH: Self = Self(Length::inches(1.0 / 16.0));

    /// The rule with this smallest division.
    ///
    /// # Errors
    /// [`UnitError::RuleOutOfRange`] when the division is below [`RULE_MIN_MM`] or above [`RULE_MAX_MM`].
    pub fn new(division: Length) -> Result<Self, UnitError> {
        if (RULE_MIN_MM..=RULE_MAX_MM).contains(&division.in_mm()) {
            Ok(Self(division))
        } else {
            Err(UnitError::RuleOutOfRange {
                text: quoted(&division.to_string()),
            })
        }
    }

    /// This rule where it is of `system`, else the plain one of that system: whole millimetres or sixteenths.
    pub fn in_system(self, system: System) -> Self {
        match system {
            _ if self.system() == system => self,
            System::Metric => Self::MILLIMETRE,
            System::Imperial => Self::SIXTEENTH,
        }
    }

    /// The smallest division.
    pub const fn division(self) -> Length {
        self.0
    }

    /// The system of units that its division is written in.
    pub const fn system(self) -> System {
        self.0.notation().system()
    }

    /// The smallest multiple of the division that is not below `mm` (less [`ROUND_UP_SLACK_MM`]), in mm.
    pub fn round_up(self, mm: f64) -> f64 {
        ((mm - ROUND_UP_SLACK_MM) / self.0.in_mm()).ceil() * self.0.in_mm()
    }

    /// The multiple of the division nearest to `mm`, in mm.
    pub fn round_nearest(self, mm: f64) -> f64 {
        (mm / self.0.in_mm()).round() * self.0.in_mm()
    }
}

impl Default for Rule {
    fn default() -> Self {
        Self::MILLIMETRE
    }
}

/// The division as a length: `1 mm`, `1/16 in`.
impl fmt::Display for Rule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

/// Reads the division as a length with its unit.
///
/// # Errors
/// Those of [`Length`] and of [`Rule::new`].
impl FromStr for Rule {
    type Err = UnitError;

    fn from_str(text: &str) -> Result<Self, UnitError> {
        Self::new(text.parse()?)
    }
}

saved_as_text!(
    Rule,
    "the smallest division as text, such as \"1 mm\" or \"1/16 in\"",
    "The smallest division the smith measures with, a length from 0.01 mm to 100 mm: \"1 mm\" or \"1/16 in\".",
    r"^(\d+(\.\d+)?|\d+/\d+|\d+ \d+/\d+) (mm|cm|in)$"
);
