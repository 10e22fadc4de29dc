//! How a work is taken up into the rack without loss.
//!
//! A state may be written over only by one that came from it; what finds another state in its place stands beside it
//! as a copy. So of two pages at one entry neither takes the other's work away, and a note that is taken up twice, by
//! its page and by another that found it, is taken up once. Name, note and all else are looked at apart: where two
//! pages changed different ones, what stands there afterwards has both, and there is no copy.

use super::entry::Entry;
use super::slip::Slip;
use super::work::{Parts, Work, joined, mark};
use crate::design::{Design, FileError, LONGEST_NAME};

/// What stands at an id.
#[derive(Clone, Debug, PartialEq)]
pub enum Place {
    /// Nothing.
    Free,
    /// An entry.
    Taken(Box<Slip>),
    /// What cannot be read, and is not written over.
    Unread,
}

/// What is to be done next.
#[derive(Clone, Debug, PartialEq)]
pub enum Step {
    /// Look what stands at this id, then ask again.
    Look(String),
    /// Write this slip.
    Write(Box<Slip>),
    /// Nothing: it stands there already, under this id.
    Stands(String),
}

/// A work that is being taken up.
#[derive(Clone, Debug)]
pub struct Taking {
    design: Design,
    /// The mark of its text, as its page has it.
    mark: String,
    came_from: Vec<String>,
    base: Option<Parts>,
    copy: String,
    at: u64,
    /// Made and tags of the entry that it is a copy of.
    of: Option<(u64, Vec<String>)>,
    /// How many places of a copy were asked for.
    copies: usize,
    id: String,
}

impl Taking {
    /// Begins with `work`; nothing when it is on no rack. [`Self::id`] says where to look first.
    ///
    /// # Errors
    /// Its design cannot be read.
    #[inline]
    pub fn of(work: &Work) -> Result<Option<Self>, FileError> {
        let Some(id) = work.entry.clone() else {
            return Ok(None);
        };
        Ok(Some(Self {
            design: Design::from_json(&work.design)?,
            mark: mark(&work.design),
            came_from: work.came_from.clone(),
            base: work.base.clone(),
            copy: work.copy.clone(),
            at: work.at,
            of: None,
            copies: 0,
            id,
        }))
    }

    /// The id that is looked at.
    pub fn id(&self) -> &str {
        &self.id
    }

    /// Whether it has become a copy.
    pub fn is_copy(&self) -> bool {
        self.copies > 0
    }

    /// What is to be done, now that `place` stands at [`Self::id`].
    #[inline]
    pub fn found(&mut self, place: &Place) -> Step {
        let (made, tags) = match place {
            Place::Free => self.of.clone().unwrap_or((self.at, Vec::new())),
            Place::Taken(slip) if slip.mark == self.mark && !slip.removed => {
                return Step::Stands(self.id.clone());
            }
            // What was taken off the rack comes back when it is worked on: work is never thrown away.
            Place::Taken(slip) if slip.mark == self.mark || self.came_from.contains(&slip.mark) => {
                (slip.entry.made, slip.entry.tags.clone())
            }
            Place::Taken(slip) => match self.joined_with(&slip.entry.design) {
                Some(design) if design == slip.entry.design && !slip.removed => {
                    return Step::Stands(self.id.clone());
                }
                Some(design) => {
                    self.mark = mark(&design.to_json());
                    self.design = design;
                    (slip.entry.made, slip.entry.tags.clone())
                }
                None => return self.aside(slip.entry.tags.clone()),
            },
            Place::Unread => return self.aside(Vec::new()),
        };
        Step::Write(Box::new(Slip {
            entry: Entry {
                id: self.id.clone(),
                design: self.design.clone(),
                made,
                changed: self.at,
                tags,
            },
            mark: self.mark.clone(),
            removed: false,
        }))
    }

    /// What stands at the entry with what was done here: nothing where both changed the same, and for a copy.
    #[inline]
    fn joined_with(&self, there: &Design) -> Option<Design> {
        let base = self.base.as_ref().filter(|_| !self.is_copy())?;
        joined(base, &self.design, there)
    }

    /// On to the next place of the copy.
    #[inline]
    fn aside(&mut self, tags: Vec<String>) -> Step {
        if self.copies == 0 {
            self.design.name = other_tab(&self.design.name);
            self.mark = mark(&self.design.to_json());
            self.of = Some((self.at, tags));
        }
        self.copies += 1;
        self.id = match self.copies {
            1 => self.copy.clone(),
            more => format!("{}-{more}", self.copy),
        };
        Step::Look(self.id.clone())
    }
}

/// What is added to the name of a copy.
const OTHER_TAB: &str = " (other tab)";

/// What stands for a name in that of a copy where there is none.
const NAMELESS: &str = "hammer without a name";

/// `name` as that of a copy, no longer than a name may be.
fn other_tab(name: &str) -> String {
    let room = LONGEST_NAME.saturating_sub(OTHER_TAB.chars().count());
    let name = match name.trim() {
        "" => NAMELESS,
        _ => name,
    };
    let name: String = name.chars().take(room).collect();
    format!("{}{OTHER_TAB}", name.trim_end())
}
