//! Costs as a table for a spreadsheet: CSV by RFC 4180, out and in without loss.

use super::costs::{Costs, Steel};
use super::error::PriceError;
use super::money::{Money, MoneyError};
use super::quote::Wanted;
use crate::spreadsheet::{self, Row, TableError, shown};
use crate::units::{UnitError, parse_ratio};

/// The columns, in the order in which they are written; any order is read, further ones are not. What “what” says is there
/// to be read only.
pub const COLUMNS: [&str; 4] = ["cost", "value", "unit", "what"];

/// A line of the costs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// Its word in files.
    pub cost: &'static str,
    /// What stands there; empty where nothing is said.
    pub value: String,
    /// What that is in.
    pub unit: String,
    /// What it is, in words.
    pub what: &'static str,
}

type Place<T> = fn(&mut Costs) -> &mut T;

/// Where a line stands in the costs.
#[derive(Clone, Copy)]
enum Stands {
    Currency,
    Heads,
    /// Of a piece.
    Steel,
    ListCost,
    ListPieces,
    Money(Place<Money>),
    PerHour(Place<Money>),
    Number(&'static str, Place<f64>),
    Wage,
    Sell,
}

/// The lines: word, what it is, and where it stands.
const LINES: [(&str, &str, Stands); 17] = [
    ("currency", "the word for the money", Stands::Currency),
    ("heads", "good heads of the batch", Stands::Heads),
    ("steel", "the steel of a piece", Stands::Steel),
    (
        "list_cost",
        "the bars of a cutting list, in the place of that",
        Stands::ListCost,
    ),
    (
        "list_pieces",
        "the pieces of that cutting list",
        Stands::ListPieces,
    ),
    (
        "wood",
        "handle, wedge and what else only a good head gets",
        Stands::Money(|costs| &mut costs.wood),
    ),
    (
        "consumables",
        "belts, flux, oil and finish for a head",
        Stands::Money(|costs| &mut costs.consumables),
    ),
    (
        "fuel_per_hour",
        "fuel of the fire",
        Stands::PerHour(|costs| &mut costs.fuel_per_hour),
    ),
    (
        "heat_minutes",
        "the fire burns for a head",
        Stands::Number("min", |costs| &mut costs.heat_minutes),
    ),
    (
        "minutes",
        "work on a head",
        Stands::Number("min", |costs| &mut costs.minutes),
    ),
    (
        "batch_minutes",
        "work done once for the batch",
        Stands::Number("min", |costs| &mut costs.batch_minutes),
    ),
    (
        "overhead_per_hour",
        "rent, tools, insurance",
        Stands::PerHour(|costs| &mut costs.overhead_per_hour),
    ),
    (
        "spoiled_percent",
        "pieces spoiled, of all begun",
        Stands::Number("%", |costs| &mut costs.spoiled_percent),
    ),
    (
        "fees_percent",
        "fees, of the price",
        Stands::Number("%", |costs| &mut costs.fees_percent),
    ),
    (
        "post",
        "parcel and post of a head, if the price has them in it",
        Stands::Money(|costs| &mut costs.post),
    ),
    ("wage", "what an hour is to pay", Stands::Wage),
    ("sell", "what a head sells for", Stands::Sell),
];

/// The words of the lines that every table has.
const NEEDED: [&str; 2] = ["currency", "minutes"];

impl Costs {
    /// The costs line by line, each table's in one order.
    // Inlined, with all that it is written and read by: the page's is built for size, and once.
    #[inline]
    pub fn lines(&self) -> Vec<Line> {
        let mut costs = self.clone();
        let lines = LINES.iter().map(|(cost, what, stands)| Line {
            cost,
            value: stands.text(&mut costs).unwrap_or_default(),
            unit: stands.unit(&self.currency),
            what,
        });
        lines.collect()
    }

