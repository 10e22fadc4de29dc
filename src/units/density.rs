//! Densities: kg/m³ inside, g/cm³ outside.

use std::fmt;
use std::str::FromStr;

use super::error::{Quantity, UnitError};
use super::scan::Scanner;
use super::text::{saved_as_text, trimmed};

/// kg/m³ in one g/cm³.
const KG_PER_M3_PER_G_PER_CM3: f64 = 1000.0;
/// mm³ in one m³.
const MM3_PER_M3: f64 = 1e9;
/// Decimals of g/cm³ that keep a density to 1e-9 kg/m³.
const DECIMALS: usize = 12;

/// A density in kg/m³, shown and read in g/cm³.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Density(f64);

impl Density {
    /// Carbon steel by the design convention, 7.85 g/cm³: within 0.5 % of every plain-carbon and low-alloy
    /// grade. (Eurocode 3 UK National Annex, general notes 2.1: 7850 kg/m³.)
    pub const STEEL: Self = Self::kg_per_m3(7850.0);

    /// `value` kg/m³.
    pub const fn kg_per_m3(value: f64) -> Self {
        Self(value)
    }

    /// `value` g/cm³.
    pub const fn g_per_cm3(value: f64) -> Self {
        Self(value * KG_PER_M3_PER_G_PER_CM3)
    }

    /// The density in kg/m³.
    pub const fn in_kg_per_m3(self) -> f64 {
        self.0
    }

    /// The density in g/cm³.
    pub const fn in_g_per_cm3(self) -> f64 {
        self.0 / KG_PER_M3_PER_G_PER_CM3
    }

    /// The density in kg/mm³: times a volume in mm³ it gives kilograms.
    pub const fn in_kg_per_mm3(self) -> f64 {
        self.0 / MM3_PER_M3
    }
}

impl Default for Density {
    fn default() -> Self {
        Self::STEEL
    }
}

/// `7.85 g/cm³`, full precision.
impl fmt::Display for Density {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} g/cm³", trimmed(self.in_g_per_cm3(), DECIMALS))
    }
}

#[derive(Clone, Copy, PartialEq)]
enum DensityUnit {
    GramPerCubicCentimetre,
    KilogramPerCubicMetre,
}

fn density_unit(unit: &str) -> Option<DensityUnit> {
    Some(match unit {
        "g/cm³" | "g/cm3" | "g/cm^3" | "g/cc" => DensityUnit::GramPerCubicCentimetre,
        "kg/m³" | "kg/m3" | "kg/m^3" => DensityUnit::KilogramPerCubicMetre,
        _ => return None,
    })
}

pub(super) fn is_density_unit(unit: &str) -> bool {
    density_unit(unit).is_some()
}

/// Reads `7.85 g/cm³`, `7.85 g/cm3`, `7850 kg/m³` and, as g/cm³, the bare `7.85`.
///
/// # Errors
/// Every [`UnitError`] that concerns a density.
impl FromStr for Density {
    type Err = UnitError;

    fn from_str(text: &str) -> Result<Self, UnitError> {
        let mut scanner = Scanner::new(text, Quantity::Density)?;
        let value = scanner.sign() * scanner.number()?.value;
        let unit = scanner.unit()?;
        let unit = match unit.as_str() {
            "" => DensityUnit::GramPerCubicCentimetre,
            unit => density_unit(unit).ok_or_else(|| scanner.unknown_unit(unit))?,
        };
        let kg_per_m3 = match unit {
            DensityUnit::GramPerCubicCentimetre => value * KG_PER_M3_PER_G_PER_CM3,
            DensityUnit::KilogramPerCubicMetre => value,
        };
        Ok(Self(scanner.finite_value(kg_per_m3)?))
    }
}

saved_as_text!(
    Density,
    "a density with its unit as text, such as \"7.85 g/cm³\"",
    "A density with its unit: \"7.85 g/cm³\", also read from \"7850 kg/m3\".",
    r"^-?\d+(\.\d+)?( (g/cm(³|3)|kg/m(³|3)))?$"
);
