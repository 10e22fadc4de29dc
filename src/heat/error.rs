//! What can be wrong with a heat treatment, each a sentence with the value and the limit.

use std::fmt;

use super::composition::Element;
use super::grade::Grade;
use super::quench::Medium;
use crate::bar::Limit;
use crate::units::{System, show_about_temperature, show_number, show_temperature};

/// An oven's heat for tempering, °C.
pub const TEMPER_CELSIUS: Limit = Limit {
    least: 100.0,
    most: 650.0,
};
/// A soak, hours.
pub const SOAK_HOURS: Limit = Limit {
    least: 0.25,
    most: 24.0,
};
/// How often a head is tempered at most.
pub const MOST_TEMPERS: u8 = 3;
/// A hardness that may be asked for, HRC: below 20 the scale ends.
pub const WANTED_HRC: Limit = Limit {
    least: 20.0,
    most: 68.0,
};
/// Carbon of a steel, percent: with less it does not harden, with more it is cast iron.
pub const CARBON_PERCENT: Limit = Limit {
    least: 0.10,
    most: 2.10,
};

/// The most of all elements but iron, percent: H13 comes near to 10 %.
pub const MOST_ALLOY_PERCENT: f64 = 15.0;

/// What of a heat treatment an error is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeatPart {
    /// Grade and analysis.
    Steel,
    /// Medium, agitation and bath.
    Quench,
    /// Hardness or temperature, soak.
    Temper,
}

/// Why there is no plan. Written as a sentence in °C; [`HeatError::sentence`] says it in the units that the smith reads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum HeatError {
    /// A share of an element that is none.
    Percent {
        /// The element.
        element: Element,
        /// The share.
        percent: f64,
    },
    /// An analysis of more than everything.
    Sum {
        /// Its sum, percent.
        percent: f64,
    },
    /// An analysis of more alloy than any of these steels has.
    Alloy {
        /// Everything but iron, percent.
        percent: f64,
    },
    /// An analysis of a steel that is likely to crack in the quench, whatever the grade is called.
    AnalysisCracks {
        /// The medium.
        medium: Medium,
        /// The element that says so.
        element: Element,
        /// Its share, percent.
        percent: f64,
    },
    /// Carbon of no steel.
    Carbon {
        /// The share.
        percent: f64,
    },
    /// A bath too cold or too warm.
    Bath {
        /// Of what.
        medium: Medium,
        /// Its temperature, °C.
        celsius: f64,
    },
    /// A quench that the grade is likely to crack in.
    Cracks {
        /// The grade.
        grade: Grade,
        /// The medium.
        medium: Medium,
    },
    /// A quench that the grade does not harden in.
    StaysSoft {
        /// The grade.
        grade: Grade,
        /// The medium.
        medium: Medium,
    },
    /// A jet of oil.
    OilJet,
    /// A temper above Ac1.
    AboveAc1 {
        /// Its temperature, °C.
        celsius: f64,
        /// Ac1, or where most steels have it.
        ac1_celsius: f64,
        /// The hottest temper that is safely below it, °C.
        most_celsius: f64,
    },
    /// A temper outside its limits.
    Temper {
        /// Its temperature, °C.
        celsius: f64,
    },
    /// A soak outside its limits.
    Soak {
        /// Hours.
        hours: f64,
    },
    /// Too many tempers, or none.
    Times {
        /// How many.
        times: u8,
    },
    /// A wanted hardness that is none.
    Wanted {
        /// The hardness, HRC.
        hrc: f64,
    },
    /// A wanted hardness that a temper of the grade does not leave.
    OutOfReach {
        /// The grade.
        grade: Grade,
        /// The wanted hardness, HRC.
        hrc: f64,
        /// From the softest to the hardest that is known, HRC.
        reach: Limit,
    },
    /// A temper beyond what is known of the grade.
    Unknown {
        /// The grade.
        grade: Grade,
        /// Its temperature, °C.
        celsius: f64,
        /// How long in all.
        hours: f64,
    },
}

/// A number with at most two decimals.
pub(super) fn hundredths(value: f64) -> String {
    show_number((value * 100.0).round() / 100.0)
}

