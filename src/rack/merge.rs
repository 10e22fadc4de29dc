//! A rack file into a rack.

use super::entry::Entry;
use super::error::RackError;
use super::file::{MOST_ENTRIES, Rack};

/// What became of one entry that came.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Arrival {
    /// It stands on the rack under its own id.
    Came,
    /// It stood there already.
    Skipped,
    /// Its id is another design's here, so it stands there as a copy.
    Copied,
}

/// What came of one entry, for the report.
#[derive(Clone, Debug, PartialEq)]
pub struct Arrived {
    /// What became of it.
    pub arrival: Arrival,
    /// The entry, with the id that it has now.
    pub entry: Entry,
}

impl Rack {
    /// Takes `coming` in, one after the other; nothing that stands here is changed. An id that is taken by something
    /// else is given up for one of `new_id`, which is asked until it names one that is free.
    ///
    /// The same file taken in again is skipped as a whole, its copies too.
    ///
    /// # Errors
    /// More entries than a rack holds; then none came.
    pub fn take_in(
        &mut self,
        coming: Vec<Entry>,
        mut new_id: impl FnMut() -> String,
    ) -> Result<Vec<Arrived>, RackError> {
        let mut after = self.entries.clone();
        let mut report = Vec::new();
        for mut entry in coming {
            let taken = |id: &str| after.iter().any(|other| other.id == id);
            let arrival = if !taken(&entry.id) {
                Arrival::Came
            } else if after.iter().any(|other| other.says_the_same(&entry)) {
                Arrival::Skipped
            } else {
                entry.id = new_id();
                while taken(&entry.id) {
                    entry.id = new_id();
                }
                Arrival::Copied
            };
            if arrival != Arrival::Skipped {
                after.push(entry.clone());
            }
            report.push(Arrived { arrival, entry });
        }
        let count = after.len() + self.unread.len();
        if count > MOST_ENTRIES {
            return Err(RackError::TooMany(count));
        }
        self.entries = after;
        Ok(report)
    }
}
