//! The answer of `cut`: an order from a file or from designs, and its cutting lists.

use std::ffi::OsString;

use serde::Serialize;

use super::CliError;
use crate::bar::billet;
use crate::cut::{Aim, CutBar, CuttingList, Order, Piece, Search, Stock};
use crate::design::Design;
use crate::mass::{causes, mass_properties};
use crate::units::{Length, System, UnitError, show_length, show_mass, unit_word};

/// What was asked of `cut`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CutAsked {
    /// One order, or designs.
    pub files: Vec<OsString>,
    /// How many of each design; one when there are fewer counts than designs.
    pub counts: Vec<u32>,
    /// The stock lengths for designs.
    pub stock: Vec<Stock>,
    /// The kerf for designs.
    pub kerf: Option<Length>,
    /// The end waste for designs.
    pub end_waste: Option<Length>,
    /// What a kilogram of bar costs.
    pub price_per_kg: Option<f64>,
    /// Whether the answer is to be read by a person.
    pub table: bool,
}

/// Why a text after an option of `cut` says nothing.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CutOptionError {
    /// A count that is none.
    #[error("“{0}” is no count; write a whole number from 1 to 20000, such as --count 6.")]
    Count(String),
    /// A price that is none.
    #[error("“{0}” is no price; write a number, such as --price 2.4.")]
    Price(String),
    /// A length that is none.
    #[error("{option}: {error}")]
    Length {
        /// The option.
        option: &'static str,
        /// What is wrong.
        error: UnitError,
    },
    /// More counts than designs.
    #[error("There are {counts} counts for {designs} designs; give one after each design at most.")]
    TooManyCounts {
        /// Counts.
        counts: usize,
        /// Designs.
        designs: usize,
    },
    /// Designs without anything to cut them from.
    #[error("Say what the bars are: cut DESIGN --stock 3m or --stock 3000mm.")]
    NoStock,
    /// An order with what only designs take.
    #[error(
        "An order file says itself how many pieces, which stock, kerf, end waste and price; leave {0} away."
    )]
    OptionWithOrder(&'static str),
    /// A design among orders or an order among designs.
    #[error("“{0}” is an order; cut one order alone, or designs.")]
    OrderAmongDesigns(String),
}

impl CutAsked {
    /// Takes what follows `option`.
    ///
    /// # Errors
    /// A sentence that says what is wrong with it.
    pub(super) fn take(&mut self, option: &'static str, text: &str) -> Result<(), CliError> {
        let shown = || super::shown(text.as_ref());
        match option {
            "--count" => {
                let count = text
                    .trim()
                    .parse()
                    .ok()
                    .filter(|count| (1..=20_000).contains(count));
                self.counts
                    .push(count.ok_or_else(|| CutOptionError::Count(shown()))?);
            }
            "--stock" => self.stock.push(Stock {
                length: length(option, text)?,
                count: None,
                price: None,
            }),
            "--kerf" => once(&mut self.kerf, option, length(option, text)?)?,
            "--end" => once(&mut self.end_waste, option, length(option, text)?)?,
            _ => {
                let price: Option<f64> = text.trim().replace(',', ".").parse().ok();
                let price = price.filter(|price| price.is_finite());
                let price = price.ok_or_else(|| CutOptionError::Price(shown()))?;
                once(&mut self.price_per_kg, option, price)?;
            }
        }
        Ok(())
    }

