//! What is kept of one entry in one place.

use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;

use super::entry::{Entry, EntryWritten, Unread};
use super::error::RackError;
use super::work::mark;
use crate::design::short_fault;

/// The newest version of a slip, and of a work's note.
pub const VERSION: u64 = 1;

/// An entry as it is kept, with what the next that comes must know.
#[derive(Clone, Debug, PartialEq)]
pub struct Slip {
    /// The entry.
    pub entry: Entry,
    /// What its design's text was marked when it was kept: whoever brings another state says which it came from.
    pub mark: String,
    /// Whether it was taken off the rack; it goes for good only when that can no longer be undone.
    pub removed: bool,
}

#[derive(Serialize)]
struct SlipWritten<'a> {
    version: u64,
    mark: &'a str,
    removed: bool,
    entry: EntryWritten<'a>,
}

#[derive(Deserialize)]
struct Versioned {
    version: u64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SlipRead<'a> {
    #[serde(rename = "version")]
    _version: u64,
    mark: String,
    removed: bool,
    #[serde(borrow)]
    entry: &'a RawValue,
}

impl Slip {
    /// `entry` on the rack.
    #[inline]
    pub fn new(entry: Entry) -> Self {
        Self {
            mark: mark(&entry.design.to_json()),
            entry,
            removed: false,
        }
    }

    /// The text that is kept.
    #[inline]
    pub fn to_json(&self) -> String {
        let written = SlipWritten {
            version: VERSION,
            mark: &self.mark,
            removed: self.removed,
            entry: self.entry.to_written(""),
        };
        // Nothing in it has a key that is no text.
        serde_json::to_string(&written).unwrap_or_default()
    }

    /// Reads a kept text.
    ///
    /// # Errors
    /// The text as it stands, with the reason.
    #[inline]
    pub fn from_json(text: &str) -> Result<Self, Unread> {
        let unread = |reason: RackError| Unread::new(text, &reason);
        let fault = |error: serde_json::Error| {
            unread(RackError::Fault {
                line: error.line(),
                fault: short_fault(&error),
            })
        };
        let Versioned { version } = serde_json::from_str(text).map_err(fault)?;
        if version > VERSION {
            return Err(unread(RackError::Newer {
                version,
                reads: VERSION,
            }));
        }
        let read: SlipRead = serde_json::from_str(text).map_err(fault)?;
        let entry = Entry::read(read.entry.get()).map_err(|part| Unread {
            text: text.to_owned(),
            ..part
        })?;
        Ok(Self {
            entry,
            mark: read.mark,
            removed: read.removed,
        })
    }
}
