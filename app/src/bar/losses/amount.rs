//! The amount of a loss as it is read, shown and reckoned from something else.

use super::super::super::words::{plain_number, small_mass};
use headwright::bar::LossAmount;
use headwright::units::{GRAMS_PER_KG, Mass, System, show_mass, show_number};

/// What an amount is reckoned from, in words.
pub const BASES: [&str; 3] = ["of mass", "% of the head", "% of the eye"];

/// What `amount` is reckoned from.
pub fn base(amount: LossAmount) -> &'static str {
    match amount {
        LossAmount::Mass { .. } => BASES[0],
        LossAmount::PercentOfHead { .. } => BASES[1],
        LossAmount::PercentOfEye { .. } => BASES[2],
    }
}

/// `amount` reckoned from something else, for a head and an eye of these masses: the loss stays.
pub fn rebased(amount: LossAmount, word: &str, finished: Mass, eye: Mass) -> LossAmount {
    let (expected, spread) = amount.in_kg(finished, eye);
    let percent = |kg: f64, of: Mass| {
        let share = if of.in_kg() > 0.0 {
            kg / of.in_kg()
        } else {
            0.0
        };
        (share * 1e4).round() / 1e2
    };
    let mass = |kg: f64| Mass::grams((kg * GRAMS_PER_KG * 10.0).round() / 10.0);
    match BASES.iter().position(|base| *base == word) {
        Some(0) => LossAmount::Mass {
            expected: mass(expected),
            spread: mass(spread),
        },
        Some(1) => LossAmount::PercentOfHead {
            expected: percent(expected, finished),
            spread: percent(spread, finished),
        },
        Some(2) => LossAmount::PercentOfEye {
            expected: percent(expected, eye),
            spread: percent(spread, eye),
        },
        _ => amount,
    }
}

/// `amount` with its expected value or its spread read from `text`.
///
/// # Errors
/// A sentence when the text cannot be read.
pub fn read_into(
    amount: LossAmount,
    text: &str,
    is_spread: bool,
    system: System,
) -> Result<LossAmount, String> {
    let put = |now: (f64, f64), value: f64| {
        if is_spread {
            (now.0, value)
        } else {
            (value, now.1)
        }
    };
    Ok(match amount {
        LossAmount::Mass { expected, spread } => {
            let mass = small_mass(text, system)?.unwrap_or(Mass::grams(0.0));
            let (expected, spread) = if is_spread {
                (expected, mass)
            } else {
                (mass, spread)
            };
            LossAmount::Mass { expected, spread }
        }
        LossAmount::PercentOfHead { expected, spread } => {
            let (expected, spread) = put((expected, spread), plain_number(text)?);
            LossAmount::PercentOfHead { expected, spread }
        }
        LossAmount::PercentOfEye { expected, spread } => {
            let (expected, spread) = put((expected, spread), plain_number(text)?);
            LossAmount::PercentOfEye { expected, spread }
        }
    })
}

/// `amount`, or its spread, as a field shows it.
pub fn shown(amount: LossAmount, is_spread: bool, system: System) -> String {
    match amount {
        LossAmount::Mass { expected, spread } => {
            show_mass(if is_spread { spread } else { expected }.in_kg(), system)
        }
        LossAmount::PercentOfHead { expected, spread }
        | LossAmount::PercentOfEye { expected, spread } => {
            show_number(if is_spread { spread } else { expected })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_loss_stays_the_same_when_it_is_reckoned_from_something_else() {
        let (finished, eye) = (Mass::kg(1.2), Mass::kg(0.2));
        let start = LossAmount::PercentOfHead {
            expected: 5.0,
            spread: 2.0,
        };
        let mut amount = start;
        for word in [BASES[0], BASES[2], BASES[1]] {
            amount = rebased(amount, word, finished, eye);
            let (expected, spread) = amount.in_kg(finished, eye);
            assert!((expected - 0.06).abs() < 1e-9 && (spread - 0.024).abs() < 1e-9);
        }
        assert_eq!(amount, start);
    }

    #[test]
    fn a_spread_is_read_without_touching_the_amount() {
        let start = LossAmount::PercentOfEye {
            expected: 25.0,
            spread: 10.0,
        };
        let read = read_into(start, "12,5 %", true, System::Metric);
        assert_eq!(
            read,
            Ok(LossAmount::PercentOfEye {
                expected: 25.0,
                spread: 12.5
            })
        );
        assert!(read_into(start, "much", false, System::Metric).is_err());
    }
}
