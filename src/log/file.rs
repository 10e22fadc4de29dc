//! The log file: all builds in one JSON file, each with its design as in a file of its own.

use std::collections::BTreeSet;

use schemars::{JsonSchema, Schema, schema_for};
use serde::{Deserialize, Serialize};
use serde_json::Value;
use serde_json::value::RawValue;

use super::build::Build;
use super::error::{LogError, LogFileError};
use crate::design::short_fault;
use crate::rack::{Unread, Written};

/// The newest version of the file, the one that is written.
pub const VERSION: u64 = 1;
/// What a log file calls itself.
pub const FORMAT: &str = "headwright log";
/// Where the schema stands beside the app.
pub const SCHEMA_ID: &str = "log.schema.json";
/// The most builds of a log.
pub const MOST_BUILDS: usize = 2000;
/// The largest log file that is read, bytes.
pub const MOST_BYTES: usize = 40_000_000;

/// What a log file holds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Log {
    /// What can be read.
    pub builds: Vec<Build>,
    /// What cannot, as it stands.
    pub unread: Vec<Unread>,
}

/// A log file, for the schema: what it is, its version and its builds.
#[derive(JsonSchema)]
#[schemars(title = "Headwright log", deny_unknown_fields)]
#[allow(
    dead_code,
    reason = "what is written and read holds its builds as texts"
)]
struct LogFile {
    /// Always "headwright log".
    #[schemars(extend("const" = FORMAT))]
    format: String,
    /// Version of the format.
    #[schemars(range(min = 1, max = VERSION))]
    version: u64,
    /// The builds.
    #[schemars(length(max = MOST_BUILDS))]
    builds: Vec<Build>,
}

/// The schema of the log file, generated from the types.
pub fn schema() -> Schema {
    let mut schema = schema_for!(LogFile);
    schema.insert("$id".to_owned(), SCHEMA_ID.into());
    schema
}

#[derive(Serialize)]
pub(crate) struct FileWritten<'a> {
    format: &'static str,
    version: u64,
    builds: Vec<Written<'a, &'a Build>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct FileRead<'a> {
    #[serde(rename = "format")]
    _format: Value,
    #[serde(rename = "version")]
    _version: Value,
    #[serde(borrow)]
    builds: Vec<&'a RawValue>,
}

impl Build {
    /// The build as JSON, as it stands in a log file.
    // Inlined, as all that writes and reads designs: the page's is built for size, and once.
    #[inline]
    pub fn to_json(&self) -> String {
        // Nothing in it has a key that is no text.
        serde_json::to_string_pretty(self).unwrap_or_default()
    }

    /// Reads the text of a build.
    ///
    /// # Errors
    /// The text as it stands, with the reason.
    #[inline]
    pub fn from_json(text: &str) -> Result<Self, Unread> {
        let read = || -> Result<Self, LogFileError> {
            let build: Self = serde_json::from_str(text).map_err(|error| fault(&error))?;
            build.check()?;
            Ok(build)
        };
        read().map_err(|reason| Unread::new(text, &reason))
    }
}

impl Log {
    /// The log as the text of a log file. What cannot be read goes into it as it stands, if it is JSON; what is not
    /// has no place in such a file.
    #[inline]
    pub fn to_json(&self) -> String {
        // Nothing in it has a key that is no text.
        let mut text = serde_json::to_string_pretty(&self.to_written()).unwrap_or_default();
        text.push('\n');
        text
    }

    /// The log file to be written, by itself or in another.
    pub(crate) fn to_written(&self) -> FileWritten<'_> {
        FileWritten {
            format: FORMAT,
            version: VERSION,
            builds: Unread::behind(&self.unread, self.builds.iter()),
        }
    }

    /// Reads a log file of any version, with designs of any version in it. A build that cannot be read is given back
    /// as it stands, with the reason, beside those that can.
    ///
    /// # Errors
    /// A sentence when the text is no log file, was written by a newer program or holds more than a log does.
    #[inline]
    pub fn from_json(text: &str) -> Result<Self, LogFileError> {
        // Some editors put a byte order mark in front.
        let text = text.trim_start_matches('\u{feff}');
        if text.trim().is_empty() {
            return Err(LogFileError::Empty);
        }
        if text.len() > MOST_BYTES {
            return Err(LogFileError::TooLarge(text.len()));
        }
        Self::read(text)
    }

    /// Reads the text of a log file of any size.
    pub(crate) fn read(text: &str) -> Result<Self, LogFileError> {
        let value: Value = serde_json::from_str(text).map_err(|error| LogFileError::NotJson {
            line: error.line(),
            column: error.column(),
        })?;
        if value.get("format").and_then(Value::as_str) != Some(FORMAT) {
            return Err(LogFileError::Foreign);
        }
        match value.get("version").and_then(Value::as_u64) {
            None => return Err(LogFileError::NoVersion),
            Some(0) => return Err(LogFileError::Version(0)),
            Some(newer) if newer > VERSION => return Err(LogFileError::Newer(newer)),
            Some(_) => {}
        }
        // Read from the text again, because builds that cannot be read are kept as they stand.
        let file: FileRead = serde_json::from_str(text).map_err(|error| fault(&error))?;
        if file.builds.len() > MOST_BUILDS {
            return Err(LogFileError::TooMany(file.builds.len()));
        }
        let mut log = Self::default();
        let mut ids = BTreeSet::new();
        for raw in file.builds {
            match Build::from_json(raw.get()) {
                Ok(build) if !ids.insert(build.id.clone()) => {
                    let reason = LogError::SameId(build.id);
                    log.unread.push(Unread::new(raw.get(), &reason));
                }
                Ok(build) => log.builds.push(build),
                Err(unread) => log.unread.push(unread),
            }
        }
        Ok(log)
    }
}

fn fault(error: &serde_json::Error) -> LogFileError {
    LogFileError::Fault {
        line: error.line(),
        fault: short_fault(error),
    }
}
