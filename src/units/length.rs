//! Lengths: millimetres inside, the person's notation outside.

use std::fmt;
use std::str::FromStr;

use super::error::{Quantity, UnitError};
use super::scan::{Form, Scanner};
use super::text::{saved_as_text, trimmed, unit_name};
use super::{MM_PER_CM, MM_PER_INCH, System};

/// How a length was written, kept so that 2 1/4 in stays 2 1/4 in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LengthNotation {
    /// `58 mm`
    Millimetre,
    /// `5.8 cm`
    Centimetre,
    /// `2.25 in`, `2.0 in`
    InchDecimal,
    /// `2 1/4 in`, `2 in`
    InchFraction,
}

impl LengthNotation {
    /// The system that it belongs to.
    pub const fn system(self) -> System {
        match self {
            Self::Millimetre | Self::Centimetre => System::Metric,
            Self::InchDecimal | Self::InchFraction => System::Imperial,
        }
    }
}

/// A length in millimetres together with the notation it was written in.
///
/// The value should be finite. Reading a text never gives another; a length computed as infinite or as no number
/// is for the bounds of the design to refuse.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Length {
    mm: f64,
    notation: LengthNotation,
}

impl Length {
    /// `value` millimetres, written in millimetres.
    pub const fn mm(value: f64) -> Self {
        Self::new(value, LengthNotation::Millimetre)
    }

    /// `value` inches, written as whole and fraction.
    pub const fn inches(value: f64) -> Self {
        Self::new(value * MM_PER_INCH, LengthNotation::InchFraction)
    }

    /// `mm` millimetres, written in `notation`.
    pub const fn new(mm: f64, notation: LengthNotation) -> Self {
        Self { mm, notation }
    }

    /// The length in millimetres.
    pub const fn in_mm(self) -> f64 {
        self.mm
    }

    /// How it is written.
    pub const fn notation(self) -> LengthNotation {
        self.notation
    }

    /// `mm` millimetres in this length's notation.
    pub const fn with_mm(self, mm: f64) -> Self {
        Self::new(mm, self.notation)
    }
}

/// The finest division of an inch written as a fraction.
const FINEST_DIVISION: f64 = 64.0;
/// Beyond this many sixty-fourths a double no longer tells them apart from their neighbours reliably.
const MOST_DIVISIONS: f64 = 1e12;
/// How far, in mm, a length may lie from a sixty-fourth and still be written as one in a file: far below the
/// 1e-9 mm that every saved length keeps, far above the rounding error of a head's dimensions.
const SAVED_FRACTION_MM: f64 = 5e-10;

/// `mm` in inches as whole and fraction, `2 1/4`, if it lies within `tolerance_mm` of a sixty-fourth.
pub(super) fn inch_fraction(mm: f64, tolerance_mm: f64) -> Option<String> {
    let divisions = (mm / MM_PER_INCH * FINEST_DIVISION).round();
    let off_mm = (divisions / FINEST_DIVISION * MM_PER_INCH - mm).abs();
    if !divisions.is_finite() || divisions.abs() > MOST_DIVISIONS || off_mm > tolerance_mm {
        return None;
    }
    let sign = if divisions < 0.0 { "-" } else { "" };
    let (per_inch, divisions) = (FINEST_DIVISION as u64, divisions.abs() as u64);
    let (whole, above) = (divisions / per_inch, divisions % per_inch);
    // The denominator is a power of two, so the lowest terms are a matter of halving.
    let halvings = above.trailing_zeros().min(per_inch.trailing_zeros());
    let (above, below) = (above >> halvings, per_inch >> halvings);
    Some(match (whole, above) {
        (whole, 0) => format!("{sign}{whole}"),
        (0, above) => format!("{sign}{above}/{below}"),
        (whole, above) => format!("{sign}{whole} {above}/{below}"),
    })
}

/// Decimals that keep a length to 1e-9 mm, in mm, cm and inches. On these grids writing and reading back
/// changes a value at most once.
const DECIMALS_MM: usize = 9;
const DECIMALS_CM: usize = 10;
const DECIMALS_INCH: usize = 11;

