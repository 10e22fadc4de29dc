//! What cannot stand in a log, and why a text is none.

use super::build::{LONGEST_STEP, MOST_EVENTS, MOST_STEPS};
use super::event::{LONGEST_NOTE, MINUTES};
use super::file::{FORMAT, MOST_BUILDS, MOST_BYTES, VERSION};
use crate::bar::Limit;
use crate::design::Dim;
use crate::units::{Measure, System, show_number};

/// Bytes of a megabyte.
const MEGABYTE: usize = 1_000_000;

/// What cannot stand in a build, each a sentence.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum LogError {
    /// An id that is none.
    #[error("“{0}” is no id, which has 1 to 60 letters, digits and hyphens.")]
    Id(String),
    /// The id of another build of the log.
    #[error("There is another build with the id “{0}”.")]
    SameId(String),
    /// A time beyond the calendar.
    #[error("Something is dated {0} ms after 1970, which is beyond the calendar.")]
    Time(u64),
    /// More steps than a build has.
    #[error("The build has {0} steps. Keep at most {MOST_STEPS}.")]
    TooManySteps(usize),
    /// Two builds of one id that cannot be one.
    #[error(
        "A build with this id stands in the log and is another, or the two hold too much together."
    )]
    Apart,
    /// A step without a name.
    #[error("Step {0} has no name. Give it one.")]
    NoName(usize),
    /// A name that is too long.
    #[error(
        "The name of step {line} has {characters} characters. Shorten it to at most {LONGEST_STEP}."
    )]
    Name {
        /// The step, counted from 1.
        line: usize,
        /// How long its name is.
        characters: usize,
    },
    /// Two steps of one id.
    #[error("Two steps have the id {0}. Give each an id of its own.")]
    Twice(u32),
    /// What a step is to take.
    #[error(
        "Step {line} is to take {} min. It must be at least {} min and at most {} min.",
        show_number(*.minutes), MINUTES.least, MINUTES.most
    )]
    Target {
        /// The step, counted from 1.
        line: usize,
        /// The minutes.
        minutes: f64,
    },
    /// More events than a build has.
    #[error("The build has {0} entries. Keep at most {MOST_EVENTS}.")]
    TooManyEvents(usize),
    /// A reading that cannot be.
    #[error(
        "Entry {entry}: {what} is {}. It must be at least {} and at most {}.",
        united(*.value, .unit), united(.limit.least, .unit), united(.limit.most, .unit)
    )]
    Reading {
        /// The entry, counted from 1.
        entry: usize,
        /// What was read.
        what: &'static str,
        /// Its value.
        value: f64,
        /// What it may be.
        limit: Limit,
        /// The unit of both.
        unit: &'static str,
    },
    /// A length for an angle, or an angle for a length.
    #[error(
        "Entry {entry}: {dim} is {}, but was measured as {}.",
        if .dim.is_angle() { "an angle" } else { "a length" },
        .size.words(System::Metric)
    )]
    Kind {
        /// The entry, counted from 1.
        entry: usize,
        /// The dimension.
        dim: Dim,
        /// What it was measured as.
        size: Measure,
    },
    /// A note that is too long.
    #[error(
        "Entry {entry}: the note has {characters} characters. Shorten it to at most {LONGEST_NOTE}."
    )]
    Note {
        /// The entry, counted from 1.
        entry: usize,
        /// How long it is.
        characters: usize,
    },
}

/// A number with its unit.
fn united(value: f64, unit: &str) -> String {
    let between = if unit == "°" { "" } else { " " };
    format!("{}{between}{unit}", show_number(value))
}

/// Why a text is no log file, or no build of one.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum LogFileError {
    /// Nothing but blanks.
    #[error("This is not a log file: it is empty.")]
    Empty,
    /// Larger than any log.
    #[error(
        "This log file has {} MB, more than the {} MB that are read.",
        .0.div_ceil(MEGABYTE), MOST_BYTES / MEGABYTE
    )]
    TooLarge(usize),
    /// Not JSON at all, or cut off.
    #[error(
        "This is not a log file: it is not JSON, or its end is missing (line {line}, column {column})."
    )]
    NotJson {
        /// Line of the first fault.
        line: usize,
        /// Column of the first fault.
        column: usize,
    },
    /// JSON of something else.
    #[error("This is not a log file: its format is not “{FORMAT}”.")]
    Foreign,
    /// Written by a later program.
    #[error(
        "This was written by a newer Headwright (log version {0}); this one reads up to version {VERSION}. Reload the \
         app or install the newer one."
    )]
    Newer(u64),
    /// A version that never was.
    #[error("This says it has log version {0}; versions begin at 1.")]
    Version(u64),
    /// No version at all.
    #[error("This log file can’t be read: it states no version, such as \"version\": {VERSION}.")]
    NoVersion,
    /// More builds than a log holds.
    #[error("This log has {0} builds, more than the {MOST_BUILDS} that a log holds.")]
    TooMany(usize),
    /// The right format with a fault in it.
    #[error("This can’t be read, at or before line {line}: {fault}.")]
    Fault {
        /// Line where reading stopped.
        line: usize,
        /// What is wrong, without the full stop.
        fault: String,
    },
    /// A build that cannot be.
    #[error(transparent)]
    Build(#[from] LogError),
}
