//! Numbers for the screen: rounded to what a person can use, below zero with a minus and not with a hyphen.

use super::angle::Angle;
use super::inertia::InertiaNotation;
use super::length::{Length, inch_fraction};
use super::mass::pounds_and_ounces;
use super::text::{fixed, trimmed, with_minus};
use super::{GRAMS_PER_KG, KG_MM2_PER_LB_IN2, MM_PER_INCH, System};

/// Decimals of a shown millimetre.
const SHOWN_DECIMALS_MM: usize = 2;
/// Decimals of a shown degree.
const SHOWN_DECIMALS_DEGREE: usize = 2;
/// Decimals of a shown kilogram.
const SHOWN_DECIMALS_KG: usize = 3;
/// Most decimals of a number in a sentence.
const SHOWN_DECIMALS_NUMBER: usize = 6;
/// Decimals of a shown inch that is no sixty-fourth.
const SHOWN_DECIMALS_INCH: usize = 3;
/// Decimals of a shown lb·in²; kg·mm² are shown whole.
const SHOWN_DECIMALS_LB_IN2: usize = 3;
/// Decimals of a shown ratio.
const SHOWN_DECIMALS_RATIO: usize = 3;
/// How far, in mm, a length may lie from a sixty-fourth of an inch and still be shown as one.
const SHOWN_FRACTION_MM: f64 = 0.001;
/// The least mass shown in kilograms, in grams; what rounds to it is shown in kilograms too.
const LEAST_SHOWN_KG_IN_GRAMS: f64 = 1000.0;
/// Below this many grams a tenth is shown.
const TENTHS_BELOW_GRAMS: f64 = 100.0;

/// The unit that shown lengths are in and bare lengths are read in: `mm` or `in`.
pub const fn unit_word(system: System) -> &'static str {
    match system {
        System::Metric => "mm",
        System::Imperial => "in",
    }
}

/// The unit that bare masses are read in: `kg` or `lb`.
pub const fn mass_unit_word(system: System) -> &'static str {
    match system {
        System::Metric => "kg",
        System::Imperial => "lb",
    }
}

/// A bare number for a sentence: at most six decimals without idle zeros, `1e300` when it is huge.
pub fn show_number(value: f64) -> String {
    with_minus(trimmed(value, SHOWN_DECIMALS_NUMBER))
}

/// `length` as a number without its unit.
///
/// Metric: at most two decimals, `57.15`, `58`. Imperial: whole and fraction, `2 1/4`, when it lies within
/// 0.001 mm of a multiple of 1/64 in, otherwise three decimals, `2.283`.
pub fn show_length(length: Length, system: System) -> String {
    let mm = length.in_mm();
    with_minus(match system {
        System::Metric => trimmed(mm, SHOWN_DECIMALS_MM),
        System::Imperial => inch_fraction(mm, SHOWN_FRACTION_MM)
            .unwrap_or_else(|| fixed(mm / MM_PER_INCH, SHOWN_DECIMALS_INCH)),
    })
}

/// `mm` as a caliper reads it, without its unit: tenths of a millimetre, `28.4`, `28`, or thousandths of an inch, `1.119`.
pub fn show_caliper(mm: f64, system: System) -> String {
    match system {
        System::Metric => trimmed((10.0 * mm).round() / 10.0, 1),
        System::Imperial => fixed(mm / MM_PER_INCH, SHOWN_DECIMALS_INCH),
    }
}

/// `mm`, which is computed, without its unit: to a tenth of a millimetre, `28.4`, `28`, or a 64th of an inch, `1 1/8`.
pub fn show_about(mm: f64, system: System) -> String {
    let to = match system {
        System::Metric => 0.1,
        System::Imperial => MM_PER_INCH / 64.0,
    };
    show_length(Length::mm((mm / to).round() * to), system)
}

/// `angle` as degrees without the sign: at most two decimals, `3`, `−1.25`.
pub fn show_angle(angle: Angle) -> String {
    with_minus(trimmed(angle.in_degrees(), SHOWN_DECIMALS_DEGREE))
}

/// The moment of inertia `kg_mm2` as a number without its unit: whole kg·mm², or lb·in² to three
/// decimals.
pub fn show_inertia(kg_mm2: f64, system: System) -> String {
    with_minus(match system {
        System::Metric => fixed(kg_mm2, 0),
        System::Imperial => fixed(kg_mm2 / KG_MM2_PER_LB_IN2, SHOWN_DECIMALS_LB_IN2),
    })
}

