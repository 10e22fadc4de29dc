//! The log as a table for a spreadsheet: CSV by RFC 4180, out and in without loss.
//!
//! A row is a build, a step of one or an event; [`COLUMNS`] says what stands where. A build's row bears its design, as
//! the text of a design file, so that the table is the whole log. Cells that are there to be read only (the name of a
//! build's design, the name of an event's step) are not read back. What of a log cannot be read is not in it.

use std::collections::BTreeMap;

use super::build::{Build, Outcome, Step, Weight};
use super::date::{read_time, show_time};
use super::error::LogError;
use super::event::{Event, Verdict, What};
use super::file::{Log, MOST_BUILDS, MOST_BYTES};
use crate::bar::LossKind;
use crate::design::Design;
use crate::spreadsheet::{self, Row, TableError, shown};

/// The columns, in the order in which they are written; any order is read, further ones are not.
pub const COLUMNS: [&str; 9] = [
    "build", "row", "at", "step", "name", "value", "more", "celsius", "text",
];

/// Why a text is no log as CSV.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CsvError {
    /// Larger than any log.
    #[error("This table has {} MB, more than the {} MB that are read.", .0.div_ceil(1_000_000), MOST_BYTES / 1_000_000)]
    TooLarge(usize),
    /// A column is missing.
    #[error("This is not a log as CSV: its first line has no column “{0}”.")]
    NoColumn(&'static str),
    /// A row that is no row.
    #[error("Line {line} is no row of a table: {fault}.")]
    Broken {
        /// The line.
        line: usize,
        /// What is wrong, without the full stop.
        fault: String,
    },
    /// A cell that says nothing.
    #[error("Line {line}: “{text}” under “{column}” is no {wanted}.")]
    Cell {
        /// The line.
        line: usize,
        /// The column.
        column: &'static str,
        /// What stands there.
        text: String,
        /// What belongs there.
        wanted: &'static str,
    },
    /// A row of a build that has none.
    #[error("Line {line} belongs to the build “{build}”, which has no row of its own.")]
    NoBuild {
        /// The line.
        line: usize,
        /// The build's id.
        build: String,
    },
    /// Two builds of one id.
    #[error("Line {line}: there are two builds with the id “{build}”.")]
    Twice {
        /// The line.
        line: usize,
        /// The build's id.
        build: String,
    },
    /// A design that cannot be read.
    #[error("Line {line}: {error}")]
    Design {
        /// The line.
        line: usize,
        /// What is wrong.
        error: crate::design::FileError,
    },
    /// A build that cannot be.
    #[error("The build “{build}”: {error}")]
    Build {
        /// The build's id.
        build: String,
        /// What is wrong.
        error: LogError,
    },
    /// More builds than a log holds.
    #[error("This table has {0} builds, more than the {MOST_BUILDS} that a log holds.")]
    TooMany(usize),
}

impl From<TableError> for CsvError {
    fn from(error: TableError) -> Self {
        match error {
            TableError::NoColumn(column) => Self::NoColumn(column),
            TableError::Broken { line, fault } => Self::Broken { line, fault },
        }
    }
}

impl Log {
    /// The builds as CSV.
    // Inlined, as all that writes and reads designs: the page's is built for size, and once.
    #[inline]
    pub fn to_csv(&self) -> String {
        spreadsheet::written(&COLUMNS, self.builds.iter().flat_map(rows).collect())
    }

    /// What of the log is not in its table: how many builds cannot be read, and which; nothing where all can.
    pub fn left_out(&self) -> Option<String> {
        let builds = match self.unread.len() {
            0 => return None,
            1 => "1 build".to_owned(),
            count => format!("{count} builds"),
        };
        let names = self.unread.iter().map(|unread| {
            let name = unread
                .name
                .as_deref()
                .filter(|name| !name.trim().is_empty());
            name.map_or_else(
                || "one without a name".to_owned(),
                |name| format!("“{name}”"),
            )
        });
        let names = names.collect::<Vec<_>>().join(", ");
        Some(format!(
            "What can’t be read is not in the table: {builds}, {names}. The log’s file has it as it stands."
        ))
    }

