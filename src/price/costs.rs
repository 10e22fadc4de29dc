//! What goes into a hammer.

use schemars::{JsonSchema, Schema, schema_for};
use serde::{Deserialize, Serialize};

use super::error::PriceError;
use super::money::Money;
use crate::bar::Limit;
use crate::design::short_fault;

/// Every amount of money but the wage, in cents.
pub const MONEY_CENTS: Limit = Limit {
    least: 0.0,
    most: 1e8,
};
/// A wage for an hour, in cents.
pub const WAGE_CENTS: Limit = Limit {
    least: 1.0,
    most: 1e7,
};
/// The largest line of a batch's ledger, and the most that a batch sells for, in cents either way: a double tells
/// hundredths of a cent up to there, so that roundoff never comes to a cent.
pub const LARGEST_SUM_CENTS: f64 = 1e13;
/// Minutes of work on one head.
pub const MINUTES: Limit = Limit {
    least: 1.0,
    most: 100_000.0,
};
/// Heads of a batch.
pub const HEADS: Limit = Limit {
    least: 1.0,
    most: 10_000.0,
};
/// Pieces of a cutting list.
pub const PIECES: Limit = Limit {
    least: 1.0,
    most: 20_000.0,
};
/// Spoiled pieces in percent of all that are begun, or fees in percent of the price.
pub const PERCENT: Limit = Limit {
    least: 0.0,
    most: 90.0,
};
/// Where the schema stands beside the app.
pub const SCHEMA_ID: &str = "costs.schema.json";
/// The longest word for a currency, in characters.
pub const LONGEST_CURRENCY: usize = 8;

/// What goes into a hammer. All amounts are in one currency, written as text: "12.50".
///
/// Plain data that may be impossible; [`Costs::check`] says what is wrong with it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(
    title = "Headwright costs",
    description = "What goes into a hammer. All amounts are in one currency, written as text: \"12.50\"."
)]
pub struct Costs {
    /// The word or sign for the money, such as EUR.
    #[schemars(length(min = 1, max = LONGEST_CURRENCY))]
    pub currency: String,
    /// How many good heads the batch is to have.
    #[serde(default = "one")]
    #[schemars(range(min = HEADS.least as u32, max = HEADS.most as u32))]
    pub heads: u32,
    /// The steel.
    #[serde(default)]
    pub steel: Steel,
    /// Handle, wedge and what else only a good head gets.
    #[serde(default)]
    pub wood: Money,
    /// Belts, flux, oil and finish for one head.
    #[serde(default)]
    pub consumables: Money,
    /// What the fire burns in an hour.
    #[serde(default)]
    pub fuel_per_hour: Money,
    /// How long the fire burns for one head, in minutes.
    #[serde(default)]
    #[schemars(range(min = 0, max = MINUTES.most))]
    pub heat_minutes: f64,
    /// Work on one head, in minutes.
    #[schemars(range(min = MINUTES.least, max = MINUTES.most))]
    pub minutes: f64,
    /// Work that is done once for the batch, in minutes: laying the fire, setting up, the post.
    #[serde(default)]
    #[schemars(range(min = 0, max = MINUTES.most))]
    pub batch_minutes: f64,
    /// Rent, tools, insurance and the rest for an hour of work.
    #[serde(default)]
    pub overhead_per_hour: Money,
    /// How many pieces of a hundred that are begun are spoiled.
    #[serde(default)]
    #[schemars(range(min = PERCENT.least, max = PERCENT.most))]
    pub spoiled_percent: f64,
    /// What of the price goes to whoever sells or cashes it, in percent.
    #[serde(default)]
    #[schemars(range(min = PERCENT.least, max = PERCENT.most))]
    pub fees_percent: f64,
    /// Parcel and postage for one head, when the price has them in it.
    #[serde(default)]
    pub post: Money,
    /// What an hour is to pay, where that is said beside the costs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wage: Option<Money>,
    /// What a head sells for, where that is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sell: Option<Money>,
}

/// What the steel costs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Steel {
    /// So much for one piece.
    Each(Money),
    /// What a cutting list comes to, offcuts and kerf included.
    List {
        /// Its bars.
        cost: Money,
        /// How many pieces they give.
        #[schemars(range(min = PIECES.least as u32, max = PIECES.most as u32))]
        pieces: u32,
    },
}

impl Default for Steel {
    fn default() -> Self {
        Self::Each(Money::default())
    }
}

const fn one() -> u32 {
    1
}

