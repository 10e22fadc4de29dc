//! A rack file into a rack.

use std::collections::BTreeSet;

use super::entry::Entry;
use super::file::Rack;

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
    pub fn take_in(
        &mut self,
        coming: Vec<Entry>,
        mut new_id: impl FnMut() -> String,
    ) -> Vec<Arrived> {
        let ids = self.entries.iter().map(|entry| entry.id.clone());
        let mut taken: BTreeSet<String> = ids.collect();
        let mut report = Vec::new();
        for mut entry in coming {
            let arrival = if !taken.contains(&entry.id) {
                Arrival::Came
            } else if self.entries.iter().any(|other| other.says_the_same(&entry)) {
                Arrival::Skipped
            } else {
                entry.id = new_id();
                while taken.contains(&entry.id) {
                    entry.id = new_id();
                }
                Arrival::Copied
            };
            if arrival != Arrival::Skipped {
                taken.insert(entry.id.clone());
                self.entries.push(entry.clone());
            }
            report.push(Arrived { arrival, entry });
        }
        report
    }
}
