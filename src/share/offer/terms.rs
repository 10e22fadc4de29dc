//! What a smith says to a customer beside the head.

use std::fmt;
use std::str::FromStr;

use super::OfferError;
use crate::design::{Side, TipShape};
use crate::handle::LENGTH_MM;

/// What handles that are left open may measure over all, whole mm: what [`LENGTH_MM`] admits.
pub const HANDLE_MM: Between = Between {
    low: LENGTH_MM.least as u32,
    high: LENGTH_MM.most as u32,
};
/// What heads that are left open may weigh, g.
pub const GRAMS: Between = Between {
    low: 20,
    high: 25_000,
};
/// The most that is asked, in hundredths of a currency: 999 999.99.
pub const LARGEST_HUNDREDTHS: u32 = 99_999_999;
/// The most tips that are offered in the place of what is drawn.
pub const MOST_INSTEAD: usize = 2;
/// The years of a date.
pub const YEARS: Between = Between {
    low: 2000,
    high: 2099,
};

/// Price, state of the work, and what is open.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Terms {
    /// The price, if it is named.
    pub price: Option<Price>,
    /// Where the work stands, if that is told.
    pub stands: Option<Stands>,
    /// What the customer may choose.
    pub open: Open,
    /// Whether the customer is shown the sizes that the workshop works by; otherwise bar, losses and hardening stay there.
    pub shares_sizes: bool,
}

/// Whole numbers from `low` to `high`, both allowed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Between {
    /// The least.
    pub low: u32,
    /// The most.
    pub high: u32,
}

impl Between {
    /// Whether `number` is among them.
    pub const fn admits(self, number: u32) -> bool {
        self.low <= number && number <= self.high
    }

    /// Whether it has more than one number, all of them among `limits`.
    pub const fn is_within(self, limits: Self) -> bool {
        self.low < self.high && limits.admits(self.low) && limits.admits(self.high)
    }
}

/// What is left open to the customer.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Open {
    /// The handle's length over all, mm.
    pub handle_mm: Option<Between>,
    /// The weight of the finished head, g.
    pub grams: Option<Between>,
    /// What one end is worked into.
    pub tip: Option<OpenTip>,
}

impl Open {
    /// Whether nothing is.
    pub const fn is_empty(&self) -> bool {
        self.handle_mm.is_none() && self.grams.is_none() && self.tip.is_none()
    }
}

/// An end that may be worked into something else than is drawn.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OpenTip {
    /// The end.
    pub side: Side,
    /// What it may be instead, each once; at most [`MOST_INSTEAD`].
    pub instead: Vec<TipShape>,
}

/// A price.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Price {
    /// Hundredths of the currency, at most [`LARGEST_HUNDREDTHS`].
    pub hundredths: u32,
    /// The currency.
    pub currency: Currency,
}

impl Price {
    /// Reads an amount such as 240 or 240.50 and a currency such as EUR; a comma is a decimal mark too.
    ///
    /// # Errors
    /// A sentence for what is no amount or no code.
    pub fn read(amount: &str, currency: &str) -> Result<Self, OfferError> {
        let no_price = || OfferError::Price(amount.trim().chars().take(20).collect());
        let text = amount.trim().replace(',', ".");
        let (whole, parts) = text.split_once('.').unwrap_or((&text, ""));
        let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
        if whole.is_empty() || parts.len() > 2 || !digits(whole) || !digits(parts) {
            return Err(no_price());
        }
        let hundredths = format!("{whole}{parts:0<2}");
        let hundredths: u32 = hundredths.parse().map_err(|_| no_price())?;
        if hundredths > LARGEST_HUNDREDTHS {
            return Err(no_price());
        }
        Ok(Self {
            hundredths,
            currency: currency.parse()?,
        })
    }
}

impl fmt::Display for Price {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (whole, parts) = (self.hundredths / 100, self.hundredths % 100);
        if parts == 0 {
            write!(f, "{whole} {}", self.currency)
        } else {
            write!(f, "{whole}.{parts:02} {}", self.currency)
        }
    }
}

/// A currency by its code of ISO 4217: three capital letters. Whether there is such a currency is not looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Currency(pub(super) [u8; 3]);

impl FromStr for Currency {
    type Err = OfferError;

    fn from_str(text: &str) -> Result<Self, OfferError> {
        let code = text.trim().to_ascii_uppercase();
        match *code.as_bytes() {
            [a, b, c] if [a, b, c].iter().all(u8::is_ascii_uppercase) => Ok(Self([a, b, c])),
            _ => Err(OfferError::Currency(code.chars().take(20).collect())),
        }
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0
            .iter()
            .try_for_each(|letter| write!(f, "{}", char::from(*letter)))
    }
}

/// Where the work stands, as the smith said it on a day; it does not change by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stands {
    /// The stage that is reached.
    pub stage: Stage,
    /// The day of which this is true.
    pub as_of: Date,
}

/// A stage of the work, in its order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// Drawn, and waits for the customer.
    Drawn,
    /// Forged.
    Forged,
    /// Hardened and tempered.
    Hardened,
    /// Ground and polished.
    Ground,
    /// On its handle.
    Handled,
    /// On its way.
    Sent,
}

impl Stage {
    /// All of them, in order.
    pub const ALL: [Self; 6] = [
        Self::Drawn,
        Self::Forged,
        Self::Hardened,
        Self::Ground,
        Self::Handled,
        Self::Sent,
    ];

    /// Its words: "bar cut and forged".
    pub const fn words(self) -> &'static str {
        match self {
            Self::Drawn => "drawn, waits for your word",
            Self::Forged => "bar cut and forged",
            Self::Hardened => "hardened and tempered",
            Self::Ground => "ground and polished",
            Self::Handled => "on its handle",
            Self::Sent => "sent to you",
        }
    }
}

/// A day of the calendar, in [`YEARS`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Date {
    pub(super) year: u32,
    pub(super) month: u32,
    pub(super) day: u32,
}

/// The months' names.
const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

impl Date {
    /// A day; nothing for one that the calendar does not have.
    pub fn new(year: u32, month: u32, day: u32) -> Option<Self> {
        // Every fourth year of this century is a leap year, 2000 among them.
        let days = match month {
            2 if year.is_multiple_of(4) => 29,
            2 => 28,
            4 | 6 | 9 | 11 => 30,
            _ => 31,
        };
        let is_day = YEARS.admits(year) && (1..=12).contains(&month) && (1..=days).contains(&day);
        is_day.then_some(Self { year, month, day })
    }
}

impl FromStr for Date {
    type Err = OfferError;

    /// Reads 2026-03-04 (ISO 8601).
    fn from_str(text: &str) -> Result<Self, OfferError> {
        let no_date = || OfferError::Date(text.trim().chars().take(20).collect());
        let mut numbers = text.trim().splitn(3, '-').map(|part| {
            let is_number = part.bytes().all(|byte| byte.is_ascii_digit());
            is_number.then(|| part.parse().ok()).flatten()
        });
        let mut next = || numbers.next().flatten();
        let (year, month, day) = (next(), next(), next());
        match (year, month, day) {
            (Some(year), Some(month), Some(day)) => Self::new(year, month, day).ok_or_else(no_date),
            _ => Err(no_date()),
        }
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let month = MONTHS.get(self.month as usize - 1).copied();
        write!(f, "{} {} {}", self.day, month.unwrap_or(""), self.year)
    }
}
