//! Money in whole hundredths.

use std::fmt;
use std::str::FromStr;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use crate::units::with_minus;

/// Hundredths in one.
const HUNDREDTHS: i64 = 100;
/// The longest piece of a text that a sentence repeats, in characters.
const SHOWN_CHARACTERS: usize = 40;

/// An amount of money, of whatever currency, in whole cents: the hundredths of it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Money(i64);

/// Why a text is no money.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "“{0}” is no amount of money. Write it with at most two decimals, without the currency and without marks between thousands, such as 1200.50."
)]
pub struct MoneyError(String);

impl Money {
    /// So many cents.
    pub const fn cents(cents: i64) -> Self {
        Self(cents)
    }

    /// In cents.
    pub const fn in_cents(self) -> i64 {
        self.0
    }

    /// With a hyphen where it is below 0, as machines read it.
    pub(super) fn plain(self) -> String {
        let sign = if self.0 < 0 { "-" } else { "" };
        let cents = self.0.unsigned_abs();
        let whole = HUNDREDTHS.unsigned_abs();
        format!("{sign}{}.{:02}", cents / whole, cents % whole)
    }

    /// In cents, to reckon with.
    pub(super) const fn to_reckon(self) -> f64 {
        self.0 as f64
    }
}

/// The amount with two decimals: `12.50`, with a minus in front where it is below 0.
impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&with_minus(self.plain()))
    }
}

/// Reads `12`, `12.5`, `12.50` or `12,50`, with a minus or a hyphen in front if need be.
impl FromStr for Money {
    type Err = MoneyError;

    fn from_str(text: &str) -> Result<Self, MoneyError> {
        let refused = || MoneyError(text.chars().take(SHOWN_CHARACTERS).collect());
        let plain = text.trim();
        let (sign, plain) = match plain.strip_prefix(['-', '−']) {
            Some(rest) => (-1, rest),
            None => (1, plain),
        };
        let (whole, part) = plain.split_once(['.', ',']).unwrap_or((plain, ""));
        let digits = |text: &str| text.bytes().all(|b| b.is_ascii_digit());
        if whole.is_empty() || part.len() > 2 || !digits(whole) || !digits(part) {
            return Err(refused());
        }
        let cents: i64 = format!("{whole}{part:0<2}")
            .parse()
            .map_err(|_| refused())?;
        Ok(Self(sign * cents))
    }
}

impl Serialize for Money {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.plain())
    }
}

impl<'de> Deserialize<'de> for Money {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        text.parse().map_err(de::Error::custom)
    }
}

impl JsonSchema for Money {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Money".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": "string",
            "description": "An amount of money with at most two decimals and without the currency, such as 12.50.",
            "pattern": r"^\s*[-−]?\d+([.,]\d{0,2})?\s*$",
        })
    }
}
