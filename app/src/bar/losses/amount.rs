//! The amount of a loss as it is read, shown and reckoned from something else.

use super::super::super::words::{plain_number, small_mass};
use headwright::bar::{Atmosphere, BarSection, Causes, HEAT_MINUTES, LossAmount, LossKind};
use headwright::units::{
    Density, Length, MM_PER_INCH, Mass, System, parse_length, show_length, show_mass, show_number,
};

const MASS: &str = "of mass";
const OF_HEAD: &str = "% of the head";
const OF_EYE: &str = "% of the eye";
const PUNCHED: &str = "of web, by the punch";
const PER_HEAT: &str = "off the surface per heat";
const PERCENT_PER_HEAT: &str = "% of the head per heat";
const OFF_SURFACE: &str = "off the surface";
const OFF_FACES: &str = "off the faces";
const OFF_ENDS: &str = "off each end";

/// What an amount can be reckoned from, in words: for a loss of this kind, and what `now` is reckoned from.
pub fn bases(kind: LossKind, now: LossAmount) -> Vec<&'static str> {
    let cause: &[&str] = match kind {
        LossKind::Slug => &[OF_EYE, PUNCHED],
        LossKind::ForgingScale | LossKind::HardeningScale => {
            &[PER_HEAT, PERCENT_PER_HEAT, OFF_SURFACE]
        }
        LossKind::Trimming => &[OFF_ENDS],
        LossKind::Grinding => &[OFF_FACES],
        LossKind::Dressing => &[OFF_SURFACE],
    };
    let mut bases = [&[MASS, OF_HEAD], cause].concat();
    if !bases.contains(&base(now)) {
        bases.push(base(now));
    }
    bases
}

/// What `amount` is reckoned from.
pub fn base(amount: LossAmount) -> &'static str {
    match amount {
        LossAmount::Mass { .. } => MASS,
        LossAmount::PercentOfHead { .. } => OF_HEAD,
        LossAmount::PercentOfEye { .. } => OF_EYE,
        LossAmount::Punched { .. } => PUNCHED,
        LossAmount::PerHeat { .. } => PER_HEAT,
        LossAmount::PercentPerHeat { .. } => PERCENT_PER_HEAT,
        LossAmount::OffSurface { .. } => OFF_SURFACE,
        LossAmount::OffFaces { .. } => OFF_FACES,
        LossAmount::OffEnds { .. } => OFF_ENDS,
    }
}

/// An amount on the basis that is called `word`, with nothing lost yet.
fn nothing(word: &str) -> Option<LossAmount> {
    let (expected, spread) = (Length::mm(0.0), Length::mm(0.0));
    Some(match word {
        MASS => LossAmount::Mass {
            expected: Mass::grams(0.0),
            spread: Mass::grams(0.0),
        },
        OF_HEAD => LossAmount::PercentOfHead {
            expected: 0.0,
            spread: 0.0,
        },
        OF_EYE => LossAmount::PercentOfEye {
            expected: 0.0,
            spread: 0.0,
        },
        PUNCHED => LossAmount::Punched {
            punch: None,
            expected,
            spread,
        },
        PER_HEAT => LossAmount::PerHeat {
            heats: 8,
            minutes: HEAT_MINUTES,
            atmosphere: Atmosphere::Neutral,
            expected,
            spread,
        },
        PERCENT_PER_HEAT => LossAmount::PercentPerHeat {
            heats: 8,
            expected: 0.0,
            spread: 0.0,
        },
        OFF_SURFACE => LossAmount::OffSurface { expected, spread },
        OFF_FACES => LossAmount::OffFaces { expected, spread },
        OFF_ENDS => LossAmount::OffEnds { expected, spread },
        _ => return None,
    })
}

/// `amount` reckoned from something else, for a head of these causes from this bar: the loss stays.
pub fn rebased(
    amount: LossAmount,
    word: &str,
    causes: &Causes,
    density: Density,
    section: BarSection,
) -> LossAmount {
    let Some(other) = nothing(word) else {
        return amount;
    };
    let (expected, spread) = amount.in_kg(causes, density, section);
    let per_unit = other.kg_per_unit(causes, density, section);
    // Tenths of a gram, hundredths of a percent, and of a thin layer micrometres.
    let steps = match other {
        LossAmount::Mass { .. } => 1e4,
        LossAmount::PerHeat { .. } | LossAmount::OffSurface { .. } => 1e3,
        _ => 1e2,
    };
    let number = |kg: f64| {
        if per_unit > 0.0 {
            (kg / per_unit * steps).round() / steps
        } else {
            0.0
        }
    };
    other.with_numbers([number(expected), number(spread)])
}

