//! What is on the sheet, noted in the browser with every change before anything else is done.
//!
//! A note is a [`Work`] under a key of its own for each page and sheet, so that pages at work at once never write
//! over each other's. What keeps the rack takes notes up (`rack/keeper.rs`); until it has, the note is what a page
//! that is killed leaves behind. A page that is loaded again begins with its own, a new one with the newest.

use leptos::prelude::*;

use super::state::Workspace;
use headwright::design::Design;
use headwright::rack::{Parts, VERSION, Work, mark};

mod find;
mod of_the_rack;
mod stored;

pub use find::{Found, find};

/// An entry of the rack that comes onto the sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entered {
    /// Its id.
    pub id: String,
    /// The mark that it has on the rack.
    pub mark: String,
    /// What it is there, in its parts, where that is known.
    pub parts: Option<Parts>,
}

/// The sheets that this page has had, each with its note.
#[derive(Clone, Copy)]
pub struct Journal {
    /// Tells this page from all others.
    page: StoredValue<String>,
    sheets: StoredValue<Vec<Work>>,
    now: StoredValue<usize>,
    /// The entry that is on the sheet; nothing while it is on no rack.
    pub entry: RwSignal<Option<String>>,
    /// Counts what was noted.
    pub noted: RwSignal<u32>,
    /// Key and text of the note that the page began with, if that was not on the rack yet.
    found: StoredValue<Option<(String, String)>>,
    /// Whether it began with a note.
    began: bool,
    /// Whether it was said that nothing can be noted.
    said: StoredValue<bool>,
    /// The key that the tab remembers.
    remembered: StoredValue<String>,
    /// Sheets from which an entry was taken off the rack: the one with it, and the one that came in its place.
    taken_off: StoredValue<Vec<(usize, usize)>>,
    /// Entries that are to be taken off the rack again, because that was redone.
    to_take_off: StoredValue<Vec<String>>,
}

/// A note of `design` as it came onto the sheet.
fn fresh(design: String, entry: Option<Entered>) -> Work {
    let (entry, came_from, base) = match entry {
        Some(entered) => (Some(entered.id), vec![entered.mark], entered.parts),
        None => (None, Vec::new(), None),
    };
    Work {
        version: VERSION,
        entry,
        copy: id(),
        came_from,
        base,
        at: now(),
        waits: false,
        design,
        edited: None,
    }
}

impl Journal {
    fn new(work: Work, found: Option<(String, String)>, began: bool) -> Self {
        Self {
            page: StoredValue::new(id()),
            entry: RwSignal::new(work.entry.clone()),
            sheets: StoredValue::new(vec![work]),
            now: StoredValue::new(0),
            noted: RwSignal::new(0),
            found: StoredValue::new(found),
            began,
            said: StoredValue::new(false),
            remembered: StoredValue::new(String::new()),
            taken_off: StoredValue::new(Vec::new()),
            to_take_off: StoredValue::new(Vec::new()),
        }
    }

    /// The sheet that is in front.
    pub fn sheet(self) -> usize {
        self.now.get_value()
    }

    /// Notes what is on the sheet, if it is not what was noted last.
    pub fn note(self, workspace: Workspace) {
        let text = workspace.design.with_untracked(Design::to_json);
        let sound = workspace.problems.with_untracked(Vec::is_empty);
        let changed = self.change(|work| {
            let same = match (sound, &work.edited) {
                (true, edited) => work.design == text && edited.is_none(),
                (false, edited) => edited.as_ref() == Some(&text),
            };
            if same {
                return false;
            }
            if sound {
                if work.design != text {
                    work.pass(mark(&work.design));
                    work.waits = true;
                }
                work.design = text;
                work.edited = None;
            } else {
                work.edited = Some(text);
            }
            // From here on it is a hammer of its own.
            if work.waits && work.entry.is_none() {
                work.entry = Some(id());
            }
            work.at = now();
            true
        });
        if changed {
            self.write(workspace);
            self.show_entry();
            self.noted.update(|count| *count += 1);
        }
    }

