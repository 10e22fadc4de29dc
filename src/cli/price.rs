//! What `price` answers: what a hammer must sell for, or what a price leaves for an hour.

use std::ffi::{OsStr, OsString};
use std::fmt;

use serde::Serialize;

use super::{CliError, CutAnswer, log};
use crate::cut::Order;
use crate::log::Outcome;
use crate::log::minutes::minutes;
use crate::price::{Costs, Line, Money, MoneyError, Quote, Steel, TAXES, Wanted, quote};
use crate::units::show_number;

/// What was asked of `price`.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PriceAsked {
    /// What an hour is to pay.
    pub wage: Option<Money>,
    /// What a head sells for.
    pub sell: Option<Money>,
    /// How many good heads, in the place of what the costs say.
    pub heads: Option<u32>,
    /// The order whose cutting list the steel is paid from.
    pub order: Option<OsString>,
    /// The log whose builds say minutes and spoiled pieces.
    pub log: Option<OsString>,
    /// As what the costs themselves are to be written, instead of an answer.
    pub form: Option<CostsForm>,
    /// Whether as a table to be read.
    pub table: bool,
}

/// As what costs are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CostsForm {
    /// A file of costs.
    Json,
    /// A table for a spreadsheet.
    Csv,
}

/// Why an option of `price` cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PriceOptionError {
    /// An amount that is none.
    #[error("{option}: {error}")]
    Money {
        /// The option.
        option: &'static str,
        /// What is wrong.
        error: MoneyError,
    },
    /// A count that is none.
    #[error("“{0}” is no count; write a whole number, such as --heads 6.")]
    Heads(String),
    /// Neither wage nor price, or both.
    #[error(
        "Say what an hour is to pay, such as --wage 30, or what a head sells for, such as --sell 180: one of them."
    )]
    Wanted,
    /// A form that is none.
    #[error("“{0}” is no form of costs. Say csv or json.")]
    Form(String),
    /// Two answers at once.
    #[error(
        "--as writes the costs themselves and --table what follows from them; say one of them."
    )]
    Both,
    /// A cutting list without a cost.
    #[error(
        "The order’s cutting list has no cost: give the order a price for its bars, and enough bars."
    )]
    NoCost,
    /// A log without a finished build that has minutes.
    #[error(
        "The log has no finished build with minutes: say them in the costs, and leave --log away."
    )]
    NoBuilds,
}

/// An option of `price` and what belongs after it.
pub(super) fn price_option(name: &str) -> Option<(&'static str, &'static str)> {
    Some(match name {
        "wage" => ("--wage", "what an hour is to pay, such as 30"),
        "sell" => ("--sell", "what a head sells for, such as 180"),
        "heads" => (
            "--heads",
            "how many good heads the batch is to have, such as 6",
        ),
        "order" => (
            "--order",
            "the order that the steel is cut by, such as order.json",
        ),
        _ => return None,
    })
}

impl PriceAsked {
    /// Takes what follows `option`.
    ///
    /// # Errors
    /// A sentence that says what is wrong with it.
    pub(super) fn take(&mut self, option: &'static str, value: OsString) -> Result<(), CliError> {
        let text = value.to_string_lossy().into_owned();
        let money = || {
            let read = text.parse::<Money>();
            read.map_err(|error| PriceOptionError::Money { option, error })
        };
        let again = match option {
            "--wage" => self.wage.replace(money()?).is_some(),
            "--sell" => self.sell.replace(money()?).is_some(),
            "--heads" => {
                let heads = text.trim().parse();
                let heads = heads.map_err(|_| PriceOptionError::Heads(super::shown(&value)))?;
                self.heads.replace(heads).is_some()
            }
            _ => self.order.replace(value).is_some(),
        };
        if again {
            return Err(CliError::Repeated(option));
        }
        Ok(())
    }

    /// The first option that only `price` takes.
    pub(super) fn given(&self) -> Option<&'static str> {
        let given = [
            (self.wage.is_some(), "--wage"),
            (self.sell.is_some(), "--sell"),
            (self.heads.is_some(), "--heads"),
            (self.order.is_some(), "--order"),
        ];
        let mut given = given.into_iter().filter(|(given, _)| *given);
        given.next().map(|(_, option)| option)
    }

    /// With what other commands take too.
    pub(super) fn with(
        self,
        log: Option<OsString>,
        form: Option<&OsStr>,
        table: bool,
    ) -> Result<Self, PriceOptionError> {
        if form.is_some() && table {
            return Err(PriceOptionError::Both);
        }
        if form.is_none() && self.wage.is_some() && self.sell.is_some() {
            return Err(PriceOptionError::Wanted);
        }
        let form = form.map(|text| match text.to_str() {
            Some("csv") => Ok(CostsForm::Csv),
            Some("json") => Ok(CostsForm::Json),
            _ => Err(PriceOptionError::Form(super::shown(text))),
        });
        let form = form.transpose()?;
        Ok(Self {
            log,
            form,
            table,
            ..self
        })
    }

    /// What is wanted: what was asked, else what the costs say, the wage first.
    fn wanted(&self, costs: &Costs) -> Result<Wanted, PriceOptionError> {
        let wanted = |wage: Option<Money>, sell: Option<Money>| {
            wage.map(Wanted::Wage).or(sell.map(Wanted::Price))
        };
        let wanted = wanted(self.wage, self.sell).or_else(|| wanted(costs.wage, costs.sell));
        wanted.ok_or(PriceOptionError::Wanted)
    }
}