    /// Reads what [`Log::to_csv`] writes, with commas or semicolons between the cells.
    ///
    /// # Errors
    /// The first thing that is wrong, with its line; then nothing was read.
    #[inline]
    pub fn from_csv(text: &str) -> Result<Self, CsvError> {
        if text.len() > MOST_BYTES {
            return Err(CsvError::TooLarge(text.len()));
        }
        let rows = spreadsheet::read(text, &COLUMNS)?;
        // A spreadsheet may have sorted the rows: builds first, then what belongs to them in the order of the rows.
        let mut builds: Vec<Build> = Vec::new();
        let mut places = BTreeMap::new();
        let (own, others): (Vec<Row>, Vec<Row>) =
            rows.into_iter().partition(|row| row.word() == "build");
        for row in own {
            let build = row.build()?;
            if places.insert(build.id.clone(), builds.len()).is_some() {
                return Err(CsvError::Twice {
                    line: row.line,
                    build: row.shown("build"),
                });
            }
            builds.push(build);
        }
        if builds.len() > MOST_BUILDS {
            return Err(CsvError::TooMany(builds.len()));
        }
        for row in others {
            let place = places.get(row.cell("build"));
            let build = place.and_then(|place| builds.get_mut(*place));
            let build = build.ok_or_else(|| CsvError::NoBuild {
                line: row.line,
                build: row.shown("build"),
            })?;
            match row.word() {
                "step" => build.steps.push(row.step()?),
                _ => build.events.push(row.event()?),
            }
        }
        for build in &builds {
            build.check().map_err(|error| CsvError::Build {
                build: shown(&build.id),
                error,
            })?;
        }
        Ok(Self {
            builds,
            unread: Vec::new(),
        })
    }
}

/// The rows of a build: its own, its steps, its events.
#[inline]
fn rows(build: &Build) -> Vec<Vec<String>> {
    let none = String::new;
    let id = || build.id.clone();
    let mut rows = vec![vec![
        id(),
        "build".to_owned(),
        show_time(build.begun),
        none(),
        build.design.name.clone(),
        build.outcome.word().to_owned(),
        build.entry.clone().unwrap_or_default(),
        none(),
        build.design.to_json(),
    ]];
    rows.extend(build.steps.iter().map(|step| {
        let target = step.target_minutes.map(|minutes| minutes.to_string());
        vec![
            id(),
            "step".to_owned(),
            none(),
            step.id.to_string(),
            step.name.clone(),
            target.unwrap_or_default(),
            weight_words(&step.weight),
            none(),
            none(),
        ]
    }));
    rows.extend(build.events.iter().map(|event| {
        let (kind, [value, more, celsius, text]) = event_cells(&event.what);
        vec![
            id(),
            kind.to_owned(),
            show_time(event.at),
            event.step.to_string(),
            build.called(event.step),
            value,
            more,
            celsius,
            text,
        ]
    }));
    rows
}

/// The words of choices, for writing and reading.
const OUTCOMES: [(&str, Outcome); 3] = [
    (Outcome::Open.word(), Outcome::Open),
    (Outcome::Finished.word(), Outcome::Finished),
    (Outcome::Spoiled.word(), Outcome::Spoiled),
];
const VERDICTS: [(&str, Option<Verdict>); 3] = [
    ("", None),
    ("counts", Some(Verdict::Counts)),
    ("left_out", Some(Verdict::LeftOut)),
];
const KINDS: [(&str, LossKind); 6] = [
    ("slug", LossKind::Slug),
    ("forging_scale", LossKind::ForgingScale),
    ("hardening_scale", LossKind::HardeningScale),
    ("trimming", LossKind::Trimming),
    ("grinding", LossKind::Grinding),
    ("dressing", LossKind::Dressing),
];
/// What stands before the lines of the ledger that a step takes.
const LOSES: &str = "loses";

/// The word of a line of the ledger.
pub(super) fn loss_word(kind: LossKind) -> &'static str {
    word(&KINDS, &kind)
}

