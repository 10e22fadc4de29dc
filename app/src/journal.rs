//! What is on the sheet, noted in the browser with every change before anything else is done.
//!
//! A note is a [`Work`] under a key of its own for each page and sheet, so that pages at work at once never write
//! over each other's. What keeps the rack takes notes up (`rack/keeper.rs`); until it has, the note is what a page
//! that is killed leaves behind. A page that is loaded again begins with its own, a new one with the newest.

use leptos::prelude::*;

use super::history::Standing;
use super::keep;
use super::settle::look;
use super::state::{Offered, Workspace};
use headwright::design::Design;
use headwright::rack::{Parts, VERSION, Work, mark};
use headwright::solid::Solid;

/// Keys of notes begin so.
const NOTES: &str = "headwright.work.";
/// Keys of texts that could not be read begin so.
const UNREADABLE: &str = "headwright.unreadable.";
/// Key under which a tab remembers its note, for the time that it is open.
const OF_THIS_TAB: &str = "headwright.tab";
/// How many notes are left where they are though they are on the rack, for tabs that are still open.
const MOST_KNOWN: usize = 20;
/// What was kept before there was a rack: the design put aside for a link or a file, and the present one.
const BEFORE_THE_RACK: [&str; 2] = ["headwright.before", "headwright.design"];

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

/// What a page begins with.
pub struct Found {
    /// How everything stands, and the last sound head; nothing when nothing was noted.
    pub standing: Option<(Standing, Solid)>,
    /// What could not be read.
    pub notice: Option<String>,
    /// Its texts.
    pub offered: Vec<Offered>,
    /// The journal of the page.
    pub journal: Journal,
}

