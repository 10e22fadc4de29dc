//! What can be wrong with an order, each a sentence with the value and the limit.

use thiserror::Error;

use super::order::{
    KERF_MM, LENGTH_MM, MOST_LINES, MOST_PIECES, MOST_STOCK, NAME_CHARACTERS, PRICE,
};
use crate::bar::BarError;
use crate::units::{Length, show_number};

/// Why nothing can be cut.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum CutError {
    /// No order.
    #[error("The order can’t be read: {reason}.")]
    Unreadable {
        /// What is wrong, and where.
        reason: String,
    },
    /// Nothing is wanted.
    #[error("The order wants no pieces. Give at least one.")]
    NoPieces,
    /// More lines than are kept.
    #[error(
        "The order has {count} lines of pieces. Give at most {MOST_LINES}: put equal lengths on one line."
    )]
    TooManyLines {
        /// How many there are.
        count: usize,
    },
    /// More pieces than are cut in one order.
    #[error(
        "The order wants {count} pieces. One order takes at most {MOST_PIECES}: cut it in parts."
    )]
    TooManyPieces {
        /// How many there are.
        count: u64,
    },
    /// A piece's length.
    #[error("Piece {line} is {value} long. It must be at least {} mm and at most {} mm.", LENGTH_MM.least, LENGTH_MM.most)]
    PieceLength {
        /// The line, counted from 1.
        line: usize,
        /// Its length.
        value: Length,
    },
    /// A name longer than is kept.
    #[error(
        "The name of piece {line} has {characters} characters. Shorten it to at most {NAME_CHARACTERS}."
    )]
    Name {
        /// The line, counted from 1.
        line: usize,
        /// How long it is.
        characters: usize,
    },
    /// Nothing to cut from.
    #[error("There is no stock to cut from. Give at least one stock length.")]
    NoStock,
    /// More stock lengths than are weighed against each other.
    #[error("The order has {count} stock lengths. Give at most {MOST_STOCK}.")]
    TooManyStock {
        /// How many there are.
        count: usize,
    },
    /// A stock length.
    #[error("Stock {line} is {value} long. It must be at least {} mm and at most {} mm.", LENGTH_MM.least, LENGTH_MM.most)]
    StockLength {
        /// The line, counted from 1.
        line: usize,
        /// Its length.
        value: Length,
    },
    /// The saw's kerf.
    #[error("The kerf is {value}. It must be at least {} mm and at most {} mm.", KERF_MM.least, KERF_MM.most)]
    Kerf {
        /// Its width.
        value: Length,
    },
    /// The end waste.
    #[error("The end waste is {value}. It must be at least 0 mm and at most {} mm.", LENGTH_MM.most)]
    EndWaste {
        /// Its length.
        value: Length,
    },
    /// A section or density out of bounds.
    #[error(transparent)]
    Section(BarError),
    /// What a bar costs.
    #[error("A bar of stock {line} costs {}. It must be at least {} and at most {}.", show_number(*.value), PRICE.least, PRICE.most)]
    Price {
        /// The line, counted from 1.
        line: usize,
        /// Its price.
        value: f64,
    },
    /// What a kilogram costs.
    #[error("A kilogram of bar costs {}. It must be more than {} and at most {}.", show_number(*.value), PRICE.least, PRICE.most)]
    PricePerKg {
        /// The price.
        value: f64,
    },
    /// A price by mass, and no mass.
    #[error(
        "The price is by the kilogram, but the bar's section is not given. Give the section, or a price for each stock length."
    )]
    PriceWithoutSection,
    /// Prices for a part of the stock.
    #[error(
        "Some stock lengths have a price and some have none. Give all of them a price, or none."
    )]
    SomePrices,
    /// As many bars as needed for nothing.
    #[error(
        "Stock {line} costs nothing and there are as many bars as needed. Give its price, or how many there are."
    )]
    Free {
        /// The line, counted from 1.
        line: usize,
    },
    /// The saw leaves nothing of a bar.
    #[error("The kerf, {kerf}, is not shorter than the longest stock, {stock}. Make it shorter.")]
    KerfOverStock {
        /// The kerf.
        kerf: Length,
        /// The longest stock.
        stock: Length,
    },
    /// The vice leaves nothing of a bar.
    #[error(
        "The end waste, {end_waste}, is not shorter than the longest stock, {stock}. Make it shorter."
    )]
    EndWasteOverStock {
        /// The end waste.
        end_waste: Length,
        /// The longest stock.
        stock: Length,
    },
    /// A piece that no bar gives.
    #[error(
        "Piece {line} is {piece} long, but the longest stock is {stock} with {end_waste} of it end waste. Get longer stock or make the piece shorter."
    )]
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