/// The full-precision text: `58 mm`, `5.8 cm`, `2.25 in`, `2 1/4 in`.
///
/// Reading it back gives the length within 1e-9 mm. A length in inch fractions that is no multiple of 1/64 in is
/// written as a decimal and therefore reads back as a decimal.
impl fmt::Display for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let decimal_inches = || {
            let number = trimmed(self.mm / MM_PER_INCH, DECIMALS_INCH);
            // Whole inches keep a decimal, or they would read back as a fraction's whole part.
            if number.contains(['.', 'e']) {
                format!("{number} in")
            } else {
                format!("{number}.0 in")
            }
        };
        f.write_str(&match self.notation {
            LengthNotation::Millimetre => format!("{} mm", trimmed(self.mm, DECIMALS_MM)),
            LengthNotation::Centimetre => {
                format!("{} cm", trimmed(self.mm / MM_PER_CM, DECIMALS_CM))
            }
            LengthNotation::InchDecimal => decimal_inches(),
            LengthNotation::InchFraction => match inch_fraction(self.mm, SAVED_FRACTION_MM) {
                Some(fraction) => format!("{fraction} in"),
                None => decimal_inches(),
            },
        })
    }
}

/// Reads a length whose unit is written: `58 mm`, `5,8 cm`, `2 1/4 in`, `2-1/4"`, `½ in`.
///
/// # Errors
/// Every [`UnitError`] that concerns a length; [`UnitError::MissingUnit`] for a bare number.
impl FromStr for Length {
    type Err = UnitError;

    fn from_str(text: &str) -> Result<Self, UnitError> {
        read(text, None)
    }
}

/// Reads what a person typed into a field for a length.
///
/// A bare number takes the unit of `system`. A bare fraction is in inches whatever the system, because nobody
/// writes millimetres in fractions. Negative lengths are read; whether one makes sense is for the design to say.
///
/// # Errors
/// A [`UnitError`] that says what is wrong with the text.
///
/// # Examples
/// ```
/// use headwright::units::{System, parse_length};
///
/// assert_eq!(parse_length("58", System::Metric)?.to_string(), "58 mm");
/// assert_eq!(parse_length("2.25", System::Imperial)?.to_string(), "2.25 in");
/// assert_eq!(parse_length("2 ¼", System::Metric)?.to_string(), "2 1/4 in");
/// # Ok::<(), headwright::units::UnitError>(())
/// ```
pub fn parse_length(text: &str, system: System) -> Result<Length, UnitError> {
    read(text, Some(system))
}

/// The units of length that are read.
#[derive(Clone, Copy, PartialEq)]
enum LengthUnit {
    Millimetre,
    Centimetre,
    Inch,
}

fn length_unit(unit: &str) -> Option<LengthUnit> {
    Some(match unit_name(unit) {
        "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => {
            LengthUnit::Millimetre
        }
        "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => {
            LengthUnit::Centimetre
        }
        "in" | "inch" | "inches" | "\"" => LengthUnit::Inch,
        _ => return None,
    })
}

pub(super) fn is_length_unit(unit: &str) -> bool {
    length_unit(unit).is_some()
}

fn read(text: &str, system: Option<System>) -> Result<Length, UnitError> {
    let mut scanner = Scanner::new(text, Quantity::Length)?;
    let sign = scanner.sign();
    let number = scanner.number()?;
    let unit = scanner.unit()?;
    let unit = match (unit.as_str(), system) {
        ("", None) => return Err(scanner.missing_unit()),
        ("", Some(_)) if number.form == Form::Fraction => LengthUnit::Inch,
        ("", Some(System::Metric)) => LengthUnit::Millimetre,
        ("", Some(System::Imperial)) => LengthUnit::Inch,
        (unit, _) => length_unit(unit).ok_or_else(|| scanner.unknown_unit(unit))?,
    };
    let (mm_per_unit, notation) = match unit {
        LengthUnit::Millimetre => (1.0, LengthNotation::Millimetre),
        LengthUnit::Centimetre => (MM_PER_CM, LengthNotation::Centimetre),
        LengthUnit::Inch if number.form == Form::Decimal => {
            (MM_PER_INCH, LengthNotation::InchDecimal)
        }
        LengthUnit::Inch => (MM_PER_INCH, LengthNotation::InchFraction),
    };
    Ok(Length::new(
        scanner.finite_value(sign * number.value * mm_per_unit)?,
        notation,
    ))
}

saved_as_text!(
    Length,
    "a length with its unit as text, such as \"58 mm\" or \"2 1/4 in\"",
    "A length with its unit, in the notation it was entered in: \"58 mm\", \"5.8 cm\", \"2.25 in\" or \"2 1/4 in\".",
    r"^-?(\d+(\.\d+)?|\d+/\d+|\d+ \d+/\d+) (mm|cm|in)$"
);
