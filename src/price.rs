//! What a hammer costs, what it must sell for, and what is left for an hour of work.
//!
//! [`Costs`] is plain data; [`quote`] is the door: it says what price pays a wanted wage, or what wage a price leaves,
//! with a ledger that adds up to the cent, for one head and for the batch.
//!
//! # How it is reckoned
//! All amounts for one good head, with s the share of pieces that are spoiled and k = 1 / (1 − s) pieces begun for it:
//!
//! ```text
//! spoiled = (k − 1) · (steel + consumables + fuel + (wage + overhead) · minutes)
//! price   = steel + wood + consumables + fuel + labour + overhead + spoiled + post + fees
//! fees    = share of the price
//! ```
//!
//! A spoiled piece is taken to cost what a good one does but for the wood, which is more than one that is spoiled
//! early. What is done once for the batch is shared by its heads. The price is rounded up to the cent, and what that
//! adds goes to the wage.
//!
//! # Examples
//! ```
//! use headwright::price::{Costs, Money, Wanted, quote};
//!
//! let costs = Costs { minutes: 150.0, fees_percent: 10.0, ..Costs::default() };
//! // 2.5 h at 36.00 are 90.00, and 90.00 is 90 % of the price.
//! let quote = quote(&costs, Wanted::Wage(Money::cents(3600)))?;
//! assert_eq!(quote.price.in_cents(), 10_000);
//! assert_eq!(quote.one.iter().map(|line| line.amount.in_cents()).sum::<i64>(), 10_000);
//! # Ok::<(), Vec<headwright::price::PriceError>>(())
//! ```

mod costs;
mod csv;
mod error;
mod money;
mod quote;

pub use self::csv::{COLUMNS, Line as CostLine};
pub use costs::{
    Costs, HEADS, LARGEST_SUM_CENTS, LONGEST_CURRENCY, MINUTES, MONEY_CENTS, PERCENT, PIECES,
    SCHEMA_ID, Steel, WAGE_CENTS, schema,
};
pub use error::PriceError;
pub use money::{Money, MoneyError};
pub use quote::{Item, Line, Quote, TenMinutes, Wanted, quote};

/// What no price here has in it.
pub const TAXES: &str = "Taxes are not in it: value added or sales tax, income tax and social insurance are yours to add by the law where you sell.";
