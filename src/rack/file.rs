//! The rack file: all entries in one JSON file, each with its design as in a file of its own.

use std::collections::BTreeMap;

use schemars::{JsonSchema, Schema, schema_for};
use serde::de::IgnoredAny;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use serde_json::error::Category;
use serde_json::value::RawValue;

use super::entry::{Entry, EntryFile, EntryWritten, Unread, Written};
use super::error::RackError;
use crate::bar::Loss;
use crate::design::short_fault;

/// The newest version of the file, the one that is written: the second carries log and costs beside the entries.
pub const FILE_VERSION: u64 = 2;
/// What a rack file calls itself.
pub const FORMAT: &str = "headwright rack";
/// Where the schema stands beside the app.
pub const SCHEMA_ID: &str = "rack.schema.json";
/// Where those of what else the file carries stand.
const LOG_SCHEMA_ID: &str = "log.schema.json";
const COSTS_SCHEMA_ID: &str = "costs.schema.json";
/// The largest rack file that is read, bytes: twenty thousand hammers, far more than a life's work. How many entries it
/// has is not limited, so that whatever was kept can be taken in again.
pub const MOST_BYTES: usize = 200_000_000;

/// How deep a design stands in the file.
const INDENT: &str = "\n      ";

/// A rack file, for the schema: what it is, its version, its entries and what the workshop has beside them.
#[derive(JsonSchema)]
#[schemars(title = "Headwright rack", deny_unknown_fields)]
#[allow(
    dead_code,
    reason = "what is written and read holds its entries as texts"
)]
struct RackFile {
    /// Always "headwright rack".
    #[schemars(extend("const" = FORMAT))]
    format: String,
    /// Version of the format.
    #[schemars(range(min = 1, max = FILE_VERSION))]
    version: u64,
    /// The entries.
    entries: Vec<EntryFile>,
    /// The log of builds, as in a file of its own.
    #[schemars(extend("$ref" = LOG_SCHEMA_ID))]
    log: Option<Elsewhere>,
    /// What goes into hammers, each as in a file of its own; the first is what is reckoned with.
    #[serde(default)]
    costs: Vec<OneOfCosts>,
    /// The ledger of losses as the log teaches it, for whoever reads the file: it follows from the log and is not read back.
    #[serde(default)]
    learned: Vec<Loss>,
}

/// Something that has a schema of its own.
#[derive(JsonSchema)]
#[schemars(inline, transparent)]
#[allow(dead_code, reason = "what is written and read is in other rooms")]
struct Elsewhere(Value);

/// Costs.
#[derive(JsonSchema)]
#[schemars(inline, transparent, extend("$ref" = COSTS_SCHEMA_ID))]
#[allow(dead_code, reason = "what is written and read is in other rooms")]
struct OneOfCosts(Value);

/// What a rack file holds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rack {
    /// What can be read.
    pub entries: Vec<Entry>,
    /// What cannot.
    pub unread: Vec<Unread>,
}

#[derive(Serialize)]
struct FileWritten<'a, L: Serialize, C: Serialize, M: Serialize> {
    format: &'static str,
    version: u64,
    entries: Vec<Written<'a, EntryWritten<'a>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    log: Option<L>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    costs: Vec<C>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    learned: Vec<M>,
}

/// What a rack file carries beside the entries, on its way into one: rooms below this one know what it is.
pub(crate) struct BesideWritten<L: Serialize, C: Serialize, M: Serialize> {
    pub log: Option<L>,
    pub costs: Vec<C>,
    pub learned: Vec<M>,
}

/// The same as it stands in a file.
#[derive(Default)]
pub(crate) struct BesideRead<'a> {
    pub log: Option<&'a RawValue>,
    pub costs: Vec<&'a RawValue>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FileRead<'a> {
    #[serde(rename = "format")]
    _format: Value,
    #[serde(rename = "version")]
    _version: Value,
    #[serde(borrow)]
    entries: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    log: Option<&'a RawValue>,
    #[serde(borrow, default)]
    costs: Vec<&'a RawValue>,
    #[serde(rename = "learned", default)]
    _learned: IgnoredAny,
}