    /// The costs as CSV, without the lines that say nothing.
    #[inline]
    pub fn to_csv(&self) -> String {
        let lines = self.lines().into_iter();
        let said = lines.filter(|line| !line.value.is_empty());
        let rows = said.map(|line| {
            vec![
                line.cost.to_owned(),
                line.value,
                line.unit,
                line.what.to_owned(),
            ]
        });
        spreadsheet::written(&COLUMNS, rows.collect())
    }

    /// Reads what [`Costs::to_csv`] writes, with commas or semicolons between the cells and in numbers. Of lines that are
    /// not there the usual stands.
    ///
    /// # Errors
    /// Everything that is wrong, each with its line.
    #[inline]
    pub fn from_csv(text: &str) -> Result<Self, Vec<PriceError>> {
        let rows = spreadsheet::read(text, &COLUMNS).map_err(|error| vec![error.into()])?;
        let is = |row: &&Row, word: &str| row.cell("cost").trim() == word;
        let said = |row: &&Row| !row.cell("value").trim().is_empty();
        let mut currencies = rows.iter().filter(|row| is(row, "currency"));
        let currency = currencies.find(said);
        let currency = currency.map_or("", |row| row.cell("value"));
        let (mut costs, mut errors) = (Self::default(), Vec::new());
        let mut met: Vec<(&str, usize)> = Vec::new();
        let line_of = |met: &[(&str, usize)], cost: &str| {
            let mut met = met.iter().filter(|(other, _)| *other == cost);
            met.next().map(|(_, line)| *line)
        };
        for row in &rows {
            let (cost, value) = (row.cell("cost").trim(), row.cell("value"));
            let line = row.line;
            let mut wrong = |fault: String| errors.push(PriceError::Row { line, fault });
            let Some((cost, _, stands)) = LINES.iter().find(|(word, ..)| *word == cost) else {
                if !cost.is_empty() || !value.trim().is_empty() {
                    wrong(format!(
                        "“{}” is no cost. The costs are {}.",
                        shown(cost),
                        words()
                    ));
                }
                continue;
            };
            if value.trim().is_empty() {
                continue;
            }
            if let Some(before) = line_of(&met, cost) {
                wrong(format!("“{cost}” stands in line {before} already."));
                continue;
            }
            met.push((cost, line));
            let (unit, own) = (row.cell("unit").trim(), stands.unit(currency));
            if !unit.is_empty() && unit != own.trim() {
                wrong(match own.trim() {
                    "" => format!("“{cost}” has no unit, and here it has “{}”.", shown(unit)),
                    own => format!(
                        "“{cost}” is in {}, and here in “{}”.",
                        shown(own),
                        shown(unit)
                    ),
                });
                continue;
            }
            // By itself among costs that are in order: what is then wrong is of this line.
            let mut alone = Self::default();
            let faults = match stands.put(&mut alone, value) {
                Ok(()) => alone.faults(),
                Err(fault) => vec![fault],
            };
            if faults.is_empty() {
                // It could be put a moment ago.
                let _ = stands.put(&mut costs, value);
            }
            faults.into_iter().for_each(wrong);
        }
        let of_the_list = ["list_cost", "list_pieces"].map(|word| line_of(&met, word));
        let fault = match (line_of(&met, "steel"), of_the_list) {
            (Some(line), [Some(_), _] | [_, Some(_)]) => Some((
                line,
                "The steel is said by the piece and by a cutting list. Leave one of them away.",
            )),
            (None, [Some(line), None] | [None, Some(line)]) => {
                Some((line, "“list_cost” and “list_pieces” need each other."))
            }
            _ => None,
        };
        if let Some((line, fault)) = fault {
            let fault = fault.to_owned();
            errors.push(PriceError::Row { line, fault });
        }
        let missing = NEEDED
            .into_iter()
            .filter(|word| line_of(&met, word).is_none());
        errors.extend(missing.map(PriceError::NoRow));
        if errors.is_empty() {
            Ok(costs)
        } else {
            Err(errors)
        }
    }

