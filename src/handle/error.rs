//! What can be wrong with a handle, each a sentence with the value and the limit.

use std::fmt;

use crate::bar::Limit;
use crate::design::{length_in_words, refused_length};
use crate::units::{System, show_number};

/// Length over all, mm.
pub const LENGTH_MM: Limit = Limit {
    least: 150.0,
    most: 1200.0,
};
/// Depth and width of a station, mm: from the least eye to the largest.
pub const STATION_MM: Limit = Limit {
    least: 4.0,
    most: 90.0,
};
/// How far the tongue stands out of the upper mouth, mm.
pub const PROUD_MM: Limit = Limit {
    least: 0.0,
    most: 20.0,
};
/// Depth of the kerf, mm.
pub const KERF_DEPTH_MM: Limit = Limit {
    least: 2.0,
    most: 200.0,
};
/// Width of the kerf, mm.
pub const KERF_WIDTH_MM: Limit = Limit {
    least: 0.5,
    most: 10.0,
};
/// Length of the wedge, mm.
pub const WEDGE_LENGTH_MM: Limit = Limit {
    least: 1.5,
    most: 200.0,
};
/// Thickness of the wedge at its thick end, mm.
pub const WEDGE_THICK_MM: Limit = Limit {
    least: 0.5,
    most: 60.0,
};
/// By how much wood and wedge may be wider than the upper mouth, mm.
pub const CRUSH_MM: Limit = Limit {
    least: 0.0,
    most: 3.0,
};
/// Length of the cross wedge, mm.
pub const CROSS_LENGTH_MM: Limit = Limit {
    least: 2.0,
    most: 100.0,
};
/// Thickness of the cross wedge at its thick end, mm.
pub const CROSS_THICK_MM: Limit = Limit {
    least: 0.5,
    most: 15.0,
};
/// Width of the cross wedge, mm.
pub const CROSS_WIDTH_MM: Limit = Limit {
    least: 2.0,
    most: 60.0,
};
/// Moisture of the wood, percent of its dry mass: from the driest room to the limit below which wood does not rot
/// (common practice, no source).
pub const MOISTURE_PERCENT: Limit = Limit {
    least: 4.0,
    most: 20.0,
};
/// Specific gravity of a wood of one's own: from the lightest wood to the heaviest (common practice, no source).
pub const SPECIFIC_GRAVITY: Limit = Limit {
    least: 0.1,
    most: 1.4,
};
/// The least length of handle outside the head, mm: room for a hand. The breadth of a hand is at most 96 mm in 95 of
/// 100 men (computed from the raw data of ANSUR II, NATICK/TR-15/007, 2014).
pub const LEAST_STEM_MM: f64 = 110.0;
/// What the kerf leaves of the tongue on each side at least, mm (common practice, no source).
pub const LEAST_WOOD_MM: f64 = 1.0;
/// The most stations.
pub const MOST_STATIONS: usize = 12;
/// The longest name of a wood, in characters.
pub const LONGEST_WOOD_NAME: usize = 40;

/// Why a handle cannot be made. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub enum HandleError {
    /// A length out of bounds.
    Size {
        /// What it is the size of, as a sentence begins.
        what: &'static str,
        /// Its value.
        mm: f64,
        /// What it may be.
        limit: Limit,
    },
    /// A size of a station out of bounds.
    StationSize {
        /// The station, counted from 1 at the butt.
        number: usize,
        /// "depth" or "width".
        size: &'static str,
        /// Its value.
        mm: f64,
    },
    /// A station that does not lie on the handle.
    StationPlace {
        /// The station, counted from 1 at the butt.
        number: usize,
        /// From the butt.
        mm: f64,
        /// Length of the handle over all.
        length_mm: f64,
    },
    /// A station that does not lie beyond the one before it.
    StationOrder {
        /// The station, counted from 1 at the butt.
        number: usize,
        /// From the butt.
        mm: f64,
        /// Where the one before lies.
        before_mm: f64,
    },
    /// No stations, or too many.
    StationCount {
        /// How many there are.
        count: usize,
    },
    /// Too little handle outside the head.
    TooShort {
        /// Length over all.
        length_mm: f64,
        /// What of it is outside the head.
        stem_mm: f64,
        /// What the length must be at least.
        least_mm: f64,
    },
    /// A hand that does not lie on the handle.
    Grip {
        /// From the butt to its middle.
        mm: f64,
        /// From the butt to the lower mouth.
        stem_mm: f64,
    },
    /// The wood's moisture out of bounds.
    Moisture {
        /// Its value.
        percent: f64,
    },
    /// The specific gravity of a wood of one's own out of bounds.
    SpecificGravity {
        /// What is made of it: "handle" or "wedge".
        of: &'static str,
        /// Its value.
        value: f64,
    },
    /// A wood of one's own without a name, or with too long a one.
    WoodName {
        /// What is made of it: "handle" or "wedge".
        of: &'static str,
    },
    /// A kerf, a wedge or a cross wedge that goes deeper than the tongue.
    TooDeep {
        /// Which, as a sentence begins.
        what: &'static str,
        /// How deep it goes.
        mm: f64,
        /// Depth of the eye and what the tongue stands out of it.
        tongue_mm: f64,
    },
    /// A kerf that leaves too little of the tongue.
    KerfTooWide {
        /// Its width.
        mm: f64,
        /// Width of the tongue.
        tongue_mm: f64,
    },
    /// A wedge, and nothing to drive it into.
    NoKerf,
    /// A wedge that is longer than the kerf is deep.
    WedgeTooLong {
        /// Its length.
        mm: f64,
        /// Depth of the kerf.
        kerf_mm: f64,
    },
    /// A wedge that does not reach into the eye.
    WedgeTooShort {
        /// Its length.
        mm: f64,
        /// How far the tongue stands out of the eye.
        proud_mm: f64,
    },
    /// A wedge or a cross wedge that is as thick at its end as the upper mouth is open.
    TooThick {
        /// Which, as a sentence begins.
        what: &'static str,
        /// Its greatest thickness.
        mm: f64,
        /// The eye's width, for a cross wedge its length.
        eye_mm: f64,
    },
    /// A cross wedge that is wider than the tongue.
    CrossTooWide {
        /// Its width.
        mm: f64,
        /// Width of the tongue.
        tongue_mm: f64,
    },
}

