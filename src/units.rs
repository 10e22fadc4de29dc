//! Lengths, angles, masses, densities and moments of inertia as a smith writes them.
//!
//! Which text is which quantity, and how is a quantity written? The core computes in millimetres, kilograms and
//! kg/m³ throughout; every other unit is converted here and nowhere else. A quantity
//! remembers how it was written, so that a file saved with `2 1/4 in` opens with `2 1/4 in`.
//!
//! Three ways in and out:
//!
//! - the file: [`std::fmt::Display`], [`std::str::FromStr`] and serde, full precision, the unit always written;
//! - a field on the screen: [`parse_length`] and [`parse_mass`], where a bare number takes the unit of the
//!   [`System`] in use;
//! - a number on the screen: [`show_length`] and [`show_mass`], rounded to what a person can use.
//!
//! # Source
//! The international yard and pound are defined by the agreement of 1959 as exactly 0.9144 m and 0.45359237 kg.
//!
//! # Examples
//! ```
//! use headwright::units::{Length, System, parse_length, show_length};
//!
//! let reach = parse_length("2-1/4\"", System::Metric)?;
//! assert!((reach.in_mm() - 57.15).abs() < 1e-9);
//! assert_eq!(reach.to_string(), "2 1/4 in");
//! assert_eq!(show_length(reach, System::Metric), "57.15");
//! assert_eq!("5,8 cm".parse::<Length>()?.to_string(), "5.8 cm");
//! # Ok::<(), headwright::units::UnitError>(())
//! ```

use serde::{Deserialize, Serialize};

mod amount;
mod angle;
mod density;
mod error;
mod inertia;
mod length;
mod mass;
mod measure;
mod motion;
mod ratio;
mod rule;
mod scan;
mod show;
mod temperature;
mod text;

pub use amount::Amount;
pub use angle::{Angle, parse_angle};
pub use density::Density;
pub use error::{Quantity, UnitError};
pub use inertia::{Inertia, InertiaNotation, parse_inertia};
pub use length::{Length, LengthNotation, parse_length};
pub use mass::{Mass, MassNotation, parse_mass};
pub use measure::Measure;
pub use motion::{
    M_PER_FOOT, N_PER_POUND_FORCE, STANDARD_GRAVITY, show_energy, show_impulse, show_kick,
    show_speed, show_torque, show_turning_moment, show_twist,
};
pub use ratio::parse_ratio;
pub use rule::{ROUND_UP_SLACK_MM, RULE_MAX_MM, RULE_MIN_MM, Rule};
pub use show::{
    inertia_unit_word, mass_unit_word, show_about, show_angle, show_caliper, show_inertia,
    show_length, show_mass, show_mass_parts, show_number, show_ratio, unit_word,
};
pub use temperature::{
    celsius_of_degrees, degrees, parse_temperature, show_about_temperature, show_temperature,
    show_whole_temperature, temperature_unit_word,
};
pub(crate) use text::with_minus;

/// Millimetres in an inch, exactly.
pub const MM_PER_INCH: f64 = 25.4;
/// Litres in a US gallon, exactly: 231 cubic inches.
pub const LITRES_PER_GALLON: f64 = 3.785_411_784;
/// Millimetres in a centimetre.
pub const MM_PER_CM: f64 = 10.0;
/// Kilograms in an avoirdupois pound, exactly.
pub const KG_PER_POUND: f64 = 0.453_592_37;
/// Ounces in a pound.
pub const OUNCES_PER_POUND: f64 = 16.0;
/// Kilograms in an avoirdupois ounce, exactly.
pub const KG_PER_OUNCE: f64 = KG_PER_POUND / OUNCES_PER_POUND;
/// Grams in a kilogram.
pub const GRAMS_PER_KG: f64 = 1000.0;

/// kg·mm² in one lb·in², exactly.
pub const KG_MM2_PER_LB_IN2: f64 = KG_PER_POUND * MM_PER_INCH * MM_PER_INCH;

/// What the person reads: millimetres with grams and kilograms, or inches with pounds and ounces.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum System {
    /// Millimetres, grams and kilograms.
    #[default]
    Metric,
    /// Inches in halves to sixty-fourths, pounds and ounces.
    Imperial,
}
