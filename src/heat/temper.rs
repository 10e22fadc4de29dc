//! What tempering leaves of the hardness.
//!
//! Time and temperature act together, as the parameter of Hollomon and Jaffe, P = T (20 + log₁₀ t) / 1000 with T in kelvin and t
//! in hours: soaks of one P leave one hardness. For each grade the hardness of tempered martensite is a cubic in P − 13,
//! our own fit to hardnesses after two hours.
//!
//! # Accuracy
//! [`UNCERTAINTY_HRC`] either way: the fits leave at most 3 HRC of the values that they were made from, and published
//! sources differ by as much.
//!
//! # Source
//! J. H. Hollomon and L. D. Jaffe, Time-temperature relations in tempering steel, Trans. AIME 162 (1945) 223–249, with the constant 20
//! as steelmakers quote it. Hardnesses after two hours: typical values of ASM Handbook vol. 4 (from memory) for carbon and alloy
//! steels, 5160 also as smiths’ pages quote a dealer; W from a textbook’s plate of W2; S7 from a steel maker's data sheet; H13 from
//! memory.

use super::grade::Grade;
use crate::bar::Limit;
use crate::numeric::roots::sign_change;

/// How far a hardness may lie off, HRC.
pub const UNCERTAINTY_HRC: f64 = 3.0;
/// The range in which carbon and low-alloy steels get brittle, °C (from memory, generally known).
pub const EMBRITTLEMENT: Limit = Limit {
    least: 230.0,
    most: 370.0,
};
/// Kelvin at 0 °C.
const KELVIN: f64 = 273.15;
/// The constant of the parameter, with hours.
const CONSTANT: f64 = 20.0;
/// The parameter that the fits count from.
const MIDDLE: f64 = 13.0;

/// Source of the tempered hardness.
pub const SOURCE: &str = "Hollomon and Jaffe, Trans. AIME 162 (1945) 223–249; curve fitted to typical hardnesses after two hours, most from memory; an estimate, ± 3 HRC";

/// Hollomon and Jaffe's parameter.
pub fn parameter(celsius: f64, hours: f64) -> f64 {
    (celsius + KELVIN) * (CONSTANT + hours.log10()) / 1000.0
}

/// The temperature, °C, at which `hours` have this parameter.
pub fn celsius_of(parameter: f64, hours: f64) -> f64 {
    1000.0 * parameter / (CONSTANT + hours.log10()) - KELVIN
}

/// The one soak at `celsius`, hours, that does what `soaks` (temperature in °C, hours) do one after the other: each is
/// turned into its equivalent there, and these add.
pub fn equivalent_hours(celsius: f64, soaks: &[(f64, f64)]) -> f64 {
    let each = soaks.iter().map(|&(at, hours)| {
        let log = 1000.0 * parameter(at, hours) / (celsius + KELVIN) - CONSTANT;
        10.0_f64.powf(log)
    });
    each.sum()
}

/// The curve of a grade.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Curve {
    /// Of (P − 13)⁰, ¹, ², ³.
    cubic: [f64; 4],
    /// Between which parameters it falls and is known.
    known: Limit,
}

/// From 150 °C for an hour to 650 °C for two and a little more.
const KNOWN: Limit = Limit {
    least: 8.46,
    most: 18.9,
};

impl Curve {
    fn of(grade: Grade) -> Self {
        let cubic = match grade {
            Grade::C1045 => [42.11, -3.251, -0.028, -0.016],
            Grade::C1060 => [44.25, -3.379, 0.156, -0.012],
            Grade::C1075 => [45.02, -2.973, 0.219, -0.020],
            Grade::C1080 | Grade::C1084 => [45.54, -2.710, 0.218, -0.019],
            Grade::A4140 => [47.92, -2.927, -0.167, 0.019],
            Grade::A4340 => [48.05, -2.252, -0.140, -0.003],
            Grade::A5160 => [48.50, -3.815, -0.101, 0.023],
            Grade::W1 | Grade::W2 => [49.49, -3.323, 0.105, 0.007],
            Grade::S7 => [53.56, -0.391, 0.002, -0.046],
            Grade::H13 => [39.09, 10.342, -1.844, 0.0],
        };
        let least = match grade {
            // It grows harder up to here.
            Grade::H13 => 15.85,
            _ => KNOWN.least,
        };
        Self {
            cubic,
            known: Limit { least, ..KNOWN },
        }
    }

    fn at(&self, parameter: f64) -> f64 {
        let x = parameter - MIDDLE;
        self.cubic.iter().rev().fold(0.0, |sum, c| sum * x + c)
    }
}

/// Hardness of tempered martensite, HRC; nothing beyond what the curve is known for. A soak too mild for the curve leaves
/// what its beginning says.
pub fn hardness(grade: Grade, celsius: f64, hours: f64) -> Option<f64> {
    let curve = Curve::of(grade);
    let parameter = parameter(celsius, hours);
    (parameter <= curve.known.most).then(|| curve.at(parameter.max(curve.known.least)))
}

/// The greatest and the least hardness that tempering leaves, HRC.
pub fn reach(grade: Grade) -> Limit {
    let curve = Curve::of(grade);
    Limit {
        least: curve.at(curve.known.most),
        most: curve.at(curve.known.least),
    }
}

/// The temperature, °C, at which `hours` leave `hrc`; nothing outside [`reach`].
pub fn celsius_for(grade: Grade, hrc: f64, hours: f64) -> Option<f64> {
    let curve = Curve::of(grade);
    let at = sign_change(curve.known.least, curve.known.most, |p| curve.at(p) - hrc)?;
    Some(celsius_of(at, hours))
}

/// Oxide colours on bright steel after some minutes, each from its temperature, °C, to the next (from memory; they run on with
/// time, so after a two-hour soak the same heat shows a later colour).
pub const COLOURS: [(f64, &str); 9] = [
    (205.0, "faint straw"),
    (225.0, "straw"),
    (245.0, "dark straw"),
    (255.0, "brown"),
    (270.0, "purple"),
    (290.0, "dark blue"),
    (310.0, "blue"),
    (330.0, "grey-blue"),
    (360.0, "grey"),
];

/// The colour that bright steel takes at `celsius`; nothing below the first.
pub fn colour(celsius: f64) -> Option<&'static str> {
    let reached = COLOURS.iter().rev().find(|(from, _)| celsius >= *from);
    reached.map(|(_, colour)| *colour)
}
