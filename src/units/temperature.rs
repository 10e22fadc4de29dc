//! Temperatures: read and shown in degrees of the system, kept in °C.

use super::error::{Quantity, UnitError};
use super::scan::Scanner;
use super::text::unit_name;
use super::{System, show_number};

/// "°C" or "°F".
pub const fn temperature_unit_word(system: System) -> &'static str {
    match system {
        System::Metric => "°C",
        System::Imperial => "°F",
    }
}

/// Degrees of `system`.
pub fn degrees(celsius: f64, system: System) -> f64 {
    match system {
        System::Metric => celsius,
        System::Imperial => celsius * 1.8 + 32.0,
    }
}

/// °C from degrees of `system`.
pub fn celsius_of_degrees(degrees: f64, system: System) -> f64 {
    match system {
        System::Metric => degrees,
        System::Imperial => (degrees - 32.0) / 1.8,
    }
}

/// A temperature with its unit, to a tenth of a degree.
pub fn show_temperature(celsius: f64, system: System) -> String {
    let tenths = (degrees(celsius, system) * 10.0).round() / 10.0;
    format!("{} {}", show_number(tenths), temperature_unit_word(system))
}

/// The same to a whole degree: as near as an oven or a thermometer in a bath is read.
pub fn show_whole_temperature(celsius: f64, system: System) -> String {
    let whole = degrees(celsius, system).round();
    format!("{} {}", show_number(whole), temperature_unit_word(system))
}

/// The same to the next five degrees: as near as a forge, an oven or a formula is.
pub fn show_about_temperature(celsius: f64, system: System) -> String {
    let fives = 5.0 * (degrees(celsius, system) / 5.0).round();
    format!("{} {}", show_number(fives), temperature_unit_word(system))
}

/// What the name of a unit counts in.
pub(super) fn temperature_unit(unit: &str) -> Option<System> {
    match unit_name(unit).trim_start_matches(['°', ' ']) {
        "c" => Some(System::Metric),
        "f" => Some(System::Imperial),
        _ => None,
    }
}

/// Reads a temperature, °C: "845 °C", "1550F"; a bare number, or one with "°" alone, is in degrees of `system`.
///
/// # Errors
/// A [`UnitError`] that says what is wrong with the text.
///
/// # Examples
/// ```
/// use headwright::units::{System, parse_temperature};
///
/// assert_eq!(parse_temperature("845", System::Metric)?, 845.0);
/// assert_eq!(parse_temperature("1550 °F", System::Metric)?.round(), 843.0);
/// # Ok::<(), headwright::units::UnitError>(())
/// ```
pub fn parse_temperature(text: &str, system: System) -> Result<f64, UnitError> {
    let mut scanner = Scanner::new(text, Quantity::Temperature)?;
    let value = scanner.sign() * scanner.number()?.value;
    let unit = scanner.unit()?;
    let system = match unit_name(&unit) {
        "" | "°" => system,
        _ => temperature_unit(&unit).ok_or_else(|| scanner.unknown_unit(&unit))?,
    };
    scanner.finite_value(celsius_of_degrees(value, system))
}
