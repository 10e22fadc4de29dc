//! What can be wrong with an offer, each a sentence with the value and the limit.

use super::Offer;
use super::terms::{
    Between, GRAMS, HANDLE_MM, LARGEST_HUNDREDTHS, MOST_INSTEAD, Open, OpenTip, YEARS,
};
use crate::design::{DesignError, Side, TipShape, length_in_words};
use crate::handle::{self, HandleError};
use crate::mass::mass_properties;
use crate::solid::Solid;
use crate::units::{System, show_mass};

/// Why something cannot be offered.
#[derive(Clone, Debug, PartialEq)]
pub enum OfferError {
    /// The head cannot be made.
    Head(DesignError),
    /// Its handle cannot be made.
    Handle(HandleError),
    /// What is no amount of money.
    Price(String),
    /// What is no code of a currency.
    Currency(String),
    /// What is no day.
    Date(String),
    /// Lengths of the handle that are no range inside the limits.
    Handles(Between),
    /// They leave out the length that is drawn, mm.
    HandleLeftOut(Between, f64),
    /// Weights that are no range inside the limits.
    Weights(Between),
    /// They leave out the weight that is drawn, kg.
    WeightLeftOut(Between, f64),
    /// Not one or two other tips, each once.
    Tips(Side, TipShape),
}

impl OfferError {
    /// The sentence, in the units that the reader reads.
    pub fn sentence(&self, system: System) -> String {
        let lengths = |range: &Between| lengths(*range, system);
        let weights = |range: &Between| weights(*range, system);
        match self {
            Self::Head(error) => error.sentence(system),
            Self::Handle(error) => error.sentence(system),
            Self::Price(text) => format!(
                "“{text}” is no price. Write it like 240 or 240.50, at most {}.",
                LARGEST_HUNDREDTHS / 100
            ),
            Self::Currency(text) => format!(
                "“{text}” is no currency. Write the three letters of its code, such as EUR or USD."
            ),
            Self::Date(text) => format!(
                "“{text}” is no day. Write it like 2026-03-04, from {} to {}.",
                YEARS.low, YEARS.high
            ),
            Self::Handles(range) => format!(
                "The handle is left open from {}; the first must be less than the second, both from {}.",
                lengths(range),
                lengths(&HANDLE_MM)
            ),
            Self::HandleLeftOut(range, mm) => format!(
                "The handle is left open from {}, which leaves out the {} that are drawn.",
                lengths(range),
                length_in_words(*mm, system)
            ),
            Self::Weights(range) => format!(
                "The weight is left open from {}; the first must be less than the second, both from {}.",
                weights(range),
                weights(&GRAMS)
            ),
            Self::WeightLeftOut(range, kg) => format!(
                "The weight is left open from {}, which leaves out the {} that are drawn.",
                weights(range),
                show_mass(*kg, system)
            ),
            Self::Tips(side, shape) => format!(
                "The {} is drawn as a {}; leave one or {MOST_INSTEAD} other tips open, each once.",
                side.word(),
                shape.words()
            ),
        }
    }
}

/// A range of lengths of the handle in words.
pub(super) fn lengths(range: Between, system: System) -> String {
    let show = |mm: u32| length_in_words(f64::from(mm), system);
    format!("{} to {}", show(range.low), show(range.high))
}

/// A range of weights in words.
pub(super) fn weights(range: Between, system: System) -> String {
    let show = |grams: u32| show_mass(kg(grams), system);
    format!("{} to {}", show(range.low), show(range.high))
}

/// Grams in kg.
pub(super) fn kg(grams: u32) -> f64 {
    f64::from(grams) / 1000.0
}

/// Whether `number` is in `range`, or less than one beside it: of the two whole numbers around what is drawn, it may be
/// that only the one on the other side can be had.
fn holds(range: Between, number: f64) -> bool {
    f64::from(range.low) - 1.0 < number && number < f64::from(range.high) + 1.0
}

impl Offer {
    /// The head that is offered: the one place that says whether an offer is sound.
    ///
    /// # Errors
    /// Everything that is wrong with it.
    pub fn build(&self) -> Result<Solid, Vec<OfferError>> {
        let design = &self.design;
        let solid = design
            .build()
            .map_err(|errors| errors.into_iter().map(OfferError::Head).collect::<Vec<_>>())?;
        let mut errors = Vec::new();
        if let Err(reasons) = handle::make(&solid, &design.handle) {
            errors.extend(reasons.into_iter().map(OfferError::Handle));
        }
        let Open {
            handle_mm,
            grams,
            tip,
        } = &self.terms.open;
        if let Some(range) = *handle_mm {
            let mm = design.handle.length.in_mm();
            if !range.is_within(HANDLE_MM) {
                errors.push(OfferError::Handles(range));
            } else if !holds(range, mm) {
                errors.push(OfferError::HandleLeftOut(range, mm));
            }
        }
        if let Some(range) = *grams {
            let kg = mass_properties(&solid).mass;
            if !range.is_within(GRAMS) {
                errors.push(OfferError::Weights(range));
            } else if !holds(range, 1000.0 * kg) {
                errors.push(OfferError::WeightLeftOut(range, kg));
            }
        }
        if let Some(OpenTip { side, instead }) = tip {
            let drawn = TipShape::of(&design.end(*side).tip);
            let repeated = instead
                .iter()
                .enumerate()
                .any(|(index, shape)| *shape == drawn || instead[..index].contains(shape));
            if repeated || instead.is_empty() || instead.len() > MOST_INSTEAD {
                errors.push(OfferError::Tips(*side, drawn));
            }
        }
        if errors.is_empty() {
            Ok(solid)
        } else {
            Err(errors)
        }
    }
}
