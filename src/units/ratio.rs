//! Ratios: plain numbers, read as a person writes them.

use super::error::{Quantity, UnitError};
use super::scan::Scanner;

/// Reads a ratio: `1.25`, `5/4`, `1 1/4`.
///
/// # Errors
/// A [`UnitError`] that says what is wrong with the text.
///
/// # Examples
/// ```
/// use headwright::units::parse_ratio;
///
/// assert_eq!(parse_ratio("5/4")?, 1.25);
/// # Ok::<(), headwright::units::UnitError>(())
/// ```
pub fn parse_ratio(text: &str) -> Result<f64, UnitError> {
    let mut scanner = Scanner::new(text, Quantity::Ratio)?;
    let value = scanner.sign() * scanner.number()?.value;
    let unit = scanner.unit()?;
    if unit.is_empty() {
        Ok(value)
    } else {
        Err(scanner.unknown_unit(&unit))
    }
}