/// What a hammer must sell for, or what a price leaves for an hour.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PriceAnswer {
    /// Price, wage and ledgers.
    #[serde(flatten)]
    pub quote: Quote,
    /// What is not in it.
    pub taxes: &'static str,
    /// The costs that it is made of, with what order and log say.
    pub costs: Costs,
}

impl PriceAnswer {
    /// The answer for the `costs`, with the texts of order and log where those were asked for.
    ///
    /// # Errors
    /// What cannot be read, or reckoned with.
    pub fn of(
        costs: &str,
        order: Option<&str>,
        log: Option<&str>,
        asked: &PriceAsked,
    ) -> Result<Self, CliError> {
        let costs = read(costs, order, log, asked)?;
        let quote = quote(&costs, asked.wanted(&costs)?).map_err(CliError::Price)?;
        Ok(Self {
            quote,
            taxes: TAXES,
            costs,
        })
    }

    /// The costs themselves, with what was asked, as `form`.
    ///
    /// # Errors
    /// What cannot be read.
    pub fn written(
        costs: &str,
        order: Option<&str>,
        log: Option<&str>,
        asked: &PriceAsked,
        form: CostsForm,
    ) -> Result<String, CliError> {
        let costs = read(costs, order, log, asked)?;
        let costs = Costs {
            wage: asked.wage.or(costs.wage),
            sell: asked.sell.or(costs.sell),
            ..costs
        };
        Ok(match form {
            CostsForm::Json => costs.to_json(),
            CostsForm::Csv => costs.to_csv(),
        })
    }
}

/// The costs in a text, with heads, order and log where those were asked for.
fn read(
    costs: &str,
    order: Option<&str>,
    log: Option<&str>,
    asked: &PriceAsked,
) -> Result<Costs, CliError> {
    let mut costs = Costs::read(costs).map_err(CliError::Price)?;
    if let Some(heads) = asked.heads {
        costs.heads = heads;
    }
    if let Some(order) = order {
        costs.steel = steel(order)?;
    }
    if let Some(log) = log {
        take_log(&mut costs, log)?;
    }
    Ok(costs)
}

/// What the cutting list of an order comes to.
fn steel(order: &str) -> Result<Steel, CliError> {
    let order = Order::read(order).map_err(CliError::Order)?;
    let answer = CutAnswer::of(vec![order])?;
    let list = answer.lists.first().map(|section| &section.list);
    let whole = list.filter(|list| list.missing == 0).and_then(|list| {
        let cents = (list.totals.cost? * 100.0).round();
        Some(Steel::List {
            cost: Money::cents(cents as i64),
            pieces: u32::try_from(list.totals.pieces).ok()?,
        })
    });
    Ok(whole.ok_or(PriceOptionError::NoCost)?)
}

/// Minutes of the finished builds on average, and how many of those that are done with were spoiled.
fn take_log(costs: &mut Costs, text: &str) -> Result<(), CliError> {
    let told = minutes(&log::read(text)?.builds);
    let finished = told.finished();
    if finished.is_empty() {
        return Err(PriceOptionError::NoBuilds.into());
    }
    let sum: f64 = finished.iter().map(|(_, minutes)| minutes).sum();
    costs.minutes = sum / finished.len() as f64;
    let ended = |outcome| {
        told.builds
            .iter()
            .filter(|it| it.outcome == outcome)
            .count() as f64
    };
    let (good, spoiled) = (ended(Outcome::Finished), ended(Outcome::Spoiled));
    costs.spoiled_percent = spoiled / (good + spoiled) * 100.0;
    Ok(())
}

/// The answer to be read.
impl fmt::Display for PriceAnswer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let quote = &self.quote;
        let money = &quote.currency;
        let heads = quote.heads;
        writeln!(
            f,
            "{:>12}  {:>12}  {money}",
            "one head",
            format!("batch of {heads}")
        )?;
        let row = |f: &mut fmt::Formatter<'_>, one: Money, batch: Money, name: &str| {
            writeln!(f, "{one:>12}  {batch:>12}  {name}")
        };
        for (one, batch) in quote.one.iter().zip(&quote.batch) {
            let Line { item, amount } = *one;
            row(f, amount, batch.amount, item.words())?;
        }
        row(f, quote.price, quote.batch_price, "price")?;
        writeln!(
            f,
            "\nAn hour pays {} {money}; {:.1} h for {heads} good of {} begun.",
            quote.wage,
            quote.hours,
            show_number((quote.pieces * 100.0).round() / 100.0)
        )?;
        if quote.wage < Money::cents(0) {
            writeln!(
                f,
                "The price does not pay what goes into the head: every hour costs you money."
            )?;
        }
        if let Some(less) = quote.ten_minutes {
            writeln!(
                f,
                "Ten minutes less on every head: {} {money} off the price with the same wage, or {} {money} more for \
                 an hour at the same price.",
                less.off_price, less.on_wage
            )?;
        }
        writeln!(f, "{}", self.taxes)
    }
}
