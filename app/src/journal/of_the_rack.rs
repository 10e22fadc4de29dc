//! What of the page's sheets goes to the rack, comes from there and is taken off it.

use leptos::prelude::*;

use super::super::keep;
use super::stored::{NOTES, forget, stored};
use super::{Entered, Journal, is_all_there_is};
use headwright::design::Design;
use headwright::rack::{Parts, Work, mark};

impl Journal {
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
}
