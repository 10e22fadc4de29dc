//! Holds as they are written at the command line.

use crate::design::{Design, Hold};
use crate::fit::{Quantity, Target};
use crate::units::{Length, Mass, UnitError};

/// A hold on one of the quantities.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Held {
    /// Finished mass.
    Mass(Hold<Mass>),
    /// Balance, called offset at the command line.
    Balance(Hold<Length>),
}

/// Why a text is no hold.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum HoldError {
    /// No quantity and value.
    #[error("“{0}” is not a hold; write a quantity and a value, such as mass=1.1kg or offset=0mm.")]
    NoValue(String),
    /// A quantity that cannot be held.
    #[error("“{0}” can’t be held; a hold is on mass or on offset, the balance.")]
    UnknownQuantity(String),
    /// A value that is no mass or length.
    #[error("The hold on {quantity}: {error}")]
    Unit {
        /// The quantity.
        quantity: &'static str,
        /// What is wrong with the value.
        error: UnitError,
    },
    /// Numbers that cannot be.
    #[error("The hold on {quantity}, “{text}”, {problem}.")]
    Impossible {
        /// The quantity.
        quantity: &'static str,
        /// The value as given.
        text: String,
        /// What is wrong with it.
        problem: &'static str,
    },
}

/// The signs between a value and its tolerance, and between the ends of a range.
const TOLERANCE_SIGNS: [&str; 3] = ["±", "+-", "+/-"];
const RANGE_SIGNS: [&str; 2] = ["..", "…"];

impl Held {
    /// Reads `mass=1.1kg`, `mass=1.1kg±10g`, `mass=1.0kg..1.2kg`, `offset=0mm`.
    ///
    /// # Errors
    /// A sentence that says what is wrong with which part.
    ///
    /// # Examples
    /// ```
    /// use headwright::cli::Held;
    /// use headwright::design::Hold;
    ///
    /// let held = Held::read("mass=2 lb 6 oz +- 1 oz")?;
    /// let Held::Mass(Hold::About { value, tolerance }) = held else { unreachable!() };
    /// assert_eq!(value.to_string(), "2 lb 6 oz");
    /// assert_eq!(tolerance.map(|mass| mass.to_string()).as_deref(), Some("1 oz"));
    /// # Ok::<(), headwright::cli::HoldError>(())
    /// ```
    pub fn read(text: &str) -> Result<Self, HoldError> {
        let shown = || super::shown(text.as_ref());
        let (name, value) = text
            .split_once('=')
            .ok_or_else(|| HoldError::NoValue(shown()))?;
        match name.trim() {
            "mass" => {
                let hold = read(Quantity::Mass, value, Mass::in_kg)?;
                Ok(Self::Mass(hold))
            }
            "offset" => {
                let hold = read(Quantity::Balance, value, Length::in_mm)?;
                Ok(Self::Balance(hold))
            }
            other => Err(HoldError::UnknownQuantity(super::shown(other.as_ref()))),
        }
    }

    /// The hold as a target of the fit.
    pub fn target(self) -> Target {
        match self {
            Self::Mass(hold) => Target::new(Quantity::Mass, hold, Mass::in_kg),
            Self::Balance(hold) => Target::new(Quantity::Balance, hold, Length::in_mm),
        }
    }

    /// `design` with this hold in the place of its own on the same quantity.
    pub fn on(self, mut design: Design) -> Design {
        match self {
            Self::Mass(hold) => design.holds.mass = Some(hold),
            Self::Balance(hold) => design.holds.balance = Some(hold),
        }
        design
    }
}

fn split<'a>(text: &'a str, signs: &[&str]) -> Option<(&'a str, &'a str)> {
    signs.iter().find_map(|sign| text.split_once(sign))
}

fn read<Q: std::str::FromStr<Err = UnitError> + Copy>(
    quantity: Quantity,
    text: &str,
    number: impl Fn(Q) -> f64,
) -> Result<Hold<Q>, HoldError> {
    let name = quantity.name();
    let one = |text: &str| {
        text.parse::<Q>().map_err(|error| HoldError::Unit {
            quantity: name,
            error,
        })
    };
    let impossible = |problem| {
        Err(HoldError::Impossible {
            quantity: name,
            text: super::shown(text.trim().as_ref()),
            problem,
        })
    };
    let too_small = |value: Q| quantity == Quantity::Mass && number(value) <= 0.0;
    let least = "must be more than nothing";
    if let Some((low, high)) = split(text, &RANGE_SIGNS) {
        let (low, high) = (one(low)?, one(high)?);
        if number(low) > number(high) {
            impossible("begins above its end")
        } else if too_small(low) {
            impossible(least)
        } else {
            Ok(Hold::Between { low, high })
        }
    } else {
        let (value, tolerance) = match split(text, &TOLERANCE_SIGNS) {
            Some((value, tolerance)) => (one(value)?, Some(one(tolerance)?)),
            None => (one(text)?, None),
        };
        if too_small(value) {
            impossible(least)
        } else if tolerance.is_some_and(|tolerance| number(tolerance) < 0.0) {
            impossible("has a tolerance below nothing")
        } else {
            Ok(Hold::About { value, tolerance })
        }
    }
}
