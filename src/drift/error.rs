//! What can be wrong with a drifting, each a sentence with the value and the limit.

use thiserror::Error;

use crate::bar::Limit;
use crate::units::{Length, show_number};

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

/// Why no drifts can be worked out.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum DriftError {
    /// A length out of bounds.
    #[error("{what} is {value}. It must be at least {} mm and at most {} mm.", .limit.least, .limit.most)]
    Size {
        /// What it is the size of, as a sentence begins.
        what: &'static str,
        /// Its value.
        value: Length,
        /// What it may be.
        limit: Limit,
    },
    /// A size of one of the smith's own drifts.
    #[error(
        "Drift {number}: its {size} is {value}. It must be at least {} mm and at most {} mm.",
        DRIFT_MM.least,
        DRIFT_MM.most
    )]
    OwnSize {
        /// The drift, counted from 1 as they are listed.
        number: usize,
        /// "length" or "width".
        size: &'static str,
        /// Its value.
        value: Length,
    },
    /// The taper of one of the smith's own drifts.
    #[error(
        "Drift {number}: its taper is {} mm for every mm. It must be at least {} and at most {}.",
        show_number(*.value),
        TAPER.least,
        TAPER.most
    )]
    OwnTaper {
        /// The drift, counted from 1 as they are listed.
        number: usize,
        /// Its value.
        value: f64,
    },
    /// More drifts of one's own than are kept.
    #[error("{count} drifts are listed. List at most {MOST_DRIFTS}.")]
    TooManyOwn {
        /// How many there are.
        count: usize,
    },
    /// A series of no drifts, or of too many.
    #[error("The series has {count} drifts. It must have at least 1 and at most {MOST_DRIFTS}.")]
    Count {
        /// How many were asked for.
        count: u8,
    },
    /// The most that a drift may multiply a size by.
    #[error(
        "The most growth of one drift is {} times. It must be at least {} and at most {} times.",
        show_number(*.value),
        RATIO.least,
        RATIO.most
    )]
    Ratio {
        /// Its value.
        value: f64,
    },
    /// Steps so small that the series would be too long.
    #[error(
        "From the opening to the eye {needed} drifts are needed, more than {MOST_DRIFTS}. Begin with a larger opening or let each drift open more."
    )]
    TooManyNeeded {
        /// How many would be needed.
        needed: usize,
    },
    /// An opening that is wider than long.
    #[error(
        "The opening is {length} long and {width} wide. Its length must be at least its width."
    )]
    WiderThanLong {
        /// Its length.
        length: Length,
        /// Its width.
        width: Length,
    },
    /// An opening larger than the eye.
    #[error(
        "The opening is {value} {across}, but the eye only {} mm at its narrowest. Begin with a smaller opening.",
        show_number(*.eye_mm)
    )]
    LargerThanEye {
        /// "long" or "wide".
        across: &'static str,
        /// Its value.
        value: Length,
        /// The eye's least.
        eye_mm: f64,
    },
    /// A slit whose rim is longer than the waist's.
    #[error(
        "The slit is {length} long: bent open, its rim of {} mm makes an eye larger than the waist’s {} mm. Cut a slit of at most {} mm.",
        show_number(rounded(*.rim_mm)),
        show_number(rounded(*.waist_mm)),
        show_number(rounded_down(*.most_mm))
    )]
    SlitTooLong {
        /// Its length.
        length: Length,
        /// Its perimeter.
        rim_mm: f64,
        /// The waist's perimeter.
        waist_mm: f64,
        /// The longest slit of its width.
        most_mm: f64,
    },
    /// A bolster's hole that the cheeks do not cover.
    #[error(
        "The hole of the bolster would be {} mm {across} (the punch and {clearance} on each side), but the cheeks are only {} mm {across} and would fall in. Use a smaller punch or less clearance.",
        show_number(rounded(*.hole_mm)),
        show_number(rounded(*.cheeks_mm))
    )]
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

/// To hundredths, for a sentence.
fn rounded(mm: f64) -> f64 {
    (mm * 100.0).round() / 100.0
}

/// To hundredths and not above `mm`.
fn rounded_down(mm: f64) -> f64 {
    (mm * 100.0).floor() / 100.0
}
