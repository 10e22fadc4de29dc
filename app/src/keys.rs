//! Keys that work anywhere on the page.

use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, KeyboardEvent};

use super::state::{Screen, Workspace};

/// Undo and redo by their usual keys, except in a field, which has its own.
pub fn follow(workspace: Workspace) {
    let _ = window_event_listener(ev::keydown, move |event: KeyboardEvent| {
        let typing = event
            .target()
            .and_then(|target| target.dyn_into::<Element>().ok())
            .is_some_and(|element| matches!(element.tag_name().as_str(), "INPUT" | "TEXTAREA"));
        // Who looks at an offer or presses at a build does not see the head that would change.
        let away = matches!(
            workspace.screen.get_untracked(),
            Screen::Customer | Screen::Log
        );
        if typing || away || !(event.ctrl_key() || event.meta_key()) {
            return;
        }
        match (event.key().to_lowercase().as_str(), event.shift_key()) {
            ("z", false) => workspace.undo(),
            ("z", true) | ("y", false) => workspace.redo(),
            _ => return,
        }
        event.prevent_default();
    });
}
