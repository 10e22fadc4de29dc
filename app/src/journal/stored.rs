//! Notes as texts in the browser.

use leptos::prelude::*;

use super::super::keep;
use super::super::state::{Offered, Workspace};
use super::{Journal, is_all_there_is};

/// Keys of notes begin so.
pub(super) const NOTES: &str = "headwright.work.";
/// Key under which a tab remembers its note, for the time that it is open.
pub(super) const OF_THIS_TAB: &str = "headwright.tab";

impl Journal {
    pub(super) fn key(self, sheet: usize) -> String {
        self.page
            .with_value(|page| format!("{NOTES}{page}-{sheet}"))
    }

    /// The note of the sheet that is left goes, unless something is in it alone: then it stands as the sheet is left.
    pub(super) fn leave(self) {
        if self.change(|work| is_all_there_is(work)) {
            self.store();
        } else {
            keep::remove(&self.key(self.sheet()));
        }
    }

    /// Writes the note of the sheet; whether the browser took it.
    pub(super) fn store(self) -> bool {
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
    pub(super) fn write(self, workspace: Workspace) {
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

/// Every note in the browser, with its key.
pub(super) fn stored() -> Vec<(String, String)> {
    let keys = keep::keys()
        .into_iter()
        .filter(|key| key.starts_with(NOTES));
    keys.filter_map(|key| keep::read_text(&key).map(|text| (key, text)))
        .collect()
}

/// Removes a note that is still `text`.
pub(super) fn forget(key: &str, text: &str) {
    if keep::read_text(key).as_deref() == Some(text) {
        keep::remove(key);
    }
}
