//! What is held, as a link carries it.

use super::super::grid::{INERTIA_NOTATIONS, LENGTH_NOTATIONS, MASS_NOTATIONS, Scale};
use super::super::pack::{Coder, Fault};
use super::super::round::amount_number;
use super::{TWO_HOLDS, WITHOUT_HANDLE};
use crate::design::{Hold, Holds, Quantity};
use crate::units::{Amount, Inertia, Length, Mass, System};

/// The forms of a hold, nothing held among them, and the first of these, which are common.
const FORMS: u64 = 6;
const COMMON_FORMS: u64 = 4;
/// How many quantities there were before the handle, all of them the head's.
const OF_THE_HEAD: usize = 6;

/// Walks the holds, as `version` has them.
pub(super) fn holds(coder: &mut impl Coder, holds: &mut Holds, version: char) -> Result<(), Fault> {
    let [mass, balance, ..] = Quantity::ALL;
    if version <= TWO_HOLDS {
        for quantity in [mass, balance] {
            let form = coder.choice(form(holds.get(quantity)), COMMON_FORMS)?;
            hold(coder, holds, quantity, form)?;
        }
        return Ok(());
    }
    // Mass and balance alone, about a value or between two, take no more room than they did.
    let quantities = if version <= WITHOUT_HANDLE {
        &Quantity::ALL[..OF_THE_HEAD]
    } else {
        &Quantity::ALL
    };
    let [first, second] = [mass, balance].map(|quantity| form(holds.get(quantity)));
    let others = &quantities[2..];
    let common = first.max(second) < COMMON_FORMS
        && others.iter().all(|quantity| holds.get(*quantity).is_none());
    let uncommon = COMMON_FORMS * COMMON_FORMS;
    let code = if common {
        first * COMMON_FORMS + second
    } else {
        uncommon
    };
    let code = coder.choice(code, uncommon + 1)?;
    if code < uncommon {
        hold(coder, holds, mass, code / COMMON_FORMS)?;
        return hold(coder, holds, balance, code % COMMON_FORMS);
    }
    for quantity in quantities {
        let form = coder.choice(form(holds.get(*quantity)), FORMS)?;
        hold(coder, holds, *quantity, form)?;
    }
    Ok(())
}

/// The number of a hold's form.
fn form(hold: Option<Hold<Amount>>) -> u64 {
    match hold {
        None => 0,
        Some(Hold::About {
            tolerance: None, ..
        }) => 1,
        Some(Hold::About {
            tolerance: Some(_), ..
        }) => 2,
        Some(Hold::Between { .. }) => 3,
        Some(Hold::AtLeast { .. }) => 4,
        Some(Hold::AtMost { .. }) => 5,
    }
}

/// The amounts of the hold on `quantity`, which has this form.
fn hold(
    coder: &mut impl Coder,
    holds: &mut Holds,
    quantity: Quantity,
    form: u64,
) -> Result<(), Fault> {
    let unread = quantity.amount(0.0, System::Metric);
    let [mut first, mut second] = match holds.get(quantity) {
        None => [unread; 2],
        Some(Hold::About { value, tolerance }) => [value, tolerance.unwrap_or(unread)],
        Some(Hold::Between { low, high }) => [low, high],
        Some(Hold::AtLeast { least: one } | Hold::AtMost { most: one }) => [one, unread],
    };
    if form > 0 {
        amount(coder, quantity, &mut first)?;
    }
    if matches!(form, 2 | 3) {
        amount(coder, quantity, &mut second)?;
    }
    let hold = match form {
        0 => None,
        1 => Some(Hold::About {
            value: first,
            tolerance: None,
        }),
        2 => Some(Hold::About {
            value: first,
            tolerance: Some(second),
        }),
        3 => Some(Hold::Between {
            low: first,
            high: second,
        }),
        4 => Some(Hold::AtLeast { least: first }),
        _ => Some(Hold::AtMost { most: first }),
    };
    holds.set(quantity, hold);
    Ok(())
}

fn amount(coder: &mut impl Coder, quantity: Quantity, amount: &mut Amount) -> Result<(), Fault> {
    let read = Scale::held(quantity).code(coder, amount_number(*amount))?;
    *amount = match amount {
        Amount::Mass(_) => Amount::Mass(Mass::new(read.value, MASS_NOTATIONS[read.notation])),
        Amount::Length(_) => {
            Amount::Length(Length::new(read.value, LENGTH_NOTATIONS[read.notation]))
        }
        Amount::Inertia(_) => {
            Amount::Inertia(Inertia::new(read.value, INERTIA_NOTATIONS[read.notation]))
        }
        Amount::Ratio(_) => Amount::Ratio(read.value),
    };
    Ok(())
}
