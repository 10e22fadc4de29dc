//! The design file: JSON with readable names, every size with its unit.

use schemars::{JsonSchema, Schema, schema_for};
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::Design;
use crate::bar::Certainty;

/// The newest version of the file, the one that is written.
pub const VERSION: u64 = 7;
/// The last version that does not say how surely a loss is known.
const WITHOUT_CERTAINTY: u64 = 4;
/// What a design file calls itself.
pub const FORMAT: &str = "headwright design";
/// Where the schema stands beside the app.
pub const SCHEMA_ID: &str = "design.schema.json";

/// A design file: what it is, its version and the design.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(title = "Headwright design")]
pub struct DesignFile {
    /// Always "headwright design".
    #[schemars(extend("const" = FORMAT))]
    format: String,
    /// Version of the format.
    #[schemars(range(min = 1, max = VERSION))]
    version: u64,
    /// The design. Sizes are those of the cold head.
    design: Design,
}

/// Why a text is not a design file.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum FileError {
    /// Nothing but blanks.
    #[error("This is not a design file: it is empty.")]
    Empty,
    /// Not JSON at all.
    #[error("This is not a design file: it is not JSON (line {line}, column {column}).")]
    NotJson {
        /// Line of the first fault.
        line: usize,
        /// Column of the first fault.
        column: usize,
    },
    /// JSON within JSON beyond measure.
    #[error("This is not a design file: line {line} is nested deeper than any design.")]
    TooDeep {
        /// Line of the first fault.
        line: usize,
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
    /// No version at all.
    #[error(
        "This design file can’t be read: it states no version, such as \"version\": {VERSION}."
    )]
    NoVersion,
    /// The right format with a fault in it.
    #[error("This design file can’t be read, at or before line {line}: {fault}.")]
    Fault {
        /// Line where reading stopped: the faulty one, or the end of the part it is in.
        line: usize,
        /// What is wrong, without the full stop.
        fault: String,
    },
}

impl Design {
    /// The design as a design file, for writing inside something larger.
    pub fn to_file(&self) -> DesignFile {
        DesignFile {
            format: FORMAT.to_owned(),
            version: VERSION,
            design: self.clone(),
        }
    }

    /// The design as the text of a design file.
    // Inlined with the next, so that each is made by the package that calls it: the page's is built for size.
    #[inline]
    pub fn to_json(&self) -> String {
        // Writing to a string fails only for maps with keys that are not strings; the dimension
        // names that key the free ones are strings.
        let mut text = serde_json::to_string_pretty(&self.to_file()).unwrap_or_default();
        text.push('\n');
        text
    }

    /// Reads a design file of any version.
    ///
    /// # Errors
    /// A sentence that says what the text is instead, or which part of it is at fault. A design
    /// that reads may still be unsound: see [`Design::build`].
    #[inline]
    pub fn from_json(text: &str) -> Result<Self, FileError> {
        // Some editors put a byte order mark in front.
        let text = text.trim_start_matches('\u{feff}');
        if text.trim().is_empty() {
            return Err(FileError::Empty);
        }
        let value: Value = serde_json::from_str(text).map_err(|error| not_json(&error))?;
        if value.get("format").and_then(Value::as_str) != Some(FORMAT) {
            return Err(FileError::Foreign);
        }
        let version = match value.get("version").and_then(Value::as_u64) {
            None => return Err(FileError::NoVersion),
            Some(0) => return Err(FileError::Version(0)),
            Some(newer) if newer > VERSION => return Err(FileError::Newer(newer)),
            // Version 2 added the ball, 3 the pein and all that a plain block, eye and end do
            // without, 4 further holds and ties of the ends, 5 losses by their cause, how surely
            // each is known, and more sections of bar, 6 the handle and holds on the finished
            // tool, 7 the steel and its heat treatment: older files read as they stand.
            Some(version) => version,
        };
        // Read from the text again, because only the text knows its lines.
        let file: DesignFile = serde_json::from_str(text).map_err(|error| FileError::Fault {
            line: error.line(),
            fault: short_fault(&error),
        })?;
        let mut design = file.design;
        if value.pointer("/design/free").is_none() {
            design.free = design.default_free();
        }
        if value.pointer("/design/alike").is_none() {
            design.alike = design.default_alike();
        }
        if value.pointer("/design/handle").is_none() {
            design.handle = design.usual_handle();
        }
        if version <= WITHOUT_CERTAINTY {
            for loss in &mut design.bar.losses {
                loss.certainty = Certainty::of_source(&loss.source);
            }
        }
        design.settle_ties();
        Ok(design)
    }
}

