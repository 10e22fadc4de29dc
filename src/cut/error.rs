//! What can be wrong with an order, each a sentence with the value and the limit.

use std::fmt;

use super::order::{
    KERF_MM, LENGTH_MM, MOST_LINES, MOST_PIECES, MOST_STOCK, NAME_CHARACTERS, PRICE,
};
use crate::bar::{BarError, Limit};
use crate::design::{length_in_words, refused_length};
use crate::units::{Length, LengthNotation, System, show_number};

/// Why nothing can be cut.
#[derive(Clone, Debug, PartialEq)]
pub enum CutError {
    /// No order.
    Unreadable {
        /// What is wrong, and where.
        reason: String,
    },
    /// Nothing is wanted.
    NoPieces,
    /// More lines than are kept.
    TooManyLines {
        /// How many there are.
        count: usize,
    },
    /// More pieces than are cut in one order.
    TooManyPieces {
        /// How many there are.
        count: u64,
    },
    /// A piece's length.
    PieceLength {
        /// The line, counted from 1.
        line: usize,
        /// Its length.
        value: Length,
    },
    /// A name longer than is kept.
    Name {
        /// The line, counted from 1.
        line: usize,
        /// How long it is.
        characters: usize,
    },
    /// Nothing to cut from.
    NoStock,
    /// More stock lengths than are weighed against each other.
    TooManyStock {
        /// How many there are.
        count: usize,
    },
    /// A stock length.
    StockLength {
        /// The line, counted from 1.
        line: usize,
        /// Its length.
        value: Length,
    },
    /// The saw's kerf.
    Kerf {
        /// Its width.
        value: Length,
    },
    /// The end waste.
    EndWaste {
        /// Its length.
        value: Length,
    },
    /// A section or density out of bounds.
    Section(BarError),
    /// What a bar costs.
    Price {
        /// The line, counted from 1.
        line: usize,
        /// Its price.
        value: f64,
    },
    /// What a kilogram costs.
    PricePerKg {
        /// The price.
        value: f64,
    },
    /// A price by mass, and no mass.
    PriceWithoutSection,
    /// Prices for a part of the stock.
    SomePrices,
    /// As many bars as needed for nothing.
    Free {
        /// The line, counted from 1.
        line: usize,
    },
    /// The saw leaves nothing of a bar.
    KerfOverStock {
        /// The kerf.
        kerf: Length,
        /// The longest stock.
        stock: Length,
    },
    /// The vice leaves nothing of a bar.
    EndWasteOverStock {
        /// The end waste.
        end_waste: Length,
        /// The longest stock.
        stock: Length,
    },
    /// A piece that no bar gives.
    PieceOverStock {
        /// The line, counted from 1.
        line: usize,
        /// The piece's length.
        piece: Length,
        /// The longest stock.
        stock: Length,
        /// The end waste.
        end_waste: Length,
    },
}

impl CutError {
    /// The sentence, with lengths in the units that the smith reads.
    pub fn sentence(&self, system: System) -> String {
        let show = |length: &Length| {
            let mm = length.in_mm();
            if mm.is_finite() {
                refused_length(mm, LENGTH_MM, system)
            } else {
                "not a number".to_owned()
            }
        };
        let within = |limit: Limit| {
            let show = |mm: f64| length_in_words(mm, system);
            format!(
                "It must be at least {} and at most {}.",
                show(limit.least),
                show(limit.most)
            )
        };
        match self {
            Self::Unreadable { reason } => format!("The order can’t be read: {reason}."),
            Self::NoPieces => "The order wants no pieces. Give at least one.".to_owned(),
            Self::TooManyLines { count } => format!(
                "The order has {count} lines of pieces. Give at most {MOST_LINES}: put equal lengths on one line."
            ),
            Self::TooManyPieces { count } => format!(
                "The order wants {count} pieces. One order takes at most {MOST_PIECES}: cut it in parts."
            ),
            Self::PieceLength { line, value } => {
                format!("Piece {line} is {} long. {}", show(value), within(LENGTH_MM))
            }
            Self::Name { line, characters } => format!(
                "The name of piece {line} has {characters} characters. Shorten it to at most {NAME_CHARACTERS}."
            ),
            Self::NoStock => {
                "There is no stock to cut from. Give at least one stock length.".to_owned()
            }
            Self::TooManyStock { count } => {
                format!("The order has {count} stock lengths. Give at most {MOST_STOCK}.")
            }
            Self::StockLength { line, value } => {
                format!("Stock {line} is {} long. {}", show(value), within(LENGTH_MM))
            }
            Self::Kerf { value } => format!("The kerf is {}. {}", show(value), within(KERF_MM)),
            Self::EndWaste { value } => {
                let limit = Limit {
                    least: 0.0,
                    ..LENGTH_MM
                };
                format!("The end waste is {}. {}", show(value), within(limit))
            }
            Self::Section(error) => error.to_string(),
            Self::Price { line, value } => format!(
                "A bar of stock {line} costs {}. It must be at least {} and at most {}.",
                show_number(*value),
                PRICE.least,
                PRICE.most
            ),
            Self::PricePerKg { value } => format!(
                "A kilogram of bar costs {}. It must be more than {} and at most {}.",
                show_number(*value),
                PRICE.least,
                PRICE.most
            ),
            Self::PriceWithoutSection => {
                "The price is by the kilogram, but the bar's section is not given. Give the section, or a price for \
                 each stock length."
                    .to_owned()
            }
            Self::SomePrices => {
                "Some stock lengths have a price and some have none. Give all of them a price, or none."
                    .to_owned()
            }
            Self::Free { line } => format!(
                "Stock {line} costs nothing and there are as many bars as needed. Give its price, or how many there are."
            ),
            Self::KerfOverStock { kerf, stock } => format!(
                "The kerf, {}, is not shorter than the longest stock, {}. Make it shorter.",
                show(kerf),
                show(stock)
            ),
            Self::EndWasteOverStock { end_waste, stock } => format!(
                "The end waste, {}, is not shorter than the longest stock, {}. Make it shorter.",
                show(end_waste),
                show(stock)
            ),
            Self::PieceOverStock {
                line,
                piece,
                stock,
                end_waste,
            } => format!(
                "Piece {line} is {} long, but the longest stock is {} with {} of it end waste. Get longer stock or \
                 make the piece shorter.",
                show(piece),
                show(stock),
                show(end_waste)
            ),
        }
    }

    /// The system in which the length at fault was written; metric when there is none.
    fn system(&self) -> System {
        match self {
            Self::PieceLength { value, .. }
            | Self::StockLength { value, .. }
            | Self::Kerf { value }
            | Self::EndWaste { value } => system_of(*value),
            Self::KerfOverStock { stock, .. }
            | Self::EndWasteOverStock { stock, .. }
            | Self::PieceOverStock { stock, .. } => system_of(*stock),
            _ => System::Metric,
        }
    }
}

/// The system that `length` was written in.
pub(super) fn system_of(length: Length) -> System {
    match length.notation() {
        LengthNotation::InchFraction | LengthNotation::InchDecimal => System::Imperial,
        _ => System::Metric,
    }
}

impl fmt::Display for CutError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(self.system()))
    }
}

impl std::error::Error for CutError {}
