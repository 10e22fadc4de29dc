//! What can be wrong with a drifting, each a sentence with the value and the limit.

use std::fmt;

use thiserror::Error;

use crate::bar::Limit;
use crate::design::refused_length;
use crate::plan::HotError;
use crate::units::{Length, MM_PER_INCH, Measure, System, show_number, unit_word};

/// Length and width of the opening before drifting, mm.
pub const OPENING_MM: Limit = Limit {
    least: 0.5,
    most: 150.0,
};
/// Length and width of a drift of one's own, mm.
pub const DRIFT_MM: Limit = Limit {
    least: 2.0,
    most: 100.0,
};
/// Taper of a drift of one's own: mm of length, and of width, for every mm towards the tip.
pub const TAPER: Limit = Limit {
    least: 0.0,
    most: 1.0,
};
/// The most by which one drift may multiply a size.
pub const RATIO: Limit = Limit {
    least: 1.05,
    most: 4.0,
};
/// The most that one drift may open the width of a slit, mm.
pub const STEP_MM: Limit = Limit {
    least: 1.0,
    most: 50.0,
};
/// Room between the punch and the bolster's hole, on each side, mm.
pub const CLEARANCE_MM: Limit = Limit {
    least: 0.0,
    most: 20.0,
};
/// Width of the piece across the eye while it is drifted, mm.
pub const OUTER_MM: Limit = Limit {
    least: 8.0,
    most: 300.0,
};
/// The most drifts of a series, and of one's own.
pub const MOST_DRIFTS: usize = 12;

/// Why no drifts can be worked out. Written as a sentence; [`DriftError::sentence`] says it in the units that the smith
/// reads.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum DriftError {
    /// A heat that the growth of steel is not known for.
    Heat(HotError),
    /// A length out of bounds.
    Size {
        /// What it is the size of, as a sentence begins.
        what: &'static str,
        /// Its value.
        value: Length,
        /// What it may be.
        limit: Limit,
    },
    /// A size of one of the smith's own drifts.
    OwnSize {
        /// The drift, counted from 1 as they are listed.
        number: usize,
        /// "length" or "width".
        size: &'static str,
        /// Its value.
        value: Length,
    },
    /// The taper of one of the smith's own drifts.
    OwnTaper {
        /// The drift, counted from 1 as they are listed.
        number: usize,
        /// Its value.
        value: f64,
    },
    /// More drifts of one's own than are kept.
    TooManyOwn {
        /// How many there are.
        count: usize,
    },
    /// A series of no drifts, or of too many.
    Count {
        /// How many were asked for.
        count: u8,
    },
    /// The most that a drift may multiply a size by.
    Ratio {
        /// Its value.
        value: f64,
    },
    /// Steps so small that the series would be too long.
    TooManyNeeded {
        /// How many would be needed.
        needed: usize,
    },
    /// An opening that is wider than long.
    WiderThanLong {
        /// Its length.
        length: Length,
        /// Its width.
        width: Length,
    },
    /// An opening larger than the eye.
    LargerThanEye {
        /// "long" or "wide".
        across: &'static str,
        /// Its value.
        value: Length,
        /// The hot eye's least.
        eye_mm: f64,
    },
    /// A slit whose rim is longer than the waist's.
    SlitTooLong {
        /// Its length.
        length: Length,
        /// Its perimeter.
        rim_mm: f64,
        /// The hot waist's perimeter.
        waist_mm: f64,
        /// The longest slit of its width.
        most_mm: f64,
    },
    /// A bolster's hole that the cheeks do not cover.
    Bolster {
        /// "long" or "wide".
        across: &'static str,
        /// The hole's size.
        hole_mm: f64,
        /// The cheeks' size.
        cheeks_mm: f64,
        /// The clearance on each side.
        clearance: Length,
    },
}

impl DriftError {
    /// The sentence, with lengths in the units of `system`.
    pub fn sentence(&self, system: System) -> String {
        let length = |length: Length| Measure::from(length).words(system);
        let mm = |mm: f64| length(Length::mm(mm));
        let between = |limit: Limit| {
            format!(
                "at least {} and at most {}",
                mm(limit.least),
                mm(limit.most)
            )
        };
        match self {
            Self::Heat(error) => error.to_string(),
            Self::Size { what, value, limit } => {
                format!(
                    "{what} is {}. It must be {}.",
                    refused_length(value.in_mm(), *limit, system),
                    between(*limit)
                )
            }
            Self::OwnSize {
                number,
                size,
                value,
            } => format!(
                "Drift {number}: its {size} is {}. It must be {}.",
                refused_length(value.in_mm(), DRIFT_MM, system),
                between(DRIFT_MM)
            ),
            Self::OwnTaper { number, value } => format!(
                "Drift {number}: its taper is {} {unit} for every {unit}. It must be at least {} and at most {}.",
                show_number(*value),
                TAPER.least,
                TAPER.most,
                unit = unit_word(system)
            ),
            Self::TooManyOwn { count } => {
                format!("{count} drifts are listed. List at most {MOST_DRIFTS}.")
            }
            Self::Count { count } => format!(
                "The series has {count} drifts. It must have at least 1 and at most {MOST_DRIFTS}."
            ),
            Self::Ratio { value } => format!(
                "The most growth of one drift is {} times. It must be at least {} and at most {} times.",
                show_number(*value),
                RATIO.least,
                RATIO.most
            ),
            Self::TooManyNeeded { needed } => format!(
                "From the opening to the eye {needed} drifts are needed, more than {MOST_DRIFTS}. Begin with a larger opening or let each drift open more."
            ),
            Self::WiderThanLong {
                length: long,
                width,
            } => format!(
                "The opening is {} long and {} wide. Its length must be at least its width.",
                length(*long),
                length(*width)
            ),
            Self::LargerThanEye {
                across,
                value,
                eye_mm,
            } => format!(
                "The opening is {} {across}, but the eye only {} at its narrowest, hot. Begin with a smaller opening.",
                length(*value),
                mm(*eye_mm)
            ),
            Self::SlitTooLong {
                length: long,
                rim_mm,
                waist_mm,
                most_mm,
            } => format!(
                "The slit is {} long: bent open, its rim of {} makes an eye larger than the hot waist’s {}. Cut a slit of at most {}.",
                length(*long),
                mm(*rim_mm),
                mm(*waist_mm),
                mm(rounded_down(*most_mm, system))
            ),
            Self::Bolster {
                across,
                hole_mm,
                cheeks_mm,
                clearance,
            } => format!(
                "The hole of the bolster would be {} {across} (the punch and {} on each side), but the cheeks are only {} {across} and would fall in. Use a smaller punch or less clearance.",
                mm(*hole_mm),
                length(*clearance),
                mm(*cheeks_mm)
            ),
        }
    }
}

impl From<HotError> for DriftError {
    fn from(error: HotError) -> Self {
        Self::Heat(error)
    }
}

impl fmt::Display for DriftError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(System::Metric))
    }
}

/// `mm` down to the hundredth of a millimetre or the thousandth of an inch.
fn rounded_down(mm: f64, system: System) -> f64 {
    let division = match system {
        System::Metric => 0.01,
        System::Imperial => 0.001 * MM_PER_INCH,
    };
    (mm / division).floor() * division
}
