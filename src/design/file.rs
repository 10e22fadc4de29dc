//! The design file: JSON with readable names, every size with its unit.

use schemars::{JsonSchema, Schema, schema_for};
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::Design;

/// The newest version of the file, the one that is written.
pub const VERSION: u64 = 1;
/// What a design file calls itself.
pub const FORMAT: &str = "headwright design";
/// Where the schema stands beside the app.
pub const SCHEMA_ID: &str = "design.schema.json";

/// The whole file.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[schemars(title = "Headwright design")]
struct DesignFile {
    /// Always "headwright design".
    format: String,
    /// Version of the format.
    version: u64,
    /// The design. Sizes are those of the cold head.
    design: Design,
}

/// Why a text is not a design file.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum FileError {
    /// Not JSON at all.
    #[error("This is not a design file: it is not JSON (line {line}, column {column}).")]
    NotJson {
        /// Line of the first fault.
        line: usize,
        /// Column of the first fault.
        column: usize,
    },
    /// JSON of something else.
    #[error("This is not a design file: its format is not “{FORMAT}”.")]
    Foreign,
    /// Written by a later program.
    #[error(
        "This design was written by a newer Headwright (format version {0}); this one reads up to \
         version {VERSION}. Reload the app or install the newer one."
    )]
    Newer(u64),
    /// A version that never was.
    #[error("This design says it has format version {0}; versions begin at 1.")]
    Version(u64),
    /// The right format with a fault in it.
    #[error("This design file can't be read: {0}.")]
    Fault(String),
}

impl Design {
    /// The design as the text of a design file.
    pub fn to_json(&self) -> String {
        let file = DesignFile {
            format: FORMAT.to_owned(),
            version: VERSION,
            design: self.clone(),
        };
        // Writing to a string fails only for maps with keys that are not strings; the dimension
        // names that key the free ones are strings.
        let mut text = serde_json::to_string_pretty(&file).unwrap_or_default();
        text.push('\n');
        text
    }

    /// Reads a design file of any version.
    ///
    /// # Errors
    /// A sentence that says what the text is instead, or which part of it is at fault. A design
    /// that reads may still be unsound: see [`Design::build`].
    pub fn from_json(text: &str) -> Result<Self, FileError> {
        let value: Value = serde_json::from_str(text).map_err(|error| FileError::NotJson {
            line: error.line(),
            column: error.column(),
        })?;
        if value.get("format").and_then(Value::as_str) != Some(FORMAT) {
            return Err(FileError::Foreign);
        }
        let version = value.get("version").and_then(Value::as_u64);
        match version {
            None => return Err(FileError::Fault("it states no version".to_owned())),
            Some(0) => return Err(FileError::Version(0)),
            Some(newer) if newer > VERSION => return Err(FileError::Newer(newer)),
            Some(_) => {}
        }
        let file: DesignFile = serde_json::from_value(value).map_err(|error| {
            FileError::Fault(error.to_string().trim_end_matches('.').to_owned())
        })?;
        Ok(file.design)
    }
}

/// The schema of the design file, generated from the types.
pub fn schema() -> Schema {
    let mut schema = schema_for!(DesignFile);
    schema.insert("$id".to_owned(), SCHEMA_ID.into());
    schema
}