/// Nothing but two hours of work.
impl Default for Costs {
    fn default() -> Self {
        Self {
            currency: "EUR".to_owned(),
            heads: 1,
            steel: Steel::default(),
            wood: Money::default(),
            consumables: Money::default(),
            fuel_per_hour: Money::default(),
            heat_minutes: 0.0,
            minutes: 120.0,
            batch_minutes: 0.0,
            overhead_per_hour: Money::default(),
            spoiled_percent: 0.0,
            fees_percent: 0.0,
            post: Money::default(),
            wage: None,
            sell: None,
        }
    }
}

impl Costs {
    /// Reads costs from JSON.
    ///
    /// # Errors
    /// What cannot be read, and where.
    #[inline]
    pub fn from_json(text: &str) -> Result<Self, PriceError> {
        let text = text.trim_start_matches('\u{feff}');
        serde_json::from_str(text).map_err(|error| PriceError::Unreadable {
            line: error.line(),
            fault: short_fault(&error),
        })
    }

    /// The costs as JSON.
    #[inline]
    pub fn to_json(&self) -> String {
        // No key of it is anything but a string, the one thing that would not go into JSON.
        let mut text = serde_json::to_string_pretty(self).unwrap_or_default();
        text.push('\n');
        text
    }

    /// Reads costs from JSON, or from the same as CSV: what begins with a brace is no table.
    ///
    /// # Errors
    /// What cannot be read, and where; of a table all that is wrong.
    #[inline]
    pub fn read(text: &str) -> Result<Self, Vec<PriceError>> {
        let begins = text.trim_start_matches('\u{feff}').trim_start();
        if begins.is_empty() || begins.starts_with('{') {
            Self::from_json(text).map_err(|error| vec![error])
        } else {
            Self::from_csv(text)
        }
    }

    /// These costs with what was changed from `before` to `after`, such as by another page: what was changed here alone
    /// stands.
    #[inline]
    pub fn changed(&self, before: &Self, after: &Self) -> Self {
        macro_rules! newest {
            ($($field:ident),*) => {
                Self { $($field: if before.$field == after.$field { self } else { after }.$field.clone()),* }
            };
        }
        newest!(
            currency,
            heads,
            steel,
            wood,
            consumables,
            fuel_per_hour,
            heat_minutes,
            minutes,
            batch_minutes,
            overhead_per_hour,
            spoiled_percent,
            fees_percent,
            post,
            wage,
            sell
        )
    }

    /// Everything that is wrong with the costs; nothing when they can be reckoned with.
    #[inline]
    pub fn check(&self) -> Vec<PriceError> {
        let mut errors = Vec::new();
        let characters = self.currency.chars().count();
        let untidy = self.currency.trim().is_empty() || self.currency.chars().any(char::is_control);
        if untidy || characters > LONGEST_CURRENCY {
            errors.push(PriceError::Currency);
        }
        let steel = match self.steel {
            Steel::Each(money) => ("the steel of a piece", money),
            Steel::List { cost, .. } => ("the steel of the cutting list", cost),
        };
        for (what, money) in [
            steel,
            ("the wood", self.wood),
            ("what is used up", self.consumables),
            ("the fuel of an hour", self.fuel_per_hour),
            ("the overhead of an hour", self.overhead_per_hour),
            ("the post", self.post),
        ] {
            if !MONEY_CENTS.admits(money.in_cents() as f64) {
                errors.push(PriceError::Money { what, money });
            }
        }
        let from_none = Limit {
            least: 0.0,
            ..MINUTES
        };
        let pieces = match self.steel {
            Steel::Each(_) => 1,
            Steel::List { pieces, .. } => pieces,
        };
        for (what, value, limit, unit) in [
            ("The batch", f64::from(self.heads), HEADS, "heads"),
            ("The cutting list", f64::from(pieces), PIECES, "pieces"),
            ("The work on one head", self.minutes, MINUTES, "min"),
            (
                "The work for the batch",
                self.batch_minutes,
                from_none,
                "min",
            ),
            ("The time at heat", self.heat_minutes, from_none, "min"),
        ] {
            if !limit.admits(value) {
                errors.push(PriceError::Number {
                    what,
                    value,
                    limit,
                    unit,
                });
            }
        }
        if !PERCENT.admits(self.spoiled_percent) {
            errors.push(PriceError::Spoiled(self.spoiled_percent));
        }
        if !PERCENT.admits(self.fees_percent) {
            errors.push(PriceError::Fees(self.fees_percent));
        }
        errors
    }
}

/// The schema of a file of costs, generated from the types.
pub fn schema() -> Schema {
    let mut schema = schema_for!(Costs);
    schema.insert("$id".to_owned(), SCHEMA_ID.into());
    schema
}
