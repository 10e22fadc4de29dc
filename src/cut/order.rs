//! What is to be cut, from what, and with which saw.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::error::{CutError, system_of};
use crate::bar::{BarSection, DENSITY_KG_PER_M3, Limit};
use crate::units::{Density, Length, System, UnitError, parse_length};

/// Every length of an order but kerf and end waste, in mm.
pub const LENGTH_MM: Limit = Limit {
    least: 1.0,
    most: 100_000.0,
};
/// The kerf, in mm: 0 for a shear.
pub const KERF_MM: Limit = Limit {
    least: 0.0,
    most: 50.0,
};
/// What one stock length or one kilogram costs, in whatever money. What a bar costs counts in whole hundredths.
pub const PRICE: Limit = Limit {
    least: 0.0,
    most: 1_000_000.0,
};
/// The most lines of pieces.
pub const MOST_LINES: usize = 200;
/// The most pieces in all.
pub const MOST_PIECES: u64 = 20_000;
/// The most stock lengths.
pub const MOST_STOCK: usize = 12;
/// The longest name of a piece, in characters.
pub const NAME_CHARACTERS: usize = 200;

/// An order of pieces from bars of one section.
///
/// Plain data that may be impossible; [`Order::check`] says what is wrong with it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Order {
    /// What is to be cut.
    pub pieces: Vec<Piece>,
    /// What it may be cut from.
    pub stock: Vec<Stock>,
    /// Width of the saw's cut.
    #[serde(default = "no_length")]
    pub kerf: Length,
    /// What must be left of every bar behind its last piece at least, such as the length the vice holds. The last
    /// cut is taken from it.
    #[serde(default = "no_length")]
    pub end_waste: Length,
    /// The bar's section, from which masses follow.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub section: Option<BarSection>,
    /// The steel's density; that of carbon steel when none is given.
    #[serde(default)]
    pub density: Density,
    /// What one kilogram of bar costs, for stock that has no price of its own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price_per_kg: Option<f64>,
}

/// Pieces of one length.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Piece {
    /// What it is cut for.
    pub name: String,
    /// Its length.
    pub length: Length,
    /// How many are wanted.
    #[serde(default = "one")]
    pub count: u32,
}

/// Bars of one length.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Stock {
    /// The length of a bar.
    pub length: Length,
    /// How many there are; as many as needed when not given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// What one such bar costs. 0 for what is on hand and paid for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<f64>,
}

const fn no_length() -> Length {
    Length::mm(0.0)
}

const fn one() -> u32 {
    1
}

/// Reads the length of a bar as it is sold: `3 m`, `10 ft`, or as any other length, a bare number in the unit of
/// `system`.
///
/// # Errors
/// What is wrong with the text.
///
/// # Examples
/// ```
/// use headwright::cut::bar_length;
/// use headwright::units::System;
///
/// assert_eq!(bar_length("3 m", System::Metric)?.in_mm(), 3000.0);
/// assert_eq!(bar_length("10 ft", System::Imperial)?.in_mm(), 3048.0);
/// # Ok::<(), headwright::units::UnitError>(())
/// ```
pub fn bar_length(text: &str, system: System) -> Result<Length, UnitError> {
    let number = |unit: &str| {
        let number = text.trim().strip_suffix(unit)?.trim_end().replace(',', ".");
        number
            .parse::<f64>()
            .ok()
            .filter(|number| number.is_finite())
    };
    if let Some(metres) = number("m") {
        return Ok(Length::mm(metres * 1000.0));
    }
    match number("ft") {
        Some(feet) => Ok(Length::inches(feet * 12.0)),
        None => parse_length(text, system),
    }
}

impl Order {
    /// Reads an order from JSON.
    ///
    /// # Errors
    /// What cannot be read, and where.
    pub fn read(text: &str) -> Result<Self, CutError> {
        serde_json::from_str(text).map_err(|error| CutError::Unreadable {
            reason: error.to_string(),
        })
    }

    /// The order as JSON.
    pub fn write(&self) -> String {
        // No key of it is anything but a string, the one thing that would not go into JSON.
        serde_json::to_string(self).unwrap_or_default()
    }

    /// The system in which the order's first stock length was written; metric when there is none.
    pub fn system(&self) -> System {
        let first = self.stock.first();
        first.map_or(System::Metric, |stock| system_of(stock.length))
    }

    /// Everything that is wrong with the order; nothing when it can be cut.
    pub fn check(&self) -> Vec<CutError> {
        let mut errors = Vec::new();
        self.check_pieces(&mut errors);
        self.check_stock(&mut errors);
        if !KERF_MM.admits(self.kerf.in_mm()) {
            errors.push(CutError::Kerf { value: self.kerf });
        }
        if !(0.0..=LENGTH_MM.most).contains(&self.end_waste.in_mm()) {
            errors.push(CutError::EndWaste {
                value: self.end_waste,
            });
        }
        if let Some(section) = self.section {
            errors.extend(section.check().into_iter().map(CutError::Section));
        }
        if !DENSITY_KG_PER_M3.admits(self.density.in_kg_per_m3()) {
            errors.push(CutError::Section(crate::bar::BarError::Density {
                value: self.density,
            }));
        }
        self.check_prices(&mut errors);
        if errors.is_empty() {
            self.check_free(&mut errors);
            self.check_fit(&mut errors);
        }
        errors
    }

