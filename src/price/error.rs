//! What no price can be made of, each a sentence.

use super::costs::{LARGEST_SUM_CENTS, LONGEST_CURRENCY, MONEY_CENTS, PERCENT, WAGE_CENTS};
use super::money::Money;
use crate::bar::Limit;
use crate::units::show_number;

/// Why no price can be worked out.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PriceError {
    /// No costs.
    #[error("The costs can’t be read, at or before line {line}: {fault}.")]
    Unreadable {
        /// Line where reading stopped.
        line: usize,
        /// What is wrong, without the full stop.
        fault: String,
    },
    /// No table of costs.
    #[error("This is no table of costs: its first line has no column “{0}”.")]
    NoColumn(&'static str),
    /// A row of a table that says no cost.
    #[error("Line {line}: {fault}")]
    Row {
        /// The line in which it begins.
        line: usize,
        /// What is wrong, a sentence.
        fault: String,
    },
    /// A row that every table has.
    #[error("The table says nothing for “{0}”. Write a row for it.")]
    NoRow(&'static str),
    /// No word for the money.
    #[error(
        "The currency has no word, or one that is longer than {LONGEST_CURRENCY} characters. Write it like EUR."
    )]
    Currency,
    /// An amount.
    #[error(
        "For {what} there stands {money}. It must be at least {} and at most {}.",
        whole(MONEY_CENTS.least), whole(MONEY_CENTS.most)
    )]
    Money {
        /// Of what.
        what: &'static str,
        /// The amount.
        money: Money,
    },
    /// A time or a count.
    #[error(
        "{what} is {} {unit}. It must be at least {} {unit} and at most {} {unit}.",
        show_number(*.value), show_number(.limit.least), show_number(.limit.most)
    )]
    Number {
        /// Of what.
        what: &'static str,
        /// Its value.
        value: f64,
        /// What it may be.
        limit: Limit,
        /// The unit of both.
        unit: &'static str,
    },
    /// Spoiled pieces.
    #[error(
        "{} % of the pieces are spoiled. It must be at least {} % and at most {} %: where hardly one is good, none has a price.",
        show_number(*.0), PERCENT.least, PERCENT.most
    )]
    Spoiled(f64),
    /// Fees.
    #[error(
        "The fees are {} % of the price. They must be at least {} % and at most {} %: of a price that goes away whole \
         nothing pays the work.",
        show_number(*.0), PERCENT.least, PERCENT.most
    )]
    Fees(f64),
    /// No wage at all.
    #[error(
        "The wanted wage is nothing. Say what an hour is to pay, or a price, to see what it leaves for an hour."
    )]
    NoWage,
    /// A wage beyond measure.
    #[error(
        "The wanted wage is {}. It must be at least {} and at most {} for an hour.",
        .0, whole(WAGE_CENTS.least), whole(WAGE_CENTS.most)
    )]
    Wage(Money),
    /// A sum whose cents can no longer be told.
    #[error(
        "A sum of the batch comes to {}. No sum may be more than {}, or the ledger would no longer add up to the cent.",
        .0, whole(LARGEST_SUM_CENTS)
    )]
    Sum(Money),
    /// A price beyond measure.
    #[error(
        "The price is {}. It must be at least {} and at most {}.",
        .0, whole(MONEY_CENTS.least), whole(MONEY_CENTS.most)
    )]
    Price(Money),
}

/// A limit, which is whole cents, as money.
fn whole(cents: f64) -> Money {
    Money::cents(cents as i64)
}
