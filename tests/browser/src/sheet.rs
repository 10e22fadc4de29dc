//! Where things stand on Headwright's sheet, in the words that are on it.

use crate::find::Found;
use crate::page::Page;

/// Whether it is the heading of a part of the list: it opens the part and says how many sizes that has.
fn is_heading(button: &Found) -> bool {
    let counts = button.name.ends_with(" size") || button.name.ends_with(" sizes");
    button.expanded.is_some() && counts
}

impl Page {
    /// Goes to the starters and takes the one of this name.
    pub fn begin_with(&self, starter: &str) {
        self.press("button", "starters");
        self.press("button", &format!("{starter}…"));
        self.wait_for_value("name of the head", starter);
    }

    /// Opens a part of the list, where a phone shows one at a time.
    pub fn open_part(&self, part: &str) {
        if !self.view.phone {
            return;
        }
        // The sizes of an open part stand on the drawing too, as buttons that begin with its name.
        let heading = || {
            let mut buttons = self.all("button").into_iter();
            buttons.find(|button| is_heading(button) && button.name.starts_with(part))
        };
        self.wait(&format!("there is a “{part}”"), || heading().is_some());
        if let Some(closed) = heading().filter(|button| button.expanded == Some(false)) {
            self.press("button", &closed.name);
            self.wait(&format!("“{part}” is open"), || {
                heading().is_some_and(|button| button.expanded == Some(true))
            });
        }
    }

    /// The parts of the list, by their headings.
    pub fn parts(&self) -> Vec<String> {
        let buttons = self.all("button").into_iter();
        buttons
            .filter(is_heading)
            .map(|button| button.name)
            .collect()
    }

    /// Every field with what it holds, part by part.
    pub fn sizes(&self) -> Vec<(String, String)> {
        let mut sizes: Vec<(String, String)> = Vec::new();
        let parts = if self.view.phone {
            self.parts()
        } else {
            vec![String::new()]
        };
        for part in parts {
            self.open_part(&part);
            for field in self.all("textbox") {
                if !sizes.iter().any(|(name, _)| *name == field.name) {
                    sizes.push((field.name, field.value));
                }
            }
        }
        sizes
    }
}