    /// Puts what is on the sheet on the rack, though nothing was changed in it.
    pub fn put_on(self, workspace: Workspace) {
        self.change(|work| {
            work.entry.get_or_insert_with(id);
            work.waits = true;
        });
        self.write(workspace);
        self.show_entry();
        self.noted.update(|count| *count += 1);
    }

    /// A sheet of its own for `design`; the one before stays as it was noted.
    pub fn turn(self, design: String, entry: Option<Entered>) {
        self.leave();
        self.sheets.update_value(|sheets| {
            sheets.push(fresh(design, entry));
            self.now.set_value(sheets.len() - 1);
        });
        self.store();
        self.show_entry();
    }

    /// Back to a sheet that the page had before.
    pub fn turn_back(self, sheet: usize) {
        if sheet == self.sheet() {
            return;
        }
        let from = self.sheet();
        let is_pair = |pair| self.taken_off.with_value(|pairs| pairs.contains(&pair));
        let (is_back, is_off) = (is_pair((sheet, from)), is_pair((from, sheet)));
        if is_off {
            self.to_take_off
                .update_value(|ids| ids.extend(self.change(|work| work.entry.clone())));
            self.change(|work| work.waits = false);
        }
        self.leave();
        self.now.set_value(sheet);
        self.change(|work| {
            work.at = now();
            // It comes back when it is taken up.
            work.waits |= is_back;
        });
        if is_back {
            let id = self.change(|work| work.entry.clone());
            self.to_take_off
                .update_value(|ids| ids.retain(|other| Some(other) != id.as_ref()));
        }
        self.store();
        self.show_entry();
        if is_back || is_off {
            self.noted.update(|count| *count += 1);
        }
    }

    /// Whether nothing was done since the page was opened.
    pub fn untouched(self) -> bool {
        self.sheets.with_value(Vec::len) == 1 && self.noted.get_untracked() == 0
    }

    /// Whether what the page began with still waits to be taken up.
    pub fn is_owed(self) -> bool {
        self.found.with_value(Option::is_some)
    }

    /// Notes what is on the sheet; whether the browser has it now.
    pub fn is_noted(self, workspace: Workspace) -> bool {
        self.note(workspace);
        self.store()
    }

    /// Whether the page began with a note.
    pub fn began_with_a_note(self) -> bool {
        self.began
    }

    /// The sound design that was noted last.
    pub fn mark(self) -> String {
        self.sheets.with_value(|sheets| {
            let work = sheets.get(self.sheet());
            work.map(|work| mark(&work.design)).unwrap_or_default()
        })
    }

    fn change<T: Default>(self, change: impl FnOnce(&mut Work) -> T) -> T {
        let sheet = self.sheet();
        let changed = self
            .sheets
            .try_update_value(|sheets| sheets.get_mut(sheet).map(change));
        changed.flatten().unwrap_or_default()
    }

    fn show_entry(self) {
        let entry = self.change(|work| work.entry.clone());
        if self.entry.with_untracked(|shown| *shown != entry) {
            self.entry.set(entry);
        }
    }
}

/// Notes the design whenever it changes, while a size is dragged when there is time, and at the latest when the page goes.
pub fn follow(workspace: Workspace) {
    let behind = workspace.behind();
    Effect::new(move |before: Option<()>| {
        behind.design.track();
        if before.is_some() {
            workspace.journal.note(workspace);
        }
    });
    let _ = window_event_listener_untyped("pagehide", move |_| {
        workspace.stand_ahead();
        workspace.journal.note(workspace);
    });
}

/// Whether a note has what stands nowhere else: it waits to be taken up, or bears a head that cannot be made.
fn is_all_there_is(work: &Work) -> bool {
    work.waits || work.edited.is_some()
}

/// An id that no other has.
pub fn id() -> String {
    let part = || (js_sys::Math::random() * f64::from(u32::MAX)) as u32;
    format!("{:08x}{:08x}", part(), part())
}

/// Now, ms after 1970 began, UTC.
pub fn now() -> u64 {
    js_sys::Date::now() as u64
}
