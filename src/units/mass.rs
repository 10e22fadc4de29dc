//! Masses: kilograms inside, the person's notation outside.

use std::fmt;
use std::str::FromStr;

use super::error::{Quantity, UnitError};
use super::scan::Scanner;
use super::text::{saved_as_text, trimmed, unit_name};
use super::{GRAMS_PER_KG, KG_PER_OUNCE, KG_PER_POUND, OUNCES_PER_POUND, System};

/// How a mass was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MassNotation {
    /// `850 g`
    Gram,
    /// `1.1 kg`
    Kilogram,
    /// `38 oz`
    Ounce,
    /// `2 lb 6 oz`
    PoundOunce,
    /// `2.5 lb`
    Pound,
}

/// A mass in kilograms together with the notation it was written in. The value should be finite, as for
/// [`super::Length`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mass {
    kg: f64,
    notation: MassNotation,
}

impl Mass {
    /// `value` kilograms, written in kilograms.
    pub const fn kg(value: f64) -> Self {
        Self::new(value, MassNotation::Kilogram)
    }

    /// `value` grams, written in grams.
    pub const fn grams(value: f64) -> Self {
        Self::new(value / GRAMS_PER_KG, MassNotation::Gram)
    }

    /// `kg` kilograms, written in `notation`.
    pub const fn new(kg: f64, notation: MassNotation) -> Self {
        Self { kg, notation }
    }

    /// The mass in kilograms.
    pub const fn in_kg(self) -> f64 {
        self.kg
    }

    /// The mass in grams.
    pub const fn in_grams(self) -> f64 {
        self.kg * GRAMS_PER_KG
    }

    /// How it is written.
    pub const fn notation(self) -> MassNotation {
        self.notation
    }

    /// `kg` kilograms in this mass's notation.
    pub const fn with_kg(self, kg: f64) -> Self {
        Self::new(kg, self.notation)
    }
}

/// Decimals that keep a mass to 1e-12 kg, in kilograms, grams, ounces and pounds.
const DECIMALS_KG: usize = 12;
const DECIMALS_GRAM: usize = 9;
const DECIMALS_OUNCE: usize = 11;
const DECIMALS_POUND: usize = 12;

/// Sign, whole pounds and the ounces left over, the ounces to `decimals` decimals by `write`.
///
/// Ounces that round up to 16 become a pound.
pub(super) fn pounds_and_ounces(
    kg: f64,
    write: impl Fn(f64) -> String,
) -> (&'static str, f64, String) {
    let all_ounces = kg.abs() / KG_PER_OUNCE;
    let pounds = (all_ounces / OUNCES_PER_POUND).floor();
    let ounces = write(all_ounces - pounds * OUNCES_PER_POUND);
    let full = ounces
        .parse()
        .is_ok_and(|rounded: f64| rounded >= OUNCES_PER_POUND);
    let (pounds, ounces) = if full {
        (pounds + 1.0, write(0.0))
    } else {
        (pounds, ounces)
    };
    let nothing = pounds == 0.0 && ounces == write(0.0);
    (if kg < 0.0 && !nothing { "-" } else { "" }, pounds, ounces)
}

/// The full-precision text: `1.1 kg`, `850 g`, `38 oz`, `2 lb 6 oz`, `2.5 lb`. Reading it back gives the mass
/// within 1e-12 kg in the same notation.
impl fmt::Display for Mass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&match self.notation {
            MassNotation::Gram => format!("{} g", trimmed(self.in_grams(), DECIMALS_GRAM)),
            MassNotation::Kilogram => format!("{} kg", trimmed(self.kg, DECIMALS_KG)),
            MassNotation::Ounce => {
                format!("{} oz", trimmed(self.kg / KG_PER_OUNCE, DECIMALS_OUNCE))
            }
            MassNotation::Pound => {
                format!("{} lb", trimmed(self.kg / KG_PER_POUND, DECIMALS_POUND))
            }
            MassNotation::PoundOunce => {
                let (sign, pounds, ounces) =
                    pounds_and_ounces(self.kg, |ounces| trimmed(ounces, DECIMALS_OUNCE));
                format!("{sign}{} lb {ounces} oz", trimmed(pounds, 0))
            }
        })
    }
}

