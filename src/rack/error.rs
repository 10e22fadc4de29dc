//! Why a text is no rack file, or no entry of one.

use super::entry::LONGEST_ID;
use super::file::{FILE_VERSION, FORMAT, MOST_BYTES};
use super::tags::TagError;
use crate::design::FileError;

/// Bytes of a megabyte.
const MEGABYTE: usize = 1_000_000;

/// Why a text is not a rack file, or an entry of one cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum RackError {
    /// Nothing but blanks.
    #[error("This is not a rack file: it is empty.")]
    Empty,
    /// Larger than any rack.
    #[error(
        "This rack file has {} MB, more than the {} MB that are read.",
        .0.div_ceil(MEGABYTE), MOST_BYTES / MEGABYTE
    )]
    TooLarge(usize),
    /// Not JSON at all, or cut off.
    #[error(
        "This is not a rack file: it is not JSON, or its end is missing (line {line}, column {column})."
    )]
    NotJson {
        /// Line of the first fault.
        line: usize,
        /// Column of the first fault.
        column: usize,
    },
    /// JSON of something else.
    #[error("This is not a rack file: its format is not “{FORMAT}”.")]
    Foreign,
    /// Written by a later program.
    #[error(
        "This was written by a newer Headwright (rack version {version}); this one reads up to version {reads}. Reload the \
         app or install the newer one."
    )]
    Newer {
        /// Its version.
        version: u64,
        /// The newest that is read.
        reads: u64,
    },
    /// A version that never was.
    #[error("This says it has rack version {0}; versions begin at 1.")]
    Version(u64),
    /// No version at all.
    #[error(
        "This rack file can’t be read: it states no version, such as \"version\": {FILE_VERSION}."
    )]
    NoVersion,
    /// The right format with a fault in it.
    #[error("This can’t be read, at or before line {line}: {fault}.")]
    Fault {
        /// Line where reading stopped.
        line: usize,
        /// What is wrong, without the full stop.
        fault: String,
    },
    /// An id that is none.
    #[error("“{0}” is no id of an entry, which has 1 to {LONGEST_ID} letters, digits and hyphens.")]
    Id(String),
    /// A time beyond the calendar.
    #[error("An entry is dated {0} ms after 1970, which is beyond the calendar.")]
    Time(u64),
    /// Tags that cannot be.
    #[error(transparent)]
    Tag(#[from] TagError),
    /// Its design cannot be read.
    #[error(transparent)]
    Design(#[from] FileError),
}
