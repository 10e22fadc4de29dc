//! Moments of inertia: kg·mm² inside, the person's notation outside.

use std::fmt;
use std::str::FromStr;

use super::error::{Quantity, UnitError};
use super::scan::Scanner;
use super::text::{saved_as_text, trimmed};
use super::{KG_MM2_PER_LB_IN2, System};

/// Decimals that keep a moment to 1e-9 kg·mm², written in kg·mm² or in lb·in².
const DECIMALS: usize = 12;

/// How a moment of inertia was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum InertiaNotation {
    /// `1200 kg·mm²`
    KilogramSquareMillimetre,
    /// `4.1 lb·in²`
    PoundSquareInch,
}

impl InertiaNotation {
    const ALL: [Self; 2] = [Self::KilogramSquareMillimetre, Self::PoundSquareInch];

    /// The notation that `system` reads and shows.
    pub const fn of(system: System) -> Self {
        match system {
            System::Metric => Self::KilogramSquareMillimetre,
            System::Imperial => Self::PoundSquareInch,
        }
    }

    /// The unit.
    pub const fn unit_word(self) -> &'static str {
        match self {
            Self::KilogramSquareMillimetre => "kg·mm²",
            Self::PoundSquareInch => "lb·in²",
        }
    }

    /// kg·mm² in one of the unit.
    const fn in_kg_mm2(self) -> f64 {
        match self {
            Self::KilogramSquareMillimetre => 1.0,
            Self::PoundSquareInch => KG_MM2_PER_LB_IN2,
        }
    }
}

/// A moment of inertia together with the notation it was written in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Inertia {
    kg_mm2: f64,
    notation: InertiaNotation,
}

impl Inertia {
    /// `value` kg·mm², written so.
    pub const fn kg_mm2(value: f64) -> Self {
        Self::new(value, InertiaNotation::KilogramSquareMillimetre)
    }

    /// `kg_mm2` kg·mm², written in `notation`.
    pub const fn new(kg_mm2: f64, notation: InertiaNotation) -> Self {
        Self { kg_mm2, notation }
    }

    /// The moment in kg·mm².
    pub const fn in_kg_mm2(self) -> f64 {
        self.kg_mm2
    }

    /// How it is written.
    pub const fn notation(self) -> InertiaNotation {
        self.notation
    }

    /// `kg_mm2` kg·mm² in this moment's notation.
    #[must_use]
    pub const fn with_kg_mm2(self, kg_mm2: f64) -> Self {
        Self::new(kg_mm2, self.notation)
    }
}

/// The full-precision text: `1200 kg·mm²`, `4.1 lb·in²`.
impl fmt::Display for Inertia {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let number = trimmed(self.kg_mm2 / self.notation.in_kg_mm2(), DECIMALS);
        write!(f, "{number} {}", self.notation.unit_word())
    }
}

/// The notation of a unit's name: `kg·mm²`, `kg mm2`, `kgmm^2`, `lb in²`.
fn notation(unit: &str) -> Option<InertiaNotation> {
    let plain = |unit: &str| unit.replace([' ', '·', '*', '^'], "").replace('²', "2");
    let unit = plain(unit);
    let mut all = InertiaNotation::ALL.into_iter();
    all.find(|notation| plain(notation.unit_word()) == unit)
}

pub(super) fn is_inertia_unit(unit: &str) -> bool {
    notation(unit).is_some()
}

/// Reads a moment whose unit is written: `1200 kg·mm²`, `1200 kg mm2`, `4.1 lb·in²`.
///
/// # Errors
/// Every [`UnitError`] that concerns a moment of inertia; [`UnitError::MissingUnit`] for a bare
/// number.
impl FromStr for Inertia {
    type Err = UnitError;

    fn from_str(text: &str) -> Result<Self, UnitError> {
        read(text, None)
    }
}

/// Reads what a person typed into a field for a moment of inertia: a bare number is in the unit of
/// `system`.
///
/// # Errors
/// A [`UnitError`] that says what is wrong with the text.
///
/// # Examples
/// ```
/// use headwright::units::{System, parse_inertia};
///
/// assert_eq!(parse_inertia("1200", System::Metric)?.to_string(), "1200 kg·mm²");
/// assert_eq!(parse_inertia("4.1 lb in2", System::Metric)?.to_string(), "4.1 lb·in²");
/// # Ok::<(), headwright::units::UnitError>(())
/// ```
pub fn parse_inertia(text: &str, system: System) -> Result<Inertia, UnitError> {
    read(text, Some(system))
}

fn read(text: &str, system: Option<System>) -> Result<Inertia, UnitError> {
    let mut scanner = Scanner::new(text, Quantity::Inertia)?;
    let value = scanner.sign() * scanner.number()?.value;
    let unit = scanner.unit()?;
    let notation = match (unit.as_str(), system) {
        ("", None) => return Err(scanner.missing_unit()),
        ("", Some(system)) => InertiaNotation::of(system),
        (unit, _) => notation(unit).ok_or_else(|| scanner.unknown_unit(unit))?,
    };
    let kg_mm2 = scanner.finite_value(value * notation.in_kg_mm2())?;
    Ok(Inertia::new(kg_mm2, notation))
}

saved_as_text!(
    Inertia,
    "a moment of inertia with its unit as text, such as \"1200 kg·mm²\"",
    "A moment of inertia with its unit, in the notation it was entered in: \"1200 kg·mm²\" or \"4.1 lb·in²\".",
    r"^-?\d+(\.\d+)? (kg·mm²|lb·in²)$"
);