/// Finds the newest note that can be shown, and begins a journal with it, else with `first`.
pub fn find(first: &Design) -> Found {
    let mut notes = stored();
    notes.extend(before_the_rack());
    let mut works = Vec::new();
    let (mut unread, mut offered) = (Vec::new(), Vec::new());
    let mut cannot = |key: &str, text: &str, reason: &str| {
        let aside = key.replacen(NOTES, UNREADABLE, 1);
        let moved = keep::store_text(&aside, text);
        if moved {
            keep::remove(key);
        }
        let kept = if moved { &aside } else { key };
        unread.push(format!(
            "The design kept in this browser can't be shown. {reason} Its text is still kept in this browser, under “{kept}”."
        ));
        offered.push(Offered {
            words: "save its text as a file".to_owned(),
            text: Some(text.to_owned()),
        });
    };
    for (key, text) in notes {
        match Work::from_json(&text) {
            Some(work) => works.push((key, text, work)),
            None => cannot(
                &key,
                &text,
                "It is no note of this Headwright, or a newer one’s.",
            ),
        }
    }
    works.sort_by_key(|(_, _, work)| std::cmp::Reverse(work.at));
    let known = works.iter().filter(|(_, _, work)| !is_all_there_is(work));
    for (key, text, _) in known.skip(MOST_KNOWN) {
        forget(key, text);
    }
    let of_this_tab = keep::tab().and_then(|tab| tab.get_item(OF_THIS_TAB).ok().flatten());
    if let Some(own) = works
        .iter()
        .position(|(key, _, _)| of_this_tab.as_ref() == Some(key))
    {
        works[..=own].rotate_right(1);
    }
    let mut opened = None;
    for (key, text, work) in works {
        match usable(&work.design) {
            Ok(sound) => {
                opened = Some((key, text, work, sound));
                break;
            }
            Err(reason) => cannot(&key, &text, &reason),
        }
    }
    let notice = (!unread.is_empty()).then(|| {
        let instead = match opened {
            Some(_) => "What was worked on before stands in its place.",
            None => "A starter stands in its place.",
        };
        format!("{} {instead}", unread.join(" "))
    });
    let Some((key, text, work, (design, solid))) = opened else {
        return Found {
            standing: None,
            notice,
            offered,
            journal: Journal::new(fresh(first.to_json(), None), None, false),
        };
    };
    let edited = work.edited.as_deref();
    let edited = edited.and_then(|text| Design::from_json(text).ok());
    let found = work.waits.then_some((key, text));
    let mut own = Work {
        copy: id(),
        waits: false,
        ..work
    };
    own.pass(mark(&own.design));
    Found {
        standing: Some((look(edited.unwrap_or(design)), solid)),
        notice,
        offered,
        journal: Journal::new(own, found, true),
    }
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

    /// What is on the sheet is taken off the rack: it goes on as a sheet of its own that is on none, and going back to
    /// the one before puts it on again.
    pub fn take_off(self) {
        let with = self.sheet();
        let design = self.change(|work| {
            work.waits = false;
            work.design.clone()
        });
        self.turn(design, None);
        self.taken_off
            .update_value(|pairs| pairs.push((with, self.sheet())));
    }

    /// The entries that are to be taken off the rack, each told once.
    pub fn to_take_off(self) -> Vec<String> {
        self.to_take_off
            .try_update_value(std::mem::take)
            .unwrap_or_default()
    }

    /// Whether the page has a sheet of the entry `id`, to which undo may lead.
    pub fn has_sheet_of(self, id: &str) -> bool {
        self.sheets
            .with_value(|sheets| sheets.iter().any(|work| work.entry.as_deref() == Some(id)))
    }

    /// Whether what is on the sheet is the entry `id` as it stands on the rack with this mark, or came from there.
    pub fn is_at(self, id: &str, on_rack: &str) -> bool {
        self.sheets.with_value(|sheets| {
            sheets.get(self.sheet()).is_some_and(|work| {
                let came = work.came_from.iter().any(|mark| mark == on_rack);
                work.entry.as_deref() == Some(id) && (came || mark(&work.design) == on_rack)
            })
        })
    }

    /// What is on the sheet is on no rack any more.
    pub fn let_go(self) {
        self.change(|work| {
            work.entry = None;
            work.waits = false;
        });
        self.store();
        self.show_entry();
    }

    /// What is on the sheet is that entry again, if nothing was changed in it since.
    pub fn take_back(self, entered: &Entered) {
        self.change(|work| {
            if work.entry.is_none() && mark(&work.design) == entered.mark {
                work.entry = Some(entered.id.clone());
                work.came_from = vec![entered.mark.clone()];
                work.base.clone_from(&entered.parts);
            }
        });
        self.taken_off
            .update_value(|pairs| pairs.retain(|(_, without)| *without != self.sheet()));
        self.store();
        self.show_entry();
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

    /// Notes of this page that are not on the rack yet, with their sheets.
    pub fn waiting(self) -> Vec<(usize, Work)> {
        self.sheets.with_value(|sheets| {
            let waiting = sheets.iter().enumerate().filter(|(_, work)| work.waits);
            waiting.map(|(sheet, work)| (sheet, work.clone())).collect()
        })
    }

    /// Notes that other pages left and that are not on the rack yet, oldest first, each with its key and its text.
    pub fn of_others(self) -> Vec<(String, String, Work)> {
        let own = self.page.with_value(|page| format!("{NOTES}{page}-"));
        let mut all: Vec<_> = stored()
            .into_iter()
            .filter(|(key, _)| !key.starts_with(&own))
            .filter_map(|(key, text)| Work::from_json(&text).map(|work| (key, text, work)))
            .filter(|(_, _, work)| work.waits)
            .collect();
        all.sort_by_key(|(_, _, work)| work.at);
        all
    }

    /// What another page left is on the rack now, `joined` with what was done elsewhere or as it is.
    pub fn of_another_taken(self, key: &str, text: &str, stands: &Entered, joined: bool) {
        let began = self
            .found
            .with_value(|found| found.as_ref().is_some_and(|(k, _)| k == key));
        if began {
            self.sheets.update_value(|sheets| {
                if let Some(work) = sheets.first_mut() {
                    work.entry = Some(stands.id.clone());
                    if joined {
                        // What was done elsewhere is not on the sheet.
                        let own = Design::from_json(&work.design);
                        work.base = own.ok().as_ref().map(Parts::of);
                    } else {
                        work.came_from.insert(0, stands.mark.clone());
                        work.base.clone_from(&stands.parts);
                    }
                }
            });
            self.store();
            self.show_entry();
        }
        forget(key, text);
    }

    /// What was noted of `sheet` as `took` stands on the rack, `joined` with what was done elsewhere or as it is. Where
    /// that lasts no longer than the page, the note goes on waiting.
    pub fn taken(self, sheet: usize, took: &Work, stands: &Entered, joined: bool, lasts: bool) {
        let waits = self.sheets.try_update_value(|sheets| {
            let work = sheets.get_mut(sheet)?;
            work.entry = Some(stands.id.clone());
            let moved = work.design != took.design;
            work.waits = moved || !lasts;
            if joined {
                // What was done elsewhere is not in it yet: the two have in common what was taken up.
                work.came_from = Vec::new();
                work.base = Design::from_json(&took.design).ok().as_ref().map(Parts::of);
            } else {
                work.came_from = vec![stands.mark.clone()];
                work.base.clone_from(&stands.parts);
            }
            if moved {
                work.pass(mark(&took.design));
            }
            Some(is_all_there_is(work))
        });
        if sheet == self.sheet() {
            self.store();
            self.show_entry();
        } else if waits.flatten() == Some(false) {
            keep::remove(&self.key(sheet));
        }
    }

    fn change<T: Default>(self, change: impl FnOnce(&mut Work) -> T) -> T {
        let sheet = self.sheet();
        let changed = self
            .sheets
            .try_update_value(|sheets| sheets.get_mut(sheet).map(change));
        changed.flatten().unwrap_or_default()
    }

    fn key(self, sheet: usize) -> String {
        self.page
            .with_value(|page| format!("{NOTES}{page}-{sheet}"))
    }

    /// The note of the sheet that is left goes, unless something is in it alone: then it stands as the sheet is left.
    fn leave(self) {
        if self.change(|work| is_all_there_is(work)) {
            self.store();
        } else {
            keep::remove(&self.key(self.sheet()));
        }
    }

    fn show_entry(self) {
        let entry = self.change(|work| work.entry.clone());
        if self.entry.with_untracked(|shown| *shown != entry) {
            self.entry.set(entry);
        }
    }

    /// Writes the note of the sheet; whether the browser took it.
    fn store(self) -> bool {
        let text = self.change(|work| work.to_json());
        let key = self.key(self.sheet());
        let stored = keep::store_text(&key, &text);
        if self.remembered.with_value(|known| *known != key)
            && let Some(tab) = keep::tab()
        {
            // A tab that remembers nothing begins with the newest note.
            let _ = tab.set_item(OF_THIS_TAB, &key);
            self.remembered.set_value(key.clone());
        }
        // The note that the page began with is in this one.
        if stored
            && self.sheet() == 0
            && let Some((key, text)) = self.found.try_update_value(Option::take).flatten()
        {
            forget(&key, &text);
        }
        stored
    }

    /// Writes the note, and says once when the browser refuses.
    fn write(self, workspace: Workspace) {
        if !self.store() && !self.said.get_value() {
            self.said.set_value(true);
            let sentence = if keep::allowed() {
                "The browser’s storage is full: the latest keystrokes are not noted. Save the design as a file, or copy its link."
            } else {
                "This browser lets the page note nothing: what is not on the rack yet is gone when the page is closed. Save it as a file, or copy its link."
            };
            workspace.say(sentence, vec![Offered::sheet()]);
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
    let _ = window_event_listener_untyped("pagehide", move |_| workspace.journal.note(workspace));
}

/// Whether a note has what stands nowhere else: it waits to be taken up, or bears a head that cannot be made.
fn is_all_there_is(work: &Work) -> bool {
    work.waits || work.edited.is_some()
}

/// Every note in the browser, with its key.
fn stored() -> Vec<(String, String)> {
    let keys = keep::keys()
        .into_iter()
        .filter(|key| key.starts_with(NOTES));
    keys.filter_map(|key| keep::read_text(&key).map(|text| (key, text)))
        .collect()
}

/// Removes a note that is still `text`.
fn forget(key: &str, text: &str) {
    if keep::read_text(key).as_deref() == Some(text) {
        keep::remove(key);
    }
}

/// What was kept before there was a rack, as notes.
fn before_the_rack() -> Vec<(String, String)> {
    let mut notes = Vec::new();
    for (index, key) in BEFORE_THE_RACK.into_iter().enumerate() {
        let Some(text) = keep::read(key).or_else(|| keep::read_text(key)) else {
            continue;
        };
        let note = match Design::from_json(&text) {
            Ok(_) => {
                let entered = Entered {
                    id: id(),
                    mark: String::new(),
                    parts: None,
                };
                let mut work = fresh(text, Some(entered));
                work.came_from.clear();
                work.waits = true;
                // In the order in which they were written.
                work.at = work.at.saturating_sub(2 - index as u64);
                work.to_json()
            }
            Err(_) => text,
        };
        let as_note = format!("{NOTES}{key}");
        if keep::store_text(&as_note, &note) {
            keep::remove(key);
        }
        if !notes.iter().any(|(other, _)| *other == as_note) {
            notes.push((as_note, note));
        }
    }
    notes
}

/// A design that can be shown.
fn usable(text: &str) -> Result<(Design, Solid), String> {
    let design = Design::from_json(text).map_err(|error| error.to_string())?;
    match design.build() {
        Ok(solid) => Ok((design, solid)),
        Err(errors) => Err(errors.first().map(ToString::to_string).unwrap_or_default()),
    }
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