    /// The first option that only designs take.
    pub(super) fn design_option(&self) -> Option<&'static str> {
        let given = [
            (!self.counts.is_empty(), "--count"),
            (!self.stock.is_empty(), "--stock"),
            (self.kerf.is_some(), "--kerf"),
            (self.end_waste.is_some(), "--end"),
            (self.price_per_kg.is_some(), "--price"),
        ];
        given
            .into_iter()
            .find(|(given, _)| *given)
            .map(|(_, option)| option)
    }

    /// The orders of `texts`, the contents of the files: one order as it is, or one for every bar section among the
    /// designs, whose pieces are the billets.
    ///
    /// # Errors
    /// Why a text is neither, or why a design cannot be cut.
    pub fn orders(&self, texts: &[String]) -> Result<Vec<Order>, CliError> {
        let names = self.files.iter().map(|file| super::shown(file));
        if let [text] = texts
            && is_order(text)
        {
            return match self.design_option() {
                Some(option) => Err(CutOptionError::OptionWithOrder(option).into()),
                None => Ok(vec![Order::read(text).map_err(CliError::Order)?]),
            };
        }
        if let Some((_, name)) = texts.iter().zip(names).find(|(text, _)| is_order(text)) {
            return Err(CutOptionError::OrderAmongDesigns(name).into());
        }
        let designs = texts.iter().map(|text| Ok(Design::from_json(text)?));
        let designs = designs.collect::<Result<Vec<Design>, CliError>>()?;
        let (counts, wanted) = (self.counts.len(), designs.len());
        if counts > wanted {
            return Err(CutOptionError::TooManyCounts {
                counts,
                designs: wanted,
            }
            .into());
        }
        if self.stock.is_empty() {
            return Err(CutOptionError::NoStock.into());
        }
        let mut orders: Vec<Order> = Vec::new();
        for (at, design) in designs.iter().enumerate() {
            let piece = Piece {
                name: design.name.clone(),
                length: Length::mm(cut_length_mm(design)?),
                count: self.counts.get(at).copied().unwrap_or(1),
            };
            let (section, density) = (Some(design.bar.section), design.density);
            let same = |order: &&mut Order| order.section == section && order.density == density;
            match orders.iter_mut().find(same) {
                Some(order) => order.pieces.push(piece),
                None => orders.push(Order {
                    pieces: vec![piece],
                    stock: self.stock.clone(),
                    kerf: self.kerf.unwrap_or(USUAL_KERF),
                    end_waste: self.end_waste.unwrap_or(Length::mm(0.0)),
                    section,
                    density,
                    price_per_kg: self.price_per_kg,
                }),
            }
        }
        Ok(orders)
    }
}

/// A band saw's kerf: 1.6 to 2.4 mm (starting ranges, nestsolver.com/guides/typical-saw-kerf-widths).
const USUAL_KERF: Length = Length::mm(2.0);

fn length(option: &'static str, text: &str) -> Result<Length, CutOptionError> {
    crate::cut::bar_length(text, System::Metric)
        .map_err(|error| CutOptionError::Length { option, error })
}

fn once<T>(place: &mut Option<T>, option: &'static str, value: T) -> Result<(), CliError> {
    match place.replace(value) {
        None => Ok(()),
        Some(_) => Err(CliError::Repeated(option)),
    }
}

/// Whether a file is an order: an object with pieces, which no design has.
fn is_order(text: &str) -> bool {
    let value = serde_json::from_str::<serde_json::Value>(text);
    value.is_ok_and(|value| value.get("pieces").is_some())
}

fn cut_length_mm(design: &Design) -> Result<f64, CliError> {
    let solid = design.build().map_err(CliError::Unsound)?;
    let mass = mass_properties(&solid);
    let billet = billet(&causes(&solid, &mass), design.density, &design.bar);
    Ok(billet.map_err(CliError::Bar)?.cut_length_mm)
}

/// The cutting lists, one for every bar section.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CutAnswer {
    /// The lists.
    pub lists: Vec<SectionList>,
}

/// The list of one bar section.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SectionList {
    /// The units that a table is written in: those of the order's first stock length.
    #[serde(skip)]
    pub system: System,
    /// The section in words, when it is known.
    pub section: Option<String>,
    /// The list.
    #[serde(flatten)]
    pub list: CuttingList,
}

