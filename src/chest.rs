//! What goes out and in with the rack as one file: designs, the log of builds, costs, the learned ledger of losses.
//!
//! A [`Chest`] is a rack file of version 2: the entries, beside them the log as in a file of its own, costs with what is
//! wanted for them, and the ledger of losses as the log teaches it. The ledger is there for whoever reads the file; it follows
//! from the log and is never read back, so that no evidence counts twice. A file of version 1 is a chest with nothing beside.
//!
//! Nothing of a chest is in a link: a link is made of a design alone, and an offer leaves its bar and losses out.
//!
//! # Examples
//! ```
//! use headwright::chest::Chest;
//! use headwright::design::starter;
//! use headwright::log::Build;
//!
//! let mut chest = Chest::default();
//! let design = starter("rounding").expect("a starter");
//! chest.log.builds.push(Build::begun("build-1", None, design, 0));
//! let again = Chest::from_json(&chest.to_json())?;
//! assert_eq!(again, chest);
//! # Ok::<(), headwright::rack::RackError>(())
//! ```

use std::collections::BTreeMap;

use crate::bar::Loss;
use crate::log::losses::learn;
use crate::log::{BuildArrived, Log};
use crate::price::Costs;
use crate::rack::{Arrival, Arrived, BesideRead, BesideWritten, Entry, Rack, RackError, Unread};

/// What a smith takes along: all of what a rack file holds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Chest {
    /// The designs.
    pub rack: Rack,
    /// The builds.
    pub log: Log,
    /// What goes into hammers, with wage and price; the first is what is reckoned with, the others wait to be chosen.
    pub costs: Vec<Costs>,
    /// Costs that cannot be read, as they stand.
    pub unread_costs: Vec<Unread>,
}

/// What came of one chest, for the report.
#[derive(Clone, Debug, PartialEq)]
pub struct TakenIn {
    /// The designs.
    pub entries: Vec<Arrived>,
    /// The builds.
    pub builds: Vec<BuildArrived>,
    /// How many costs came.
    pub costs: usize,
}

impl Chest {
    /// The chest as the text of a rack file. What cannot be read goes into it as it stands, if it is JSON.
    // Inlined with the others: the page's is built for size, and once.
    #[inline]
    pub fn to_json(&self) -> String {
        let has_log = !(self.log.builds.is_empty() && self.log.unread.is_empty());
        self.rack.to_json_with(BesideWritten {
            log: has_log.then(|| self.log.to_written()),
            costs: Unread::behind(&self.unread_costs, self.costs.iter()),
            learned: self.learned(),
        })
    }

    /// The ledger of losses as the log teaches it: the usual one with every line that was weighed in its place; empty
    /// where none was.
    #[inline]
    pub fn learned(&self) -> Vec<Loss> {
        let learned = learn(&self.log.builds);
        if learned.lines.iter().all(|line| line.builds == 0) {
            return Vec::new();
        }
        learned.bar(&crate::bar::Bar::default()).losses
    }

    /// Reads a rack file of any version. What of it cannot be read is given back as it stands, with the reason.
    ///
    /// # Errors
    /// A sentence when the text is no rack file, is larger than any or was written by a newer program.
    #[inline]
    pub fn from_json(text: &str) -> Result<Self, RackError> {
        let (rack, BesideRead { log, costs }) = Rack::read_with(text)?;
        let mut chest = Self {
            rack,
            ..Self::default()
        };
        if let Some(raw) = log {
            chest.log = Log::read(raw.get()).unwrap_or_else(|reason| Log {
                builds: Vec::new(),
                unread: vec![Unread::new(raw.get(), &reason)],
            });
        }
        for raw in costs {
            match Costs::from_json(raw.get()) {
                Ok(costs) => chest.costs.push(costs),
                Err(reason) => chest.unread_costs.push(Unread::new(raw.get(), &reason)),
            }
        }
        Ok(chest)
    }

    /// Takes `coming` in; nothing that stands here is changed but builds, which are joined by id and lose no event
    /// ([`Log::take_in`]). An id that is taken by something else is given up for one of `new_id`, and builds go on belonging
    /// to the design that they came with. Costs that are not here yet come behind those that are, so that the smith chooses.
    ///
    /// The same file taken in again is skipped as a whole.
    #[inline]
    pub fn take_in(&mut self, coming: Self, mut new_id: impl FnMut() -> String) -> TakenIn {
        let ids: Vec<String> = coming.rack.entries.iter().map(|it| it.id.clone()).collect();
        let entries = self.rack.take_in(coming.rack.entries, &mut new_id);
        let mut now: BTreeMap<String, String> = BTreeMap::new();
        for (id, arrived) in ids.into_iter().zip(&entries) {
            now.insert(id, self.stands_as(arrived));
        }
        let mut builds = coming.log.builds;
        for build in &mut builds {
            let entry = build.entry.as_mut();
            if let Some((entry, id)) = entry.and_then(|it| now.get(it).map(|id| (it, id))) {
                entry.clone_from(id);
            }
        }
        let builds = self.log.take_in(builds, new_id);
        let before = self.costs.len();
        for costs in coming.costs {
            if !self.costs.contains(&costs) {
                self.costs.push(costs);
            }
        }
        take_unread(&mut self.rack.unread, coming.rack.unread);
        take_unread(&mut self.log.unread, coming.log.unread);
        take_unread(&mut self.unread_costs, coming.unread_costs);
        TakenIn {
            entries,
            builds,
            costs: self.costs.len() - before,
        }
    }

    /// The id under which an entry that came stands here.
    #[inline]
    fn stands_as(&self, arrived: &Arrived) -> String {
        let Arrived { arrival, entry } = arrived;
        let there: Vec<&Entry> = self
            .rack
            .entries
            .iter()
            .filter(|other| other.says_the_same(entry))
            .collect();
        let own = there.iter().any(|other| other.id == entry.id);
        match there.first() {
            Some(other) if *arrival == Arrival::Skipped && !own => other.id.clone(),
            _ => entry.id.clone(),
        }
    }
}

/// What cannot be read and is not there yet, for whatever reason.
#[inline]
fn take_unread(here: &mut Vec<Unread>, coming: Vec<Unread>) {
    for unread in coming {
        if !here.iter().any(|other| other.text == unread.text) {
            here.push(unread);
        }
    }
}
