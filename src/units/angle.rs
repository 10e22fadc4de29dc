//! Angles: degrees outside and inside, radians where they are computed with.

use std::fmt;
use std::str::FromStr;

use super::error::{Quantity, UnitError};
use super::scan::Scanner;
use super::text::{saved_as_text, trimmed, unit_name};

/// Decimals of a degree that a file keeps.
const DECIMALS: usize = 9;

/// An angle in degrees. The value should be finite, as that of a [`Length`](super::Length).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Angle(f64);

impl Angle {
    /// `value` degrees.
    pub const fn degrees(value: f64) -> Self {
        Self(value)
    }

    /// The angle in degrees.
    pub const fn in_degrees(self) -> f64 {
        self.0
    }
}

/// `3°`, `-1.5°`; reading it back gives the angle within 1e-9°.
impl fmt::Display for Angle {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}°", trimmed(self.0, DECIMALS))
    }
}

pub(super) fn is_angle_unit(unit: &str) -> bool {
    matches!(unit_name(unit), "°" | "deg" | "degree" | "degrees")
}

/// Reads an angle whose unit is written: `3°`, `-1,5 deg`.
///
/// # Errors
/// Every [`UnitError`] that concerns an angle; [`UnitError::MissingUnit`] for a bare number.
impl FromStr for Angle {
    type Err = UnitError;

    fn from_str(text: &str) -> Result<Self, UnitError> {
        read(text, false)
    }
}

/// Reads what a person typed into a field for an angle: a bare number is in degrees.
///
/// # Errors
/// A [`UnitError`] that says what is wrong with the text.
///
/// # Examples
/// ```
/// use headwright::units::parse_angle;
///
/// assert_eq!(parse_angle("-1,5")?.to_string(), "-1.5°");
/// assert_eq!(parse_angle("35 deg")?.in_degrees(), 35.0);
/// # Ok::<(), headwright::units::UnitError>(())
/// ```
pub fn parse_angle(text: &str) -> Result<Angle, UnitError> {
    read(text, true)
}

fn read(text: &str, bare: bool) -> Result<Angle, UnitError> {
    let mut scanner = Scanner::new(text, Quantity::Angle)?;
    let value = scanner.sign() * scanner.number()?.value;
    let unit = scanner.unit()?;
    if unit.is_empty() && !bare {
        return Err(scanner.missing_unit());
    }
    if !unit.is_empty() && !is_angle_unit(&unit) {
        return Err(scanner.unknown_unit(&unit));
    }
    Ok(Angle(scanner.finite_value(value)?))
}

saved_as_text!(
    Angle,
    "an angle in degrees as text, such as \"3°\"",
    "An angle in degrees: \"3°\", \"-1.5°\".",
    r"^-?\d+(\.\d+)?°$"
);