fn word<T: PartialEq>(words: &[(&'static str, T)], value: &T) -> &'static str {
    let found = words.iter().find(|(_, other)| other == value);
    found.map_or("", |(word, _)| word)
}

fn choice<T: Copy>(words: &[(&str, T)], text: &str) -> Option<T> {
    let found = words.iter().find(|(word, _)| *word == text.trim());
    found.map(|(_, value)| *value)
}

fn weight_words(weight: &Weight) -> String {
    match weight {
        Weight::Same => "same".to_owned(),
        Weight::ToTarget => "to_target".to_owned(),
        Weight::OnHandle => "on_handle".to_owned(),
        Weight::Loses(kinds) => {
            let kinds = kinds.iter().map(|kind| word(&KINDS, kind));
            std::iter::once(LOSES)
                .chain(kinds)
                .collect::<Vec<_>>()
                .join(" ")
        }
    }
}

fn read_weight(text: &str) -> Option<Weight> {
    match text.trim() {
        "same" => Some(Weight::Same),
        "to_target" => Some(Weight::ToTarget),
        "on_handle" => Some(Weight::OnHandle),
        other => {
            let mut words = other.split_whitespace();
            if words.next() != Some(LOSES) {
                return None;
            }
            let kinds = words.map(|word| choice(&KINDS, word));
            kinds.collect::<Option<_>>().map(Weight::Loses)
        }
    }
}

/// The word of an event, and its cells from “value” on.
fn event_cells(what: &What) -> (&'static str, [String; 4]) {
    let mut cells = [const { String::new() }; 4];
    let kind = match what {
        What::Start => "start",
        What::Stop => "stop",
        What::Weighed { mass, verdict } => {
            cells[0] = mass.to_string();
            cells[1] = word(&VERDICTS, verdict).to_owned();
            "weighed"
        }
        What::Heats { count } => {
            cells[0] = count.to_string();
            "heats"
        }
        What::Minutes { minutes } => {
            cells[0] = minutes.to_string();
            "minutes"
        }
        What::Measured { dim, size, celsius } => {
            cells[0] = size.to_string();
            cells[1] = dim.to_string();
            cells[2] = celsius
                .map(|celsius| celsius.to_string())
                .unwrap_or_default();
            "measured"
        }
        What::Note { text } => {
            cells[3].clone_from(text);
            "note"
        }
    };
    (kind, cells)
}

impl Row {
    fn word(&self) -> &str {
        self.cell("row").trim()
    }

    fn shown(&self, column: &str) -> String {
        shown(self.cell(column))
    }

    /// What `read` makes of a cell.
    fn read<T>(
        &self,
        column: &'static str,
        wanted: &'static str,
        read: impl Fn(&str) -> Option<T>,
    ) -> Result<T, CsvError> {
        read(self.cell(column)).ok_or_else(|| CsvError::Cell {
            line: self.line,
            column,
            text: self.shown(column),
            wanted,
        })
    }

    /// The same, nothing where the cell is empty.
    fn maybe<T>(
        &self,
        column: &'static str,
        wanted: &'static str,
        read: impl Fn(&str) -> Option<T>,
    ) -> Result<Option<T>, CsvError> {
        if self.cell(column).trim().is_empty() {
            return Ok(None);
        }
        self.read(column, wanted, read).map(Some)
    }

    #[inline]
    fn build(&self) -> Result<Build, CsvError> {
        let design = Design::from_json(self.cell("text")).map_err(|error| CsvError::Design {
            line: self.line,
            error,
        })?;
        Ok(Build {
            id: self.cell("build").to_owned(),
            entry: self.maybe("more", "id", |text| Some(text.to_owned()))?,
            begun: self.time()?,
            outcome: self.read("value", "open, finished or spoiled", |text| {
                choice(&OUTCOMES, text)
            })?,
            steps: Vec::new(),
            events: Vec::new(),
            design,
        })
    }

    fn time(&self) -> Result<u64, CsvError> {
        self.read("at", "time, such as 2026-03-04 08:04", read_time)
    }

    fn step_id(&self) -> Result<u32, CsvError> {
        self.read("step", "id of a step, a whole number", number)
    }

    fn step(&self) -> Result<Step, CsvError> {
        Ok(Step {
            id: self.step_id()?,
            name: self.cell("name").to_owned(),
            weight: self.read(
                "more",
                "effect on the weight, such as same or loses slug forging_scale",
                read_weight,
            )?,
            target_minutes: self.maybe("value", MINUTES, number)?,
        })
    }

    fn event(&self) -> Result<Event, CsvError> {
        let what = match self.word() {
            "start" => What::Start,
            "stop" => What::Stop,
            "weighed" => What::Weighed {
                mass: self.read("value", "weight, such as 1422 g", number)?,
                verdict: self.read("more", "counts or left_out", |text| choice(&VERDICTS, text))?,
            },
            "heats" => What::Heats {
                count: self.read("value", "whole number", number)?,
            },
            "minutes" => What::Minutes {
                minutes: self.read("value", MINUTES, number)?,
            },
            "measured" => What::Measured {
                dim: self.read("more", "dimension, such as front.reach", number)?,
                size: self.read("value", "size, such as 58 mm", number)?,
                celsius: self.maybe("celsius", "number of °C", number)?,
            },
            "note" => What::Note {
                text: self.cell("text").to_owned(),
            },
            _ => {
                return self.read("row", "kind of row: build, step, start, stop, weighed, heats, minutes, measured or note", |_| None);
            }
        };
        Ok(Event {
            step: self.step_id()?,
            at: self.time()?,
            what,
        })
    }
}

/// What minutes look like, for a sentence.
const MINUTES: &str = "number of minutes";

fn number<T: std::str::FromStr>(text: &str) -> Option<T> {
    text.trim().parse().ok()
}