/// `amount` with its expected value or its spread read from `text`.
///
/// # Errors
/// A sentence when the text cannot be read.
pub fn read_into(
    mut amount: LossAmount,
    text: &str,
    is_spread: bool,
    system: System,
) -> Result<LossAmount, String> {
    let one = |expected, spread| if is_spread { spread } else { expected };
    match &mut amount {
        LossAmount::Mass { expected, spread } => {
            let mass = small_mass(text, system)?.unwrap_or(Mass::grams(0.0));
            *if is_spread { spread } else { expected } = mass;
        }
        LossAmount::PercentOfHead { expected, spread }
        | LossAmount::PercentOfEye { expected, spread }
        | LossAmount::PercentPerHeat {
            expected, spread, ..
        } => *one(expected, spread) = plain_number(text)?,
        LossAmount::Punched {
            expected, spread, ..
        }
        | LossAmount::PerHeat {
            expected, spread, ..
        }
        | LossAmount::OffSurface { expected, spread }
        | LossAmount::OffFaces { expected, spread }
        | LossAmount::OffEnds { expected, spread } => {
            let length = parse_length(text, system).map_err(|error| error.to_string())?;
            *if is_spread { spread } else { expected } = length;
        }
    }
    Ok(amount)
}

/// Whether its numbers are lengths, and so have the unit of lengths.
pub const fn is_length(amount: LossAmount) -> bool {
    !matches!(
        amount,
        LossAmount::Mass { .. }
            | LossAmount::PercentOfHead { .. }
            | LossAmount::PercentOfEye { .. }
            | LossAmount::PercentPerHeat { .. }
    )
}

/// `amount`, or its spread, as a field shows it.
pub fn shown(amount: LossAmount, is_spread: bool, system: System) -> String {
    let number = amount.numbers()[usize::from(is_spread)];
    match amount {
        LossAmount::Mass { .. } => show_mass(number, system),
        _ if is_length(amount) => thin(number, system),
        _ => show_number(number),
    }
}

/// A length in mm that may be as thin as scale, without its unit.
fn thin(mm: f64, system: System) -> String {
    if mm.abs() >= 1.0 || mm == 0.0 {
        return show_length(Length::mm(mm), system);
    }
    let rounded = |value: f64| show_number((value * 1e4).round() / 1e4);
    match system {
        System::Metric => rounded(mm),
        System::Imperial => rounded(mm / MM_PER_INCH),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn head() -> Causes {
        Causes {
            head_kg: 1.2,
            eye_kg: 0.2,
            surface_mm2: 22_000.0,
            face_mm2: [1400.0, 1300.0],
            eye_height_mm: 40.0,
            eye_mm: [28.0, 19.0],
        }
    }

    #[test]
    fn a_loss_stays_the_same_when_it_is_reckoned_from_something_else() {
        let start = LossAmount::PercentOfHead {
            expected: 5.0,
            spread: 2.0,
        };
        let (density, section) = (Density::STEEL, BarSection::square(Length::mm(45.0)));
        for kind in LossKind::ALL {
            let mut amount = start;
            for word in bases(kind, start) {
                amount = rebased(amount, word, &head(), density, section);
                assert_eq!(base(amount), word);
                let (expected, spread) = amount.in_kg(&head(), density, section);
                // A step of what was rounded last, or of one before.
                assert!((expected - 0.06).abs() < 2e-3, "{word}: {expected}");
                assert!((spread - 0.024).abs() < 2e-3, "{word}: {spread}");
            }
        }
        let back = rebased(start, OF_HEAD, &head(), density, section);
        assert_eq!(back, start);
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

    #[test]
    fn a_layer_is_read_in_any_notation_and_shown_to_the_tenth_of_a_micrometre() {
        let start = LossAmount::OffSurface {
            expected: Length::mm(0.0),
            spread: Length::mm(0.0),
        };
        let read = read_into(start, "0.035", false, System::Metric).expect("a length");
        assert_eq!(shown(read, false, System::Metric), "0.035");
        assert_eq!(shown(read, false, System::Imperial), "0.0014");
        let read = read_into(read, "1/32 in", true, System::Metric).expect("a length");
        assert_eq!(shown(read, true, System::Metric), "0.7938");
        assert!(is_length(read));
    }
}
