//! Pressing, dragging and typing: real events, as the hand makes them.

use serde_json::{Value, json};

use crate::find::Place;
use crate::page::Page;

/// A key without a letter, as WebDriver codes it.
pub mod key {
    /// Tab.
    pub const TAB: &str = "\u{E004}";
    /// Enter.
    pub const ENTER: &str = "\u{E007}";
    /// Escape.
    pub const ESCAPE: &str = "\u{E00C}";
    /// Space.
    pub const SPACE: &str = " ";
    /// Shift, held for the keys after it.
    pub const SHIFT: &str = "\u{E008}";
    /// Control, held for the keys after it.
    pub const CONTROL: &str = "\u{E009}";
    /// Backspace.
    pub const BACKSPACE: &str = "\u{E003}";
    /// Arrow to the left.
    pub const LEFT: &str = "\u{E012}";
    /// Arrow up.
    pub const UP: &str = "\u{E013}";
    /// Arrow to the right.
    pub const RIGHT: &str = "\u{E014}";
    /// Arrow down.
    pub const DOWN: &str = "\u{E015}";
}

/// Keys that are held while the others are struck.
const HELD: [&str; 2] = [key::SHIFT, key::CONTROL];

/// How many steps a drag is made in.
const DRAG_STEPS: u32 = 12;

impl Page {
    /// Presses what has this role and name: with the finger on a phone, else with the mouse.
    pub fn press(&self, role: &str, name: &str) {
        let mut last = None;
        self.wait(
            &format!("the {role} “{name}” lies still, with nothing over it"),
            || {
                let place = self.find(role, name).map(|found| {
                    let place = self.place_of(&found);
                    // As a person does: scrolls only to what is not to be seen.
                    if !place.uncovered {
                        self.show(&found);
                    }
                    place
                });
                let still = place.is_some_and(|place| place.uncovered) && place == last;
                last = place;
                still
            },
        );
        let place: Place = last.expect("it was waited for");
        self.press_at(place.middle());
    }

    /// Presses a point of the window.
    pub fn press_at(&self, (x, y): (f64, f64)) {
        self.pointer(&[
            json!({ "type": "pointerMove", "duration": 0, "x": x.round(), "y": y.round() }),
            json!({ "type": "pointerDown", "button": 0 }),
            json!({ "type": "pause", "duration": 30 }),
            json!({ "type": "pointerUp", "button": 0 }),
        ]);
    }

    /// Presses at one point, moves to another and lets go.
    pub fn drag(&self, from: (f64, f64), to: (f64, f64)) {
        let at = |share: f64| {
            let between = |a: f64, b: f64| (a + (b - a) * share).round();
            json!({ "type": "pointerMove", "duration": 16,
                    "x": between(from.0, to.0), "y": between(from.1, to.1) })
        };
        let mut actions = vec![at(0.0), json!({ "type": "pointerDown", "button": 0 })];
        actions.extend((1..=DRAG_STEPS).map(|i| at(f64::from(i) / f64::from(DRAG_STEPS))));
        actions.push(json!({ "type": "pointerUp", "button": 0 }));
        self.pointer(&actions);
    }

    fn pointer(&self, actions: &[Value]) {
        let kind = if self.view.phone { "touch" } else { "mouse" };
        self.post(
            "actions",
            json!({ "actions": [{ "type": "pointer", "id": kind,
                "parameters": { "pointerType": kind }, "actions": actions }] }),
        );
    }

    /// Strikes keys one after the other. Shift and Control are held to the end.
    pub fn keys(&self, keys: &[&str]) {
        let mut actions = Vec::new();
        let strike = |key: &str| json!({ "type": "keyDown", "value": key });
        let release = |key: &str| json!({ "type": "keyUp", "value": key });
        for &key in keys {
            actions.push(strike(key));
            if !HELD.contains(&key) {
                actions.push(release(key));
            }
        }
        actions.extend(
            HELD.iter()
                .filter(|key| keys.contains(key))
                .map(|key| release(key)),
        );
        self.post(
            "actions",
            json!({ "actions": [{ "type": "key", "id": "keys", "actions": actions }] }),
        );
    }

    /// Types a text, letter by letter.
    pub fn type_text(&self, text: &str) {
        let letters: Vec<String> = text.chars().map(String::from).collect();
        let letters: Vec<&str> = letters.iter().map(String::as_str).collect();
        self.keys(&letters);
    }

    /// Presses the field of this name and writes `text` in the place of what it holds.
    ///
    /// On a phone a row is pressed first, which takes its size in hand.
    pub fn write(&self, name: &str, text: &str) {
        if self.view.phone {
            let row = self.show(&self.wait_for("textbox", name));
            if !row.uncovered {
                self.press_at(row.middle());
            }
        }
        self.press("textbox", name);
        self.wait(&format!("“{name}” has the focus"), || {
            self.focused().1 == self.wait_for("textbox", name).name
        });
        self.overwrite(text);
    }

    /// Writes `text` in the place of what the field with the focus holds.
    pub fn overwrite(&self, text: &str) {
        self.keys(&[key::CONTROL, "a"]);
        if text.is_empty() {
            self.keys(&[key::BACKSPACE]);
        } else {
            self.type_text(text);
        }
    }

    /// Writes `text` into the field of this name and keeps it with Enter.
    pub fn enter(&self, name: &str, text: &str) {
        self.write(name, text);
        self.keys(&[key::ENTER]);
    }

    /// Chooses a file for the page's first file field, as the system's dialogue would.
    pub fn choose_file(&self, path: &std::path::Path) {
        self.choose_file_in("", path);
    }

    /// The same for the first whose label has these words.
    pub fn choose_file_in(&self, label: &str, path: &std::path::Path) {
        let field = format!("//label[contains(., '{label}')]//input[@type='file']");
        let field = self.post("element", json!({ "using": "xpath", "value": field }));
        let id = field
            .as_object()
            .and_then(|ids| ids.values().next())
            .and_then(Value::as_str)
            .expect("an element has an id");
        self.post(
            &format!("element/{id}/value"),
            json!({ "text": path.to_string_lossy() }),
        );
    }

    /// Strikes Tab until what has the focus has this role and name.
    pub fn tab_to(&self, role: &str, name: &str) {
        self.tab(&[key::TAB], role, name);
    }

    /// Strikes Shift and Tab until what has the focus has this role and name.
    pub fn tab_back_to(&self, role: &str, name: &str) {
        self.tab(&[key::SHIFT, key::TAB], role, name);
    }

    fn tab(&self, keys: &[&str], role: &str, name: &str) {
        const MOST: usize = 300;
        let mut seen = Vec::new();
        for _ in 0..MOST {
            self.keys(keys);
            let (has_role, has_name) = self.focused();
            if has_role == role && crate::find::is_called(&has_name, name) {
                return;
            }
            seen.push(format!("{has_role} “{has_name}”"));
        }
        panic!("Tab never reached the {role} “{name}”; it went over {seen:#?}");
    }
}