/// Reads a mass whose unit is written: `1.1 kg`, `850 g`, `38 oz`, `2 lb 6 oz`, `2 1/2 lb`.
///
/// # Errors
/// Every [`UnitError`] that concerns a mass; [`UnitError::MissingUnit`] for a bare number.
impl FromStr for Mass {
    type Err = UnitError;

    fn from_str(text: &str) -> Result<Self, UnitError> {
        read(text, None)
    }
}

/// Reads what a person typed into a field for a mass.
///
/// A bare number is in kilograms or pounds by `system`. After pounds the word for ounces may be left out. A minus
/// in front counts for pounds and ounces together.
///
/// # Errors
/// A [`UnitError`] that says what is wrong with the text.
///
/// # Examples
/// ```
/// use headwright::units::{System, parse_mass};
///
/// assert_eq!(parse_mass("1,1", System::Metric)?.to_string(), "1.1 kg");
/// assert_eq!(parse_mass("2 lbs 6", System::Metric)?.in_kg(), 2.375 * 0.45359237);
/// # Ok::<(), headwright::units::UnitError>(())
/// ```
pub fn parse_mass(text: &str, system: System) -> Result<Mass, UnitError> {
    read(text, Some(system))
}

fn is_pound(unit: &str) -> bool {
    matches!(unit_name(unit), "lb" | "lbs" | "pound" | "pounds")
}

fn is_ounce(unit: &str) -> bool {
    matches!(unit_name(unit), "oz" | "ounce" | "ounces")
}

fn is_gram(unit: &str) -> bool {
    matches!(
        unit_name(unit),
        "g" | "gram" | "grams" | "gramme" | "grammes"
    )
}

fn is_kilogram(unit: &str) -> bool {
    matches!(
        unit_name(unit),
        "kg" | "kilo" | "kilos" | "kilogram" | "kilograms" | "kilogramme" | "kilogrammes"
    )
}

pub(super) fn is_mass_unit(unit: &str) -> bool {
    is_pound(unit) || is_ounce(unit) || is_gram(unit) || is_kilogram(unit)
}

fn read(text: &str, system: Option<System>) -> Result<Mass, UnitError> {
    let mut scanner = Scanner::new(text, Quantity::Mass)?;
    let sign = scanner.sign();
    let number = scanner.number()?.value;
    let (kg, notation) = if scanner.take_word(is_pound) {
        if scanner.is_done() {
            (number * KG_PER_POUND, MassNotation::Pound)
        } else {
            scanner.skip_blanks();
            let ounces = scanner.number()?.value;
            let unit = scanner.unit()?;
            if is_mass_unit(&unit) && !is_ounce(&unit) {
                return Err(scanner.not_a_number());
            }
            if !unit.is_empty() && !is_ounce(&unit) {
                return Err(scanner.unknown_unit(&unit));
            }
            // Summed in ounces: 2 lb 6 oz is then the same double as 38 oz.
            (
                (number * OUNCES_PER_POUND + ounces) * KG_PER_OUNCE,
                MassNotation::PoundOunce,
            )
        }
    } else {
        let unit = scanner.unit()?;
        match (unit.as_str(), system) {
            ("", None) => return Err(scanner.missing_unit()),
            ("", Some(System::Metric)) => (number, MassNotation::Kilogram),
            ("", Some(System::Imperial)) => (number * KG_PER_POUND, MassNotation::Pound),
            (unit, _) if is_kilogram(unit) => (number, MassNotation::Kilogram),
            (unit, _) if is_gram(unit) => (number / GRAMS_PER_KG, MassNotation::Gram),
            (unit, _) if is_ounce(unit) => (number * KG_PER_OUNCE, MassNotation::Ounce),
            (unit, _) => return Err(scanner.unknown_unit(unit)),
        }
    };
    Ok(Mass::new(scanner.finite_value(sign * kg)?, notation))
}

saved_as_text!(
    Mass,
    "a mass with its unit as text, such as \"1.1 kg\" or \"2 lb 6 oz\"",
    "A mass with its unit, in the notation it was entered in: \"1.1 kg\", \"850 g\", \"38 oz\", \"2 lb 6 oz\" or \"2.5 lb\".",
    r"^-?(\d+(\.\d+)? (g|kg|oz|lb)|\d+ lb \d+(\.\d+)? oz)$"
);
