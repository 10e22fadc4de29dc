//! Holds as they are written at the command line.

use super::range::{RANGE_SIGNS, split};
use crate::design::{Design, Edit, Hold, Quantity};
use crate::fit::Target;
use crate::units::{Amount, System, UnitError};

/// A hold on one of the quantities.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// What is held.
    pub quantity: Quantity,
    /// What it is to be.
    pub hold: Hold<Amount>,
}

/// Why a text is no hold.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum HoldError {
    /// No quantity and value.
    #[error("“{0}” is not a hold; write a quantity and a value, such as mass=1.1kg or offset=0mm.")]
    NoValue(String),
    /// A quantity that cannot be held.
    #[error("“{0}” can’t be held; a hold is on {known}.", known = quantities())]
    UnknownQuantity(String),
    /// A value that is none of the quantity's.
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

/// “mass, offset, … or least_wall”
fn quantities() -> String {
    let [first @ .., last] = Quantity::ALL.map(Quantity::name);
    format!("{} or {last}", first.join(", "))
}

/// The signs between a value and its tolerance.
const TOLERANCE_SIGNS: [&str; 3] = ["±", "+-", "+/-"];

impl Held {
    /// Reads `mass=1.1kg`, `mass=1.1kg±10g`, `mass=1.0kg..1.2kg`, `least_wall=8mm..`,
    /// `length=..110mm`, `reach_ratio=1.25`.
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
    /// let Hold::About { value, tolerance } = held.hold else { unreachable!() };
    /// assert_eq!(value.to_string(), "2 lb 6 oz");
    /// assert_eq!(tolerance.map(|mass| mass.to_string()).as_deref(), Some("1 oz"));
    /// # Ok::<(), headwright::cli::HoldError>(())
    /// ```
    pub fn read(text: &str) -> Result<Self, HoldError> {
        let shown = |text: &str| super::shown(text.as_ref());
        let (name, value) = text
            .split_once('=')
            .ok_or_else(|| HoldError::NoValue(shown(text)))?;
        let quantity = Quantity::ALL
            .into_iter()
            .find(|quantity| quantity.name() == name.trim())
            .ok_or_else(|| HoldError::UnknownQuantity(shown(name)))?;
        let hold = read(quantity, value).map_err(|error| HoldError::Unit {
            quantity: quantity.name(),
            error,
        })?;
        match hold.map(Amount::number).problem(quantity) {
            None => Ok(Self { quantity, hold }),
            Some(problem) => Err(HoldError::Impossible {
                quantity: quantity.name(),
                text: shown(value.trim()),
                problem,
            }),
        }
    }

    /// The hold as a target of the fit.
    pub fn target(self) -> Target {
        Target::new(self.quantity, self.hold)
    }

    /// `design` with this hold in the place of its own on the same quantity.
    pub fn on(self, design: &Design) -> Design {
        design.apply(Edit::Hold(self.quantity, Some(self.hold)))
    }
}

fn read(quantity: Quantity, text: &str) -> Result<Hold<Amount>, UnitError> {
    let one = |text: &str| quantity.amount(0.0, System::Metric).read(text);
    if let Some((low, high)) = split(text, &RANGE_SIGNS) {
        return Ok(match (low.trim(), high.trim()) {
            ("", most) => Hold::AtMost { most: one(most)? },
            (least, "") => Hold::AtLeast { least: one(least)? },
            (low, high) => Hold::Between {
                low: one(low)?,
                high: one(high)?,
            },
        });
    }
    let (value, tolerance) = match split(text, &TOLERANCE_SIGNS) {
        Some((value, tolerance)) => (one(value)?, Some(one(tolerance)?)),
        None => (one(text)?, None),
    };
    Ok(Hold::About { value, tolerance })
}
