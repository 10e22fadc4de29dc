//! How is a table written for a spreadsheet, and read again?
//!
//! CSV by RFC 4180. What comes back from a spreadsheet may have semicolons between its cells, a byte order mark in front,
//! its columns in another order and further ones, and rows of empty cells; each row knows the line in which it begins, for
//! what is said of it.
//!
//! A text that a spreadsheet would run as a formula has an apostrophe in front of it, which makes it a text there and goes
//! when the cell is read.
//!
//! # Source
//! OWASP Foundation, “CSV Injection”, for the characters that a formula begins with and for the apostrophe.

/// The longest piece of a cell that a sentence repeats, in characters.
const SHOWN_CHARACTERS: usize = 60;
/// What a formula begins with in one spreadsheet or another.
const BEGINS_FORMULA: [char; 11] = ['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠'];
/// What makes a cell a text.
const MAKES_TEXT: char = '\'';

/// Why a text is no table with these columns.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum TableError {
    /// A column is missing.
    NoColumn(&'static str),
    /// A row that is no row.
    Broken {
        /// The line.
        line: usize,
        /// What is wrong, without the full stop.
        fault: String,
    },
}

/// A row of a table.
pub(crate) struct Row {
    /// The line in which it begins, counted from 1.
    pub line: usize,
    columns: &'static [&'static str],
    cells: Vec<String>,
}

/// The table with these columns and rows as CSV.
// Inlined, as all that writes and reads a log: the page's is built for size, and once.
#[inline]
pub(crate) fn written(columns: &[&str], rows: Vec<Vec<String>>) -> String {
    let write = move || {
        let mut table = csv::WriterBuilder::new()
            .terminator(csv::Terminator::CRLF)
            .from_writer(Vec::new());
        table.write_record(columns).ok()?;
        for row in rows {
            table.write_record(row.into_iter().map(as_text)).ok()?;
        }
        String::from_utf8(table.into_inner().ok()?).ok()
    };
    // Writing into memory fails for nothing, and rows are all of one length.
    write().unwrap_or_default()
}

/// The rows of a table that has these columns.
///
/// # Errors
/// A column is missing, or a row is none.
#[inline]
pub(crate) fn read(text: &str, columns: &'static [&'static str]) -> Result<Vec<Row>, TableError> {
    let text = text.trim_start_matches('\u{feff}');
    let says = |cell: &str| !cell.trim_matches(is_nothing).is_empty();
    let head = text.lines().find(|line| says(line)).unwrap_or_default();
    let between = if head.contains(';') { b';' } else { b',' };
    let mut table = csv::ReaderBuilder::new()
        .delimiter(between)
        .flexible(true)
        .has_headers(false)
        .from_reader(text.as_bytes());
    let mut places = Vec::with_capacity(columns.len());
    let mut rows = Vec::new();
    let (mut line, mut counted) = (1, 0);
    for record in table.records() {
        let record = record.map_err(|error| broken(&error))?;
        // The first that says anything names the columns.
        if places.is_empty() {
            if record.iter().any(says) {
                for column in columns {
                    let found = record.iter().position(|cell| cell.trim() == *column);
                    places.push(found.ok_or(TableError::NoColumn(column))?);
                }
            }
            continue;
        }
        let cells = places.iter().map(|place| record.get(*place));
        let cells: Vec<&str> = cells.map(Option::unwrap_or_default).collect();
        if !cells.iter().copied().any(says) {
            continue;
        }
        // Where lines end in two characters the reader has taken but the first of them.
        let from = record.position().map_or(0, csv::Position::byte);
        let from = usize::try_from(from).unwrap_or(usize::MAX);
        let bytes = text.as_bytes();
        let ends = bytes.get(from..).unwrap_or_default().iter();
        let begins = from
            + ends
                .take_while(|byte| matches!(byte, b'\r' | b'\n'))
                .count();
        let passed = bytes.get(counted..begins).unwrap_or_default().iter();
        line += passed.filter(|byte| **byte == b'\n').count();
        counted = begins;
        rows.push(Row {
            line,
            columns,
            cells: cells.into_iter().map(of_text).map(str::to_owned).collect(),
        });
    }
    match columns.first() {
        Some(column) if places.is_empty() => Err(TableError::NoColumn(column)),
        _ => Ok(rows),
    }
}

/// What stands in an empty cell and between such.
#[inline]
fn is_nothing(character: char) -> bool {
    character.is_whitespace() || matches!(character, ',' | ';' | '"')
}

/// The cell as it is written: as text where a spreadsheet would run it. A number stays one.
#[inline]
fn as_text(cell: String) -> String {
    let is_number = || {
        let unsigned = cell.strip_prefix('-').unwrap_or(&cell);
        unsigned.starts_with(|first: char| first.is_ascii_digit())
            && unsigned.parse::<f64>().is_ok()
    };
    if begins_formula(&cell) && !is_number() {
        format!("{MAKES_TEXT}{cell}")
    } else {
        cell
    }
}

/// What a written cell says.
#[inline]
fn of_text(cell: &str) -> &str {
    let said = cell.strip_prefix(MAKES_TEXT);
    said.filter(|said| begins_formula(said)).unwrap_or(cell)
}

/// Whether a spreadsheet takes it for a formula, behind apostrophes of its own too, so that each comes back.
#[inline]
fn begins_formula(cell: &str) -> bool {
    let behind = cell.trim_start_matches(MAKES_TEXT);
    behind.starts_with(BEGINS_FORMULA)
}

/// The beginning of a cell, on one line.
#[inline]
pub(crate) fn shown(cell: &str) -> String {
    let one_line = |c: char| if c.is_control() { ' ' } else { c };
    cell.chars().map(one_line).take(SHOWN_CHARACTERS).collect()
}

#[inline]
fn broken(error: &csv::Error) -> TableError {
    let fault = match error.kind() {
        csv::ErrorKind::Utf8 { .. } => "it is not UTF-8".to_owned(),
        _ => error.to_string(),
    };
    TableError::Broken {
        line: error
            .position()
            .and_then(|position| usize::try_from(position.line()).ok())
            .unwrap_or_default(),
        fault,
    }
}

impl Row {
    /// What stands under a column.
    #[inline]
    pub fn cell(&self, column: &str) -> &str {
        let cells = self.columns.iter().zip(&self.cells);
        let mut found = cells.filter(|(name, _)| **name == column);
        found.next().map_or("", |(_, cell)| cell)
    }
}
