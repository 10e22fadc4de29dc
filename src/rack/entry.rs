//! One design on the rack, and what of a rack cannot be read.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use serde_json::value::RawValue;

use super::error::RackError;
use super::tags::checked;
use crate::design::{Design, DesignFile, short_fault};

/// The longest id, in characters.
pub const LONGEST_ID: usize = 60;
/// The latest time that an entry can bear, ms after 1970 began: the last that a browser's calendar has.
pub const LATEST: u64 = 8_640_000_000_000_000;

/// A design on the rack. Its name and its note are the design's own.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// What tells it from all others: letters, digits and hyphens.
    pub id: String,
    /// The design; may be one that cannot be made.
    pub design: Design,
    /// When it came onto the rack, ms after 1970 began, UTC.
    pub made: u64,
    /// When it was changed last, ms after 1970 began, UTC.
    pub changed: u64,
    /// Words to find it by.
    pub tags: Vec<String>,
}

/// Something that stands on the rack and cannot be read: nothing of it is lost.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unread {
    /// The name of its design, where that much can be told.
    pub name: Option<String>,
    /// Its text as it stands.
    pub text: String,
    /// Why it cannot be read, a sentence.
    pub reason: String,
}

/// An entry as it stands in a file, for the schema.
#[derive(JsonSchema)]
#[schemars(title = "Entry", deny_unknown_fields)]
#[allow(
    dead_code,
    reason = "what is written and read holds its design as a text"
)]
pub(super) struct EntryFile {
    /// What tells the entry from all others.
    #[schemars(regex(pattern = r"^[A-Za-z0-9-]{1,60}$"))]
    id: String,
    /// When it came onto the rack, ms after 1970 began, UTC.
    #[schemars(range(min = 0, max = LATEST))]
    made: u64,
    /// When it was changed last, ms after 1970 began, UTC.
    #[schemars(range(min = 0, max = LATEST))]
    changed: u64,
    /// Words to find it by.
    #[schemars(default, length(max = 12))]
    tags: Vec<String>,
    /// The design, as in a file of its own.
    design: DesignFile,
}

/// The same on its way into a text.
#[derive(Serialize)]
pub(super) struct EntryWritten<'a> {
    id: &'a str,
    made: u64,
    changed: u64,
    #[serde(skip_serializing_if = "<[String]>::is_empty")]
    tags: &'a [String],
    design: Box<RawValue>,
}

/// The same before its design is read, which has versions of its own.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct EntryRead<'a> {
    id: String,
    made: u64,
    changed: u64,
    #[serde(default)]
    tags: Vec<String>,
    #[serde(borrow)]
    design: &'a RawValue,
}

impl Entry {
    /// What is the same in two entries that say the same, whenever that was.
    pub fn says_the_same(&self, other: &Self) -> bool {
        self.design == other.design && self.tags == other.tags
    }

    /// The entry to be written, its design set in by `indent`.
    // Inlined, as all that writes and reads designs: the page's is built for size, and once.
    #[inline]
    pub(super) fn to_written(&self, indent: &str) -> EntryWritten<'_> {
        // A text in JSON has no line ends of its own.
        let design = self.design.to_json().trim_end().replace('\n', indent);
        EntryWritten {
            id: &self.id,
            made: self.made,
            changed: self.changed,
            tags: &self.tags,
            design: RawValue::from_string(design).unwrap_or_default(),
        }
    }

    /// Reads the text of an entry; what cannot be read comes back as it is.
    #[inline]
    pub(super) fn read(text: &str) -> Result<Self, Unread> {
        Self::try_read(text).map_err(|reason| Unread::new(text, &reason))
    }

    #[inline]
    fn try_read(text: &str) -> Result<Self, RackError> {
        let read: EntryRead = serde_json::from_str(text).map_err(|error| RackError::Fault {
            line: error.line(),
            fault: short_fault(&error),
        })?;
        if !is_id(&read.id) {
            return Err(RackError::Id(read.id.chars().take(LONGEST_ID).collect()));
        }
        if let Some(late) = [read.made, read.changed].into_iter().find(|t| *t > LATEST) {
            return Err(RackError::Time(late));
        }
        Ok(Self {
            tags: checked(read.tags)?,
            design: Design::from_json(read.design.get())?,
            id: read.id,
            made: read.made,
            changed: read.changed,
        })
    }
}

/// Something on its way into a file.
#[derive(Serialize)]
#[serde(untagged)]
pub(crate) enum Written<'a, T> {
    /// What can be read.
    Read(T),
    /// What cannot.
    AsItStands(&'a RawValue),
}

impl Unread {
    /// `read` and then what cannot be read, as it stands, if it is JSON; what is not has no place in a file of JSON.
    pub(crate) fn behind<T>(unread: &[Self], read: impl Iterator<Item = T>) -> Vec<Written<'_, T>> {
        let unread = unread.iter().filter_map(|unread| {
            let raw = serde_json::from_str(&unread.text).ok()?;
            Some(Written::AsItStands(raw))
        });
        read.map(Written::Read).chain(unread).collect()
    }

    pub(crate) fn new(text: &str, reason: &impl ToString) -> Self {
        const NAMES: [&str; 2] = ["/design/design/name", "/entry/design/design/name"];
        let value: Option<Value> = serde_json::from_str(text).ok();
        let name = value.and_then(|value| {
            let name = NAMES.iter().find_map(|at| value.pointer(at)?.as_str());
            name.map(str::to_owned)
        });
        Self {
            name,
            text: text.to_owned(),
            reason: reason.to_string(),
        }
    }
}

/// Whether `text` can be an id.
pub(crate) fn is_id(text: &str) -> bool {
    (1..=LONGEST_ID).contains(&text.len())
        && text.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'-')
}