    fn check_pieces(&self, errors: &mut Vec<CutError>) {
        if self.pieces.len() > MOST_LINES {
            errors.push(CutError::TooManyLines {
                count: self.pieces.len(),
            });
            return;
        }
        let count: u64 = self.pieces.iter().map(|piece| u64::from(piece.count)).sum();
        if count == 0 {
            errors.push(CutError::NoPieces);
        } else if count > MOST_PIECES {
            errors.push(CutError::TooManyPieces { count });
        }
        for (index, piece) in self.pieces.iter().enumerate() {
            let line = index + 1;
            if !LENGTH_MM.admits(piece.length.in_mm()) {
                errors.push(CutError::PieceLength {
                    line,
                    value: piece.length,
                });
            }
            let characters = piece.name.chars().count();
            if characters > NAME_CHARACTERS {
                errors.push(CutError::Name { line, characters });
            }
        }
    }

    fn check_stock(&self, errors: &mut Vec<CutError>) {
        if self.stock.iter().all(|stock| stock.count == Some(0)) {
            errors.push(CutError::NoStock);
        } else if self.stock.len() > MOST_STOCK {
            errors.push(CutError::TooManyStock {
                count: self.stock.len(),
            });
        }
        for (index, stock) in self.stock.iter().enumerate().take(MOST_STOCK) {
            if !LENGTH_MM.admits(stock.length.in_mm()) {
                errors.push(CutError::StockLength {
                    line: index + 1,
                    value: stock.length,
                });
            }
        }
    }

    fn check_prices(&self, errors: &mut Vec<CutError>) {
        if let Some(price) = self.price_per_kg {
            if !PRICE.admits(price) || price == 0.0 {
                errors.push(CutError::PricePerKg { value: price });
            }
            if self.section.is_none() {
                errors.push(CutError::PriceWithoutSection);
            }
        }
        let priced = self.stock.iter().filter(|stock| stock.price.is_some());
        let priced = priced.count();
        if priced > 0 && priced < self.stock.len() && self.price_per_kg.is_none() {
            errors.push(CutError::SomePrices);
        }
        for (index, stock) in self.stock.iter().enumerate().take(MOST_STOCK) {
            let line = index + 1;
            if let Some(value) = stock.price.filter(|value| !PRICE.admits(*value)) {
                errors.push(CutError::Price { line, value });
            }
        }
    }

    /// As many bars as needed for less than half a hundredth.
    fn check_free(&self, errors: &mut Vec<CutError>) {
        for (index, stock) in self.stock.iter().enumerate() {
            if stock.count.is_none() && self.hundredths(stock) == Some(0) {
                errors.push(CutError::Free { line: index + 1 });
            }
        }
    }

    /// Lengths that leave nothing to cut from.
    fn check_fit(&self, errors: &mut Vec<CutError>) {
        let usable = self.stock.iter().filter(|stock| stock.count != Some(0));
        let Some(longest) = usable
            .map(|stock| stock.length)
            .max_by(|a, b| a.in_mm().total_cmp(&b.in_mm()))
        else {
            return;
        };
        if self.kerf.in_mm() >= longest.in_mm() {
            errors.push(CutError::KerfOverStock {
                kerf: self.kerf,
                stock: longest,
            });
        } else if self.end_waste.in_mm() >= longest.in_mm() {
            errors.push(CutError::EndWasteOverStock {
                end_waste: self.end_waste,
                stock: longest,
            });
        } else {
            let room = longest.in_mm() - self.end_waste.in_mm();
            let too_long = |piece: &Piece| piece.count > 0 && piece.length.in_mm() > room;
            for (index, piece) in self.pieces.iter().enumerate() {
                if too_long(piece) {
                    errors.push(CutError::PieceOverStock {
                        line: index + 1,
                        piece: piece.length,
                        stock: longest,
                        end_waste: self.end_waste,
                    });
                }
            }
        }
    }

    /// Mass in kg of one mm of bar, when the section is known.
    pub(super) fn kg_per_mm(&self) -> Option<f64> {
        let section = self.section?;
        Some(section.mass_kg(Length::mm(1.0), self.density))
    }

    /// What one bar of `stock` costs in hundredths, the smallest money that is told apart, when that is known.
    pub(super) fn hundredths(&self, stock: &Stock) -> Option<i64> {
        let price = stock.price.or_else(|| {
            let per_kg = self.price_per_kg?;
            Some(stock.length.in_mm() * self.kg_per_mm()? * per_kg)
        })?;
        Some((price * HUNDREDTHS).round() as i64)
    }
}

/// Hundredths in one of whatever money it is.
pub(super) const HUNDREDTHS: f64 = 100.0;