    /// What is wrong with the costs and with what is wanted beside them, in sentences.
    #[inline]
    fn faults(&self) -> Vec<String> {
        let wanted = self.wage.map(Wanted::Wage).into_iter();
        let wanted = wanted.chain(self.sell.map(Wanted::Price));
        let errors = self.check().into_iter();
        let errors = errors.chain(wanted.filter_map(Wanted::check));
        errors.map(|error| error.to_string()).collect()
    }
}

impl Stands {
    /// What stands there, if anything does.
    #[inline]
    fn text(self, costs: &mut Costs) -> Option<String> {
        Some(match (self, costs.steel) {
            (Self::Currency, _) => costs.currency.clone(),
            (Self::Heads, _) => costs.heads.to_string(),
            (Self::Steel, Steel::Each(money)) => money.plain(),
            (Self::ListCost, Steel::List { cost, .. }) => cost.plain(),
            (Self::ListPieces, Steel::List { pieces, .. }) => pieces.to_string(),
            (Self::Steel | Self::ListCost | Self::ListPieces, _) => return None,
            (Self::Money(place) | Self::PerHour(place), _) => place(costs).plain(),
            (Self::Number(_, place), _) => place(costs).to_string(),
            (Self::Wage, _) => costs.wage?.plain(),
            (Self::Sell, _) => costs.sell?.plain(),
        })
    }

    /// Puts what a cell says there.
    #[inline]
    fn put(self, costs: &mut Costs, text: &str) -> Result<(), String> {
        let money = || {
            let money: Result<Money, MoneyError> = text.parse();
            money.map_err(|error| error.to_string())
        };
        let (cost, pieces) = match costs.steel {
            Steel::List { cost, pieces } => (cost, pieces),
            Steel::Each(_) => (Money::default(), 1),
        };
        match self {
            Self::Currency => text.clone_into(&mut costs.currency),
            Self::Heads => costs.heads = whole(text)?,
            Self::Steel => costs.steel = Steel::Each(money()?),
            Self::ListCost => {
                let cost = money()?;
                costs.steel = Steel::List { cost, pieces };
            }
            Self::ListPieces => {
                let pieces = whole(text)?;
                costs.steel = Steel::List { cost, pieces };
            }
            Self::Money(place) | Self::PerHour(place) => *place(costs) = money()?,
            Self::Number(_, place) => *place(costs) = number(text)?,
            Self::Wage => costs.wage = Some(money()?),
            Self::Sell => costs.sell = Some(money()?),
        }
        Ok(())
    }

    /// What it is in.
    #[inline]
    fn unit(self, currency: &str) -> String {
        match self {
            Self::Currency => String::new(),
            Self::Heads => "heads".to_owned(),
            Self::ListPieces => "pieces".to_owned(),
            Self::Number(unit, _) => unit.to_owned(),
            Self::Steel | Self::ListCost | Self::Money(_) | Self::Sell => currency.to_owned(),
            Self::PerHour(_) | Self::Wage => format!("{currency}/h"),
        }
    }
}

impl From<TableError> for PriceError {
    #[inline]
    fn from(error: TableError) -> Self {
        match error {
            TableError::NoColumn(column) => Self::NoColumn(column),
            TableError::Broken { line, fault } => Self::Row {
                line,
                fault: format!("This is no row of a table: {fault}."),
            },
        }
    }
}

#[inline]
fn whole(text: &str) -> Result<u32, String> {
    let read = text.trim().parse();
    read.map_err(|_| format!("“{}” is no whole number, such as 6.", shown(text.trim())))
}

#[inline]
fn number(text: &str) -> Result<f64, String> {
    parse_ratio(text).map_err(|error| {
        let text = text.trim();
        match error {
            UnitError::AmbiguousComma { .. } => error.to_string(),
            _ if text.matches(['.', ',']).count() > 1 => format!(
                "“{}” has more than one mark. Write it without those between the thousands, such as 1200.5.",
                shown(text)
            ),
            _ => format!("“{}” is no number, such as 2.5.", shown(text)),
        }
    })
}

/// The words of all lines.
#[inline]
fn words() -> String {
    let words = LINES.iter().map(|(word, ..)| *word);
    words.collect::<Vec<_>>().join(", ")
}
