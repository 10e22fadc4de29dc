//! Several windows of one profile, and a page that dies.

use serde_json::{Value, json};

use crate::page::Page;

/// Reads all that the browser's database has on the rack.
const SLIPS: &str = "const done = arguments[arguments.length - 1];
const open = indexedDB.open('headwright');
open.onerror = () => done([]);
open.onupgradeneeded = () => open.transaction.abort();
open.onsuccess = () => {
    const all = open.result.transaction('slips').objectStore('slips').getAll();
    all.onsuccess = () => { open.result.close(); done(all.result); };
};";

impl Page {
    /// The window that is worked in.
    pub fn window(&self) -> String {
        let handle = self.wire.get("window").unwrap_or_else(|e| panic!("{e}"));
        handle.as_str().expect("a handle is a text").to_owned()
    }

    /// Opens another window of the same profile, empty, and goes on in it.
    pub fn open_window(&self) -> String {
        let new = self.post("window/new", json!({ "type": "window" }));
        let handle = new["handle"].as_str().expect("a handle is a text");
        self.go_to_window(handle);
        self.show_as_viewed();
        handle.to_owned()
    }

    /// Goes on in a window that is open.
    pub fn go_to_window(&self, handle: &str) {
        self.post("window", json!({ "handle": handle }));
    }

    /// Kills the program that runs the page, at once: nothing of the page hears of it. Another window must be gone to.
    pub fn kill(&self) {
        // The answer is that there is nobody left to give one.
        let _ = self.wire.browser_command("Page.crash", &json!({}));
    }

    /// What the browser keeps on the rack: name, note and cheek width of each design, by their names; what is no slip
    /// as it stands.
    pub fn kept(&self) -> Vec<Value> {
        let all = self.slow_script(SLIPS, json!([]));
        let all = all.as_array().cloned().unwrap_or_default();
        let mut kept: Vec<Value> = all
            .iter()
            .map(|text| {
                let text = text.as_str().unwrap_or_default();
                let slip: Value = serde_json::from_str(text).unwrap_or_default();
                let design = &slip["entry"]["design"]["design"];
                json!([design["name"], design["cheeks"]["width"], slip["removed"]])
            })
            .collect();
        kept.sort_by_key(Value::to_string);
        kept
    }

    /// Waits until that is kept.
    pub fn wait_for_kept(&self, expected: &Value) {
        let mut last = Vec::new();
        self.wait(&format!("the rack has {expected}"), || {
            last = self.kept();
            json!(last) == *expected
        });
    }
}