impl HandleError {
    /// The sentence, with lengths in the units of `system`.
    pub fn sentence(&self, system: System) -> String {
        let show = |mm: f64| {
            if mm.is_finite() {
                length_in_words(mm, system)
            } else {
                number(mm, "")
            }
        };
        let refused = |mm: f64, limit: Limit| {
            if mm.is_finite() {
                refused_length(mm, limit, system)
            } else {
                number(mm, "")
            }
        };
        let within = |limit: &Limit| {
            format!(
                "It must be at least {} and at most {}.",
                show(limit.least),
                show(limit.most)
            )
        };
        match self {
            Self::Size { what, mm, limit } => {
                format!("{what} is {}. {}", refused(*mm, *limit), within(limit))
            }
            Self::StationSize { number, size, mm } => format!(
                "Station {number} of the handle: its {size} is {}. {}",
                refused(*mm, STATION_MM),
                within(&STATION_MM)
            ),
            Self::StationPlace {
                number,
                mm,
                length_mm,
            } => format!(
                "Station {number} of the handle lies {} from the butt. It must lie on the handle, which is {} long.",
                show(*mm),
                show(*length_mm)
            ),
            Self::StationOrder {
                number,
                mm,
                before_mm,
            } => format!(
                "Station {number} of the handle lies {} from the butt, not beyond the one before it at {}. List the \
                 stations from the butt to the head.",
                show(*mm),
                show(*before_mm)
            ),
            Self::StationCount { count } => format!(
                "The handle has {count} stations. It must have at least 1 and at most {MOST_STATIONS}."
            ),
            Self::TooShort {
                length_mm,
                stem_mm,
                least_mm,
            } => format!(
                "The handle is {} long, of which {} are outside the head: too little for a hand, which needs {}. Make \
                 it at least {} long.",
                show(*length_mm),
                show(stem_mm.max(0.0)),
                show(LEAST_STEM_MM),
                show(*least_mm)
            ),
            Self::Grip { mm, stem_mm } => format!(
                "The middle of the grip lies {} from the butt. It must lie between the butt and the lower mouth of the \
                 eye, {} from it.",
                show(*mm),
                show(*stem_mm)
            ),
            Self::Moisture { percent } => format!(
                "The wood’s moisture is {}. It must be at least {} % and at most {} %.",
                number(*percent, " %"),
                show_number(MOISTURE_PERCENT.least),
                show_number(MOISTURE_PERCENT.most)
            ),
            Self::SpecificGravity { of, value } => format!(
                "The specific gravity of the {of}’s wood is {}. It must be at least {} and at most {}.",
                number(*value, ""),
                show_number(SPECIFIC_GRAVITY.least),
                show_number(SPECIFIC_GRAVITY.most)
            ),
            Self::WoodName { of } => format!(
                "The {of}’s wood must have a name of at least 1 and at most {LONGEST_WOOD_NAME} characters."
            ),
            Self::TooDeep {
                what,
                mm,
                tongue_mm,
            } => format!(
                "{what} goes {} deep, deeper than the tongue of {} in the eye. Make it shallower.",
                show(*mm),
                show(*tongue_mm)
            ),
            Self::KerfTooWide { mm, tongue_mm } => format!(
                "The kerf is {} wide and the tongue {}. The kerf must leave at least {} of wood on each side.",
                show(*mm),
                show(*tongue_mm),
                show(LEAST_WOOD_MM)
            ),
            Self::NoKerf => {
                "There is a wedge but no kerf. Saw a kerf for it or leave the wedge out.".to_owned()
            }
            Self::WedgeTooLong { mm, kerf_mm } => format!(
                "The wedge is {} long but the kerf only {} deep: it would strike its bottom. Shorten the wedge or saw \
                 deeper.",
                show(*mm),
                show(*kerf_mm)
            ),
            Self::WedgeTooShort { mm, proud_mm } => format!(
                "The wedge is {} long and the tongue stands out {}: the wedge must reach at least {} into the eye.",
                show(*mm),
                show(*proud_mm),
                show(WEDGE_LENGTH_MM.least)
            ),
            Self::TooThick { what, mm, eye_mm } => format!(
                "{what} is {} thick at its end and the upper mouth only {} open. Take a thinner or a longer one, or let the \
                 tongue stand out less.",
                show(*mm),
                show(*eye_mm)
            ),
            Self::CrossTooWide { mm, tongue_mm } => format!(
                "The cross wedge is {} wide but the tongue only {}. Make it narrower.",
                show(*mm),
                show(*tongue_mm)
            ),
        }
    }
}

fn number(value: f64, unit: &str) -> String {
    if value.is_finite() {
        format!("{}{unit}", show_number(value))
    } else {
        "not a number".to_owned()
    }
}

impl fmt::Display for HandleError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(System::Metric))
    }
}

impl std::error::Error for HandleError {}