/// The unit that shown moments of inertia are in and bare ones are read in: `kg·mm²` or `lb·in²`.
pub const fn inertia_unit_word(system: System) -> &'static str {
    InertiaNotation::of(system).unit_word()
}

/// A ratio: at most three decimals, `1.25`.
pub fn show_ratio(ratio: f64) -> String {
    with_minus(trimmed(ratio, SHOWN_DECIMALS_RATIO))
}

/// The mass `kg` with its unit: `1.198 kg`, `850 g`, `12.4 g`; `2 lb 8.0 oz`, `8.0 oz`.
pub fn show_mass(kg: f64, system: System) -> String {
    let parts = show_mass_parts(kg, system)
        .into_iter()
        .map(|(number, unit)| format!("{number} {unit}"));
    parts.collect::<Vec<_>>().join(" ")
}

/// The mass `kg` in parts, each a number and its unit, for setting the number larger than the unit.
///
/// Metric: kilograms to the gram from 1 kg up, below that whole grams, below 100 g tenths. Imperial: pounds and
/// tenths of an ounce, below one pound the ounces alone. A minus stands before the first part.
pub fn show_mass_parts(kg: f64, system: System) -> Vec<(String, &'static str)> {
    match system {
        System::Metric => {
            let grams = kg * GRAMS_PER_KG;
            if grams.abs().round() >= LEAST_SHOWN_KG_IN_GRAMS {
                vec![(with_minus(fixed(kg, SHOWN_DECIMALS_KG)), "kg")]
            } else {
                // Compared as it will be shown, or 99.96 g would read 100.0 g.
                let shown_tenths = (grams.abs() * 10.0).round();
                let decimals = usize::from(shown_tenths < TENTHS_BELOW_GRAMS * 10.0);
                let number = format!("{grams:.decimals$}");
                vec![(
                    if number == "-0.0" {
                        "0.0".to_owned()
                    } else {
                        with_minus(number)
                    },
                    "g",
                )]
            }
        }
        System::Imperial => {
            let (sign, pounds, ounces) = pounds_and_ounces(kg, |ounces| format!("{ounces:.1}"));
            if pounds == 0.0 {
                vec![(with_minus(format!("{sign}{ounces}")), "oz")]
            } else {
                vec![
                    (with_minus(format!("{sign}{}", trimmed(pounds, 0))), "lb"),
                    (ounces, "oz"),
                ]
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::KG_PER_POUND;

    #[test]
    fn a_length_is_shown_as_a_person_reads_it() {
        for (length, metric, imperial) in [
            (Length::mm(58.0), "58", "2.283"),
            (Length::mm(57.15), "57.15", "2 1/4"),
            (Length::mm(57.1509), "57.15", "2 1/4"),
            (Length::mm(57.1511), "57.15", "2.250"),
            (Length::inches(0.5), "12.7", "1/2"),
            (Length::inches(-0.015625), "−0.4", "−1/64"),
            (Length::mm(-0.001), "0", "0"),
            (Length::mm(0.0), "0", "0"),
            (Length::mm(1234.5678), "1234.57", "48.605"),
        ] {
            assert_eq!(show_length(length, System::Metric), metric, "{length}");
            assert_eq!(show_length(length, System::Imperial), imperial, "{length}");
        }
    }

    #[test]
    fn a_mass_is_shown_as_a_person_reads_it() {
        for (kg, metric, imperial) in [
            (1.198, "1.198 kg", "2 lb 10.3 oz"),
            (2.5 * KG_PER_POUND, "1.134 kg", "2 lb 8.0 oz"),
            (0.85, "850 g", "1 lb 14.0 oz"),
            (0.9996, "1.000 kg", "2 lb 3.3 oz"),
            (0.9994, "999 g", "2 lb 3.3 oz"),
            (0.0124, "12.4 g", "0.4 oz"),
            (-0.0124, "−12.4 g", "−0.4 oz"),
            (0.09996, "100 g", "3.5 oz"),
            (-0.00001, "0.0 g", "0.0 oz"),
            (0.0, "0.0 g", "0.0 oz"),
            (-1.198, "−1.198 kg", "−2 lb 10.3 oz"),
        ] {
            assert_eq!(show_mass(kg, System::Metric), metric, "{kg}");
            assert_eq!(show_mass(kg, System::Imperial), imperial, "{kg}");
        }
        let parts = show_mass_parts(2.5 * KG_PER_POUND, System::Imperial);
        assert_eq!(parts, [("2".to_owned(), "lb"), ("8.0".to_owned(), "oz")]);
    }
}