impl HeatError {
    /// What it is about.
    pub const fn part(&self) -> HeatPart {
        match self {
            Self::Percent { .. } | Self::Sum { .. } | Self::Alloy { .. } | Self::Carbon { .. } => {
                HeatPart::Steel
            }
            Self::Bath { .. }
            | Self::Cracks { .. }
            | Self::AnalysisCracks { .. }
            | Self::StaysSoft { .. }
            | Self::OilJet => HeatPart::Quench,
            Self::AboveAc1 { .. }
            | Self::Temper { .. }
            | Self::Soak { .. }
            | Self::Times { .. }
            | Self::Wanted { .. }
            | Self::OutOfReach { .. }
            | Self::Unknown { .. } => HeatPart::Temper,
        }
    }

    /// The sentence, with temperatures in the units of `system`.
    pub fn sentence(&self, system: System) -> String {
        let degrees = |celsius: f64| show_temperature(celsius, system);
        match *self {
            Self::Percent { element, percent } => format!(
                "The analysis says {} % {}; it must be at least 0 % and at most 100 %.",
                hundredths(percent),
                element.name()
            ),
            Self::Sum { percent } => format!(
                "The analysis adds up to {} %, more than 100 %. Look at the decimal points.",
                hundredths(percent)
            ),
            Self::Alloy { percent } => format!(
                "The analysis says {} % of other elements than iron, more than the {MOST_ALLOY_PERCENT} % that any of these steels has. Look at the decimal points.",
                hundredths(percent)
            ),
            Self::AnalysisCracks {
                medium,
                element,
                percent,
            } => format!(
                "The analysis says {} % {}, as oil-hardening steels have it: such a steel is likely to crack in {}. Quench it in oil, and choose the grade that it is of.",
                hundredths(percent),
                element.name(),
                medium.name()
            ),
            Self::Carbon { percent } => format!(
                "The analysis says {} % carbon. A steel that hardens has at least {} % and at most {} %.",
                hundredths(percent),
                CARBON_PERCENT.least,
                CARBON_PERCENT.most
            ),
            Self::Bath { medium, celsius } => {
                let Limit { least, most } = medium.bath_celsius();
                format!(
                    "The {} is at {}; it must be at least {} and at most {} when the head goes in.",
                    medium.name(),
                    degrees(celsius),
                    degrees(least),
                    degrees(most)
                )
            }
            Self::Cracks { grade, medium } => format!(
                "{} is likely to crack in {}. Quench it in {}.",
                grade.name(),
                medium.name(),
                grade.practice().medium.name()
            ),
            Self::StaysSoft { grade, medium } => format!(
                "{} does not get hard enough in {}. Quench it in {}.",
                grade.name(),
                medium.name(),
                grade.practice().medium.name()
            ),
            Self::OilJet => {
                "A jet throws burning oil about. Move the head hard in oil at most.".to_owned()
            }
            Self::AboveAc1 {
                celsius,
                ac1_celsius,
                most_celsius,
            } => format!(
                "A temper at {} lies above Ac1, about {}: the steel would turn to austenite again. Temper at {} at most.",
                degrees(celsius),
                show_about_temperature(ac1_celsius, system),
                show_about_temperature(most_celsius, system)
            ),
            Self::Temper { celsius } => format!(
                "A temper at {} is not reckoned; it must be at least {} and at most {}.",
                degrees(celsius),
                degrees(TEMPER_CELSIUS.least),
                degrees(TEMPER_CELSIUS.most)
            ),
            Self::Soak { hours } => format!(
                "A soak of {} h is not reckoned; it must be at least {} h and at most {} h.",
                hundredths(hours),
                SOAK_HOURS.least,
                SOAK_HOURS.most
            ),
            Self::Times { times } => format!(
                "A head is tempered at least once and at most {MOST_TEMPERS} times, not {times} times."
            ),
            Self::Wanted { hrc } => format!(
                "A hardness of {} HRC is not reckoned; it must be at least {} HRC and at most {} HRC.",
                hundredths(hrc),
                WANTED_HRC.least,
                WANTED_HRC.most
            ),
            Self::OutOfReach { grade, hrc, reach } => format!(
                "A temper of {} leaves at least {} HRC and at most {} HRC, not {} HRC. {}",
                grade.name(),
                reach.least.round(),
                reach.most.round(),
                hundredths(hrc),
                if hrc > reach.most {
                    "Ask for less or take a steel with more carbon."
                } else {
                    "Ask for more."
                }
            ),
            Self::Unknown {
                grade,
                celsius,
                hours,
            } => format!(
                "What {} h at {} leave of {} is not known. Temper shorter or cooler.",
                hundredths(hours),
                degrees(celsius),
                grade.name()
            ),
        }
    }
}

impl fmt::Display for HeatError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(System::Metric))
    }
}

impl std::error::Error for HeatError {}