impl CutAnswer {
    /// Cuts `orders`.
    ///
    /// # Errors
    /// Why one of them cannot be cut.
    pub fn of(orders: Vec<Order>) -> Result<Self, CliError> {
        let mut lists = Vec::with_capacity(orders.len());
        for order in orders {
            let system = order.system();
            let section = order.section.map(|section| section.to_string());
            let search = Search::new(order).map_err(CliError::Cut)?;
            let list = search.finish();
            lists.push(SectionList {
                system,
                section,
                list,
            });
        }
        Ok(Self { lists })
    }

    /// The lists to be read: a line for every bar, then what all come to.
    pub fn table(&self) -> String {
        self.lists
            .iter()
            .map(SectionList::table)
            .collect::<Vec<_>>()
            .join("\n")
    }
}

impl SectionList {
    fn table(&self) -> String {
        let mut lines = Vec::new();
        if let Some(section) = &self.section {
            lines.push(section.clone());
        }
        let long = |mm: f64| show_length(Length::mm(mm), self.system);
        let unit = unit_word(self.system);
        lines.push(format!(
            "{:>5}  {:>9}  {:>9}  pieces ({unit})",
            "bars",
            format!("bar {unit}"),
            format!("offcut {unit}")
        ));
        for bar in &self.list.bars {
            let missing = if bar.stock.is_none() {
                "  (missing)"
            } else {
                ""
            };
            lines.push(format!(
                "{:>5}  {:>9}  {:>9}  {}{missing}",
                format!("{} ×", bar.times),
                long(bar.length_mm),
                long(bar.offcut_mm),
                pieces(bar, &long),
            ));
        }
        let totals = &self.list.totals;
        let mut sum = format!(
            "{} pieces from {}: {} {unit} of steel, {} {unit} kerf, {} {unit} offcut, {} {unit} of it in one length",
            totals.pieces,
            bars(totals.bars),
            long(totals.bought_mm),
            long(totals.kerf_mm),
            long(totals.offcut_mm),
            long(totals.longest_offcut_mm),
        );
        if let Some(kg) = totals.mass_kg {
            sum.push_str(&format!(", {}", show_mass(kg, self.system)));
        }
        if let Some(cost) = totals.cost {
            sum.push_str(&format!(", cost {cost:.2}"));
        }
        let priced = totals.mass_kg.is_some() || totals.cost.is_some();
        if self.list.missing > 0 && priced {
            sum.push_str(" without the missing bars");
        }
        lines.push(sum);
        lines.push(self.bound());
        lines.push(String::new());
        lines.join("\n")
    }

    fn bound(&self) -> String {
        let bound = &self.list.bound;
        let shown = |value: f64| match bound.aim {
            Aim::Bars => bars(value as usize),
            Aim::Length => {
                let (length, unit) = (Length::mm(value), unit_word(self.system));
                format!("{} {unit} of bar", show_length(length, self.system))
            }
            Aim::Cost => format!("a cost of {value:.2}"),
            Aim::Missing => format!("{} missing", bars(value as usize)),
        };
        let least = shown(bound.least);
        if bound.proved {
            format!("No list takes less than {least}: proved.")
        } else {
            let gap = bound.gap * 100.0;
            format!(
                "Every list takes at least {least}, {gap:.1} % less than this one: not proved best."
            )
        }
    }
}

fn bars(count: usize) -> String {
    format!("{count} bar{}", if count == 1 { "" } else { "s" })
}

/// “2 × 120 rounding, 85 light”
fn pieces(bar: &CutBar, long: &dyn Fn(f64) -> String) -> String {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for (at, piece) in bar.pieces.iter().enumerate() {
        match runs.last_mut() {
            Some((first, n)) if bar.pieces[*first].line == piece.line => *n += 1,
            _ => runs.push((at, 1)),
        }
    }
    let run = |(at, n): &(usize, usize)| {
        let piece = &bar.pieces[*at];
        let times = if *n > 1 {
            format!("{n} × ")
        } else {
            String::new()
        };
        format!(
            "{times}{} {}",
            long(piece.to_mm - piece.from_mm),
            piece.name
        )
    };
    runs.iter().map(run).collect::<Vec<_>>().join(", ")
}