impl Rack {
    /// The rack as the text of a rack file. What cannot be read goes into it as it stands, if it is JSON; what is not
    /// has no place in such a file.
    #[inline]
    pub fn to_json(&self) -> String {
        self.to_json_with::<(), (), ()>(BesideWritten {
            log: None,
            costs: Vec::new(),
            learned: Vec::new(),
        })
    }

    /// The same with what the workshop has beside.
    #[inline]
    pub(crate) fn to_json_with<L: Serialize, C: Serialize, M: Serialize>(
        &self,
        beside: BesideWritten<L, C, M>,
    ) -> String {
        let entries = self.entries.iter().map(|entry| entry.to_written(INDENT));
        let file = FileWritten {
            format: FORMAT,
            version: FILE_VERSION,
            entries: Unread::behind(&self.unread, entries),
            log: beside.log,
            costs: beside.costs,
            learned: beside.learned,
        };
        // Nothing in it has a key that is no text.
        let mut text = serde_json::to_string_pretty(&file).unwrap_or_default();
        text.push('\n');
        text
    }

    /// Reads a rack file of any version, with designs of any version in it. An entry that cannot be read is given back
    /// as it stands, with the reason, beside those that can. What else the file carries is left in it: `chest::Chest` reads
    /// all of it.
    ///
    /// # Errors
    /// A sentence when the text is no rack file, is larger than any or was written by a newer program.
    #[inline]
    pub fn from_json(text: &str) -> Result<Self, RackError> {
        Ok(Self::read_with(text)?.0)
    }

    /// The same with what the file carries beside the entries, as it stands.
    #[inline]
    pub(crate) fn read_with(text: &str) -> Result<(Self, BesideRead<'_>), RackError> {
        // Some editors put a byte order mark in front.
        let text = text.trim_start_matches('\u{feff}');
        if text.trim().is_empty() {
            return Err(RackError::Empty);
        }
        if text.len() > MOST_BYTES {
            return Err(RackError::TooLarge(text.len()));
        }
        // What stands in it is not looked at yet: a large rack would take many times its room.
        let parts: BTreeMap<String, &RawValue> =
            serde_json::from_str(text).map_err(|error| match error.classify() {
                Category::Data => RackError::Foreign,
                Category::Syntax | Category::Eof | Category::Io => RackError::NotJson {
                    line: error.line(),
                    column: error.column(),
                },
            })?;
        let part = |name: &str| {
            let raw = parts.get(name)?.get();
            serde_json::from_str::<Value>(raw).ok()
        };
        if part("format").as_ref().and_then(Value::as_str) != Some(FORMAT) {
            return Err(RackError::Foreign);
        }
        match part("version").as_ref().and_then(Value::as_u64) {
            None => return Err(RackError::NoVersion),
            Some(0) => return Err(RackError::Version(0)),
            Some(newer) if newer > FILE_VERSION => {
                return Err(RackError::Newer {
                    version: newer,
                    reads: FILE_VERSION,
                });
            }
            Some(_) => {}
        }
        // Read from the text again, because entries are kept as they stand.
        let file: FileRead = serde_json::from_str(text).map_err(|error| RackError::Fault {
            line: error.line(),
            fault: short_fault(&error),
        })?;
        let mut rack = Self::default();
        for raw in file.entries {
            match Entry::read(raw.get()) {
                Ok(entry) => rack.entries.push(entry),
                Err(unread) => rack.unread.push(unread),
            }
        }
        let beside = BesideRead {
            log: file.log,
            costs: file.costs,
        };
        Ok((rack, beside))
    }
}

/// The schema of the rack file, generated from the types.
pub fn schema() -> Schema {
    let mut schema = schema_for!(RackFile);
    schema.insert("$id".to_owned(), SCHEMA_ID.into());
    schema
}
