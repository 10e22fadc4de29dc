//! What was learned as a table for a spreadsheet.

use super::{Learned, LearnedLine};
use crate::log::csv::loss_word;
use crate::spreadsheet;

/// The columns of the table. Numbers are in `unit`: of the next head mean and spread, one standard deviation, and what nine
/// of ten lose; `builds` says in how many the line was weighed and `alone` in how many of them by itself; the default is what
/// was published, where learning begins.
pub const COLUMNS: [&str; 12] = [
    "loss",
    "what",
    "unit",
    "mean",
    "spread",
    "low",
    "high",
    "builds",
    "alone",
    "default_mean",
    "default_spread",
    "source",
];

impl Learned {
    /// The lines as CSV by RFC 4180. There is no way in: they follow from the log, which has one.
    // Inlined, as all that writes and reads a log: the page's is built for size, and once.
    #[inline]
    pub fn to_csv(&self) -> String {
        spreadsheet::written(&COLUMNS, self.lines.iter().map(row).collect())
    }
}

#[inline]
fn row(line: &LearnedLine) -> Vec<String> {
    let [low, high] = line.range;
    let [default_mean, default_spread] = line.published.amount.numbers();
    vec![
        loss_word(line.kind).to_owned(),
        line.kind.words().to_owned(),
        line.unit(),
        line.mean.to_string(),
        line.spread.to_string(),
        low.to_string(),
        high.to_string(),
        line.builds.to_string(),
        line.alone.to_string(),
        default_mean.to_string(),
        default_spread.to_string(),
        line.source(),
    ]
}
