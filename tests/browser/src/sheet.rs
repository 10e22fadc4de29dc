//! Where things stand on Headwright's sheet, in the words that are on it.

use crate::page::Page;

/// The first part of the list, which is open on a phone at the start.
const PARTS: [&str; 6] = [
    "cheeks",
    "eye",
    "front neck",
    "front face",
    "back neck",
    "back face",
];

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
        let heading = format!("{part}…");
        let open = |page: &Self| {
            let region = page.find("region", part);
            region.is_some_and(|region| page.text_of(&region).contains("free") || page.text_of(&region).contains("locked"))
        };
        if !open(self) {
            self.press("button", &heading);
            self.wait(&format!("“{part}” is open"), || open(self));
        }
    }

    /// Every field with what it holds, part by part.
    pub fn sizes(&self) -> Vec<(String, String)> {
        let mut sizes: Vec<(String, String)> = Vec::new();
        for part in PARTS {
            if self.view.phone && !self.has("button", &format!("{part}…")) {
                continue;
            }
            self.open_part(part);
            for field in self.all("textbox") {
                if !sizes.iter().any(|(name, _)| *name == field.name) {
                    sizes.push((field.name, field.value));
                }
            }
        }
        sizes
    }
}