fn not_json(error: &serde_json::Error) -> FileError {
    let line = error.line();
    // The reader has no other way of saying so.
    if error.to_string().starts_with("recursion limit exceeded") {
        FileError::TooDeep { line }
    } else {
        FileError::NotJson {
            line,
            column: error.column(),
        }
    }
}

/// What is wrong, on one line and without the full stop.
pub(crate) fn short_fault(error: &serde_json::Error) -> String {
    short(&fault(error))
}

/// The longest description of a fault, in characters: it may repeat a text of the file.
const FAULT_CHARACTERS: usize = 300;

/// `words` on one line and not too long.
fn short(words: &str) -> String {
    let one_line = |c: char| if c.is_control() { ' ' } else { c };
    let mut characters = words.chars().map(one_line);
    let mut short: String = characters.by_ref().take(FAULT_CHARACTERS).collect();
    if characters.next().is_some() {
        short.pop();
        short.push('…');
    }
    short
}

/// The reader's words for a fault, made fit for a sentence.
fn fault(error: &serde_json::Error) -> String {
    let place = format!(" at line {} column {}", error.line(), error.column());
    let words = error.to_string();
    let words = words.strip_suffix(&place).unwrap_or(&words);
    let words = words.trim_end_matches('.').replace('`', "\"");
    if let Some(key) = words.strip_prefix("missing field ") {
        format!("{key} is missing")
    } else if let Some(key) = words.strip_prefix("duplicate field ") {
        format!("{key} stands twice")
    } else if let Some((key, known)) = split(&words, "unknown field ", ", expected ") {
        format!("{key} is no key of this part, which has {known}")
    } else if let Some(key) = words.strip_prefix("unknown field ") {
        format!("{key} is no key of this part")
    } else if let Some((word, known)) = split(&words, "unknown variant ", ", expected ") {
        format!("{word} is not known here; write {known}")
    } else if let Some((found, wanted)) = split(&words, "invalid type: ", ", expected ") {
        format!(
            "it has {} where {} belongs",
            article(found),
            article(wanted)
        )
    } else if let Some((found, wanted)) = split(&words, "invalid value: ", ", expected ") {
        format!(
            "it has {} where {} belongs",
            article(found),
            article(wanted)
        )
    } else if let Some((found, wanted)) = split(&words, "invalid length ", ", expected ") {
        format!("it has {found} entries where {} belongs", article(wanted))
    } else if words == "expected value" {
        // JSON it is, so that only the name of a choice can be meant.
        "it has something else where a word in quotes belongs".to_owned()
    } else if words.starts_with("no variant of enum Tip") {
        "an end has neither \"face\", \"ball\" nor \"pein\"".to_owned()
    } else {
        words
    }
}

fn split<'a>(words: &'a str, before: &str, between: &str) -> Option<(&'a str, &'a str)> {
    words.strip_prefix(before)?.split_once(between)
}

/// What JSON calls its parts, in words a smith may know.
fn article(words: &str) -> String {
    const PLAIN: [(&str, &str); 15] = [
        ("integer", "the number"),
        ("floating point", "the number"),
        ("string or map", "a plain word or a group in { }"),
        ("string", "the text"),
        ("a string", "a text"),
        ("f64", "a number"),
        ("u64", "a whole number"),
        ("boolean", "the word"),
        ("sequence", "a list in [ ]"),
        ("a sequence", "a list in [ ]"),
        ("map", "a group in { }"),
        ("a map", "a group in { }"),
        ("null", "null"),
        ("unit variant", "a plain word"),
        ("struct", "a group in { }"),
    ];
    let known = PLAIN.iter().find_map(|(word, plain)| {
        let rest = words.strip_prefix(word)?;
        Some(match rest.strip_prefix(" \"") {
            Some(_) if *plain == "the text" => format!("{plain}{rest}"),
            Some(value) => format!("{plain} {}", value.trim_end_matches('"')),
            // Names of our own types, as in "struct Eye", say nothing to a reader of files.
            None => (*plain).to_owned(),
        })
    });
    known.unwrap_or_else(|| words.to_owned())
}

/// The schema of the design file, generated from the types.
pub fn schema() -> Schema {
    let mut schema = schema_for!(DesignFile);
    schema.insert("$id".to_owned(), SCHEMA_ID.into());
    schema
}
